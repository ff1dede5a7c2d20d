//! Who stands under a gate has a name, and a second person is somebody else.

use liftgate_core::record::Body;
use liftgate_tests::Person;
use liftgate_tests::example::{self, BUILDER, Kind, NAME, SPOTTER};
use liftgate_tests::walk::Walk;

/// From the names as a person finds them on the board.
fn names(person: &mut Person, builder: &str, pilot: &str) {
    person.enter("The aircraft's name", NAME);
    person.enter("Builder's name", builder);
    person.enter("Pilot's name, if another person flies", pilot);
    person.tap("Record the names");
    person.home();
}

#[test]
fn names_stand_before_the_first_gate_one_touch_from_their_form() {
    let mut person = Person::new();
    let screen = person.screen();
    assert_eq!(screen.foot[0].label, "Enter");
    let words = "Names of the aircraft, its builder and its pilot";
    assert_eq!(screen.foot[0].detail.as_deref(), Some(words));
    assert_eq!(person.row(words).unwrap().1, "To enter");
    person.tap("Enter");
    assert_eq!(person.screen().title, "Names");
    names(&mut person, "Tove Lind", BUILDER);
    assert!(person.row(words).is_none());

    let mut walk = Walk::of(person, Kind::Scale);
    walk.until_released("Figures and papers");
    let Body::GateReleased { by, .. } = walk.person.last() else { panic!("the release is recorded") };
    assert_eq!(by, BUILDER, "who flies stands under it");
}

#[test]
fn names_are_changed_one_by_one_and_an_emptied_pilot_is_the_builder_again() {
    let mut person = Person::new();
    person.tap("Enter");
    names(&mut person, "Tove Lind", BUILDER);
    person.tap("Aircraft");
    assert_eq!(person.row(NAME).unwrap().2.unwrap(), format!("built by Tove Lind, flown by {BUILDER}"));
    person.tap(NAME);
    person.enter("Pilot's name, if another person flies", "");
    person.tap("Record the names");
    assert_eq!(person.row(NAME).unwrap().2.as_deref(), Some("built by Tove Lind"));
}

#[test]
fn a_second_person_is_somebody_else_than_who_built_it_and_who_flies_it() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until(|person| person.screen().foot[0].detail.as_deref() == Some("Failsafe stops the motor"));
    walk.person.tap("Do");
    if walk.person.control("To its run").is_some() {
        walk.person.tap("To its run");
        walk.person.home();
        walk.until_flight("Motor at its slowest, on the bench");
        walk.person.tap("Draw up the card");
        walk.fly();
        walk.land();
        walk.person.go_to("Bench electrics", "Failsafe stops the motor");
    }
    let person = &mut walk.person;
    person.enter("Reading", example::reading("Failsafe stops the motor"));
    for own in [BUILDER.to_owned(), BUILDER.to_uppercase(), format!(" {}  ", BUILDER.replace(' ', "   "))] {
        person.enter("Second person's name", &own);
        let count = person.entries().len();
        let reason = person.refused("Record");
        assert!(reason.contains("a second person is somebody else"), "{reason}");
        assert_eq!(person.entries().len(), count, "nothing was recorded");
    }
    // Who came before is one touch.
    person.tap(SPOTTER);
    assert_eq!(person.typed("Second person's name").0, SPOTTER);
    person.tap("Record");
    let Body::CheckRecorded { witness, .. } = person.last() else { panic!("the check is recorded") };
    assert_eq!(witness.as_deref(), Some(SPOTTER));
}

#[test]
fn the_pilot_is_no_spotter() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    walk.person.tap("Draw up the card");
    walk.draw_up();
    walk.person.enter("Spotter's name", &BUILDER.to_lowercase());
    let reason = walk.person.typed("Spotter's name").1.unwrap();
    assert!(reason.contains("a second person is somebody else"), "{reason}");
    assert!(!walk.person.control("Hand over").unwrap().enabled);
    walk.person.tap(SPOTTER);
    walk.hand_over();
}
