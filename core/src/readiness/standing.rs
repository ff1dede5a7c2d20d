//! How a check's evidence stands.

use super::reason::Reason;
use crate::field::TooShort;
use crate::plan::{Check, OnFile};
use crate::record::{EntryId, Outcome, ThingKind};
use crate::unit::Unit;

/// How a check's evidence stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Standing {
    /// Nothing was recorded, or what was recorded does not suffice; then `lacking` says what it wants.
    Missing {
        /// What a recorded landing still wants, empty if nothing was recorded.
        lacking: Vec<Lack>,
    },
    /// Recorded, passed, and nothing has changed under it.
    Fresh {
        /// [`Outcome::Pass`] or [`Outcome::Caution`].
        outcome: Outcome,
    },
    /// Recorded, and no longer to be relied on.
    Stale {
        /// Why, at least one.
        reasons: Vec<Reason>,
    },
    /// Recorded, and not right.
    Failed {
        /// What was not right.
        why: Fault,
    },
    /// Flown, and not as predicted, and nobody has said why.
    Unexplained {
        /// The card.
        card: EntryId,
    },
}

impl Standing {
    /// Whether a check that stands so may be recorded by one touch on the card: it wants nobody else's name, and what was not right
    /// is seen to on its own page.
    pub fn is_one_touch(&self, check: &Check) -> bool {
        !check.witness && !matches!(self, Standing::Failed { .. })
    }

    /// Whether a gate may stand on it.
    pub fn holds(&self) -> bool {
        matches!(self, Standing::Fresh { .. })
    }
}

/// What was recorded and does not suffice still wants this.
#[derive(Debug, Clone, PartialEq)]
pub enum Lack {
    /// The second person's name.
    Witness,
    /// The second person's name, or why nobody came.
    WitnessOrWhy,
    /// A figure of the aircraft or a temperature, by its title in the plan.
    Titled(String),
    /// The pilot's word that a list which it judged is complete.
    ListDeclared(ThingKind),
    /// The charge that was used.
    ChargeUsed,
    /// How long it flew.
    FlownTime,
    /// A run of this fly check just before, by its title: it was read on none.
    RunOf(String),
    /// How the run was, in the pilot's own judgement.
    Judgement,
    /// A run that is not called off.
    NotCalledOff {
        /// Why this one was.
        why: String,
    },
    /// What the pack holds, against which the reserve is held.
    PackCapacity,
    /// A temperature, by its title in the plan, that was read too late after touchdown only.
    ReadTooLate {
        /// The place's title.
        title: String,
        /// Seconds after touchdown.
        after_s: i64,
    },
    /// Agreement with what is on file.
    Agreement {
        /// What is on file.
        with: OnFile,
        /// What that says, in the reading's unit.
        on_file: f64,
        /// The reading.
        read: f64,
        /// Its unit.
        unit: Unit,
    },
    /// A run as long as the check wants.
    LongerFlight(TooShort),
}

/// What was not right.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// A person looked and found it so.
    FoundNotRight,
    /// What was computed, as it was said then.
    Computed(String),
    /// A reading past its limit.
    PastLimit {
        /// The reading.
        value: f64,
        /// Its unit.
        unit: Unit,
    },
    /// A run that was not as it should be, in the pilot's words.
    NotSo(String),
    /// A place hotter than its stop.
    PastStop {
        /// The place's title.
        place: String,
        /// How hot.
        celsius: f64,
    },
    /// It landed with less than the reserve.
    UnderReserve {
        /// What was left in the pack, percent.
        left_percent: f64,
        /// The reserve, percent.
        reserve_percent: f64,
    },
}
