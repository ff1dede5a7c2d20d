//! What the fold keeps besides evidence and gates: the aircraft, the cards, marks, packs, the lock, logs and withdrawals.
#![allow(clippy::unwrap_used)]

mod common;

use std::collections::BTreeSet;

use common::story::Story;
use liftgate_core::field::{Capacity, WrongSet, cells_of_each, held_mah, put_back_range_mah, wrong_set};
use liftgate_core::plan::Limit;
use liftgate_core::readiness::{Charge, Ledger, PackStand, Seat, Source, Spent, may_be_withdrawn};
use liftgate_core::record::{
    AttachedLog, Author, Body, Entry, EntryId, Judgement, MarkKind, OnAircraft, PackState, StoredBody, Thing,
    ThingKind, ThingRef,
};

fn pack(name: &str) -> Body {
    Body::ThingSet {
        thing: Thing {
            kind: ThingKind::Pack,
            name: name.into(),
            of: None,
            numbers: [("cells".into(), 6.0)].into(),
            last_day: None,
            note: None,
        },
        on_aircraft: OnAircraft::Changed,
    }
}

fn draw(story: &mut Story, pack: &str) -> EntryId {
    story.add(Body::CardDrawn {
        check: "run-up".into(),
        pack: pack.into(),
        further_packs: Vec::new(),
        not_full: None,
        head_speed_rpm: 610.0,
        planned_s: 61,
        air_c: 7.5,
        wind: None,
        prediction: None,
        allowed_s: None,
    })
}

fn fly(story: &mut Story, pack: &str) -> EntryId {
    let card = draw(story, pack);
    story.add(Body::Started { card });
    story.add(Body::TouchedDown { card, elapsed_ms: 60_000 });
    card
}

#[test]
fn an_aircraft_has_the_name_and_the_builder_that_were_entered_last() {
    let mut story = Story::new();
    story.add(Body::AircraftNamed { name: "Plover".into(), builder: "Jo".into(), pilot: None });
    story.add(Body::AircraftNamed { name: "Dunlin".into(), builder: "Sam".into(), pilot: None });
    let aircraft = story.ledger().aircraft;
    assert_eq!((aircraft.name.as_str(), aircraft.builder.as_str()), ("Dunlin", "Sam"));
}

#[test]
fn a_thing_is_there_until_it_is_removed_and_touches_what_rests_on_it_both_times() {
    let mut story = Story::released();
    story.add(pack("Pack 2"));
    story.walk_until(|report| report.gate("ladder").may_be_released());
    let of = ThingRef { kind: ThingKind::Pack, name: "Pack 2".into() };
    assert!(story.ledger().aircraft.things.contains_key(&of) && story.ledger().described.contains_key(&of));
    assert!(story.standing("rung-2").holds());
    story.add(Body::ThingRemoved {
        thing: of.clone(),
        instead: None,
        witness: None,
        on_aircraft: OnAircraft::Changed,
    });
    let ledger = story.ledger();
    assert!(!ledger.aircraft.things.contains_key(&of) && !ledger.described.contains_key(&of));
    assert!(!story.standing("rung-2").holds(), "the second rung rests on the packs");
}

#[test]
fn a_card_keeps_all_that_it_was_drawn_up_with() {
    let mut story = Story::new();
    let card = draw(&mut story, "Pack 7");
    let flight = story.ledger().flight(card).unwrap().clone();
    assert_eq!(
        (flight.check.as_str(), flight.pack.as_str(), flight.head_speed_rpm, flight.planned_s, flight.air_c),
        ("run-up", "Pack 7", 610.0, 61, 7.5)
    );
    assert_eq!((flight.started, flight.down, flight.prediction), (None, None, None));
}

#[test]
fn a_mark_is_kept_with_its_time_until_it_is_taken_back_and_the_others_stay() {
    let mut story = Story::new();
    let card = draw(&mut story, "Pack 1");
    story.add(Body::Started { card });
    let mark = |story: &mut Story, mark, elapsed_ms| story.add(Body::Marked { card, mark, elapsed_ms });
    let shake = mark(&mut story, MarkKind::Shake, 1_500);
    let smell = mark(&mut story, MarkKind::Smell, 2_500);
    let marks = |story: &Story| -> Vec<_> {
        story
            .ledger()
            .flight(card)
            .unwrap()
            .marks
            .iter()
            .map(|mark| (mark.kind, mark.elapsed_ms, mark.entry))
            .collect()
    };
    assert_eq!(marks(&story), [(MarkKind::Shake, 1_500, shake), (MarkKind::Smell, 2_500, smell)]);
    story.add(Body::Unmarked { card, mark: shake });
    assert_eq!(marks(&story), [(MarkKind::Smell, 2_500, smell)]);
}

