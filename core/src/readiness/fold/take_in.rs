//! Hands each entry to what its kind changes.

use std::borrow::Cow;

use crate::aircraft::FigureValue;
use crate::field::Flight;
use crate::plan::Plan;
use crate::readiness::ledger::Ledger;
use crate::record::{Body, Entry};

impl Ledger {
    /// One arm for each kind of entry: one that is forgotten here does not compile.
    pub(super) fn take_in(&mut self, in_force: &mut Cow<'_, Plan>, entry: &Entry) {
        let (plan, at): (&Plan, _) = (in_force, &entry.at);
        match &entry.body {
            Body::AircraftNamed { name, builder, pilot } => self.named(name, builder, pilot.as_ref()),
            Body::EmergencyNoted { call, address } => self.emergency_noted(call, address),
            Body::PlanAdopted { plan: name, text, .. } | Body::AircraftBegun { plan: name, text, .. } => {
                self.plan_adopted(in_force, entry, name, text);
            }
            Body::TraitChosen { question, choice } => self.answered(plan, question, choice),
            Body::FigureSet { figure, value, basis, reason } => {
                let new = FigureValue { value: *value, basis: *basis, entry: entry.id };
                self.figure_set(plan, entry, figure, new, reason.as_deref());
            }
            Body::ThingSet { thing, on_aircraft } => self.thing_set(plan, entry, thing, *on_aircraft),
            Body::ThingRemoved { thing, on_aircraft, .. } => self.thing_removed(plan, entry, thing, *on_aircraft),
            Body::ListDeclared { list, count, idle } => self.list_declared(*list, *count, idle),
            Body::Changed { subjects, what } => self.changed(plan, entry, subjects, what),
            Body::Happened { event, note } => self.happened(plan, entry, event, note),
            Body::SettingChanged { setting, after, reason, .. } => self.set(plan, entry, setting, after, reason),
            Body::CheckRecorded { check, result, witness, note, alone } => {
                self.check_recorded(entry, check, result, witness, note, alone);
            }
            Body::CardDrawn { .. } => self.flights.extend(Flight::of_card(entry)),
            Body::HandedOver { card, spotter } => self.handed_over(entry, *card, spotter),
            Body::Started { card } => self.started(entry, *card),
            Body::Marked { card, mark, elapsed_ms } => self.marked(entry.id, *card, *mark, *elapsed_ms),
            Body::MarkAnswered { card, mark, words } => self.mark_answered(*card, *mark, words),
            Body::TouchedDown { card, elapsed_ms } => self.touched_down(entry, *card, *elapsed_ms),
            Body::RestartedInFlight { card } => self.restarted_in_flight(*card),
            Body::FlownTold { card, flown_s, without_phone } => {
                self.flown_told(entry, *card, *flown_s, without_phone.as_ref());
            }
            Body::Resumed { card } => self.resumed(*card),
            Body::HandedBack { .. } => self.handed_back(),
            Body::Unmarked { card, mark } => self.unmarked(*card, *mark),
            Body::CodeRefused { .. } => self.code_refused(&entry.at),
            Body::WaitBegun { .. } => self.wait_begun(&entry.at),
            Body::OpenedWithoutCode { .. } => self.opened_without_code(&entry.at),
            Body::CodeSet { hash } => self.code_set(hash),
            Body::CodeRemoved {} => self.code_removed(),
            Body::LandingRecorded { .. } => self.landing_recorded(plan, entry),
            Body::LandingWaived { card, reason } => self.landing_waived(*card, reason),
            Body::PackNoted { pack, state } => self.pack_noted(plan, entry, pack, *state),
            Body::PackCharged { pack, put_back_mah } => self.pack_charged(entry, pack, *put_back_mah),
            Body::CellsRead { pack, low_v, high_v } => self.cells_read(entry, pack, *low_v, *high_v),
            Body::DisagreementExplained { card, why, used_mah } => self.explained(*card, why, *used_mah),
            Body::FindingRaised { .. } => self.finding_raised(entry),
            Body::FindingFixed { finding, what, subjects } => self.fixed(plan, entry, *finding, what, subjects),
            Body::FindingCarried { finding, restriction, by, until, .. } => {
                self.carried(entry, *finding, restriction, by, until);
            }
            Body::GateReleased { stage, by, evidence } => self.released(entry, stage, by, evidence),
            Body::LogAttached { card, log } => self.logs.attach(*card, log),
            Body::PhotoAttached { of, photo } => self.photos.attach(entry, of, photo),
            Body::Illegible {} => self.something_is_missing(true, at),
            Body::Repaired { may_lack_last, .. } => self.something_is_missing(*may_lack_last, at),
            // Taken into account before everything else.
            Body::Withdrawn { .. } => {}
        }
    }
}
