//! The way through: one thing once, in an order that nothing undoes.

use std::collections::BTreeMap;

use liftgate_core::plan::{Plan, SHIPPED};
use liftgate_core::record::Body;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

/// What a person does to come to the envelope's gate, at most: as measured, so that it grows no more. The aim is 350 and 220.
const TOUCHES: usize = 560;
const TYPED_VALUES: usize = 280;

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