#[test]
fn a_touchdown_taken_back_takes_its_time_along() {
    let mut story = Story::new();
    let card = fly(&mut story, "Pack 1");
    assert_eq!((story.ledger().runs, story.ledger().motor_ms), (1, 60_000));
    story.add(Body::Resumed { card });
    assert_eq!((story.ledger().runs, story.ledger().motor_ms), (1, 0));
    story.add(Body::TouchedDown { card, elapsed_ms: 90_000 });
    assert_eq!((story.ledger().runs, story.ledger().motor_ms), (1, 90_000));
}

#[test]
fn the_charged_pack_that_rested_longest_is_the_first_and_the_flown_one_the_last() {
    let mut story = Story::new();
    ["A", "B", "C", "D"].into_iter().for_each(|name| {
        story.add(pack(name));
    });
    let charge =
        |story: &mut Story, name: &str| story.add(Body::PackCharged { pack: name.into(), put_back_mah: None });
    let order = |story: &Story| -> Vec<String> { story.ledger().packs().into_iter().map(|pack| pack.name).collect() };
    assert_eq!(order(&story), ["A", "B", "C", "D"], "nothing is known of any");
    fly(&mut story, "C");
    fly(&mut story, "B");
    assert_eq!(order(&story), ["A", "D", "C", "B"], "what was flown is last, the one flown first before the other");
    charge(&mut story, "B");
    charge(&mut story, "C");
    charge(&mut story, "D");
    assert_eq!(order(&story), ["D", "C", "B", "A"], "the charged ones: never flown, flown first, flown last");
    let packs = story.ledger().packs();
    assert!(matches!(packs[0].charge, Charge::Charged { .. }) && packs[0].flown.is_none() && packs[0].runs == 0);
    assert!(matches!(packs[1].charge, Charge::Charged { .. }) && packs[1].flown.is_some() && packs[1].runs == 1);
    assert_eq!(packs[3].charge, Charge::Unknown);
    fly(&mut story, "C");
    let packs = story.ledger().packs();
    assert_eq!((packs[3].name.as_str(), &packs[3].charge, packs[3].runs), ("C", &Charge::Flown, 2));
    // A card that was never started used nothing.
    draw(&mut story, "D");
    assert_eq!(order(&story)[0], "D");
}

fn land(story: &mut Story, card: EntryId, pack_used_mah: Option<f64>) -> EntryId {
    let (temperatures, notes, confirmed, slip) = (Vec::new(), None, Vec::new(), None);
    let judgement = Judgement::AsItShouldBe;
    story.add(Body::LandingRecorded { card, pack_used_mah, temperatures, notes, confirmed, judgement, slip })
}

fn stand(story: &Story, name: &str) -> PackStand {
    story.ledger().pack(name)
}

#[test]
fn a_pack_is_full_because_it_was_charged_or_read_so_and_until_it_is_flown() {
    let mut story = Story::new();
    story.add(pack("A"));
    assert_eq!((stand(&story, "A").charge, stand(&story, "A").is_full()), (Charge::Unknown, false));
    story.charge("A", None);
    assert!(stand(&story, "A").is_full());
    let card = fly(&mut story, "A");
    let flown = stand(&story, "A");
    assert_eq!((&flown.charge, flown.spent.unread_ms, flown.spent.used_mah), (&Charge::Flown, 60_000, 0.0));
    land(&mut story, card, Some(900.0));
    let second = fly(&mut story, "A");
    land(&mut story, second, Some(300.0));
    let flown = stand(&story, "A");
    assert_eq!(flown.spent, Spent { began_percent: 100.0, is_known: true, used_mah: 1_200.0, unread_ms: 0 });
    assert_eq!(flown.spent.left_mah(2_000.0, 20.0), 800.0);
    // Even cells at 3.8 V are even, and no full pack.
    story.read_cells("A", 3.80, 3.81);
    let read = stand(&story, "A");
    assert!(!read.is_full() && matches!(read.charge, Charge::ReadLow { .. }));
    assert_eq!(read.spent.began_percent, 35.0);
    for (low_v, high_v, is_full) in [(4.14, 4.20, false), (4.15, 4.20, true), (4.19, 4.23, true), (4.20, 4.24, false)]
    {
        story.read_cells("A", low_v, high_v);
        assert_eq!(stand(&story, "A").is_full(), is_full, "{low_v} to {high_v}");
    }
    assert!(!stand(&story, "A").may_fly(), "4.24 V is more than a full cell has");
    story.charge("A", None);
    assert!(!stand(&story, "A").may_fly(), "and no charge makes it better");
    story.read_cells("A", 4.18, 4.20);
    assert!(stand(&story, "A").may_fly() && stand(&story, "A").is_full());
    story.note_pack("A", PackState::Storage);
    assert_eq!((stand(&story, "A").charge, stand(&story, "A").spent.began_percent), (Charge::Stored, 35.0));
    // Another pack under its name is another.
    story.charge("A", None);
    story.remove(ThingKind::Pack, "A");
    story.add(pack("A"));
    assert_eq!(stand(&story, "A").charge, Charge::Unknown);
}

