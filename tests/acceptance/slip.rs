//! A slip is withdrawn in one touch; both entries stay readable, and what stood before stands again.

use liftgate_core::record::Body;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const CHECK: &str = "Planned mass under the limit";

#[test]
fn one_touch_takes_the_last_entry_back() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    let before = person.screen().blocks[0].clone();
    person.go_to("Figures and papers", CHECK);
    person.enter("Reading", "19.4");
    person.tap("Record 19.4 kg");
    person.home();
    assert_eq!(person.row("Figures and papers").unwrap().1, "Lapsed", "19.4 kg is past the highest mass allowed");
    let count = person.entries().len();

    let undo = person.screen().undo.unwrap();
    assert_eq!(undo.detail.as_deref(), Some("Planned mass under the limit: 19.4 kg"));
    person.tap("Take back");

    assert_eq!(person.entries().len(), count + 1, "nothing is erased");
    assert!(matches!(person.last(), Body::Withdrawn { .. }));
    assert_eq!(person.row("Figures and papers").unwrap().1, "Released", "what stood before stands again");
    assert_eq!(person.screen().blocks[0], before);
    assert!(person.screen().undo.is_none(), "a withdrawal is not taken back; the thing is recorded once more");

    person.tap("Journal");
    let (_, state, _) = person.row("Planned mass under the limit: 19.4 kg").unwrap();
    assert_eq!(state, "Withdrawn", "the slip stays readable");
    assert!(person.row("Withdrawn: Planned mass under the limit: 19.4 kg. Taken back at once").is_some());
    person.tap("Planned mass under the limit: 19.4 kg");
    assert!(person.control("Withdraw this entry").is_none(), "it was withdrawn before");
}

#[test]
fn an_older_entry_is_withdrawn_with_its_reason() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    person.tap("Journal");
    person.tap("Planned mass under the limit: 9.4 kg");
    person.enter("Why it is withdrawn", "The crew was left out of the sum");
    person.tap("Withdraw this entry");
    person.home();
    assert_eq!(person.row("Figures and papers").unwrap().1, "Lapsed", "its release has no ground any more");
    person.go_to("Figures and papers", CHECK);
    assert_eq!(person.control("Record").unwrap().why_not.as_deref(), Some("Enter the reading first"));
}
