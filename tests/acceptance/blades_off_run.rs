//! The first run with blades off: card, hand-over, start, mark, touchdown, landing entry; the board says what changed.

use liftgate_core::record::{Body, MarkKind};
use liftgate_core::view::{Edge, SpotterAct};
use liftgate_tests::example::{Kind, PACK, SPOTTER};
use liftgate_tests::walk::{Walk, places_wanted};

const FLIGHT: &str = "First start, slow, no blades";

#[test]
fn the_first_card_waits_for_what_it_needs_and_says_that_it_is_for_the_bench() {
    let mut walk = Walk::at_flight(Kind::Scale, "Motor at its slowest, on the bench");
    walk.person.tap("Draw up the card");
    assert!(walk.person.cautions().iter().any(|caution| caution.starts_with("On the bench")));
    // The card waits for what it needs, and says for what.
    let why = |walk: &Walk| walk.person.control("Hand over").unwrap().why_not;
    // The only pack there is, is on it already.
    assert!(walk.person.control(PACK).unwrap().chosen);
    walk.person.tap(PACK);
    assert_eq!(why(&walk).as_deref(), Some("Enter the air temperature first"));
    walk.person.tap("Air temperature more");
    // Nobody said yet that the pack is full: it was charged, which is one touch.
    assert!(why(&walk).unwrap().starts_with("Not full, as far as is known"), "{:?}", why(&walk));
    walk.person.tap("Pack 1 was charged");
    assert_eq!(why(&walk).as_deref(), Some("Enter the spotter's name first"), "a first run wants a second person");
    walk.person.enter("Spotter's name", SPOTTER);
    assert_eq!(why(&walk), None);
}

#[test]
fn what_is_read_on_a_run_is_refused_without_it_and_leads_to_its_card() {
    let mut walk = Walk::at_flight(Kind::Scale, "Motor at its slowest, on the bench");
    let person = &mut walk.person;
    person.go_to("Bench electrics", "Failsafe stops the motor");
    assert!(person.field("Reading").is_none(), "nothing is entered of a motor that ran without a card");
    person.tap("To its run");
    person.tap("Draw up the card");
    walk.fly();
    walk.land();
    walk.person.go_to("Bench electrics", "Failsafe stops the motor");
    walk.person.enter("Second person's name", SPOTTER);
    walk.person.enter("Reading", "0.5");
    walk.person.tap("Record");
    assert!(matches!(walk.person.last(), Body::CheckRecorded { check, .. } if check == "failsafe-stops-motor"));
}

