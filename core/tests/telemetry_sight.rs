//! The plot under any hands: whatever fingers and buttons do, the window and the cursor stay inside of the recording, and what is drawn of
//! a window reaches every sample in it.
#![allow(clippy::unwrap_used, missing_docs)]

use liftgate_core::telemetry::plot::{cursor, line};
use liftgate_core::telemetry::*;
use proptest::prelude::*;

/// A row: how long after the one before it, in ms, and its value where it has one.
type Row = (u32, Option<f64>);

/// Rows of a recorder that mostly keeps its pace, with gaps, doubled stamps and empty fields.
fn rows() -> impl Strategy<Value = Vec<Row>> {
    let after = prop_oneof![12 => Just(100_u32), 2 => 1..400_u32, 1 => Just(0_u32), 1 => 2_000..60_000_u32];
    let value = prop_oneof![12 => (0..400_i32).prop_map(|v| Some(f64::from(v) / 10.0)),
        2 => (-9_000..9_000_i32).prop_map(|v| Some(f64::from(v))), 1 => Just(None)];
    prop::collection::vec((after, value), 3..700)
}

/// The rows as they are read back; in cells of several rows each where little room is left for them.
fn recorded(rows: &[Row], kept_bytes: usize) -> Option<Recording> {
    let mut text = "Time [s];Pack [A]\n".to_owned();
    let mut at_ms = 0_u64;
    for (after_ms, value) in rows {
        at_ms += u64::from(*after_ms);
        let value = value.map_or_else(String::new, |value| value.to_string());
        text += &format!("{};{value}\n", at_ms as f64 / 1e3);
    }
    let layout = Layout::of(text.as_bytes()).ok()?;
    let import = Import::new(&layout, &layout.suggest(), Settings { kept_bytes, ..Settings::default() }).ok()?;
    let recording = import.read(&mut text.as_bytes(), &mut |_| true).ok()?;
    (!recording.channels.is_empty() && recording.time_s.len() > 1).then_some(recording)
}

/// What a person can do to the plot.
#[derive(Debug, Clone, Copy)]
enum Move {
    /// Two fingers about a place.
    Stretch(f64, f64),
    /// One finger along.
    Along(f64),
    /// A touch.
    Touch(f64),
    /// A button.
    Button(SightStep),
}

fn moves() -> impl Strategy<Value = Vec<Move>> {
    // A shell reports shares of the width; a broken one may report anything.
    let odd = || prop_oneof![prop::num::f64::ANY, Just(f64::MAX), Just(f64::MIN)];
    let share = || prop_oneof![8 => 0.0..1.0_f64, 2 => -3.0..4.0_f64, 1 => odd()];
    let factor = prop_oneof![8 => 0.05..20.0_f64, 1 => odd()];
    let buttons = [
        SightStep::Closer,
        SightStep::Wider,
        SightStep::Earlier,
        SightStep::Later,
        SightStep::Whole,
        SightStep::CursorBack,
        SightStep::CursorOn,
        SightStep::CursorOff,
    ];
    let one = prop_oneof![
        (share(), factor).prop_map(|(share, factor)| Move::Stretch(share, factor)),
        share().prop_map(Move::Along),
        share().prop_map(Move::Touch),
        prop::sample::select(buttons.to_vec()).prop_map(Move::Button),
    ];
    prop::collection::vec(one, 0..40)
}

fn moved(sight: Sight, recording: &Recording, by: Move) -> Sight {
    match by {
        Move::Stretch(share, factor) => sight.zoomed(recording, share, factor),
        Move::Along(share) => sight.moved(recording, share),
        Move::Touch(share) => sight.pointed(share),
        Move::Button(step) => sight.stepped(recording, step),
    }
}

/// The window is in order, inside, and no shorter than shows something; the cursor is inside as well.
fn holds(sight: &Sight, recording: &Recording) -> Result<(), TestCaseError> {
    let (whole, window) = (recording.span(), sight.window);
    // A log of one moment has a window of a fiftieth of a second about it.
    let end_s = whole.end_s.max(whole.start_s + 0.02);
    let least_s = (8.0 * recording.step_s).max(0.02).min(end_s - whole.start_s);
    let near = 1e-9 * (1.0 + end_s.abs());
    prop_assert!(window.start_s < window.end_s, "{window:?}");
    prop_assert!(window.start_s >= whole.start_s - near && window.end_s <= end_s + near, "{window:?} of {whole:?}");
    prop_assert!(window.length_s() >= least_s - near, "{window:?} is shorter than {least_s} s");
    if let Some(at_s) = sight.cursor_s {
        prop_assert!(at_s >= whole.start_s - near && at_s <= end_s + near, "{at_s} s of {whole:?}");
        let read = cursor(recording, at_s).unwrap();
        prop_assert!(recording.time_s.contains(&read.time_s));
    }
    Ok(())
}

