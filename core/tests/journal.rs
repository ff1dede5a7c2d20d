//! The journal on a real file: what goes in comes out, nothing is changed unseen, and nothing recorded is lost.
//!
//! What SQLite promises and is held to here is in its own documentation: "Write-Ahead Logging" (a commit is whole or
//! absent after a crash; frames are checked by checksums), "PRAGMA synchronous" (FULL syncs the log on every commit)
//! and "Result and Error Codes" (SQLITE_FULL).
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod common;

use liftgate_core::unit::Unit;
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use chrono::{FixedOffset, TimeDelta, TimeZone, Timelike};
use common::{at_min, at_ms, change, one_of_each};
use liftgate_core::app::Phone;
use liftgate_core::journal::{APPLICATION_ID, Digest, Journal, JournalError, NewEntry};
use liftgate_core::record::{Author, Body, CheckResult, Entry, EntryId, MarkKind, Moment, StoredBody};
use proptest::prelude::*;
use rusqlite::Connection;
use tempfile::TempDir;

fn folder() -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("journal.db");
    (folder, path)
}

fn append(journal: &mut Journal, at: &Moment, body: Body) -> Entry {
    journal.append(at, vec![NewEntry::pilot(body)]).unwrap().remove(0)
}

/// A closed journal with so many changes in it.
fn made(path: &Path, count: i64) {
    let mut journal = Journal::open(path).unwrap();
    for number in 1..=count {
        append(&mut journal, &at_min(number), change(&format!("change {number}")));
    }
    journal.close().unwrap();
}

/// The file as someone sees it who does not go through Liftgate.
fn raw(path: &Path) -> Connection {
    Connection::open(path).unwrap()
}

/// As [`raw`], and with all that guards the table out of the way.
fn raw_unguarded(path: &Path) -> Connection {
    let connection = raw(path);
    let triggers: Vec<String> = connection
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    for name in triggers {
        connection.execute_batch(&format!("DROP TRIGGER {name}")).unwrap();
    }
    connection.execute_batch("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON").unwrap();
    connection
}

fn broken_at(path: &Path) -> i64 {
    match Journal::open(path).unwrap().verify() {
        Err(JournalError::Broken { seq, .. }) => seq,
        Ok(verified) => {
            println!("the chain closes: {verified:?}");
            0
        }
        Err(other) => panic!("expected a broken chain, got {other:?}"),
    }
}

// ------------------------------------------------------------------------------------------ in and out

#[test]
fn every_kind_of_entry_reads_back_as_it_was_returned() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let mut returned = Vec::new();
    for (number, body) in (1..).zip(one_of_each()) {
        // A withdrawal has to name an entry that is there.
        let body = match body {
            Body::Withdrawn { reason, .. } => Body::Withdrawn { entry: first_id(&returned), reason },
            other => other,
        };
        returned.push(append(&mut journal, &at_min(number), body));
    }
    assert_eq!(journal.entries().unwrap(), returned);
    journal.close().unwrap();

    let journal = Journal::open(&path).unwrap();
    let read = journal.entries().unwrap();
    assert_eq!(read, returned, "the same after closing and opening");
    let seqs: Vec<i64> = read.iter().map(|entry| entry.seq).collect();
    assert_eq!(seqs, (1..=returned.len() as i64).collect::<Vec<_>>(), "from 1, without gaps");
    assert_eq!(journal.verify().unwrap().count, returned.len() as i64);
}

fn first_id(entries: &[Entry]) -> EntryId {
    entries[0].id
}

#[test]
fn author_and_a_name_made_before_are_kept() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let name = journal.name(&at_min(1));
    let card = one_of_each().into_iter().find(|body| matches!(body, Body::CardDrawn { .. })).unwrap();
    let new = vec![
        NewEntry::pilot(card).named(name),
        NewEntry::pilot(Body::HandedOver { card: name, spotter: "Sam".into() }),
        NewEntry::spotter("Sam", Body::Started { card: name }),
    ];
    journal.append(&at_min(1), new).unwrap();
    let read = journal.entries().unwrap();
    assert_eq!(read[0].id, name);
    assert_eq!(read[0].author, Author::Pilot);
    assert_eq!(read[2].author, Author::Spotter { name: "Sam".into() });
}

#[test]
fn what_cannot_be_read_back_is_not_recorded() {
    // JSON has no NaN and no infinity, and RFC 3339 has no five-digit year: stored all the same, such an entry would
    // shut the whole journal at the next start.
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    append(&mut journal, &at_min(1), change("before"));
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let result = CheckResult::Measured { value, unit: Unit::Volt };
        let body = Body::CheckRecorded { check: "v".into(), result, witness: None, note: None, alone: None };
        let refused = journal.append(&at_min(2), vec![NewEntry::pilot(change("with it")), NewEntry::pilot(body)]);
        assert!(matches!(refused, Err(JournalError::Unreadable { .. })), "{value}: {refused:?}");
    }
    let far = FixedOffset::east_opt(0).unwrap().with_ymd_and_hms(12_026, 5, 4, 8, 0, 0).unwrap();
    let refused = journal
        .append(&Moment { wall: far, monotonic_ms: 1, boot: "b".into() }, vec![NewEntry::pilot(change("far"))]);
    assert!(matches!(refused, Err(JournalError::Unreadable { .. })), "{refused:?}");
    assert_eq!(journal.entries().unwrap().len(), 1, "what came with it in one call was not recorded either");
    append(&mut journal, &at_min(3), change("after"));
    assert_eq!(journal.verify().unwrap().count, 2);
}

