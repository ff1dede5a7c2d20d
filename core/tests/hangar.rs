//! Several aircraft in one journal: what is each one's own, and the packs that they share.

#![allow(clippy::unwrap_used)]

mod common;

use std::collections::BTreeMap;

use common::story::Story;
use common::{at_min, id};
use liftgate_core::form::last_people;
use liftgate_core::readiness::{Charge, Gate, Ledger};
use liftgate_core::record::{
    AircraftId, Author, Body, Entry, EntryId, OnAircraft, PackState, StoredBody, Thing, ThingKind, ThingNumber,
    ThingRef,
};

const OTHER: AircraftId = AircraftId(Some(EntryId(uuid::Uuid::from_u128(9))));

/// A journal of two aircraft that grows by what each records.
struct Hangar {
    story: Story,
}

impl Hangar {
    fn new() -> Hangar {
        Hangar { story: Story::released() }
    }

    fn add(&mut self, aircraft: AircraftId, body: Body) {
        let seq = self.story.entries.len() as i64 + 1;
        let at = at_min(60 * 24 * 40 + seq);
        self.story.entries.push(Entry { seq, id: id(seq as u64), at, author: Author::Pilot, aircraft, body });
    }

    fn ledger(&self, aircraft: AircraftId) -> Ledger {
        Ledger::of_aircraft(aircraft, self.story.first(), &self.story.entries)
    }

    fn describe(&mut self, aircraft: AircraftId, kind: ThingKind, name: &str, numbers: &[(&str, f64)]) {
        let numbers: BTreeMap<String, f64> = numbers.iter().map(|(id, value)| ((*id).to_owned(), *value)).collect();
        let of = (kind == ThingKind::PackReading).then(|| "Pack 1".to_owned());
        let thing = Thing { kind, name: name.to_owned(), of, numbers, last_day: None, note: None };
        self.add(aircraft, Body::ThingSet { thing, on_aircraft: OnAircraft::AsItWas });
    }

    fn pack(&mut self, aircraft: AircraftId, capacity_mah: f64, x_mm: f64) {
        let numbers = [("cells", 12.0), ("capacity_mah", capacity_mah), ("x_mm", x_mm)];
        self.describe(aircraft, ThingKind::Pack, "Pack 1", &numbers);
    }

    fn charge(&mut self, aircraft: AircraftId) {
        self.add(aircraft, Body::PackCharged { pack: "Pack 1".to_owned(), put_back_mah: None });
    }

    fn fly(&mut self, aircraft: AircraftId, used_mah: f64) {
        let card = id(self.story.entries.len() as u64 + 1);
        let drawn = Body::CardDrawn {
            check: "rung-1".to_owned(),
            pack: "Pack 1".to_owned(),
            further_packs: Vec::new(),
            not_full: None,
            head_speed_rpm: 900.0,
            planned_s: 120,
            air_c: 15.0,
            wind: None,
            prediction: None,
            allowed_s: None,
        };
        self.add(aircraft, drawn);
        self.add(aircraft, Body::Started { card });
        self.add(aircraft, Body::TouchedDown { card, elapsed_ms: 120_000 });
        let landing = Body::LandingRecorded {
            card,
            pack_used_mah: Some(used_mah),
            temperatures: Vec::new(),
            notes: None,
            confirmed: Vec::new(),
            judgement: liftgate_core::record::Judgement::AsItShouldBe,
            slip: None,
        };
        self.add(aircraft, landing);
    }
}

#[test]
fn a_pack_that_two_aircraft_fly_is_one_pack() {
    let mut hangar = Hangar::new();
    hangar.pack(AircraftId::FIRST, 5_000.0, 120.0);
    let before = hangar.ledger(AircraftId::FIRST).pack("Pack 1").runs;
    hangar.charge(AircraftId::FIRST);
    hangar.pack(OTHER, 5_000.0, 40.0);
    for aircraft in [AircraftId::FIRST, OTHER] {
        assert!(hangar.ledger(aircraft).pack("Pack 1").is_full(), "charged for both");
    }
    hangar.fly(OTHER, 2_200.0);
    for aircraft in [AircraftId::FIRST, OTHER] {
        let stand = hangar.ledger(aircraft).pack("Pack 1");
        assert_eq!((stand.charge, stand.spent.used_mah, stand.runs), (Charge::Flown, 2_200.0, before + 1));
    }
    let (own, other) = (hangar.ledger(AircraftId::FIRST), hangar.ledger(OTHER));
    assert_eq!((other.runs, own.runs), (1, hangar.story.ledger().runs), "a run is the aircraft's that flew");
    assert_eq!(own.motor_ms_on("Pack 1"), other.motor_ms_on("Pack 1"));
    hangar.add(OTHER, Body::PackNoted { pack: "Pack 1".to_owned(), state: PackState::Swollen });
    assert!(!hangar.ledger(AircraftId::FIRST).pack("Pack 1").may_fly(), "retired for both");
}

