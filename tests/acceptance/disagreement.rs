//! A charge that is not as predicted: a sentence says why, and what lies far out becomes a finding.

use liftgate_core::record::{Body, FindingGrade};
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::{Walk, places_wanted};

const HOVER: &str = "Hover at the lowest head speed";

/// At the page of the first hover, landed with so many milliampere hours over what its card expects.
fn landed(used: impl Fn(f64) -> f64) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, HOVER);
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.answer_marks();
    for place in places_wanted(&walk.person.screen()) {
        walk.person.enter(&place, example::temperature(&place));
    }
    let high_mah = walk.person.entries().into_iter().rev().find_map(|entry| match entry.body {
        Body::CardDrawn { prediction: Some(prediction), .. } => Some((prediction.low_mah, prediction.high_mah)),
        _ => None,
    });
    let (low_mah, high_mah) = high_mah.expect("a prediction");
    walk.person.enter("Charge used", &format!("{:.0}", high_mah + used(high_mah - low_mah)));
    walk.person.tap("As it should be");
    walk.person.go_to("Hover ladder", HOVER);
    walk
}

#[test]
fn an_explanation_is_a_sentence() {
    let mut walk = landed(|width| width / 2.0);
    let person = &mut walk.person;
    let count = person.entries().len();
    for nothing in ["x", "gusts", "x y z", "."] {
        person.enter("Why it differs", nothing);
        let reason = person.refused("Record the explanation");
        assert!(reason.starts_with("The explanation: a sentence that tells another person"), "{reason}");
    }
    assert_eq!(person.entries().len(), count, "nothing was recorded");
    person.enter("Why it differs", "Gusts all along");
    person.tap("Record the explanation");
    let Body::DisagreementExplained { why, used_mah, .. } = person.last() else { panic!("it is recorded") };
    assert_eq!(why, "Gusts all along");
    assert!(used_mah.is_some(), "for the charge that was read");
}

#[test]
fn the_board_leads_to_the_explanation_and_not_to_flying_again() {
    let mut walk = landed(|width| width / 2.0);
    let person = &mut walk.person;
    person.home();
    let verdict = person.verdict();
    assert!(verdict.contains("between") && !verdict.starts_with("Nothing"), "{verdict}");
    let (_, state, how) = person.row(HOVER).unwrap_or_else(|| panic!("{}", person.words()));
    assert_eq!(state, "Not as predicted");
    assert_eq!(how.as_deref(), Some("Say why the charge used lies outside its prediction"));
    assert!(person.control("Draw up the card").is_none(), "{}", person.words());
    person.tap(HOVER);
    assert_eq!(person.screen().foot[0].label, "Record the explanation");
    person.enter("Why it differs", "Gusts all along");
    person.tap("Record the explanation");
    person.home();
    assert_eq!(person.row(HOVER).unwrap().1, "Holds", "told as what was just recorded: {}", person.words());
}

#[test]
fn what_lies_far_out_is_a_finding_of_one_touch_and_no_explanation() {
    let mut walk = landed(|width| 3.0 * width);
    let person = &mut walk.person;
    assert!(person.control("Record the explanation").is_none(), "{}", person.words());
    assert!(person.words().contains("no explanation does for that"), "{}", person.words());
    person.tap("Raise a finding");
    let Body::FindingRaised { title, grade, .. } = person.last() else { panic!("it is recorded") };
    assert!(title.contains(" mAh used, "), "{title}");
    assert_eq!(grade, FindingGrade::Caution);
    person.home();
    assert!(person.row(&title).is_some(), "it holds the next rung: {}", person.words());
}
