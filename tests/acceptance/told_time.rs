//! A time that the phone counted wrong, or not at all: it is asked about, told by the pilot, and both are kept.

use liftgate_core::record::{Body, MarkKind};
use liftgate_core::view::{Block, Edge, Tone};
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "Hover at the lowest head speed";
const NEXT: &str = "Hover at the second head speed";

/// From the card to the pilot's landing page; the clock ran so long.
fn counted(seconds: i64) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.give_away();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(seconds);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    walk
}

fn standing(person: &mut Person, flight: &str) -> (Edge, String, Option<String>) {
    person.home();
    person.tap("Hover ladder");
    person.row(flight).unwrap_or_else(|| panic!("{}", person.words()))
}

fn touchdown_ms(person: &Person) -> i64 {
    let down = person.entries().into_iter().rev().find_map(|entry| match entry.body {
        Body::TouchedDown { elapsed_ms, .. } => Some(elapsed_ms),
        _ => None,
    });
    down.unwrap()
}

#[test]
fn a_clock_that_was_left_running_is_asked_about_and_both_times_are_kept() {
    let mut walk = counted(12 * 60);
    let (edge, _, why) = walk.person.row("How long the motor was on: the phone counted 12:00").unwrap();
    assert_eq!(edge, Edge::Missing);
    assert!(why.unwrap().starts_with("Was the clock left running?"));
    walk.land();
    let person = &mut walk.person;
    assert_eq!(person.screen().name, "landing", "the pilot stays where it is asked");
    let (_, _, lacks) = standing(person, FLIGHT);
    assert!(lacks.unwrap().contains("how long"), "{}", person.words());
    person.go_to("Hover ladder", NEXT);
    person.tap("How long the motor was on: the phone counted 12:00, in hover at the lowest head speed");
    assert!(person.refused("So long it flew").contains("first"));
    person.enter("Time with the motor on", "2");
    person.tap("So long it flew");
    assert!(
        matches!(person.last(), Body::FlownTold { flown_s: 120, without_phone: None, .. }),
        "{:?}",
        person.last()
    );
    assert_eq!(touchdown_ms(person), 720_000, "nothing that was recorded is changed");
    let (time, note) = person.figure("Motor on, 1000 rpm, Pack 1").unwrap();
    assert_eq!(time, "2:00");
    assert!(note.unwrap().ends_with("As the pilot says; the phone counted 12:00"));
    assert_eq!(standing(person, FLIGHT).1, "Holds");
}

#[test]
fn what_was_read_long_after_a_touchdown_that_was_touched_late_tells_nothing_of_it() {
    let mut walk = counted(40 * 60);
    walk.person.enter("Time with the motor on", "2");
    walk.person.tap("So long it flew");
    walk.land();
    let person = &mut walk.person;
    let (edge, _, detail) = standing(person, FLIGHT);
    assert_eq!(edge, Edge::Missing);
    assert!(detail.as_ref().is_some_and(|words| words.contains("38:")), "{detail:?}");
}

#[test]
fn a_long_time_that_was_flown_is_so_in_one_touch_and_none_that_no_pack_flies() {
    let mut walk = counted(12 * 60);
    walk.person.tap("It was 12:00, as counted");
    assert!(matches!(walk.person.last(), Body::FlownTold { flown_s: 720, .. }), "{:?}", walk.person.last());
    assert!(walk.person.control("So long it flew").is_none(), "asked once");
    let day_and_a_bit = counted(24 * 3_600 + 49);
    assert!(!day_and_a_bit.person.words().contains("as counted"), "{}", day_and_a_bit.person.words());
}

#[test]
fn a_time_that_nobody_doubts_is_put_right_and_the_run_counts_by_it() {
    let mut walk = counted(120);
    walk.land();
    let person = &mut walk.person;
    assert_eq!(standing(person, FLIGHT).1, "Holds");
    person.home();
    person.tap("Journal");
    person.tap("Landing,");
    person.tap("Add to this landing");
    person.tap("The time is not right");
    person.enter("Time with the motor on", "1");
    person.tap("So long it flew");
    let (edge, _, detail) = standing(person, FLIGHT);
    assert_eq!(edge, Edge::Missing);
    assert!(detail.unwrap().contains("flown 1:00 of the 2:00"));
}

