//! A gate that stands on a caution is released where the caution is read, beside the gate's own sentence.

use liftgate_core::plan::{Plan, SHIPPED};
use liftgate_core::record::Body;
use liftgate_core::view::{Block, Edge};
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const STAGE: &str = "Figures and papers";

#[test]
fn a_caution_is_read_before_the_release_with_the_gates_own_sentence() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until(|person| person.row(STAGE).unwrap().1 == "Ready");
    let person = &mut walk.person;
    person.go_to(STAGE, "Planned mass under the limit");
    // The highest mass is 12 kg: over 95 % of it is a caution.
    person.enter("Reading", "11.7");
    person.tap("Record");
    person.home();
    person.tap(STAGE);
    assert!(person.control("Release").is_none(), "not from a page on which the caution may be out of sight");
    person.tap("Read 1 caution, then release");

    let screen = person.screen();
    let Block::Verdict { text, .. } = &screen.blocks[0] else { panic!("{}", person.words()) };
    let plan = Plan::parse("shipped", SHIPPED).expect("the shipped plan");
    let gate = plan.stages[0].gate.clone().expect("a gate");
    assert_eq!(*text, gate, "the gate's own sentence stands first");
    let (edge, state, detail) = person.row("Planned mass under the limit").expect("the caution");
    assert_eq!((edge, state.as_str()), (Edge::Caution, "Holds, with caution"));
    let detail = detail.expect("what was found");
    assert!(detail.starts_with("11.7 kg. Judged: At or under 95 %"), "{detail}");
    let rows = screen.blocks.iter().filter(|block| matches!(block, Block::Row { .. })).count();
    assert_eq!(rows, 1, "the cautions, and nothing else");
    person.tap("Release");
    assert!(matches!(person.last(), Body::GateReleased { .. }));
    assert_eq!(person.row(STAGE).unwrap().1, "Released");
}

#[test]
fn without_a_caution_a_release_is_one_touch_as_before() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until(|person| person.row(STAGE).unwrap().1 == "Ready");
    walk.person.tap("Decide");
    walk.person.tap("Release figures and papers");
    assert!(matches!(walk.person.last(), Body::GateReleased { .. }));
}

#[test]
fn gates_released_again_together_show_their_cautions_too() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    let person = &mut walk.person;
    person.tap("Aircraft");
    person.tap("Record a change");
    person.enter("What was done", "New belt");
    person.tap("Tail drive");
    person.tap("Record the change");
    person.go_to("Fit-out", "Belt deflection at build");
    person.enter("Reading", "7.5");
    person.tap("Record");
    person.home();
    walk.until(|person| person.control("2 gates to release again").is_some());
    walk.person.tap("2 gates to release again");
    let (edge, state, _) = walk.person.row("Belt deflection at build").expect("what was done anew");
    assert_eq!((edge, state.as_str()), (Edge::Caution, "Done anew"));
    let rows = walk.person.screen().blocks.into_iter().filter(|block| {
        matches!(block, Block::Row { title, state, .. } if title == "Belt deflection at build" && state == "Holds, with caution")
    });
    assert_eq!(rows.count(), 1, "{}", walk.person.words());
}
