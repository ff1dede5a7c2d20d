//! What counts of an entry even where it was withdrawn.

use crate::readiness::ledger::Ledger;
use crate::record::{Body, Entry};

impl Ledger {
    pub(super) fn count_always(&mut self, entry: &Entry) {
        match &entry.body {
            Body::Withdrawn { entry: taken_back, reason } => {
                return self.withdrawals.withdrawn(entry, *taken_back, reason);
            }
            Body::GateReleased { .. } => return self.withdrawals.released(entry),
            // The number of a finding that was withdrawn is not given again: it may stand in someone's notes.
            Body::FindingRaised { .. } => self.findings_raised += 1,
            // What a person said of a recorder's columns is as true of the next file.
            Body::LogAttached { log, .. } => self.logs.name_columns(&log.map),
            Body::AircraftNamed { .. }
            | Body::EmergencyNoted { .. }
            | Body::PlanAdopted { .. }
            | Body::AircraftBegun { .. }
            | Body::TraitChosen { .. }
            | Body::FigureSet { .. }
            | Body::ThingSet { .. }
            | Body::ThingRemoved { .. }
            | Body::ListDeclared { .. }
            | Body::Changed { .. }
            | Body::Happened { .. }
            | Body::SettingChanged { .. }
            | Body::CheckRecorded { .. }
            | Body::CardDrawn { .. }
            | Body::HandedOver { .. }
            | Body::Started { .. }
            | Body::Marked { .. }
            | Body::MarkAnswered { .. }
            | Body::TouchedDown { .. }
            | Body::RestartedInFlight { .. }
            | Body::FlownTold { .. }
            | Body::Resumed { .. }
            | Body::HandedBack { .. }
            | Body::Unmarked { .. }
            | Body::CodeRefused { .. }
            | Body::WaitBegun { .. }
            | Body::OpenedWithoutCode { .. }
            | Body::CodeSet { .. }
            | Body::CodeRemoved {}
            | Body::LandingRecorded { .. }
            | Body::LandingWaived { .. }
            | Body::PackNoted { .. }
            | Body::PackCharged { .. }
            | Body::CellsRead { .. }
            | Body::DisagreementExplained { .. }
            | Body::FindingFixed { .. }
            | Body::FindingCarried { .. }
            | Body::PhotoAttached { .. }
            | Body::Illegible {}
            | Body::Repaired { .. } => {}
        }
        self.withdrawals.ends_with(entry);
    }
}
