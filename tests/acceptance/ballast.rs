//! A tail-heavy aircraft: the centre of gravity is computed, the least ballast named, fitted, and proved.

use liftgate_core::record::{Body, CheckResult, Outcome};
use liftgate_tests::example::{self, SCALES, Thing};
use liftgate_tests::{Person, example::enter_figure};

const STAGE: &str = "Weight and balance";
const CHECK: &str = "Centre of gravity within limits";

const fn place(name: &'static str, numbers: &'static [(&'static str, &'static str)]) -> Thing {
    Thing { kind: "ballast place", name, fed_by: None, numbers }
}
const NOSE: Thing = place(
    "Nose tray",
    &[("Ahead of the main shaft", "420"), ("Right of the main shaft", "0"), ("Most it may carry", "300")],
);
const SHELF: Thing = place(
    "Pack shelf",
    &[("Ahead of the main shaft", "150"), ("Right of the main shaft", "0"), ("Most it may carry", "900")],
);

fn tail_heavy() -> Person {
    let mut person = Person::new();
    example::name(&mut person);
    for (figure, text) in [
        ("Balance: most forward, ahead of the main shaft", "10"),
        ("Balance: most aft (behind the shaft is minus)", "-10"),
        ("Balance: most to either side", "6"),
    ] {
        enter_figure(&mut person, figure, text);
    }
    SCALES.iter().for_each(|thing| example::describe(&mut person, thing));
    // The two main wheels stand 30 mm further aft than in the other stories.
    for wheel in ["Left wheel", "Right wheel"] {
        example::change(&mut person, wheel, "Ahead of the main shaft", "-110");
    }
    person
}

/// Ballast at one arm that brings the centre to a limit: W (required - now) / (arm - required), the helicopter and
/// balance handbooks' rule with the required centre in the denominator (FAA-H-8083-1B), rounded up to whole grams.
fn handbook_ballast_g(mass_g: f64, now_mm: f64, required_mm: f64, arm_mm: f64) -> f64 {
    (mass_g * (required_mm - now_mm) / (arm_mm - required_mm)).ceil()
}

/// What the screen says the fore and aft figure is good for.
fn known_to_mm(person: &Person) -> f64 {
    let (_, note) = person.figure("Ahead of the main shaft").expect("the figure is shown");
    let note = note.expect("it says how well it is known");
    let known = note.split("known to ± ").nth(1).and_then(|rest| rest.strip_suffix(" mm"));
    known.and_then(|mm| mm.parse().ok()).unwrap_or_else(|| panic!("no interval in '{note}'"))
}

#[test]
fn the_least_ballast_is_named_fitted_and_proved() {
    let mut person = tail_heavy();
    person.go_to(STAGE, CHECK);
    // Moments: 2100 x 250 - 6900 x 110 as weighed, and the crew's 200 g at 220 mm, over 9200 g.
    let now_mm = (2_100.0 * 250.0 - 6_900.0 * 110.0 + 200.0 * 220.0) / 9_200.0;
    assert!(person.verdict().starts_with("Balance point 20.7 mm behind the main shaft"), "{}", person.verdict());
    assert_eq!(format!("{:.1}", now_mm), "-20.7");
    assert_eq!(person.figure("Ahead of the main shaft").unwrap().0, "-20.7");
    person.tap("Record this result");
    let Body::CheckRecorded { result: CheckResult::Computed { outcome, .. }, .. } = person.last() else { panic!() };
    assert_eq!(outcome, Outcome::Stop);

    example::describe(&mut person, &NOSE);
    example::describe(&mut person, &SHELF);
    person.go_to(STAGE, CHECK);
    assert_eq!(person.row("Not right").map(|_| ()), None);
    // The longest arm takes least: all of it into the nose. It aims inside the limit by what the measuring is good for, as
    // the screen says it to a tenth of a millimetre, so that it holds with the interval.
    let known_mm = known_to_mm(&person);
    let gram = |aside_mm: f64| handbook_ballast_g(9_200.0, now_mm, -10.0 + known_mm + aside_mm, 420.0);
    let verdict = person.verdict();
    let said = verdict.split("least ballast ").nth(1).and_then(|rest| rest.strip_suffix(" g at Nose tray"));
    let said: f64 = said.and_then(|grams| grams.parse().ok()).unwrap_or_else(|| panic!("no grams in '{verdict}'"));
    assert!((gram(-0.05)..=gram(0.05)).contains(&said), "'{verdict}' wants {} to {} g", gram(-0.05), gram(0.05));
    assert!(said > handbook_ballast_g(9_200.0, now_mm, -10.0, 420.0), "more than to the bare limit");

    // Fitted with some to spare: the place keeps what is in it, the balance counts it once.
    example::change(&mut person, "Nose tray", "Fitted there since the weighing", "290");
    person.go_to(STAGE, CHECK);
    let after_mm = (now_mm * 9_200.0 + 290.0 * 420.0) / 9_490.0;
    assert_eq!(person.figure("Ahead of the main shaft").unwrap().0, format!("{after_mm:.1}"));
    assert!(!person.verdict().contains("least ballast"), "{}", person.verdict());
    person.tap("Keep this result");
    let Body::CheckRecorded { result: CheckResult::Computed { outcome, .. }, .. } = person.last() else { panic!() };
    assert!(outcome < Outcome::Stop);
}

#[test]
fn places_that_cannot_reach_the_band_say_how_much_is_missing() {
    let mut person = tail_heavy();
    example::describe(&mut person, &SHELF);
    example::change(&mut person, "Pack shelf", "Most it may carry", "100");
    person.go_to(STAGE, CHECK);
    let verdict = person.verdict();
    assert!(verdict.contains("cannot reach the band"), "{verdict}");
    let reached_mm = (-190_000.0 + 100.0 * 150.0) / 9_300.0;
    let missing_mm = -10.0 + known_to_mm(&person) - reached_mm;
    let said = verdict.split("band, ").nth(1).and_then(|rest| rest.strip_suffix(" mm are missing"));
    let said: f64 = said.and_then(|mm| mm.parse().ok()).unwrap_or_else(|| panic!("no millimetres in '{verdict}'"));
    assert!((said - missing_mm).abs() < 0.06, "'{verdict}' wants {missing_mm}");
}
