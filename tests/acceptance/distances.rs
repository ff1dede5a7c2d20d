//! Three distances, each with what it is measured from: the flight line begins with the spool-up's, and the day's check shows all three.

use liftgate_core::record::Body;
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::Walk;

const SPOOL_UP: &str = "Spool-up: main shaft to the nearest person";
const FLIGHT_LINE: &str = "Flight line: pilot and crew to the flight path";
const PUBLIC: &str = "Public: flight path to all who are not with you";

fn to_figure(person: &mut Person, title: &str) {
    person.home();
    person.tap("Aircraft");
    person.tap(title);
}

#[test]
fn the_flight_line_begins_with_the_spool_up_distance_and_the_public_stands_further_off() {
    let mut person = Person::new();
    to_figure(&mut person, FLIGHT_LINE);
    assert_eq!(person.typed(FLIGHT_LINE).0, "", "nothing is on file to begin with");
    example::enter_figure(&mut person, SPOOL_UP, "25");
    to_figure(&mut person, FLIGHT_LINE);
    assert_eq!(person.typed(FLIGHT_LINE).0, "25");
    person.tap("Record it");
    let Body::FigureSet { figure, value, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!((figure.as_str(), value), ("flight-line-distance", 25.0));
    to_figure(&mut person, PUBLIC);
    assert_eq!(person.typed(PUBLIC).0, "", "who walks by is on no file");
    person.enter(PUBLIC, "29");
    assert!(person.typed(PUBLIC).1.is_some(), "thirty metres at least");
    example::enter_figure(&mut person, PUBLIC, "40");
    example::enter_figure(&mut person, FLIGHT_LINE, "45");
    person.tap("Aircraft");
    let (edge, _, detail) = person.row(PUBLIC).unwrap();
    assert_eq!(edge, Edge::Stop, "nearer than the crew");
    assert!(detail.unwrap().contains(FLIGHT_LINE));
}

#[test]
fn the_days_check_shows_the_three_and_its_limits_go_by_the_first() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.person.go_to("Service", "Site, barrier and distance");
    let person = &walk.person;
    for (title, metres) in [(SPOOL_UP, "20 m"), (FLIGHT_LINE, "20 m"), (PUBLIC, "50 m")] {
        let (_, _, detail) = person.row(title).unwrap_or_else(|| panic!("{title}: {}", person.words()));
        assert!(detail.unwrap().starts_with(metres), "{title}");
    }
    assert!(person.row("Below 20 m").is_some() && person.row("Below 24 m").is_some(), "{}", person.words());
    assert!(person.words().contains("Measure from the main shaft on the pad"), "{}", person.words());
}
