//! The resistance by a log against packs whose truth is known: voltage behind current, current smoothed, a slow part, few digits.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

#[path = "common/random.rs"]
mod random;

use liftgate_core::telemetry::{Span, sag};
use random::Random;

const STEP_S: f64 = 0.05;
const OHM: f64 = 0.024;

/// A pack with its recorder.
#[derive(Default)]
struct Truth {
    name: &'static str,
    /// Voltage is so late, in s.
    voltage_late_s: f64,
    /// Current is smoothed over this, in s.
    current_smooth_s: f64,
    /// Share of the resistance that comes slowly, and its time constant in s.
    slow: (f64, f64),
    /// The voltage's last digit, in V.
    digit_v: f64,
}

impl Truth {
    /// What a second of a load has lost by then, in ohm: IEC 61960-3, direct current.
    fn after_a_second_ohm(&self) -> f64 {
        let (share, tau_s) = self.slow;
        OHM * (1.0 - share) + if share > 0.0 { OHM * share * (1.0 - (-1.0 / tau_s).exp()) } else { 0.0 }
    }
}

/// What forgets with a time constant (Ornstein and Uhlenbeck), of this scatter.
fn wander(random: &mut Random, steps: usize, tau_s: f64, sd: f64) -> Vec<f64> {
    let stays = (-STEP_S / tau_s).exp();
    let mut value = sd * random.normal();
    let new = sd * (1.0 - stays * stays).sqrt();
    (0..steps)
        .map(|_| {
            value = stays * value + new * random.normal();
            value
        })
        .collect()
}

fn smooth(values: &[f64], tau_s: f64) -> Vec<f64> {
    let stays = if tau_s > 0.0 { (-STEP_S / tau_s).exp() } else { 0.0 };
    let mut held = values[0];
    let of = |value: &f64| {
        held = stays * held + (1.0 - stays) * value;
        held
    };
    values.iter().map(of).collect()
}

/// Four minutes of a flight: a hover that is steered, and some manoeuvres.
fn amperes(random: &mut Random) -> Vec<f64> {
    let steps = (240.0 / STEP_S) as usize;
    let base = random.uniform(35.0, 60.0);
    let (slow, quick) = (wander(random, steps, 3.0, 0.06 * base), wander(random, steps, 0.4, 0.05 * base));
    let mut of: Vec<f64> = slow.iter().zip(&quick).map(|(a, b)| base + a + b).collect();
    for _ in 0..random.uniform(3.0, 10.0) as usize {
        let (from_s, long_s) = (random.uniform(5.0, 230.0), random.uniform(2.0, 8.0));
        let more = base * random.uniform(0.15, 0.5);
        let (from, to) = ((from_s / STEP_S) as usize, ((from_s + long_s) / STEP_S) as usize);
        of[from..to.min(steps)].iter_mut().for_each(|a| *a += more);
    }
    of.iter_mut()
        .enumerate()
        .for_each(|(i, a)| *a = (*a * (0.1 + 0.9 * (i as f64 * STEP_S / 4.0).min(1.0))).max(1.0));
    of
}

/// Quarter-second means of voltage and current as this recorder has them.
fn logged(random: &mut Random, truth: &Truth) -> (Vec<f64>, Vec<f64>) {
    let amperes = amperes(random);
    let slow = smooth(&amperes, truth.slow.1);
    let blur = wander(random, amperes.len(), 1.0, 0.03);
    let mut taken_ah = 0.0;
    let volts = amperes.iter().zip(&slow).zip(&blur).map(|((a, slow_a), blur)| {
        taken_ah += a * STEP_S / 3_600.0;
        let left: f64 = 1.0 - taken_ah / 5.0;
        let rest = 12.0 * (3.55 + 0.55 * left + 0.05 * ((left - 0.9) / 0.08).tanh());
        rest - OHM * ((1.0 - truth.slow.0) * a + truth.slow.0 * slow_a) + blur
    });
    let volts: Vec<f64> = volts.collect();
    let late = (truth.voltage_late_s / STEP_S).round() as usize;
    let digit = truth.digit_v;
    let volts: Vec<f64> = (0..volts.len())
        .map(|i| ((volts[i.saturating_sub(late)] + 0.03 * random.normal()) / digit).round() * digit)
        .collect();
    let seen = smooth(&amperes, truth.current_smooth_s);
    let seen: Vec<f64> = seen.iter().map(|a| ((a + 0.3 * random.normal()) * 10.0).round() / 10.0).collect();
    let means = |of: &[f64]| of.chunks_exact(5).map(|five| five.iter().sum::<f64>() / 5.0).collect();
    (means(&volts), means(&seen))
}

