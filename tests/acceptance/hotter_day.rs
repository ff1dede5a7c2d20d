//! The pilot asks what the last hover's heat would be on another day, and what would hold it.

use liftgate_core::view::{Block, Edge};
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind, Thing};
use liftgate_tests::walk::{Walk, places_wanted};

fn at_the_hotter_day() -> Person {
    let mut walk = Walk::at_flight(Kind::Scale, "Flight in service");
    walk.person.go_to("Data review", "Each part on the hottest day");
    walk.person.tap("Another day");
    walk.person
}

fn value(person: &Person, label: &str) -> f64 {
    let found = person.screen().blocks.into_iter().find_map(|block| match block {
        Block::Stepper { label: at, value, .. } if at == label => value.parse().ok(),
        _ => None,
    });
    found.unwrap_or_else(|| panic!("no '{label}'"))
}

#[test]
fn the_same_day_comes_to_what_was_measured_and_a_hotter_one_adds_its_degrees() {
    let mut person = at_the_hotter_day();
    assert_eq!(person.screen().title, "The hotter day");
    assert_eq!(value(&person, "Air"), 34.0, "it starts from the hottest day that was named");
    // The example's controller was read at 58 degrees in all hovers. The air of its last one is offered as a day.
    let lately =
        person.controls().into_iter().map(|(label, _)| label).find(|l| l.starts_with("Hottest of thirty days"));
    let lately = lately.expect("the hottest air of thirty days");
    person.tap(&lately);
    let air_c = value(&person, "Air");
    let (celsius, _) = person.figure("Controller").expect("the controller");
    assert_eq!(celsius, "58");
    for _ in 0..10 {
        person.tap("Air more");
    }
    assert_eq!(value(&person, "Air"), air_c + 10.0);
    // One for one, and a little for thinner air: 1 - (273 + t) / (283 + t) of the rise, to the power of 0.6.
    let hotter: f64 = person.figure("Controller").expect("the controller").0.parse().expect("a number");
    assert!((68.0..=69.0).contains(&hotter), "{hotter}");
}

#[test]
fn with_no_airflow_it_says_how_soon_and_what_would_hold_it() {
    let mut person = at_the_hotter_day();
    for _ in 0..4 {
        person.tap("Airflow, of a hover's less");
    }
    assert_eq!(value(&person, "Airflow, of a hover's"), 0.0);
    person.tap("Airflow, of a hover's less");
    assert_eq!(value(&person, "Airflow, of a hover's"), 0.0, "no less than none");
    assert!(
        person.verdict().contains("no airflow") && person.verdict().contains("How soon is not known"),
        "{}",
        person.verdict()
    );

    // A bench run gives the time constant: 22 to 60 degrees, 180 s (shared check values, rounded to half a degree).
    for (name, time_s, celsius) in [
        ("At once", "0", "22"),
        ("One", "60", "33"),
        ("Two", "120", "41.5"),
        ("Three", "180", "46"),
        ("Four", "240", "50"),
        ("Five", "300", "53"),
        ("Six", "420", "56.5"),
        ("Seven", "600", "58.5"),
    ] {
        let numbers: &'static [(&str, &str)] =
            Box::leak(Box::new([("Time since the start", time_s), ("Temperature", celsius)]));
        example::describe(&mut person, &Thing { kind: "heat reading", name, fed_by: None, numbers });
    }
    person.go_to("Data review", "Each part on the hottest day");
    person.tap("Another day");
    let verdict = person.verdict();
    assert!(verdict.starts_with("At 34 °C and no airflow the "), "what was asked is still there: {verdict}");
    assert!(verdict.contains("reaches its stop of ") && verdict.contains(" °C after "), "{verdict}");
    let held: Vec<String> = ["Less power", "More air over it", "A shorter flight"]
        .iter()
        .map(|title| person.row(title).unwrap_or_else(|| panic!("no '{title}': {}", person.words())).1)
        .collect();
    assert!(
        held[0].starts_with("At most ") && held[1].starts_with("At least ") && held[2].starts_with("At most "),
        "{held:?}"
    );

    // Doing what it says holds it: power down to what was said, in the same still air.
    let percent: f64 = held[0].trim_start_matches("At most ").trim_end_matches(" %").parse().expect("a percentage");
    person.enter("Power, of the last hover's", &format!("{}", percent.floor()));
    assert!(person.verdict().contains("under its stop"), "{}", person.verdict());
    let edges: Vec<Edge> = person
        .screen()
        .blocks
        .iter()
        .filter_map(|b| match b {
            Block::Figure { edge, .. } => Some(*edge),
            _ => None,
        })
        .collect();
    assert!(!edges.contains(&Edge::Stop), "{edges:?}");
}

