//! What a finding's fix is asked for, and what it may have touched.

use super::finding::{Finding, FindingState};
use super::ledger::Ledger;
use crate::plan::{Plan, Subject};
use crate::record::Moment;

impl Finding {
    /// Whether it waits for a fix: it is open, or it was carried and the time for that is over.
    pub fn wants_fix(&self, ledger: &Ledger, now: &Moment) -> bool {
        matches!(self.state, FindingState::Open) || self.carry_over(ledger, now)
    }

    /// What a fix may have touched: what the proof rests on, and what every fix may move.
    pub fn may_have_touched(&self, plan: &Plan) -> Vec<Subject> {
        let rests_on = plan.check(&self.proof).map(|(_, check)| check.rests_on.clone()).unwrap_or_default();
        // Other evidence and a number on file are touched by no tool.
        let is_work = |subject: &Subject| !matches!(subject, Subject::Check(_) | Subject::Figure(_));
        let mut subjects: Vec<Subject> = rests_on.into_iter().filter(is_work).collect();
        for general in [Subject::Wiring, Subject::Mass] {
            if !subjects.contains(&general) {
                subjects.push(general);
            }
        }
        subjects
    }
}
