//! What a log says was taken and flown, where it has gaps, restarts, changing loads and joined rows. The truth is known by construction.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

use liftgate_core::engineering::Grade;
use liftgate_core::telemetry::summary::{ChannelLimit, FigureKind, LogFigure, Side, Summary, summarise};
use liftgate_core::telemetry::*;

/// A row: its time, current, what the recorder's counter shows, and whether it was written.
struct At {
    time_s: f64,
    current_a: f64,
    counted_mah: Option<f64>,
    written: bool,
}

fn read(rows: &[At], kept_bytes: usize) -> Recording {
    let counts = rows.iter().any(|row| row.counted_mah.is_some());
    let mut text = if counts { "Time [s],Current [A],Used [mAh]\n" } else { "Time [s],Current [A]\n" }.to_owned();
    for row in rows.iter().filter(|row| row.written) {
        text += &format!("{:.3},{:.2}", row.time_s, row.current_a);
        text += &row.counted_mah.map_or(String::new(), |mah| format!(",{mah:.0}"));
        text += "\n";
    }
    let layout = Layout::of(text.as_bytes()).unwrap();
    let settings = Settings { kept_bytes, file_bytes: None };
    Import::new(&layout, &layout.suggest(), settings).unwrap().read(&mut text.as_bytes(), &mut |_| true).unwrap()
}

/// Rows at a period, with the current that `of` gives, and its charge by a fine sum, in mAh.
fn rows(until_s: f64, period_s: f64, of: impl Fn(f64) -> f64) -> (Vec<At>, f64) {
    let steps = (until_s / period_s) as usize;
    let at = |step: usize| step as f64 * period_s;
    let row = |step: usize| At { time_s: at(step), current_a: of(at(step)), counted_mah: None, written: true };
    let fine: f64 = (0..(until_s * 1_000.0) as usize).map(|ms| of(ms as f64 / 1_000.0)).sum();
    ((0..=steps).map(row).collect(), fine / 1_000.0 / 3.6)
}

/// What a recorder that counts all the time shows, from nought.
fn count(rows: &mut [At], from: f64) {
    let mut counted = from;
    for index in 0..rows.len() {
        if index > 0 {
            counted += 0.5
                * (rows[index].current_a + rows[index - 1].current_a)
                * (rows[index].time_s - rows[index - 1].time_s)
                / 3.6;
        }
        rows[index].counted_mah = Some(counted);
    }
}

fn of_log(rows: &[At]) -> Summary {
    summarise(&read(rows, 1 << 20), &Limits::default()).unwrap()
}

fn figure(summary: &Summary, kind: FigureKind) -> LogFigure {
    summary.figures.iter().find(|figure| figure.kind == kind).unwrap().clone()
}

fn near(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() <= within, "{value}, not {expected} within {within}");
}

/// 20 s on the ground at 8 A, then `of` until `end_s`, 10 s at 8 A on the ground, then nothing.
fn flown(end_s: f64, of: impl Fn(f64) -> f64) -> impl Fn(f64) -> f64 {
    move |t| match t {
        t if t < 5.0 => 0.0,
        t if t < 25.0 => 8.0,
        t if t < end_s => of(t),
        t if t < end_s + 10.0 => 8.0,
        _ => 0.0,
    }
}

#[test]
fn a_gap_of_forty_seconds_is_estimated_and_its_charge_has_an_interval() {
    let (mut log, truth_mah) = rows(280.0, 0.1, flown(255.0, |_| 25.0));
    log.iter_mut().filter(|row| (100.0..140.0).contains(&row.time_s)).for_each(|row| row.written = false);
    let summary = of_log(&log);
    assert_eq!(summary.flying.flights.len(), 1, "{:#?}", summary.flying);
    near(figure(&summary, FigureKind::FlightTime).value, 230.0, 1.0);
    let charge = figure(&summary, FigureKind::Charge);
    near(charge.value, truth_mah, 0.01 * truth_mah);
    // 40 s at 25 A are 278 mAh, of which half is not known.
    near(charge.half_width.unwrap(), 139.0, 2.0);
    assert!(charge.note.contains("40 s without values"), "{}", charge.note);
}

#[test]
fn of_a_gap_that_is_too_long_nothing_is_assumed_and_that_is_said() {
    let (mut log, truth_mah) = rows(480.0, 0.1, flown(455.0, |_| 25.0));
    log.iter_mut().filter(|row| (100.0..260.0).contains(&row.time_s)).for_each(|row| row.written = false);
    let summary = of_log(&log);
    let charge = figure(&summary, FigureKind::Charge);
    near(charge.value, truth_mah - 160.0 * 25.0 / 3.6, 0.01 * truth_mah);
    assert!(charge.note.contains("33 % of the log"), "{}", charge.note);
}

#[test]
fn a_counter_that_agrees_where_both_are_known_is_right_over_the_gap() {
    let (mut log, truth_mah) =
        rows(280.0, 0.1, flown(255.0, |t| if (100.0..140.0).contains(&t) { 48.0 } else { 25.0 }));
    count(&mut log, 120.0);
    log.iter_mut().filter(|row| (99.0..141.0).contains(&row.time_s)).for_each(|row| row.written = false);
    let charge = figure(&of_log(&log), FigureKind::Charge);
    near(charge.value, truth_mah, 2.0);
    assert!(charge.note.starts_with("as the recorder counted"), "{}", charge.note);
}

#[test]
fn a_counter_that_does_not_agree_does_not_win() {
    let (mut log, truth_mah) = rows(280.0, 0.1, flown(255.0, |_| 25.0));
    count(&mut log, 0.0);
    log.iter_mut().for_each(|row| row.counted_mah = row.counted_mah.map(|mah| 0.6 * mah));
    let charge = figure(&of_log(&log), FigureKind::Charge);
    near(charge.value, truth_mah, 0.005 * truth_mah);
    assert!(charge.note.contains("does not agree"), "{}", charge.note);
}

