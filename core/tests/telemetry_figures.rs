//! Flights, segments, figures and plots from invented logs whose truth is known by construction. The checks against other libraries are in
//! tests/outside/test_telemetry.py.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

use std::time::Instant;

use liftgate_core::engineering::Grade;
use liftgate_core::locale::{Language, Locale};
use liftgate_core::telemetry::plot::{cursor, line};
use liftgate_core::telemetry::segments::Manner;
use liftgate_core::telemetry::summary::{ChannelLimit, FigureKind, LogFigure, Side, summarise, summarise_for};
use liftgate_core::telemetry::*;
use proptest::prelude::*;

/// A source of scatter that is the same in every run.
struct Scatter(u64);

impl Scatter {
    fn next(&mut self) -> f64 {
        // Marsaglia's xorshift64; the sum of four uniform numbers is near enough to normal here.
        let mut sum = 0.0;
        for _ in 0..4 {
            self.0 ^= self.0 << 13;
            self.0 ^= self.0 >> 7;
            self.0 ^= self.0 << 17;
            sum += (self.0 >> 11) as f64 / (1_u64 << 53) as f64 - 0.5;
        }
        sum * 3f64.sqrt()
    }
}

const OHM: f64 = 0.025;
const FALL_V_PER_AH: f64 = 0.9;
const TAU_S: f64 = 90.0;

/// Spool-up from 10 s, lift-off at 30 s, hover to 150 s, manoeuvres to 190 s, hover to 300 s, motor off at 315 s; ten rows a second.
/// From 200 to 204 s the log is empty.
fn flight() -> Recording {
    let mut text = "Time [s],Voltage [V],Current [A],Rotor [rpm],Controller [°C],Ripple [V]\n".to_owned();
    let mut scatter = Scatter(88_172_645_463_325_252);
    let (mut taken_ah, mut controller_c) = (0.0, 25.0);
    for row in 0..3_300 {
        let t = f64::from(row) * 0.1;
        let a = match t {
            t if t < 10.0 => 0.3,
            t if t < 30.0 => 12.0,
            t if t < 150.0 => 60.0 + 0.8 * scatter.next(),
            t if t < 190.0 => 70.0 + 40.0 * (t * 1.7).sin() + 2.0 * scatter.next(),
            t if t < 300.0 => 60.0 + 0.8 * scatter.next(),
            t if t < 315.0 => 11.0,
            _ => 0.3,
        };
        taken_ah += a * 0.1 / 3_600.0;
        let rpm = match t {
            t if !(10.0..316.0).contains(&t) => 0.0,
            t if t < 22.0 => 1_300.0 * (t - 10.0) / 12.0,
            t => 1_300.0 - 0.4 * (a - 60.0).max(0.0) + if (170.0..171.0).contains(&t) { -40.0 } else { 0.0 },
        };
        let steady_c = if (30.0..300.0).contains(&t) { 75.0 } else { 25.0 };
        controller_c += (steady_c - controller_c) * 0.1 / TAU_S;
        let v = 50.4 - OHM * a - FALL_V_PER_AH * taken_ah + 0.01 * scatter.next();
        let ripple = if (180.0..180.2).contains(&t) { 2.3 } else { 0.5 };
        if !(200.0..204.0).contains(&t) {
            text += &format!("{t:.1},{v:.3},{a:.2},{rpm:.0},{:.1},{ripple}\n", controller_c + 0.1 * scatter.next());
        }
    }
    let layout = Layout::of(text.as_bytes()).unwrap();
    let log = Import::new(&layout, &layout.suggest(), Settings::default()).unwrap();
    let log = log.read(&mut text.as_bytes(), &mut |_| true).unwrap();
    assert_eq!(log.channels.len(), 5);
    log
}

fn limits() -> Limits {
    let limit = |quantity, value, side, grade| ChannelLimit {
        quantity,
        place: None,
        value,
        side,
        grade,
        basis: "for this test".to_owned(),
    };
    Limits {
        cells: Some(12),
        set_head_speed_rpm: Some(1_310.0),
        channels: vec![
            limit(Quantity::PackCurrent, 100.0, Side::Above, Grade::Caution),
            limit(Quantity::PackVoltage, 42.0, Side::Below, Grade::Stop),
        ],
    }
}

fn figure(summary: &Summary, kind: FigureKind, channel: Option<u32>) -> LogFigure {
    let found = summary.figures.iter().find(|f| f.kind == kind && (channel.is_none() || f.channel == channel));
    found.unwrap_or_else(|| panic!("{kind:?} in {:#?}", summary.figures)).clone()
}

fn near(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() <= within, "{value}, not {expected} within {within}");
}

#[test]
fn the_notes_of_a_log_are_made_for_whoever_reads_them_and_its_figures_are_the_same() {
    let german = Locale { language: Language::German, ..Locale::default() };
    let (log, limits) = (flight(), limits());
    let english = summarise(&log, &limits).unwrap().figures;
    let german = summarise_for(&log, &limits, german).unwrap().figures;
    assert_eq!(english.len(), german.len());
    for (one, other) in english.iter().zip(&german) {
        assert_eq!((one.kind, one.value, one.grade, one.span), (other.kind, other.value, other.grade, other.span));
        assert_eq!(one.note.is_empty(), other.note.is_empty());
        assert!(one.note.is_empty() || one.note != other.note, "{}", one.note);
    }
    assert!(german.iter().filter(|figure| !figure.note.is_empty()).count() >= 5);
}