#[test]
fn a_high_voltage_pack_is_full_at_its_own_voltage() {
    let mut story = Story::new();
    let numbers = [("cells".into(), 6.0), ("full_v".into(), 4.35)].into();
    let thing = Thing { kind: ThingKind::Pack, name: "H".into(), of: None, numbers, last_day: None, note: None };
    story.add(Body::ThingSet { thing, on_aircraft: OnAircraft::Changed });
    story.read_cells("H", 4.20, 4.21);
    assert!(!stand(&story, "H").is_full());
    story.read_cells("H", 4.31, 4.37);
    assert!(stand(&story, "H").is_full());
    let limit = Limit::FullCell { plus_v: 0.03 };
    assert_eq!(story.ledger().aircraft.limit(&limit), Some(4.38));
    story.add(pack("L"));
    assert_eq!(story.ledger().aircraft.limit(&limit), Some(4.23), "the lower kind decides");
}

#[test]
fn a_charge_that_puts_back_less_than_went_out_fills_no_pack_unless_the_pilot_says_so() {
    let mut story = Story::new();
    story.add(pack("A"));
    story.charge("A", None);
    let card = fly(&mut story, "A");
    land(&mut story, card, Some(2_000.0));
    story.charge("A", Some(1_500.0));
    let topped = stand(&story, "A");
    assert!(matches!(topped.charge, Charge::NotAllBack { short_mah, .. } if short_mah == 500.0), "{topped:?}");
    assert_eq!((topped.is_full(), topped.spent.used_mah), (false, 500.0));
    story.charge("A", None);
    assert!(stand(&story, "A").is_full(), "the pilot's word");
    let card = fly(&mut story, "A");
    land(&mut story, card, Some(2_000.0));
    story.charge("A", Some(1_800.0));
    assert!(stand(&story, "A").is_full(), "two meters differ by so much");
}

#[test]
fn what_flies_in_a_set_goes_out_of_each_pack_of_it() {
    let mut story = Story::new();
    for name in ["A", "B", "C"] {
        story.add(pack(name));
        story.charge(name, None);
    }
    let card = story.draw_on("run-up", None, &["A", "B"]);
    story.add(Body::Started { card });
    story.add(Body::TouchedDown { card, elapsed_ms: 60_000 });
    land(&mut story, card, Some(700.0));
    let used = ["A", "B", "C"].map(|name| stand(&story, name).spent.used_mah);
    let runs = ["A", "B", "C"].map(|name| stand(&story, name).runs);
    assert_eq!((used, runs), ([700.0, 700.0, 0.0], [1, 1, 0]));
    assert_eq!(story.ledger().flight(card).unwrap().pack_names(), "A + B");
    let order: Vec<String> = story.ledger().packs().into_iter().map(|pack| pack.name).collect();
    assert_eq!(order, ["C", "A", "B"]);
}

#[test]
fn packs_are_a_set_where_their_cells_add_up() {
    let mut story = Story::new();
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    story.pack("A", 7.0);
    story.pack("B", 7.0);
    story.pack("C", 3.0);
    let wrong = |story: &Story, packs: &[&str]| wrong_set(&story.ledger().aircraft, &names(packs));
    assert_eq!(wrong(&story, &["C"]), None, "nobody said how many cells the aircraft wants");
    story.figure("pack-cells", 14.0);
    assert_eq!(wrong(&story, &["A", "B"]), None);
    let cells = |cells, packs| Some(WrongSet::Cells { cells, wanted: 14, packs });
    assert_eq!(wrong(&story, &["A"]), cells(7, Some(2)));
    assert_eq!(wrong(&story, &["C"]), cells(3, None));
    assert_eq!(wrong(&story, &["A", "B", "C"]), cells(17, Some(2)));
}

