//! The papers are written down with their last day, told before they end, and hold the first gate's ground.

use chrono::TimeDelta;
use liftgate_core::record::Body;
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const RULES: &str = "Rules and permission looked up";
const STAGE: &str = "Figures and papers";
const LAST_DAY: &str = "Last day, if it has an end";

/// The day in so many days, as a person types it.
fn day_in(person: &Person, days: i64) -> String {
    (person.now.wall.date_naive() + TimeDelta::days(days)).format("%d.%m.%Y").to_string()
}

/// Writes an insurance down from the check's page, good for so many more days.
fn add_insurance(person: &mut Person, days: i64) {
    person.go_to(STAGE, RULES);
    person.tap("Add a paper");
    person.tap("Insurance");
    let day = day_in(person, days);
    person.enter(LAST_DAY, &day);
    person.enter("Its number, and where it is kept", "No. 12, field box");
    person.tap("Record it");
}

fn wait_days(person: &mut Person, days: i64) {
    person.wait(days * 24 * 3_600);
    person.home();
}

#[test]
fn a_paper_is_told_before_it_ends_and_after_its_last_day_its_gate_is_shut() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released(STAGE);
    let person = &mut walk.person;
    add_insurance(person, 40);
    assert!(matches!(person.last(), Body::ThingSet { .. }));
    let (edge, word, detail) = person.row("Insurance").unwrap();
    assert_eq!((edge, word.as_str()), (Edge::Fresh, "Good"));
    assert!(detail.unwrap().starts_with("Its last day is "));
    person.home();
    assert_eq!(person.row(STAGE).unwrap().1, "Released", "a paper more takes nothing away");
    assert!(person.row("Insurance").is_none(), "forty days are not soon");
    wait_days(person, 10);
    let (edge, word, detail) = person.row("Insurance").unwrap();
    assert_eq!((edge, word.as_str()), (Edge::Caution, "Soon"));
    assert!(detail.unwrap().ends_with("in 30 days"));
    wait_days(person, 29);
    assert!(person.row("Insurance").unwrap().2.unwrap().ends_with(": tomorrow"));
    wait_days(person, 1);
    assert_eq!(person.row("Insurance").unwrap().2.as_deref(), Some("Today is its last day"));
    assert_eq!(person.row(STAGE).unwrap().1, "Released");
    wait_days(person, 1);
    assert_eq!(person.row("Insurance").unwrap().0, Edge::Stop);
    assert_eq!(person.row(STAGE).unwrap().1, "Lapsed");
    let (_, _, detail) = person.row(RULES).unwrap();
    assert!(detail.unwrap().contains("Insurance was good to"), "{}", person.words());
    // Renewed, looked at, and decided on again.
    person.tap("Insurance");
    let day = day_in(person, 365);
    person.enter(LAST_DAY, &day);
    person.tap("Record it");
    person.home();
    assert!(person.row("Insurance").is_none());
    walk.until_released(STAGE);
}

#[test]
fn a_paper_that_is_renewed_in_time_sends_nothing_back() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released(STAGE);
    let person = &mut walk.person;
    add_insurance(person, 5);
    person.home();
    person.tap("Insurance");
    let day = day_in(person, 300);
    person.enter(LAST_DAY, &day);
    person.tap("Record it");
    wait_days(person, 6);
    assert_eq!(person.row(STAGE).unwrap().1, "Released");
}

#[test]
fn a_day_that_is_none_is_refused_where_it_is_typed_and_a_paper_without_one_has_no_end() {
    let mut person = Person::new();
    person.tap("Aircraft");
    person.tap("Add a paper");
    person.tap("Marking");
    for wrong in ["6/30/2027", "31.6.2027", "next year"] {
        person.enter(LAST_DAY, wrong);
        assert!(person.typed(LAST_DAY).1.unwrap().contains("no day that can be read"), "{wrong}");
    }
    person.enter(LAST_DAY, "");
    person.tap("Record it");
    let Body::ThingSet { thing, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!((thing.name.as_str(), thing.last_day), ("Marking", None), "named by what it is");
    assert!(person.row("Marking").unwrap().2.unwrap().contains("without an end"), "{}", person.words());
    // Another of the same sort has a name of its own.
    person.tap("Add a paper");
    person.tap("Marking");
    person.tap("Record it");
    assert!(person.row("Marking 2").is_some());
}
