//! What becomes of a flight pack between flights.

use crate::plan::{Plan, Subject};
use crate::readiness::history::Charged;
use crate::readiness::ledger::Ledger;
use crate::readiness::reason::Deed;
use crate::readiness::touch::Reach;
use crate::record::{Entry, PackState};

impl Ledger {
    pub(super) fn charged(&mut self, entry: &Entry, pack: &str) {
        self.charges.insert(pack.to_owned(), Charged { at: entry.at.clone(), seq: entry.seq });
    }

    /// Brought to storage, or damaged: then it is retired, and whether the packs are still fit has to be looked at anew.
    pub(super) fn pack_noted(&mut self, plan: &Plan, entry: &Entry, pack: &str, state: PackState) {
        if state == PackState::Storage {
            self.stored.insert(pack.to_owned(), Charged { at: entry.at.clone(), seq: entry.seq });
            return;
        }
        self.damaged.entry(pack.to_owned()).or_insert(state);
        self.touch(plan, entry, &[Subject::PackReadings], Reach::Everything, &Deed::Changed(pack.to_owned()));
    }
}
