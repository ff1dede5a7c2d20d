//! The test for drift, against published run lengths and by simulation.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

use liftgate_core::telemetry::drift::*;

// Two-sided run lengths, allowance .5, thresholds 4 and 5, by shift in standard deviations: J. M. Lucas and R. B. Crosier, Technometrics 24
// (1982), as D. C. Montgomery's "Introduction to Statistical Quality Control" tabulates them (the table from memory). Both sides
// together: one over the length is the sum of one over each side's. tests/outside solves the integral equation for the same.
#[test]
fn run_lengths_as_published() {
    for (shift, at_4, at_5) in [
        (0.0, 168.0, 465.0),
        (0.25, 74.2, 139.0),
        (0.50, 26.6, 38.0),
        (0.75, 13.3, 17.0),
        (1.00, 8.38, 10.4),
        (1.50, 4.75, 5.75),
        (2.00, 3.34, 4.01),
    ] {
        for (threshold, published) in [(4.0, at_4), (5.0, at_5)] {
            let up = average_run_length(threshold, shift).unwrap();
            let down = average_run_length(threshold, -shift).unwrap();
            let found = 1.0 / (1.0 / up + 1.0 / down);
            // Published to three figures.
            assert!((found / published - 1.0).abs() < 4e-3, "{threshold} {shift}: {found}, published {published}");
        }
    }
}

struct Normal(u64);

impl Normal {
    fn uniform(&mut self) -> f64 {
        // splitmix64 (Steele, Lea and Flood 2014).
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Box and Muller.
    fn next(&mut self) -> f64 {
        (-2.0 * (1.0 - self.uniform()).ln()).sqrt() * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

fn alarms(question: &DriftQuestion, lives: u32, from: usize, shift: f64) -> f64 {
    let mut normal = Normal(7);
    let test = DriftTest::new(question).unwrap();
    let seen = (0..lives).filter(|_| {
        let readings: Vec<f64> = (0..question.readings as usize)
            .map(|i| 20.0 + normal.next() + if i >= from { shift } else { 0.0 })
            .collect();
        test.of(&readings).unwrap().drift.is_some()
    });
    seen.count() as f64 / f64::from(lives)
}

#[test]
fn the_false_alarm_rate_is_the_stated_one() {
    for (false_alarm, readings) in [(0.05, 100), (0.01, 50), (0.1, 200)] {
        let question = DriftQuestion { false_alarm, readings, resolution: 1e-6 };
        let lives = 8_000;
        let found = alarms(&question, lives, usize::MAX, 0.0);
        let sd = (false_alarm * (1.0 - false_alarm) / f64::from(lives)).sqrt();
        println!("stated {false_alarm} over {readings}, seen {found}");
        // The bound of both sides and the cut scores make it a little rarer; never more often than chance allows.
        assert!(found < false_alarm + 3.0 * sd && found > 0.6 * false_alarm, "{found}");
    }
}

#[test]
fn it_sees_a_shift_of_two_standard_deviations() {
    let question = DriftQuestion { false_alarm: 0.05, readings: 60, resolution: 1e-6 };
    let found = alarms(&question, 2_000, 20, 2.0);
    println!("two standard deviations after 20 of 60 readings: seen in {found}");
    assert!(found > 0.9);
}

#[test]
fn one_odd_reading_is_no_drift_and_equal_readings_are_none() {
    let question = DriftQuestion { false_alarm: 0.05, readings: 100, resolution: 0.1 };
    let mut readings: Vec<f64> = (0..30).map(|i| 20.0 + 0.1 * f64::from(i % 3)).collect();
    readings[20] = 60.0;
    assert!(drift(&readings, &question).unwrap().drift.is_none());
    assert!(drift(&[20.0; 100], &question).unwrap().drift.is_none());
    assert!(drift(&[], &question).unwrap().scores.is_empty());
    assert!(drift(&[f64::NAN], &question).is_err());
    assert!(drift(&[1.0], &DriftQuestion { resolution: 0.0, ..question }).is_err());
    assert!(drift(&[1.0], &DriftQuestion { false_alarm: 0.9, ..question }).is_err());
}