#[test]
fn the_interval_holds_for_recorders_and_packs_of_many_kinds() {
    let usual = Truth { name: "as it should be", digit_v: 0.01, ..Truth::default() };
    let of = |name, voltage_late_s, current_smooth_s, slow, digit_v| Truth {
        name,
        voltage_late_s,
        current_smooth_s,
        slow,
        digit_v,
    };
    let truths = [
        usual,
        of("voltage 0.2 s late", 0.2, 0.0, (0.0, 1.0), 0.01),
        of("voltage 0.5 s late", 0.5, 0.0, (0.0, 1.0), 0.01),
        of("current smoothed over 0.4 s", 0.0, 0.4, (0.0, 1.0), 0.01),
        of("40 % of it over 25 s", 0.0, 0.0, (0.4, 25.0), 0.01),
        of("40 % of it over 10 s, voltage 0.2 s late", 0.2, 0.0, (0.4, 10.0), 0.01),
        of("30 % of it over 3 s", 0.0, 0.0, (0.3, 3.0), 0.01),
        of("tenths of a volt", 0.1, 0.0, (0.0, 1.0), 0.1),
    ];
    let (mut all, flights) = (0.0, 80);
    for truth in &truths {
        let mut random = Random(7);
        let (mut inside, mut mean, mut half, mut told) = (0, 0.0, 0.0, 0);
        for _ in 0..flights {
            let (volts, amperes) = logged(&mut random, truth);
            let span = Span { start_s: 0.0, end_s: 240.0 };
            let Some(found) = sag::fit(&volts, &amperes, 0.25, span) else { continue };
            told += 1;
            inside += u32::from((found.resistance_ohm - truth.after_a_second_ohm()).abs() <= found.half_width_ohm);
            mean += 1e3 * found.resistance_ohm;
            half += 1e3 * found.half_width_ohm;
        }
        let percent = 100.0 * f64::from(inside) / f64::from(told);
        let (mean, half) = (mean / f64::from(told), half / f64::from(told));
        println!(
            "{}: {mean:.1} +- {half:.1} for {:.1} mOhm, holds in {percent:.1} % of {told}",
            truth.name,
            1e3 * truth.after_a_second_ohm()
        );
        all += percent / truths.len() as f64;
        // 80 flights are good to 2.4 percent points (one sigma).
        assert!(told == flights && percent > 88.0, "{}", truth.name);
    }
    println!("all of them: {all:.1} %");
    assert!((93.0..=98.0).contains(&all), "{all}");
}

#[test]
fn a_current_that_hardly_moves_shows_no_resistance() {
    let mut random = Random(3);
    let steady: Vec<f64> = (0..600).map(|_| 45.0 + 0.5 * random.normal()).collect();
    let volts: Vec<f64> = steady.iter().map(|a| 48.0 - OHM * a + 0.02 * random.normal()).collect();
    assert_eq!(sag::fit(&volts, &steady, 0.25, Span { start_s: 0.0, end_s: 150.0 }), None);
    // And one that moves now and then, in a voltage that scatters by far more, is not told either.
    let moving: Vec<f64> = steady.iter().enumerate().map(|(i, a)| if i % 300 < 40 { a + 8.0 } else { *a }).collect();
    let loose: Vec<f64> = moving.iter().map(|a| 48.0 - OHM * a + 1.5 * random.normal()).collect();
    assert_eq!(sag::fit(&loose, &moving, 0.25, Span { start_s: 0.0, end_s: 150.0 }), None);
}
