//! A run counts by the check's own minutes, a charge by the pack, a temperature by the air and the clock; and no next card comes before the
//! last landing was jotted down or left in words.

use liftgate_core::record::{Body, Odd};
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::{Walk, places_wanted};

const FLIGHT: &str = "Hover at the lowest head speed";
const NEXT: &str = "Hover at the second head speed";

/// From the card to the pilot's landing page, planned and flown for so long.
fn flown(walk: &mut Walk, planned_min: Option<&str>, seconds: i64) {
    walk.person.go_to("Hover ladder", FLIGHT);
    walk.person.tap("Draw up the card");
    walk.draw_up();
    if let Some(minutes) = planned_min {
        walk.person.enter("Planned time, motor on", minutes);
    }
    walk.hand_over();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(seconds);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
}

fn read(person: &mut Person, celsius: Option<&str>, used: &str) {
    for place in places_wanted(&person.screen()) {
        let read = celsius.unwrap_or_else(|| example::temperature(&place)).to_owned();
        person.enter(&place, &read);
    }
    person.enter("Charge used", used);
}

fn standing(person: &mut Person, flight: &str) -> (Edge, String, Option<String>) {
    person.home();
    person.tap("Hover ladder");
    person.row(flight).unwrap_or_else(|| panic!("{}", person.words()))
}

/// What stands before a card, by the words of its rows.
fn in_the_way(person: &mut Person, flight: &str) -> Vec<String> {
    person.go_to("Hover ladder", flight);
    let rows = liftgate_tests::controls(&person.screen()).into_iter().map(|(words, _)| words).collect();
    person.home();
    rows
}

#[test]
fn three_seconds_on_a_card_that_planned_six_prove_no_rung() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    flown(&mut walk, Some("0.1"), 3);
    let short = "Flown 0:03 of the 2:00 that this check wants";
    assert!(walk.person.row(short).is_some(), "told before anything is read: {}", walk.person.words());
    read(&mut walk.person, None, "80");
    walk.person.tap("As it should be");
    let (edge, _, detail) = standing(&mut walk.person, FLIGHT);
    assert_eq!(edge, Edge::Missing);
    assert!(detail.unwrap().contains("flown 0:03 of the 2:00 that this check wants"));
    assert!(in_the_way(&mut walk.person, NEXT).iter().any(|row| row == FLIGHT));
}

#[test]
fn the_card_says_that_a_run_as_planned_is_no_evidence() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    let words = "A shorter run than the 2:00 that this check wants is no evidence for it";
    assert!(walk.person.row(words).is_none(), "{}", walk.person.words());
    walk.person.enter("Planned time, motor on", "1");
    assert!(walk.person.row(words).is_some(), "{}", walk.person.words());
}

#[test]
fn more_charge_than_the_pack_holds_is_asked_about_and_none_at_all_as_well() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    flown(&mut walk, None, 120);
    let person = &mut walk.person;
    read(person, None, "11900");
    let refused = person.refused("As it should be");
    assert!(refused.starts_with("11900 mAh is more than the 10000 mAh that Pack 1 holds"), "{refused}");
    person.enter("Charge used", "9900");
    let refused = person.refused("As it should be");
    assert!(refused.starts_with("That leaves 1 % in Pack 1, under the reserve of 20 %"), "{refused}");
    person.enter("Charge used", "0");
    let refused = person.refused("As it should be");
    assert!(refused.starts_with("0 mAh after 2:00 with the motor on"), "{refused}");
    person.tap("It is so");
    person.tap("As it should be");
    let Body::LandingRecorded { confirmed, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(confirmed, [Odd::NoCharge]);
}

#[test]
fn all_places_at_the_airs_own_temperature_are_asked_about_and_one_below_it_too() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    flown(&mut walk, None, 120);
    let person = &mut walk.person;
    read(person, Some("20"), "2000");
    let refused = person.refused("As it should be");
    assert!(refused.starts_with("Nothing is warmer than the air at 20 °C, after 2:00"), "{refused}");
    read(person, None, "2000");
    person.enter("Motor case", "2");
    let refused = person.refused("As it should be");
    assert!(refused.starts_with("Motor case 2 °C, colder than the air at 20 °C"), "{refused}");
    person.tap("It is so");
    person.enter("Motor case", "3");
    person.refused("As it should be");
}

#[test]
fn a_temperature_three_hours_after_touchdown_completes_no_landing_and_says_so() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    flown(&mut walk, None, 120);
    walk.person.wait(3 * 3_600);
    let expected = "2000";
    read(&mut walk.person, None, expected);
    walk.person.tap("As it should be");
    let (edge, _, detail) = standing(&mut walk.person, FLIGHT);
    let detail = detail.unwrap();
    assert_eq!(edge, Edge::Missing, "{detail}");
    assert!(detail.contains("after touchdown: too late to count"), "{detail}");
}

#[test]
fn no_next_card_before_the_last_landing_is_jotted_down_or_left_in_words() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    flown(&mut walk, None, 120);
    let person = &mut walk.person;
    let landing = format!("Landing of {FLIGHT}");
    assert!(in_the_way(person, FLIGHT).contains(&landing), "not even the same again");
    assert!(in_the_way(person, NEXT).contains(&landing));
    assert!(person.row(&landing).is_some(), "{}", person.words());
    person.tap("Jot down the landing");
    let refused = person.refused("As it should be");
    assert!(refused.starts_with("Nothing was read yet"), "{refused}");
    person.enter("Nothing read, because", "The thermometer broke");
    person.tap("Leave it at that, as typed");
    let Body::LandingWaived { reason, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(reason, "The thermometer broke");
    assert!(!in_the_way(person, FLIGHT).contains(&landing), "to be flown again");
    assert!(in_the_way(person, NEXT).iter().any(|row| row == FLIGHT), "and proves nothing");
}

#[test]
fn a_charge_that_lifts_nothing_is_asked_about_and_told_on_the_next_card() {
    let mut walk = Walk::at_flight(Kind::Scale, "Flight in service");
    walk.give_away();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(240);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    let person = &mut walk.person;
    read(person, None, "190");
    let refused = person.refused("As it should be");
    assert!(
        refused.starts_with("190 mAh after 4:00 with the motor on, and lifting this aircraft takes"),
        "{refused}"
    );
    person.tap("It is so");
    person.tap("As it should be");
    person.home();
    person.tap("Draw up the card");
    let words = "2.9 A does not lift this aircraft: that time cannot be";
    let (edge, _, detail) = person.row(words).unwrap_or_else(|| panic!("{}", person.words()));
    assert_eq!(edge, Edge::Caution);
    assert_eq!(detail.as_deref(), Some("Correct the charge of the landing that it comes from"));
    person.tap(words);
    assert_eq!(person.screen().name, "landing");
}
