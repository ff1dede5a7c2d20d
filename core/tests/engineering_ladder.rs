//! What the fit of a ladder finds when charges alone are read, when one was mistyped, and when the drive drags or a pack tires.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

#[path = "common/random.rs"]
mod random;

use liftgate_core::engineering::disagreement::{Cause, Held, Shown, likely_causes};
use liftgate_core::engineering::prediction::*;
use liftgate_core::engineering::wind::RotorWind;

use random::Random;

const AIRCRAFT: LadderAircraft = LadderAircraft { mass_kg: 9.0, radius_m: 0.9, solidity: 0.06, loaded_v: 45.0 };

fn question(steps: Vec<FlownStep>, head_rpm: f64) -> LadderQuestion {
    let next = NextStep { head_rpm, density_kg_m3: 1.2, air_c: 20.0, run_s: None, wind: Some(RotorWind::STILL) };
    LadderQuestion { aircraft: AIRCRAFT, prior: PowerPrior::LARGE_ELECTRIC, tau: None, steps, next }
}

/// Power by momentum and profile power (J. G. Leishman, Principles of Helicopter Aerodynamics, 2.12), written down a second time.
fn power_w(rpm: f64, efficiency: f64) -> f64 {
    let (density, induced, drag, growth) = (1.2, 1.25, 0.012, 1.25);
    let area = std::f64::consts::PI * AIRCRAFT.radius_m.powi(2);
    let tip = AIRCRAFT.radius_m * rpm * std::f64::consts::TAU / 60.0;
    let thrust = AIRCRAFT.mass_kg * 9.80665;
    let ideal = thrust * (thrust / (2.0 * density * area)).sqrt();
    let alpha = 6.0 * thrust / (density * area * tip * tip) / AIRCRAFT.solidity / 5.73;
    let profile = (drag + growth * alpha * alpha) * density * area * tip.powi(3) * AIRCRAFT.solidity / 8.0;
    (induced * ideal + profile) / efficiency
}

fn hover(head_rpm: f64, power_w: Option<f64>, current_a: Option<f64>) -> FlownStep {
    let wind = Some(RotorWind::STILL);
    FlownStep {
        head_rpm,
        density_kg_m3: 1.2,
        air_c: 20.0,
        power_w,
        current_a,
        temperature_c: None,
        run_s: None,
        wind,
    }
}

#[test]
fn six_exact_hovers_of_which_only_the_charge_was_read_move_the_efficiency() {
    let found = |efficiency: f64| {
        let by_current = |i: i32| {
            let rpm = 1000.0 + 40.0 * f64::from(i);
            hover(rpm, None, Some(power_w(rpm, efficiency) / AIRCRAFT.loaded_v))
        };
        predict(&question((0..6).map(by_current).collect(), 1240.0)).unwrap()
    };
    let (low, usual) = (found(0.70), found(0.79));
    let of = |prediction: &LadderPrediction| prediction.fitted.efficiency;
    println!("efficiency of 0.70: {:?}, of 0.79: {:?}", of(&low), of(&usual));
    assert!(of(&usual).middle - of(&low).middle > 0.03, "{:?}, {:?}", of(&low), of(&usual));
    assert!(of(&low).agrees(0.70).unwrap().agrees && of(&usual).agrees(0.79).unwrap().agrees);
    // The power follows the current, but for what the voltage is not known.
    let ratio = low.power_w.middle / usual.power_w.middle;
    assert!((ratio - 0.79 / 0.70).abs() < 0.03, "{ratio}");
    assert!(low.power_w.agrees(power_w(1240.0, 0.70)).unwrap().agrees);
}

#[test]
fn drag_and_efficiency_part_where_powers_of_many_head_speeds_are_known() {
    let by_power = |i: i32, power: &dyn Fn(f64) -> f64| {
        let rpm = 900.0 + 15.0 * f64::from(i);
        hover(rpm, Some(power(rpm)), Some(power(rpm) / AIRCRAFT.loaded_v))
    };
    let fit = |power: &dyn Fn(f64) -> f64| {
        predict(&question((0..30).map(|i| by_power(i, power)).collect(), 1240.0)).unwrap().fitted
    };
    let lossy = fit(&|rpm| power_w(rpm, 0.70));
    // Drag by which the profile power alone grows: at 900 rpm and at 1335 rpm another share of the whole.
    let rough = fit(&|rpm| power_w(rpm, 0.79) + 0.35 * (power_w(rpm, 0.79) - induced_w() / 0.79));
    println!("lossy drive {lossy:?}\nrough blades {rough:?}");
    let holds = |interval: Interval95, truth: f64| interval.agrees(truth).unwrap().agrees;
    assert!(holds(lossy.efficiency, 0.70) && holds(lossy.profile_drag, 0.012));
    assert!(holds(rough.efficiency, 0.79) && holds(rough.profile_drag, 0.012 * 1.35));
    // The drag tells them apart; efficiency and induced power cannot be told apart by power, so that what is lost is shared among them.
    assert!(rough.profile_drag.middle > lossy.profile_drag.middle * 1.15);
    assert!(!holds(lossy.profile_drag, 0.012 * 1.35) && lossy.efficiency.middle < rough.efficiency.middle);
}