#[test]
fn packs_are_a_set_where_they_are_as_many_as_the_aircraft_has_in_series() {
    let mut story = Story::new();
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    let wrong = |story: &Story, packs: &[&str]| wrong_set(&story.ledger().aircraft, &names(packs));
    for (name, cells) in [("A", 6.0), ("B", 6.0), ("Whole", 12.0)] {
        story.pack(name, cells);
    }
    story.figure("pack-cells", 12.0);
    assert_eq!(cells_of_each(&story.ledger().aircraft), None);
    story.figure("packs-in-series", 2.0);
    assert_eq!(cells_of_each(&story.ledger().aircraft), Some(6));
    assert_eq!(wrong(&story, &["A", "B"]), None);
    assert_eq!(wrong(&story, &["Whole"]), Some(WrongSet::Count { packs: 1, on_file: 2 }));
    story.figure("packs-in-series", 1.0);
    assert_eq!(wrong(&story, &["Whole"]), None);
    assert_eq!(wrong(&story, &["A", "B"]), Some(WrongSet::Count { packs: 2, on_file: 1 }));
    story.figure("packs-in-series", 5.0);
    assert_eq!(cells_of_each(&story.ledger().aircraft), None, "12 cells are not shared out evenly among 5");
}

#[test]
fn a_pack_holds_what_was_measured_last_and_the_weakest_of_a_set_decides() {
    let mut story = Story::new();
    story.pack("A", 6.0);
    story.pack("B", 6.0);
    let fly = |story: &mut Story| {
        let card = story.draw_on("run-up", None, &["A", "B"]);
        story.add(Body::Started { card });
        card
    };
    let held = |story: &Story, card| held_mah(&story.ledger().aircraft, story.ledger().flight(card).unwrap());
    let first = fly(&mut story);
    assert_eq!(held(&story, first), Some(1_300.0), "the label");
    story.measure_pack("later", "B", 9.0, 1_100.0);
    story.measure_pack("earlier", "B", 2.0, 1_250.0);
    story.measure_pack("more than its label", "A", 2.0, 1_400.0);
    let of = |story: &Story, pack: &str| Capacity::of(&story.ledger().aircraft, pack).unwrap();
    assert_eq!((of(&story, "B").mah, of(&story, "B").measured_at), (1_100.0, Some(9.0)));
    assert_eq!((of(&story, "A").mah, of(&story, "A").measured_at), (1_300.0, Some(2.0)));
    let second = fly(&mut story);
    assert_eq!(held(&story, second), Some(1_100.0));
    assert_eq!(held(&story, first), Some(1_300.0), "what is measured later judges no earlier flight anew");
    let (_, most) = put_back_range_mah(&story.ledger().aircraft, "B");
    assert!((most - 1_210.0).abs() < 1e-9, "a tenth more than it holds");
}

#[test]
fn wrong_codes_are_counted_for_a_turn_and_a_new_code_begins_at_nothing() {
    let mut story = Story::new();
    let card = draw(&mut story, "Pack 1");
    let hash = |story: &Story| story.ledger().lock.hash;
    assert_eq!(hash(&story), None);
    story.add(Body::CodeSet { hash: "one".into() });
    assert_eq!(hash(&story).as_deref(), Some("one"));
    story.add(Body::HandedOver { card, spotter: "Sam".into() });
    let wrong = |story: &mut Story| story.add_by(Author::Spotter { name: "Sam".into() }, Body::CodeRefused { card });
    wrong(&mut story);
    let first = story.now.clone();
    wrong(&mut story);
    let lock = story.ledger().lock;
    assert_eq!((lock.wrong, lock.last_wrong.as_ref()), (2, Some(&story.now)));
    assert_ne!(lock.last_wrong, Some(first));
    // The phone comes back and is given away again: the next turn begins with none.
    story.add(Body::HandedBack { card });
    assert_eq!((story.ledger().lock.wrong, story.ledger().lock.last_wrong), (0, None));
    assert_eq!(hash(&story).as_deref(), Some("one"), "and the code is still in force");
    wrong(&mut story);
    story.add(Body::HandedOver { card, spotter: "Sam".into() });
    assert_eq!(story.ledger().lock.wrong, 0);
    wrong(&mut story);
    story.add(Body::CodeSet { hash: "two".into() });
    let lock = story.ledger().lock;
    assert_eq!((lock.hash.as_deref(), lock.wrong, lock.last_wrong), (Some("two"), 0, None));
    story.add(Body::CodeRemoved {});
    assert_eq!(hash(&story), None);
}

