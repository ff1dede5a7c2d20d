//! The test for a step or a slope over a life: false alarms under memory, days and seasons, and what is found.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

#[path = "common/random.rs"]
mod random;

use liftgate_core::telemetry::shift::{Read, shift};
use random::Random;

const DAYS: usize = 100;

/// What moves the readings of something that does not change.
#[derive(Clone, Copy, Default)]
struct Nature {
    /// Memory from one day to the next.
    memory: f64,
    /// A day's own effect over a reading's scatter, with three readings a day.
    days: f64,
    /// The season's wave over a reading's scatter, with flying days over two years.
    season: f64,
}

/// A life of this nature, with a change from a day on.
fn life(random: &mut Random, nature: Nature, change: impl Fn(usize) -> f64) -> Vec<Read> {
    let new = (1.0 - nature.memory * nature.memory).sqrt();
    let mut error = random.normal();
    let place = random.uniform(0.0, std::f64::consts::TAU);
    let each = if nature.days > 0.0 { 3 } else { 1 };
    let mut readings = Vec::new();
    for at in 0..DAYS / each {
        error = nature.memory * error + new * random.normal();
        let of_day = if nature.days > 0.0 { nature.days * error } else { error };
        let day = (at * each * 7) as i64 + 3 * i64::from(nature.days == 0.0);
        let wave = nature.season * (std::f64::consts::TAU * day as f64 / 365.25 + place).sin();
        for _ in 0..each {
            let own = if nature.days > 0.0 { random.normal() } else { 0.0 };
            readings.push(Read { value: 100.0 + of_day + own + wave + change(at), day: Some(day) });
        }
    }
    readings
}

/// Whether an alarm is given when it is looked for after each day, or each few where there are many; and at which reading.
fn alarm(readings: &[Read]) -> Option<usize> {
    let mut lengths: Vec<usize> = (4..=readings.len()).filter(|n| *n <= 20 || n % 5 == 0).collect();
    lengths.dedup();
    lengths.into_iter().find(|n| shift(&readings[..*n], 1e-3).drift.is_some())
}

fn alarms(nature: Nature, lives: u32, change: impl Fn(usize) -> f64) -> f64 {
    let mut random = Random(17);
    let alarmed = (0..lives).filter(|_| alarm(&life(&mut random, nature, &change)).is_some());
    100.0 * alarmed.count() as f64 / f64::from(lives)
}

#[test]
fn what_does_not_change_seldom_alarms_whatever_moves_it() {
    let lives = 100;
    for (name, nature) in [
        ("independent", Nature::default()),
        ("memory 0.2", Nature { memory: 0.2, ..Nature::default() }),
        ("memory 0.4", Nature { memory: 0.4, ..Nature::default() }),
        ("memory 0.6", Nature { memory: 0.6, ..Nature::default() }),
        ("days", Nature { days: 1.0, ..Nature::default() }),
        ("season", Nature { season: 1.0, ..Nature::default() }),
        ("great season", Nature { season: 2.5, ..Nature::default() }),
    ] {
        let alarms = alarms(nature, lives, |_| 0.0);
        println!("{name}: {alarms:.1} % of {lives} lives of {DAYS} readings");
        // Stated are 5 %; 100 lives are good to 2.2 percent points (one sigma).
        assert!(alarms <= 5.0 + 2.0 * 2.2, "{name}: {alarms}");
    }
}

#[test]
fn a_step_and_a_slope_are_found() {
    let still = Nature::default();
    let step = alarms(still, 60, |day| if day >= 5 { 3.0 } else { 0.0 });
    let late = alarms(still, 60, |day| if day >= 50 { 2.0 } else { 0.0 });
    let slope = alarms(still, 60, |day| 0.03 * day as f64);
    let remembering = alarms(Nature { memory: 0.4, ..still }, 60, |day| if day >= 30 { 3.0 } else { 0.0 });
    println!(
        "3 sd after 5 days {step} %, 2 sd after 50 {late} %, 3 sd over 100 days {slope} %, with memory {remembering} %"
    );
}
