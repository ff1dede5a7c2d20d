//! A landing with three temperatures: one touch each, no keyboard, and the last of them records it.

use liftgate_core::app::AppError;
use liftgate_core::record::{Body, MarkKind, Reading};
use liftgate_core::view::{Block, Edge, Tapped};
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "First spool-up with blades";

/// Flown and handed back: the landing is in view, nothing jotted yet.
fn landed(flight: &'static str) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, flight);
    walk.person.tap("Draw up the card");
    walk.fly();
    assert_eq!(walk.person.screen().name, "landing");
    walk.answer_marks();
    walk
}

/// What is asked for now, and the temperatures that one touch enters.
fn offered(person: &Person) -> Option<(String, Vec<String>)> {
    let screen = person.screen();
    let at =
        screen.blocks.iter().position(|b| matches!(b, Block::Heading { text, .. } if text.ends_with(" reads")))?;
    let Block::Heading { text, .. } = &screen.blocks[at] else { return None };
    let Block::Choice { options, .. } = &screen.blocks[at + 1] else { return None };
    Some((text.clone(), options.iter().map(|option| option.label.clone()).collect()))
}

fn readings(person: &Person) -> Vec<Reading> {
    match person.last() {
        Body::LandingRecorded { temperatures, .. } => temperatures,
        other => panic!("{other:?}"),
    }
}

#[test]
fn three_touches_record_three_temperatures_each_with_its_time() {
    let mut walk = landed(FLIGHT);
    let count = walk.person.entries().len();
    let mut touches = 0;
    for (place, celsius) in [("Controller", "57 °C"), ("Motor case", "59 °C"), ("Main pack", "36 °C")] {
        walk.person.wait(8);
        let (heading, chips) = offered(&walk.person).unwrap();
        assert_eq!(heading, format!("{place} reads"));
        assert!(chips.contains(&celsius.to_owned()), "{celsius} is not among {chips:?}");
        assert_eq!(walk.person.entries().len(), count, "nothing is recorded by halves");
        // Killed in between, it goes on at the same place.
        walk.person.killed_and_the_same();
        walk.person.tap(celsius);
        touches += 1;
    }
    assert_eq!(touches, 3, "saving is no touch of its own");
    let read = readings(&walk.person);
    let told: Vec<(&str, f64)> = read.iter().map(|r| (r.place.as_str(), r.celsius)).collect();
    assert_eq!(told, [("controller", 57.0), ("motor", 59.0), ("pack", 36.0)]);
    assert!(read.windows(2).all(|pair| pair[0].after_s + 8 <= pair[1].after_s), "{read:?}");
    assert_eq!(walk.person.row(FLIGHT).unwrap().1, "Holds");
    // All of it is taken back in one touch.
    walk.person.tap("Take back");
    assert!(matches!(walk.person.last(), Body::Withdrawn { .. }));
}

#[test]
fn the_next_landing_starts_from_the_last_one_and_reaches_further_in_one_touch() {
    let mut walk = landed(FLIGHT);
    for celsius in ["57 °C", "59 °C", "36 °C"] {
        walk.person.tap(celsius);
    }
    walk.until_flight("Slow rise to hover speed, on the ground");
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.answer_marks();
    let (_, chips) = offered(&walk.person).unwrap();
    assert_eq!(chips[..12], (52..=63).map(|c| format!("{c} °C")).collect::<Vec<_>>(), "around the last 57 °C");
    walk.person.tap("Hotter");
    let (_, chips) = offered(&walk.person).unwrap();
    assert_eq!(chips[0], "64 °C");
    walk.person.tap("Cooler");
    assert_eq!(offered(&walk.person).unwrap().1[0], "52 °C");
}

#[test]
fn two_readings_in_time_give_the_temperature_at_touchdown() {
    let mut walk = landed(FLIGHT);
    walk.person.wait(20);
    walk.person.enter("Controller", "70");
    walk.person.enter("Motor case", "45");
    walk.person.enter("Main pack", "30");
    walk.person.tap("As it should be");
    let first = readings(&walk.person)[0].after_s;
    walk.person.home();
    walk.person.tap(FLIGHT);
    // The landing is opened again from its flight's row in the journal.
    walk.person.home();
    open_landing(&mut walk);
    walk.person.wait(60);
    walk.person.tap("Controller again");
    let (heading, chips) = offered(&walk.person).unwrap();
    assert!(heading.starts_with("Controller") && chips[0] == "60 °C", "it has cooled since: {chips:?}");
    walk.person.tap("60 °C");
    let read = readings(&walk.person);
    let times: Vec<i64> = read.iter().filter(|r| r.place == "controller").map(|r| r.after_s).collect();
    assert_eq!(times[0], first);
    assert!(times[1] >= first + 60);
    open_landing(&mut walk);
    let (value, note) = walk.person.figure("Controller at motor off").unwrap();
    // Newton's law by hand: air 21 °C, so 49 K and 39 K above it; back from the first reading by the same ratio in time.
    let ratio: f64 = 49.0 / 39.0;
    let by_hand = 21.0 + 49.0 * ratio.powf(times[0] as f64 / (times[1] - times[0]) as f64);
    assert!((value.parse::<f64>().unwrap() - by_hand).abs() <= 1.0, "{value} against {by_hand}");
    assert!(note.unwrap().contains("2 readings"));
}

/// The landing of the last flight, from the journal.
fn open_landing(walk: &mut Walk) {
    walk.person.home();
    walk.person.tap("Journal");
    walk.person.tap("Landing,");
    walk.person.tap("Add to this landing");
    assert_eq!(walk.person.screen().name, "landing");
}