#[test]
fn a_wait_counts_from_its_first_word_and_what_was_opened_without_the_code_stays_told_until_there_is_a_new_one() {
    let mut story = Story::new();
    story.add(Body::CodeSet { hash: "one".into() });
    let card = draw(&mut story, "Pack 1");
    story.add(Body::HandedOver { card, spotter: "Sam".into() });
    assert_eq!(story.ledger().lock.waits_since, None);
    story.add(Body::WaitBegun { card });
    let began = story.now.clone();
    story.wait_minutes(5);
    story.add(Body::WaitBegun { card });
    assert_eq!(story.ledger().lock.waits_since.as_ref(), Some(&began), "asked for twice, it does not begin anew");
    story.add(Body::OpenedWithoutCode { card });
    let opened = story.now.clone();
    story.add(Body::HandedBack { card });
    let lock = story.ledger().lock;
    assert_eq!((lock.waits_since, lock.opened.as_ref()), (None, Some(&opened)));
    assert_eq!(story.ledger().seat, Seat::Pilot);
    story.add(Body::CodeSet { hash: "two".into() });
    assert_eq!(story.ledger().lock.opened, None);
}

#[test]
fn every_result_of_a_check_is_kept_with_who_saw_it_and_what_was_said() {
    let mut story = Story::new();
    story.confirm("look", false);
    let seen = story.confirm("look", true);
    let results = &story.ledger().results["look"];
    assert_eq!(results.len(), 2);
    assert_eq!((results[1].entry, results[1].witness.as_deref(), &results[1].note), (seen, Some("Sam"), &None));
    story.confirm_alone("track", "Nobody there");
    let ledger = story.ledger();
    assert_eq!(ledger.results["track"][0].alone.as_deref(), Some("Nobody there"));
    let card = story.fly("run-up");
    let ledger = story.ledger();
    let landing = &ledger.results["run-up"][0];
    assert_eq!(landing.entry, card);
    assert!(matches!(landing.of, Source::Flight(_)));
    assert_eq!(landing.witness.as_deref(), Some("Sam"), "a flight is seen by its spotter");
}

/// Every kind of entry that a person may take back. What happened in flight, what the lock did, and a withdrawal itself stand.
const MAY_BE_WITHDRAWN: [&str; 29] = [
    "aircraft-named",
    "aircraft-begun",
    "emergency-noted",
    "plan-adopted",
    "trait-chosen",
    "figure-set",
    "thing-set",
    "thing-removed",
    "changed",
    "happened",
    "setting-changed",
    "check-recorded",
    "code-set",
    "code-removed",
    "landing-recorded",
    "landing-waived",
    "mark-answered",
    "pack-charged",
    "pack-noted",
    "cells-read",
    "disagreement-explained",
    "finding-raised",
    "finding-fixed",
    "finding-carried",
    "gate-released",
    "list-declared",
    "log-attached",
    "photo-attached",
    "flown-told",
];

#[test]
fn what_may_be_withdrawn_is_a_list_and_the_first_plan_is_not_on_it() {
    let mut story = Story::new();
    let mut may = BTreeSet::new();
    let mut all = BTreeSet::new();
    story.add(Body::PlanAdopted { plan: "small".into(), edition: "1".into(), text: String::new() });
    assert!(!may_be_withdrawn(&story.entries[0]), "the first plan comes by itself");
    for body in common::one_of_each() {
        let kind = StoredBody::write(&body).unwrap().kind;
        story.add(body);
        all.insert(kind.clone());
        if may_be_withdrawn(story.entries.last().unwrap()) {
            may.insert(kind);
        }
    }
    assert_eq!(may, MAY_BE_WITHDRAWN.iter().map(|kind| (*kind).to_owned()).collect());
    assert_eq!(all.len(), MAY_BE_WITHDRAWN.len() + 15, "kinds that may not be");
}

