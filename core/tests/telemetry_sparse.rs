//! Logs whose columns come on different rows: a value holds until the column's next one, up to what is a gap for that column. The truth of
//! each log is known by construction; the same logs are held against pandas in tests/outside/test_telemetry.py.
#![allow(clippy::unwrap_used, missing_docs)]

use liftgate_core::engineering::Grade;
use liftgate_core::telemetry::plot::cursor;
use liftgate_core::telemetry::summary::{ChannelLimit, FigureKind, LogFigure, Side, summarise};
use liftgate_core::telemetry::*;

/// 10 s of nothing, 20 s at 9 A on the ground, 200 s at 30 A, 10 s at 9 A, 10 s of nothing, at 44 V; the temperature goes by a straight
/// line from 20 to 100 degrees over the flight. `on` says on which rows voltage, current and temperature are written.
fn log(period_s: f64, on: impl Fn(usize) -> [bool; 3]) -> Recording {
    let mut text = "Time [s],Voltage [V],Current [A],Motor [°C]\n".to_owned();
    for row in 0..=(250.0 / period_s) as usize {
        let t = row as f64 * period_s;
        let a = match t {
            t if t < 10.0 => 0.0,
            t if t < 30.0 => 9.0,
            t if t < 230.0 => 30.0,
            t if t < 240.0 => 9.0,
            _ => 0.0,
        };
        let c = 20.0 + 80.0 * ((t - 30.0) / 200.0).clamp(0.0, 1.0);
        let field = |on: bool, value: f64| if on { format!("{value:.3}") } else { String::new() };
        let [volts, amperes, celsius] = on(row);
        text += &format!("{t:.3},{},{},{}\n", field(volts, 44.0), field(amperes, a), field(celsius, c));
    }
    let layout = Layout::of(text.as_bytes()).unwrap();
    let log = Import::new(&layout, &layout.suggest(), Settings::default()).unwrap();
    log.read(&mut text.as_bytes(), &mut |_| true).unwrap()
}

/// Charge over all rows: (30 s x 9 A + 200 s x 30 A) / 3.6.
const CHARGE_MAH: f64 = (30.0 * 9.0 + 200.0 * 30.0) / 3.6;
const ENERGY_WH: f64 = CHARGE_MAH * 44.0 / 1_000.0;
/// Seconds above 80 degrees: a quarter of the flight, and all that is logged after it.
const HOT_S: f64 = 50.0 + 20.0;

fn too_hot() -> Limits {
    let limit = ChannelLimit {
        quantity: Quantity::Temperature,
        place: None,
        value: 80.0,
        side: Side::Above,
        grade: Grade::Stop,
        basis: "for this test".to_owned(),
    };
    Limits { channels: vec![limit], ..Limits::default() }
}

fn figures(log: &Recording, kind: FigureKind) -> Vec<LogFigure> {
    summarise(log, &too_hot()).unwrap().figures.into_iter().filter(|figure| figure.kind == kind).collect()
}

fn near(what: &str, value: f64, expected: f64, share: f64) {
    assert!((value / expected - 1.0).abs() <= share, "{what}: {value}, not {expected}");
}

#[test]
fn columns_on_different_rows_lose_nothing() {
    type On = fn(usize) -> [bool; 3];
    let ways: [(&str, f64, On); 6] = [
        ("alternating, ten rows a second", 0.1, |row| [row % 2 == 0, row % 2 == 1, row % 2 == 0]),
        ("alternating, a row a second", 1.0, |row| [row % 2 == 0, row % 2 == 1, row % 2 == 1]),
        ("each fifth row is empty", 0.1, |row| [row % 5 != 1, row % 5 != 0, row % 5 != 2]),
        ("each on each fifth row", 0.1, |row| [row % 5 == 0, row % 5 == 2, row % 5 == 4]),
        ("temperature each two seconds", 0.02, |row| [true, true, row % 100 == 0]),
        ("current each second, voltage each two", 0.05, |row| [row % 40 == 0, row % 20 == 7, row % 20 == 0]),
    ];
    for (way, period_s, on) in ways {
        let log = log(period_s, on);
        near(way, figures(&log, FigureKind::Charge)[0].value, CHARGE_MAH, 0.01);
        near(way, figures(&log, FigureKind::Energy)[0].value, ENERGY_WH, 0.01);
        let hot = &figures(&log, FigureKind::PastLimit)[0];
        near(way, hot.value, HOT_S, 0.03);
        assert_eq!(hot.grade, Some(Grade::Stop), "{way}");
        near(way, figures(&log, FigureKind::FlightTime)[0].value, 200.0, 0.02);
        assert_eq!(
            figures(&log, FigureKind::DropOut),
            [],
            "{way}: what is written every so often is not lost between"
        );
        let shown = cursor(&log, 120.4).unwrap();
        assert!(shown.values.iter().all(Option::is_some), "{way}: {shown:?}");
    }
}

#[test]
fn a_column_is_not_held_for_longer_than_its_own_gap() {
    // Current on every second row of ten a second: five of its usual steps are a second. It is lost from 100 to 140 s.
    let log = log(0.1, |row| [true, row % 2 == 0 && !(1_000..1_400).contains(&row), true]);
    let current = log.channel(Quantity::PackCurrent).unwrap();
    let (sum, covered_s) = log.integral(current, log.span());
    near("covered", covered_s, 250.0 - 40.2, 0.001);
    near("charge that was recorded", sum / 3.6, CHARGE_MAH - 40.2 * 30.0 / 3.6, 0.002);
    let lost = figures(&log, FigureKind::DropOut);
    assert_eq!(lost.len(), 1, "{lost:#?}");
    near("lost", lost[0].value, 40.2, 0.01);
}

#[test]
fn nothing_is_held_over_a_restart() {
    let text = "Time [s],Current [A]\n0,10\n0.5,10\n1,10\n1.5,10\n2,10\n0,30\n0.5,30\n1,30\n1.5,30\n2,30\n";
    let layout = Layout::of(text.as_bytes()).unwrap();
    let log = Import::new(&layout, &layout.suggest(), Settings::default()).unwrap();
    let log = log.read(&mut text.as_bytes(), &mut |_| true).unwrap();
    assert_eq!(log.rows.restarts, 1);
    assert_eq!(log.integral(&log.channels[0], log.span()), (80.0, 4.0));
}
