//! The phone comes back from the spotter by the pilot's code: wrong codes cost time, a forgotten one costs half an hour and
//! nothing else, and neither a killed app nor a restart nor a wall clock set forward changes that.

use chrono::Duration;
use liftgate_core::app::AppError;
use liftgate_core::record::{Author, Body, MarkKind};
use liftgate_core::view::{SpotterAct, SpotterLock, Turn};
use liftgate_tests::Person;
use liftgate_tests::example::{Kind, SPOTTER};
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "First start, slow, no blades";
const CODE: &str = "2468";

fn set_code(person: &mut Person, code: &str) {
    person.home();
    person.tap("Aircraft");
    person.tap("Pilot's code");
    let tapped = person.phone.pilot().unwrap().set_code(code, &person.now).unwrap();
    assert_eq!((tapped.screen.name.as_str(), tapped.said.as_deref()), ("aircraft", Some("Pilot's code set")));
    person.home();
}

fn handed_over() -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    set_code(&mut walk.person, CODE);
    walk.give_away();
    walk
}

fn refused(result: Result<(), AppError>) -> String {
    match result {
        Err(AppError::Refused { reason, .. }) => reason,
        other => panic!("not refused: {other:?}"),
    }
}

fn lock(walk: &Walk) -> SpotterLock {
    walk.person.spotter().screen(&walk.person.now).unwrap().lock.unwrap()
}

fn try_code(walk: &Walk, code: &str) -> Result<(), AppError> {
    walk.person.spotter().hand_back_with_code(code, &walk.person.now)
}

#[test]
fn the_phone_comes_back_by_the_code_alone() {
    let mut walk = handed_over();
    let spotter = walk.person.spotter();
    let screen = spotter.screen(&walk.person.now).unwrap();
    assert_eq!(screen.second.unwrap().act, SpotterAct::EnterCode);
    assert!(refused(spotter.hand_back(&walk.person.now)).contains("code"));
    spotter.start(&walk.person.now).unwrap();
    assert!(spotter.screen(&walk.person.now).unwrap().lock.is_none(), "no way back while the motor is on");
    assert!(refused(try_code(&walk, CODE)).contains("touchdown first"));
    walk.person.wait(30);
    let screen = spotter.land(&walk.person.now).unwrap();
    assert_eq!(screen.main.act, SpotterAct::EnterCode);
    assert!(refused(try_code(&walk, "1357")).contains("not the pilot's code"));
    assert_eq!(walk.person.phone.turn().unwrap(), Turn::Spotter);
    try_code(&walk, CODE).unwrap();
    assert_eq!(walk.person.screen().name, "landing");
    // The wrong code is in the journal, by whoever had the phone, and neither it nor the right one is there in clear.
    let entries = walk.person.entries();
    let wrong = entries.iter().find(|entry| matches!(entry.body, Body::CodeRefused { .. })).unwrap();
    assert_eq!(wrong.author, Author::Spotter { name: SPOTTER.to_owned() });
    walk.person.phone.close().unwrap();
    let file = std::fs::read(walk.person.journal()).unwrap();
    for digits in ["1357", CODE] {
        let found =
            entries.iter().filter(|entry| format!("{:?}", entry.body).contains(&format!("\"{digits}\""))).count();
        assert_eq!(found, 0, "{digits}");
    }
    assert!(file.windows(9).any(|bytes| bytes == b"$argon2id"), "a memory-hard hash");
}

#[test]
fn without_a_code_everything_is_as_it_was() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    walk.fly();
    assert_eq!(walk.person.screen().name, "landing");
    walk.land();
    walk.person.tap("Aircraft");
    assert_eq!(walk.person.row("Pilot's code").unwrap().1, "Not set");
}

#[test]
fn wrong_codes_cost_more_and_more_time_and_nothing_shortens_it() {
    let mut walk = handed_over();
    assert!(!refused(try_code(&walk, "1111")).contains("tried in"));
    assert!(!refused(try_code(&walk, "2222")).contains("tried in"));
    for (wrong, wait_s) in [("3333", 30), ("4444", 60), ("5555", 300), ("6666", 900), ("7777", 900)] {
        refused(try_code(&walk, wrong));
        let entries = walk.person.entries().len();
        // The right one is not even tried, whatever the wall clock says and however often the app is killed.
        walk.person.now.wall += Duration::days(400);
        walk.person.killed();
        assert!(refused(try_code(&walk, CODE)).starts_with("Not tried"), "after {wrong}");
        walk.person.wait(wait_s - 1);
        assert!(refused(try_code(&walk, CODE)).contains("1 s"), "after {wrong}");
        assert_eq!(walk.person.entries().len(), entries, "what was not tried is not written down");
        assert!(lock(&walk).counting);
        walk.person.wait(1);
        assert!(!lock(&walk).counting);
    }
    try_code(&walk, CODE).unwrap();
    assert_eq!(walk.person.phone.turn().unwrap(), Turn::Pilot);
}

