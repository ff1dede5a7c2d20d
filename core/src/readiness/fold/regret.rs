//! What a withdrawal leaves as it was: taking back un-lapses nothing after the fact.

use std::collections::{BTreeMap, BTreeSet};

use crate::plan::Plan;
use crate::readiness::gate::Release;
use crate::readiness::gone::{Gone, GoneOf};
use crate::readiness::kind::{self, Found};
use crate::readiness::ledger::Ledger;
use crate::readiness::withdrawal::{is_slip, withdrawn_among};
use crate::record::{AircraftId, Body, Entry, EntryId};

/// Releases that had lapsed before a withdrawal, by their stage; withdrawals by their index.
pub(super) type Lapses = BTreeMap<usize, Vec<(String, Release)>>;

impl Ledger {
    /// Keeps what a withdrawn entry had found, if it was of that kind: it counts for nothing, and is told.
    pub(super) fn keep_gone(&mut self, entry: &Entry) {
        let of = match kind::found_by(&entry.body) {
            Found::OfCheck(check) => Some(GoneOf::Check(check.to_owned())),
            Found::OfFlight(card) => self.flight(card).map(|flight| GoneOf::Check(flight.check.clone())),
            Found::Finding => Some(GoneOf::Finding),
            Found::Nothing => None,
        };
        self.gone.extend(of.map(|of| Gone { entry: entry.id, of }));
    }

    /// The gates that had lapsed before each withdrawal that was no slip: what it takes back brings none of them back. A release that
    /// was withdrawn itself, sooner or later, is left out: the one before it, which comes back, had lapsed all the same.
    pub(super) fn lapses_that_stay(id: AircraftId, plan: &Plan, entries: &[Entry]) -> Lapses {
        let mut stay = Lapses::new();
        let released: BTreeSet<EntryId> =
            entries.iter().filter(|entry| matches!(entry.body, Body::GateReleased { .. })).map(|e| e.id).collect();
        let not_released = &withdrawn_among(entries) & &released;
        for index in regrets(id, entries) {
            let withdrawn = &withdrawn_among(&entries[..index]) | &not_released;
            let before = Ledger::folded(id, plan, &entries[..index], &withdrawn, &stay);
            let lapsed = before.releases.into_iter().filter(|(_, release)| release.lapsed.is_some());
            stay.insert(index, lapsed.collect());
        }
        stay
    }

    /// The pilot released them on what was known then; only the pilot releases them again.
    pub(super) fn keep_lapsed(&mut self, lapses: &[(String, Release)]) {
        for (stage, lapsed) in lapses {
            let same = |release: &&mut Release| release.entry == lapsed.entry && release.lapsed.is_none();
            if let Some(release) = self.releases.get_mut(stage).filter(same) {
                release.lapsed.clone_from(&lapsed.lapsed);
            }
        }
    }
}

/// Where something of an aircraft was withdrawn that was no slip. A release that is withdrawn has no gate that could come back by it.
fn regrets(id: AircraftId, entries: &[Entry]) -> impl Iterator<Item = usize> {
    entries.iter().enumerate().filter_map(move |(index, entry)| {
        let Body::Withdrawn { entry: taken_back, .. } = &entry.body else { return None };
        let mut own = entries[..index].iter().rev().filter(|earlier| earlier.is_of(id)).peekable();
        let at_once = own.peek().is_some_and(|last| last.id == *taken_back);
        let found = own.find(|earlier| earlier.id == *taken_back)?;
        let slip = at_once && is_slip(&found.at, &entry.at);
        (!slip && !matches!(found.body, Body::GateReleased { .. })).then_some(index)
    })
}