#[test]
fn what_is_written_down_of_a_shared_pack_holds_for_both_but_for_its_place() {
    let mut hangar = Hangar::new();
    hangar.pack(AircraftId::FIRST, 5_000.0, 120.0);
    let reading = |hangar: &mut Hangar, aircraft, name, measured_mah| {
        let numbers = [("flights", 3.0), ("measured_mah", measured_mah)];
        hangar.describe(aircraft, ThingKind::PackReading, name, &numbers);
    };
    reading(&mut hangar, AircraftId::FIRST, "Reading 1", 4_700.0);
    assert!(hangar.ledger(OTHER).aircraft.things.is_empty(), "not its pack");
    assert_eq!(hangar.ledger(OTHER).packs_to_share().count(), 1);
    hangar.pack(OTHER, 5_000.0, 40.0);
    let number = |hangar: &Hangar, aircraft, field: ThingNumber| {
        hangar.ledger(aircraft).aircraft.thing(ThingKind::Pack, "Pack 1").unwrap().number(field)
    };
    assert_eq!(hangar.ledger(OTHER).packs_to_share().count(), 0);
    assert!(hangar.ledger(OTHER).aircraft.thing(ThingKind::PackReading, "Reading 1").is_some(), "it comes with it");
    reading(&mut hangar, OTHER, "Reading 2", 4_500.0);
    let known = hangar.ledger(AircraftId::FIRST);
    assert!(known.aircraft.thing(ThingKind::PackReading, "Reading 2").is_some(), "and goes back");
    hangar.pack(OTHER, 4_900.0, 45.0);
    assert_eq!(number(&hangar, AircraftId::FIRST, ThingNumber::CapacityMah), Some(4_900.0));
    assert_eq!(number(&hangar, AircraftId::FIRST, ThingNumber::XMm), Some(120.0), "where it sits is each one's own");
    assert_eq!(number(&hangar, OTHER, ThingNumber::XMm), Some(45.0));
    let thing = ThingRef { kind: ThingKind::Pack, name: "Pack 1".to_owned() };
    hangar.charge(OTHER);
    hangar.add(OTHER, Body::ThingRemoved { thing, instead: None, witness: None, on_aircraft: OnAircraft::AsItWas });
    let (own, other) = (hangar.ledger(AircraftId::FIRST), hangar.ledger(OTHER));
    assert!(own.pack("Pack 1").is_full(), "it flies on there");
    assert!(other.aircraft.thing(ThingKind::Pack, "Pack 1").is_none());
}

#[test]
fn a_pack_that_is_damaged_ends_no_proof_of_an_aircraft_that_does_not_fly_it() {
    let mut hangar = Hangar::new();
    let released = |hangar: &Hangar| {
        let gates = hangar.ledger(AircraftId::FIRST).at(&hangar.story.plan, &at_min(60 * 24 * 40)).gates;
        gates.iter().filter(|(_, gate)| matches!(gate, Gate::Released(_))).count()
    };
    let before = released(&hangar);
    let note = Body::PackNoted { pack: "Crate 7".to_owned(), state: PackState::Crashed };
    hangar.add(OTHER, note.clone());
    assert_eq!(released(&hangar), before);
    let stale = |hangar: &Hangar| {
        let ledger = hangar.ledger(AircraftId::FIRST);
        ledger.evidence.values().filter(|evidence| !evidence.broken.is_empty()).count()
    };
    let broken = stale(&hangar);
    hangar.add(AircraftId::FIRST, note);
    assert!(stale(&hangar) > broken, "its own does");
}

#[test]
fn which_aircraft_an_entry_is_of_stands_in_its_stored_form_and_the_first_ones_says_nothing() {
    for body in common::one_of_each() {
        let first = StoredBody::write(&body).unwrap();
        assert_eq!(first.aircraft(), Ok(AircraftId::FIRST));
        assert!(!first.json.contains("\"aircraft\""), "no part of an entry may have this name: {}", first.json);
        let other = StoredBody::write_of(OTHER, &body).unwrap();
        assert_eq!((other.aircraft(), other.read()), (Ok(OTHER), Ok(body)));
    }
    let wrong = StoredBody { kind: "started".into(), version: 1, json: r#"{"kind":"started","aircraft":5}"#.into() };
    assert!(wrong.aircraft().is_err());
}

#[test]
fn who_held_the_phone_for_one_aircraft_is_offered_for_the_other() {
    let mut hangar = Hangar::new();
    assert_eq!(last_people(&hangar.ledger(OTHER), 3), ["Sam"], "the first one's spotter");
    hangar.fly(OTHER, 900.0);
    let card = hangar.ledger(OTHER).flights[0].card;
    hangar.add(OTHER, Body::HandedOver { card, spotter: "Robin".to_owned() });
    assert_eq!(last_people(&hangar.ledger(AircraftId::FIRST), 3), ["Robin", "Sam"]);
}

#[test]
fn what_was_taken_back_of_a_shared_pack_is_taken_back_for_both() {
    let mut hangar = Hangar::new();
    hangar.pack(AircraftId::FIRST, 5_000.0, 120.0);
    hangar.pack(OTHER, 5_000.0, 40.0);
    hangar.fly(OTHER, 2_200.0);
    hangar.charge(OTHER);
    let charge = hangar.story.entries.last().unwrap().id;
    hangar.add(OTHER, Body::Withdrawn { entry: charge, reason: "Another one".to_owned() });
    for aircraft in [AircraftId::FIRST, OTHER] {
        let ledger = hangar.ledger(aircraft);
        assert_eq!(ledger.pack("Pack 1").charge, Charge::Flown);
        assert!(ledger.withdrawals.contains(charge), "told on both pages");
    }
}
