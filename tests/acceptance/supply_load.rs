//! A regulator that is too small: the computed check stops, a finding is raised, a fix that is none does not pass, a
//! bigger regulator does, and that is the proof.

use liftgate_core::record::{Body, CheckResult, FindingGrade, Outcome};
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, CONSUMERS, Kind, Thing};
use liftgate_tests::walk::Walk;

const SMALL: Thing = Thing {
    kind: "supply",
    name: "Servo supply",
    fed_by: None,
    numbers: &[
        ("Voltage when full", "8.4"),
        ("Voltage, nominal", "7.4"),
        ("Voltage when empty", "6.6"),
        ("Continuous rating", "8"),
        ("Burst rating", "15"),
        ("Peak, all servos stirred unloaded", "6"),
    ],
};
const STAGE: &str = "Bench electrics";
const CHECK: &str = "Each supply bears its load";
const WRONG: &str = "The regulator is too small";

/// The lowest voltage under stirring, which the load's check looks at.
fn stirred(person: &mut Person, volts: &str) {
    person.go_to(STAGE, "Lowest receiver voltage under stirring");
    person.enter("Reading", volts);
    person.tap("Record");
    person.home();
}

#[test]
fn a_check_that_cannot_be_computed_yet_leads_to_what_is_missing() {
    let mut phone = Person::new();
    let person = &mut phone;
    example::name(person);
    person.go_to(STAGE, CHECK);
    assert!(person.row("No supply described yet: add it under Aircraft").is_some());
    person.tap("Enter it");
    assert_eq!(person.screen().title, "New supply");
    person.enter("Name", "Servo supply");
    for (label, text) in &SMALL.numbers[..5] {
        person.enter(label, text);
    }
    person.tap("Record it");
    assert_eq!(person.screen().title, CHECK, "back where the question was");
    assert!(person.row("No consumer described yet: add it under Aircraft").is_some());
    person.tap("Enter it");
    person.enter("Name", "Swashplate servos");
    for (label, text) in CONSUMERS[0].numbers {
        person.enter(label, text);
    }
    person.tap("Record it");
    let lacks = "Servo supply: 'Peak, all servos stirred unloaded' is missing; enter it under Aircraft";
    assert!(person.row(lacks).is_some(), "{}", person.words());
    person.tap("Enter it");
    assert_eq!(person.screen().title, "Servo supply");
}

#[test]
fn too_small_a_regulator_stops_is_found_fixed_and_proven() {
    let mut walk = Walk::of(Person::new(), Kind::Scale);
    example::name(&mut walk.person);
    example::describe(&mut walk.person, &SMALL);
    CONSUMERS.iter().for_each(|thing| example::describe(&mut walk.person, thing));
    example::BLADES_AND_WIRE.iter().for_each(|thing| example::describe(&mut walk.person, thing));
    example::describe(&mut walk.person, &example::FLIGHT_PACK);
    walk.until_released("Figures and papers");

    // Stirring 6 A, and 0.95 A that flow all the time. Common practice, no source: design peak four times the stirring.
    let person = &mut walk.person;
    person.go_to(STAGE, CHECK);
    let (design_peak, note) = person.figure("Servo supply: design peak").unwrap();
    assert!(note.unwrap().starts_with("burst rating 15 A"));
    assert!(design_peak.parse::<f64>().unwrap() > 15.0);
    person.tap("Record this result");
    let Body::CheckRecorded { result: CheckResult::Computed { outcome, values, .. }, .. } = person.last() else {
        panic!("the result is recorded as it was computed")
    };
    assert_eq!(outcome, Outcome::Stop);
    assert!(values.iter().any(|v| v.name == "Servo supply: design peak, limit" && v.value == 15.0));

    // A stop is not passed: the gate is shut, and the finding is one touch away.
    person.tap("Raise a finding");
    person.enter("What is wrong", WRONG);
    person.tap("Raise it");
    let (edge, state, _) = person.row(&format!("1. {WRONG}")).unwrap();
    assert_eq!((edge, state.as_str()), (Edge::Stop, "Open"));
    assert!(matches!(person.last(), Body::FindingRaised { grade: FindingGrade::Stop, .. }), "a stop at first");
    person.tap(&format!("1. {WRONG}"));
    assert!(person.control("Carry it").is_none(), "a stop is not carried");
    person.home();
    assert_eq!(person.screen().foot[0].label, "See to", "findings come first");
    assert_eq!(person.screen().foot[0].detail.as_deref(), Some(WRONG));

    // A fix that fixes nothing: its check is repeated, fails again, and the finding is open again.
    person.tap("See to");
    assert!(person.refused("Record the fix").contains("What was done"), "a fix says what was done");
    person.enter("What was done", "Shorter leads");
    person.tap("Record the fix");
    assert!(person.verdict().starts_with("Fixed. It wants its proof"));
    person.tap("Go to the proof");
    assert_eq!(person.screen().title, CHECK);
    person.tap("Record this result");
    person.home();
    person.tap("See to");
    assert_eq!(person.verdict(), "Open again: the fix did not hold.");

    // A bigger regulator.
    person.enter("What was done", "A regulator of 20 A, 40 A in bursts");
    person.tap("Supplies");
    person.tap("Record the fix");
    example::change(person, "Servo supply", "Continuous rating", "20");
    example::change(person, "Servo supply", "Burst rating", "40");
    person.go_to(STAGE, CHECK);
    assert!(person.verdict().starts_with("Every supply has room"), "{}", person.verdict());
    person.tap("That is all: supplies");
    person.tap("That is all: consumers");
    person.tap("Keep this result");
    person.home();
    assert_eq!(person.row(WRONG).unwrap().1, "Proven", "the board says what changed");
    person.tap("Findings");
    person.tap(&format!("1. {WRONG}"));
    assert_eq!(person.verdict(), "Fixed and proven.");
    person.home();
    walk.until_released(STAGE);
}

