//! Things of a kind are alike: one more like one that is there begins with the numbers that such things share.

use liftgate_core::record::{Body, ThingNumber};
use liftgate_core::view::{Block, Screen};
use liftgate_tests::Person;
use liftgate_tests::example::{self, CONSUMERS, Kind};
use liftgate_tests::walk::Walk;

/// A new aircraft with its supply and the servos of its swashplate, on the aircraft's page.
fn with_servos() -> Person {
    let mut person = Person::new();
    example::name(&mut person);
    example::describe(&mut person, &example::SUPPLY);
    example::describe(&mut person, &CONSUMERS[0]);
    person.tap("Aircraft");
    person
}

#[test]
fn a_servo_like_another_begins_with_what_both_are_rated_for_and_asks_for_the_rest() {
    let mut person = with_servos();
    person.tap("One more like Swashplate servos");
    assert_eq!(person.screen().title, "New consumer");
    for (label, text) in
        [("Lowest voltage rated", "6"), ("Highest voltage rated", "8.6"), ("Steady current, each", "0.2")]
    {
        assert_eq!(person.typed(label).0, text, "what is recorded stands in view: {label}");
    }
    assert!(person.control("Servo supply").unwrap().chosen, "and what feeds it");
    for (label, own) in [("Name", ""), ("How many", ""), ("Current when stalled, each", "")] {
        assert_eq!(person.typed(label).0, own, "{label} is its own, or nobody said");
    }
    assert!(person.refused("Record it").contains("name of the consumer"));
    person.enter("Name", "Tail servo");
    assert!(person.refused("Record it").contains("How many"), "nothing is taken that nobody saw");
    person.enter("How many", "1");
    person.enter("Highest voltage rated", "8.4");
    // Killed in between, it is still like the other.
    person.killed_and_the_same();
    person.tap("Record it");
    let Body::ThingSet { thing, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!((thing.name.as_str(), thing.of.as_deref()), ("Tail servo", Some("Servo supply")));
    let numbers: Vec<(&str, f64)> = thing.numbers.iter().map(|(id, value)| (id.as_str(), *value)).collect();
    assert_eq!(numbers, [("high_v", 8.4), ("low_v", 6.0), ("quantity", 1.0), ("steady_a", 0.2)]);
}

#[test]
fn what_is_emptied_on_it_stays_empty_and_what_was_typed_stays() {
    let mut person = with_servos();
    person.tap("Swashplate servos");
    person.enter("Current when stalled, each", "3");
    person.tap("Record it");
    // Half of a new one is typed, and then it turns out to be like the servos.
    person.tap("Add a consumer");
    person.enter("Name", "Gear servo");
    person.enter("Steady current, each", "0.1");
    person.tap("Back");
    person.tap("One more like Swashplate servos");
    assert_eq!(person.typed("Name").0, "Gear servo", "nothing typed is lost");
    assert_eq!(person.typed("Steady current, each").0, "0.1");
    assert_eq!(person.typed("Current when stalled, each").0, "3");
    person.enter("Current when stalled, each", "");
    assert_eq!(person.typed("Current when stalled, each").0, "");
    person.enter("How many", "2");
    person.tap("Record it");
    let Body::ThingSet { thing, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(thing.number(ThingNumber::FaultA), None, "{thing:?}");
    assert_eq!(thing.number(ThingNumber::HighV), Some(8.6));
    // The next new one is like none again, until somebody says so.
    person.tap("Add a consumer");
    assert_eq!(person.typed("Highest voltage rated").0, "");
    person.tap("Back");
    // The last one described is the one that is offered; any other on its own page.
    assert!(person.control("One more like Gear servo").is_some());
    person.tap("Swashplate servos");
    person.tap("One more like Swashplate servos");
    assert_eq!(person.typed("Steady current, each").0, "0.2");
    person.tap("Back");
    person.tap("Back");
    person.tap("Add a consumer");
    assert_eq!(person.typed("Steady current, each").0, "", "given up, it is like none");
}

#[test]
fn what_has_to_be_measured_of_each_is_never_taken_from_another() {
    let mut person = Walk::new(Kind::Scale).person;
    person.tap("Aircraft");
    let one = |person: &mut Person, words: &str| {
        person.tap(words);
        let screen = person.screen();
        person.tap("Back");
        screen
    };
    let blank = |screen: &Screen, measured: &[&str]| {
        let empty = screen.blocks.iter().filter_map(|block| match block {
            Block::Entry { label, text, .. } if text.is_empty() => Some(label.clone()),
            _ => None,
        });
        let empty: Vec<String> = empty.collect();
        for label in measured {
            assert!(empty.iter().any(|known| known == label), "'{label}' is measured: {empty:?}");
        }
    };
    blank(
        &one(&mut person, "One more like Servo supply"),
        &["Peak, all servos stirred unloaded", "Ripple, peak to peak"],
    );
    blank(&one(&mut person, "One more like Receiver leads"), &["Continuous current"]);
    blank(&one(&mut person, "One more like Pack 1"), &["Mass", "Resistance when new"]);
    for none in
        ["One more like Main blade", "One more like Left wheel", "One more like Crew", "One more like Reading"]
    {
        assert!(person.control(none).is_none(), "all of it is measured: {none}");
    }
}