fn induced_w() -> f64 {
    let thrust = AIRCRAFT.mass_kg * 9.80665;
    1.25 * thrust * (thrust / (2.0 * 1.2 * std::f64::consts::PI * AIRCRAFT.radius_m.powi(2))).sqrt()
}

fn held(interval: Interval95, measured: f64) -> Held {
    Held { predicted: interval.middle, low: interval.low * 0.95, high: interval.high * 1.05, measured }
}

/// Five sound hovers with a log, and a sixth that draws so much more and whose pack gives so much less; what is said of it.
fn said(random: &mut Random, more: f64, less: f64) -> Vec<Cause> {
    let (efficiency, usual_v) = (random.uniform(0.72, 0.86), 45.0 * (1.0 + 0.02 * random.normal()));
    let mut fly = |rpm: f64, more: f64, less: f64| {
        let power = power_w(rpm, efficiency) * (1.0 + more) * (1.0 + 0.02 * random.normal());
        let volts = usual_v * (1.0 - less) * (1.0 + 0.01 * random.normal());
        hover(rpm, Some(power), Some(power / volts))
    };
    let steps: Vec<FlownStep> = (0..5).map(|i| fly(1000.0 + 40.0 * f64::from(i), 0.0, 0.0)).collect();
    let last = fly(1200.0, more, less);
    let expected = predict(&question(steps, 1200.0)).unwrap();
    let (power, current) = (last.power_w.unwrap(), last.current_a.unwrap());
    let draw = Some(held(expected.power_w, power));
    let volts = Interval95 { ..expected.loaded_v };
    likely_causes(&Shown {
        draw,
        draw_at_read_speed: draw,
        current: Some(held(expected.current_a, current)),
        voltage: Some(Held { predicted: volts.middle, low: volts.low, high: volts.high, measured: power / current }),
        air_c: 20.0,
        ..Shown::default()
    })
    .unwrap()
}

#[test]
fn a_dragging_drive_is_not_told_as_a_tired_pack_nor_the_other_way_round() {
    let mut random = Random(20_261_129);
    let mut count = |more: f64, less: f64| {
        let (mut drag, mut pack) = (0, 0);
        for _ in 0..400 {
            let causes = said(&mut random, more, less);
            drag += u32::from(causes.iter().any(|cause| matches!(cause, Cause::DriveDrag { .. })));
            pack += u32::from(causes.iter().any(|cause| matches!(cause, Cause::TiredPack { .. })));
        }
        (f64::from(drag) / 4.0, f64::from(pack) / 4.0)
    };
    let (dragging, tired, sound) = (count(0.20, 0.0), count(0.0, 0.10), count(0.0, 0.0));
    let little = count(0.12, 0.0);
    println!("told drag, tired pack, %: drag {dragging:?}, {little:?}, pack {tired:?}, sound {sound:?}");
    assert!(little.1 < 5.0, "{little:?}");
    assert!(dragging.0 > 85.0 && dragging.1 < 5.0, "{dragging:?}");
    assert!(tired.1 > 80.0 && tired.0 < 5.0, "{tired:?}");
    assert!(sound.0 < 3.0 && sound.1 < 3.0, "{sound:?}");
}

/// Of so many seasons of six hovers, one of them mistyped by so much, the share in which a seventh with this drag lies above its interval, %.
fn found(random: &mut Random, drag: f64, mistyped: f64, seasons: u32) -> f64 {
    let mut found = 0;
    for _ in 0..seasons {
        let (efficiency, usual_v) = (random.uniform(0.72, 0.86), 45.0 * (1.0 + 0.02 * random.normal()));
        let scatter = random.uniform(0.01, 0.03);
        let mut fly = |rpm: f64, more: f64| {
            let current_a = power_w(rpm, efficiency) / usual_v * (1.0 + scatter * random.normal());
            hover(rpm, None, Some(current_a * (1.0 + more)))
        };
        let mut steps: Vec<FlownStep> = (0..6).map(|i| fly(1000.0 + 40.0 * f64::from(i), 0.0)).collect();
        let last = fly(1240.0, drag).current_a.unwrap();
        let at = random.uniform(1.0, 6.0) as usize;
        steps[at].current_a = steps[at].current_a.map(|ampere| ampere * mistyped);
        let expected = predict(&question(steps, 1240.0)).unwrap().current_a;
        found += u32::from(last > expected.high * 1.05);
    }
    100.0 * f64::from(found) / f64::from(seasons)
}

