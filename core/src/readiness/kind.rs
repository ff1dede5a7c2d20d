//! What each kind of entry can do besides what it says. A new kind of entry does not compile until it is answered for here.

use crate::record::{Body, Entry, EntryId};

/// What an entry of a kind does to gates.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Effect {
    /// A gate can lapse or a fix be proven by it.
    MovesGates,
    /// It only adds to what is read.
    OnlyRead,
    /// It brings another plan into force.
    AdoptsPlan,
    /// It takes another entry back.
    Withdraws,
}

/// An answer for all entries of a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Answer {
    Yes,
    No,
    /// For each but the journal's first entry, which comes by itself.
    UnlessFirst,
}

struct Kind {
    effect: Effect,
    /// Whether a person may take it back. What happened in flight, the first plan and a withdrawal itself stand.
    may_be_withdrawn: Answer,
    /// Whether it is something that a person did, rather than the app's own bookkeeping.
    is_told: Answer,
}

impl Kind {
    /// One line for each kind.
    fn of(body: &Body) -> Kind {
        use Answer::{No, UnlessFirst, Yes};
        use Effect::{AdoptsPlan, MovesGates, OnlyRead, Withdraws};
        let kind = |effect, may_be_withdrawn, is_told| Kind { effect, may_be_withdrawn, is_told };
        match body {
            Body::AircraftNamed { .. } => kind(OnlyRead, Yes, Yes),
            Body::EmergencyNoted { .. } => kind(OnlyRead, Yes, Yes),
            Body::PlanAdopted { .. } => kind(AdoptsPlan, UnlessFirst, UnlessFirst),
            Body::AircraftBegun { .. } => kind(AdoptsPlan, Yes, Yes),
            Body::TraitChosen { .. } => kind(MovesGates, Yes, Yes),
            Body::FigureSet { .. } => kind(MovesGates, Yes, Yes),
            Body::ThingSet { .. } => kind(MovesGates, Yes, Yes),
            Body::ThingRemoved { .. } => kind(MovesGates, Yes, Yes),
            Body::ListDeclared { .. } => kind(MovesGates, Yes, Yes),
            Body::Changed { .. } => kind(MovesGates, Yes, Yes),
            Body::Happened { .. } => kind(MovesGates, Yes, Yes),
            Body::SettingChanged { .. } => kind(MovesGates, Yes, Yes),
            Body::CheckRecorded { .. } => kind(MovesGates, Yes, Yes),
            Body::CardDrawn { .. } => kind(OnlyRead, No, Yes),
            Body::HandedOver { .. } => kind(OnlyRead, No, Yes),
            Body::Started { .. } => kind(MovesGates, No, Yes),
            Body::Marked { .. } => kind(OnlyRead, No, Yes),
            Body::MarkAnswered { .. } => kind(OnlyRead, Yes, Yes),
            Body::TouchedDown { .. } => kind(MovesGates, No, Yes),
            Body::RestartedInFlight { .. } => kind(MovesGates, No, No),
            Body::FlownTold { .. } => kind(MovesGates, Yes, Yes),
            Body::Resumed { .. } => kind(MovesGates, No, Yes),
            Body::HandedBack { .. } => kind(OnlyRead, No, No),
            Body::Unmarked { .. } => kind(OnlyRead, No, Yes),
            Body::CodeRefused { .. } => kind(OnlyRead, No, No),
            Body::WaitBegun { .. } => kind(OnlyRead, No, Yes),
            Body::OpenedWithoutCode { .. } => kind(OnlyRead, No, Yes),
            Body::CodeSet { .. } => kind(OnlyRead, Yes, Yes),
            Body::CodeRemoved {} => kind(OnlyRead, Yes, Yes),
            Body::LandingRecorded { .. } => kind(MovesGates, Yes, Yes),
            Body::LandingWaived { .. } => kind(OnlyRead, Yes, Yes),
            Body::PackNoted { .. } => kind(MovesGates, Yes, Yes),
            Body::PackCharged { .. } => kind(OnlyRead, Yes, Yes),
            Body::CellsRead { .. } => kind(OnlyRead, Yes, Yes),
            Body::DisagreementExplained { .. } => kind(MovesGates, Yes, Yes),
            Body::FindingRaised { .. } => kind(MovesGates, Yes, Yes),
            Body::FindingFixed { .. } => kind(MovesGates, Yes, Yes),
            Body::FindingCarried { .. } => kind(MovesGates, Yes, Yes),
            Body::GateReleased { .. } => kind(MovesGates, Yes, Yes),
            Body::LogAttached { .. } => kind(OnlyRead, Yes, Yes),
            Body::PhotoAttached { .. } => kind(OnlyRead, Yes, Yes),
            Body::Illegible {} => kind(MovesGates, No, No),
            Body::Repaired { .. } => kind(MovesGates, No, Yes),
            Body::Withdrawn { .. } => kind(Withdraws, No, Yes),
        }
    }
}

impl Answer {
    fn for_entry(self, entry: &Entry) -> bool {
        match self {
            Answer::Yes => true,
            Answer::No => false,
            Answer::UnlessFirst => entry.seq > 1,
        }
    }
}

impl Effect {
    pub(super) fn of(body: &Body) -> Effect {
        Kind::of(body).effect
    }
}

/// What a person may take back, where it was not taken back before. What happened in flight, the first plan and a withdrawal
/// itself stand.
pub fn may_be_withdrawn(entry: &Entry) -> bool {
    Kind::of(&entry.body).may_be_withdrawn.for_entry(entry)
}

/// Whether an entry is something that a person did, rather than the app's own bookkeeping. The first plan comes by itself.
pub(crate) fn is_told(entry: &Entry) -> bool {
    Kind::of(&entry.body).is_told.for_entry(entry)
}

/// Whether an entry takes back what was taken in before it: only the whole journal, folded anew, tells how things stand then.
pub(crate) fn reaches_back(entry: &Entry) -> bool {
    match Effect::of(&entry.body) {
        Effect::Withdraws => true,
        Effect::AdoptsPlan | Effect::MovesGates | Effect::OnlyRead => false,
    }
}

/// Whether another plan may be in force after an entry: by itself, or since it takes the last one back.
pub(crate) fn may_change_plan(entry: &Entry) -> bool {
    match Effect::of(&entry.body) {
        Effect::Withdraws | Effect::AdoptsPlan => true,
        Effect::MovesGates | Effect::OnlyRead => false,
    }
}

/// What an entry found of the aircraft, which is told even where it was taken back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found<'a> {
    /// The result of a check.
    OfCheck(&'a str),
    /// What was read after the flight of a card.
    OfFlight(EntryId),
    /// Something wrong.
    Finding,
    /// Nothing.
    Nothing,
}

pub(super) fn found_by(body: &Body) -> Found<'_> {
    match body {
        Body::CheckRecorded { check, .. } => Found::OfCheck(check),
        Body::LandingRecorded { card, .. } => Found::OfFlight(*card),
        Body::FindingRaised { .. } => Found::Finding,
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
        | Body::LandingWaived { .. }
        | Body::PackNoted { .. }
        | Body::PackCharged { .. }
        | Body::CellsRead { .. }
        | Body::DisagreementExplained { .. }
        | Body::FindingFixed { .. }
        | Body::FindingCarried { .. }
        | Body::GateReleased { .. }
        | Body::LogAttached { .. }
        | Body::PhotoAttached { .. }
        | Body::Illegible {}
        | Body::Repaired { .. }
        | Body::Withdrawn { .. } => Found::Nothing,
    }
}
