//! A finding flown with under a restriction: it stands on every card and with the spotter, and its end holds the gate.

use liftgate_core::view::Edge;
use liftgate_tests::example::{BUILDER, Kind};
use liftgate_tests::walk::Walk;

const WRONG: &str = "Tail wags a little in gusts";
const RESTRICTION: &str = "No wind above 3 m/s";

fn carried(runs: &str) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.person.tap("Raise a finding");
    walk.person.enter("What is wrong", WRONG);
    walk.person.tap("Raise it");
    walk.person.home();
    walk.step();
    walk.land();
    walk.person.tap(WRONG);
    assert!(walk.person.refused("Carry it").contains("restriction"), "a concession says under which restriction");
    walk.person.enter("Restriction", RESTRICTION);
    assert!(walk.person.refused("Carry it").contains("reason"), "and why it may wait");
    walk.person.enter("Why it may wait", "The tail holds in calm air");
    walk.person.enter("For how many motor runs", runs);
    walk.person.tap("Carry it");
    walk.person.home();
    walk
}

/// Flies what comes next and checks that the card and the spotter show the restriction.
fn fly_next(walk: &mut Walk, title: &str) {
    walk.until_flight(title);
    walk.person.tap("Draw up the card");
    let on_card = walk.person.cautions().iter().any(|caution| caution.starts_with(RESTRICTION));
    assert!(on_card, "the card of '{title}' shows the restriction: {:?}", walk.person.cautions());
    walk.draw_up();
    walk.hand_over();
    let spotter = walk.person.spotter();
    let limits = spotter.screen(&walk.person.now).unwrap().limits;
    assert_eq!(limits[0], RESTRICTION, "the spotter reads it first");
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(180);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    walk.land();
}

#[test]
fn the_restriction_stands_on_every_card_until_the_carry_runs_out() {
    let mut walk = carried("2");
    let (edge, state, detail) = walk.person.row(RESTRICTION).unwrap();
    assert_eq!((edge, state.as_str()), (Edge::Caution, "Carried"));
    assert_eq!(detail.as_deref(), Some("Tail wags a little in gusts, for 2 motor runs"));
    walk.person.tap(RESTRICTION);
    assert!(walk.person.words().contains(&format!("Carried for 2 motor runs by {BUILDER}.")), "it has a name");
    assert!(walk.person.control("Carry it").is_none(), "what is carried is not carried twice");
    walk.person.home();

    fly_next(&mut walk, "Hover at the second head speed");
    fly_next(&mut walk, "Hover at the third head speed");

    // Two runs are flown. What was agreed is over: flights and the gate are held.
    let (edge, state, _) = walk.person.row(WRONG).unwrap();
    assert_eq!((edge, state.as_str()), (Edge::Stop, "Carried too long"));
    walk.person.go_to("Hover ladder", "Hover at service speed");
    assert!(!walk.person.control("Draw up the card").unwrap().enabled);
    walk.person.home();
    walk.person.tap("Hover ladder");
    assert!(walk.person.row(WRONG).is_some(), "it stands before the gate of its stage");
    walk.person.home();

    // It may be agreed on anew, as it might the first time.
    walk.person.tap(WRONG);
    assert!(walk.person.control("Carry it").is_some(), "{}", walk.person.words());
    walk.person.home();

    // Fixed, it is proven by its own check, and the ladder goes on.
    walk.person.tap("See to");
    walk.person.enter("What was done", "Tail gain down a tenth");
    walk.person.tap("Record the fix");
    walk.person.home();
    walk.until_flight("Hover at the lowest head speed");
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.land();
    assert_eq!(walk.person.row(WRONG).unwrap().1, "Proven");
    assert!(walk.person.row(RESTRICTION).is_none(), "the restriction goes with it");
    walk.until_flight("Hover at service speed");
}

#[test]
fn the_end_of_a_carry_lapses_a_gate_that_was_released_over_it() {
    let mut walk = carried("4");
    walk.until_released("Hover ladder");
    assert_eq!(walk.person.row("Hover ladder").unwrap().1, "Released");
    // Runs left when the ladder was released: hovers at the second, third and service speed are flown; one more ends it.
    walk.until_flight("Slow climb-out and back");
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.land();
    assert_eq!(walk.person.row("Hover ladder").unwrap().1, "Lapsed");
    assert_eq!(walk.person.row(WRONG).unwrap().1, "Carried too long");
}