#[test]
fn a_counter_that_begins_anew_keeps_what_it_had() {
    let (mut log, truth_mah) = rows(425.0, 0.1, flown(400.0, |_| 25.0));
    count(&mut log, 0.0);
    let at = log.iter().position(|row| row.time_s >= 170.0).unwrap();
    count(&mut log[at..], 0.0);
    for without_current in [false, true] {
        let mut recording = read(&log, 1 << 20);
        if without_current {
            recording.channels[0].mapped.quantity = Quantity::Power;
        }
        let charge = figure(&summarise(&recording, &Limits::default()).unwrap(), FigureKind::Charge);
        near(charge.value, truth_mah, 3.0);
        assert!(charge.note.contains("began anew once"), "{}", charge.note);
    }
    // Where rows are joined as well.
    let charge = figure(&summarise(&read(&log, 4_000), &Limits::default()).unwrap(), FigureKind::Charge);
    near(charge.value, truth_mah, 0.01 * truth_mah);
}

#[test]
fn a_hover_at_little_load_around_one_at_much_is_not_cut_off() {
    let load = |t: f64| if (90.0..200.0).contains(&t) { 45.0 } else { 25.0 };
    let summary = of_log(&rows(300.0, 0.1, flown(265.0, load)).0);
    assert_eq!(summary.flying.flights.len(), 1, "{:#?}", summary.flying);
    near(summary.flying.flights[0].span.start_s, 25.0, 0.5);
    near(summary.flying.flights[0].span.end_s, 265.0, 0.5);
}

#[test]
fn a_descent_is_no_landing_and_a_stay_on_the_ground_is_one() {
    let descents = |t: f64| if (90.0..96.0).contains(&t) || (150.0..156.0).contains(&t) { 9.0 } else { 30.0 };
    let summary = of_log(&rows(250.0, 0.1, flown(225.0, descents)).0);
    assert_eq!(summary.flying.flights.len(), 1, "{:#?}", summary.flying);
    let landed = |t: f64| if (90.0..110.0).contains(&t) { 9.0 } else { 30.0 };
    let summary = of_log(&rows(250.0, 0.1, flown(225.0, landed)).0);
    let spans: Vec<Span> = summary.flying.flights.iter().map(|flight| flight.span).collect();
    assert_eq!(spans.len(), 2, "{spans:?}");
    near(spans[0].end_s, 90.0, 0.5);
    near(spans[1].start_s, 110.0, 0.5);
    // Motor off for four seconds: that was a landing, however short.
    let stopped = |t: f64| if (90.0..94.0).contains(&t) { 0.0 } else { 30.0 };
    assert_eq!(of_log(&rows(250.0, 0.1, flown(225.0, stopped)).0).flying.flights.len(), 2);
}

/// A hundred flights of lengths and phases that have nothing to do with the rows, at each rate.
#[test]
fn the_interval_of_the_flight_time_holds_at_any_rate() {
    for period_s in [0.02, 0.1, 0.5, 1.0, 2.0] {
        let mut inside = 0;
        let mut widest: f64 = 0.0;
        for flight in 0..100 {
            let lift_s = 25.0 + 0.137 * f64::from(flight);
            let length_s = 60.0 + 1.618 * f64::from(flight % 37);
            let of = |t: f64| match t - lift_s {
                t if t < -15.0 => 0.0,
                t if t < 0.0 => 8.0,
                t if t < length_s => 28.0,
                t if t < length_s + 12.0 => 8.0,
                _ => 0.0,
            };
            let time = figure(&of_log(&rows(lift_s + length_s + 30.0, period_s, of).0), FigureKind::FlightTime);
            let half_s = time.half_width.unwrap();
            inside += u32::from((time.value - length_s).abs() <= half_s);
            widest = widest.max(half_s);
        }
        println!("rows each {period_s} s: {inside} of 100 inside, half width to {widest} s");
        assert!(inside >= 95, "rows each {period_s} s: {inside} of 100 inside");
        assert!(widest <= 2.0 * period_s.max(0.25), "rows each {period_s} s: {widest} s");
    }
}

#[test]
fn a_spike_in_joined_rows_has_its_time() {
    // Ten rows a second, 250 s; a spike of a second to 90 A each ten seconds while it flies.
    let spike = |t: f64| if t % 10.0 < 1.0 { 90.0 } else { 25.0 };
    let (log, _) = rows(280.0, 0.1, flown(255.0, spike));
    let limit = ChannelLimit {
        quantity: Quantity::PackCurrent,
        place: None,
        value: 80.0,
        side: Side::Above,
        grade: Grade::Caution,
        basis: "for this test".to_owned(),
    };
    let limits = Limits { channels: vec![limit], ..Limits::default() };
    let truth_s = 23.0;
    let past = figure(&summarise(&read(&log, 1 << 20), &limits).unwrap(), FigureKind::PastLimit);
    near(past.value, truth_s, 0.1 * truth_s);
    assert_eq!(past.half_width, None);
    for kept_bytes in [12_000, 6_000, 3_000] {
        let joined = read(&log, kept_bytes);
        assert!(joined.rows_per_cell > 1);
        let past = figure(&summarise(&joined, &limits).unwrap(), FigureKind::PastLimit);
        println!("{} rows in a cell: {} +- {:?} s", joined.rows_per_cell, past.value, past.half_width);
        near(past.value, truth_s, 0.1 * truth_s);
        near(past.value, truth_s, past.half_width.unwrap());
        assert!(past.half_width.unwrap() < truth_s);
        assert_eq!(past.grade, Some(Grade::Caution));
    }
}
