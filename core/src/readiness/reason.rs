//! Why evidence is stale.

use chrono::NaiveDate;

use crate::plan::Subject;
use crate::record::EntryId;

/// What was done to something that evidence rests on.
#[derive(Debug, Clone, PartialEq)]
pub enum Deed {
    /// A figure was entered as this.
    EnteredAs(f64),
    /// A setting was set to this.
    SetTo(String),
    /// A thing of this name was described.
    Added(String),
    /// A thing of this name was described anew.
    Changed(String),
    /// A thing of this name was removed.
    Removed(String),
    /// Work, in the words of whoever did it.
    Work(String),
}

/// Why evidence is stale.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// Something that it rests on was changed.
    Changed {
        /// What it rests on.
        of: Subject,
        /// Its title in the plan, where it has one there.
        subject: String,
        /// What was done.
        what: Deed,
        /// The entry that says so.
        by: EntryId,
    },
    /// Something happened that ends it.
    Happened {
        /// The event's id.
        of: String,
        /// Its title in the plan as it was written.
        event: String,
        /// The entry that says so.
        by: EntryId,
    },
    /// It was recorded on an earlier day and holds for a day.
    DayOver,
    /// It holds for days, and nobody knows how many have passed: the phone was started anew and its clock is behind.
    ClockBehind,
    /// It holds for so many motor runs, and they are flown.
    RunsFlown(u32),
    /// It holds for so many hours with the motor on, and they are flown.
    HoursFlown(f64),
    /// It holds for so many days, and they are over.
    DaysOver(u32),
    /// It rests on the papers, and one of them is good no more.
    PaperOver {
        /// The paper's name.
        paper: String,
        /// The last day on which it was good.
        last_day: NaiveDate,
    },
    /// It rests on another check whose evidence does not hold, or was recorded anew.
    RestsOn {
        /// That check's title.
        check: String,
    },
    /// Another plan came into force, and asks for something else here.
    PlanChanged {
        /// That plan's title.
        plan: String,
        /// Its edition.
        edition: String,
    },
    /// A finding was fixed, and this check is to prove the fix.
    ToProve {
        /// The finding's title.
        finding: String,
    },
}

impl Reason {
    /// Whether both say that the same thing was changed, or that the same happened: a person reads it once.
    pub(super) fn is_of_the_same(&self, other: &Reason) -> bool {
        match (self, other) {
            (Reason::Happened { event: a, .. }, Reason::Happened { event: b, .. }) => a == b,
            (Reason::Changed { subject: a, .. }, Reason::Changed { subject: b, .. }) => a == b,
            _ => false,
        }
    }
}