#[test]
fn a_clock_with_microseconds_is_returned_as_it_is_stored() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let mut now = at_min(1);
    now.wall = now.wall.with_nanosecond(123_456_789).unwrap();
    let returned = append(&mut journal, &now, change("x"));
    assert_eq!(journal.entries().unwrap(), [returned]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_and_number_reads_back(
        text in "\\PC{0,40}",
        value in prop_oneof![-1e12..1e12, -1.0..1.0, prop::num::f64::NORMAL | prop::num::f64::ZERO | prop::num::f64::SUBNORMAL],
        elapsed_ms in any::<i64>(),
        boot in "\\PC{0,12}",
        monotonic_ms in any::<i64>(),
        offset_min in -18 * 60..18 * 60i32,
    ) {
        let (_folder, path) = folder();
        let mut journal = Journal::open(&path).unwrap();
        let wall = common::morning().with_timezone(&FixedOffset::east_opt(offset_min * 60).unwrap());
        let now = Moment { wall, monotonic_ms, boot };
        let result = CheckResult::Measured { value, unit: Unit::Volt };
        let card = journal.name(&now);
        let returned = journal.append(&now, vec![
            NewEntry::pilot(Body::CheckRecorded { check: "v".into(), result, witness: Some(text.clone()), note: None, alone: None }),
            NewEntry::spotter(&text, Body::Marked { card, mark: MarkKind::Other, elapsed_ms }),
        ]).unwrap();
        let read = journal.entries().unwrap();
        prop_assert_eq!(&read, &returned);
        prop_assert_eq!(read[0].at.wall.offset().local_minus_utc(), offset_min * 60);
        let Body::CheckRecorded { result: CheckResult::Measured { value: stored, .. }, .. } = &read[0].body else {
            panic!("another kind came back")
        };
        // The JSON reader is built without exact floats: a computed number may come back a few units off in its last
        // place. What a person types in comes back exactly (next test).
        prop_assert!((stored - value).abs() <= value.abs() * 4.0 * f64::EPSILON);
        prop_assert_eq!(journal.verify().unwrap().count, 2);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_number_as_a_person_types_it_reads_back_exactly(digits in -9_999_999_999_i64..9_999_999_999, places in 0..6) {
        let value: f64 = format!("{}e-{places}", digits).parse().unwrap();
        let result = CheckResult::Measured { value, unit: Unit::Volt };
        let body = Body::CheckRecorded { check: "v".into(), result, witness: None, note: None, alone: None };
        prop_assert_eq!(StoredBody::write(&body).unwrap().read().unwrap(), body);
    }
}

#[test]
fn an_append_is_whole_or_absent() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let kept = append(&mut journal, &at_min(1), change("kept"));
    let nobody = common::id(999);
    let new = vec![
        NewEntry::pilot(change("first of two")),
        NewEntry::pilot(Body::Withdrawn { entry: nobody, reason: "?".into() }),
    ];
    assert!(matches!(journal.append(&at_min(2), new), Err(JournalError::CannotWithdraw { .. })));
    assert_eq!(journal.entries().unwrap(), [kept]);
}

// ------------------------------------------------------------------------------------- nothing changes

#[test]
fn the_table_refuses_update_delete_and_replace() {
    let (_folder, path) = folder();
    made(&path, 3);
    let connection = raw(&path);
    let refused = |sql: &str| {
        let error = connection.execute(sql, []).unwrap_err().to_string();
        assert!(error.contains("an entry is never"), "{sql}: {error}");
    };
    refused("UPDATE entry SET body = '{}' WHERE seq = 2");
    refused("UPDATE entry SET boot = boot");
    refused("DELETE FROM entry WHERE seq = 3");
    refused("DELETE FROM entry");
    // REPLACE deletes without asking the delete trigger ("CREATE TRIGGER", recursive triggers off).
    refused("REPLACE INTO entry SELECT * FROM entry WHERE seq = 2");
    refused(
        "INSERT OR REPLACE INTO entry SELECT seq + 10, id, at, monotonic_ms, boot, author, kind, version, body, \
             previous, digest, withdraws FROM entry WHERE seq = 2",
    );
    assert_eq!(Journal::open(&path).unwrap().verify().unwrap().count, 3);
}

