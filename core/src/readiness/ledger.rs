//! All that the entries say.

use std::collections::{BTreeMap, BTreeSet};

use super::clock::Clock;
use super::evidence::{Evidence, Made, Recorded, Source};
use super::finding::Finding;
use super::gate::Release;
use super::gone::Gone;
use super::history::{Adjusted, Change, Declared, Described, Emergency, Happened, PackDeed};
use super::logs::Logs;
use super::photos::Photos;
use super::seat::Seat;
use super::touch::Touch;
use super::withdrawal::Withdrawals;
use crate::aircraft::Aircraft;
use crate::field::{Flight, Lock, Tested};
use crate::plan::{Check, Plan};
use crate::record::{AircraftId, CheckResult, EntryId, JudgedList, Moment, Outlier, PackState, ThingKind, ThingRef};

/// All that the entries say, in the order in which they say it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ledger {
    /// Which of the journal's aircraft it is of.
    pub id: AircraftId,
    /// The aircraft.
    pub aircraft: Aircraft,
    /// Whom to call when somebody is hurt or something burns, and where the site is.
    pub emergency: Option<Emergency>,
    /// The evidence in force, by check.
    pub evidence: BTreeMap<String, Evidence>,
    /// Every result of every check, oldest first, withdrawn ones left out.
    pub results: BTreeMap<String, Vec<Recorded>>,
    /// The last release of each gate.
    pub releases: BTreeMap<String, Release>,
    /// When each thing was last described: readings age, and the newest goes first.
    pub described: BTreeMap<ThingRef, Described>,
    /// The lists that are declared complete, by the kind of their things.
    pub declared: BTreeMap<ThingKind, Declared>,
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
    /// What was taken back.
    pub withdrawals: Withdrawals,
    /// What was found and taken back, oldest first.
    pub gone: Vec<Gone>,
    /// The logs that were attached.
    pub logs: Logs,
    /// The photos that were attached, oldest first.
    pub photos: Photos,
    /// Findings raised so far, those withdrawn among them: a finding's number is given once.
    pub findings_raised: usize,
    /// Who has the phone.
    pub seat: Seat,
    /// What keeps the pilot's side shut while the spotter has the phone.
    pub lock: Lock,
    /// What was done with each pack on the ground, oldest first, by its name.
    pub pack_deeds: BTreeMap<String, Vec<PackDeed>>,
    /// The packs that are damaged, and so retired, by their names. Another pack under an old one's name is another.
    pub damaged: BTreeMap<String, PackState>,
    /// Motor runs so far.
    pub runs: u32,
    /// Milliseconds with the motor on so far.
    pub motor_ms: i64,
    /// The time as the entries tell it.
    pub clock: Clock,
    /// The day of the last entry, as it was reckoned.
    pub(super) last_day: Option<chrono::NaiveDate>,
    /// Where each card's motor run began: a landing is evidence of that moment, however late it is jotted.
    pub(super) starts: BTreeMap<EntryId, Made>,
    /// Every time that something was touched which evidence may rest on, oldest first.
    pub(super) touches: Vec<Touch>,
    /// Every fix, oldest first: its place in the journal, and the finding.
    pub(super) fixes: Vec<(i64, EntryId)>,
    /// What was changed since the last motor run.
    pub(super) untested: Vec<Tested>,
    /// The packs of the journal's other aircraft and what was flown on them, folded as if all of it were one aircraft's; none while there is
    /// no other. A pack is the same pack wherever it flies.
    pub(super) elsewhere: Option<Box<Ledger>>,
}

impl Ledger {
    /// The fly check of the last motor run, if it is down and of the day of `at`: what turns the motor is read on it.
    pub fn run_just_made(&self, at: &Moment) -> Option<&str> {
        let last = self.flights.iter().rev().find(|flight| flight.started.is_some())?;
        let is_of_day = last.down.is_some() && last.down_on == Some(self.clock.day(at));
        is_of_day.then_some(last.check.as_str())
    }

    /// The fly check on whose run a check is read, while that run was not the last: it has to be run first.
    pub fn run_wanted<'c>(&self, check: &'c Check, at: &Moment) -> Option<&'c str> {
        check.read_on.as_deref().filter(|run| self.run_just_made(at) != Some(run))
    }

    /// Whether a list is declared complete as a computation judged it.
    pub(super) fn is_declared(&self, judged: &JudgedList) -> bool {
        self.declared.get(&judged.list).is_some_and(|declared| declared.count == judged.count)
    }

    /// A card by its id.
    pub fn flight(&self, card: EntryId) -> Option<&Flight> {
        self.flights.iter().rev().find(|flight| flight.card == card)
    }

    /// Whether one flight was flown as a later one was: the same check, and nothing that its evidence ends with was touched in between, nor
    /// anything fixed that it is to prove.
    pub fn was_flown_alike(&self, plan: &Plan, earlier: &Flight, later: &Flight) -> bool {
        let seq = |flight: &Flight| self.starts.get(&flight.card).map(|start| start.seq);
        let (Some(from), Some(to), Some((_, check))) = (seq(earlier), seq(later), plan.check(&later.check)) else {
            return false;
        };
        let is_between = |at: i64| from < at && at <= to;
        let is_to_prove = |id: EntryId| self.finding(id).is_some_and(|finding| finding.proof == check.id);
        earlier.check == later.check
            && !self.touches.iter().any(|touch| is_between(touch.seq) && touch.ends(check))
            && !self.fixes.iter().any(|(at, id)| is_between(*at) && is_to_prove(*id))
    }

    /// The places in the journal of the entries with which a motor run began, whoever timed it.
    pub fn runs_began(&self) -> BTreeSet<i64> {
        self.starts.values().map(|start| start.seq).collect()
    }

    /// Which motor run of the aircraft a card's was, from 1; none while it has not begun.
    pub fn run_number(&self, card: EntryId) -> Option<u32> {
        self.starts.get(&card).map(|start| start.runs)
    }

    /// The card of the last motor run, where its landing is still to be jotted down.
    pub fn last_run_to_jot(&self) -> Option<EntryId> {
        let ran = self.flights.iter().filter_map(|flight| Some((self.starts.get(&flight.card)?.seq, flight)));
        let (_, last) = ran.max_by_key(|(seq, _)| *seq)?;
        last.awaits_landing().then_some(last.card)
    }

    /// The finding that was raised from what an entry showed of a check, the newest of them; `title` tells one that was raised before it was
    /// stored what a finding is proposed from.
    pub fn raised_from(&self, proof: &str, shown_by: EntryId, outlier: &Outlier, title: &str) -> Option<&Finding> {
        let is_of_it = |finding: &&Finding| finding.shown_by == Some(shown_by) && finding.proof == proof;
        let is_same = |finding: &&Finding| match &finding.proposed_from {
            Some(from) => from == outlier,
            None => finding.title == title,
        };
        self.findings.iter().rev().filter(is_of_it).find(is_same)
    }

    /// The reading of a check that was recorded last: where the next one starts from.
    pub fn last_measured(&self, check: &str) -> Option<f64> {
        self.results.get(check)?.iter().rev().find_map(|result| match &result.of {
            Source::Result(CheckResult::Measured { value, .. }) => Some(*value),
            _ => None,
        })
    }

    /// A finding by its id.
    pub fn finding(&self, id: EntryId) -> Option<&Finding> {
        self.findings.iter().find(|finding| finding.id == id)
    }
}