#[test]
fn the_phone_goes_to_the_spotter_and_comes_back_with_the_flight() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    assert_eq!(walk.person.screen().foot[0].detail.as_deref(), Some("'First start, slow, no blades' at 600 rpm"));
    walk.person.tap("Draw up the card");
    walk.person.tap("Pack 1 was charged");
    walk.person.enter("Spotter's name", SPOTTER);
    assert!(walk.person.cautions().iter().any(|c| c.starts_with("Behind a barrier at spool-up")));
    let tapped = walk.person.tap(&format!("Hand over to {SPOTTER}"));
    assert_eq!(tapped.screen.name, "handed-over");

    let spotter = walk.person.spotter();
    let screen = spotter.screen(&walk.person.now).unwrap();
    assert_eq!(screen.main.act, SpotterAct::Start);
    assert!(screen.title.contains("600 rpm"));
    assert_eq!(screen.clock.planned_s, 30);
    assert!(screen.knock_off.contains(&"Someone steps in".to_owned()));
    assert!(screen.limits.contains(&"Controller: stop above 90 °C".to_owned()), "{:?}", screen.limits);
    assert!(screen.marks.iter().all(|mark| !mark.enabled), "nothing to note before the motor is on");

    walk.person.wait(5);
    let screen = spotter.start(&walk.person.now).unwrap();
    assert!(screen.clock.running && screen.second.is_none());
    walk.person.wait(12);
    assert_eq!(spotter.screen(&walk.person.now).unwrap().clock.elapsed_ms, 12_000);
    let screen = spotter.mark(MarkKind::Sound, &walk.person.now).unwrap();
    assert_eq!(screen.log, ["0:12  Sound"]);
    walk.person.wait(10);
    // Touched by mistake, taken back, the clock goes on from the start.
    spotter.land(&walk.person.now).unwrap();
    walk.person.wait(3);
    let screen = spotter.resume(&walk.person.now).unwrap();
    assert!(screen.clock.running);
    assert_eq!(screen.clock.elapsed_ms, 25_000);
    walk.person.wait(6);
    let screen = spotter.land(&walk.person.now).unwrap();
    assert_eq!((screen.main.act, screen.clock.elapsed_ms), (SpotterAct::HandBack, 31_000));
    walk.person.wait(20);
    spotter.hand_back(&walk.person.now).unwrap();

    let person = &mut walk.person;
    assert_eq!(person.screen().name, "landing", "the pilot gets the phone where the landing is jotted down");
    assert_eq!(person.figure("Motor on, 600 rpm, Pack 1").unwrap().0, "0:31");
    assert!(person.row("Sound at 0:12").is_some());
    assert_eq!(places_wanted(&person.screen()), ["Controller", "Motor case"]);
    // Two touches start each place from its usual value and move it; no keyboard.
    person.tap("Controller more");
    person.tap("Controller more");
    assert_eq!(person.typed("Controller").0, "59", "a degree above the last one");
    person.tap("Motor case more");
    // What was noted is answered before anything else, and what was typed stays.
    person.tap("Looked at, nothing found");
    let Body::MarkAnswered { words, .. } = person.last() else { panic!("the mark is answered") };
    assert_eq!(words, "Looked at, nothing found");
    assert_eq!(person.typed("Controller").0, "59", "a degree above the last one");
    person.tap("As it should be");

    let Body::LandingRecorded { temperatures, .. } = person.last() else { panic!("the landing is recorded") };
    let read: Vec<(&str, f64)> = temperatures.iter().map(|r| (r.place.as_str(), r.celsius)).collect();
    assert_eq!(read, [("controller", 59.0), ("motor", 61.0)]);
    assert!(temperatures.iter().all(|r| r.after_s >= 20), "each reading knows how long after touchdown it was taken");

    assert_eq!(person.screen().name, "board");
    let (edge, state, _) = person.row(FLIGHT).unwrap();
    assert_eq!((edge, state.as_str()), (Edge::Fresh, "Holds"), "the board says what the landing changed");
    let verdict = person.verdict();
    assert!(verdict.contains("'Each speed up to service speed, no blades'"), "the next rung: {verdict}");
}

#[test]
fn a_landing_without_the_temperatures_it_asks_for_is_not_enough() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.answer_marks();
    walk.person.enter("Controller", "44");
    walk.person.tap("As it should be");
    let (_, state, detail) = walk.person.row(FLIGHT).unwrap();
    assert_eq!(state, "Incomplete");
    assert_eq!(detail.as_deref(), Some("Still wanted: Motor case"));

    // It is completed without flying again: what was jotted stays, and what was lacking is added.
    walk.person.tap(FLIGHT);
    walk.person.tap("Complete the landing");
    walk.person.enter("Motor case", "41");
    walk.person.tap("As it should be");
    assert_eq!(walk.person.row(FLIGHT).unwrap().1, "Holds");
    let Body::LandingRecorded { temperatures, .. } = walk.person.last() else { panic!("a landing is recorded") };
    let read: Vec<(&str, f64)> = temperatures.iter().map(|r| (r.place.as_str(), r.celsius)).collect();
    assert_eq!(read, [("controller", 44.0), ("motor", 41.0)]);
}

#[test]
fn a_run_shorter_than_its_check_wants_is_no_evidence() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.give_away();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(14);
    spotter.mark(MarkKind::Shake, &walk.person.now).unwrap();
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    walk.land();
    let (_, state, detail) = walk.person.row(FLIGHT).unwrap();
    assert_eq!(state, "Incomplete");
    let detail = detail.unwrap();
    assert!(detail.contains("flown 0:14 of the 0:30 that this check wants"), "{detail}");
    // Jotting down more does not make it longer: it is flown again.
    walk.person.tap(FLIGHT);
    assert!(walk.person.control("Complete the landing").is_none());
}

#[test]
fn a_card_handed_back_unflown_leaves_no_flight_behind() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.give_away();
    walk.person.spotter().hand_back(&walk.person.now).unwrap();
    assert_eq!(walk.person.screen().name, "board");
    assert!(walk.person.verdict().starts_with("Nothing stands between"), "it may be drawn up anew");
}