#[test]
fn verify_finds_a_change_in_every_column() {
    let text = |column: &str, edit: &str| format!("{column} = {edit}");
    let cases = [
        // The changed entry itself does not fit...
        (3, text("id", "CAST(x'ff' || substr(id, 2) AS BLOB)")),
        (3, text("id", "randomblob(16)")),
        (3, text("id", "x'00'")),
        (3, text("at", "replace(at, '2026', '2027')")),
        (3, text("at", "replace(at, '+02:00', '+03:00')")),
        (3, text("monotonic_ms", "monotonic_ms + 1")),
        (3, text("boot", "boot || ' '")),
        (3, text("author", r#"'{"role":"spotter","name":"x"}'"#)),
        (3, text("author", "author || ' '")),
        (3, text("kind", "'withdrawn'")),
        (3, text("version", "version + 1")),
        (3, text("body", "replace(body, 'change 3', 'change 9')")),
        (3, text("body", "body || ' '")),
        (3, text("body", "CAST(x'7bff7d' AS TEXT)")),
        (3, text("previous", "CAST(x'00' || substr(previous, 2) AS BLOB)")),
        (3, text("previous", "x'00'")),
        (3, text("digest", "CAST(substr(digest, 1, 31) || x'00' AS BLOB)")),
        (3, text("digest", "x''")),
        (3, text("withdraws", "(SELECT id FROM entry WHERE seq = 1)")),
        // ... but a changed number leaves a gap where the entry was.
        (4, text("seq", "300")),
        (-3, text("seq", "-3")),
    ];
    for (expected, edit) in cases {
        let (_folder, path) = folder();
        made(&path, 6);
        let connection = raw_unguarded(&path);
        assert_eq!(connection.execute(&format!("UPDATE entry SET {edit} WHERE seq = 3"), []).unwrap(), 1, "{edit}");
        drop(connection);
        assert_eq!(broken_at(&path), expected, "{edit}");
    }
}

#[test]
fn verify_finds_any_changed_byte_of_any_entry() {
    let columns = ["id", "at", "boot", "author", "kind", "body", "previous", "digest"];
    for column in columns {
        let (_folder, path) = folder();
        made(&path, 3);
        let connection = raw_unguarded(&path);
        let original: Vec<u8> = connection
            .query_row(&format!("SELECT CAST({column} AS BLOB) FROM entry WHERE seq = 2"), [], |row| row.get(0))
            .unwrap();
        let kind = if ["id", "previous", "digest"].contains(&column) { "BLOB" } else { "TEXT" };
        let put = |bytes: &[u8]| {
            let sql = format!("UPDATE entry SET {column} = CAST(?1 AS {kind}) WHERE seq = 2");
            assert_eq!(connection.execute(&sql, [bytes]).unwrap(), 1);
        };
        let journal = Journal::open(&path).unwrap();
        for position in 0..original.len() {
            let mut bytes = original.clone();
            bytes[position] ^= 0x01;
            put(&bytes);
            let seen = journal.verify();
            assert!(matches!(seen, Err(JournalError::Broken { seq: 2, .. })), "{column}[{position}]: {seen:?}");
        }
        put(&original);
        assert_eq!(journal.verify().unwrap().count, 3, "and with every byte put back it closes again");
    }
}

#[test]
fn verify_finds_a_withdrawal_that_was_taken_out_of_its_column() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let slip = append(&mut journal, &at_min(1), change("slip"));
    append(&mut journal, &at_min(2), Body::Withdrawn { entry: slip.id, reason: "slip".into() });
    journal.close().unwrap();
    raw_unguarded(&path).execute("UPDATE entry SET withdraws = NULL WHERE seq = 2", []).unwrap();
    // Unseen, the same entry could then be withdrawn twice.
    assert_eq!(broken_at(&path), 2);
}

#[test]
fn verify_finds_a_missing_entry_and_a_swapped_pair() {
    let (_folder, path) = folder();
    made(&path, 6);
    raw_unguarded(&path).execute("DELETE FROM entry WHERE seq = 4", []).unwrap();
    assert_eq!(broken_at(&path), 5, "the one after the hole does not fit");

    let (_folder, path) = folder();
    made(&path, 6);
    raw_unguarded(&path).execute("DELETE FROM entry WHERE seq = 1", []).unwrap();
    assert_eq!(broken_at(&path), 2, "also at the very front");

    let (_folder, path) = folder();
    made(&path, 6);
    raw_unguarded(&path)
        .execute_batch(
            "UPDATE entry SET seq = 100 WHERE seq = 3; UPDATE entry SET seq = 3 WHERE seq = 4;
             UPDATE entry SET seq = 4 WHERE seq = 100;",
        )
        .unwrap();
    assert_eq!(broken_at(&path), 3);
}

#[test]
fn a_cut_tail_is_told_by_the_head_digest_alone() {
    let (_folder, path) = folder();
    made(&path, 6);
    let before = Journal::open(&path).unwrap().verify().unwrap();
    raw_unguarded(&path).execute("DELETE FROM entry WHERE seq > 4", []).unwrap();
    let after = Journal::open(&path).unwrap().verify().unwrap();
    // As the module says: the chain still closes; the count and head that left the phone tell.
    assert_eq!((before.count, after.count), (6, 4));
    assert_ne!(before.head, after.head);
}

#[test]
fn the_head_of_an_empty_journal_is_nothing_and_the_chain_depends_on_all_before() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    assert_eq!(journal.verify().unwrap().head, Digest::NONE);
    assert_eq!(journal.verify().unwrap().count, 0);
    let mut heads = vec![Digest::NONE];
    for _ in 0..3 {
        append(&mut journal, &at_min(1), change("the very same words"));
        let head = journal.verify().unwrap().head;
        assert!(!heads.contains(&head), "the same words give another digest at another place");
        heads.push(head);
    }
    assert_eq!(heads[1].to_string().len(), 64, "printed as hexadecimal");
}

// --------------------------------------------------------------------------------------- the file's form

