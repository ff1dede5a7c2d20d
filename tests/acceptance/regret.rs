//! Taking back un-lapses nothing after the fact: within a minute it is a slip, later it wants its reason, and the pilot decides anew.

use liftgate_core::record::Body;
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const CHECK: &str = "Planned mass under the limit";
const STOP: &str = "Planned mass under the limit: 19.4 kg";

/// Past the highest mass allowed, after the gate was released.
fn lapsed() -> Walk {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    person.go_to("Figures and papers", CHECK);
    person.enter("Reading", "19.4");
    person.tap("Record 19.4 kg");
    person.home();
    assert_eq!(person.row("Figures and papers").unwrap().1, "Lapsed");
    walk
}

fn withdraw(person: &mut Person, why: &str) {
    person.home();
    person.tap("Journal");
    person.tap(STOP);
    person.enter("Why it is withdrawn", why);
    person.tap("Withdraw this entry");
    person.home();
}

#[test]
fn within_a_minute_it_is_a_slip() {
    let mut walk = lapsed();
    walk.person.wait(50);
    walk.person.tap("Take back");
    assert_eq!(walk.person.row("Figures and papers").unwrap().1, "Released");
    walk.person.go_to("Figures and papers", CHECK);
    assert!(
        !walk.person.words().contains("Recorded and withdrawn"),
        "a slip of the finger is told in the journal alone"
    );
}

#[test]
fn a_minute_later_it_wants_its_reason_and_the_gate_waits_for_the_pilot() {
    let mut walk = lapsed();
    let person = &mut walk.person;
    let shown_before = person.screen().undo.unwrap();
    person.wait(61);
    let count = person.entries().len();
    // Also by a control that was on the screen before the minute was over.
    let refused = person.phone.pilot().unwrap().tap(&shown_before.token, &person.now).unwrap_err().to_string();
    assert!(refused.contains("reason"), "{refused}");
    person.tap("Take back");
    assert_eq!(person.screen().name, "entry", "to where the reason is entered");
    assert!(person.refused("Withdraw this entry").contains("say why"));
    assert_eq!(person.entries().len(), count);

    withdraw(person, "Read the wrong scale");
    assert!(matches!(person.last(), Body::Withdrawn { .. }));
    assert_eq!(person.row("Figures and papers").unwrap().1, "Lapsed", "nothing comes back by itself");
    // It is told what was there, when, and why it counts no more.
    person.go_to("Figures and papers", CHECK);
    let (_, state, detail) = person.row(STOP).unwrap();
    assert_eq!(state, "Withdrawn");
    assert!(
        detail.as_ref().is_some_and(|words| words.contains("Read the wrong scale") && words.contains("withdrawn")),
        "{detail:?}"
    );
    // The pilot may release it, with nothing to be done anew.
    person.home();
    person.tap("Figures and papers");
    person.tap("Release");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Released");
    person.killed();
    assert_eq!(person.row("Figures and papers").unwrap().1, "Released");
}

#[test]
fn with_something_recorded_after_it_a_withdrawal_is_no_slip_however_soon() {
    let mut walk = lapsed();
    let person = &mut walk.person;
    person.go_to("Figures and papers", CHECK);
    person.enter("Reading", "9.4");
    person.tap("Record 9.4 kg");
    person.home();
    person.tap("Journal");
    person.tap(STOP);
    assert!(person.refused("Withdraw this entry").contains("say why"));
    withdraw(person, "It was another aircraft");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Lapsed");
}

#[test]
fn a_finding_that_was_withdrawn_is_not_as_if_nothing_had_been_found() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    person.tap("Findings");
    assert!(person.words().contains("Nothing was found wrong so far"));
    person.go_to("Figures and papers", "Figures match the papers");
    person.enter("Second person's name", "Sam");
    person.tap("Not right");
    person.tap("Raise a finding");
    person.enter("What is wrong", "The gear ratio is another");
    person.tap("Stop");
    person.tap("Raise it");
    person.wait(24 * 3_600);
    person.home();
    person.tap("Journal");
    let raised =
        person.controls().into_iter().find(|(words, _)| words.contains("The gear ratio is another")).unwrap().0;
    person.tap(&raised);
    person.enter("Why it is withdrawn", "Counted the wrong gear");
    person.tap("Withdraw this entry");
    person.home();
    person.tap("Findings");
    let words = person.words();
    assert!(!words.contains("Nothing was found wrong so far"), "{words}");
    assert!(words.contains("Counted the wrong gear") && words.contains("The gear ratio is another"), "{words}");
}
