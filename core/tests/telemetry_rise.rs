//! Rises of temperatures in logs: which are told, and of which flight. The intervals are held against simulated truths in
//! tests/outside/test_heat.py.
#![allow(clippy::unwrap_used, missing_docs)]

use liftgate_core::telemetry::summary::{FigureKind, Summary, summarise};
use liftgate_core::telemetry::*;

/// Flights at 30 A from 20 to 200 s and, if there is a second, from 260 to 440 s; the temperature follows `steady` with a time constant of 40 s.
fn log(second: bool, steady: impl Fn(f64) -> f64) -> Summary {
    let mut text = "Time [s],Current [A],Motor [°C]\n".to_owned();
    let mut celsius = 20.0;
    for row in 0..4_800 {
        let t = f64::from(row) * 0.1;
        let flies = (20.0..200.0).contains(&t) || (second && (260.0..440.0).contains(&t));
        celsius += (steady(t) - celsius) * 0.1 / 40.0;
        text += &format!("{t:.1},{},{celsius:.1}\n", if flies { 30.0 } else { 0.2 });
    }
    let layout = Layout::of(text.as_bytes()).unwrap();
    let log = Import::new(&layout, &layout.suggest(), Settings::default()).unwrap();
    summarise(&log.read(&mut text.as_bytes(), &mut |_| true).unwrap(), &Limits::default()).unwrap()
}

fn settles(summary: &Summary) -> Option<f64> {
    summary.figures.iter().find(|figure| figure.kind == FigureKind::SteadyTemperature).map(|figure| figure.value)
}

#[test]
fn a_part_that_was_hotter_than_it_would_settle_at_has_no_steady_state_told() {
    // Hard flying to 62 degrees at 80 s, then a hover that would hold 52.
    let summary = log(false, |t| {
        if (20.0..80.0).contains(&t) {
            75.0
        } else if (80.0..200.0).contains(&t) {
            52.0
        } else {
            20.0
        }
    });
    let peak = summary.figures.iter().find(|f| f.kind == FigureKind::Peak && f.channel == Some(1)).unwrap().value;
    assert!(peak > 60.0, "{peak}");
    assert_eq!(settles(&summary), None);
}

#[test]
fn of_two_flights_the_hotter_one_is_fitted() {
    let hot = |t: f64| match t {
        t if (20.0..200.0).contains(&t) => 52.0,
        t if (260.0..440.0).contains(&t) => 70.0,
        _ => 20.0,
    };
    let summary = log(true, hot);
    assert_eq!(summary.flying.flights.len(), 2);
    let steady = settles(&summary).unwrap();
    assert!((steady - 70.0).abs() < 0.5, "{steady}");
    // What is told of it is no surer than the thermometer's own steps of a tenth allow.
    let told = summary.figures.iter().find(|figure| figure.kind == FigureKind::SteadyTemperature).unwrap();
    assert!(told.half_width.unwrap() >= 1.9 * 0.1 / 12f64.sqrt(), "{told:?}");
}