/// Least and greatest that some of the values are, empty fields left out.
fn reach(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values.filter(|value| !value.is_nan()).fold(None, |reach, value| {
        let (least, greatest) = reach.unwrap_or((value, value));
        Some((value.min(least), value.max(greatest)))
    })
}

/// The line of a window reaches the least and the greatest of every stretch of it as wide as a column, and goes nowhere else.
fn loses_no_spike(recording: &Recording, window: Span, columns: u32) -> Result<(), TestCaseError> {
    let channel = &recording.channels[0];
    let drawn = line(recording, 0, window, columns);
    let points: Vec<_> = drawn.iter().flat_map(|line| line.strokes.iter().flatten()).collect();
    for point in &points {
        let at = recording.time_s.partition_point(|time| *time < point.time_s);
        let same = (at..recording.time_s.len()).take_while(|cell| recording.time_s[*cell] == point.time_s);
        let known = same.into_iter().any(|cell| {
            let (least, greatest) = (f64::from(channel.least()[cell]), f64::from(channel.greatest()[cell]));
            (least..=greatest).contains(&point.value)
        });
        prop_assert!(known, "{point:?} was never recorded");
    }
    let inside = recording.cells(window);
    let of = |values: &[f32]| reach(values[inside.clone()].iter().copied().map(f64::from));
    let (Some((least, _)), Some((_, greatest))) = (of(channel.least()), of(channel.greatest())) else {
        return Ok(());
    };
    // The last column's sample may lie on the window's very edge.
    let column_s = window.length_s() / f64::from(columns);
    let seen = points.iter().filter(|p| p.time_s >= window.start_s && p.time_s <= window.end_s + column_s);
    let (low, high) = reach(seen.map(|point| point.value)).unwrap();
    prop_assert!(low <= least && high >= greatest, "{low} to {high} is drawn of {least} to {greatest} in {window:?}");
    let drawn = drawn.unwrap();
    prop_assert!(drawn.least <= least && drawn.greatest >= greatest);
    Ok(())
}

proptest! {
    #[test]
    fn no_hand_moves_the_plot_out_of_its_recording_or_loses_a_spike(
        rows in rows(),
        little_room: bool,
        begin in prop::option::of((-50.0..100.0_f64, 0.001..80.0_f64)),
        moves in moves(),
        columns in prop_oneof![Just(360_u32), 1..900_u32],
    ) {
        let kept_bytes = if little_room { 2_000 } else { 1 << 20 };
        let Some(recording) = recorded(&rows, kept_bytes) else { return Ok(()) };
        let mut sight = match begin {
            Some((start_s, length_s)) => Sight::of(&recording, Span { start_s, end_s: start_s + length_s }),
            None => Sight::whole(&recording),
        };
        holds(&sight, &recording)?;
        loses_no_spike(&recording, sight.window, columns)?;
        for by in moves {
            sight = moved(sight, &recording, by);
            holds(&sight, &recording)?;
            loses_no_spike(&recording, sight.window, columns)?;
        }
    }

    #[test]
    fn what_is_stretched_stays_under_the_fingers(rows in rows(), share in 0.0..1.0_f64, factor in 1.0..6.0_f64) {
        let Some(recording) = recorded(&rows, 1 << 20) else { return Ok(()) };
        let whole = Sight::whole(&recording);
        let under_s = whole.time_s(share);
        let closer = whole.zoomed(&recording, share, factor);
        prop_assert!((closer.time_s(share) - under_s).abs() <= 1e-9 * (1.0 + under_s), "{under_s} s in {closer:?}");
        // And back again: nothing of the log is lost out of sight.
        prop_assert!((closer.zoomed(&recording, share, 1.0 / factor).window.length_s() - whole.window.length_s()).abs() < 1e-6);
    }
}

#[test]
fn the_invented_recorders_are_read() {
    // So that the properties above are not of logs that were turned away.
    let steady: Vec<Row> = (0..600).map(|row| (100, Some(f64::from(row % 40)))).collect();
    assert_eq!(recorded(&steady, 1 << 20).unwrap().rows_per_cell, 1);
    assert!(recorded(&steady, 2_000).unwrap().rows_per_cell > 1);
}
