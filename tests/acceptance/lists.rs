//! "Each wire bears its current": the pilot says that these are all the wires, and the check says how many it judged.

use liftgate_core::record::{Body, CheckResult};
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind, Thing};
use liftgate_tests::walk::Walk;

const STAGE: &str = "Bench electrics";
const CHECK: &str = "Each wire bears its current";

/// A wire run of this name, with so much current.
fn wire(person: &mut Person, name: &'static str, amperes: &'static str) {
    let numbers: &'static [(&str, &str)] = Box::leak(Box::new([
        ("Gauge, AWG", "14"),
        ("Length one way", "0.3"),
        ("Continuous current", amperes),
        ("Voltage of its source", "7.4"),
    ]));
    example::describe(person, &Thing { kind: "wire run", name, fed_by: None, numbers });
}

fn stands(person: &mut Person) -> (String, Option<String>) {
    person.home();
    person.tap(STAGE);
    let (_, state, detail) = person.row(CHECK).expect("the check");
    person.home();
    (state, detail)
}

#[test]
fn one_toy_wire_does_not_pass_for_all_of_them() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    // As one who wants to get past: the one real run is taken off, and a toy at 0 A described.
    person.tap("Aircraft");
    person.tap("Receiver leads");
    person.tap("It is gone");
    wire(person, "Toy", "0");
    person.go_to(STAGE, CHECK);
    let (edge, state, detail) = person.row("Toy").expect("what carries nothing is asked about");
    assert_eq!((edge, state.as_str()), (Edge::Caution, "Carries nothing"));
    assert!(detail.unwrap().starts_with("0 A: is that so?"));
    person.tap("Keep this result");
    let (state, detail) = stands(person);
    assert_eq!(state, "Incomplete");
    assert!(detail.as_deref().unwrap_or_default().contains("that all wire runs are described"), "{detail:?}");

    // Described as it is, and declared: the check says how many it judged.
    wire(person, "Toy battery lead", "3");
    wire(person, "Tail lead", "4");
    person.go_to(STAGE, CHECK);
    person.tap("Toy");
    person.enter("Continuous current", "2");
    person.tap("Record it");
    assert!(person.row("Toy").is_none_or(|(edge, ..)| edge != Edge::Caution));
    person.tap("That is all: wire runs (3)");
    let Body::ListDeclared { count: 3, idle, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert!(idle.is_empty());
    person.tap("Keep this result");
    let Body::CheckRecorded { result: CheckResult::Computed { judged, .. }, .. } = person.last() else { panic!() };
    assert_eq!(judged.iter().map(|judged| judged.count).collect::<Vec<_>>(), [3]);
    let (state, detail) = stands(person);
    assert!(state.starts_with("Holds"), "{state}");
    assert!(detail.as_deref().unwrap_or_default().contains("Listed: wire runs (3)"), "{detail:?}");

    // One more opens this list again, and no other.
    person.go_to(STAGE, "Each supply bears its load");
    person.tap("That is all: supplies");
    wire(person, "Light lead", "1");
    person.go_to(STAGE, CHECK);
    assert!(person.control("That is all: wire runs (4)").is_some());
    person.home();
    person.go_to(STAGE, "Each supply bears its load");
    assert!(person.control("That is all: supplies").is_none());
}

#[test]
fn a_wire_that_carries_nothing_is_declared_by_that_word() {
    let mut person = Person::new();
    wire(&mut person, "Spare lead", "0");
    person.tap("Aircraft");
    person.tap("That is all: wire runs (1), 1 of them carries nothing");
    let Body::ListDeclared { idle, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(idle, ["Spare lead"]);
    assert!(person.control("That is all: wire runs").is_none());
}