#[test]
fn the_file_has_the_form_that_durability_rests_on() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    append(&mut journal, &at_min(1), change("x"));
    // Another connection sees what is in the file itself.
    let connection = raw(&path);
    let text = |pragma: &str| connection.pragma_query_value(None, pragma, |row| row.get::<_, String>(0)).unwrap();
    let number = |pragma: &str| connection.pragma_query_value(None, pragma, |row| row.get::<_, i64>(0)).unwrap();
    assert_eq!(text("journal_mode"), "wal");
    assert_eq!(number("application_id"), i64::from(APPLICATION_ID));
    assert_eq!(APPLICATION_ID.to_be_bytes(), *b"LFTG");
    assert_eq!(number("user_version"), 4);
    assert_eq!(text("integrity_check"), "ok");
    let strict: Vec<(String, bool)> = connection
        .prepare("SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite_%'")
        .unwrap()
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    assert_eq!(strict.len(), 6, "{strict:?}");
    assert!(strict.iter().all(|(_, strict)| *strict), "{strict:?}");
    assert!(rusqlite::version_number() >= 3_051_003, "SQLite {}", rusqlite::version());
    // The header of the file, by the documented offsets ("Database File Format", 1.3).
    journal.close().unwrap();
    drop(connection);
    let bytes = std::fs::read(&path).unwrap();
    assert_eq!(&bytes[..16], b"SQLite format 3\0");
    assert_eq!(bytes[68..72], APPLICATION_ID.to_be_bytes());
    assert_eq!(bytes[18..20], [2, 2], "both file format numbers say WAL");
}

#[test]
fn a_journal_made_by_the_first_step_alone_has_the_schema_of_a_fresh_one() {
    let schema = |path: &Path| -> Vec<(String, String, Option<String>)> {
        raw(path)
            .prepare("SELECT type, name, sql FROM sqlite_schema ORDER BY type, name")
            .unwrap()
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
            .unwrap()
            .map(Result::unwrap)
            .collect()
    };
    let (_folder, old) = folder();
    let connection = raw(&old);
    connection.execute_batch(include_str!("../sql/001_journal.sql")).unwrap();
    connection.pragma_update(None, "user_version", 1).unwrap();
    connection.pragma_update(None, "application_id", APPLICATION_ID).unwrap();
    connection
        .execute_batch(
            "INSERT INTO draft VALUES ('\"board\"', 'note', 'half a wor'); INSERT INTO bookmark VALUES (0, '\"board\"')",
        )
        .unwrap();
    drop(connection);
    let journal = Journal::open(&old).unwrap();
    assert_eq!(journal.drafts("\"board\"").unwrap()["note"], "half a wor", "what was in it is still there");
    assert_eq!(journal.bookmark().unwrap(), ["\"board\""]);
    journal.close().unwrap();

    let (_folder, fresh) = folder();
    Journal::open(&fresh).unwrap().close().unwrap();
    assert_eq!(schema(&old), schema(&fresh));
    assert!(!schema(&fresh).is_empty());
}

// ----------------------------------------------------------------------------------------- other files

/// Every file of the folder with its bytes.
fn files(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path())
        .map(|path| (path.clone(), std::fs::read(&path).unwrap()))
        .collect();
    files.sort();
    files
}

#[test]
fn a_newer_journal_is_refused_and_left_as_it_is() {
    let (folder, path) = folder();
    made(&path, 3);
    raw(&path).pragma_update(None, "user_version", 5).unwrap();
    let before = files(folder.path());
    let refused = Journal::open(&path).err().unwrap();
    assert!(matches!(refused, JournalError::Newer { found: 5, known: 4, .. }), "{refused:?}");
    let words = refused.to_string();
    assert!(words.contains("journal.db") && words.contains("newer") && words.contains("update the app"), "{words}");
    assert_eq!(std::fs::read(&path).unwrap(), before[0].1);
}

#[test]
fn a_newer_journal_that_was_killed_keeps_its_log_too() {
    // A killed app leaves its last commits in the -wal file. A refusal must not fold them in: another program's
    // connection may be about to come back to them, and "left as it is" is what the message says.
    let (from, source) = folder();
    made(&source, 1);
    let connection = raw(&source);
    connection.pragma_update(None, "wal_autocheckpoint", 0).unwrap();
    connection.execute_batch("CREATE TABLE later (a) STRICT").unwrap_err();
    connection.execute_batch("CREATE TABLE later (a TEXT) STRICT; PRAGMA user_version = 7").unwrap();
    let (_to, copy) = folder();
    for end in ["", "-wal"] {
        std::fs::copy(from.path().join(format!("journal.db{end}")), beside(&copy, end)).unwrap();
    }
    drop(connection);
    let before = (std::fs::read(&copy).unwrap(), std::fs::read(beside(&copy, "-wal")).unwrap());
    assert!(!before.1.is_empty());
    let refused = Journal::open(&copy).err().unwrap();
    assert!(matches!(refused, JournalError::Newer { found: 7, .. }), "{refused:?}");
    assert!(std::fs::read(&copy).unwrap() == before.0, "the database was changed");
    assert!(std::fs::read(beside(&copy, "-wal")).unwrap() == before.1, "the log was changed");
}

fn beside(path: &Path, end: &str) -> PathBuf {
    PathBuf::from(format!("{}{end}", path.display()))
}

