//! One journal, one opener: who comes second is refused, in words that say what to do.

use liftgate_core::app::{AppError, Phone};
use liftgate_core::journal::JournalError;
use liftgate_core::locale::Language;
use liftgate_core::view::Turn;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

fn second(walk: &Walk, language: Language) -> AppError {
    let opened = Phone::open_on(&walk.person.journal(), language, &walk.person.now);
    opened.err().expect("a second opening was let in")
}

#[test]
fn while_the_spotter_flies_no_second_app_opens_the_same_journal() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.give_away();
    walk.person.spotter().start(&walk.person.now).unwrap();
    let refused = second(&walk, Language::English);
    assert!(matches!(&refused, AppError::Journal { source: JournalError::OpenElsewhere { .. }, .. }), "{refused:?}");
    let words = refused.to_string();
    assert!(words.contains("open already") && words.contains("close it there"), "{words}");
    let german = second(&walk, Language::German).to_string();
    assert!(german.contains("ist schon geöffnet") && german.contains("dort schließen"), "{german}");

    // The first one goes on as if nothing had been.
    walk.person.wait(60);
    walk.person.spotter().land(&walk.person.now).unwrap();
    assert_eq!(walk.person.phone.turn().unwrap(), Turn::Spotter);
    walk.person.phone.verify().unwrap();
}

#[test]
fn what_was_closed_or_killed_opens_again_at_once() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.give_away();
    walk.person.killed();
    assert_eq!(walk.person.phone.turn().unwrap(), Turn::Spotter);
    walk.person.phone.close().unwrap();
    let again = Phone::open(&walk.person.journal(), &walk.person.now).unwrap();
    assert_eq!(again.turn().unwrap(), Turn::Spotter);
}

#[test]
fn both_handles_of_one_opened_app_share_it() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    let pilot = walk.person.phone.pilot().unwrap();
    walk.give_away();
    let spotter = walk.person.phone.spotter().unwrap();
    spotter.start(&walk.person.now).unwrap();
    assert!(matches!(pilot.screen(&walk.person.now), Err(AppError::NotYourTurn { .. })));
}
