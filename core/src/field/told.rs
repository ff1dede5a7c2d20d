//! How long the motor was on: what the phone counted, where that cannot be, and what the pilot says.

use super::{Flight, Timed};
use crate::record::{Prediction, Reading};

/// A clock that ran this much longer than planned was left running, or the plan was another: the pilot is asked. Twice the plan, and some
/// minutes for a circuit more and a landing against the wind (common practice, no source).
const TIMES_THE_PLAN: i64 = 2;
const MINUTES_OVER: i64 = 5;

/// A reading later than this after touchdown is none of touchdown any more, s: a controller or a motor in a body falls by half of its rise
/// in about that time (common practice, no source).
const LATEST_S: i64 = 600;

impl Flight {
    /// The longest that it can have been without a question, milliseconds: by what was planned, and by when the least that was predicted is
    /// more than the pack holds.
    pub fn most_ms(&self, holds_mah: Option<f64>) -> i64 {
        let by_plan_s = self.planned_s.saturating_mul(TIMES_THE_PLAN).saturating_add(MINUTES_OVER * 60);
        let empty_s = |prediction: &Prediction, holds_mah: f64| {
            let usable = prediction.low_mah > 0.0 && self.planned_s > 0;
            usable.then(|| holds_mah / prediction.low_mah * self.planned_s as f64)
        };
        let by_pack_s = self.prediction.as_ref().zip(holds_mah).and_then(|(p, holds_mah)| empty_s(p, holds_mah));
        // A prediction may be wrong: what is within the plan is never doubted.
        let by_pack_s = by_pack_s.map_or(i64::MAX, |s| s.ceil() as i64).max(self.planned_s);
        by_plan_s.min(by_pack_s).saturating_mul(1_000)
    }

    /// Whether no phone was there: what is known of it was told later, from a paper or another clock.
    pub fn is_without_phone(&self) -> bool {
        self.timed == Timed::Told && self.counted_ms.is_none()
    }

    /// Milliseconds that the phone counted, where that is not what counts: the pilot says another time.
    pub fn counted_otherwise_ms(&self) -> Option<i64> {
        let (_, elapsed_ms) = self.down.as_ref()?;
        self.counted_ms.filter(|counted_ms| self.timed == Timed::Told && counted_ms / 1_000 != elapsed_ms / 1_000)
    }

    /// Seconds from the touchdown to a reading after it.
    pub fn since_touchdown_s(&self, reading: &Reading) -> i64 {
        reading.after_s.saturating_add(self.touched_late_s)
    }

    /// Whether a reading came too late to tell of touchdown.
    pub fn is_too_late(&self, reading: &Reading) -> bool {
        self.since_touchdown_s(reading) > LATEST_S
    }

    /// Whether the pilot may still say how long it was. What was said already is taken back first.
    pub fn may_be_told(&self) -> bool {
        self.down.is_some() && self.timed != Timed::Told
    }
}
