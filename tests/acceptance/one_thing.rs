//! A thing that is described, corrected or changed sends back what rests on that thing, and nothing else.

use std::collections::BTreeSet;

use liftgate_core::plan::{Plan, SHIPPED};
use liftgate_core::readiness::{Gate, Ledger, Report};
use liftgate_core::record::{Body, OnAircraft, ThingNumber};
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "Flight in service";

fn report(person: &Person) -> Report {
    let plan = Plan::parse("the shipped plan", SHIPPED).unwrap();
    Ledger::of(&plan, &person.entries()).at(&plan, &person.now)
}

fn held(person: &Person) -> BTreeSet<String> {
    let standings = report(person).standings;
    standings.into_iter().filter(|(_, standing)| standing.holds()).map(|(check, _)| check).collect()
}

fn lapsed(person: &Person) -> Vec<String> {
    let gates = report(person).gates;
    gates.into_iter().filter(|(_, gate)| matches!(gate, Gate::Lapsed { .. })).map(|(stage, _)| stage).collect()
}

/// What held before and does not any more.
fn sent_back(person: &mut Person, by: impl FnOnce(&mut Person)) -> Vec<String> {
    let before = held(person);
    by(person);
    before.difference(&held(person)).cloned().collect()
}

fn open(person: &mut Person, thing: &str) {
    person.home();
    person.tap("Aircraft");
    person.tap(thing);
}

#[test]
fn a_current_written_down_wrong_sends_back_what_was_computed_from_it() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let back = sent_back(&mut walk.person, |person| {
        open(person, "Receiver leads");
        person.enter("Continuous current", "6");
        assert!(person.control("Record it").is_none(), "the pilot says which it is");
        let changed = person.control("Changed on the aircraft").unwrap();
        let told = changed.detail.unwrap();
        assert!(told.ends_with(" checks are to be done again"), "{told}");
        person.tap("Only written down wrong");
    });
    assert_eq!(back, ["wire-runs"]);
    let Body::ThingSet { on_aircraft, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!(on_aircraft, OnAircraft::AsItWas);
}

#[test]
fn a_wire_that_was_changed_sends_back_what_was_proved_with_it() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let back = sent_back(&mut walk.person, |person| {
        open(person, "Receiver leads");
        person.enter("Continuous current", "6");
        person.tap("Changed on the aircraft");
    });
    for check in ["wire-runs", "pack-polarity-and-cells", "receiver-voltage-under-load", "range-check"] {
        assert!(back.iter().any(|id| id == check), "{check} of {back:?}");
    }
    assert!(!back.iter().any(|id| id == "hover-low"), "no flight rests on the wiring: {back:?}");
}

#[test]
fn one_more_pack_of_the_same_kind_leaves_a_proven_aircraft_proven() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let before = walk.person.entries();
    let first = before.iter().find_map(|entry| match &entry.body {
        Body::ThingSet { thing, .. } if thing.name == "Pack 1" => Some(thing.clone()),
        _ => None,
    });
    let first = first.unwrap();
    let back = sent_back(&mut walk.person, |person| {
        person.home();
        person.tap("Aircraft");
        person.tap("Add a pack");
        person.enter("Name", "Pack 2");
        let typed = [
            ("Cells in series", ThingNumber::Cells),
            ("Capacity", ThingNumber::CapacityMah),
            ("Mass", ThingNumber::MassG),
            ("Its middle, ahead", ThingNumber::XMm),
        ];
        for (label, field) in typed {
            if let Some(value) = first.number(field) {
                person.enter(label, &value.to_string());
            }
        }
        person.tap("Record it");
    });
    assert_eq!(back, ["pack-life", "pack-resistance"], "only whether each pack is still fit");
    assert_eq!(lapsed(&walk.person), Vec::<String>::new());
}

#[test]
fn describing_what_was_there_keeps_what_was_read() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let back = sent_back(&mut walk.person, |person| {
        person.home();
        person.tap("Aircraft");
        person.tap("Add a consumer");
        person.enter("Name", "Tail light");
        person.tap("Servo supply");
        for (label, value) in [
            ("Lowest voltage rated", "4.5"),
            ("Highest voltage rated", "8.5"),
            ("Steady current, each", "0.1"),
            ("How many", "1"),
        ] {
            person.enter(label, value);
        }
        person.tap("It was there before");
    });
    let computed = ["receiver-pack-endurance", "supply-load", "supply-window"];
    assert!(back.iter().all(|id| computed.contains(&id.as_str())) && back.len() == 3, "{back:?}");
}

#[test]
fn a_change_sends_the_ladder_back_to_the_lowest_rung_that_it_touched() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let rungs = ["hover-low", "hover-mid", "hover-high", "hover-service"];
    let rungs_back =
        |back: Vec<String>| back.into_iter().filter(|id| rungs.contains(&id.as_str())).collect::<Vec<_>>();
    let person = &mut walk.person;
    let back = sent_back(person, |person| {
        open(person, "Head speed of the second hover");
        person.enter("Head speed of the second hover", "1090");
        person.enter("Why it changes", "A hum at 1080");
        person.tap("Record it");
    });
    let mut above = rungs_back(back);
    above.sort_unstable();
    assert_eq!(above, ["hover-high", "hover-mid", "hover-service"], "the lowest one stands");
    let back = sent_back(person, |person| {
        open(person, "Record a change");
        person.enter("What was done", "Another tail servo");
        person.tap("Tail servo");
        person.tap("Record the change");
    });
    assert_eq!(rungs_back(back), ["hover-low"]);
    person.home();
    let verdict = person.verdict();
    assert!(verdict.contains("'Hover at the lowest head speed'"), "{verdict}");
    assert!(person.words().contains("To fly again: Tail servo"), "the board says where it begins again, and why");
}

#[test]
fn a_part_to_come_is_on_the_aircraft_when_it_is_taken_off_that_list() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let back = sent_back(&mut walk.person, |person| {
        person.home();
        person.tap("Aircraft");
        person.tap("Add a part to come");
        person.enter("Name", "Rotor brake");
        person.enter("Mass", "40");
        person.enter("Ahead of the main shaft", "0");
        person.enter("Right of the main shaft", "0");
        person.tap("Record it");
    });
    assert!(!back.iter().any(|id| id == "weigh-all-up" || id == "hover-low"), "it is not fitted yet: {back:?}");
    open(&mut walk.person, "Rotor brake");
    assert!(walk.person.control("It will not come").is_some());
    let back = sent_back(&mut walk.person, |person| {
        person.tap("It is fitted now");
    });
    assert!(["weigh-all-up", "hover-low"].iter().all(|id| back.iter().any(|back| back == id)), "{back:?}");
}
