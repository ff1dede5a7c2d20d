//! What becomes of a card.

use crate::field::{Explained, Flight, Landing, Mark, MarkAnswer, ShownFinding, Timed, held_mah, least_measured_mah};
use crate::plan::Plan;
use crate::readiness::evidence::{Made, Recorded, Source};
use crate::readiness::ledger::Ledger;
use crate::readiness::seat::Seat;
use crate::record::{Body, Entry, EntryId, MarkKind, WithoutPhone};

impl Ledger {
    pub(super) fn handed_over(&mut self, entry: &Entry, card: EntryId, spotter: &str) {
        let day = self.clock.day(&entry.at);
        if let Some(flight) = self.flight_mut(card) {
            flight.spotter = Some(spotter.to_owned());
            flight.handed_over = Some(day);
            self.seat = Seat::Spotter { card, name: spotter.to_owned() };
            self.lock.begin_turn();
        }
    }

    pub(super) fn handed_back(&mut self) {
        self.seat = Seat::Pilot;
        self.lock.begin_turn();
    }

    pub(super) fn started(&mut self, entry: &Entry, card: EntryId) {
        let drawn = self.flight(card).filter(|flight| flight.started.is_none());
        let Some(rpm) = drawn.map(|flight| flight.head_speed_rpm) else { return };
        let tests = self.tested_at(rpm);
        let packs = self.flight(card).into_iter().flat_map(Flight::packs);
        let measured_mah = least_measured_mah(&self.aircraft, packs);
        self.untested.clear();
        if let Some(flight) = self.flight_mut(card) {
            flight.started = Some(entry.at.clone());
            flight.tests = tests;
            flight.measured_mah = measured_mah;
            self.runs += 1;
            let start = Made { seq: entry.seq, runs: self.runs, motor_ms: self.motor_ms };
            self.starts.insert(card, start);
        }
    }

    pub(super) fn marked(&mut self, entry: EntryId, card: EntryId, kind: MarkKind, elapsed_ms: i64) {
        if let Some(flight) = self.flight_mut(card) {
            flight.marks.push(Mark { kind, elapsed_ms, entry, answer: None });
            flight.released_since = false;
        }
    }

    pub(super) fn unmarked(&mut self, card: EntryId, mark: EntryId) {
        if let Some(flight) = self.flight_mut(card) {
            flight.marks.retain(|noted| noted.entry != mark);
        }
    }

    pub(super) fn touched_down(&mut self, entry: &Entry, card: EntryId, elapsed_ms: i64) {
        let day = self.clock.day(&entry.at);
        let holds_mah = self.flight(card).and_then(|flight| held_mah(&self.aircraft, flight));
        let running = |flight: &&mut Flight| flight.started.is_some() && flight.down.is_none();
        if let Some(flight) = self.flight_mut(card).filter(running) {
            let elapsed_ms = elapsed_ms.max(0);
            flight.down = Some((entry.at.clone(), elapsed_ms));
            flight.down_on = Some(day);
            flight.counted_ms = Some(elapsed_ms);
            let most_ms = flight.most_ms(holds_mah);
            flight.timed = if elapsed_ms > most_ms { Timed::Doubtful } else { Timed::ByClock };
            let counts_ms = elapsed_ms.min(most_ms);
            flight.motor_ms = counts_ms;
            self.motor_ms = self.motor_ms.saturating_add(counts_ms);
        }
    }

    /// How long it flew is known to nobody but the pilot, who is asked.
    pub(super) fn restarted_in_flight(&mut self, card: EntryId) {
        if let Some(flight) = self.flight_mut(card).filter(|flight| flight.may_be_told()) {
            flight.timed = Timed::AtLeast;
        }
    }

    /// The pilot says how long it flew: it counts as if the touchdown had said so. What was said once is taken back before it is said anew.
    pub(super) fn flown_told(
        &mut self,
        entry: &Entry,
        card: EntryId,
        flown_s: i64,
        without_phone: Option<&WithoutPhone>,
    ) {
        if let Some(told) = without_phone {
            self.flown_without_phone(entry, card, told);
        }
        let Some(flight) = self.flight_mut(card).filter(|flight| flight.may_be_told()) else { return };
        let Some((_, elapsed_ms)) = &mut flight.down else { return };
        let told_ms = flown_s.max(0).saturating_mul(1_000);
        let more_ms = told_ms.saturating_sub(flight.motor_ms);
        // Of a phone that was started anew, only the touchdown was timed; of one that was not there, that is told too.
        let is_timed = flight.timed != Timed::AtLeast && flight.counted_ms.is_some();
        flight.touched_late_s = if is_timed { elapsed_ms.saturating_sub(told_ms).max(0) / 1_000 } else { 0 };
        *elapsed_ms = told_ms;
        flight.timed = Timed::Told;
        flight.motor_ms = told_ms;
        let check = flight.check.clone();
        self.motor_ms = self.motor_ms.saturating_add(more_ms);
        // A flight does not use itself up.
        if let Some(evidence) = self.evidence.get_mut(&check).filter(|known| known.of == Source::Flight(card)) {
            evidence.motor_ms = evidence.motor_ms.saturating_add(more_ms);
        }
    }

