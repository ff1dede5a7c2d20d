//! The shipped plan can be walked from a new phone to a flight in service by doing whatever the board says next.

use std::collections::BTreeSet;

use liftgate_core::plan::{Plan, SHIPPED};
use liftgate_core::record::Body;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const GATES: [&str; 9] = [
    "Figures and papers",
    "Bench electrics",
    "Fit-out",
    "Weight and balance",
    "Blades-off run",
    "Ground run",
    "Hover ladder",
    "Data review",
    "Envelope",
];

fn walked(kind: Kind) -> Walk {
    Walk::at_flight(kind, "Flight in service")
}

#[test]
fn every_gate_is_released_and_both_aircraft_reach_service() {
    let plan = Plan::parse("the shipped plan", SHIPPED).unwrap();
    let mut done = BTreeSet::new();
    for kind in [Kind::Scale, Kind::Frame] {
        let mut walk = walked(kind);
        for stage in GATES {
            let (_, state, detail) = walk.person.row(stage).unwrap();
            assert_eq!(state, "Released", "{stage} of {kind:?}: {detail:?}");
        }
        let released = walk.person.entries().iter().filter(|e| matches!(e.body, Body::GateReleased { .. })).count();
        assert_eq!(released, GATES.len(), "each gate is released once: none lapses on the way");

        walk.person.tap("Draw up the card");
        walk.fly();
        walk.land();
        let entries = walk.person.entries();
        assert!(matches!(entries.last().unwrap().body, Body::LandingRecorded { .. }));
        let verified = walk.person.phone.verify().unwrap();
        assert_eq!(verified.count, i64::try_from(entries.len()).unwrap());
        done.extend(walk.done);
    }
    // Between the two aircraft every check of the plan was done, but for those that no gate asks for or only an event.
    let left: Vec<&str> =
        plan.checks().filter(|(_, c)| !done.contains(&c.title)).map(|(_, c)| c.title.as_str()).collect();
    let optional: Vec<&str> = plan
        .checks()
        .filter(|(_, c)| !c.mandatory || !c.called_by.is_empty())
        .map(|(_, c)| c.title.as_str())
        .collect();
    assert_eq!(left, optional);
}

#[test]
fn the_next_morning_only_what_is_due_each_day_stands_in_the_way() {
    let mut walk = walked(Kind::Scale);
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.land();
    walk.person.wait(24 * 3_600);
    for stage in GATES {
        assert_eq!(walk.person.row(stage).unwrap().1, "Released", "{stage} does not lapse overnight");
    }
    let verdict = walk.person.verdict();
    assert!(verdict.contains("between Regenpfeifer and 'Flight in service' at 1240 rpm"), "{verdict}");
    let before = walk.done.len();
    walk.until_flight("Flight in service");
    let today: Vec<&str> = walk.done[before..].iter().map(String::as_str).collect();
    assert_eq!(
        today,
        [
            "Failsafe and hold work today",
            "Controls and model memory today",
            "Site, barrier and distance",
            "Receiver voltage under load today",
            "Range check today",
            "No hard landing or strike since last time",
            "Walk-round by hand",
            "Pack cells even, no swelling",
            "Pack warm enough, and not hot",
        ]
    );
}
