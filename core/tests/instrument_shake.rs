//! Shake of drives whose vibration is known, read unevenly and with gaps.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

#[path = "common/random.rs"]
mod random;

use std::f64::consts::{SQRT_2, TAU};

use liftgate_core::instrument::*;
use random::Random;

fn drive() -> Drive {
    Drive {
        main_blades: 2,
        tail: Some(Tail { per_main: 4.6, blades: 2 }),
        motor: Some(Motor { per_main: 10.1, pole_pairs: None }),
        meshes: vec![Mesh { teeth: 92, per_main: 1.0 }],
        belts_per_main: vec![0.73],
    }
}

/// How a sensor reads.
#[derive(Clone, Copy)]
struct Sensor {
    rate_hz: f64,
    /// Standard deviation of the moments about their even places, as a share of the gap.
    jitter: f64,
    missing: f64,
    noise_m_s2: f64,
    seconds: f64,
}

const SENSOR: Sensor = Sensor { rate_hz: 400.0, jitter: 0.1, missing: 0.05, noise_m_s2: 0.3, seconds: 12.0 };

/// Readings with lines of `(order, velocity in mm/s rms)`, the size along the axes as 2 : 1 : 2 thirds of it, at a speed that hunts a little.
fn readings(random: &mut Random, sensor: &Sensor, rpm: f64, lines: &[(f64, f64)]) -> Readings {
    let phases: Vec<f64> = lines.iter().map(|_| random.uniform(0.0, TAU)).collect();
    let (mut t_ns, mut m_s2) = (Vec::new(), Vec::new());
    for n in 0..(sensor.rate_hz * sensor.seconds) as usize {
        let t = (n as f64 + 0.5 + (sensor.jitter * random.normal()).clamp(-0.45, 0.45)) / sensor.rate_hz;
        if random.uniform(0.0, 1.0) < sensor.missing {
            continue;
        }
        let turns = rpm / 60.0 * (t + 2e-4 * (TAU * 0.2 * t).sin());
        let line = |((order, mm_s), phase): (&(f64, f64), &f64)| {
            let turn_rad_s = TAU * order * rpm / 60.0;
            1e-3 * mm_s * SQRT_2 * turn_rad_s * (TAU * order * turns + phase).sin()
        };
        let sum: f64 = lines.iter().zip(&phases).map(line).sum();
        let axis =
            |share: f64, rest: f64, random: &mut Random| share * sum + rest + sensor.noise_m_s2 * random.normal();
        t_ns.push(5_000_000_000 + (t * 1e9) as i64);
        m_s2.push([
            axis(2.0 / 3.0, 0.4, random),
            axis(1.0 / 3.0, -0.2 + 0.05 * t, random),
            axis(2.0 / 3.0, 9.8, random),
        ]);
    }
    Readings { t_ns, m_s2 }
}

fn of(shake: &Shake, family: Family, harmonic: u32) -> &Seen {
    &shake.orders.iter().find(|seen| seen.order.family == family && seen.order.harmonic == harmonic).unwrap().seen
}

fn found(shake: &Shake, family: Family, harmonic: u32) -> &Shaking {
    match of(shake, family, harmonic) {
        Seen::Found(shaking) => shaking,
        other => panic!("{family:?} {harmonic}: {other:?}"),
    }
}

#[test]
fn velocities_are_told_by_order_whatever_the_sensor() {
    let mut worst = 0.0f64;
    for (trial, rate_hz) in [(0, 300.0), (1, 400.0), (2, 500.0), (3, 250.0)] {
        for rpm in [1080.0, 1320.0] {
            let mut random = Random(920_000_000 + trial);
            let sensor = Sensor { rate_hz, ..SENSOR };
            let lines = [(1.0, 3.0), (2.0, 5.0), (4.6, 0.8)];
            let shake =
                shake(&readings(&mut random, &sensor, rpm, &lines), &drive(), rpm * 1.004, 0.01).unwrap().unwrap();
            assert!((shake.head_rpm / rpm - 1.0).abs() < 1e-3, "{} for {rpm}", shake.head_rpm);
            assert!((shake.missing_share - 0.05).abs() < 0.08, "{}", shake.missing_share);
            let parts = [(Family::Turn(Shaft::Main), 1), (Family::MainPassage, 1), (Family::Turn(Shaft::Tail), 1)];
            for ((family, harmonic), (_, mm_s)) in parts.into_iter().zip(lines) {
                let shaking = found(&shake, family, harmonic);
                worst = worst.max((shaking.mm_s / mm_s - 1.0).abs());
                let axes = shaking.axes_mm_s.map(|axis| axis / mm_s);
                let right =
                    axes.iter().zip([2.0 / 3.0, 1.0 / 3.0, 2.0 / 3.0]).all(|(is, was)| (is - was).abs() < 0.07);
                assert!(right, "{axes:?}");
            }
        }
    }
    println!("worst velocity off by {:.1} %", 100.0 * worst);
    assert!(worst < 0.06, "{worst}");
}

