//! A damaged journal of any bytes opens, opens on the page that says what can be read of it, or is refused. Gone on with, it holds together,
//! and nothing is in it that was not recorded.

use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use arbitrary::{Result, Unstructured};
use liftgate_core::app::Phone;
use liftgate_core::journal::{Journal, NewEntry};
use liftgate_core::record::{Body, Entry};
use liftgate_core::view::{Journals, Turn};
use rusqlite::{Connection, params};
use sha2::{Digest, Sha256};
use uuid::Uuid;

use super::chained::{self, Row};
use super::changed::{changed, rest};
use super::common::at_min;
use super::pages::{folder, journals};
use super::sample::{STORY, likely};

/// Entries of the journal that is damaged.
const ENTRIES: usize = 24;

/// The files of a small journal: all folded into the one, and as a kill leaves them, the last entries in the log beside it.
struct Files {
    whole: Vec<u8>,
    killed: Vec<u8>,
    log: Vec<u8>,
}

static FILES: LazyLock<Files> = LazyLock::new(|| {
    let folder = folder();
    let path = folder.path().join("journal.db");
    let append = |journal: &mut Journal, entries: &[Entry]| {
        for entry in entries {
            let (author, body) = (entry.author.clone(), entry.body.clone());
            let new = NewEntry { id: Some(entry.id), author, aircraft: entry.aircraft, body };
            journal.append(&entry.at, vec![new]).unwrap();
        }
    };
    let mut journal = Journal::open(&path).unwrap();
    append(&mut journal, &STORY[..ENTRIES / 2]);
    journal.close().unwrap();
    keep_recorders_log(&path);
    let mut journal = Journal::open(&path).unwrap();
    append(&mut journal, &STORY[ENTRIES / 2..ENTRIES]);
    let (killed, log) = (fs::read(&path).unwrap(), fs::read(path.with_extension("db-wal")).unwrap());
    journal.close().unwrap();
    Files { whole: fs::read(&path).unwrap(), killed, log }
});

/// A recorder's log in two pieces.
fn keep_recorders_log(path: &Path) {
    let bytes: Vec<u8> = (0..3_000).map(|at| (at * 7 % 251) as u8).collect();
    let connection = Connection::open(path).unwrap();
    connection
        .execute("INSERT INTO log VALUES (1, ?, ?, 0)", params![Sha256::digest(&bytes).to_vec(), bytes.len() as i64])
        .unwrap();
    for (place, piece) in bytes.chunks(2_000).enumerate() {
        connection.execute("INSERT INTO log_part VALUES (1, ?, ?)", params![place as i64, piece]).unwrap();
    }
    connection.execute("UPDATE log SET kept = 1", []).unwrap();
}

/// Bytes as the files of a journal: any, those of a valid one with changes, or one with rows that prove themselves and were never recorded.
/// Whether it was gone on with; bytes that run out end the round, nothing else.
pub fn damaged(bytes: &[u8]) -> bool {
    tried(&mut Unstructured::new(bytes)).unwrap_or_default()
}

fn tried(u: &mut Unstructured<'_>) -> Result<bool> {
    let folder = folder();
    let path = folder.path().join("journal.db");
    let log = path.with_extension("db-wal");
    // A journal of ours was open here: what is there now is taken for what is left of it.
    fs::write(path.with_extension("db-lock"), b"").unwrap();
    let is_ours = match u.int_in_range(0..=5)? {
        0 => {
            let length = u.int_in_range(0..=u.len())?;
            fs::write(&path, u.bytes(length)?).unwrap();
            fs::write(&log, rest(u)).unwrap();
            false
        }
        1 => {
            fs::write(&path, changed(&FILES.killed, u)?).unwrap();
            fs::write(&log, changed(&FILES.log, u)?).unwrap();
            true
        }
        2 => {
            fs::write(&path, &FILES.whole).unwrap();
            lay_rows(&path, u)?;
            lose_header(&path);
            false
        }
        _ => {
            let mut bytes = changed(&FILES.whole, u)?;
            if u.arbitrary()? && bytes.len() > 100 {
                bytes[..16].fill(0);
            }
            if u.ratio(1, 10)? {
                bytes.truncate(u.int_in_range(0..=bytes.len())?);
            }
            fs::write(&path, bytes).unwrap();
            true
        }
    };
    Ok(went_on(&path, is_ours))
}

