//! Fire or accident: one touch from the board there is what to do, whom to call and where, with no network and nothing to look for.

use liftgate_core::record::Body;
use liftgate_core::view::Block;
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const PAGE: &str = "Fire or accident";

fn headline(person: &Person) -> (String, Option<String>) {
    match &person.screen().blocks[0] {
        Block::Verdict { text, detail, .. } => (text.clone(), detail.clone()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn it_is_there_on_a_new_phone_and_says_what_comes_first() {
    let mut person = Person::new();
    person.tap(PAGE);
    let (call, _) = headline(&person);
    assert_eq!(call, "Call the emergency number of the country that you are in");
    let first: Vec<String> = person.cautions();
    assert!(first[0].starts_with("Throttle hold on") && first[1].starts_with("People first"), "{first:?}");
    assert!(person.refused("Record number and address").contains("Number to call is empty"));
    person.enter("Number to call", "the club");
    person.enter("Address of the site, and the way in", "Mill Lane 4, second gate");
    assert_eq!(person.refused("Record number and address"), "The number to call has no digit in it");
    person.enter("Number to call", "112");
    person.tap("Record number and address");
    assert_eq!(headline(&person), ("Call 112".to_owned(), Some("Mill Lane 4, second gate".to_owned())));
    person.home();
    assert_eq!(person.row(PAGE).unwrap().2.as_deref(), Some("Call 112"), "whom to call is read without a touch");
    person.tap("Take back");
    assert!(!person.row(PAGE).unwrap().2.unwrap().contains("112"), "a slip is taken back like any other");
}

#[test]
fn the_spotter_who_is_free_to_call_has_it_on_the_card() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    walk.person.tap(PAGE);
    walk.person.enter("Number to call", "112");
    walk.person.enter("Address of the site, and the way in", "Mill Lane 4, second gate");
    walk.person.tap("Record number and address");
    assert!(matches!(walk.person.last(), Body::EmergencyNoted { .. }));
    walk.person.home();
    let standing = walk.person.verdict();
    assert!(standing.starts_with("Nothing stands between"), "it moves no gate: {standing}");
    walk.give_away();
    let shown = walk.person.spotter().screen(&walk.person.now).unwrap();
    let line = "In an emergency call 112: Mill Lane 4, second gate";
    assert!(shown.limits.iter().any(|limit| limit == line), "{:?}", shown.limits);
}
