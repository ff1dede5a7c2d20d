//! What would be refused when it is touched does not look as if it would be taken: the card's one control is closed, and the error stands at
//! its field.

use liftgate_tests::Person;
use liftgate_tests::example::{BUILDER, Kind, SPOTTER};
use liftgate_tests::walk::Walk;

/// A card on which nothing is missing.
fn card() -> Person {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.person.tap("Draw up the card");
    walk.draw_up();
    assert!(walk.person.control("Hand over").unwrap().enabled);
    walk.person
}

fn why_closed(person: &Person) -> Option<String> {
    person.control("Hand over").unwrap().why_not
}

#[test]
fn a_time_that_no_run_takes_closes_the_card_and_is_said_at_its_field() {
    let mut person = card();
    for typed in ["-3", "45", "soon"] {
        person.enter("Planned time, motor on", typed);
        assert_eq!(why_closed(&person).as_deref(), Some("Put the planned time right first"), "{typed}");
        assert!(person.typed("Planned time, motor on").1.is_some(), "{typed}: {}", person.words());
        assert!(person.control("Hand over").unwrap().detail.is_none_or(|words| !words.contains("-3 min")));
    }
    person.enter("Planned time, motor on", "1");
    assert_eq!(why_closed(&person), None);
    assert_eq!(person.typed("Planned time, motor on").1, None);
    person.tap("Hand over");
}

#[test]
fn air_that_cannot_be_closes_the_card_and_is_said_at_its_field() {
    let mut person = card();
    for typed in ["99", "cool"] {
        person.enter("Air temperature", typed);
        assert_eq!(why_closed(&person).as_deref(), Some("Enter the air temperature first"));
        assert!(person.typed("Air temperature").1.unwrap().contains(typed), "{}", person.words());
    }
    person.enter("Air temperature", "19");
    assert_eq!(why_closed(&person), None);
}

#[test]
fn a_spotter_who_is_the_builder_closes_the_card_and_is_said_at_its_field() {
    let mut person = card();
    person.enter("Spotter's name", BUILDER);
    assert_eq!(why_closed(&person).as_deref(), Some("Enter the spotter's name first"));
    assert!(person.typed("Spotter's name").1.unwrap().contains("somebody else"));
    person.enter("Spotter's name", SPOTTER);
    assert_eq!(why_closed(&person), None);
}
