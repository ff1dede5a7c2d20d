//! The journal's other aircraft, as they stand beside the one in view.

use super::AppError;
use super::opened::plan_in_force;
use super::shared::Shared;
use crate::readiness::{Ledger, reaches_back};
use crate::record::{AircraftId, Entry};
use crate::view::Beside;

impl Shared {
    /// Looks at the other aircraft, once.
    pub(super) fn look_beside(&mut self) -> Result<(), AppError> {
        if self.beside.is_some() {
            return Ok(());
        }
        let all = if self.hangar.len() > 1 { self.journal.entries()? } else { Vec::new() };
        let others = self.hangar.iter().filter(|aircraft| **aircraft != self.ledger.id);
        self.beside = Some(others.map(|aircraft| self.beside(*aircraft, &all)).collect());
        Ok(())
    }

    fn beside(&self, aircraft: AircraftId, all: &[Entry]) -> Beside {
        // One whose plan can no longer be read still has its name here; why it cannot be opened is said where it is touched.
        let written = plan_in_force(aircraft, all).unwrap_or_else(|_| self.written.clone());
        let ledger = Ledger::of_aircraft(aircraft, &written, all);
        Beside { plan: written.translated(self.locale().language), written, ledger }
    }

    /// Takes in what was recorded of the aircraft in view: a pack may be another one's too.
    pub(super) fn take_beside(&mut self, recorded: &[Entry]) {
        if recorded.iter().any(reaches_back) {
            self.beside = None;
        }
        for other in self.beside.iter_mut().flatten() {
            other.ledger.take(&other.written, recorded);
        }
    }
}
