//! Something wrong with the aircraft, and how far it is on its way to be proved mended.

use crate::record::{Entry, EntryId, FindingGrade, Moment, Outcome, Outlier, Until};

/// Something wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The entry that raised it.
    pub id: EntryId,
    /// Its number in the order of raising, from 1.
    pub number: usize,
    /// When it was raised.
    pub at: Moment,
    /// What.
    pub title: String,
    /// How bad.
    pub grade: FindingGrade,
    /// The stage whose gate it holds shut.
    pub stage: String,
    /// The check whose repetition proves the fix.
    pub proof: String,
    /// The entry that showed it.
    pub shown_by: Option<EntryId>,
    /// What it was proposed from; none where a person came upon it.
    pub proposed_from: Option<Outlier>,
    /// Where it stands.
    pub state: FindingState,
    /// Each fix so far: entry, and what was done.
    pub fixes: Vec<(EntryId, String)>,
    /// Each time that a fix was put to the proof, oldest first.
    pub tried: Vec<Tried>,
    /// The last day that it was to be carried has been over: a clock set back does not bring it again.
    pub(super) ran_out: bool,
}

/// A fix put to the proof.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tried {
    /// The fix: its entry.
    pub fix: EntryId,
    /// The evidence that came of it.
    pub evidence: EntryId,
    /// How that was judged. Only a pass proves, unless the plan lets a caution do.
    pub outcome: Outcome,
    /// Whether it proved the fix.
    pub proved: bool,
}

/// Where a finding stands.
#[derive(Debug, Clone, PartialEq)]
pub enum FindingState {
    /// Nothing was done yet, or the last fix did not hold.
    Open,
    /// Fixed; the proof is still to come.
    Fixed {
        /// The fix's place in the journal.
        seq: i64,
    },
    /// Fixed and proven.
    Proven {
        /// The evidence that proved it.
        by: EntryId,
    },
    /// Flown with, under a restriction.
    Carried {
        /// Shown on every card.
        restriction: String,
        /// Who answers for it.
        by: String,
        /// Until when.
        until: Until,
        /// Motor runs when it was taken on.
        runs: u32,
    },
}

impl Finding {
    /// What is flown with while it is carried.
    pub fn restriction(&self) -> Option<&str> {
        match &self.state {
            FindingState::Carried { restriction, .. } => Some(restriction),
            _ => None,
        }
    }

    /// A finding as it was raised, with nothing said yet of where it holds or what proves it.
    pub(super) fn raised(entry: &Entry, number: usize, title: &str, grade: FindingGrade) -> Finding {
        Finding {
            id: entry.id,
            number,
            at: entry.at.clone(),
            title: title.to_owned(),
            grade,
            stage: String::new(),
            proof: String::new(),
            shown_by: None,
            proposed_from: None,
            state: FindingState::Open,
            fixes: Vec::new(),
            tried: Vec::new(),
            ran_out: false,
        }
    }
}
