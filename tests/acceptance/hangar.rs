//! Several aircraft on one phone: each with its own stages and proofs, with packs that go from one to the other.

use liftgate_core::app::AppError;
use liftgate_core::record::Body;
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind, NAME, PACK};
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "Hover at the lowest head speed";
const SECOND: &str = "Osprey";
const GO_ON: &str = "Go on with the backup";

/// Begins another aircraft from wherever the person is.
fn begin(person: &mut Person, name: &str) {
    person.home();
    person.tap("Aircraft");
    person.tap("Another aircraft");
    person.enter("The aircraft's name", name);
    person.tap("Begin it");
}

/// Turns to another aircraft through the list.
fn turn_to(person: &mut Person, name: &str) {
    person.home();
    person.tap("Hangar");
    person.tap(name);
}

#[test]
fn another_aircraft_begins_with_nothing_proved_and_leaves_the_first_as_it_stood() {
    let mut person = Walk::at_flight(Kind::Scale, FLIGHT).person;
    person.home();
    assert!(person.row("Hangar").is_none(), "with one aircraft there is no list");
    let before = person.verdict();
    assert!(before.starts_with("Nothing stands between"), "{before}");
    begin(&mut person, SECOND);
    assert_eq!((person.screen().name.as_str(), person.screen().title.as_str()), ("board", SECOND));
    assert!(person.verdict().starts_with("At least"), "{}", person.verdict());
    person.tap("Aircraft");
    assert_eq!(person.row(PACK).unwrap().1, "To take over", "the other one's pack: {}", person.words());
    person.home();
    person.killed();
    assert_eq!(person.screen().title, SECOND, "the one that was in view last opens");
    person.tap("Hangar");
    let (edge, state, detail) = person.row(NAME).unwrap();
    assert_eq!((edge, state.as_str(), detail.as_deref()), (Edge::Fresh, "Nothing in the way", Some(before.as_str())));
    let (edge, _, detail) = person.row(SECOND).unwrap();
    assert_eq!(edge, Edge::Stale);
    assert!(detail.unwrap().contains("First: "), "{}", person.words());
    person.tap(NAME);
    assert_eq!((person.screen().title.as_str(), person.verdict()), (NAME, before));
    assert!(person.control("Draw up the card").is_some());
    person.home();
    begin(&mut person, "Kestrel");
    assert_eq!(person.row("Hangar").unwrap().1, "3 aircraft");
}

#[test]
fn an_aircraft_that_was_begun_by_mistake_is_taken_back_while_nothing_was_recorded_of_it() {
    let mut person = Person::new();
    example::name(&mut person);
    begin(&mut person, SECOND);
    person.tap("Take back");
    assert_eq!(person.screen().title, NAME);
    assert!(person.row("Hangar").is_none(), "{}", person.words());
    person.killed_and_the_same();
    begin(&mut person, SECOND);
    example::enter_figure(&mut person, "Number of main blades", "3");
    person.tap("Journal");
    person.tap("Another aircraft begun");
    person.enter("Why it is withdrawn", "I build no second one");
    assert!(person.refused("Withdraw this entry").starts_with("More than its name"));
}

#[test]
fn the_list_speaks_the_language_that_was_chosen_last() {
    let mut person = Person::new();
    example::name(&mut person);
    begin(&mut person, SECOND);
    person.tap("Hangar");
    assert!(person.words().contains("First: "), "{}", person.words());
    person.home();
    person.tap("Language and units");
    person.tap("Deutsch");
    person.tap("Zurück");
    person.tap("Halle");
    assert!(!person.words().contains("First: "), "{}", person.words());
    assert!(person.row(NAME).unwrap().2.unwrap().contains("Zuerst: "), "{}", person.words());
    assert!(!person.words().contains("How is the tail"), "{}", person.words());
}

#[test]
fn a_name_that_another_aircraft_has_is_refused_where_it_stands() {
    let mut person = Person::new();
    example::name(&mut person);
    begin(&mut person, SECOND);
    person.home();
    person.tap("Aircraft");
    person.tap("Another aircraft");
    for taken in [SECOND, NAME] {
        person.enter("The aircraft's name", taken);
        assert_eq!(person.refused("Begin it"), format!("There is an aircraft '{taken}' already"));
    }
}