#[test]
fn a_file_that_is_no_journal_is_refused_and_left_as_it_is() {
    let (_keep, foreign) = folder();
    let connection = raw(&foreign);
    connection.execute_batch("CREATE TABLE recipe (name TEXT); INSERT INTO recipe VALUES ('soup')").unwrap();
    drop(connection);
    let (_keep, marked) = folder();
    let connection = raw(&marked);
    connection.execute_batch("PRAGMA application_id = 77; PRAGMA user_version = 1").unwrap();
    drop(connection);
    let (_keep, waled) = folder();
    let connection = raw(&waled);
    connection.execute_batch("PRAGMA journal_mode = WAL; CREATE TABLE recipe (name TEXT)").unwrap();
    drop(connection);
    let (_keep, damaged) = folder();
    made(&damaged, 30);
    let mut bytes = std::fs::read(&damaged).unwrap();
    bytes[..16].copy_from_slice(b"SQLite format 4\0");
    let cases: Vec<(&str, Vec<u8>)> = vec![
        ("one byte", b"x".to_vec()),
        ("a line", b"Buy bolts, M4 x 12\n".to_vec()),
        ("a long text", b"Buy bolts, M4 x 12\n".repeat(2_000)),
        ("zeros", vec![0; 8_192]),
        ("a picture's first bytes", [b"\x89PNG\r\n\x1a\n".as_slice(), &[7; 4_000]].concat()),
        ("a foreign database", std::fs::read(&foreign).unwrap()),
        ("a database with another mark", std::fs::read(&marked).unwrap()),
        ("a foreign database with a log", std::fs::read(&waled).unwrap()),
        ("a journal with a damaged first line", bytes),
    ];
    for (what, bytes) in cases {
        let (folder, path) = folder();
        std::fs::write(&path, &bytes).unwrap();
        let refused = Journal::open(&path).err().unwrap_or_else(|| panic!("{what} was opened"));
        assert!(matches!(refused, JournalError::NotAJournal { .. }), "{what}: {refused:?}");
        let words = refused.to_string();
        assert!(words.contains("journal.db") && words.contains("left as it is"), "{what}: {words}");
        assert!(std::fs::read(&path).unwrap() == bytes, "{what} was changed");
        assert_eq!(files(folder.path()).len(), 1, "{what}: nothing was put beside it");
    }
}

#[test]
fn an_empty_file_becomes_a_journal_and_a_folder_does_not() {
    let (folder, path) = folder();
    std::fs::write(&path, b"").unwrap();
    assert_eq!(Journal::open(&path).unwrap().verify().unwrap().count, 0);
    assert!(Journal::open(folder.path()).is_err());
    assert!(Journal::open(&folder.path().join("nowhere/journal.db")).is_err());
}

#[test]
fn one_opener_at_a_time_by_whatever_name() {
    let (folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    append(&mut journal, &at_min(1), change("x"));
    let link = folder.path().join("link.db");
    std::os::unix::fs::symlink(&path, &link).unwrap();
    let roundabout = folder.path().join(".").join("journal.db");
    for name in [&path, &link, &roundabout] {
        let refused = Journal::open(name).err().unwrap_or_else(|| panic!("{name:?} was opened a second time"));
        assert!(matches!(refused, JournalError::OpenElsewhere { .. }), "{refused:?}");
        assert!(refused.to_string().contains("close it there"), "{refused}");
    }
    // A refusal takes nothing from whoever has it.
    append(&mut journal, &at_min(2), change("y"));
    drop(journal);
    let journal = Journal::open(&link).unwrap();
    assert_eq!(journal.verify().unwrap().count, 2);
    assert!(matches!(Journal::open(&path), Err(JournalError::OpenElsewhere { .. })));
    journal.close().unwrap();
    Journal::open(&path).unwrap();
}

#[test]
fn a_file_that_was_refused_is_not_held() {
    let (_folder, path) = folder();
    made(&path, 1);
    raw(&path).pragma_update(None, "user_version", 7).unwrap();
    Journal::open(&path).err().unwrap();
    raw(&path).pragma_update(None, "user_version", 4).unwrap();
    assert_eq!(Journal::open(&path).unwrap().verify().unwrap().count, 1);
}

#[test]
fn a_file_held_by_another_program_is_told_so() {
    let (_folder, path) = folder();
    made(&path, 1);
    let mut journal = Journal::open(&path).unwrap();
    let other = raw(&path);
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let refused = journal.append(&at_min(2), vec![NewEntry::pilot(change("x"))]);
    assert!(matches!(refused, Err(JournalError::Busy)), "{refused:?}");
    other.execute_batch("ROLLBACK").unwrap();
    append(&mut journal, &at_min(2), change("x"));
}

// ------------------------------------------------------------------------------------- crash and no room

#[test]
fn a_torn_log_leaves_a_prefix_that_verifies() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let all: Vec<Entry> =
        (1..=24).map(|n| append(&mut journal, &at_min(n), change(&"x".repeat(n as usize * 90)))).collect();
    // While the journal is open its commits are in the log.
    let database = std::fs::read(&path).unwrap();
    let log = std::fs::read(beside(&path, "-wal")).unwrap();
    const FRAME: usize = 24 + 4_096;
    assert!(log.len() > 32 + 24 * FRAME, "the log holds every commit");

    let check = |log: &[u8], what: &str| -> usize {
        let (_folder, copy) = folder();
        std::fs::write(&copy, &database).unwrap();
        std::fs::write(beside(&copy, "-wal"), log).unwrap();
        let mut journal = Journal::open(&copy).unwrap_or_else(|error| panic!("{what}: {error}"));
        let entries = journal.entries().unwrap();
        assert_eq!(entries, all[..entries.len()], "{what}: a prefix");
        assert_eq!(journal.verify().unwrap().count, entries.len() as i64, "{what}");
        let next = append(&mut journal, &at_min(99), change("goes on"));
        assert_eq!(next.seq, entries.len() as i64 + 1, "{what}");
        assert_eq!(journal.verify().unwrap().count, next.seq, "{what}");
        entries.len()
    };
    let frames = (log.len() - 32) / FRAME;
    let mut cuts: Vec<usize> = vec![0, 1, 31, 32, 33, log.len() - 1, log.len()];
    cuts.extend(
        (1..frames).flat_map(|n| [32 + n * FRAME - 1, 32 + n * FRAME, 32 + n * FRAME + 24 + (n * 997) % 4_096]),
    );
    cuts.sort_unstable();
    let kept: Vec<usize> = cuts.iter().map(|cut| check(&log[..*cut], &format!("cut at {cut}"))).collect();
    assert!(kept.is_sorted(), "a longer log never holds fewer: {kept:?}");
    assert_eq!((kept[0], kept[kept.len() - 1]), (0, all.len()));
    assert!((0..=all.len()).all(|n| kept.contains(&n)), "every number of entries was seen: {kept:?}");

    // A page that was written wrongly ends the log before its commit, and nothing after it comes back.
    for frame in (0..frames).step_by(7) {
        let mut bytes = log.clone();
        bytes[32 + frame * FRAME + 24 + 100] ^= 0xff;
        check(&bytes, &format!("damaged in frame {frame}"));
    }
}

