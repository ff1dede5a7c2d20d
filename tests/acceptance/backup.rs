//! The whole record leaves the phone in one file, and comes back on another one: the same to the last byte.

use liftgate_core::locale::{Chosen, Language};
use liftgate_core::view::{Block, Edge, Work};
use liftgate_tests::Person;
use liftgate_tests::example::{Kind, hover_log};
use liftgate_tests::walk::Walk;
use rusqlite::Connection;

const GO_ON: &str = "Go on with the backup";

/// Someone who has flown, attached a log, and set a code.
fn with_a_log() -> Person {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    walk.person.pick("Pick a log", "hover.csv", hover_log().as_bytes());
    walk.person.tap("Attach this log");
    walk.person
}

/// Someone at the board, a few entries on.
fn a_little_on() -> Person {
    let mut person = Person::new();
    for call in ["112", "113"] {
        note(&mut person, call);
    }
    person
}

/// Records one entry: whom to call.
fn note(person: &mut Person, call: &str) {
    person.home();
    person.tap("Fire or accident");
    person.enter("Number to call", call);
    person.enter("Address of the site, and the way in", "Am Moor 3");
    person.tap("Record number and address");
    person.home();
}

/// The rows and the verdict of the page that compares.
fn compared(person: &Person) -> Vec<String> {
    let rows = person.screen().blocks.into_iter().filter_map(|block| match block {
        Block::Verdict { text, .. } => Some(text),
        Block::Row { state, title, .. } => Some(format!("{state}: {title}")),
        _ => None,
    });
    rows.collect()
}

#[test]
fn made_wiped_brought_back_and_made_again_it_is_the_same_to_the_last_byte() {
    let mut first = with_a_log();
    let made = first.backup();
    let mut second = Person::new();
    second.now = first.now.clone();
    second.wait(3_600);
    second.to_the_backup();
    second.bring_in("regenpfeifer-backup.zip", &made);
    assert_eq!(second.verdict(), "Nothing was recorded on this phone yet: the backup's record goes on here.");
    let said = second.tap(GO_ON).said.unwrap();
    assert!(said.starts_with(&format!("The backup is in place: {} entries.", first.entries().len())), "{said}");
    second.killed_and_the_same();
    assert_eq!(second.entries(), first.entries());
    first.home();
    second.home();
    first.wait(3_600);
    assert_eq!(second.verdict(), first.verdict());
    assert_eq!(second.phone.verify().unwrap(), first.phone.verify().unwrap());
    // Its log can be looked at there.
    let mut again = Person::new();
    again.to_the_backup();
    again.bring_in("again.zip", &second.backup());
    again.tap(GO_ON);
    let once_more = again.backup();
    assert_eq!(second.backup(), made, "one phone later");
    assert_eq!(once_more, made, "two phones later");
}

#[test]
fn each_way_in_which_two_records_differ_is_said_before_anything_is_changed() {
    let mut person = a_little_on();
    let early = person.backup();
    note(&mut person, "114");
    let late = person.backup();
    let page = |person: &mut Person, file: &[u8]| {
        person.to_the_backup();
        person.bring_in("it.zip", file);
        compared(person)
    };

    let same = page(&mut person, &late);
    assert_eq!(same[0], "The backup holds what this phone holds.");
    assert!(!person.control(GO_ON).unwrap().enabled);

    let older = page(&mut person, &early);
    assert_eq!(older[0], "The backup is older than this phone's record.");
    assert!(older.contains(&"Lost: 1 entry that is on this phone alone".to_owned()), "{older:?}");

    let mut behind = Person::new();
    behind.to_the_backup();
    behind.bring_in("early.zip", &early);
    behind.tap(GO_ON);
    let ahead = page(&mut behind, &late);
    assert_eq!(ahead[0], "The backup has all of this phone's record, and more.");
    assert!(ahead.contains(&"Gained: 1 entry that this phone does not have".to_owned()), "{ahead:?}");

    note(&mut behind, "115");
    let forked = page(&mut behind, &late);
    assert_eq!(
        forked[0],
        "The backup and this phone's record are the same for the first 3 entries, and go different ways from there."
    );
    assert!(forked.iter().any(|row| row.starts_with("Gained: 1 entry")), "{forked:?}");
    assert!(forked.iter().any(|row| row.starts_with("Lost: 1 entry")), "{forked:?}");

    let mut other = a_little_on();
    let strange = page(&mut other, &late);
    assert_eq!(strange[0], "The backup is another record: it has nothing in common with this phone's.");
    assert!(strange.iter().any(|row| row.starts_with("Lost: 3 entries")), "{strange:?}");
    let (_, _, holds) = other.row("This aircraft").unwrap();
    assert!(holds.unwrap().starts_with("4 entries, the last of"));
}

