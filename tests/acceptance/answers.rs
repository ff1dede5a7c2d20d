//! What was seen, or read past a stop, holds every later card until it is answered: by words, by a finding, or by the reading that was
//! meant.

use liftgate_core::record::{Body, FindingGrade, Judgement, MarkKind};
use liftgate_core::view::{Block, Edge};
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::{Walk, places_wanted};

const FLIGHT: &str = "Hover at the lowest head speed";
const NEXT: &str = "Hover at the second head speed";

/// The whole of a hover, with what the spotter notes and how warm the controller is afterwards.
fn hover(marks: &[MarkKind], controller_c: &str) -> Walk {
    let mut walk = flown(marks, controller_c);
    walk.person.tap("As it should be");
    walk
}

/// A hover whose readings are entered and not recorded yet.
fn flown(marks: &[MarkKind], controller_c: &str) -> Walk {
    let mut walk = landed(marks);
    for place in places_wanted(&walk.person.screen()) {
        let celsius =
            if place == "Controller" { controller_c.to_owned() } else { example::temperature(&place).to_owned() };
        walk.person.enter(&place, &celsius);
    }
    let expected = walk.expected_mah.take().unwrap();
    walk.person.enter("Charge used", &expected);
    walk
}

/// A hover that is down, with what the spotter noted.
fn landed(marks: &[MarkKind]) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    walk.draw_up();
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
    walk
}

/// Whether something that wants an answer stands first in the way of a flight.
fn card_is_held(person: &mut Person, flight: &str) -> bool {
    person.go_to("Hover ladder", flight);
    let asks = |block: &Block| matches!(block, Block::Row { state, .. } if state == "To answer");
    let is_held = person.screen().blocks.iter().any(asks);
    assert!(!is_held || !person.control("Draw up the card").unwrap().enabled);
    person.home();
    is_held
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
fn a_stop_that_was_a_slip_is_left_out_with_its_reason_and_asks_no_more() {
    let mut walk = hover(&[], "96");
    let person = &mut walk.person;
    let reason = person.refused("Controller 96");
    assert!(reason.contains("Why it was a slip"), "{reason}");
    person.enter("A slip, because", "The gun was on the cowling");
    person.tap("Controller 96");
    let Body::LandingRecorded { slip, temperatures, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(slip.as_deref(), Some("The gun was on the cowling"));
    assert!(temperatures.iter().all(|reading| reading.celsius < 90.0));
    assert!(person.control("Raise it as a stop").is_none(), "{}", person.words());
}

#[test]
fn a_run_that_was_not_so_is_no_evidence_and_holds_every_card_until_it_is_a_finding() {
    let mut walk = flown(&[], "60");
    let person = &mut walk.person;
    person.tap("Not so, or called off");
    let reason = person.refused("Not so");
    assert!(reason.contains("What was not so"), "{reason}");
    person.enter("What was not so, or why it was called off", "The tail wagged in the climb");
    person.tap("Not so");
    let Body::LandingRecorded { judgement, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(judgement, Judgement::NotSo { why: "The tail wagged in the climb".to_owned() });
    assert_eq!(person.screen().name, "landing", "the pilot stays where the answer is");
    person.home();
    assert!(card_is_held(person, FLIGHT), "not even the same flight again");
    person.tap("Not as it should be: The tail wagged in the climb");
    person.tap("A finding");
    let Body::FindingRaised { title, proof, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!((title.as_str(), proof.as_str()), ("The tail wagged in the climb", "hover-low"));
    person.go_to("Hover ladder", FLIGHT);
    assert!(person.words().contains("Not as it should be: The tail wagged in the climb"), "{}", person.words());
}

#[test]
fn a_run_that_was_called_off_is_no_evidence_whatever_its_readings_are() {
    let mut walk = flown(&[], "60");
    let person = &mut walk.person;
    person.tap("Not so, or called off");
    person.enter("What was not so, or why it was called off", "A dog on the field");
    person.tap("Called off");
    person.home();
    assert!(!card_is_held(person, FLIGHT), "nothing is asked, it is flown again");
    person.go_to("Hover ladder", NEXT);
    assert!(person.row(FLIGHT).is_some(), "it stands in the way of the next: {}", person.words());
    person.home();
    person.go_to("Hover ladder", FLIGHT);
    assert!(person.words().contains("This one was: A dog on the field"), "{}", person.words());
}

#[test]
fn where_something_speaks_against_a_run_the_last_reading_does_not_say_that_all_was_well() {
    let mut walk = landed(&[MarkKind::Shake]);
    let person = &mut walk.person;
    while person
        .screen()
        .blocks
        .iter()
        .any(|block| matches!(block, Block::Heading { text, .. } if text.ends_with(" reads")))
    {
        let chips = person.controls().into_iter().map(|(label, _)| label);
        let offered =
            chips.filter(|label| label.split(' ').next().is_some_and(|number| number.parse::<i32>().is_ok()));
        let middle = offered.collect::<Vec<_>>()[5].clone();
        person.tap(&middle);
    }
    let Body::LandingRecorded { judgement, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(judgement, Judgement::Open, "the readings are safe, and the pilot is asked");
    person.tap("A gust");
    person.home();
    assert!(card_is_held(person, NEXT));
    person.tap("How the run was");
    person.tap("As it should be");
    let Body::LandingRecorded { judgement, temperatures, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(judgement, Judgement::AsItShouldBe);
    assert!(!temperatures.is_empty(), "what was read is kept");
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
