use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::aircraft::Aircraft;
use crate::field::{Flight, Lock, Tested};
use crate::plan::{Plan, Subject};
use crate::record::{CheckResult, Entry, EntryId, FindingGrade, Moment, Outcome, Outlier, ThingRef, Until};

use super::gate::Blocker;
use super::standing::Reason;

/// All that the entries say, in the order in which they say it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ledger {
    /// The aircraft.
    pub aircraft: Aircraft,
    /// The evidence in force, by check.
    pub evidence: BTreeMap<String, Evidence>,
    /// Every result of every check, oldest first, withdrawn ones left out.
    pub results: BTreeMap<String, Vec<Recorded>>,
    /// The last release of each gate.
    pub releases: BTreeMap<String, Release>,
    /// When each thing was last described: readings age, and the newest goes first.
    pub described: BTreeMap<ThingRef, Described>,
    /// The findings, oldest first.
    pub findings: Vec<Finding>,
    /// The cards in the order in which they were drawn up.
    pub flights: Vec<Flight>,
    /// Changes to parts, wiring and the like, oldest first.
    pub changes: Vec<Change>,
    /// What happened to the aircraft, oldest first.
    pub happened: Vec<Happened>,
    /// The ledger of settings: each change of a setting or of an adjustable figure, oldest first.
    pub adjusted: Vec<Adjusted>,
    /// Findings raised so far, those withdrawn among them: a finding's number is given once.
    pub findings_raised: usize,
    /// Who has the phone.
    pub seat: Seat,
    /// What keeps the pilot's side shut while the spotter has the phone.
    pub lock: Lock,
    /// When each pack was charged last, by its name.
    pub charges: BTreeMap<String, Charged>,
    /// Motor runs so far.
    pub runs: u32,
    /// Milliseconds with the motor on so far.
    pub motor_ms: i64,
    /// The day of the last entry, by the wall clock.
    pub(super) last_day: Option<chrono::NaiveDate>,
    /// Where each card's motor run began: a landing is evidence of that moment, however late it is jotted.
    pub(super) starts: BTreeMap<EntryId, Start>,
    /// Every time that something was touched which evidence may rest on, oldest first.
    pub(super) touches: Vec<Touch>,
    /// Every fix, oldest first: its place in the journal, and the finding.
    pub(super) fixes: Vec<(i64, EntryId)>,
    /// What was changed since the last motor run.
    pub(super) untested: Vec<Tested>,
}

/// A pack's last charge.
#[derive(Debug, Clone, PartialEq)]
pub struct Charged {
    /// When it was recorded.
    pub at: Moment,
    /// Its place in the journal: what was flown after it, was flown on it.
    pub seq: i64,
}

/// When a thing was last described.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Described {
    /// Place in the journal.
    pub seq: i64,
    /// Motor runs before it.
    pub runs: u32,
}

/// Where a motor run began.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Start {
    /// Its place in the journal.
    pub seq: i64,
    /// Motor runs, this one among them.
    pub runs: u32,
    /// Milliseconds with the motor on before it.
    pub motor_ms: i64,
}

/// Something was touched that evidence may rest on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Touch {
    /// Place in the journal of the entry that says so.
    pub seq: i64,
    /// What was touched.
    pub subject: Subject,
    /// What a check that rests on it says.
    pub reason: Reason,
}

/// Who has the phone.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Seat {
    /// The pilot.
    #[default]
    Pilot,
    /// The spotter, for one card.
    Spotter {
        /// The card.
        card: EntryId,
        /// The spotter's name.
        name: String,
    },
}

/// A check's evidence in force.
#[derive(Debug, Clone, PartialEq)]
pub struct Evidence {
    /// The entry that is the evidence: a recorded check, or a landing.
    pub entry: EntryId,
    /// Its place in the journal; for a landing the place of the motor's start.
    pub seq: i64,
    /// When it was recorded.
    pub at: Moment,
    /// What it says.
    pub of: Source,
    /// The second person.
    pub witness: Option<String>,
    /// At a witness point, why nobody came to see it.
    pub alone: Option<String>,
    /// Motor runs before it. A landing counts its own run among them.
    pub runs: u32,
    /// Milliseconds with the motor on before it.
    pub motor_ms: i64,
    /// What has since been changed under it.
    pub broken: Vec<Reason>,
}

