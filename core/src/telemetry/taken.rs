//! What was taken from the pack over a whole log: by the current over time, by the recorder's counter, and which of the two is to be believed.
//!
//! All of the log counts, ground and flight: that is what the charger puts back, what a person jots, and what a prediction is held against.

use super::integrals::lines;
use super::recording::{Channel, Recording, Span};

/// A gap up to this long is taken as between what stands on either side of it; over a longer one nothing is assumed. It is shorter than
/// landing, stopping and running up again take (common practice, no source).
pub(super) const LONGEST_GAP_S: f64 = 60.0;
/// What the estimate over a gap may be off by: from half of it, on the ground at flat pitch, to half as much again, in a climb (common
/// practice, no source).
const GAP_UNSURE: f64 = 0.5;
/// A counter is right that comes to the same as the current where both were recorded, within this share (common practice, no source).
const COUNTER_WITHIN: f64 = 0.1;
/// What a counter's own steps may make of a short log, in mAh.
const COUNTER_STEP_MAH: f64 = 20.0;
/// Coulomb in a milliampere hour.
pub(super) const COULOMB_PER_MAH: f64 = 3.6;

/// What was taken over a span: charge in C of a current, energy in J of a power.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Taken {
    /// All of it, what was estimated over gaps included.
    pub(super) sum: f64,
    /// Half width of its 95 % interval; nothing without gaps.
    pub(super) half_width: f64,
    /// Seconds that were estimated.
    pub(super) estimated_s: f64,
    /// Seconds of which nothing is known; they count nothing.
    pub(super) unknown_s: f64,
}

/// Takes what `of` gives for each cell over a span.
pub(super) fn taken(recording: &Recording, span: Span, of: impl FnMut(usize) -> f64) -> Taken {
    let mut taken = Taken::default();
    let mut known_s = 0.0;
    lines(recording, span, of, |line| {
        if line.recorded {
            taken.sum += line.integral();
            known_s += line.length_s();
        } else if line.length_s() <= LONGEST_GAP_S {
            taken.sum += line.integral();
            taken.half_width += GAP_UNSURE * line.integral().abs();
            taken.estimated_s += line.length_s();
        }
    });
    taken.unknown_s = (span.length_s() - known_s - taken.estimated_s).max(0.0);
    taken
}

/// What a recorder's counter came to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Counted {
    /// All that it counted, in mAh, over its new starts.
    pub(super) mah: f64,
    /// How often it began anew.
    pub(super) restarts: u32,
}

/// Last less first of a counter in a span, over its new starts: it begins anew where it falls to less than half of what it had.
pub(super) fn counted(recording: &Recording, counter: &Channel, span: Span) -> Option<Counted> {
    let mut counted = Counted { mah: 0.0, restarts: 0 };
    let mut last: Option<f64> = None;
    for cell in recording.cells(span).filter(|cell| !counter.value[*cell].is_nan()) {
        let (value, greatest) = (f64::from(counter.value[cell]), f64::from(counter.greatest()[cell]));
        match last {
            Some(before) if fell(before, f64::from(counter.least()[cell])) => {
                counted.restarts += 1;
                // Within a cell of several rows it went on before it fell; what it has since the next cell tells.
                let is_row = recording.rows_per_cell == 1;
                counted.mah += if is_row { value } else { (greatest - before).max(0.0) };
                last = Some(if is_row { value } else { 0.0 });
            }
            Some(before) => {
                counted.mah += value - before;
                last = Some(value);
            }
            None => last = Some(value),
        }
    }
    last.map(|_| counted).filter(|counted| counted.mah >= 0.0)
}

fn fell(before: f64, now: f64) -> bool {
    now < 0.5 * before && before - now > 1.0
}

/// Whether a counter comes to the same as the current where both were recorded: then it is right over the gaps as well.
pub(super) fn agrees(recording: &Recording, counter: &Channel, current: &Channel) -> bool {
    let span = recording.span();
    let (mut counting, mut flowing) =
        (super::bridge::Bridge::from(recording, counter, 0), super::bridge::Bridge::from(recording, current, 0));
    let (mut by_counter, mut by_current) = (0.0, 0.0);
    let mut last: Option<(f64, f64, f64)> = None;
    for cell in recording.cells(span) {
        let now = (recording.time_s[cell], counting.at(cell), flowing.at(cell));
        if now.1.is_nan() || now.2.is_nan() || !recording.joined(cell) {
            last = None;
        }
        if let Some(before) = last.filter(|before| !fell(before.1, now.1)) {
            by_counter += now.1 - before.1;
            by_current += 0.5 * (now.2 + before.2) * (now.0 - before.0) / COULOMB_PER_MAH;
        }
        last = Some(now).filter(|now| !now.1.is_nan() && !now.2.is_nan());
    }
    by_current > 0.0 && (by_counter - by_current).abs() <= COUNTER_WITHIN * by_current + COUNTER_STEP_MAH
}
