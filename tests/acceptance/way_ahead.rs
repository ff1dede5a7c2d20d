//! A new aircraft: what comes first, about how long the way takes, how far it is, and why anything is asked at all.

use liftgate_core::drawing::Picture;
use liftgate_core::view::{Block, Edge};
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::Walk;

const WHY: &str = "Why does it ask this?";

/// The line that says what comes first, and how long the way takes.
fn line(person: &Person) -> Option<String> {
    person.screen().blocks.into_iter().find_map(|block| match block {
        Block::Paragraph { text, .. } if text.contains("until service") => Some(text),
        _ => None,
    })
}

fn drawn(person: &Person) -> Option<Picture> {
    person.screen().blocks.into_iter().find_map(|block| match block {
        Block::Drawing { picture } => Some(picture),
        _ => None,
    })
}

/// The hours of the line's last span.
fn hours(line: &str) -> (u32, u32) {
    let span = line.rsplit("about ").next().unwrap().split(" hours").next().unwrap();
    let (low, high) = span.split_once(" to ").unwrap();
    (low.parse().unwrap(), high.parse().unwrap())
}

#[test]
fn the_board_of_a_new_aircraft_says_what_comes_first_and_about_how_long() {
    let mut person = Person::new();
    let said = line(&person).unwrap();
    assert!(said.starts_with("First: Names of the aircraft, its builder and its pilot. About "), "{said}");
    assert!(said.contains("until the gate of figures and papers"), "{said}");
    let (low, high) = hours(&said);
    assert!(0 < low && low < high && high < 100, "{said}");
    let picture = drawn(&person).unwrap();
    assert!(picture.spoken.starts_with("Stage 1, Figures and papers: 0 of "), "{}", picture.spoken);
    assert!(picture.spoken.contains("Stage 9, Envelope: 0 of "), "{}", picture.spoken);
    assert_eq!(picture.labels.len(), 9);
    example::name(&mut person);
    let picture = drawn(&person).unwrap();
    assert!(
        picture.spoken.starts_with("Stage 1, Figures and papers: 1 of "),
        "each answer is a step: {}",
        picture.spoken
    );
    let said = line(&person).unwrap();
    assert!(said.starts_with("First: How is the tail rotor carried? About "), "{said}");
}

#[test]
fn the_way_grows_shorter_and_ends_in_service() {
    let mut walk = Walk::new(Kind::Scale);
    let filled = |walk: &Walk| drawn(&walk.person).unwrap().strokes.iter().filter(|stroke| stroke.filled).count();
    // What the aircraft has is asked in the first stage, and with each answer there can be more to do.
    walk.until_released("Figures and papers");
    walk.person.home();
    let (_, at_first) = hours(&line(&walk.person).unwrap());
    assert!(drawn(&walk.person).unwrap().spoken.starts_with("Stage 1, Figures and papers: Released."));
    let one_done = filled(&walk);
    walk.until_released("Fit-out");
    walk.person.home();
    let (_, then) = hours(&line(&walk.person).unwrap());
    assert!(then < at_first, "{then} after {at_first}");
    assert!(filled(&walk) > one_done, "what is done can be seen");
    let mut walk = Walk::at_flight(Kind::Scale, "Flight in service");
    walk.person.home();
    assert_eq!((line(&walk.person), drawn(&walk.person)), (None, None), "in service the board is as it was");
    assert!(walk.person.row(WHY).is_none());
}

#[test]
fn a_newcomer_reads_why_and_goes_on_from_there() {
    let mut person = Person::new();
    example::name(&mut person);
    person.tap(WHY);
    assert_eq!(person.screen().title, WHY);
    let words = person.words();
    assert!(words.contains("Common practice, no source."), "the rule says where it comes from: {words}");
    assert!(words.contains("15 to 40"), "and its numbers: {words}");
    let (edge, ..) = person.row("Hollow: nothing is recorded yet").unwrap();
    assert_eq!(edge, Edge::Missing);
    person.killed_and_the_same();
    person.tap("How is the tail rotor carried?");
    assert!(person.control("In the open").is_some());
}