#[test]
fn a_run_that_no_phone_timed_is_told_on_its_card_and_counts_as_one() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    walk.draw_up();
    let person = &mut walk.person;
    person.tap("Flown without the phone");
    assert!(person.refused("It was flown so").contains("how long the motor was on"));
    person.enter("Time with the motor on", "2");
    assert!(person.refused("It was flown so").contains("how long ago"));
    person.enter("Minutes since it came down", "3");
    person.tap("It was flown so");
    let Body::FlownTold { flown_s: 120, without_phone: Some(told), .. } = person.last() else {
        panic!("{:?}", person.last())
    };
    assert_eq!(told.down_ago_s, 180);
    assert_eq!(person.screen().name, "landing");
    walk.land();
    let person = &mut walk.person;
    let read_after_s = person.entries().into_iter().rev().find_map(|entry| match entry.body {
        Body::LandingRecorded { temperatures, .. } => temperatures.first().map(|reading| reading.after_s),
        _ => None,
    });
    assert!(read_after_s.is_some_and(|after_s| (180..240).contains(&after_s)), "{read_after_s:?}");
    assert_eq!(standing(person, FLIGHT).1, "Holds");
    // In the journal it is a motor run like those that the phone timed.
    let began = |body: &Body| matches!(body, Body::Started { .. } | Body::FlownTold { without_phone: Some(_), .. });
    let runs = person.entries().iter().filter(|entry| began(&entry.body)).count();
    person.home();
    person.tap("Journal");
    let told = person.screen().blocks.into_iter().filter_map(|block| match block {
        Block::Row { detail: Some(detail), .. } => {
            detail.split(", ").find_map(|part| part.split_once(" motor run")?.0.parse::<usize>().ok())
        }
        _ => None,
    });
    assert_eq!(told.sum::<usize>(), runs, "{}", person.words());
}

/// The card goes out as a page, the phone stays dead all day, and in the evening the paper is entered with its own times.
#[test]
fn a_card_on_paper_is_printed_the_evening_before_and_entered_the_evening_after() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    let page = String::from_utf8(walk.person.save("Save this card as a page to print")).unwrap();
    assert!(page.starts_with("<!doctype html>") && page.trim_end().ends_with("</html>"));
    let page = page.replace("&#39;", "'").replace("&#34;", "\"").replace("&#38;", "&");
    if let Ok(to) = std::env::var("PAPER") {
        std::fs::write(to, &page).unwrap();
    }
    let card = walk.person.words();
    for said in ["Motor on at", "Touchdown at", "min after", "Shake", "not so:", "Enter it within a day"] {
        assert!(page.contains(said), "{said}: {page}");
    }
    // What the card calls a stop and a call-off stands on the paper too.
    for stop in walk.person.screen().blocks.into_iter().filter_map(|block| match block {
        Block::Paragraph { text, tone: Tone::Call } => Some(text),
        _ => None,
    }) {
        assert!(page.contains(&stop), "{stop}");
    }
    assert!(card.contains("Call it off"), "{card}");

    walk.draw_up();
    let person = &mut walk.person;
    person.tap("Flown without the phone");
    person.enter("Time with the motor on", "2");
    person.wait(4 * 3_600);
    let down = person.now.earlier_by_s(3 * 3_600 + 1_800);
    person.enter("Or the time of day at which it came down, as 14:32", "noon");
    assert!(person.closed("It was flown so").contains("14:32"), "a time of day is shown as one writes it");
    person.enter("Or the time of day at which it came down, as 14:32", &down.wall.format("%H%M").to_string());
    assert!(person.words().contains("That is 3:30 h ago"), "{}", person.words());
    person.tap("Shake");
    assert!(person.refused("It was flown so").contains("Shake"));
    person.enter("Shake: minutes after the motor came on", "3");
    assert!(person.refused("It was flown so").contains("later than the motor ran"));
    person.enter("Shake: minutes after the motor came on", "1.5");
    person.tap("It was flown so");
    let entries = person.entries();
    let told = entries.iter().rev().find_map(|entry| match &entry.body {
        Body::FlownTold { without_phone: Some(told), .. } => Some(told.down_ago_s),
        _ => None,
    });
    assert!(told.is_some_and(|ago_s| (0..60).contains(&(ago_s - 12_600))), "{told:?}");
    assert!(matches!(person.last(), Body::Marked { mark: MarkKind::Shake, elapsed_ms: 90_000, .. }));

    // Each reading has the minutes that stand on the paper, not those of the evening.
    assert_eq!(person.screen().name, "landing");
    person.enter("Minutes from touchdown to the readings below", "1");
    walk.land();
    let readings = walk.person.entries().into_iter().rev().find_map(|entry| match entry.body {
        Body::LandingRecorded { temperatures, .. } => Some(temperatures),
        _ => None,
    });
    assert!(readings.as_ref().is_some_and(|all| all.iter().all(|reading| reading.after_s == 60)), "{readings:?}");
}