#[test]
fn a_stop_is_not_made_right_by_taking_off_the_list_what_it_is_about() {
    let mut walk = Walk::of(Person::new(), Kind::Scale);
    example::name(&mut walk.person);
    example::describe(&mut walk.person, &SMALL);
    CONSUMERS.iter().for_each(|thing| example::describe(&mut walk.person, thing));
    let person = &mut walk.person;
    person.go_to(STAGE, CHECK);
    person.tap("Record this result");
    person.tap("Raise a finding");
    person.enter("What is wrong", WRONG);
    person.tap("Raise it");
    // One word mends no stop.
    person.tap(&format!("1. {WRONG}"));
    person.enter("What was done", "x");
    assert!(person.refused("Record the fix").starts_with("A stop wants more than a word"));
    // Nor is what it is about simply gone.
    person.home();
    person.tap("Aircraft");
    person.tap(SMALL.name);
    let before = person.entries().len();
    let refused = person.refused("It is gone");
    assert!(refused.starts_with(&format!("A stop is about this ({WRONG})")), "{refused}");
    person.enter("What took its place, or why nothing has to", "gone");
    person.refused("It is gone");
    assert_eq!(person.entries().len(), before, "nothing was recorded");
    person.enter("What took its place, or why nothing has to", "A regulator of 20 A, described next");
    person.tap("It is gone");
    let Body::ThingRemoved { instead, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(instead.as_deref(), Some("A regulator of 20 A, described next"));
}

#[test]
fn a_stalled_servo_and_a_sagging_supply_are_part_of_the_grade() {
    let mut person = Person::new();
    example::name(&mut person);
    let numbers = &[
        ("Voltage when full", "8.4"),
        ("Voltage, nominal", "7.4"),
        ("Voltage when empty", "6.6"),
        ("Continuous rating", "20"),
        ("Burst rating", "30"),
        ("Peak, all servos stirred unloaded", "4"),
    ];
    example::describe(&mut person, &Thing { kind: "supply", name: "Servo supply", fed_by: None, numbers });
    for consumer in &CONSUMERS {
        example::describe(&mut person, consumer);
    }
    person.go_to(STAGE, CHECK);
    assert!(person.verdict().starts_with("Every supply has room"), "{}", person.verdict());
    person.home();
    // 12 A stalled each: three of them and the rest are 36.35 A of 30; the hand meter's 4 A would make 16.95 A.
    example::change(&mut person, "Swashplate servos", "Current when stalled, each", "12");
    person.go_to(STAGE, CHECK);
    assert!(person.verdict().contains("design peak draws 36.4 A of 30.0 A"), "{}", person.verdict());
    let figure =
        |person: &Person, label: &str| person.figure(label).unwrap_or_else(|| panic!("{}", person.words())).0;
    assert_eq!(figure(&person, "Servo supply: peak by stirring"), "16.9");
    assert_eq!(figure(&person, "Servo supply: peak by stalling"), "36.4");
    assert_eq!(figure(&person, "Servo supply: one stalled in hard flight"), "20.8");
    person.home();
    // 5.9 V is above the plan's 5 V, and under what the servos are rated for.
    example::change(&mut person, "Swashplate servos", "Current when stalled, each", "4");
    stirred(&mut person, "5.9");
    person.go_to(STAGE, CHECK);
    assert!(person.verdict().contains("sags to 5.90 V"), "{}", person.verdict());
    assert_eq!(figure(&person, "Servo supply: lowest under stirring"), "5.90");
}
