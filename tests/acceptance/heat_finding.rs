//! A controller too hot after the first hover: a finding from the landing holds every flight, its fix is proven by
//! flying the same check again.

use liftgate_core::record::{Body, MarkKind};
use liftgate_core::view::Edge;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "Hover at the lowest head speed";
const WRONG: &str = "Controller at 96 °C after two minutes";

fn hot_hover() -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    walk.draw_up();
    let expected = walk.person.figure("Charge it should use").unwrap().0;
    walk.hand_over();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(95);
    spotter.mark(MarkKind::Smell, &walk.person.now).unwrap();
    walk.person.wait(25);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    let person = &mut walk.person;
    person.enter("Controller", "96");
    assert!(person.typed("Controller").1.unwrap().contains("Past its stop"), "flagged, and not blocked");
    person.enter("Motor case", "70");
    person.enter("Main pack", "41");
    person.enter("Charge used", &expected);
    walk
}

#[test]
fn heat_at_landing_holds_all_flights_until_the_fix_is_proven_by_flying_it_again() {
    let mut walk = hot_hover();
    // Raised from the landing itself, before it is recorded: what was typed there waits.
    walk.person.tap("Raise a finding");
    walk.person.enter("What is wrong", WRONG);
    walk.person.tap("Stop");
    walk.person.tap("Raise it");
    walk.person.home();
    assert_eq!(walk.person.screen().foot[0].label, "Jot down the landing");
    walk.person.tap("Jot down the landing");
    assert_eq!(walk.person.typed("Controller").0, "96", "the half-filled landing is still there");
    walk.person.tap("As it should be");
    // The stop is a finding already; the smell wants its own answer.
    assert!(walk.person.control("Raise it as a stop").is_none());
    walk.person.tap("It is finding 1");
    walk.person.home();

    walk.person.go_to("Hover ladder", FLIGHT);
    let words = walk.person.words();
    assert!(words.contains("Not right") && words.contains("Controller at 96 °C is past its stop"), "{words}");
    walk.person.home();
    let (edge, state, _) = walk.person.row(WRONG).unwrap();
    assert_eq!((edge, state.as_str()), (Edge::Stop, "Open"));

    // Every flight is held, one that was proved before too.
    for (stage, flight) in [("Hover ladder", FLIGHT), ("Ground run", "First spool-up with blades")] {
        walk.person.go_to(stage, flight);
        let card = walk.person.control("Draw up the card").unwrap();
        assert!(!card.enabled, "'{flight}' is held");
        assert!(walk.person.row(WRONG).is_some(), "and says by what");
    }

    walk.person.home();
    walk.person.tap(WRONG);
    walk.person.enter("What was done", "A scoop and a bigger heat sink");
    walk.person.tap("Motor controller");
    walk.person.tap("Record the fix");

    // The controller was touched: what rests on it is asked for again, up to the hover that proves the fix.
    walk.person.home();
    assert_eq!(walk.person.row("Bench electrics").unwrap().1, "Lapsed");
    let (_, state, holds) = walk.person.row("Fit-out").unwrap();
    assert_eq!(state, "Lapsed", "its gate stands on the one before");
    assert_eq!(holds.as_deref(), Some("11 of 11 checks hold"), "its evidence does not rest on the controller");
    let before = walk.done.len();
    walk.until_flight(FLIGHT);
    assert!(walk.done[before..].contains(&"Failsafe stops the motor".to_owned()));
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.land();
    assert_eq!(walk.person.row(WRONG).unwrap().1, "Proven");
    walk.until_flight("Hover at the second head speed");
    let proof = walk.person.entries().iter().rev().any(|e| matches!(e.body, Body::LandingRecorded { .. }));
    assert!(proof);
}

#[test]
fn a_fix_that_leaves_it_hot_opens_the_finding_again() {
    let mut walk = hot_hover();
    walk.person.tap("As it should be");
    walk.person.tap("A gust");
    walk.person.go_to("Hover ladder", FLIGHT);
    walk.person.tap("Raise a finding");
    walk.person.enter("What is wrong", WRONG);
    walk.person.tap("Stop");
    walk.person.tap("Raise it");
    walk.person.home();
    walk.person.tap("See to");
    walk.person.enter("What was done", "Cleaned the fan");
    walk.person.tap("Record the fix");
    walk.person.home();
    walk.until_flight(FLIGHT);
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.answer_marks();
    walk.person.enter("Controller", "93");
    walk.person.enter("Motor case", "66");
    walk.person.enter("Main pack", "40");
    walk.person.tap("Charge used more");
    walk.person.tap("As it should be");
    assert!(walk.person.control("Raise it as a stop").is_some(), "it is past its stop again");
    walk.person.home();
    assert_eq!(walk.person.row(WRONG).unwrap().1, "Open");
}
