//! The aircraft's page is long: what is looked for on it is found by its words.

use liftgate_core::view::Block;
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const FIND: &str = "Find a figure, a part, a setting";

fn rows(person: &Person) -> Vec<String> {
    let title = |block| match block {
        Block::Row { title, .. } => Some(title),
        _ => None,
    };
    person.screen().blocks.into_iter().filter_map(title).collect()
}

#[test]
fn a_row_is_found_by_words_of_its_title_or_of_what_it_says() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    person.home();
    person.tap("Aircraft");
    let all = rows(person).len();
    assert!(all > 40, "{all} rows");
    person.enter(FIND, "diameter ROTOR");
    let found = rows(person);
    assert!(found.len() < 6 && found.contains(&"Main rotor diameter".to_owned()), "{found:?}");
    let headings = person.screen().blocks.iter().filter(|block| matches!(block, Block::Heading { .. })).count();
    assert_eq!(headings, 1, "a group of which nothing was found has no heading");
    person.killed_and_the_same();
    person.tap("Main rotor diameter");
    person.tap("Back");
    assert_eq!(person.typed(FIND).0, "diameter ROTOR", "what was looked for is still there");
    person.enter(FIND, "zeppelin");
    assert!(person.words().contains("Nothing here has these words."), "{}", person.words());
    person.enter(FIND, "");
    assert_eq!(rows(person).len(), all);
}
