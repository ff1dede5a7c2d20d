//! The first minutes with a new phone.
#![allow(missing_docs)]

use liftgate_tests::Person;

#[test]
fn a_new_phone_says_what_is_missing_and_leads_there() {
    let mut person = Person::new();
    let screen = person.screen();
    assert_eq!(screen.name, "board");
    person.tap("Aircraft");
    person.tap("This aircraft");
    person.enter("The aircraft's name", "Regenpfeifer");
    person.enter("Your name", "Jorun Aas");
    person.tap("Record the names");
    person.home();
    for _ in 0..7 {
        person.tap("Answer");
        let label = person.controls()[0].0.clone();
        person.tap(&label);
    }
    person.tap("Enter");
}