#[test]
fn a_slip_is_flagged_by_what_was_meant_taken_all_the_same_and_left_out_in_one_touch() {
    let mut walk = landed(FLIGHT);
    walk.person.enter("Controller", "380");
    assert!(walk.person.typed("Controller").1.unwrap().contains("cannot be right"), "outside of anything");
    walk.person.enter("Controller", "136");
    let flag = walk.person.typed("Controller").1.unwrap();
    assert!(flag.contains("Past its stop, 90 °C") && flag.contains("In Fahrenheit it would be 58 °C"), "{flag}");
    walk.person.enter("Motor case", "3,8");
    let flag = walk.person.typed("Motor case").1.unwrap();
    assert!(flag.contains("38 °C was meant?"), "{flag}");
    walk.person.enter("Motor case", "42");
    assert_eq!(walk.person.typed("Motor case").1, None);
    walk.person.enter("Main pack", "36");
    walk.person.tap("As it should be");
    assert!(walk.person.control("Raise it as a stop").is_some(), "past its stop it is asked about at once");
    walk.person.home();
    assert_eq!(
        walk.person.row(FLIGHT).unwrap().1,
        "Not right",
        "a flag blocks nothing: it is judged as it was entered"
    );
    open_landing(&mut walk);
    walk.person.enter("A slip, because", "Read in Fahrenheit");
    walk.person.tap("Controller 136 °C");
    assert_eq!(readings(&walk.person).len(), 2);
    assert_eq!(offered(&walk.person).unwrap().0, "Controller reads", "it is asked for again");
    walk.person.tap("58 °C");
    assert_eq!(walk.person.row(FLIGHT).unwrap().1, "Holds");
}

#[test]
fn one_range_for_charge_used_whether_flagged_or_refused() {
    let mut walk = landed(FLIGHT);
    walk.person.enter("Charge used", "12001");
    let flag = walk.person.typed("Charge used").1.unwrap();
    assert_eq!(walk.person.closed("As it should be"), flag, "10000 mAh and a fifth");
    walk.person.enter("Charge used", "12000");
    assert_eq!(walk.person.typed("Charge used").1, None);
    // More than it holds by its label, and asked about.
    walk.person.tap("It is so");
    walk.person.tap("As it should be");
}

#[test]
fn a_temperature_worked_back_past_a_stop_is_a_caution_and_never_hides() {
    let mut walk = landed(FLIGHT);
    walk.person.wait(40);
    walk.person.enter("Controller", "84");
    walk.person.enter("Motor case", "45");
    walk.person.enter("Main pack", "30");
    walk.person.tap("As it should be");
    open_landing(&mut walk);
    walk.person.wait(50);
    walk.person.tap("Controller again");
    walk.person.tap("74 °C");
    open_landing(&mut walk);
    let screen = walk.person.screen();
    let edge = screen.blocks.iter().find_map(|block| match block {
        Block::Figure { label, edge, note, .. } if label == "Controller at motor off" => Some((*edge, note.clone())),
        _ => None,
    });
    let (edge, note) = edge.unwrap();
    assert_eq!(edge, Edge::Caution);
    assert!(note.unwrap().contains("Past its stop"));
    walk.person.home();
    assert_eq!(walk.person.row(FLIGHT).map(|row| row.0).unwrap_or(Edge::Caution), Edge::Caution);
}

/// Touches what stands under the thumb so many milliseconds after whatever was before.
fn touch_after(person: &mut Person, ms: i64, words: &str) -> Result<Tapped, AppError> {
    let control = person.control(words).unwrap_or_else(|| panic!("there is no '{words}'"));
    person.now.wall += chrono::Duration::milliseconds(ms);
    person.now.monotonic_ms += ms;
    person.phone.pilot().unwrap().tap(&control.token, &person.now)
}

#[test]
fn a_touch_that_bounces_enters_no_second_temperature() {
    let mut walk = landed(FLIGHT);
    let person = &mut walk.person;
    person.wait(8);
    touch_after(person, 2_650, "57 °C").unwrap();
    assert_eq!(offered(person).unwrap().0, "Motor case reads", "the next place's come under the same thumb");
    for ms in [60, 120, 300] {
        let refused = touch_after(person, ms, "59 °C").unwrap_err().to_string();
        assert!(refused.contains("touch it again"), "{refused}");
        assert_eq!(offered(person).unwrap().0, "Motor case reads", "nothing was entered for it");
    }
    // Refused by the clock that cannot be set.
    person.now.wall += chrono::Duration::hours(1);
    touch_after(person, 100, "59 °C").unwrap_err();
    touch_after(person, 400, "59 °C").unwrap();
    touch_after(person, 700, "36 °C").unwrap();
    let told: Vec<f64> = readings(person).iter().map(|reading| reading.celsius).collect();
    assert_eq!(told, [57.0, 59.0, 36.0]);
    // Nor does the same touch take a reading out again.
    assert_eq!(person.screen().name, "board");
}

#[test]
fn a_touch_that_bounces_answers_no_second_mark() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.give_away();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    for mark in [MarkKind::Shake, MarkKind::Sound] {
        walk.person.wait(20);
        spotter.mark(mark, &walk.person.now).unwrap();
    }
    walk.person.wait(80);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    let person = &mut walk.person;
    touch_after(person, 2_650, "A gust").unwrap();
    let count = person.entries().len();
    touch_after(person, 150, "A gust").unwrap_err();
    assert_eq!(person.entries().len(), count, "the sound was answered by nobody");
    touch_after(person, 700, "A gust").unwrap();
    assert_eq!(person.entries().len(), count + 1);
}
