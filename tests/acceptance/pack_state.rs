//! A damaged pack is retired in one touch where it stands, and one that was not brought to storage is told.

use chrono::TimeDelta;
use liftgate_core::record::{Body, PackState};
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind, PACK};
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "Hover at the lowest head speed";

#[test]
fn a_swollen_pack_is_retired_in_one_touch_and_flown_no_more() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.home();
    walk.person.tap("Packs");
    walk.person.tap("Swollen");
    let Body::PackNoted { pack, state } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!((pack.as_str(), state), (PACK, PackState::Swollen));
    let (edge, word, _) = walk.person.row(PACK).unwrap();
    assert_eq!((edge, word.as_str()), (Edge::Stop, "Retired: swollen"));
    assert!(walk.person.control("Charged").is_none(), "{}", walk.person.words());
    walk.person.home();
    assert!(walk.person.control("Draw up the card").is_none(), "{}", walk.person.words());
    assert_eq!(walk.person.screen().foot[0].detail.as_deref(), Some("A pack that may be flown"));
    walk.person.tap("Look");
    assert_eq!(walk.person.screen().name, "packs");
    // Its check says so too.
    walk.person.go_to("Service", "Packs still fit to fly");
    assert!(walk.person.verdict().contains("swollen"), "{}", walk.person.verdict());
    assert!(walk.person.control("Record this result").is_some(), "a stop for that pack");
    // A slip is taken back.
    walk.person.home();
    walk.person.tap("Take back");
    walk.person.tap("Packs");
    assert!(walk.person.control("Swollen").is_some());
}

#[test]
fn a_pack_that_stands_full_for_more_than_a_day_is_told_until_it_is_at_storage() {
    let mut person = Person::new();
    example::describe(&mut person, &example::FLIGHT_PACK);
    person.tap("Packs");
    person.tap("Charged");
    person.wait(23 * 3_600);
    let told = "It has stood for 1 day, and that wears it: bring it to storage charge, 3.75 to 3.85 V a cell (common practice, no source)";
    assert!(person.row(told).is_none());
    person.wait(2 * 3_600);
    assert!(person.row(told).is_some(), "{}", person.words());
    person.home();
    let (edge, _, detail) = person.row("Packs").unwrap();
    assert_eq!((edge, detail.as_deref()), (Edge::Caution, Some("Not at storage charge: Pack 1 after 1 day")));
    // Three days on, with the clock set back: the days that were there stay.
    person.wait(3 * 24 * 3_600);
    example::enter_figure(&mut person, "Number of main blades", "3");
    person.now.wall -= TimeDelta::days(4);
    let (_, _, detail) = person.row("Packs").unwrap();
    assert_eq!(detail.as_deref(), Some("Not at storage charge: Pack 1 after 4 days"));
    person.now.wall += TimeDelta::days(4);
    person.tap("Packs");
    person.tap("At storage");
    assert!(person.row(told).is_none());
    assert_eq!(person.row(PACK).unwrap().1, "At storage");
    person.tap("Charged");
    assert_eq!(person.row(PACK).unwrap().1, "Charged", "and full again once it is charged");
}
