//! What was recorded for a check.

use chrono::NaiveDate;

use super::reason::Reason;
use crate::plan::Check;
use crate::record::{CheckResult, EntryId, Moment};

/// A check's evidence in force.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// The entry that is the evidence: a recorded check, or a landing.
    pub entry: EntryId,
    /// Its place in the journal; for a landing the place of the motor's start.
    pub seq: i64,
    /// When it was recorded, as the phone had it.
    pub at: Moment,
    /// The day of that, as the journal reckons it.
    pub day: NaiveDate,
    /// What it says.
    pub of: Source,
    /// The second person.
    pub witness: Option<String>,
    /// At a witness point, why nobody came to see it.
    pub alone: Option<String>,
    /// Motor runs before it. A landing counts its own run among them.
    pub runs: u32,
    /// Milliseconds with the motor on before it.
    pub motor_ms: i64,
    /// The fly check that the last motor run before it was for, if that was down, and of the same day: what is read on a run counts by it.
    pub read_on: Option<String>,
    /// What has since been changed under it.
    pub broken: Vec<Reason>,
}

impl Evidence {
    /// Whether the person looked and said that it is not right.
    pub(super) fn says_not_right(&self) -> bool {
        matches!(self.of, Source::Result(CheckResult::Confirmed { passed: false }))
    }

    /// What ran out by the calendar on a day.
    pub(super) fn days_over(&self, check: &Check, day: NaiveDate) -> Vec<Reason> {
        let days = (day - self.day).num_days();
        let limit = check.holds.days.filter(|limit| days >= i64::from(*limit));
        // A day before the evidence's own is another zone's; it neither ages nor renews anything.
        let session = (check.holds.session && days > 0).then_some(Reason::DayOver);
        session.into_iter().chain(limit.map(Reason::DaysOver)).collect()
    }
}

/// What a piece of evidence is.
#[derive(Debug, Clone, PartialEq)]
pub enum Source {
    /// A check's result.
    Result(CheckResult),
    /// A flight on this card.
    Flight(EntryId),
}

/// One past result of a check.
#[derive(Debug, Clone, PartialEq)]
pub struct Recorded {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// What.
    pub of: Source,
    /// The second person.
    pub witness: Option<String>,
    /// A remark.
    pub note: Option<String>,
    /// At a witness point, why nobody came to see it.
    pub alone: Option<String>,
}

/// Where in the journal, and after how much running, evidence was made: a landing is evidence of its start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Made {
    /// Its place in the journal.
    pub seq: i64,
    /// Motor runs before it; a start counts its own run among them.
    pub runs: u32,
    /// Milliseconds with the motor on before it.
    pub motor_ms: i64,
}
