//! What runs out, is proved or lapses by what was taken in.

use chrono::NaiveDate;

use crate::plan::Plan;
use crate::readiness::finding::{FindingState, Tried};
use crate::readiness::gate::Blocker;
use crate::readiness::judge::Standings;
use crate::readiness::ledger::Ledger;
use crate::readiness::papers;
use crate::readiness::standing::Standing;
use crate::record::{Moment, Outcome, Until};

impl Ledger {
    /// What ran out by time since the last entry lapses before this entry can renew it. Evidence and carried findings run
    /// out by whole days; runs and hours are counted by the entries themselves.
    pub(super) fn begin_day(&mut self, plan: &Plan, at: &Moment) {
        let day = self.clock.day(at);
        if self.last_day.replace(day) != Some(day) {
            self.run_out(plan, day);
            self.lapse_gates(plan, at);
        }
    }

    /// What ran out by the calendar stays run out: a clock that is set back afterwards renews nothing.
    pub(super) fn run_out(&mut self, plan: &Plan, day: NaiveDate) {
        for (_, check) in plan.checks() {
            let Some(evidence) = self.evidence.get_mut(&check.id) else { continue };
            let over = papers::over(&self.aircraft, check, day);
            for reason in evidence.days_over(check, day).into_iter().chain(over) {
                if !evidence.broken.contains(&reason) {
                    evidence.broken.push(reason);
                }
            }
        }
        for finding in &mut self.findings {
            if let FindingState::Carried { until: Until::Date(last), .. } = &finding.state {
                finding.ran_out |= day > *last;
            }
        }
    }

    /// A fix is proven when its check was repeated after it and passed; it is undone when the check failed again.
    pub(super) fn settle_proofs(&mut self, plan: &Plan, at: &Moment) {
        if !self.findings.iter().any(|finding| matches!(finding.state, FindingState::Fixed { .. })) {
            return;
        }
        let mut settled = Vec::new();
        let mut standings = Standings::of_entry(plan, self, at);
        for (index, finding) in self.findings.iter().enumerate() {
            let FindingState::Fixed { seq } = finding.state else { continue };
            let Some(evidence) = self.evidence.get(&finding.proof).filter(|evidence| evidence.seq > seq) else {
                continue;
            };
            let Some((_, check)) = plan.check(&finding.proof) else { continue };
            let outcome = match standings.of(check) {
                Standing::Fresh { outcome } => outcome,
                Standing::Failed { .. } => Outcome::Stop,
                _ => continue,
            };
            // A caution lets a gate open; it does not show that a fix holds, unless the plan says so of this check. What
            // the person looked at and called not right never does.
            let proved = match outcome {
                Outcome::Pass => true,
                Outcome::Caution => check.caution_proves && !evidence.says_not_right(),
                Outcome::Stop => false,
            };
            settled.push((index, evidence.entry, outcome, proved));
        }
        for (index, evidence, outcome, proved) in settled {
            let finding = &mut self.findings[index];
            let fix = finding.fixes.last().map_or(finding.id, |(fix, _)| *fix);
            finding.tried.push(Tried { fix, evidence, outcome, proved });
            finding.state = if proved { FindingState::Proven { by: evidence } } else { FindingState::Open };
        }
    }

    /// Something is missing in the record, or may be. Whatever it said, the gates that were released before it may have stood on it: they
    /// lapse, and the pilot decides on each again.
    pub(super) fn something_is_missing(&mut self, is_missing: bool, at: &Moment) {
        let stand = self.releases.values_mut().filter(|release| is_missing && release.lapsed.is_none());
        for release in stand {
            release.lapsed = Some((vec![Blocker::RecordDamaged], at.clone()));
        }
    }

    /// Lapses every released gate whose ground is gone. Once lapsed, only a new release opens it.
    pub(super) fn lapse_gates(&mut self, plan: &Plan, at: &Moment) {
        if self.releases.values().all(|release| release.lapsed.is_some()) {
            return;
        }
        let mut lapsed = Vec::new();
        let mut standings = Standings::of_entry(plan, self, at);
        for stage in &plan.stages {
            let stood = self.releases.get(&stage.id).is_some_and(|release| release.lapsed.is_none());
            if stood {
                let blockers = standings.stage_blockers(stage);
                if !blockers.is_empty() {
                    lapsed.push((stage.id.clone(), blockers));
                }
            }
        }
        for (stage, blockers) in lapsed {
            if let Some(release) = self.releases.get_mut(&stage) {
                release.lapsed = Some((blockers, at.clone()));
            }
        }
    }
}