const CHILD: &str = "LIFTGATE_TEST_CHILD_JOURNAL";

/// Not a test: what the next test starts, and kills, as another process.
#[test]
#[ignore = "run by killed_while_it_records as a child process"]
fn child_that_records_for_ever() {
    let Ok(path) = std::env::var(CHILD) else { return };
    let mut journal = Journal::open(Path::new(&path)).unwrap();
    let mut out = std::io::stdout().lock();
    loop {
        let at = at_ms(journal.entries().unwrap().len() as i64);
        let two = vec![NewEntry::pilot(change("first of two")), NewEntry::pilot(change(&"y".repeat(700)))];
        let recorded = journal.append(&at, two).unwrap();
        writeln!(out, "recorded {}", recorded[1].seq).unwrap();
        out.flush().unwrap();
    }
}

#[test]
fn killed_while_it_records() {
    let (_folder, path) = folder();
    let mut shown = 0;
    for round in 1..=8 {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "child_that_records_for_ever", "--ignored", "--nocapture"])
            .env(CHILD, &path)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let mut seen = 0;
        for line in lines.by_ref().map(Result::unwrap) {
            if let Some(seq) = line.split("recorded ").nth(1) {
                (shown, seen) = (seq.trim().parse::<i64>().unwrap(), seen + 1);
                if seen == round * 3 {
                    break;
                }
            }
        }
        let elsewhere = Journal::open(&path).err();
        assert!(
            matches!(elsewhere, Some(JournalError::OpenElsewhere { .. })),
            "another process has it: {elsewhere:?}"
        );
        std::thread::sleep(std::time::Duration::from_micros(377 * round));
        child.kill().unwrap();
        child.wait().unwrap();
        // Whatever was still in the pipe was shown to the person as well.
        for line in lines.map_while(Result::ok) {
            if let Some(seq) = line.split("recorded ").nth(1).and_then(|text| text.trim().parse::<i64>().ok()) {
                shown = shown.max(seq);
            }
        }
        assert!(seen > 0, "the child recorded nothing in round {round}");
        let journal = Journal::open(&path).unwrap();
        let count = journal.verify().unwrap().count;
        assert!(count >= shown, "round {round}: {shown} was shown as recorded, {count} are there");
        assert_eq!(count % 2, 0, "round {round}: two in one call, both or none");
        assert_eq!(journal.entries().unwrap().len() as i64, count);
    }
    assert!(shown > 100, "enough was recorded to be worth killing: {shown}");
}

/// A small file system of its own, taken down at the end.
struct SmallDisk(TempDir);

impl SmallDisk {
    fn mount(kib: u32) -> Option<SmallDisk> {
        let folder = TempDir::new().unwrap();
        let options = format!("size={kib}k");
        let mounted = Command::new("mount")
            .args(["-t", "tmpfs", "-o", &options, "liftgate-test"])
            .arg(folder.path())
            .stderr(Stdio::null())
            .status()
            .is_ok_and(|status| status.success());
        if !mounted {
            println!("SKIPPED: this needs leave to mount a tmpfs (root); nothing was tested here");
        }
        mounted.then_some(SmallDisk(folder))
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(self.0.path()).status();
    }
}