#[test]
fn a_flight_its_segments_and_its_figures() {
    let log = flight();
    let summary = summarise(&log, &limits()).unwrap();
    assert_eq!((summary.flying.motor.len(), summary.flying.flights.len()), (1, 1));
    let flight = &summary.flying.flights[0];
    near(flight.span.start_s, 30.0, 0.8);
    near(flight.span.end_s, 300.0, 0.8);
    let manners: Vec<Manner> = flight.segments.iter().map(|s| s.manner).collect();
    let long: Vec<_> = flight.segments.iter().filter(|s| s.span.length_s() > 5.0).collect();
    assert_eq!(
        long.iter().map(|s| s.manner).collect::<Vec<_>>(),
        [Manner::Hover, Manner::Manoeuvre, Manner::Hover],
        "{manners:?}"
    );
    near(long[1].span.start_s, 150.0, 2.0);
    near(long[1].span.end_s, 190.0, 2.0);
    // The segments cover the flight.
    near(flight.segments[0].span.start_s, flight.span.start_s, 1e-9);
    assert!(flight.segments.windows(2).all(|w| w[0].span.end_s == w[1].span.start_s));

    near(figure(&summary, FigureKind::FlightTime, None).value, 270.0, 1.0);
    near(figure(&summary, FigureKind::HoverAverage, Some(1)).value, 60.0, 0.2);
    let past = figure(&summary, FigureKind::PastLimit, Some(1));
    // 70 + 40 sin passes 100 A for acos(.75) / pi of the time, over 40 s.
    near(past.value, 40.0 * 0.75f64.acos() / std::f64::consts::PI, 1.0);
    assert_eq!(past.grade, Some(Grade::Caution));
    assert!(past.span.start_s > 150.0 && past.span.end_s < 190.0);
    assert_eq!(figure(&summary, FigureKind::PastLimit, Some(0)).grade, Some(Grade::Ok));

    // 270 s of 60 A but 40 s of 70 A with a wave that cancels; 20 s and 15 s on the ground; half of the 4 s that were not recorded is
    // not known.
    let charge = figure(&summary, FigureKind::Charge, None);
    let on_ground = 20.0 * 12.0 + 15.0 * 11.0 + 25.0 * 0.3;
    near(charge.value, (230.0 * 60.0 + 40.0 * 70.0 + on_ground) / 3.6, 10.0);
    near(charge.half_width.unwrap(), 0.5 * 4.1 * 60.0 / 3.6, 2.0);
    let sag = summary.sag.unwrap();
    near(sag.resistance_ohm, OHM, sag.half_width_ohm.max(2e-4));
    near(sag.fall_v_per_ah, FALL_V_PER_AH, 0.02);
    let peak = figure(&summary, FigureKind::Peak, Some(1));
    near(figure(&summary, FigureKind::Sag, None).value, OHM * peak.value, 0.05);
    assert!(peak.span.start_s > 150.0 && peak.span.end_s < 191.0);

    let ripple = figure(&summary, FigureKind::Ripple, None);
    assert_eq!((ripple.value as f32, ripple.grade), (2.3, Some(Grade::Caution)));
    near(ripple.span.start_s, 179.0, 0.2);
    near(figure(&summary, FigureKind::HeadSpeedError, None).value, -10.0, 0.5);
    let droop = figure(&summary, FigureKind::HeadSpeedDroop, None);
    assert!(droop.value < -40.0 && droop.value > -70.0 && (droop.span.start_s - 169.5).abs() < 1.5, "{droop:?}");

    let rise = &summary.rises[0].fit;
    near(rise.tau_s, TAU_S, 3.0 * rise.tau_u_s + 1.0);
    near(rise.steady_c, 75.0, 2.0 * rise.steady_half_width_k + 0.3);
    let lost = figure(&summary, FigureKind::DropOut, None);
    near(lost.value, 4.1, 0.11);
    near(lost.span.start_s, 199.9, 0.01);
    // Every figure points into the log.
    let all = log.span();
    assert!(
        summary.figures.iter().all(|f| f.span.end_s > all.start_s && f.span.start_s < all.end_s),
        "{:#?}",
        summary.figures
    );
}

#[test]
fn without_flight_or_load_it_says_what_is_missing() {
    let text = "Time [s],Temp [°C]\n0,20\n1,21\n2,22\n";
    let layout = Layout::of(text.as_bytes()).unwrap();
    let log = Import::new(&layout, &layout.suggest(), Settings::default()).unwrap();
    let log = log.read(&mut text.as_bytes(), &mut |_| true).unwrap();
    let error = summarise(&log, &Limits::default()).unwrap_err().to_string();
    assert!(error.contains("pack current, power or head speed"), "{error}");
}