#[test]
fn what_a_sensor_cannot_see_is_said() {
    let mut random = Random(921);
    let sensor = Sensor { rate_hz: 100.0, jitter: 0.02, missing: 0.0, ..SENSOR };
    // At 1200 rpm the tail passes 184 times a second, which a hundred readings a second show at 16 Hz; the mesh lies far beyond.
    let shake =
        shake(&readings(&mut random, &sensor, 1200.0, &[(1.0, 3.0)]), &drive(), 1200.0, 0.002).unwrap().unwrap();
    assert!(
        matches!(of(&shake, Family::TailPassage, 1), Seen::BeyondSensor { appears_at_hz } if (appears_at_hz - 16.0).abs() < 0.1)
    );
    assert!(matches!(of(&shake, Family::Mesh(0), 1), Seen::BeyondSensor { .. }));
    assert!(matches!(of(&shake, Family::MainPassage, 2), Seen::BeyondSensor { .. }));
    // Twice a turn is the blades' passage: one figure holds both.
    let twice = of(&shake, Family::Turn(Shaft::Main), 2);
    assert!(
        matches!(twice, Seen::OneWith(other) if other.family == Family::MainPassage && other.harmonic == 1),
        "{twice:?}"
    );
    // Twice the passage, 80 Hz, and twice the mesh, 3680 Hz, appear at 20 as well.
    let may_hold = &found(&shake, Family::Turn(Shaft::Main), 1).may_hold;
    let named: Vec<(Family, u32)> = may_hold.iter().map(|order| (order.family, order.harmonic)).collect();
    assert_eq!(named, [(Family::MainPassage, 2), (Family::Mesh(0), 2)]);
    // Near a seventh of the rate six turns of a motor appear as one of the rotor.
    let near = Drive { motor: Some(Motor { per_main: 6.0, pole_pairs: None }), ..drive() };
    let rpm = 100.0 / 7.0 * 60.0 + 0.6;
    let folded =
        liftgate_core::instrument::shake(&readings(&mut random, &sensor, rpm, &[(1.0, 3.0)]), &near, rpm, 0.002);
    let folded = folded.unwrap().unwrap();
    let may_hold = &found(&folded, Family::Turn(Shaft::Main), 1).may_hold;
    assert!(
        may_hold.iter().any(|order| order.family == Family::Turn(Shaft::Motor) && order.harmonic == 1),
        "{may_hold:?}"
    );
}

#[test]
fn noise_alone_is_found_as_often_as_is_said() {
    let (mut called, mut of) = (0u32, 0u32);
    let mut random = Random(922);
    for _ in 0..60 {
        let sensor = Sensor { seconds: 8.0, rate_hz: 200.0, ..SENSOR };
        let shake = shake(&readings(&mut random, &sensor, 1200.0, &[]), &drive(), 1200.0, 0.0).unwrap().unwrap();
        for seen in &shake.orders {
            called += u32::from(matches!(seen.seen, Seen::Found(_)));
            of += u32::from(matches!(seen.seen, Seen::Found(_) | Seen::Below { .. }));
        }
    }
    println!("noise called found {called} times of {of}");
    // One in a hundred, give or take three standard deviations.
    assert!(f64::from(called) < 0.01 * f64::from(of) + 3.0 * (0.01 * f64::from(of)).sqrt(), "{called} of {of}");
}

#[test]
fn a_velocity_below_the_one_named_is_not_found_and_one_above_is() {
    let mut random = Random(923);
    let limit = |lines: &[(f64, f64)], random: &mut Random| {
        let shake = shake(&readings(random, &SENSOR, 1200.0, lines), &drive(), 1200.0, 0.0).unwrap().unwrap();
        of(&shake, Family::Turn(Shaft::Tail), 1).clone()
    };
    let Seen::Below { mm_s } = limit(&[(1.0, 3.0)], &mut random) else { panic!("found in noise") };
    let mut seen = 0;
    for _ in 0..20 {
        seen += u32::from(matches!(limit(&[(4.6, 1.2 * mm_s)], &mut random), Seen::Found(_)));
    }
    assert!(seen >= 19, "{seen} of 20 at 1.2 times {mm_s}");
}

