//! What comes round again: events in a touch, work that is due soon, and gates that lapse and come back in one go.

use liftgate_core::record::Body;
use liftgate_core::view::Edge;
use liftgate_tests::example::{Kind, SPOTTER};
use liftgate_tests::walk::Walk;

#[test]
fn a_hard_landing_is_recorded_in_a_touch_and_asks_for_exactly_what_names_it() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    let before = walk.person.entries().len();
    walk.person.tap("Something happened");
    walk.person.enter("Remark, before you touch it", "Left skid first");
    walk.person.tap("Hard landing");
    assert_eq!(walk.person.entries().len(), before + 1);
    assert!(matches!(walk.person.last(), Body::Happened { event, note: Some(note) }
        if event == "hard-landing" && note == "Left skid first"));
    walk.person.home();
    let (_, word, why) = walk.person.row("Main blade to boom and body").unwrap();
    assert_eq!((word.as_str(), why.as_deref()), ("Stale", Some("It ended with: hard landing")));
    assert_eq!(walk.person.row("Fit-out").unwrap().1, "Lapsed");
    assert_eq!(walk.person.row("Bench electrics").unwrap().1, "Released", "it has nothing to do with a landing");

    // The stage that lapsed lists the shortest way back.
    walk.person.tap("Fit-out");
    let words = walk.person.words();
    assert!(words.contains("The way back") && words.contains("Drive turns freely, ten turns each way"));
    walk.person.home();

    // The inspection that only a hard landing calls for is among what is due, and wants a second person.
    walk.person.tap("Service");
    walk.person.tap("Inspection after a hard landing or strike");
    assert!(walk.person.refused("Seen, and right").contains("second person's name"));
    walk.person.enter("Second person's name", SPOTTER);
    walk.person.tap("Seen, and right");
    walk.person.home();

    // It is withdrawn like any other entry; what lapsed over it waits for the pilot.
    walk.person.tap("Journal");
    walk.person.tap("Happened: hard landing");
    walk.person.enter("Why it is withdrawn", "It was the other aircraft");
    walk.person.tap("Withdraw this entry");
    walk.person.home();
    assert_eq!(walk.person.row("Fit-out").unwrap().1, "Lapsed");
    walk.person.tap("Fit-out");
    assert!(walk.person.control("Release").is_some_and(|control| control.enabled), "{}", walk.person.words());
}

#[test]
fn gates_that_lapsed_over_one_change_come_back_with_one_touch_past_each_of_them() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    walk.person.tap("Aircraft");
    walk.person.tap("Record a change");
    walk.person.enter("What was done", "New belt");
    walk.person.tap("Tail drive");
    walk.person.tap("Record the change");
    assert_eq!(walk.person.row("Fit-out").unwrap().1, "Lapsed");
    assert!(walk.person.control("4 gates to release again").is_none(), "not over stale evidence");
    // The board leads through the checks until only decisions are left; each flight on the way holds.
    walk.until(|person| {
        person.control("2 gates to release again").is_some() || person.control("Draw up the card").is_some()
    });
    assert_eq!(walk.person.row("2 gates to release again").unwrap().0, Edge::Stale);
    walk.person.tap("2 gates to release again");
    let screen = walk.person.screen();
    assert!(screen.foot.is_empty(), "the decision stands at the end of the page, past every gate");
    let words = walk.person.words();
    assert!(words.contains("Fit-out") && words.contains("Weight and balance"));
    assert!(words.contains("Done anew") && words.contains("Belt deflection at build"));
    assert!(words.contains("All hold as they were"), "a gate that lapsed with the one before it says so");
    let before = walk.person.entries().len();
    walk.person.tap("Release 2 gates");
    let entries = walk.person.entries();
    let released: Vec<(&str, usize)> = entries[before..]
        .iter()
        .map(|entry| match &entry.body {
            Body::GateReleased { stage, evidence, .. } => (stage.as_str(), evidence.len()),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(released.iter().map(|(stage, _)| *stage).collect::<Vec<_>>(), ["fit-out", "weight-and-balance"]);
    assert!(released.iter().all(|(_, evidence)| *evidence >= 5), "each with its own snapshot: {released:?}");
    assert_eq!(walk.person.row("Fit-out").unwrap().1, "Released");
    assert_eq!(walk.person.row("Weight and balance").unwrap().1, "Released");
    // One touch made them, one touch takes them back.
    walk.person.tap("Take back");
    let entries = walk.person.entries();
    let taken: Vec<_> = entries.iter().rev().take_while(|e| matches!(e.body, Body::Withdrawn { .. })).collect();
    assert_eq!((taken.len(), entries.len()), (2, before + 4));
    assert_eq!(walk.person.row("Fit-out").unwrap().1, "Lapsed");
    assert_eq!(walk.person.row("Weight and balance").unwrap().1, "Lapsed");
    assert_eq!(
        walk.person.row("2 gates to release again").unwrap().0,
        Edge::Stale,
        "and the decision is there again"
    );
}

#[test]
fn what_runs_out_soon_is_on_the_board_before_it_stands_in_the_way() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    walk.person.wait(340 * 86_400);
    let (edge, word, left) = walk.person.row("Rules and permission looked up").unwrap();
    assert_eq!((edge, word.as_str()), (Edge::Caution, "Soon"));
    assert!(left.unwrap().ends_with("days left"));
    assert_eq!(walk.person.row("Figures and papers").unwrap().1, "Released", "it holds still");
    walk.person.tap("Rules and permission looked up");
    walk.person.tap("Seen, and right");
    walk.person.home();
    assert!(walk.person.row("Rules and permission looked up").is_none_or(|(_, word, _)| word != "Soon"));
}

#[test]
fn a_witness_point_goes_on_with_the_reason_and_says_so() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until(|person| person.screen().foot[0].detail.as_deref() == Some("Figures match the papers"));
    walk.person.tap("Do");
    assert!(walk.person.refused("Seen, and right").contains("second person's name"));
    walk.person.enter("Or why nobody came", "Snowed in");
    walk.person.tap("Seen, and right");
    walk.person.home();
    walk.person.go_to("Figures and papers", "Figures match the papers");
    let (edge, word, detail) = walk.person.row("Right").unwrap();
    assert_eq!((edge, word.as_str()), (Edge::Caution, "Holds, with caution"));
    assert!(detail.unwrap().contains("Nobody came to see it: Snowed in"));
    // A hold is none: there is no such way past it.
    walk.person.go_to("Bench electrics", "Throttle hold stops the motor");
    assert!(walk.person.field("Or why nobody came").is_none());
}