#[test]
fn a_restart_shortens_no_wait_and_at_worst_begins_it_anew() {
    let mut walk = handed_over();
    for wrong in ["1111", "2222", "3333", "4444"] {
        walk.person.wait(31);
        refused(try_code(&walk, wrong));
    }
    walk.person.wait(50);
    // Restarted five seconds ago, with the wall clock a year ahead.
    walk.person.now.wall += Duration::days(365);
    walk.person.now.monotonic_ms = 5_000;
    walk.person.now.boot = "second".to_owned();
    walk.person.killed();
    assert!(refused(try_code(&walk, CODE)).contains("55 s"));
    walk.person.wait(55);
    try_code(&walk, CODE).unwrap();
}

#[test]
fn a_forgotten_code_costs_half_an_hour_and_loses_nothing() {
    let mut walk = handed_over();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(30);
    spotter.mark(MarkKind::Sound, &walk.person.now).unwrap();
    spotter.land(&walk.person.now).unwrap();
    assert_eq!(lock(&walk).without.act, SpotterAct::WaitWithoutCode);
    spotter.wait_without_code(&walk.person.now).unwrap();
    let count = walk.person.entries().len();
    spotter.wait_without_code(&walk.person.now).unwrap();
    assert_eq!(walk.person.entries().len(), count, "a second one changes nothing");
    walk.person.wait(29 * 60);
    walk.person.now.wall += Duration::days(3);
    walk.person.killed();
    assert!(refused(walk.person.spotter().hand_back(&walk.person.now)).contains("60 s"));
    walk.person.wait(60);
    assert_eq!(lock(&walk).without.act, SpotterAct::HandBack);
    walk.person.spotter().hand_back(&walk.person.now).unwrap();
    // The flight is there to be jotted down, and the board says how the phone was opened until another code is set.
    assert_eq!(walk.person.screen().name, "landing");
    assert!(walk.person.row("Sound at 0:30").is_some());
    walk.land();
    let opened = |walk: &Walk| {
        let blocks = format!("{:?}", walk.person.screen().blocks);
        blocks.contains("Opened without your code")
    };
    assert!(opened(&walk), "{}", walk.person.words());
    set_code(&mut walk.person, "97531");
    assert!(!opened(&walk));
}

#[test]
fn the_code_is_changed_removed_and_each_taken_back_in_one_touch() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    for bad in ["", "12", "123456789", "12x4"] {
        let answer = walk.person.phone.pilot().unwrap().set_code(bad, &walk.person.now);
        assert!(matches!(answer, Err(AppError::Refused { .. })), "{bad}: {answer:?}");
    }
    set_code(&mut walk.person, "1111");
    set_code(&mut walk.person, CODE);
    walk.person.tap("Take back");
    walk.give_away();
    refused(try_code(&walk, CODE));
    try_code(&walk, "1111").unwrap();
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Pilot's code");
    walk.person.tap("Use no code");
    assert_eq!(walk.person.row("Pilot's code").unwrap().1, "Not set");
    walk.person.tap("Take back");
    assert_eq!(walk.person.row("Pilot's code").unwrap().1, "Set");
}

#[test]
fn a_mark_is_taken_back_in_one_touch_and_both_stay_readable() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.give_away();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(5);
    spotter.mark(MarkKind::Sound, &walk.person.now).unwrap();
    walk.person.wait(5);
    let screen = spotter.mark(MarkKind::Smell, &walk.person.now).unwrap();
    assert_eq!(screen.undo.as_ref().map(|undo| undo.label.as_str()), Some("Take back Smell"));
    let screen = spotter.unmark(&walk.person.now).unwrap();
    assert_eq!(screen.log, ["0:05  Sound"]);
    walk.person.wait(20);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    assert!(walk.person.row("Smell at 0:10").is_none() && walk.person.row("Sound at 0:05").is_some());
    let kinds: Vec<Body> = walk.person.entries().into_iter().map(|entry| entry.body).collect();
    assert!(kinds.iter().any(|body| matches!(body, Body::Marked { mark: MarkKind::Smell, .. })), "nothing is erased");
    assert!(kinds.iter().any(|body| matches!(body, Body::Unmarked { .. })));
}
