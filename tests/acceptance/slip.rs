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

    // And if the taking back was the slip: the same is recorded once more, in one touch.
    assert_eq!(person.screen().undo.unwrap().label, "Put back");
    person.tap("Put back");
    assert_eq!(person.entries().len(), count + 2, "nothing is erased by that either");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Lapsed");
    person.tap("Take back");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Released");
    // A quarter of an hour later it would look fresher than it is.
    person.wait(15 * 60);
    assert!(person.screen().undo.is_none());
    assert!(person.row("Figures and papers").is_some());

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

#[test]
fn a_gate_that_was_taken_back_is_put_back_only_if_it_may_be_released() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    person.tap("Take back");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Ready");
    person.tap("Put back");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Released");
    assert!(matches!(person.last(), Body::GateReleased { .. }));
}

/// No screen of the app asks "are you sure": what a touch did, the next one takes back.
#[test]
fn nothing_asks_for_confirmation() {
    let shell = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../android-shell/src/main/kotlin");
    let mut folders = vec![shell];
    let mut seen = 0;
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
            if entry.path().is_dir() {
                folders.push(entry.path());
                continue;
            }
            seen += 1;
            let text = std::fs::read_to_string(entry.path()).unwrap();
            for dialog in ["AlertDialog", "android.app.Dialog", "showDialog", "DialogFragment"] {
                assert!(!text.contains(dialog), "{dialog} in {:?}", entry.path());
            }
        }
    }
    assert!(seen > 20, "{seen} files");
}