#[test]
fn a_full_disk_is_told_as_such_and_costs_nothing_recorded() {
    let Some(disk) = SmallDisk::mount(1_024) else { return };
    let filler = disk.0.path().join("filler");
    std::fs::write(&filler, vec![1; 400_000]).unwrap();
    let path = disk.0.path().join("journal.db");
    let mut journal = Journal::open(&path).unwrap();
    let mut recorded = Vec::new();
    let error = loop {
        assert!(recorded.len() < 2_000, "the disk never filled");
        let number = recorded.len() as i64;
        match journal.append(&at_min(number), vec![NewEntry::pilot(change(&"z".repeat(1_500)))]) {
            Ok(mut entries) => recorded.append(&mut entries),
            Err(error) => break error,
        }
    };
    assert!(matches!(error, JournalError::Full), "{error:?}");
    assert!(error.to_string().contains("storage is full") && error.to_string().contains("free some space"));
    assert!(recorded.len() > 20, "something was recorded first: {}", recorded.len());
    // Nothing that was recorded is gone, and it can be read with no room at all.
    assert_eq!(journal.entries().unwrap(), recorded);
    assert_eq!(journal.verify().unwrap().count, recorded.len() as i64);
    // Again and again, and the drafts too.
    for _ in 0..3 {
        let again = journal.append(&at_min(0), vec![NewEntry::pilot(change(&"z".repeat(50_000)))]);
        assert!(matches!(again, Err(JournalError::Full)), "{again:?}");
    }
    let draft = journal.keep_draft("\"board\"", "note", &"z".repeat(50_000));
    assert!(matches!(draft, Err(JournalError::Full)), "{draft:?}");
    drop(journal);
    // The phone is restarted while it is still full.
    std::fs::write(disk.0.path().join("rest"), vec![1; 1_000_000]).unwrap_err();
    match Journal::open(&path) {
        Ok(journal) => {
            assert_eq!(journal.entries().unwrap(), recorded);
            assert_eq!(journal.verify().unwrap().count, recorded.len() as i64);
        }
        Err(error) => assert!(matches!(error, JournalError::Full), "{error:?}"),
    }
    std::fs::remove_file(disk.0.path().join("rest")).unwrap();
    std::fs::remove_file(&filler).unwrap();
    let mut journal = Journal::open(&path).unwrap();
    assert_eq!(journal.entries().unwrap(), recorded);
    recorded.push(append(&mut journal, &at_min(9_999), change("there is room again")));
    assert_eq!(journal.entries().unwrap(), recorded);
    assert_eq!(journal.verify().unwrap().count, recorded.len() as i64);
}

#[test]
fn the_same_journal_goes_on_once_there_is_room() {
    let Some(disk) = SmallDisk::mount(1_024) else { return };
    let filler = disk.0.path().join("filler");
    let path = disk.0.path().join("journal.db");
    let mut journal = Journal::open(&path).unwrap();
    let kept = append(&mut journal, &at_min(1), change("kept"));
    std::fs::write(&filler, vec![1; 2_000_000]).unwrap_err();
    let refused = journal.append(&at_min(2), vec![NewEntry::pilot(change(&"z".repeat(100_000)))]);
    assert!(matches!(refused, Err(JournalError::Full)), "{refused:?}");
    std::fs::remove_file(&filler).unwrap();
    // The handle that was told of the full disk is still good: the app need not be restarted.
    let next = append(&mut journal, &at_min(2), change(&"z".repeat(100_000)));
    assert_eq!(journal.entries().unwrap(), [kept, next]);
    assert_eq!(journal.verify().unwrap().count, 2);
}

#[test]
fn a_new_journal_on_a_full_disk_is_told_as_such() {
    for room in [0, 4_096, 8_192, 16_384, 32_768, 40_960, 49_152] {
        let Some(disk) = SmallDisk::mount(256) else { return };
        let filler = disk.0.path().join("filler");
        std::fs::write(&filler, vec![1; 1_000_000]).unwrap_err();
        let filled = std::fs::metadata(&filler).unwrap().len();
        std::fs::File::options().write(true).open(&filler).unwrap().set_len(filled - room).unwrap();
        let path = disk.0.path().join("journal.db");
        if let Err(error) = Journal::open(&path) {
            assert!(matches!(error, JournalError::Full), "{room} bytes of room: {error:?}");
        }
        std::fs::remove_file(&filler).unwrap();
        let mut journal = Journal::open(&path).unwrap_or_else(|error| panic!("{room} bytes of room: {error:?}"));
        append(&mut journal, &at_min(1), change("works once there is room"));
        assert_eq!(journal.verify().unwrap().count, 1);
    }
}

// ----------------------------------------------------------------------------------- withdrawing, naming

#[test]
fn an_entry_is_withdrawn_once_and_a_withdrawal_never() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let slip = append(&mut journal, &at_min(1), change("slip"));
    let withdraw = |entry: EntryId| vec![NewEntry::pilot(Body::Withdrawn { entry, reason: "slip".into() })];
    let withdrawal = journal.append(&at_min(2), withdraw(slip.id)).unwrap().remove(0);
    let refused = |journal: &mut Journal, entry: EntryId, words: &str| {
        let error = journal.append(&at_min(3), withdraw(entry)).unwrap_err();
        assert!(matches!(error, JournalError::CannotWithdraw { .. }), "{error:?}");
        assert!(error.to_string().contains(words), "{error}");
    };
    refused(&mut journal, slip.id, "withdrawn before");
    refused(&mut journal, withdrawal.id, "cannot be withdrawn");
    refused(&mut journal, common::id(999), "not in the journal");
    // It stays readable, and the rule holds after a restart too.
    assert_eq!(journal.entries().unwrap(), [slip.clone(), withdrawal.clone()]);
    journal.close().unwrap();
    let mut journal = Journal::open(&path).unwrap();
    refused(&mut journal, slip.id, "withdrawn before");
    assert_eq!(journal.verify().unwrap().count, 2);
}