#[test]
fn too_little_and_what_cannot_be_is_said() {
    let mut random = Random(924);
    let good = readings(&mut random, &SENSOR, 1200.0, &[(1.0, 3.0)]);
    let cut = |count: usize| Readings { t_ns: good.t_ns[..count].to_vec(), m_s2: good.m_s2[..count].to_vec() };
    assert!(matches!(shake(&cut(1500), &drive(), 1200.0, 0.0).unwrap(), Err(NoShake::TooShort { .. })));
    let sparse = readings(&mut random, &Sensor { missing: 0.0, rate_hz: 20.0, ..SENSOR }, 1200.0, &[]);
    assert!(matches!(shake(&sparse, &drive(), 1200.0, 0.0).unwrap(), Err(NoShake::TooFewReadings { .. })));
    let mut back = good.clone();
    back.t_ns[100] = back.t_ns[99];
    assert!(matches!(shake(&back, &drive(), 1200.0, 0.0), Err(InstrumentError::TimeRunsBack { at: 100 })));
    let mut odd = good.clone();
    odd.m_s2[7][1] = f64::NAN;
    assert!(shake(&odd, &drive(), 1200.0, 0.0).is_err());
    odd.m_s2.pop();
    assert!(matches!(shake(&odd, &drive(), 1200.0, 0.0), Err(InstrumentError::Count { .. })));
    assert!(shake(&good, &drive(), f64::INFINITY, 0.0).is_err());
    assert!(shake(&good, &drive(), 1200.0, 0.5).is_err());
}

#[test]
fn the_velocity_spectrum_reads_a_line_from_uneven_moments() {
    let mut random = Random(925);
    let readings = readings(&mut random, &SENSOR, 1200.0, &[(1.0, 3.0), (4.6, 1.0)]);
    let axis: Vec<f64> = readings.m_s2.iter().map(|value| value[2]).collect();
    let spectrum = velocity_spectrum(&readings.t_ns, &axis, (5.0, 180.0), 2.0).unwrap();
    let at = |hz: f64| spectrum.mm_s[((hz - spectrum.low_hz) / spectrum.step_hz).round() as usize];
    assert!((at(20.0) / 2.0 - 1.0).abs() < 0.05 && (at(92.0) * 1.5 - 1.0).abs() < 0.05, "{} {}", at(20.0), at(92.0));
    assert!(at(56.0) < 0.1 && at(140.0) < 0.1, "{} {}", at(56.0), at(140.0));
    assert!(velocity_spectrum(&readings.t_ns, &axis, (5.0, 180.0), 100.0).is_err());
    assert!(velocity_spectrum(&readings.t_ns, &axis[1..], (5.0, 180.0), 2.0).is_err());
}

/// Velocities of a reading's pieces: scatter within, and what differs between readings.
fn pieces(random: &mut Random, mean: f64, within: f64, between: f64) -> Vec<f64> {
    let level = mean * (between * random.normal()).exp();
    (0..6).map(|_| level * (within * random.normal()).exp()).collect()
}

#[test]
fn growth_is_called_at_the_rate_of_false_alarms_that_was_asked_for() {
    let mut random = Random(926);
    for (within, between, false_alarms) in [(0.1, 0.0, 0.05), (0.1, 0.0, 0.01), (0.2, 0.1, 0.05), (0.05, 0.2, 0.01)] {
        let trials = 20_000;
        let (mut alarms, mut seen, mut held) = (0, 0, 0);
        for _ in 0..trials {
            let earlier = pieces(&mut random, 2.0, within, between);
            let same = growth(&earlier, &pieces(&mut random, 2.0, within, between), between, false_alarms).unwrap();
            alarms += i32::from(same.has_grown);
            held += i32::from(same.low < 1.0 && 1.0 < same.high);
            let more = pieces(&mut random, 4.0, within, between);
            seen += i32::from(growth(&earlier, &more, between, false_alarms).unwrap().has_grown);
        }
        let share = |count: i32| f64::from(count) / f64::from(trials);
        println!(
            "within {within}, between {between}: {:.2} % false alarms where {:.0} % were asked for, interval holds {:.1} %, \
             twice as much is seen in {:.1} %",
            100.0 * share(alarms),
            100.0 * false_alarms,
            100.0 * share(held),
            100.0 * share(seen)
        );
        assert!((share(alarms) / false_alarms - 1.0).abs() < 0.25, "{}", share(alarms));
        assert!((share(held) - 0.95).abs() < 0.01, "{}", share(held));
        assert!(share(seen) > 0.5, "{}", share(seen));
    }
    assert!(growth(&[1.0, 2.0], &[1.0, 2.0, 3.0], 0.0, 0.01).is_err());
    assert!(growth(&[1.0, 2.0, 0.0], &[1.0, 2.0, 3.0], 0.0, 0.01).is_err());
    assert!(growth(&[1.0, 2.0, 3.0], &[1.0, 2.0, 3.0], 0.0, 0.9).is_err());
}
