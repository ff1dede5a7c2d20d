//! What the fold keeps besides evidence and gates: the aircraft, the cards, marks, packs and the lock.
#![allow(clippy::unwrap_used)]

mod common;

use common::story::Story;
use liftgate_core::readiness::{Charge, Seat, Source};
use liftgate_core::record::{Author, Body, EntryId, MarkKind, Thing, ThingKind, ThingRef};

fn pack(name: &str) -> Body {
    Body::ThingSet {
        thing: Thing { kind: ThingKind::Pack, name: name.into(), of: None, numbers: [("cells".into(), 6.0)].into() },
    }
}

fn draw(story: &mut Story, pack: &str) -> EntryId {
    story.add(Body::CardDrawn {
        check: "run-up".into(),
        pack: pack.into(),
        head_speed_rpm: 610.0,
        planned_s: 61,
        air_c: 7.5,
        prediction: None,
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
    story.add(Body::AircraftNamed { name: "Plover".into(), builder: "Jo".into() });
    story.add(Body::AircraftNamed { name: "Dunlin".into(), builder: "Sam".into() });
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
    story.add(Body::ThingRemoved { thing: of.clone() });
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