    /// A run that no phone timed begins and ends with what the pilot tells of it. One that a phone did time is none.
    fn flown_without_phone(&mut self, entry: &Entry, card: EntryId, told: &WithoutPhone) {
        if self.flight(card).is_none_or(|flight| flight.started.is_some()) {
            return;
        }
        let down_on = self.clock.day_before(&entry.at, told.down_ago_s);
        self.started(entry, card);
        if let Some(flight) = self.flight_mut(card) {
            flight.spotter = Some(told.spotter.clone());
            flight.down = Some((entry.at.earlier_by_s(told.down_ago_s.max(0)), 0));
            flight.down_on = Some(down_on);
        }
    }

    pub(super) fn resumed(&mut self, card: EntryId) {
        if let Some(flight) = self.flight_mut(card).filter(|flight| flight.down.is_some()) {
            flight.down = None;
            flight.timed = Timed::ByClock;
            flight.counted_ms = None;
            flight.touched_late_s = 0;
            let counted_ms = std::mem::take(&mut flight.motor_ms);
            self.motor_ms = self.motor_ms.saturating_sub(counted_ms);
        }
    }

    pub(super) fn landing_recorded(&mut self, plan: &Plan, entry: &Entry) {
        let body = &entry.body;
        if let Body::LandingRecorded { card, pack_used_mah, temperatures, notes, confirmed, judgement, .. } = body {
            let (temperatures, notes, confirmed) = (temperatures.clone(), notes.clone(), confirmed.clone());
            let (pack_used_mah, judgement) = (*pack_used_mah, judgement.clone());
            let landing = Landing { entry: entry.id, pack_used_mah, temperatures, notes, confirmed, judgement };
            self.landed(plan, entry, *card, landing);
        }
    }

    fn landed(&mut self, plan: &Plan, entry: &Entry, card: EntryId, landing: Landing) {
        let Some(start) = self.starts.get(&card).copied() else { return };
        let Some(flight) = self.flight_mut(card).filter(|flight| flight.down.is_some()) else { return };
        let check = flight.check.clone();
        let flown_ms = flight.motor_ms;
        let recorded = Recorded {
            entry: entry.id,
            at: entry.at.clone(),
            of: Source::Flight(card),
            witness: flight.spotter.clone(),
            note: landing.notes.clone(),
            alone: None,
        };
        flight.landing = Some(landing);
        flight.released_since = false;
        let flown = Made { motor_ms: start.motor_ms.saturating_add(flown_ms), ..start };
        let broken = self.broken_since(plan, &check, start.seq);
        self.keep_evidence(&check, recorded, flown, broken);
    }

    pub(super) fn landing_waived(&mut self, card: EntryId, reason: &str) {
        if let Some(flight) = self.flight_mut(card).filter(|flight| flight.down.is_some()) {
            flight.waived = Some(reason.to_owned());
        }
    }

    pub(super) fn explained(&mut self, card: EntryId, why: &str, used_mah: Option<f64>) {
        if let Some(flight) = self.flight_mut(card) {
            flight.explained = Some(Explained { why: why.to_owned(), used_mah });
        }
    }

    pub(super) fn mark_answered(&mut self, card: EntryId, mark: EntryId, words: &str) {
        let flight = self.flight_mut(card);
        let noted = flight.and_then(|flight| flight.marks.iter_mut().find(|noted| noted.entry == mark));
        if let Some(noted) = noted {
            noted.answer = Some(MarkAnswer::Nothing(words.to_owned()));
        }
    }

    /// A finding answers what showed it: a mark and all others of its kind in that flight, or what was read after it.
    pub(super) fn shown_by_flight(&mut self, shown: ShownFinding, shown_by: EntryId) {
        let shows = |flight: &&mut Flight| {
            let landing = flight.landing.as_ref().map(|landing| landing.entry);
            flight.card == shown_by || landing == Some(shown_by) || flight.marks.iter().any(|m| m.entry == shown_by)
        };
        let Some(flight) = self.flights.iter_mut().rev().find(shows) else { return };
        let noted = flight.marks.iter().find(|mark| mark.entry == shown_by).map(|mark| mark.kind);
        if let Some(kind) = noted {
            let alike = flight.marks.iter_mut().filter(|mark| mark.kind == kind && mark.answer.is_none());
            alike.for_each(|mark| mark.answer = Some(MarkAnswer::Finding(shown.finding)));
        }
        flight.findings.push(shown);
    }

    /// The pilot releases a gate knowing of all that was seen and read before.
    pub(super) fn decided_on_all_flown(&mut self) {
        self.flights
            .iter_mut()
            .filter(|flight| flight.down.is_some())
            .for_each(|flight| flight.released_since = true);
    }

    fn flight_mut(&mut self, card: EntryId) -> Option<&mut Flight> {
        self.flights.iter_mut().rev().find(|flight| flight.card == card)
    }
}
