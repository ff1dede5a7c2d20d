//! Who holds a handle holds only that: the pilot's is dead during the spotter's turn, the spotter's after it.

use liftgate_core::app::{AppError, PilotDesk, SpotterDesk};
use liftgate_core::record::{Body, MarkKind, Moment};
use liftgate_tests::example::{Kind, SPOTTER};
use liftgate_tests::walk::Walk;

fn not_your_turn<T>(result: Result<T, AppError>) -> String {
    match result {
        Err(AppError::NotYourTurn { reason }) => reason,
        Err(other) => panic!("another error: {other}"),
        Ok(_) => panic!("it was done"),
    }
}

fn pilot_is_refused(pilot: &PilotDesk, token: &liftgate_core::view::Token, now: &Moment) {
    let reason = not_your_turn(pilot.screen(now));
    assert!(reason.contains(SPOTTER), "{reason}");
    not_your_turn(pilot.tap(token, now));
    not_your_turn(pilot.edit("name", "Someone", now));
}

fn spotter_is_refused(spotter: &SpotterDesk, now: &Moment) {
    not_your_turn(spotter.screen(now));
    not_your_turn(spotter.start(now));
    not_your_turn(spotter.mark(MarkKind::Shake, now));
    not_your_turn(spotter.land(now));
    not_your_turn(spotter.resume(now));
    not_your_turn(spotter.hand_back(now));
}

#[test]
fn each_handle_ends_with_its_turn() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    let pilot = walk.person.phone.pilot().unwrap();
    let journal = walk.person.control("Journal").unwrap().token;
    assert!(not_your_turn(walk.person.phone.spotter()).contains("not handed over"));

    walk.give_away();
    let count = walk.person.entries().len();
    not_your_turn(walk.person.phone.pilot());
    pilot_is_refused(&pilot, &journal, &walk.person.now);
    // Not even a kill gives the pilot's side back.
    walk.person.killed();
    not_your_turn(walk.person.phone.pilot());
    assert_eq!(walk.person.entries().len(), count, "nothing was recorded by what was refused");

    let first = walk.person.spotter();
    first.start(&walk.person.now).unwrap();
    let stays = first.hand_back(&walk.person.now);
    assert!(matches!(stays, Err(AppError::Refused { .. })), "with the motor on the phone stays: {stays:?}");
    walk.person.wait(30);
    first.land(&walk.person.now).unwrap();
    first.hand_back(&walk.person.now).unwrap();

    let count = walk.person.entries().len();
    spotter_is_refused(&first, &walk.person.now);
    walk.land();
    spotter_is_refused(&first, &walk.person.now);

    // A handle from the first flight is no key to the second.
    walk.until_flight("Each speed up to service speed, no blades");
    walk.give_away();
    spotter_is_refused(&first, &walk.person.now);
    let second = walk.person.spotter();
    second.start(&walk.person.now).unwrap();
    spotter_is_refused(&first, &walk.person.now);
    let by_spotter: Vec<Body> = walk.person.entries().split_off(count).into_iter().map(|e| e.body).collect();
    assert_eq!(by_spotter.iter().filter(|b| matches!(b, Body::Started { .. })).count(), 1);
    assert!(!by_spotter.iter().any(|b| matches!(b, Body::Marked { .. } | Body::TouchedDown { .. })));
}

#[test]
fn a_second_start_and_marks_out_of_turn_change_nothing() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.give_away();
    let spotter = walk.person.spotter();
    let count = walk.person.entries().len();
    spotter.mark(MarkKind::Shake, &walk.person.now).unwrap();
    spotter.land(&walk.person.now).unwrap();
    spotter.resume(&walk.person.now).unwrap();
    assert_eq!(walk.person.entries().len(), count, "the motor is not on yet");
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(8);
    let screen = spotter.start(&walk.person.now).unwrap();
    assert_eq!(screen.clock.elapsed_ms, 8_000, "a second start does not set the clock back");
    assert_eq!(walk.person.entries().len(), count + 1);
}