/// The everyday hover once more, after which the controller is as warm as this.
fn hover_again(walk: &mut Walk, controller: &str) {
    walk.person.home();
    walk.person.go_to("Hover ladder", "Hover at service speed");
    walk.person.tap("Draw up the card");
    walk.fly();
    for place in places_wanted(&walk.person.screen()) {
        let celsius = if place == "Controller" { controller } else { example::temperature(&place) };
        walk.person.enter(&place, celsius);
    }
    walk.person.enter("Charge used", "2400");
    walk.answer_marks();
    walk.person.tap("As it should be");
}

#[test]
fn it_starts_from_the_hottest_of_the_flights_like_it_and_says_which() {
    let mut walk = Walk::at_flight(Kind::Scale, "Flight in service");
    // A hover in a lucky draught is the last one, and says less than the one before.
    hover_again(&mut walk, "44");
    walk.person.go_to("Data review", "Each part on the hottest day");
    walk.person.tap("Another day");
    let (hot, note) = walk.person.figure("Controller").expect("the controller");
    let (hot, note): (f64, String) = (hot.parse().expect("a number"), note.expect("where it comes from"));
    assert!(hot > 58.0, "never cooler than what was read on a cooler day: {hot}");
    assert!(note.contains("from 58 °C on "), "{note}");
    assert!(walk.person.words().contains("from the hottest of the flights like it"), "{}", walk.person.words());
}

#[test]
fn without_a_time_constant_a_longer_flight_is_no_pass_and_the_reading_that_is_lacking_is_named() {
    let mut person = at_the_hotter_day();
    let edge = |person: &Person| match &person.screen().blocks[0] {
        Block::Verdict { edge, .. } => *edge,
        other => panic!("{other:?}"),
    };
    person.enter("Air", "20");
    person.enter("Flight", "4");
    assert_eq!(edge(&person), Edge::Fresh, "{}", person.verdict());
    assert!(person.verdict().contains("in a flight of "), "{}", person.verdict());
    assert!(
        person.words().contains("Without a time constant this holds for flights of up to "),
        "{}",
        person.words()
    );
    person.enter("Flight", "9");
    assert_eq!(edge(&person), Edge::Caution, "{}", person.verdict());
    assert!(person.verdict().contains("what 9:00 come to is not known"), "{}", person.verdict());
    assert!(person.words().contains("Four heat readings or more of one run on the bench"), "{}", person.words());
}

#[test]
fn a_bench_run_of_which_too_few_readings_are_in_takes_no_prediction_away() {
    let mut walk = Walk::at_flight(Kind::Scale, "Flight in service");
    let card = |walk: &mut Walk| {
        walk.person.home();
        walk.person.go_to("Hover ladder", "Hover at service speed");
        walk.person.tap("Draw up the card");
        let (_, _, controller) = walk.person.row("Controller above 90 °C").expect("the controller");
        (walk.person.figure("Charge it should use"), controller)
    };
    let before = card(&mut walk);
    assert!(
        before.0.is_some() && before.1.as_ref().is_some_and(|words| words.starts_with("Expected ")),
        "{before:?}"
    );
    let numbers = &[("Time since the start", "0"), ("Temperature", "22")];
    example::describe(&mut walk.person, &Thing { kind: "heat reading", name: "At once", fed_by: None, numbers });
    assert_eq!(card(&mut walk), before, "one reading gives no time constant, and takes nothing away");
}