// The share of false alarms with a slip stays what it is without one, and so does what is found of a drag.
#[test]
fn one_mistyped_charge_does_not_blind_the_ladder() {
    let mut random = Random(14);
    let (clean, slipped) = (found(&mut random, 0.18, 1.0, 500), found(&mut random, 0.18, 1.3, 500));
    let tenfold = found(&mut random, 0.18, 10.0, 500);
    let (sound, sound_slipped) = (found(&mut random, 0.0, 1.0, 500), found(&mut random, 0.0, 1.3, 500));
    println!(
        "drag of 18 % found: {clean} %, with a x1.3 slip {slipped} %, x10 {tenfold} %; alarms {sound}, {sound_slipped} %"
    );
    assert!(clean > 80.0 && slipped > clean - 12.0 && tenfold > clean - 12.0, "{clean} {slipped} {tenfold}");
    assert!(sound < 3.0 && sound_slipped < 3.0);
}

/// Truths that are not the prior's: ranges of efficiency, drag and induced factor.
struct Family {
    name: &'static str,
    efficiency: (f64, f64),
    drag: (f64, f64),
}

const USUAL: Family = Family { name: "usual", efficiency: (0.70, 0.88), drag: (0.009, 0.015) };
/// Belts, many stages and a small motor, with covered or worn blades.
const ROUGH: Family = Family { name: "rough", efficiency: (0.60, 0.68), drag: (0.015, 0.022) };
const FAMILIES: [Family; 3] =
    [USUAL, ROUGH, Family { name: "smooth", efficiency: (0.84, 0.92), drag: (0.007, 0.010) }];

/// Coverage of current and power of the next hover after so many of a family, %.
fn coverage(family: &Family, flown: usize, seasons: u32) -> (f64, f64) {
    let mut random = Random(16 + flown as u64);
    let (mut current, mut power) = (0, 0);
    for _ in 0..seasons {
        let draw = |random: &mut Random, (low, high): (f64, f64)| random.uniform(low, high);
        let (efficiency, drag) = (draw(&mut random, family.efficiency), draw(&mut random, family.drag));
        let (induced, growth) = (random.uniform(1.1, 1.4), random.uniform(0.6, 2.0));
        let reynolds = random.uniform(0.0, 0.3);
        let (scatter, usual_v) = (random.uniform(0.015, 0.045), 45.0 * random.uniform(0.95, 1.05));
        let logged = random.uniform(0.0, 1.0) < 0.5;
        let mut fly = |rpm: f64| {
            // Drag falls with the speed of the blades, which the model does not know.
            let tip = AIRCRAFT.radius_m * rpm * std::f64::consts::TAU / 60.0;
            let drag = drag * (tip / 100.0).powf(-reynolds);
            let profile_w = power_w(rpm, 1.0) - induced_w();
            let usual_drag = 0.012 + 1.25 * alpha(rpm).powi(2);
            let of_drag = profile_w * (drag + growth * alpha(rpm).powi(2)) / usual_drag;
            let power = (induced_w() * induced / 1.25 + of_drag) / efficiency * (1.0 + scatter * random.normal());
            let volts = usual_v * (1.0 + 0.015 * random.normal());
            (hover(rpm, logged.then_some(power), Some(power / volts)), power)
        };
        let flown_steps: Vec<FlownStep> = (0..flown).map(|i| fly(1000.0 + 50.0 * i as f64).0).collect();
        let rpm = 1000.0 + 50.0 * flown as f64;
        let (next, truth_w) = fly(rpm);
        let expected = predict(&question(flown_steps, rpm)).unwrap();
        current += u32::from(expected.current_a.agrees(next.current_a.unwrap()).unwrap().agrees);
        power += u32::from(expected.power_w.agrees(truth_w).unwrap().agrees);
    }
    let percent = |count: u32| 100.0 * f64::from(count) / f64::from(seasons);
    (percent(current), percent(power))
}

fn alpha(rpm: f64) -> f64 {
    let tip = AIRCRAFT.radius_m * rpm * std::f64::consts::TAU / 60.0;
    let area = std::f64::consts::PI * AIRCRAFT.radius_m.powi(2);
    6.0 * AIRCRAFT.mass_kg * 9.80665 / (1.2 * area * tip * tip) / AIRCRAFT.solidity / 5.73
}

// Before the first hover the prior holds for its own class alone; from the second on for aircraft outside of it too.
#[test]
fn the_interval_holds_from_the_second_hover_on_whatever_the_aircraft() {
    for family in FAMILIES {
        let (mut current, mut power) = (0.0, 0.0);
        for flown in 0..6 {
            let (of_current, of_power) = coverage(&family, flown, 300);
            println!("{}, {flown} flown: current {of_current:.1} %, power {of_power:.1} %", family.name);
            if flown > 0 {
                // 300 seasons are good to 1.3 percent points (one sigma) at 95 %.
                assert!(of_current > 92.0 && of_power > 92.0, "{}, {flown} flown", family.name);
                (current, power) = (current + of_current / 5.0, power + of_power / 5.0);
            } else if family.name != ROUGH.name {
                assert!(of_current > 93.0 && of_power > 93.0, "{}", family.name);
            }
        }
        println!("{}, 1 to 5 flown: current {current:.1} %, power {power:.1} %", family.name);
        assert!((93.0..=98.0).contains(&current) && (93.0..=98.0).contains(&power), "{}", family.name);
    }
}