#[test]
fn a_log_that_was_damaged_before_is_told_as_left_out_before_anything_is_changed() {
    let mut first = with_a_log();
    let whole = first.backup();
    first.phone.close().unwrap();
    // The file opens still: the pieces of logs are not looked through for that.
    let file = Connection::open(first.journal()).unwrap();
    let damage = "DROP TRIGGER log_part_is_never_changed; UPDATE log_part SET data = zeroblob(length(data))";
    file.execute_batch(damage).unwrap();
    file.close().unwrap();
    first.killed();
    let damaged = first.backup();

    let mut second = Person::new();
    second.to_the_backup();
    second.bring_in("damaged.zip", &damaged);
    let left_out = "Left out: 1 recorder's log that was damaged before this backup was made".to_owned();
    assert!(compared(&second).contains(&left_out), "{:?}", compared(&second));
    second.phone.choose(Chosen { language: Some(Language::German), ..Chosen::default() }).unwrap();
    let german = "Ausgelassen: 1 Aufzeichnung eines Flugs, die beschädigt war, bevor diese Sicherung gemacht wurde";
    assert!(compared(&second).contains(&german.to_owned()), "{:?}", compared(&second));
    second.phone.choose(Chosen::default()).unwrap();
    second.tap(GO_ON);
    assert_eq!(second.entries(), first.entries(), "the entries are all there");

    second.to_the_backup();
    second.bring_in("whole.zip", &whole);
    assert!(!compared(&second).iter().any(|row| row.starts_with("Left out")), "{:?}", compared(&second));
}

#[test]
fn what_is_cut_short_changed_or_newer_is_refused_and_nothing_is_changed() {
    let mut person = a_little_on();
    let made = person.backup();
    let entries = person.entries();
    let mut newer = made.clone();
    let form = newer.windows(9).rposition(|window| window == b"\"form\":1,");
    assert_eq!(form, None, "the manifest is packed too: what is cut out of it below is found in the container");
    newer.truncate(made.len() / 2);
    for (what, bytes) in [("cut short", &newer[..]), ("no container", b"PK, or so it says"), ("nothing at all", b"")]
    {
        person.to_the_backup();
        person.bring_in("it.zip", bytes);
        assert_eq!(person.verdict(), "This file cannot be brought in.", "{what}");
        assert!(person.control(GO_ON).is_none());
    }
    assert_eq!(person.entries(), entries);
    person.killed();
    person.to_the_backup();
    person.bring_in("it.zip", &made);
    assert_eq!(compared(&person)[0], "The backup holds what this phone holds.");
}

#[test]
fn stopped_half_way_or_killed_it_leaves_everything_as_it_was() {
    let mut first = with_a_log();
    let made = first.backup();
    let mut person = a_little_on();
    let entries = person.entries();
    person.to_the_backup();
    let shown = person.pick("Bring a backup in", "it.zip", &made).screen;
    assert!(matches!(shown.work, Some(Work::Touch { .. })), "{shown:#?}");
    assert_eq!(shown.title, "it.zip");
    person.tap("Stop");
    person.home();
    person.to_the_backup();
    person.bring_in("it.zip", &made);
    assert!(person.control(GO_ON).is_some());
    person.killed();
    assert!(person.words().contains("backup-offer"), "{}", person.words());
    assert!(person.control(GO_ON).is_none(), "what was picked is picked again");
    assert_eq!(person.entries(), entries);
}

#[test]
fn the_record_before_it_is_set_aside_can_come_back_and_goes_only_for_good() {
    let mut person = a_little_on();
    let before = person.entries();
    person.phone.close().unwrap();
    let file = std::fs::read(person.journal()).unwrap();
    person.killed();
    let mut other = with_a_log();
    let theirs = other.backup();
    person.to_the_backup();
    person.bring_in("theirs.zip", &theirs);
    person.tap(GO_ON);
    assert_eq!(person.entries(), other.entries());

    person.to_the_backup();
    person.tap("Record 1, set aside");
    let saved = person.save("Save it as it is");
    assert_eq!(saved.len(), file.len());
    person.tap("Compare and bring back");
    assert_eq!(compared(&person)[0], "The backup is another record: it has nothing in common with this phone's.");
    person.tap(GO_ON);
    assert_eq!(person.entries(), before, "it is back");

    person.to_the_backup();
    person.tap("Record 2, set aside");
    person.tap("Let it go for good");
    assert_eq!(person.verdict(), "No backup was made yet.", "what was set aside is in none");
    assert!(person.control("Record 2, set aside").is_none());
    assert!(person.control("Record 1, set aside").is_some());
}

#[test]
fn the_board_asks_after_a_flying_day_and_is_quiet_before_and_in_between() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    let asks = |walk: &Walk| walk.person.row("1 motor run is in no backup").is_some();
    let quiet = |walk: &Walk| walk.person.row("Backup").is_some();
    walk.person.backup();
    walk.person.home();
    let (edge, _, detail) = walk.person.row("Backup").unwrap();
    assert_eq!(edge, Edge::None);
    assert!(detail.unwrap().ends_with("Everything is in it"));
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.person.home();
    assert!(!asks(&walk) && quiet(&walk), "just down: {}", walk.person.words());
    walk.person.wait(3_700);
    assert!(asks(&walk) && !quiet(&walk), "the day's flying is over: {}", walk.person.words());
    walk.person.tap("1 motor run is in no backup");
    walk.person.save("Save a backup");
    walk.person.home();
    assert!(!asks(&walk) && quiet(&walk), "{}", walk.person.words());
}
