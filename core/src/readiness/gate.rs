//! A stage's gate, its release, and what stands in its way.

use super::standing::Standing;
use crate::field::Unanswered;
use crate::record::{EntryId, Moment};

/// One thing that stands in the way.
#[derive(Debug, Clone, PartialEq)]
pub enum Blocker {
    /// One of the plan's questions is not answered.
    Question(String),
    /// A figure of the aircraft is missing.
    Figure(String),
    /// A figure does not lie above the one that it must lie above: the rungs of a ladder are out of order.
    Order {
        /// The figure that lies too low.
        figure: String,
        /// The figure that it must lie above.
        above: String,
    },
    /// A check's evidence does not hold.
    Check {
        /// Which check.
        check: String,
        /// How it stands.
        standing: Standing,
    },
    /// A finding is not closed.
    Finding(EntryId),
    /// Something that was seen or read in a flight is answered by nothing.
    Unanswered {
        /// The flight's card.
        card: EntryId,
        /// What.
        what: Unanswered,
    },
    /// A run is down, and nothing was jotted of its landing, nor said why not. Its card.
    Landing(EntryId),
    /// An earlier gate is not released.
    Gate(String),
    /// The aircraft, its builder or its pilot has no name yet: nothing is released that nobody stands under.
    Unnamed,
    /// The phone's clock is behind the last entry: nothing is released by it.
    Clock,
    /// Entries could not be read any more. It shuts no gate for good: it is why one lapsed that stood before them.
    RecordDamaged,
    /// No pack is described that may be flown: no card can be drawn up.
    NoPack,
}

/// How a stage's gate stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Gate {
    /// Something is in the way.
    Shut {
        /// What.
        blockers: Vec<Blocker>,
    },
    /// The pilot may release it.
    Ready,
    /// The pilot released it and nothing has changed since.
    Released(Release),
    /// It was released, and what it stood on no longer holds.
    Lapsed {
        /// The release that lapsed.
        release: Release,
        /// What is in the way now; empty if it may be released anew.
        blockers: Vec<Blocker>,
    },
    /// The stage has no gate.
    None,
}

impl Gate {
    /// Whether the next stage may stand on it.
    pub fn is_released(&self) -> bool {
        matches!(self, Gate::Released(_) | Gate::None)
    }

    /// Whether the pilot may release it now.
    pub fn may_be_released(&self) -> bool {
        match self {
            Gate::Ready => true,
            Gate::Lapsed { blockers, .. } => blockers.is_empty(),
            _ => false,
        }
    }
}

/// A gate's last release.
#[derive(Debug, Clone, PartialEq)]
pub struct Release {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// By whom.
    pub by: String,
    /// The evidence that it stood on.
    pub evidence: Vec<(String, EntryId)>,
    /// What first took the ground from under it, and when.
    pub lapsed: Option<(Vec<Blocker>, Moment)>,
}
