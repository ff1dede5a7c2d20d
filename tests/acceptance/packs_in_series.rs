//! A set of packs is on the card as what it is, a pack is full because it was charged or read so, and the card's time comes from what is
//! left in it.

use liftgate_core::record::Body;
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind, PACK};
use liftgate_tests::walk::Walk;

const RUN: &str = "Motor at its slowest, on the bench";
const POLARITY: &str = "Pack polarity and lowest cell";
const PACKS: &str = "Packs in series that make the main pack";
const HOVER: &str = "Hover at the second head speed";

/// Describes a pack of the example's charge.
fn add_pack(person: &mut Person, name: &str, cells: &str, more: &[(&str, &str)]) {
    person.home();
    person.tap("Aircraft");
    person.tap("Add a pack");
    person.enter("Name", name);
    person.enter("Cells in series", cells);
    person.enter("Capacity", "10000");
    for (label, text) in more {
        person.enter(label, text);
    }
    let record = person.control("It was there before").map_or("Record it", |_| "It was there before");
    person.tap(record);
    person.home();
}

/// At the card of a run, with the example's packs, of which nobody said that they are charged.
fn at_card(title: &'static str) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, title);
    walk.person.tap("Draw up the card");
    walk
}

fn why_not(person: &Person) -> Option<String> {
    person.control("Hand over").unwrap().why_not
}

fn enter_cells(person: &mut Person, pack: &str, low: &str, high: &str) {
    person.enter(&format!("{pack}: lowest cell at rest"), low);
    person.enter(&format!("{pack}: highest cell at rest"), high);
    person.tap("Cells read");
}

#[test]
fn a_set_that_is_not_as_many_packs_as_are_on_file_is_put_right_from_the_card() {
    let mut walk = Walk::at_flight(Kind::Scale, RUN);
    let person = &mut walk.person;
    example::enter_figure(person, PACKS, "2");
    walk.until_flight(RUN);
    assert!(walk.done.iter().any(|title| title == "Order of plugs in the string"), "a string has checks of its own");
    let person = &mut walk.person;
    person.tap("Draw up the card");
    let why = why_not(person).unwrap();
    assert!(why.starts_with("This is one pack") && why.contains("2 in series"), "{why}");
    person.tap(PACKS);
    person.enter(PACKS, "1");
    person.tap("Record it");
    person.home();
    walk.until_flight(RUN);
    walk.person.tap("Draw up the card");
    let why = why_not(&walk.person).unwrap();
    assert!(!why.contains("in series"), "{why}");
}

#[test]
fn a_pack_of_too_few_cells_is_refused_and_a_set_that_adds_up_is_on_the_card() {
    let mut walk = Walk::at_flight(Kind::Scale, RUN);
    for name in ["Half 1", "Half 2"] {
        add_pack(&mut walk.person, name, "6", &[]);
    }
    add_pack(&mut walk.person, "Small", "3", &[]);
    example::enter_figure(&mut walk.person, PACKS, "2");
    walk.until_flight(RUN);
    let person = &mut walk.person;
    person.tap("Draw up the card");
    person.tap("Air temperature more");
    person.enter("Spotter's name", example::SPOTTER);
    person.tap("Small");
    let why = why_not(person).unwrap();
    assert!(why.contains("3 cells are not the 12") && why.contains("4 such packs in series make a set"), "{why}");
    // A whole pack takes its place, and one half that of the whole pack.
    person.tap(PACK);
    person.tap("Half 1");
    let why = why_not(person).unwrap();
    assert!(why.contains("6 cells are not the 12") && why.contains("2 such packs"), "{why}");
    person.tap("Half 2");
    let why = why_not(person).unwrap();
    assert!(why.starts_with("Not full, as far as is known"), "{why}");
    person.tap("Half 1 was charged");
    person.tap("Half 2 was charged");
    assert_eq!(why_not(person), None, "{}", person.words());
    person.tap("Hand over");
    let card = person.entries().into_iter().rev().find_map(|entry| match entry.body {
        Body::CardDrawn { pack, further_packs, not_full, .. } => Some((pack, further_packs, not_full)),
        _ => None,
    });
    assert_eq!(card, Some(("Half 1".to_owned(), vec!["Half 2".to_owned()], None)));
    let shown = person.spotter().screen(&person.now).unwrap();
    assert!(shown.limits.iter().any(|line| line == "Flown on Half 1 + Half 2"), "{:?}", shown.limits);
    let spotter = person.spotter();
    spotter.start(&person.now).unwrap();
    person.wait(62);
    spotter.land(&person.now).unwrap();
    spotter.hand_back(&person.now).unwrap();
    walk.land();
    walk.person.home();
    walk.person.tap("Packs");
    for name in ["Half 1", "Half 2"] {
        assert_eq!(walk.person.row(name).unwrap().1, "Flown, not charged since", "{name}");
    }
    assert_eq!(walk.person.row(PACK).unwrap().1, "Charge not known");
}