impl Evidence {
    /// Whether the person looked and said that it is not right.
    pub(super) fn says_not_right(&self) -> bool {
        matches!(self.of, Source::Result(CheckResult::Confirmed { passed: false }))
    }
}

/// What a piece of evidence is.
#[derive(Debug, Clone, PartialEq)]
pub enum Source {
    /// A check's result.
    Result(CheckResult),
    /// A flight on this card.
    Flight(EntryId),
}

/// One past result of a check.
#[derive(Debug, Clone, PartialEq)]
pub struct Recorded {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// What.
    pub of: Source,
    /// The second person.
    pub witness: Option<String>,
    /// A remark.
    pub note: Option<String>,
    /// At a witness point, why nobody came to see it.
    pub alone: Option<String>,
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

/// A recorded change.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// What was touched, as plans write it.
    pub subjects: Vec<String>,
    /// What was done.
    pub what: String,
}

/// Something that happened to the aircraft.
#[derive(Debug, Clone, PartialEq)]
pub struct Happened {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// Which event of the plan.
    pub event: String,
    /// What was remarkable.
    pub note: Option<String>,
    /// Motor runs before it.
    pub runs: u32,
}

/// One line of the ledger of settings.
#[derive(Debug, Clone, PartialEq)]
pub struct Adjusted {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// [`Subject::Setting`] or [`Subject::Figure`].
    pub subject: Subject,
    /// What it was, if that was known.
    pub before: Option<String>,
    /// What it is since.
    pub after: String,
    /// Why.
    pub reason: String,
    /// Motor runs before it.
    pub runs: u32,
}

impl Ledger {
    /// Folds the entries, beginning under `plan`; each plan that came into force holds from its entry on. Withdrawn
    /// entries count as if they had never been made, and so do their
    /// withdrawals: taking back a slip of last week is no sign that a week has passed.
    pub fn of(plan: &Plan, entries: &[Entry]) -> Ledger {
        let withdrawn = withdrawn(entries);
        let mut ledger = Ledger::default();
        ledger.apply_all(plan, entries.iter(), &withdrawn);
        ledger
    }

    /// Takes in entries that were appended after those already folded, `plan` being in force before them. Where one of
    /// them brings another plan into force, that is the plan to ask this ledger about afterwards.
    ///
    /// Equal to folding all of them anew, unless one of them withdraws an older entry: then fold anew.
    pub fn take(&mut self, plan: &Plan, entries: &[Entry]) {
        self.apply_all(plan, entries.iter(), &BTreeMap::new());
    }

    fn apply_all<'a>(
        &mut self,
        plan: &Plan,
        entries: impl Iterator<Item = &'a Entry>,
        withdrawn: &BTreeMap<EntryId, String>,
    ) {
        use crate::record::Body;
        let mut in_force: Cow<'_, Plan> = Cow::Borrowed(plan);
        for entry in entries {
            let gone = withdrawn.contains_key(&entry.id);
            match &entry.body {
                // The number of a finding that was withdrawn is not given again: it may stand in someone's notes.
                Body::FindingRaised { .. } if gone => self.findings_raised += 1,
                Body::Withdrawn { .. } => {}
                _ if gone => {}
                Body::PlanAdopted { plan: name, text, .. } => {
                    // A text that this Liftgate cannot read leaves the plan before it in force; the desk brings none.
                    if let Ok(adopted) = Plan::parse(name, text) {
                        self.adopt(&in_force, &adopted, entry);
                        in_force = Cow::Owned(adopted);
                    }
                }
                _ => self.apply(&in_force, entry),
            }
        }
    }

    /// A card by its id.
    pub fn flight(&self, card: EntryId) -> Option<&Flight> {
        self.flights.iter().rev().find(|flight| flight.card == card)
    }

    /// A finding by its id.
    pub fn finding(&self, id: EntryId) -> Option<&Finding> {
        self.findings.iter().find(|finding| finding.id == id)
    }
}

/// Withdrawn entries and the reason for each.
pub(crate) fn withdrawn(entries: &[Entry]) -> BTreeMap<EntryId, String> {
    let reason = |entry: &Entry| match &entry.body {
        crate::record::Body::Withdrawn { entry, reason } => Some((*entry, reason.clone())),
        _ => None,
    };
    entries.iter().filter_map(reason).collect()
}
