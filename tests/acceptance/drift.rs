//! A figure that moved is told on the page of trends, and the same flights without what moved it tell nothing.

use liftgate_core::drawing::{Ink, Picture};
use liftgate_core::record::MarkKind;
use liftgate_core::view::{Block, Edge};
use liftgate_tests::example::{Kind, PACK, SPOTTER, charge_on_card, temperature};
use liftgate_tests::walk::{Walk, places_wanted};

const FLIGHT: &str = "Flight in service";
const CONTROLLER: &str = "Controller, above the air";

/// Air of each flight, and how far above it the controller came: nothing but scatter.
const FLOWN: [(i32, i32); 14] = [
    (18, 34),
    (21, 36),
    (16, 35),
    (24, 33),
    (25, 35),
    (19, 36),
    (22, 34),
    (17, 35),
    (26, 33),
    (23, 36),
    (20, 35),
    (18, 34),
    (24, 36),
    (21, 34),
];
/// What a heat sink that came loose puts on top, K.
const CREEP: [i32; 14] = [0, 0, 0, 0, 0, 0, 0, 10, 11, 10, 12, 11, 12, 9];

/// Two weeks in service, a flight each day, and then the page of trends.
fn two_weeks(creeps: bool) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    for ((air_c, rise_k), creep_k) in FLOWN.into_iter().zip(CREEP) {
        walk.person.home();
        walk.until_flight(FLIGHT);
        fly(&mut walk, air_c, air_c + rise_k + if creeps { creep_k } else { 0 });
        walk.person.wait(23 * 3_600);
    }
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Trends over its life");
    walk
}

/// One flight in air of this temperature, after which the controller is as warm as this.
fn fly(walk: &mut Walk, air_c: i32, controller_c: i32) {
    let person = &mut walk.person;
    person.tap("Draw up the card");
    person.tap(PACK);
    charge_on_card(person, PACK);
    person.enter("Air temperature", &air_c.to_string());
    person.enter("Spotter's name, if not flying alone", SPOTTER);
    person.tap("Hand over");
    let spotter = person.spotter();
    spotter.start(&person.now).unwrap();
    for _ in 0..4 {
        person.wait(85);
        spotter.mark(MarkKind::Sound, &person.now).unwrap();
    }
    spotter.land(&person.now).unwrap();
    person.wait(10);
    spotter.hand_back(&person.now).unwrap();
    for place in places_wanted(&person.screen()) {
        let celsius = if place == "Controller" { controller_c.to_string() } else { temperature(&place).to_owned() };
        person.enter(&place, &celsius);
    }
    person.enter("Charge used", "2400");
    walk.answer_marks();
    walk.person.tap("As it should be");
}

/// What the page says under a trend's heading: the last value with its unit and what the test says of it, and the drawing.
fn told(walk: &Walk, name: &str) -> (String, String, Edge, Picture) {
    let blocks = walk.person.screen().blocks;
    let heads = |block: &Block| matches!(block, Block::Heading { text, note } if text == name && note.as_deref() == Some(FLIGHT));
    let at = blocks.iter().position(heads).unwrap_or_else(|| panic!("no '{name}': {}", walk.person.words()));
    match &blocks[at + 1..at + 3] {
        [Block::Figure { value, unit, note, edge, .. }, Block::Drawing { picture }] => {
            (format!("{value} {unit}"), note.clone().unwrap_or_default(), *edge, picture.clone())
        }
        other => panic!("under '{name}' stands {other:?}"),
    }
}

/// Where the drawing says that a drift began, as a share of its width.
fn began(picture: &Picture) -> Option<f32> {
    let line = picture.strokes.iter().find(|stroke| stroke.ink == Ink::Limit && stroke.dashed)?;
    Some(line.points[0].x / picture.width)
}

#[test]
fn a_controller_that_runs_warmer_from_a_flight_on_is_told_on_the_page_of_trends() {
    let mut walk = two_weeks(true);
    assert_eq!(walk.person.verdict(), "1 figure has drifted.", "{}", walk.person.words());
    let (last, said, edge, picture) = told(&walk, CONTROLLER);
    assert_eq!((last.as_str(), edge), ("43 K", Edge::Caution), "{said}");
    assert!(said.starts_with("drifted: +") && said.contains(" K since "), "{said}");
    let began = began(&picture).expect("a line where it began");
    assert!((0.35..0.75).contains(&began), "it begins after seven of fourteen flights: {began}");
    let first = walk.person.screen().blocks.into_iter().find_map(|block| match block {
        Block::Heading { text, .. } => Some(text),
        _ => None,
    });
    assert_eq!(first.as_deref(), Some(CONTROLLER), "what drifts comes first");
    walk.person.killed_and_the_same();

    // The same in Fahrenheit: a difference, which has no zero.
    let kelvin = change(&said);
    walk.person.home();
    walk.person.tap("Language and units");
    walk.person.tap("Fahrenheit, °F");
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Trends over its life");
    let (last, said, ..) = told(&walk, CONTROLLER);
    assert_eq!(last, "77 °F", "43 K are 1.8 times as many degrees Fahrenheit");
    assert!((change(&said) - 1.8 * kelvin).abs() <= 0.5 + 0.9, "{said} for {kelvin} K");
    assert!(said.contains(" °F since ") && !walk.person.words().contains(" K "), "{}", walk.person.words());
}

/// A flight each day, after which the controller is so much warmer than the air; and then the page of trends.
fn flown(rises_k: &[i32]) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    for rise_k in rises_k {
        walk.person.home();
        walk.until_flight(FLIGHT);
        fly(&mut walk, 20, 20 + rise_k);
        walk.person.wait(23 * 3_600);
    }
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Trends over its life");
    walk
}

#[test]
fn a_rise_that_doubled_at_once_is_told_after_two_flights() {
    let walk = flown(&[18, 19, 18, 19, 37, 38]);
    let (last, said, edge, picture) = told(&walk, CONTROLLER);
    assert_eq!((last.as_str(), edge), ("38 K", Edge::Caution), "{said}");
    assert!(said.starts_with("drifted: +19 "), "{said}");
    let began = began(&picture).expect("a line where it began");
    assert!((0.6..0.8).contains(&began), "after four of six: {began}");
}

#[test]
fn a_few_readings_that_scatter_say_that_they_are_too_few() {
    let walk = flown(&[18, 30, 14, 25]);
    let (_, said, edge, _) = told(&walk, CONTROLLER);
    assert_eq!((said.as_str(), edge), ("too few to tell", Edge::Missing));
}

/// By how much it says that the figure drifted.
fn change(said: &str) -> f64 {
    let number = said.trim_start_matches("drifted: +");
    number.split(' ').next().and_then(|text| text.parse().ok()).unwrap_or_else(|| panic!("{said}"))
}

#[test]
fn the_same_flights_without_the_creep_tell_of_no_drift() {
    let walk = two_weeks(false);
    let verdict = walk.person.verdict();
    assert!(verdict.starts_with("Nothing has drifted of ") && verdict.ends_with(" too few to tell."), "{verdict}");
    let (last, said, edge, picture) = told(&walk, CONTROLLER);
    assert_eq!((last.as_str(), said.as_str(), edge), ("34 K", "no drift", Edge::Fresh));
    assert_eq!(began(&picture), None);
}
