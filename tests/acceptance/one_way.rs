//! The way through: one thing once, in an order that nothing undoes.

use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};

use liftgate_core::plan::{Plan, SHIPPED};
use liftgate_core::record::Body;
use liftgate_core::view::Turn;
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

/// What a person does to come to the envelope's gate, at most. A reading that is touched where it is offered is a touch; one that is written
/// is a typed value. Of these some 40 are readings of checks, 70 of landings, 65 numbers of what is on the aircraft, 40 its figures.
const TOUCHES: usize = 350;
const TYPED_VALUES: usize = 220;
/// No page lies further from the board than so many touches.
const AWAY: usize = 3;

/// How often each check was recorded that is part of a gate: what is due before every flight is done for every flight.
fn recorded(walk: &Walk, plan: &Plan) -> BTreeMap<String, usize> {
    let mut often = BTreeMap::new();
    for entry in walk.person.entries() {
        if let Body::CheckRecorded { check, .. } = entry.body {
            *often.entry(check).or_default() += 1;
        }
    }
    often.retain(|id, _| plan.check(id).is_some_and(|(_, check)| check.before_flights_from.is_none()));
    often
}

#[test]
#[allow(clippy::print_stdout)]
fn who_does_what_the_board_says_and_describes_when_asked_does_nothing_twice() {
    let plan = Plan::parse("the shipped plan", SHIPPED).unwrap();
    for kind in [Kind::Scale, Kind::Frame] {
        let mut walk = Walk::describing_when_asked(kind);
        walk.until_released("Envelope");
        let repeats: Vec<(String, usize)> =
            recorded(&walk, &plan).into_iter().filter(|(_, times)| *times > 1).collect();
        let released =
            walk.person.entries().iter().filter(|entry| matches!(entry.body, Body::GateReleased { .. })).count();
        let (touches, typed_values) = (walk.person.touches, walk.person.typed_values);
        println!(
            "{kind:?} to the envelope's gate: {touches} touches, {typed_values} typed values, {released} releases, \
             checks done again: {repeats:?}"
        );
        assert_eq!(repeats, [], "no check of a gate is done twice");
        assert_eq!(released, 9, "no gate is released twice");
        assert!(touches <= TOUCHES && typed_values <= TYPED_VALUES, "{touches} touches, {typed_values} typed values");
    }
}

/// The pages that a touch on one of these controls leads to, and how they are called. What a touch records is undone by going back to the file.
fn led_to(walk: &mut Walk, file: &[u8], way: &[String]) -> Vec<(String, String)> {
    let now = walk.person.now.clone();
    let follow = |walk: &mut Walk| way.iter().for_each(|words| drop(walk.person.tap(words)));
    walk.person.home();
    follow(walk);
    let here: BTreeSet<String> = walk
        .person
        .controls()
        .into_iter()
        .filter(|(words, control)| control.enabled && control.document.is_none() && words != "Back")
        .map(|(words, _)| words)
        .collect();
    let before = walk.person.entries().len();
    let mut pages = Vec::new();
    for words in here {
        if walk.person.try_tap(&words).is_ok() && walk.person.phone.turn().unwrap() == Turn::Pilot {
            pages.push((walk.person.screen().name, words));
        }
        let recorded = walk.person.phone.turn().unwrap() != Turn::Pilot || walk.person.entries().len() != before;
        if recorded || walk.person.now != now {
            walk.person = Person::with(file, now.clone());
        }
        walk.person.home();
        follow(walk);
    }
    pages
}

#[test]
fn every_page_is_within_three_touches_of_the_board() {
    let mut walk = Walk::at_flight(Kind::Scale, "Flight in service");
    walk.person.phone.close().unwrap();
    let file = std::fs::read(walk.person.journal()).unwrap();
    walk.person = Person::with(&file, walk.person.now.clone());
    let mut away: BTreeMap<String, usize> = BTreeMap::from([("board".to_owned(), 0)]);
    let mut ways: Vec<Vec<String>> = vec![Vec::new()];
    for touches in 1..=AWAY {
        let mut further = Vec::new();
        for way in ways {
            for (page, words) in led_to(&mut walk, &file, &way) {
                if let Entry::Vacant(new) = away.entry(page) {
                    new.insert(touches);
                    further.push(way.iter().cloned().chain([words]).collect());
                }
            }
        }
        ways = further;
    }
    let wanted = [
        "aircraft",
        "card",
        "change",
        "check",
        "code",
        "emergency",
        "entry",
        "events",
        "figure",
        "findings",
        "journal",
        "ledger",
        "name",
        "packs",
        "plan",
        "preference",
        "question",
        "setting",
        "stage",
        "thing",
        "trends",
    ];
    let missed: Vec<&str> = wanted.into_iter().filter(|page| !away.contains_key(*page)).collect();
    assert_eq!(missed, Vec::<&str>::new(), "{away:?}");
    // Behind one check of many, and where a flight has just come down.
    walk.person.home();
    ["Data review", "Each part on the hottest day", "Another day"]
        .iter()
        .for_each(|words| drop(walk.person.tap(words)));
    assert_eq!(walk.person.screen().name, "hotter-day");
    walk.person.home();
    walk.give_away();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(240);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    assert_eq!(walk.person.screen().name, "landing", "the next touch after the hand-over back is a reading");
}