#[test]
fn what_is_typed_for_one_aircraft_stands_on_no_page_of_another() {
    let mut person = Person::new();
    example::name(&mut person);
    begin(&mut person, SECOND);
    person.tap("Aircraft");
    person.tap("Number of main blades");
    person.enter("Number of main blades", "5");
    turn_to(&mut person, NAME);
    person.tap("Aircraft");
    person.tap("Number of main blades");
    assert_eq!(person.typed("Number of main blades").0, "");
    person.enter("Number of main blades", "3");
    person.tap("Record it: measured");
    turn_to(&mut person, SECOND);
    person.tap("Aircraft");
    person.tap("Number of main blades");
    assert_eq!(person.typed("Number of main blades").0, "5", "it waits where it was typed");
}

#[test]
fn a_pack_of_one_aircraft_is_taken_over_by_another_and_is_one_pack_from_then_on() {
    let mut person = Walk::at_flight(Kind::Scale, FLIGHT).person;
    begin(&mut person, SECOND);
    person.tap("Aircraft");
    person.tap("Add a pack");
    person.enter("Name", PACK);
    person.enter("Cells in series", "6");
    person.enter("Capacity", "3000");
    assert!(person.refused("Record it").contains("needs another name"));
    person.enter("Name", "Small pack");
    person.tap("Record it");
    person.home();
    person.tap("Packs");
    assert_eq!(person.row(PACK).unwrap().1, "To take over");
    person.tap(PACK);
    assert_eq!(person.typed("Capacity").0, "10000", "{}", person.words());
    person.tap("Record it");
    person.home();
    person.tap("Packs");
    assert!(person.row(PACK).is_some_and(|(_, state, _)| state != "To take over"), "{}", person.words());
    let note = "Swollen";
    let control = person.controls().into_iter().find(|(_, control)| control.spoken == format!("{PACK}: swollen"));
    person.touch(&control.unwrap_or_else(|| panic!("no '{note}' for {PACK}")).1);
    turn_to(&mut person, NAME);
    person.tap("Packs");
    assert_eq!(person.row(PACK).unwrap().1, "Retired: swollen");
}

#[test]
fn the_spotters_card_is_of_one_aircraft_and_reaches_no_other() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    begin(&mut walk.person, SECOND);
    turn_to(&mut walk.person, NAME);
    walk.person.tap("Hangar");
    let other = walk.person.control(SECOND).unwrap();
    walk.person.home();
    walk.person.tap("Draw up the card");
    walk.draw_up();
    let pilot = walk.person.phone.pilot().unwrap();
    walk.hand_over();
    let now = walk.person.now.clone();
    assert!(matches!(pilot.tap(&other.token, &now), Err(AppError::NotYourTurn { .. })));
    walk.person.killed();
    assert!(walk.person.spotter().screen(&walk.person.now).is_ok(), "the turn goes on after the app was killed");
}

#[test]
fn two_aircraft_come_to_their_hovers_in_one_journal() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let first = walk.person.dossier();
    begin(&mut walk.person, SECOND);
    let mut walk = Walk::of(walk.person, Kind::Scale);
    walk.person.tap("Packs");
    walk.person.tap(PACK);
    walk.person.tap("Record it");
    // Its reading came with it.
    let own = example::things(Kind::Scale).filter(|thing| !thing.kind.starts_with("pack"));
    own.for_each(|thing| example::describe(&mut walk.person, thing));
    walk.until_flight(FLIGHT);
    let mut person = walk.person;
    assert_eq!(person.screen().title, SECOND);
    turn_to(&mut person, NAME);
    assert!(person.verdict().starts_with("Nothing stands between"), "{}", person.verdict());
    let both = person.dossier();
    let (pages, chain) = both.split_once("<h2 id=\"chain\">").unwrap();
    assert!(!pages.contains(SECOND), "a dossier is of one aircraft");
    assert!(chain.contains(" of other aircraft in this journal."), "and its chain of the whole journal");
    assert!(both.len() > first.len(), "its chain is of the whole journal");
    let backup = person.backup();
    let mut other = Person::new();
    other.now = person.now.clone();
    other.to_the_backup();
    other.bring_in("both.zip", &backup);
    other.tap(GO_ON);
    other.home();
    assert_eq!(other.row("Hangar").unwrap().1, "2 aircraft");
    let of = |person: &Person| person.phone.verify().unwrap();
    assert_eq!(of(&other), of(&person));
    let begun = person.entries().into_iter().filter(|entry| matches!(entry.body, Body::AircraftBegun { .. }));
    assert_eq!(begun.count(), 1);
}