/// Rows of the fuzzer's own behind those that are there.
fn lay_rows(path: &Path, u: &mut Unstructured<'_>) -> Result<()> {
    let mut rows: Vec<Row> = STORY[..ENTRIES].iter().map(Row::of).collect();
    for number in 0..u.int_in_range(1..=3)? {
        let mut row = Row { body: likely(u)?, withdraws: None, ..rows[rows.len() - 1].clone() };
        row.seq = match u.int_in_range(0..=3)? {
            0 => *u.choose(&[i64::MIN, -1, 0, 1, i64::from(i32::MAX), i64::MAX - 1, i64::MAX])?,
            _ => row.seq.saturating_add(u.int_in_range(1..=3)?),
        };
        row.id = *Uuid::from_u128(0x7000 + number).as_bytes();
        row.withdraws = u.arbitrary()?;
        rows.push(row);
    }
    lay(path, rows);
    Ok(())
}

/// Lays the rows behind the journal's own into it, each with a digest that closes over it, against all that stands in the way.
fn lay(path: &Path, mut rows: Vec<Row>) {
    chained::close(&mut rows);
    let connection = Connection::open(path).unwrap();
    let in_the_way =
        "PRAGMA ignore_check_constraints = 1; PRAGMA foreign_keys = 0; DROP TRIGGER entry_is_never_replaced";
    connection.execute_batch(in_the_way).unwrap();
    for row in &rows[ENTRIES..] {
        // One whose place is taken is not laid.
        let _ = row.insert(&connection);
    }
    connection.close().unwrap();
}

/// How many entries a journal has once it is gone on with, after a row that claims this place proves itself in it and its header is gone.
pub fn entries_with_a_row_at(place: i64) -> usize {
    let folder = folder();
    let path = folder.path().join("journal.db");
    fs::write(&path, &FILES.whole).unwrap();
    let mut rows: Vec<Row> = STORY[..ENTRIES].iter().map(Row::of).collect();
    rows.push(Row { seq: place, id: [7; 16], ..rows[0].clone() });
    lay(&path, rows);
    lose_header(&path);
    assert!(went_on(&path, false));
    Journal::open(&path).unwrap().entries().unwrap().len()
}

/// Whether it is gone on with a journal of which only so much is there, less its header.
pub fn is_gone_on_with_up_to(share: f64) -> bool {
    let folder = folder();
    let path = folder.path().join("journal.db");
    let length = (FILES.whole.len() as f64 * share) as usize;
    fs::write(&path, &FILES.whole[..length]).unwrap();
    lose_header(&path);
    went_on(&path, true)
}

fn lose_header(path: &Path) {
    let mut bytes = fs::read(path).unwrap();
    bytes[..16].fill(0);
    fs::write(path, bytes).unwrap();
}

/// Opens it as the app does, and goes on with what can be read where that is what it offers.
fn went_on(path: &Path, is_ours: bool) -> bool {
    let now = at_min(60 * 24 * 30);
    let Ok(phone) = Phone::open(path, &now) else { return false };
    if phone.turn().unwrap() == Turn::Pilot {
        let desk = phone.pilot().unwrap();
        let screen = desk.screen(&now).expect("a page");
        if screen.name == "damaged" && desk.tap(&journals(Journals::Repair), &now).is_err() {
            return false;
        }
    }
    phone.verify().expect("what the app goes on with holds together");
    phone.close().unwrap();
    if is_ours {
        nothing_was_made_up(path);
    }
    true
}

/// Every entry is one that was recorded, says that nothing legible is there, or came of going on.
fn nothing_was_made_up(path: &Path) {
    let journal = Journal::open(path).unwrap();
    for entry in journal.entries().unwrap() {
        let came_of_it = matches!(entry.body, Body::Illegible {} | Body::Repaired { .. });
        let is_shipped_plan = matches!(&entry.body, Body::PlanAdopted { plan, .. } if *plan != "small");
        let was_recorded = STORY[..ENTRIES].iter().any(|known| known.id == entry.id && known.body == entry.body);
        assert!(came_of_it || is_shipped_plan || was_recorded, "never recorded: {entry:?}");
    }
}
