//! What becomes of a flight pack between flights.

use crate::plan::{Plan, Subject};
use crate::readiness::history::{DoneToPack, PackDeed};
use crate::readiness::ledger::Ledger;
use crate::readiness::reason::Deed;
use crate::readiness::touch::Reach;
use crate::record::{Entry, PackState, ThingKind};

impl Ledger {
    pub(super) fn pack_charged(&mut self, entry: &Entry, pack: &str, put_back_mah: Option<f64>) {
        self.done_to_pack(entry, pack, DoneToPack::Charged { put_back_mah });
    }

    /// The lowest and the highest cell of a pack were read.
    pub(super) fn cells_read(&mut self, entry: &Entry, pack: &str, low_v: f64, high_v: f64) {
        self.done_to_pack(entry, pack, DoneToPack::CellsRead { low_v, high_v });
    }

    fn done_to_pack(&mut self, entry: &Entry, pack: &str, what: DoneToPack) {
        let deed = PackDeed { at: entry.at.clone(), seq: entry.seq, what };
        self.pack_deeds.entry(pack.to_owned()).or_default().push(deed);
    }

    /// Brought to storage, or damaged: then it is retired, and whether the packs are still fit has to be looked at anew.
    pub(super) fn pack_noted(&mut self, plan: &Plan, entry: &Entry, pack: &str, state: PackState) {
        if state == PackState::Storage {
            return self.done_to_pack(entry, pack, DoneToPack::Stored);
        }
        self.damaged.entry(pack.to_owned()).or_insert(state);
        // One that only another aircraft flies takes nothing from this one's proofs.
        if entry.aircraft == self.id || self.aircraft.thing(ThingKind::Pack, pack).is_some() {
            self.touch(plan, entry, &[Subject::PackReadings], Reach::Everything, &Deed::Changed(pack.to_owned()));
        }
    }

    /// Another pack under its name is another: it is not damaged, and nothing is known of what is in it.
    pub(super) fn pack_gone(&mut self, entry: &Entry, pack: &str) {
        self.damaged.remove(pack);
        self.done_to_pack(entry, pack, DoneToPack::Gone);
    }
}
