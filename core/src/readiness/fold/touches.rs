//! Marks the evidence that rests on what was touched.

use crate::plan::{Plan, Subject};
use crate::readiness::ledger::Ledger;
use crate::readiness::reason::{Deed, Reason};
use crate::readiness::touch::{Reach, Touch};
use crate::record::Entry;

impl Ledger {
    /// Marks the evidence that rests on any of the subjects.
    pub(super) fn touch(&mut self, plan: &Plan, entry: &Entry, subjects: &[Subject], reach: Reach, what: &Deed) {
        for subject in subjects {
            let title = plan.subject_name(subject);
            let reason = Reason::Changed { of: subject.clone(), subject: title, what: what.clone(), by: entry.id };
            self.touches.push(Touch { seq: entry.seq, subject: subject.clone(), reach, reason });
        }
        self.break_by_last(plan, subjects.len());
    }

    /// Marks the evidence that ends with any of the last touches.
    pub(super) fn break_by_last(&mut self, plan: &Plan, count: usize) {
        for (_, check) in plan.checks() {
            let Some(evidence) = self.evidence.get_mut(&check.id) else { continue };
            let touched = self.touches.iter().rev().take(count);
            for touch in touched.filter(|touch| touch.ends(check)) {
                // The first change under it made it stale; the hundredth adds nothing that a person would read.
                if !evidence.broken.iter().any(|known| known.is_of_the_same(&touch.reason)) {
                    evidence.broken.push(touch.reason.clone());
                }
            }
        }
    }

    /// What was done under a flight between its start and its landing entry: jotted late, it proves what was, not
    /// what is.
    pub(super) fn broken_since(&self, plan: &Plan, check: &str, seq: i64) -> Vec<Reason> {
        let found = plan.check(check).map(|(_, check)| check);
        let ends = |touch: &&Touch| touch.seq > seq && found.is_some_and(|check| touch.ends(check));
        let mut reasons: Vec<Reason> = Vec::new();
        for touch in self.touches.iter().filter(ends) {
            if !reasons.iter().any(|known| known.is_of_the_same(&touch.reason)) {
                reasons.push(touch.reason.clone());
            }
        }
        let fixed_since = self.fixes.iter().filter(|(fixed, _)| *fixed > seq);
        let to_prove = fixed_since.filter_map(|(_, id)| self.finding(*id)).filter(|finding| finding.proof == check);
        reasons.extend(to_prove.map(|finding| Reason::ToProve { finding: finding.title.clone() }));
        reasons
    }
}
