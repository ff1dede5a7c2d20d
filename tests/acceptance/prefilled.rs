//! What stands in view on a form is what is recorded, whoever put it there.

use liftgate_core::record::{Body, FindingGrade};
use liftgate_tests::Person;
use liftgate_tests::example::{BUILDER, Kind, SPOTTER};
use liftgate_tests::walk::Walk;

#[test]
fn one_of_two_names_is_changed_and_the_other_stays_as_it_stands() {
    let mut person = Walk::new(Kind::Scale).person;
    person.tap("Aircraft");
    person.tap("Regenpfeifer");
    assert_eq!(person.typed("Builder's name").0, BUILDER);
    person.enter("The aircraft's name", "Kiebitz");
    person.tap("Record the names");
    let Body::AircraftNamed { name, builder, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!((name.as_str(), builder.as_str()), ("Kiebitz", BUILDER));
}

#[test]
fn whom_to_call_is_changed_and_the_address_stays_as_it_stands() {
    let mut person = Person::new();
    person.tap("Fire or accident");
    person.enter("Number to call", "112");
    person.enter("Address of the site, and the way in", "Mill Lane 4, second gate");
    person.tap("Record");
    person.enter("Number to call", "999");
    person.tap("Record");
    let Body::EmergencyNoted { call, address } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!((call.as_str(), address.as_str()), ("999", "Mill Lane 4, second gate"));
}

#[test]
fn who_held_the_phone_or_saw_something_is_offered_for_one_touch() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    let person = &mut walk.person;
    person.wait(24 * 3_600);
    person.tap("Draw up the card");
    assert!(person.control(SPOTTER).is_some(), "on the card of another day");
    person.tap(SPOTTER);
    assert_eq!(person.typed("Spotter's name").0, SPOTTER);
    person.go_to("Fit-out", "Critical screws locked and marked");
    assert!(person.control(SPOTTER).is_some(), "and at a check that wants a second person");
}

#[test]
fn a_finding_that_a_failed_stop_raises_is_a_stop_at_first() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until(|person| person.screen().foot[0].detail.as_deref() == Some("Planned mass under the limit"));
    let person = &mut walk.person;
    person.tap("Do");
    person.enter("Reading", "12.5");
    person.tap("Record 12.5");
    person.tap("Raise a finding");
    assert!(person.control("Stop").unwrap().chosen, "{}", person.words());
    person.enter("What is wrong", "Heavier than its permission");
    person.tap("Raise it");
    let Body::FindingRaised { grade, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(grade, FindingGrade::Stop);
}
