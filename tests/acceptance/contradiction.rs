//! A reading that says otherwise than what is on file is no pass; what the app has is not asked for again.

use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

fn read(person: &mut Person, (stage, check): (&'static str, &'static str), unit: &str, value: &str) {
    person.go_to(stage, check);
    person.enter(unit, value);
    person.tap("Record");
}

#[test]
fn a_mass_that_the_scales_do_not_show_is_no_pass_and_both_are_shown() {
    let weighed = ("Weight and balance", "Weighed, ready to fly");
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    let person = &mut walk.person;
    read(person, weighed, "Reading", "8.5");
    person.go_to(weighed.0, weighed.1);
    let (edge, word, says) = person.row("Scale readings").expect("what is on file, one touch away");
    assert_eq!((edge, word.as_str(), says.as_deref()), (Edge::Stop, "Does not agree", Some("9 kg")));
    person.tap("Scale readings");
    person.home();
    assert!(person.words().contains("8.5 kg was read, and scale readings on file says 9 kg"), "{}", person.verdict());
}
