//! The strip that takes the last entry back: it costs nothing that is being typed, and it goes.

use liftgate_core::record::Body;
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::Walk;

const CHECK: &str = "Planned mass under the limit";

#[test]
fn taking_an_older_entry_back_and_putting_it_back_leave_what_is_being_typed() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until(|person| person.screen().foot[0].detail.as_deref() == Some(CHECK));
    let person = &mut walk.person;
    person.tap("Do");
    person.enter("Reading", "9.4");
    person.enter("Remark", "With the crew");
    let typed = |person: &liftgate_tests::Person| (person.typed("Reading").0, person.typed("Remark").0);
    let before = typed(person);
    person.tap("Take back");
    assert!(matches!(person.last(), Body::Withdrawn { .. }));
    assert_eq!(typed(person), before);
    person.tap("Put back");
    assert_eq!(typed(person), before);
    person.killed_and_the_same();
    person.tap("Record 9.4");
}

#[test]
fn what_is_typed_for_something_else_is_not_why_an_entry_is_withdrawn() {
    let mut walk = Walk::new(Kind::Scale);
    let person = &mut walk.person;
    person.tap("Aircraft");
    person.tap("Tail gain");
    person.enter("New value", "60");
    person.enter("Why", "The tail wags");
    person.tap("Take back");
    let Body::Withdrawn { reason, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(reason, "Taken back at once");
    assert_eq!(person.typed("Why").0, "The tail wags");
    person.tap("Record it");
}

#[test]
fn a_page_that_says_why_an_entry_is_withdrawn_is_done_with_its_words() {
    let mut walk = Walk::new(Kind::Scale);
    let person = &mut walk.person;
    example::enter_figure(person, "Scales right within plus or minus", "2");
    person.tap("Journal");
    let entry = person.controls().into_iter().find(|(words, _)| words.starts_with("Scales right")).unwrap().0;
    person.tap(&entry);
    person.enter("Why it is withdrawn", "Another scale");
    person.tap("Withdraw this entry");
    let Body::Withdrawn { reason, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(reason, "Another scale");
}

#[test]
fn the_strip_goes_after_some_minutes_and_the_journal_still_withdraws() {
    let mut walk = Walk::new(Kind::Scale);
    let person = &mut walk.person;
    example::enter_figure(person, "Scales right within plus or minus", "2");
    person.wait(4 * 60);
    assert_eq!(person.screen().undo.unwrap().label, "Take back", "it may still be wanted, with its reason");
    person.wait(60);
    assert!(person.screen().undo.is_none(), "nobody has the last touch in mind any more");
    person.tap("Journal");
    let entry = person.controls().into_iter().find(|(words, _)| words.starts_with("Scales right")).unwrap().0;
    person.tap(&entry);
    assert!(person.control("Withdraw this entry").is_some());
}

#[test]
fn in_german_the_way_back_and_the_taking_back_begin_with_other_words() {
    let mut walk = Walk::new(Kind::Scale);
    let person = &mut walk.person;
    person.tap("Language and units");
    person.tap("Deutsch");
    let screen = person.screen();
    let (back, undo) = (screen.back.unwrap().label, screen.undo.unwrap().label);
    let first = |words: &str| words.to_lowercase().chars().take(4).collect::<String>();
    assert_ne!(first(&back), first(&undo), "'{back}' and '{undo}' stand one above the other");
}
