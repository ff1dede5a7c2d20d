//! What the entries of other aircraft say here: a pack that they fly too is the same pack, and the journal has one time.

use std::borrow::Cow;

use crate::plan::Plan;
use crate::readiness::history::Described;
use crate::readiness::ledger::Ledger;
use crate::record::{Body, Entry, Thing, ThingKind, ThingNumber, ThingRef};

/// The number of a pack that each aircraft has of its own: where the pack sits.
const PLACE: ThingNumber = ThingNumber::XMm;

impl Ledger {
    /// Takes in an entry of another aircraft.
    pub(super) fn take_elsewhere(
        &mut self,
        in_force: &mut Cow<'_, Plan>,
        entries: &[Entry],
        entry: &Entry,
        is_withdrawn: bool,
    ) {
        if let Body::Withdrawn { entry: taken_back, reason } = &entry.body {
            // Of the workshop's entries it is told here too.
            let is_of_all = Entry::by_id(entries, *taken_back).is_some_and(|found| found.body.is_of_workshop());
            if is_of_all {
                self.withdrawals.withdrawn_elsewhere(entry, *taken_back, reason);
            }
            return;
        }
        if is_withdrawn {
            return;
        }
        self.clock.take(entry);
        if is_of_packs(&entry.body) {
            let others = self.elsewhere.get_or_insert_default();
            others.clock.take(entry);
            others.take_in(&mut Cow::Borrowed(in_force.as_ref()), entry);
            self.share(in_force, entry);
        }
    }

    /// What is written down of a pack that both fly, or read off it, holds here as well.
    fn share(&mut self, plan: &Plan, entry: &Entry) {
        match &entry.body {
            Body::ThingSet { thing, on_aircraft } if thing.kind == ThingKind::Pack => {
                let Some(own) = self.aircraft.thing(ThingKind::Pack, &thing.name) else { return };
                let described = placed_as(own, thing);
                self.begin_day(plan, &entry.at);
                self.thing_set(plan, entry, &described, *on_aircraft);
            }
            Body::ThingSet { thing, on_aircraft } if self.is_reading_of_own(thing) => {
                self.begin_day(plan, &entry.at);
                self.thing_set(plan, entry, thing, *on_aircraft);
            }
            Body::ThingRemoved { thing, on_aircraft, .. } if self.is_of_own_pack(thing) => {
                self.begin_day(plan, &entry.at);
                self.thing_removed(plan, entry, thing, *on_aircraft);
            }
            _ => return,
        }
        self.settle_proofs(plan, &entry.at);
        self.lapse_gates(plan, &entry.at);
    }

    fn is_reading_of_own(&self, thing: &Thing) -> bool {
        let is_own = |pack: &String| self.aircraft.thing(ThingKind::Pack, pack).is_some();
        thing.kind == ThingKind::PackReading && thing.of.as_ref().is_some_and(is_own)
    }

    fn is_of_own_pack(&self, thing: &ThingRef) -> bool {
        self.aircraft.things.get(thing).is_some_and(|known| self.is_reading_of_own(known))
    }

    /// What was read off a pack elsewhere comes with it.
    pub(super) fn take_over_readings(&mut self, pack: &str) {
        let Some(others) = &self.elsewhere else { return };
        let readings = others.aircraft.things_of(ThingKind::PackReading);
        for reading in readings.filter(|reading| reading.of.as_deref() == Some(pack)) {
            let of = reading.reference();
            if let Some(described) = others.described.get(&of) {
                // Every run of this aircraft counts as one since: how many there were before, only the other one's count tells.
                self.described.entry(of.clone()).or_insert(Described { seq: described.seq, runs: 0 });
            }
            self.aircraft.things.entry(of).or_insert_with(|| reading.clone());
        }
    }
}

/// Whether it says something of packs: what they are, what was read off them, what was flown on them.
fn is_of_packs(body: &Body) -> bool {
    let of_kind = |kind: ThingKind| matches!(kind, ThingKind::Pack | ThingKind::PackReading);
    match body {
        Body::ThingSet { thing, .. } => of_kind(thing.kind),
        Body::ThingRemoved { thing, .. } => of_kind(thing.kind),
        Body::CardDrawn { .. } => true,
        body => body.card().is_some(),
    }
}

/// A pack as it is described elsewhere, at the place where it sits here.
fn placed_as(own: &Thing, thing: &Thing) -> Thing {
    let mut described = thing.clone();
    described.numbers.remove(PLACE.as_str());
    described.numbers.extend(own.number(PLACE).map(|place| (PLACE.as_str().to_owned(), place)));
    described
}
