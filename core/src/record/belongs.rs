//! Whose an entry is: one aircraft's, or the workshop's.

use super::{AircraftId, Body, Entry};

impl Body {
    /// Whether it is of the workshop, and so of every aircraft in it: what is done with a pack, the pilot's code, whom to call, the record's
    /// own state. A new kind of entry does not compile until it is answered for here.
    pub fn is_of_workshop(&self) -> bool {
        match self {
            Body::EmergencyNoted { .. }
            | Body::CodeSet { .. }
            | Body::CodeRemoved {}
            | Body::PackNoted { .. }
            | Body::PackCharged { .. }
            | Body::CellsRead { .. }
            | Body::Illegible {}
            | Body::Repaired { .. } => true,
            Body::AircraftNamed { .. }
            | Body::AircraftBegun { .. }
            | Body::PlanAdopted { .. }
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
            | Body::LandingRecorded { .. }
            | Body::LandingWaived { .. }
            | Body::DisagreementExplained { .. }
            | Body::FindingRaised { .. }
            | Body::FindingFixed { .. }
            | Body::FindingCarried { .. }
            | Body::GateReleased { .. }
            | Body::LogAttached { .. }
            | Body::PhotoAttached { .. }
            | Body::Withdrawn { .. } => false,
        }
    }
}

impl Entry {
    /// Whether it is of an aircraft: its own, or the workshop's.
    pub fn is_of(&self, aircraft: AircraftId) -> bool {
        self.aircraft == aircraft || self.body.is_of_workshop()
    }
}