fn recording(values: &[f64], period_s: f64, kept_bytes: usize) -> Recording {
    let mut text = "a,Current [A]\n".to_owned();
    for value in values {
        text += &if value.is_nan() { "x,\n".to_owned() } else { format!("x,{value}\n") };
    }
    let map = ColumnMap {
        fingerprint: String::new(),
        time_column: None,
        time_form: TimeForm::EveryRow { period_s },
        columns: vec![MappedColumn {
            column: 1,
            label: "Current".to_owned(),
            quantity: Quantity::PackCurrent,
            unit: LogUnit::Ampere,
            place: None,
            ratio: 1.0,
        }],
    };
    let layout = Layout::of(b"a,Current [A]\nx,1\nx,2\nx,3\n").unwrap();
    let import = Import::new(&layout, &map, Settings { kept_bytes, file_bytes: None }).unwrap();
    import.read(&mut text.as_bytes(), &mut |_| true).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    // In every column of pixels the line reaches from the least to the greatest of the samples there; nothing else is drawn.
    #[test]
    fn no_peak_is_lost(
        values in proptest::collection::vec(prop_oneof![20 => -1e4..1e4f64, 1 => Just(f64::NAN)], 3..2_000),
        columns in 1u32..300,
        from in 0.0..0.9f64,
        share in 0.01..1.0f64,
        thinned: bool,
    ) {
        prop_assume!(values.iter().any(|v| !v.is_nan()));
        let log = recording(&values, 0.1, if thinned { 1_024 } else { 1 << 20 });
        let length_s = values.len() as f64 * 0.1;
        let window = Span { start_s: from * length_s, end_s: from * length_s + share * length_s };
        let Some(drawn) = line(&log, 0, window, columns) else { return Ok(()) };
        let width_s = window.length_s() / f64::from(columns);
        let points: Vec<_> = drawn.strokes.iter().flatten().collect();
        // Outside the window there is one sample on either side at most.
        prop_assert!(points.len() <= 4 * (columns as usize + 2));
        prop_assert!(points.windows(2).all(|w| w[0].time_s <= w[1].time_s));
        let channel = &log.channels[0];
        for column in 0..columns {
            let (start_s, end_s) = (window.start_s + f64::from(column) * width_s, window.start_s + f64::from(column + 1) * width_s);
            let inside = |t: f64| t >= start_s + 1e-9 && t < end_s - 1e-9;
            let cells = (0..log.time_s.len()).filter(|cell| inside(log.time_s[*cell]));
            let (mut least, mut greatest) = (f32::NAN, f32::NAN);
            for cell in cells {
                least = least.min(channel.least()[cell]);
                greatest = greatest.max(channel.greatest()[cell]);
            }
            let here: Vec<f64> = points.iter().filter(|p| p.time_s >= start_s - 1e-9 && p.time_s < end_s + 1e-9).map(|p| p.value).collect();
            if !least.is_nan() {
                prop_assert!(here.contains(&f64::from(least)) && here.contains(&f64::from(greatest)));
            }
        }
        // Every point drawn is a sample.
        for point in &points {
            let cell = log.time_s.partition_point(|t| *t < point.time_s);
            let value = point.value as f32;
            prop_assert!(channel.value[cell] == value || channel.least()[cell] == value || channel.greatest()[cell] == value);
        }
    }

    #[test]
    fn the_cursor_shows_the_nearest_row(values in proptest::collection::vec(-1e3..1e3f64, 3..300), at in -1.0..40.0f64) {
        let log = recording(&values, 0.1, 1 << 20);
        let shown = cursor(&log, at).unwrap();
        let nearest = log.time_s.iter().map(|t| (t - at).abs()).fold(f64::INFINITY, f64::min);
        prop_assert!(((shown.time_s - at).abs() - nearest).abs() < 1e-12);
    }

    // Whatever a log holds, its summary is made or refused, and every figure is a number.
    #[test]
    fn any_log_is_summed_up(
        values in proptest::collection::vec(prop_oneof![5 => 0.0..100.0f64, 1 => Just(f64::NAN), 1 => -1e30..1e30f64], 3..600),
    ) {
        let log = recording(&values, 0.25, 1 << 20);
        if let Ok(summary) = summarise(&log, &limits()) {
            prop_assert!(summary.figures.iter().all(|f| f.value.is_finite()));
        }
    }
}

/// Drawing is budgeted at 16 ms on a phone, for a million samples; here with room for a slow machine and an unoptimised build.
#[test]
fn a_million_samples_are_drawn_at_once() {
    let values: Vec<f64> =
        (0..1_000_000).map(|i| if i == 777_777 { 5_000.0 } else { f64::from(i % 1_009) }).collect();
    let log = recording(&values, 0.001, 64 << 20);
    let window = log.span();
    let best = (0..7)
        .map(|_| {
            let begun = Instant::now();
            assert_eq!(line(&log, 0, window, 1_233).unwrap().greatest, 5_000.0);
            begun.elapsed()
        })
        .min()
        .unwrap();
    println!("a million samples: {best:?}");
    assert!(best.as_millis() < 60, "{best:?}");
}