#[test]
fn an_entry_of_the_same_call_can_be_withdrawn() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let name = journal.name(&at_min(1));
    let new = vec![
        NewEntry::pilot(change("slip")).named(name),
        NewEntry::pilot(Body::Withdrawn { entry: name, reason: "at once".into() }),
    ];
    assert_eq!(journal.append(&at_min(1), new).unwrap().len(), 2);
}

#[test]
fn a_name_is_used_once() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let name = journal.name(&at_min(1));
    journal.append(&at_min(1), vec![NewEntry::pilot(change("a")).named(name)]).unwrap();
    assert!(journal.append(&at_min(2), vec![NewEntry::pilot(change("b")).named(name)]).is_err());
    assert_eq!(journal.entries().unwrap().len(), 1);
}

#[test]
fn ids_are_version_7_and_sort_in_the_order_of_recording() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    // Many in one millisecond, in one call and in several, and some a little later.
    for step in 0..20 {
        let many = (0..50).map(|n| NewEntry::pilot(change(&n.to_string()))).collect();
        journal.append(&at_ms(step / 4), many).unwrap();
    }
    let ids: Vec<EntryId> = journal.entries().unwrap().iter().map(|entry| entry.id).collect();
    assert_eq!(ids.len(), 1_000);
    assert!(ids.is_sorted_by(|a, b| a < b), "strictly rising");
    assert!(ids.iter().all(|id| id.0.get_version_num() == 7));
    // RFC 9562, 5.7: the first 48 bits are the milliseconds since 1970.
    let bytes = ids[0].0.as_bytes();
    let millis = bytes[..6].iter().fold(0_i64, |sum, byte| sum << 8 | i64::from(*byte));
    assert_eq!(millis, at_ms(0).wall.timestamp_millis());
}

#[test]
fn a_jump_of_the_wall_clock_neither_loses_nor_reorders() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    let years = |n: i64| TimeDelta::days(365 * n);
    let jumps = [0, 1, -1, 20, -60, 0, -30, 5];
    let mut recorded = Vec::new();
    for (step, jump) in (1..).zip(jumps) {
        let mut now = at_min(step);
        now.wall += years(jump);
        recorded.push(append(&mut journal, &now, change(&format!("step {step}"))));
        if step == 4 {
            journal.close().unwrap();
            journal = Journal::open(&path).unwrap();
        }
    }
    let read = journal.entries().unwrap();
    assert_eq!(read, recorded, "in the order of recording, each with the time that the phone showed");
    assert!(read.iter().any(|entry| entry.at.wall.timestamp() < 0), "one was before 1970");
    let ids: std::collections::BTreeSet<EntryId> = read.iter().map(|entry| entry.id).collect();
    assert_eq!(ids.len(), jumps.len());
    assert_eq!(journal.verify().unwrap().count, jumps.len() as i64);
}

// ------------------------------------------------------------------------------------ drafts and bookmark

#[test]
fn drafts_and_bookmark_survive_a_restart() {
    let (_folder, path) = folder();
    let mut journal = Journal::open(&path).unwrap();
    // Each step is a text of JSON, which whoever kept it reads again.
    let check = r#"{"check":"belt-tension"}"#;
    let way = [r#""board""#, r#"{"stage":"bench"}"#, check].map(str::to_owned);
    journal.keep_bookmark(&way).unwrap();
    journal.keep_draft(check, "value", "3.").unwrap();
    journal.keep_draft(check, "value", "3.5").unwrap();
    journal.keep_draft(check, "note", "half a s\u{e4}tz \u{1f681}").unwrap();
    journal.keep_draft("other", "value", "9").unwrap();
    // Not closed: the process is gone.
    drop(journal);
    let mut journal = Journal::open(&path).unwrap();
    assert_eq!(journal.bookmark().unwrap(), way);
    let drafts = journal.drafts(check).unwrap();
    assert_eq!(drafts.len(), 2);
    assert_eq!((drafts["value"].as_str(), drafts["note"].as_str()), ("3.5", "half a s\u{e4}tz \u{1f681}"));
    journal.drop_drafts(check).unwrap();
    assert!(journal.drafts(check).unwrap().is_empty());
    assert_eq!(journal.drafts("other").unwrap()["value"], "9", "the other form keeps its own");
    journal.keep_bookmark(&way[..1]).unwrap();
    assert_eq!(journal.bookmark().unwrap(), way[..1]);
    assert_eq!(journal.verify().unwrap().count, 0, "none of this is an entry");
}

#[test]
fn a_bookmark_into_a_place_that_is_no_longer_known_ends_before_it() {
    let (_folder, path) = folder();
    Phone::open(&path, &at_min(0)).unwrap().close().unwrap();
    let mut journal = Journal::open(&path).unwrap();
    let way = [r#""board""#, r#""findings""#, r#""greenhouse""#, r#""aircraft""#].map(str::to_owned);
    journal.keep_bookmark(&way).unwrap();
    journal.close().unwrap();
    let phone = Phone::open(&path, &at_min(1)).unwrap();
    assert_eq!(phone.pilot().unwrap().screen(&at_min(1)).unwrap().name, "findings");
}