#[test]
fn a_withdrawn_entry_is_known_with_what_withdrew_it_when_and_why() {
    let mut story = Story::new();
    let slip = story.change("wiring");
    let kept = story.change("mass");
    assert_eq!(story.ledger().withdrawals.of(slip), None);
    story.wait_minutes(30);
    let by = story.add(Body::Withdrawn { entry: slip, reason: "It was the other loom".into() });
    let withdrawals = story.ledger().withdrawals;
    let withdrawal = withdrawals.of(slip).unwrap();
    assert_eq!(
        (withdrawal.by, &withdrawal.at, withdrawal.reason.as_str()),
        (by, &story.now, "It was the other loom")
    );
    assert!(withdrawals.contains(slip) && !withdrawals.contains(kept) && !withdrawals.contains(by));
    // A prefix that ends before it knows nothing of it.
    let before = Ledger::of(story.first(), &story.entries[..2]);
    assert!(!before.withdrawals.contains(slip));
}

#[test]
fn what_the_last_entry_took_back_can_be_put_back_for_ten_minutes_of_the_same_day() {
    let mut story = Story::new();
    let just_now = |story: &Story| story.ledger().withdrawals.taken_back_just_now(&story.now);
    let slip = story.change("wiring");
    assert_eq!(just_now(&story), None);
    story.withdraw(slip);
    assert_eq!(just_now(&story), Some(slip));
    story.wait_minutes(9);
    assert_eq!(just_now(&story), Some(slip));
    story.wait_minutes(1);
    assert_eq!(just_now(&story), None, "it would look fresher than it is");

    let older = story.change("wiring");
    story.change("mass");
    story.withdraw(older);
    assert_eq!(just_now(&story), None, "something lies in between");

    let slip = story.change("wiring");
    story.withdraw(slip);
    story.set_clock(1);
    assert_eq!(just_now(&story), None, "another day by the wall clock");
    story.set_clock(-1);
    assert_eq!(just_now(&story), Some(slip));
    story.change("mass");
    assert_eq!(just_now(&story), None, "something came after it");
}

#[test]
fn releases_of_one_moment_at_the_end_of_the_journal_are_taken_back_together() {
    let mut story = Story::new();
    let release = |stage: &str| Body::GateReleased { stage: stage.into(), by: "Jo".into(), evidence: Vec::new() };
    let together = |entries: &[Entry]| {
        Ledger::of(&common::story::small_plan(), entries).withdrawals.released_together().to_vec()
    };
    let first = story.add(release("bench"));
    assert_eq!(together(&story.entries), [first]);
    let second = story.add(release("run"));
    assert_eq!(together(&story.entries), [second], "a moment later by a touch of its own");
    let third = story.add(release("ladder"));
    let at = story.entries[1].at.clone();
    story.entries[2].at = at;
    assert_eq!(together(&story.entries), [second, third]);
    // Taken in one after the other they are the same.
    let mut ledger = Ledger::default();
    story.entries.iter().for_each(|entry| ledger.take(&story.plan, std::slice::from_ref(entry)));
    assert_eq!(ledger.withdrawals.released_together(), [second, third]);
    story.withdraw(third);
    assert_eq!(together(&story.entries), []);
}

fn log(story: &mut Story, card: EntryId, name: &str) -> EntryId {
    let log = AttachedLog { name: name.into(), ..common::attached_log() };
    story.add(Body::LogAttached { card, log: Box::new(log) })
}

#[test]
fn a_flights_log_is_the_last_that_was_attached_and_not_withdrawn() {
    let mut story = Story::new();
    let (one, other) = (fly(&mut story, "Pack 1"), fly(&mut story, "Pack 1"));
    let name = |story: &Story, card| story.ledger().logs.of_flight(card).map(|log| log.name.clone());
    assert_eq!(name(&story, one), None);
    log(&mut story, one, "first.csv");
    let second = log(&mut story, one, "second.csv");
    log(&mut story, other, "other.csv");
    assert_eq!(name(&story, one).as_deref(), Some("second.csv"));
    assert_eq!(name(&story, other).as_deref(), Some("other.csv"));
    story.withdraw(second);
    assert_eq!(name(&story, one).as_deref(), Some("first.csv"));
}

#[test]
fn what_was_said_of_a_recorders_columns_stays_known_where_its_log_was_withdrawn() {
    let mut story = Story::new();
    let card = fly(&mut story, "Pack 1");
    let map = common::attached_log().map;
    assert_eq!(story.ledger().logs.columns_under(&map.fingerprint), None);
    let attached = log(&mut story, card, "first.csv");
    assert_eq!(story.ledger().logs.columns_under(&map.fingerprint), Some(&map));
    story.withdraw(attached);
    let ledger = story.ledger();
    assert_eq!((ledger.logs.of_flight(card), ledger.logs.columns_under(&map.fingerprint)), (None, Some(&map)));
    assert_eq!(ledger.logs.columns_under("another header"), None);
}
