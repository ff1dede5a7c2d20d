//! What becomes of a finding.

use crate::field::ShownFinding;
use crate::plan::Plan;
use crate::readiness::finding::{Finding, FindingState};
use crate::readiness::ledger::Ledger;
use crate::readiness::reason::Reason;
use crate::record::{Body, Entry, EntryId, FindingGrade, Outlier, Until};

impl Ledger {
    pub(super) fn finding_raised(&mut self, entry: &Entry) {
        if let Body::FindingRaised { title, grade, stage, proof, shown_by, proposed_from } = &entry.body {
            let raised = Finding::raised(entry, self.findings_raised, title, *grade);
            let (stage, proof, proposed_from) = (stage.clone(), proof.clone(), proposed_from.clone());
            self.raised(Finding { stage, proof, shown_by: *shown_by, proposed_from, ..raised });
        }
    }

    /// A finding is there, and answers what showed it.
    fn raised(&mut self, finding: Finding) {
        if let Some(shown_by) = finding.shown_by {
            let place = finding.proposed_from.as_ref().and_then(Outlier::place).map(str::to_owned);
            let shown = ShownFinding { finding: finding.id, is_stop: finding.grade == FindingGrade::Stop, place };
            self.shown_by_flight(shown, shown_by);
        }
        self.findings.push(finding);
    }

    pub(super) fn fixed(&mut self, plan: &Plan, entry: &Entry, finding: EntryId, what: &str, subjects: &[String]) {
        let Some(found) = self.findings.iter_mut().find(|f| f.id == finding) else { return };
        found.state = FindingState::Fixed { seq: entry.seq };
        found.fixes.push((entry.id, what.to_owned()));
        self.fixes.push((entry.seq, finding));
        if let Some(evidence) = self.evidence.get_mut(&found.proof) {
            evidence.broken.push(Reason::ToProve { finding: found.title.clone() });
        }
        self.changed(plan, entry, subjects, what);
    }

    pub(super) fn carried(&mut self, entry: &Entry, finding: EntryId, restriction: &str, by: &str, until: &Until) {
        let (runs, day) = (self.runs, self.clock.day(&entry.at));
        let may_be_carried = |f: &&mut Finding| {
            let closed = matches!(f.state, FindingState::Proven { .. });
            f.id == finding && f.grade != FindingGrade::Stop && !closed
        };
        if let Some(found) = self.findings.iter_mut().find(may_be_carried) {
            found.ran_out = matches!(until, Until::Date(last) if day > *last);
            let (restriction, by, until) = (restriction.to_owned(), by.to_owned(), until.clone());
            found.state = FindingState::Carried { restriction, by, until, runs };
        }
    }
}
