//! Goes through entries in their order.

use std::borrow::Cow;
use std::collections::BTreeSet;

use super::regret::Lapses;
use crate::plan::Plan;
use crate::readiness::kind::Effect;
use crate::readiness::ledger::Ledger;
use crate::readiness::withdrawal::withdrawn_among;
use crate::record::{AircraftId, Entry, EntryId};

impl Ledger {
    /// Folds the entries, beginning under `plan`; each plan that came into force holds from its entry on. Withdrawn
    /// entries count as if they had never been made, and so do their
    /// withdrawals: taking back a slip of last week is no sign that a week has passed. But a gate that had lapsed by then stays so.
    pub fn of(plan: &Plan, entries: &[Entry]) -> Ledger {
        Ledger::of_aircraft(AircraftId::FIRST, plan, entries)
    }

    /// The same for one of a journal's aircraft. Of the entries of the others it takes in what they say of packs that are its own too, and
    /// the time: nothing else of them changes anything here.
    pub fn of_aircraft(id: AircraftId, plan: &Plan, entries: &[Entry]) -> Ledger {
        Ledger::folded(id, plan, entries, &withdrawn_among(entries), &Ledger::lapses_that_stay(id, plan, entries))
    }

    pub(super) fn folded(
        id: AircraftId,
        plan: &Plan,
        entries: &[Entry],
        withdrawn: &BTreeSet<EntryId>,
        stay: &Lapses,
    ) -> Ledger {
        let mut ledger = Ledger { id, ..Ledger::default() };
        ledger.take_all(plan, entries, withdrawn, stay);
        ledger
    }

    /// Takes in entries that were appended after those already folded, `plan` being in force before them. Where one of
    /// them brings another plan into force, that is the plan to ask this ledger about afterwards.
    ///
    /// Equal to folding all of them anew, unless one of them withdraws an older entry: then fold anew.
    pub fn take(&mut self, plan: &Plan, entries: &[Entry]) {
        self.take_all(plan, entries, &BTreeSet::new(), &Lapses::new());
    }

    fn take_all(&mut self, plan: &Plan, entries: &[Entry], withdrawn: &BTreeSet<EntryId>, stay: &Lapses) {
        let mut in_force = Cow::Borrowed(plan);
        for (index, entry) in entries.iter().enumerate() {
            let is_own = entry.is_of(self.id);
            if is_own {
                self.count_always(entry);
            }
            if let Some(lapses) = stay.get(&index) {
                self.keep_lapsed(lapses);
            }
            if !is_own {
                self.take_elsewhere(&mut in_force, entries, entry, withdrawn.contains(&entry.id));
            } else if withdrawn.contains(&entry.id) {
                self.keep_gone(entry);
            } else {
                self.apply(&mut in_force, entry);
            }
        }
    }

    /// Takes one entry in. Entries that make no sense here (a mark on no card, say) change nothing.
    fn apply(&mut self, in_force: &mut Cow<'_, Plan>, entry: &Entry) {
        let effect = Effect::of(&entry.body);
        if effect != Effect::Withdraws {
            self.clock.take(entry);
        }
        match effect {
            // A withdrawal was taken into account before it; a plan settles by itself what it moves, under both plans.
            Effect::Withdraws | Effect::AdoptsPlan => self.take_in(in_force, entry),
            Effect::OnlyRead => {
                self.begin_day(in_force, &entry.at);
                self.take_in(in_force, entry);
            }
            Effect::MovesGates => {
                self.begin_day(in_force, &entry.at);
                self.take_in(in_force, entry);
                self.settle_proofs(in_force, &entry.at);
                self.lapse_gates(in_force, &entry.at);
            }
        }
    }
}
