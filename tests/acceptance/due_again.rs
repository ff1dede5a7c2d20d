//! What was done before and is due again before a flight, at every stage, is done on the card: a touch each, and no page of its own.

use liftgate_core::record::Body;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const SECOND: &str = "Hover at the second head speed";

/// The hover at the lowest head speed is flown and landed, and what is read on it is read.
fn after_the_first_hover() -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.land();
    assert_eq!(walk.person.screen().name, "board");
    assert_eq!(walk.person.screen().foot[0].label, "Do", "a check of the stage is read on its own page");
    walk.person.tap("Do");
    walk.person.enter("Reading", "5");
    walk.person.tap("Record 5");
    walk
}

#[test]
fn on_the_ladder_the_board_leads_to_the_card_when_what_stands_between_was_done_before() {
    let mut walk = after_the_first_hover();
    let screen = walk.person.screen();
    assert_eq!(screen.name, "board", "what comes next is a card: the board says so first");
    assert!(walk.person.verdict().starts_with("4 things stand"), "{}", walk.person.verdict());
    assert_eq!(screen.foot[0].label, "Draw up the card");
    walk.person.tap("Draw up the card");
    let hand_over = walk.person.control("Hand over").unwrap();
    assert_eq!(hand_over.why_not.as_deref(), Some("4 things are due first"));
    let before = walk.person.entries().len();
    walk.do_what_is_due();
    let done: Vec<String> = walk.person.entries()[before..]
        .iter()
        .filter_map(|entry| match &entry.body {
            Body::CheckRecorded { check, .. } => Some(check.clone()),
            _ => None,
        })
        .collect();
    assert_eq!(done.len(), 4, "each is evidence of its own: {done:?}");
    assert_eq!(walk.person.screen().title, SECOND);
    walk.fly();
}

#[test]
fn what_was_never_done_is_done_on_its_own_page_where_it_says_how() {
    // Before the first hover the warmth of the pack was never read.
    let mut walk = Walk::at_flight(Kind::Scale, "Light on the gear, and the tail");
    walk.until_released("Ground run");
    walk.person.tap("Do");
    walk.person.tap("Keep this result");
    assert_eq!(walk.person.screen().name, "check");
    walk.person.home();
    assert_eq!(walk.person.screen().foot[0].label, "Do");
}

#[test]
fn what_failed_is_seen_to_on_its_own_page() {
    let mut walk = after_the_first_hover();
    walk.person.tap("Pack cells even, no swelling");
    walk.person.enter("Reading", "0.06");
    walk.person.tap("Record 0.06");
    walk.person.home();
    assert_eq!(walk.person.screen().foot[0].label, "Do");
}
