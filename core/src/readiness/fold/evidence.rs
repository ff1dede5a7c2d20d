//! Keeps what was recorded for checks, and the releases that stand on it.

use crate::readiness::evidence::{Evidence, Made, Recorded, Source};
use crate::readiness::gate::Release;
use crate::readiness::ledger::Ledger;
use crate::readiness::reason::Reason;
use crate::record::{CheckResult, Entry, EntryId};

impl Ledger {
    pub(super) fn check_recorded(
        &mut self,
        entry: &Entry,
        check: &str,
        result: &CheckResult,
        witness: &Option<String>,
        note: &Option<String>,
        alone: &Option<String>,
    ) {
        let of = Source::Result(result.clone());
        let (witness, note, alone) = (witness.clone(), note.clone(), alone.clone());
        let recorded = Recorded { entry: entry.id, at: entry.at.clone(), of, witness, note, alone };
        let now = Made { seq: entry.seq, runs: self.runs, motor_ms: self.motor_ms };
        self.keep_evidence(check, recorded, now, Vec::new());
    }

    pub(super) fn keep_evidence(&mut self, check: &str, recorded: Recorded, made: Made, broken: Vec<Reason>) {
        // The landing of an older flight, jotted after a newer one, takes nothing from the newer one.
        if self.evidence.get(check).is_none_or(|newer| newer.seq <= made.seq) {
            let evidence = Evidence {
                entry: recorded.entry,
                seq: made.seq,
                at: recorded.at.clone(),
                day: self.clock.day(&recorded.at),
                of: recorded.of.clone(),
                witness: recorded.witness.clone(),
                alone: recorded.alone.clone(),
                runs: made.runs,
                motor_ms: made.motor_ms,
                read_on: self.run_just_made(&recorded.at).map(str::to_owned),
                broken,
            };
            self.evidence.insert(check.to_owned(), evidence);
        }
        self.results.entry(check.to_owned()).or_default().push(recorded);
    }

    pub(super) fn released(&mut self, entry: &Entry, stage: &str, by: &str, evidence: &[(String, EntryId)]) {
        let (by, evidence) = (by.to_owned(), evidence.to_vec());
        let release = Release { entry: entry.id, at: entry.at.clone(), by, evidence, lapsed: None };
        self.releases.insert(stage.to_owned(), release);
        self.decided_on_all_flown();
    }
}
