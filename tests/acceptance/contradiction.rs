//! A reading that says otherwise than what is on file is no pass; what the app has is not asked for again.

use liftgate_core::record::{Body, ThingNumber};
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::Walk;

fn read(person: &mut Person, (stage, check): (&'static str, &'static str), unit: &str, value: &str) {
    person.go_to(stage, check);
    person.enter(unit, value);
    person.tap("Record");
}

#[test]
fn flights_on_a_pack_are_asked_once_and_counted_since() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    example::read_packs_at_rest(&mut walk.person, walk.kind, 7);
    walk.step();
    walk.fly();
    walk.land();
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Add a pack reading");
    assert_eq!(walk.person.typed("Flights on it so far").0, "8", "{}", walk.person.words());
    walk.person.enter("Name", "After that one");
    walk.person.enter("Resistance", "30");
    walk.person.tap("Record it");
    let Body::ThingSet { thing, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!(thing.number(ThingNumber::Flights), Some(8.0));
}

#[test]
fn what_two_figures_give_is_offered_as_the_third() {
    let mut person = Person::new();
    person.home();
    person.tap("Aircraft");
    for (title, value) in [("Motor turns for one main rotor turn", "10.5"), ("Teeth of the motor pinion", "20")] {
        person.tap(title);
        person.enter(title, value);
        person.tap("Record it");
        person.home();
        person.tap("Aircraft");
    }
    person.tap("Teeth of the main gear");
    assert_eq!(person.typed("Teeth of the main gear").0, "210", "{}", person.words());
    let said = person.tap("Record it: measured").said;
    assert_eq!(said.as_deref(), Some("Teeth of the main gear: 210, measured"));
}

#[test]
fn a_mass_that_the_scales_do_not_show_is_no_pass_and_both_are_shown() {
    let weighed = ("Weight and balance", "Weighed, ready to fly");
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    let person = &mut walk.person;
    read(person, weighed, "Reading", "8.5");
    person.go_to(weighed.0, weighed.1);
    let (edge, word, says) = person.row("Scale readings").expect("what is on file, one touch away");
    assert_eq!((edge, word.as_str(), says.as_deref()), (Edge::Stop, "Does not agree", Some("9 kg")));
    person.tap("Scale readings");
    person.home();
    assert!(person.words().contains("8.5 kg was read, and scale readings on file says 9 kg"), "{}", person.verdict());
}

#[test]
fn a_design_mass_of_another_aircraft_is_shown_beside_what_was_added_up() {
    let planned = ("Figures and papers", "Planned mass under the limit");
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    let person = &mut walk.person;
    assert_eq!(standing(person, planned), "Holds");
    person.home();
    person.tap("Aircraft");
    person.tap("Design flying mass, packs in");
    person.enter("Design flying mass, packs in", "2.5");
    person.tap("Record it");
    read(person, planned, "Reading", "9.4");
    person.go_to(planned.0, planned.1);
    let (edge, word, says) = person.row("Design flying mass, packs in").expect("the figure, one touch away");
    assert_eq!((edge, word.as_str(), says.as_deref()), (Edge::Stop, "Does not agree", Some("2.5 kg")));
    assert_ne!(standing(person, planned), "Holds", "and its gate waits");
}

#[test]
fn what_follows_from_the_figures_is_worked_out_and_not_typed() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    let person = &mut walk.person;
    person.home();
    person.tap("Aircraft");
    person.tap("Head speed for everyday flying");
    person.enter("Head speed for everyday flying", "1400");
    person.enter("Why it changes", "For show");
    person.tap("Record it");
    // It is the figure that is judged, whatever anybody would type.
    person.go_to("Figures and papers", "Head speed under the blades' rating");
    assert!(person.verdict().contains("1400 rpm"), "{}", person.verdict());
    assert!(person.verdict().contains("light in service"), "it says which run: {}", person.verdict());
    person.go_to("Hover ladder", "Steps between hover speeds are small");
    assert!(person.verdict().contains("%, from 1160 to 1400 rpm"), "{}", person.verdict());
    assert!(person.controls().iter().all(|(_, control)| control.label != "How many main blades has it?"));
}

fn standing(person: &mut Person, (stage, check): (&'static str, &'static str)) -> String {
    person.home();
    person.tap(stage);
    person.row(check).unwrap().1
}
