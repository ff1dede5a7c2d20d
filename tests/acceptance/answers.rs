//! What was seen, or read past a stop, holds every later card until it is answered: by words, by a finding, or by the reading that was
//! meant.

use liftgate_core::record::{Body, FindingGrade, MarkKind};
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::{Walk, places_wanted};

const FLIGHT: &str = "Hover at the lowest head speed";
const NEXT: &str = "Hover at the second head speed";

/// The whole of a hover, with what the spotter notes and how warm the controller is afterwards.
fn hover(marks: &[MarkKind], controller_c: &str) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    walk.draw_up();
    let expected = walk.person.figure("Charge it should use").unwrap().0;
    walk.hand_over();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    for mark in marks {
        walk.person.wait(20);
        spotter.mark(*mark, &walk.person.now).unwrap();
    }
    walk.person.wait(120 - 20 * marks.len() as i64);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    for place in places_wanted(&walk.person.screen()) {
        let celsius =
            if place == "Controller" { controller_c.to_owned() } else { example::temperature(&place).to_owned() };
        walk.person.enter(&place, &celsius);
    }
    walk.person.enter("Charge used", &expected);
    walk.person.tap("Record the landing");
    walk
}

fn card_is_held(person: &mut Person, flight: &str) -> bool {
    person.go_to("Hover ladder", flight);
    let held = !person.control("Draw up the card").unwrap().enabled;
    person.home();
    held
}

#[test]
fn a_hover_with_marks_opens_no_card_until_each_is_answered() {
    let mut walk = hover(&[MarkKind::Shake, MarkKind::Tail, MarkKind::Smell], "60");
    let person = &mut walk.person;
    assert_eq!(person.screen().name, "landing", "the pilot stays where the answers are");
    person.home();
    assert!(person.row("Shake at 0:20, in hover at the lowest head speed").is_some(), "{}", person.words());
    assert!(card_is_held(person, NEXT));
    assert!(card_is_held(person, FLIGHT), "nor is the same flown once more");

    // In words, in one touch; in the pilot's own; as a finding.
    person.tap("Shake at 0:20");
    person.tap("A gust");
    let field = "Nothing to it, because";
    person.enter(field, "Held into the wind");
    person.tap("Nothing to it, as typed");
    let Body::MarkAnswered { words, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(words, "Held into the wind");
    assert!(card_is_held(person, NEXT), "one is open still");
    person.tap("Smell at 1:00");
    person.tap("A finding");
    let Body::FindingRaised { title, grade, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!((title.as_str(), grade), ("Smell at 1:00", FindingGrade::Caution));
    person.home();
    let (edge, state, _) = person.row("Smell at 1:00").unwrap();
    assert_eq!((edge, state.as_str()), (Edge::Stop, "Open"), "the finding holds it now");
    assert!(person.row("Shake at 0:20, in hover at the lowest head speed").is_none());
}

#[test]
fn a_temperature_past_its_stop_is_a_finding_of_stop_grade_in_one_touch() {
    let mut walk = hover(&[], "96");
    let person = &mut walk.person;
    assert_eq!(person.screen().name, "landing");
    person.home();
    assert!(card_is_held(person, FLIGHT), "not even what it was flown for");
    person.tap("Controller 96 °C, past its stop");
    person.tap("Raise it as a stop");
    let Body::FindingRaised { grade, proposed_from, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(grade, FindingGrade::Stop);
    assert_eq!(proposed_from.and_then(|from| from.place().map(str::to_owned)).as_deref(), Some("controller"));
    assert!(person.control("Raise it as a stop").is_none(), "asked once");
}

#[test]
fn a_stop_that_was_misread_is_left_out_and_asks_no_more() {
    let mut walk = hover(&[], "96");
    let person = &mut walk.person;
    person.tap("Controller 96");
    assert!(person.control("Raise it as a stop").is_none(), "{}", person.words());
}

#[test]
fn an_answer_that_was_a_slip_is_taken_back_and_asks_again() {
    let mut walk = hover(&[MarkKind::Shake], "60");
    let person = &mut walk.person;
    person.tap("A gust");
    person.home();
    person.tap("Take back");
    let asked = "Shake at 0:20, in hover at the lowest head speed";
    assert!(person.row(asked).is_some(), "{}", person.words());
    assert!(card_is_held(person, NEXT));
}
