//! What the drive can hold, the governor's room, and drives of more than one stage.

use liftgate_core::engineering::air::{Air, P0_PA, air_from_qnh, standard_air};
use liftgate_core::engineering::rotor::{HoverQuestion, Rotor, SectionPolar, climb_power, hover};
use liftgate_core::view::{Block, Edge};
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::Walk;

const STAGE: &str = "Figures and papers";
const CONTROLLER: &str = "Controller's continuous current rating";

/// The example aircraft with all its figures.
fn released() -> Person {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released(STAGE);
    walk.person
}

fn verdict_at(person: &mut Person, check: &str) -> String {
    person.home();
    person.go_to(STAGE, check);
    person.verdict()
}

fn figure_at(person: &mut Person, check: &str, label: &str) -> f64 {
    person.home();
    person.go_to(STAGE, check);
    let (value, _) = person.figure(label).unwrap_or_else(|| panic!("no '{label}': {}", person.words()));
    value.parse().expect("a number")
}

#[test]
fn a_larger_controller_makes_no_margin_worse_and_the_weakest_part_says_what_holds() {
    let mut person = released();
    let (governor, hover) = ("Speed in hand at the end of the pack", "Power in hand on the hottest day");
    let mut before = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    for rating in ["60", "120", "160", "250", "400"] {
        example::enter_figure(&mut person, CONTROLLER, rating);
        let room = figure_at(&mut person, governor, "Room above service speed");
        let power = figure_at(&mut person, hover, "Power in hand on the hottest day");
        assert!(room >= before.0 && power >= before.1, "{rating} A: {room} % and {power} W after {before:?}");
        before = (room, power);
        person.home();
    }
    // 90 A planned: the governor's load is that, whatever the controller could bear.
    assert!(verdict_at(&mut person, governor).contains("and 90 A"), "{}", person.verdict());
    let planned = "Planned current under the rating";
    let words = verdict_at(&mut person, planned);
    assert!(words.contains("the motor holds the least, 150 A") && words.contains("the motor, 150 A"), "{words}");
    // A motor that bears 80 A for ever and 100 A for seconds is a caution at 90 A, one that bears 85 A a stop.
    for (continuous, burst, edge) in [("80", "100", Edge::Caution), ("60", "85", Edge::Stop)] {
        person.home();
        example::enter_figure(&mut person, "Motor's continuous current rating", continuous);
        example::enter_figure(&mut person, "Motor's current rating for some seconds", burst);
        person.go_to(STAGE, planned);
        let (_, note) = person.figure("The motor").expect("the motor");
        assert!(note.unwrap().contains(burst));
        let verdict = person.screen().blocks.into_iter().find_map(|block| match block {
            Block::Verdict { edge, .. } => Some(edge),
            _ => None,
        });
        assert_eq!(verdict, Some(edge), "{continuous} A, {burst} A: {}", person.words());
    }
}

#[test]
fn a_drive_of_two_stages_is_not_refused_and_tells_both_meshes() {
    let mut person = released();
    // 20 on 40, then 15 on 75: ten to one, and pinion against main gear alone would make 3.75.
    for (figure, value) in [
        ("Motor turns for one main rotor turn", "10"),
        ("Teeth of the motor pinion", "20"),
        ("Teeth of the main gear", "75"),
    ] {
        example::enter_figure(&mut person, figure, value);
    }
    let check = "Speed in hand at the end of the pack";
    let refused = verdict_at(&mut person, check);
    assert!(refused.contains("the drive reaches"), "the room goes by the whole ratio: {refused}");
    assert_eq!(person.row("Teeth and gear ratio").expect("teeth that do not fit").1, "Differ");
    person.home();
    example::enter_figure(&mut person, "Teeth of the gear on a middle shaft", "40");
    example::enter_figure(&mut person, "Teeth of the pinion on a middle shaft", "15");
    verdict_at(&mut person, check);
    assert!(person.row("Teeth and gear ratio").is_none());
    // 1240 rpm: the motor turns 206.67 times a second, the middle shaft half of that.
    let (_, note) = person.figure("Motor, electrical").expect("the frequencies");
    assert!(note.unwrap().contains("4133 Hz, 1550 Hz"));
}

#[test]
fn thin_air_costs_what_blade_elements_say_and_a_climb_more_than_the_ideal() {
    let mut person = released();
    let check = "Power in hand on the hottest day";
    // 900 rpm: the collective must rise, and with it the drag; a fixed share of drag would make thin air a gain.
    for (title, rpm) in [
        ("Head speed of the lowest hover", "700"),
        ("Head speed of the second hover", "760"),
        ("Head speed of the third hover", "830"),
        ("Head speed for everyday flying", "900"),
    ] {
        person.home();
        person.tap("Aircraft");
        person.tap(title);
        person.enter(title, rpm);
        person.enter("Why it changes", "A slower rotor");
        person.tap("Record it");
    }
    let rotor = Rotor {
        blades: 3,
        radius_m: 0.9,
        chord_m: 0.062,
        root_fraction: 0.17,
        twist_deg: 0.0,
        polar: SectionPolar::SMALL_SYMMETRIC,
    };
    let power = |air: Air, climb_m_s: f64| {
        let question =
            HoverQuestion { rotor, air, speed_rpm: 900.0, mass_kg: 9.4, download_fraction: 0.04, climb_m_s };
        hover(&question).unwrap().loads
    };
    let hot = air_from_qnh(P0_PA, 120.0, 34.0, 0.5).unwrap();
    let by_air = 100.0 * (power(hot, 0.0).power_w / power(standard_air(0.0).unwrap(), 0.0).power_w - 1.0);
    let shown = figure_at(&mut person, check, "Power against standard air");
    assert!(shown > 2.0 && (shown - by_air).abs() < 0.1, "{shown} %, by blade elements {by_air} %");
    let climb_w = power(hot, 3.0).power_w - power(hot, 0.0).power_w;
    let ideal = |climb: f64| climb_power(power(hot, 0.0).thrust_n, 0.9, hot.density_kg_m3, climb).unwrap();
    let shown = figure_at(&mut person, check, "More for a climb of 3 m/s");
    assert!((shown - climb_w).abs() < 1.0 && shown > 1.02 * (ideal(3.0) - ideal(0.0)), "{shown} W, {climb_w} W");
}
