//! How long a run has to be to count: by the check's own minutes, whatever was planned on its card.

use super::Flight;
use crate::plan::{Fly, Plan};

/// Tenths of what a check wants that a run must have flown: hold is thrown a little before the clock is stopped (common practice, no
/// source).
const TENTHS_THAT_COUNT: i64 = 9;

/// A run that was too short to be evidence of its check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooShort {
    /// Seconds flown.
    pub flown_s: i64,
    /// Seconds that the check wants.
    pub wanted_s: i64,
}

/// Seconds that a check wants: its own minutes; fewer where the whole pack's reserve allows fewer, but never less than half of them.
/// Nobody is sent into the reserve for a check, and no small pack makes a moment of it.
pub fn wanted_s(fly: &Fly, allowed_s: Option<i64>) -> i64 {
    let own_s = (fly.minutes * 60.0).round() as i64;
    allowed_s.map_or(own_s, |allowed_s| allowed_s.clamp(own_s - own_s / 2, own_s))
}

/// Whether so many milliseconds are as long as is wanted.
pub fn is_long_enough(flown_ms: i64, wanted_s: i64) -> bool {
    flown_ms.saturating_mul(10) >= wanted_s.saturating_mul(1_000 * TENTHS_THAT_COUNT)
}

impl Flight {
    /// What was flown and what the check wants, where this run was too short for it. None while it is not down.
    pub fn too_short(&self, fly: &Fly) -> Option<TooShort> {
        let flown_ms = self.flown_ms()?;
        let wanted_s = wanted_s(fly, self.allowed_s);
        let short = TooShort { flown_s: flown_ms / 1_000, wanted_s };
        (!is_long_enough(flown_ms, wanted_s)).then_some(short)
    }

    /// Whether less than half was flown of what the check wants: mostly spool-up, and its means say nothing. Of a check that the plan no
    /// longer has, half of what was planned.
    pub fn is_called_off(&self, plan: &Plan) -> bool {
        let fly = plan.check(&self.check).and_then(|(_, check)| check.fly());
        let wanted_s = fly.map_or(self.planned_s, |fly| wanted_s(fly, self.allowed_s));
        self.flown_ms().is_some_and(|flown_ms| flown_ms.saturating_mul(2) < wanted_s.saturating_mul(1_000))
    }
}