#[test]
fn flown_twice_without_a_charge_wants_a_word_and_the_time_comes_from_what_is_left() {
    let mut walk = at_card(HOVER);
    let person = &mut walk.person;
    person.tap("Air temperature more");
    person.enter("Spotter's name", example::SPOTTER);
    let (left, note) = person.figure("The pack's reserve allows").unwrap();
    let note = note.unwrap();
    assert!(note.contains("used since") && note.contains("from its label, 10000 mAh"), "{note}");
    let why = why_not(person).unwrap();
    assert!(why.starts_with("Not full, as far as is known"), "{why}");
    person.enter("Why it is flown on what is not full", "x");
    assert!(why_not(person).is_some(), "a letter is no word");
    person.enter("Why it is flown on what is not full", "The charger is at home");
    let control = person.control("Hand over").unwrap();
    assert!(control.enabled && control.detail.unwrap().starts_with("Not full: Pack 1"));
    // Charged after all: the whole of it, and no word is wanted.
    person.tap("Pack 1 was charged");
    let (full, note) = person.figure("The pack's reserve allows").unwrap();
    assert!(full.parse::<f64>().unwrap() > left.parse::<f64>().unwrap(), "{full} and {left}");
    assert!(!note.unwrap().contains("used since"));
    assert_eq!(person.field("Why it is flown on what is not full"), None);
    person.tap("Take back");
    person.tap("Air temperature more");
    person.enter("Spotter's name", example::SPOTTER);
    person.enter("Why it is flown on what is not full", "The charger is at home");
    person.tap("Hand over");
    let said = person.entries().into_iter().rev().find_map(|entry| match entry.body {
        Body::CardDrawn { not_full, .. } => Some(not_full),
        _ => None,
    });
    assert_eq!(said.flatten().as_deref(), Some("The charger is at home"));
    let shown = person.spotter().screen(&person.now).unwrap();
    assert!(shown.limits.iter().any(|line| line == "Not full: The charger is at home"), "{:?}", shown.limits);
}

#[test]
fn more_than_a_pack_holds_is_not_put_back_into_it() {
    let mut person = Person::new();
    example::describe(&mut person, &example::FLIGHT_PACK);
    example::change(&mut person, PACK, "Capacity", "8000");
    person.tap("Packs");
    let field = "Pack 1: put back, if you read it";
    person.enter(field, "9000");
    let flag = person.typed(field).1.unwrap();
    assert!(flag.contains("9000 mAh is more than Pack 1 takes") && flag.contains("8800 mAh"), "{flag}");
    let refused = person.closed("Charged");
    assert!(refused.contains("is more than Pack 1 takes"), "{refused}");
    assert!(!person.entries().iter().any(|entry| matches!(entry.body, Body::PackCharged { .. })));
    person.enter(field, "8700");
    person.tap("Charged");
    assert_eq!(person.last(), Body::PackCharged { pack: PACK.to_owned(), put_back_mah: Some(8_700.0) });
}

#[test]
fn even_cells_at_storage_are_no_full_pack() {
    let mut walk = Walk::at_flight(Kind::Scale, HOVER);
    let person = &mut walk.person;
    let read = |person: &mut Person, low: &str, high: &str| {
        person.home();
        person.tap("Packs");
        enter_cells(person, PACK, low, high);
        person.row(PACK).unwrap().1
    };
    let minutes = |person: &mut Person| {
        person.home();
        person.tap("Draw up the card");
        let (minutes, note) = person.figure("The pack's reserve allows").unwrap();
        (minutes.parse::<f64>().unwrap(), note.unwrap())
    };
    assert_eq!(read(person, "3.80", "3.80"), "Cells read, not full: lowest 3.80 V");
    let (low, note) = minutes(person);
    assert!(note.contains("35 % in it by its cells"), "{note}");
    assert!(person.row("Pack 1 is not full, as far as is known").is_some(), "{}", person.words());
    assert!(person.field("Why it is flown on what is not full").is_some());
    assert_eq!(read(person, "4.17", "4.20"), "Cells read full, lowest 4.17 V");
    let (full, _) = minutes(person);
    assert!(full > 3.0 * low, "{full} min full, {low} min at storage");
    assert!(person.field("Why it is flown on what is not full").is_none());
    // Charged too far, it is not flown.
    assert_eq!(read(person, "4.20", "4.26"), "Over full: a cell of 4.26 V");
    person.home();
    assert!(person.row("A pack that may be flown").is_some(), "{}", person.words());
    assert!(person.control("Draw up the card").is_none(), "{}", person.words());
    // What cannot be is refused, and stays to be put right.
    person.home();
    person.tap("Packs");
    person.enter("Pack 1: lowest cell at rest", "4.20");
    person.enter("Pack 1: highest cell at rest", "4.10");
    assert!(person.refused("Cells read").contains("The lowest cell has more than the highest"));
}

#[test]
fn what_a_cell_may_have_goes_by_its_pack() {
    for (full, word) in [(None, "Not right"), (Some("4.35"), "Holds")] {
        let mut person = Person::new();
        example::fit_out(&mut person, Kind::Scale);
        if let Some(full) = full {
            example::change(&mut person, PACK, "Full cell, if not 4.20 V", full);
        }
        let mut walk = Walk::of(person, Kind::Scale);
        walk.until_released("Figures and papers");
        walk.person.go_to("Bench electrics", POLARITY);
        walk.person.enter("Reading", "4.30");
        walk.person.tap("Record 4.3 V");
        walk.person.home();
        walk.person.tap("Bench electrics");
        assert_eq!(walk.person.row(POLARITY).unwrap().1, word);
    }
}

#[test]
fn a_charge_with_less_put_back_than_went_out_fills_no_pack() {
    let mut walk = Walk::at_flight(Kind::Scale, HOVER);
    let person = &mut walk.person;
    person.home();
    person.tap("Packs");
    person.enter("Pack 1: put back, if you read it", "20");
    person.tap("Charged");
    let (edge, word, _) = person.row(PACK).unwrap();
    assert_eq!(edge, Edge::Missing);
    assert!(word.contains("of what went out not put back"), "{word}");
    person.tap("Charged");
    assert_eq!(person.row(PACK).unwrap().1, "Charged", "the pilot's word");
}
