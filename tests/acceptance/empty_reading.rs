//! A reading that nobody read is not recorded: what a stepper starts from is no reading.

use liftgate_core::record::{Body, CheckResult};
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const CHECK: &str = "Planned mass under the limit";

fn is_closed(person: &Person) -> bool {
    person.screen().foot[0].why_not.as_deref() == Some("Enter the reading first")
}

#[test]
fn the_first_touch_says_where_it_starts_and_the_next_one_moves_it() {
    for (touch, moved) in [("Reading more", "9.1"), ("Reading less", "8.9")] {
        let mut walk = Walk::new(Kind::Scale);
        walk.until(|person| person.screen().foot[0].detail.as_deref() == Some(CHECK));
        let person = &mut walk.person;
        person.tap("Do");
        assert!(is_closed(person));
        person.tap(touch);
        assert_eq!(person.typed("Reading").0, "", "9 kg is where the plan starts, and nobody weighed it");
        assert!(person.words().contains("Starts from 9 kg"), "{}", person.words());
        assert!(is_closed(person), "there is nothing to record yet");
        person.killed_and_the_same();
        person.tap(touch);
        assert_eq!(person.typed("Reading").0, moved);
        // From there it goes as it always did, back to the start as well.
        person.tap(if touch == "Reading more" { "Reading less" } else { "Reading more" });
        assert_eq!(person.typed("Reading").0, "9");
        person.tap("Record 9 kg");
        let Body::CheckRecorded { result: CheckResult::Measured { value, .. }, .. } = person.last() else {
            panic!("{:?}", person.last())
        };
        assert!((value - 9.0).abs() < 1e-9);
        // The next time it starts from the last reading, and that is no reading either.
        person.go_to("Figures and papers", CHECK);
        person.tap(touch);
        assert!(is_closed(person));
        person.tap(touch);
        assert_eq!(person.typed("Reading").0, moved);
    }
}
