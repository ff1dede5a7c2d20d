//! What was touched under the evidence.

use super::reason::Reason;
use crate::plan::{Check, CheckKind, Subject};
use crate::record::{OnAircraft, ThingKind};

/// Something was touched that evidence may rest on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Touch {
    /// Place in the journal of the entry that says so.
    pub seq: i64,
    /// What was touched.
    pub subject: Subject,
    /// How far it reaches.
    pub reach: Reach,
    /// What a check that rests on it says.
    pub reason: Reason,
}

/// What of all that rests on something is touched with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Reach {
    /// Everything: the thing itself was changed.
    Everything,
    /// What was computed with it. What was looked at, measured or flown was so with the thing as it was and is.
    Computed {
        /// From the descriptions of things of this kind; none: from a figure.
        from: Option<ThingKind>,
    },
}

impl Touch {
    /// Whether evidence of a check ends with it.
    pub fn ends(&self, check: &Check) -> bool {
        let is_reached = match self.reach {
            Reach::Everything => true,
            Reach::Computed { from } => match check.kind {
                CheckKind::Compute(computation) => from.is_none_or(|kind| computation.reads().contains(&kind)),
                CheckKind::Confirm | CheckKind::Measure(_) | CheckKind::Fly(_) => false,
            },
        };
        is_reached && check.ends_with(&self.subject)
    }
}

impl Reach {
    /// How far a description of a thing of a kind reaches that says this of the aircraft.
    pub fn of_description(kind: ThingKind, on_aircraft: OnAircraft) -> Reach {
        match on_aircraft {
            OnAircraft::NotSaid | OnAircraft::Changed => Reach::Everything,
            OnAircraft::AsItWas => Reach::Computed { from: Some(kind) },
        }
    }
}
