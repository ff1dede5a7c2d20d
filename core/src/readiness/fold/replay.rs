//! Goes through entries in their order.

use std::borrow::Cow;
use std::collections::BTreeSet;

use super::regret::Lapses;
use crate::plan::Plan;
use crate::readiness::kind::Effect;
use crate::readiness::ledger::Ledger;
use crate::readiness::withdrawal::withdrawn_among;
use crate::record::{Entry, EntryId};

impl Ledger {
    /// Folds the entries, beginning under `plan`; each plan that came into force holds from its entry on. Withdrawn
    /// entries count as if they had never been made, and so do their
    /// withdrawals: taking back a slip of last week is no sign that a week has passed. But a gate that had lapsed by then stays so.
    pub fn of(plan: &Plan, entries: &[Entry]) -> Ledger {
        Ledger::folded(plan, entries, &withdrawn_among(entries), &Ledger::lapses_that_stay(plan, entries))
    }

    pub(super) fn folded(plan: &Plan, entries: &[Entry], withdrawn: &BTreeSet<EntryId>, stay: &Lapses) -> Ledger {
        let mut ledger = Ledger::default();
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
            self.count_always(entry);
            if let Some(lapses) = stay.get(&index) {
                self.keep_lapsed(lapses);
            }
            if withdrawn.contains(&entry.id) {
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
