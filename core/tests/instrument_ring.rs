//! Taps on parts whose modes are known.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

#[path = "common/random.rs"]
mod random;

use std::f64::consts::TAU;

use liftgate_core::instrument::*;
use random::Random;

const TAPPING: Tapping = Tapping { rate_hz: 400.0, low_hz: 5.0, high_hz: 100.0, contact_s: 0.01 };

/// A record with a tap a quarter of a second in: modes as natural frequency, damping ratio and size against the tap's of one.
fn tapped(random: &mut Random, rate_hz: f64, seconds: f64, modes: &[(f64, f64, f64)], noise: f64) -> Vec<f64> {
    let at_s = 0.25;
    let hard = random.uniform(0.5, 1.5);
    let phases: Vec<f64> = modes.iter().map(|_| random.uniform(-0.5, 0.5)).collect();
    let sample = |n: usize| {
        let t = n as f64 / rate_hz - at_s;
        let ring = |((hz, damping, size), phase): (&(f64, f64, f64), &f64)| {
            let turn = TAU * hz;
            let damped = turn * (1.0 - damping * damping).sqrt();
            if t < 0.0 { 0.0 } else { size * (-damping * turn * t).exp() * (damped * t + phase).sin() }
        };
        let tap = if (0.0..0.008).contains(&t) { 3.0 * (TAU * t / 0.016).sin() } else { 0.0 };
        let clean: f64 = modes.iter().zip(&phases).map(ring).sum();
        9.81 + hard * (clean + tap) + noise * random.normal()
    };
    (0..(rate_hz * seconds) as usize).map(sample).collect()
}

fn told(records: &[Vec<f64>], tapping: &Tapping) -> Result<RingDown, NoRing> {
    let slices: Vec<&[f64]> = records.iter().map(Vec::as_slice).collect();
    ring_down(&slices, tapping).unwrap()
}

fn holds(interval: &Estimate, value: f64) -> bool {
    (interval.low..=interval.high).contains(&value)
}

fn trials(usual: u32) -> u32 {
    std::env::var("LIFTGATE_TRIALS").ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// How often all modes are found, and how often their intervals hold.
fn coverage(name: &str, tapping: &Tapping, seconds: f64, modes: &[(f64, f64, f64)], (noise, taps): (f64, usize)) {
    let trials = trials(24);
    let (mut found, mut hz_held, mut damping_held, mut worst_hz) = (0u32, 0u32, 0u32, 0.0f64);
    for trial in 0..trials {
        let mut random = Random(910_000_000 + u64::from(trial));
        let records: Vec<Vec<f64>> =
            (0..taps).map(|_| tapped(&mut random, tapping.rate_hz, seconds, modes, noise)).collect();
        let Ok(ring) = told(&records, tapping) else { continue };
        if ring.modes.len() != modes.len() {
            continue;
        }
        found += 1;
        for (mode, truth) in ring.modes.iter().zip(modes) {
            hz_held += u32::from(holds(&mode.natural_hz, truth.0));
            damping_held += u32::from(holds(&mode.damping, truth.1));
            worst_hz = worst_hz.max((mode.natural_hz.value / truth.0 - 1.0).abs());
        }
    }
    let all = f64::from(found) * modes.len() as f64;
    let (hz, damping) = (f64::from(hz_held) / all, f64::from(damping_held) / all);
    println!(
        "{name}: all modes in {found} of {trials}; held frequency {:.1} %, damping {:.1} %; worst off {:.2} %",
        100.0 * hz,
        100.0 * damping,
        100.0 * worst_hz
    );
    assert!(f64::from(found) >= 0.93 * f64::from(trials), "{name}: {found}");
    // A tap's modes err together: more than chance alone.
    let slack = 4.0 * (0.95 * 0.05 / all).sqrt();
    for held in [hz, damping] {
        assert!(held > 0.93 - slack && held < 0.97 + slack, "{name}: {held}");
    }
}

#[test]
fn modes_are_found_and_their_intervals_hold() {
    coverage("one mode", &TAPPING, 2.5, &[(22.0, 0.03, 1.0)], (0.02, 1));
    coverage("one mode in much noise, four taps", &TAPPING, 2.5, &[(14.0, 0.02, 1.0)], (0.1, 4));
    coverage("two close modes, three taps", &TAPPING, 3.0, &[(30.0, 0.012, 1.0), (31.5, 0.015, 0.7)], (0.02, 3));
    coverage(
        "three modes, two taps",
        &TAPPING,
        2.5,
        &[(12.0, 0.03, 1.0), (33.0, 0.01, 0.6), (71.0, 0.01, 0.5)],
        (0.02, 2),
    );
    let sound = Tapping { rate_hz: 16_000.0, low_hz: 40.0, high_hz: 500.0, contact_s: 0.005 };
    coverage("by sound", &sound, 1.5, &[(180.0, 0.01, 1.0), (310.0, 0.008, 0.6)], (0.1, 2));
}

#[test]
fn what_does_not_ring_is_no_mode() {
    let mut random = Random(911);
    let noise = tapped(&mut random, 400.0, 2.5, &[], 0.5).iter().map(|s| s.min(11.0)).collect::<Vec<f64>>();
    assert!(matches!(told(&[noise], &TAPPING), Err(NoRing::NoTap { .. } | NoRing::TooShort { .. })));
    let dead = tapped(&mut random, 400.0, 2.5, &[(20.0, 0.6, 1.0)], 0.02);
    assert!(matches!(told(&[dead], &TAPPING), Err(NoRing::NoTap { tap: 0 } | NoRing::NoMode)));
    let fine = tapped(&mut random, 400.0, 2.5, &[(20.0, 0.03, 1.0)], 0.01);
    assert!(told(std::slice::from_ref(&fine), &TAPPING).is_ok());
    let cut = fine[..130].to_vec();
    assert!(matches!(told(&[fine.clone(), cut], &TAPPING), Err(NoRing::TooShort { tap: 1, .. })));
    assert!(matches!(told(&[vec![9.81; 1000]], &TAPPING), Err(NoRing::NoTap { tap: 0 })));
    // A tone that stays does not die out.
    let hum: Vec<f64> = (0..1000).map(|n| (TAU * 30.0 * f64::from(n) / 400.0).sin()).collect();
    assert!(matches!(told(&[hum], &TAPPING), Err(NoRing::NoTap { .. } | NoRing::TooShort { .. })));
}

#[test]
fn what_cannot_be_is_refused() {
    let samples = [0.0; 100];
    assert!(ring_down(&[], &TAPPING).is_err());
    assert!(ring_down(&[&samples[..4]], &TAPPING).is_err());
    assert!(ring_down(&[&[f64::NAN; 100]], &TAPPING).is_err());
    assert!(ring_down(&[&samples], &Tapping { high_hz: 300.0, ..TAPPING }).is_err());
    assert!(ring_down(&[&samples], &Tapping { low_hz: 100.0, ..TAPPING }).is_err());
}
