//! The form of a plan that was picked, and what keeps it from coming into force.

use super::Drafts;
use crate::plan::Plan;
use crate::readiness::{Finding, FindingState, Ledger};

/// A plan file that was picked and is not in force yet.
#[derive(Clone, Copy)]
pub struct PlanOfferForm<'a>(pub Drafts<'a>);

impl<'a> PlanOfferForm<'a> {
    /// The field of what the phone calls the file.
    pub const NAME: &'static str = "name";
    /// The field of its text.
    pub const TEXT: &'static str = "text";

    /// What the phone calls the file.
    pub fn name(&self) -> Option<&'a str> {
        self.0.text(Self::NAME)
    }

    /// Its text, blanks and all.
    pub fn text(&self) -> Option<&'a str> {
        self.0.whole(Self::TEXT)
    }
}

/// Why another plan cannot come into force now.
#[derive(Debug, Clone, PartialEq)]
pub enum KeepsOut<'a> {
    /// It says what the plan in force says.
    InForce,
    /// A landing of this check is not jotted down yet.
    Landing {
        /// The check's id.
        check: &'a str,
    },
    /// An open finding needs a check or a stage that the other plan does not have.
    Finding(&'a Finding),
}

/// What keeps an offered plan out, if anything does. The plan in force is given as it was written, not as it was translated.
pub fn keeps_out<'a>(ledger: &'a Ledger, in_force: &Plan, offered: &Plan) -> Option<KeepsOut<'a>> {
    if in_force == offered {
        return Some(KeepsOut::InForce);
    }
    if let Some(flight) = ledger.flights.iter().find(|flight| flight.awaits_landing()) {
        return Some(KeepsOut::Landing { check: &flight.check });
    }
    let mut open = ledger.findings.iter().filter(|finding| !matches!(finding.state, FindingState::Proven { .. }));
    let lost =
        |finding: &&Finding| offered.check(&finding.proof).is_none() || offered.stage(&finding.stage).is_none();
    open.find(lost).map(KeepsOut::Finding)
}
