//! A file of any bytes is brought in as a backup or refused, in the app itself; what comes in holds together, and can be shown.

use std::cell::RefCell;
use std::io::{Cursor, Write};
use std::path::PathBuf;
use std::sync::LazyLock;

use arbitrary::{Result, Unstructured};
use liftgate_core::app::{Phone, PilotDesk};
use liftgate_core::journal::{Journal, NewEntry, Verified};
use liftgate_core::record::{Body, EntryId, Moment, StoredBody};
use liftgate_core::view::{Block, Journals, Place, Screen, Work, Wrote};
use uuid::Uuid;
use zip::write::{SimpleFileOptions, ZipWriter};

use super::chained::{self, Row};
use super::changed::{changed, rest};
use super::common::at_min;
use super::pages::{self, folder, gives_backup, go, journals, takes_backup, until_done};
use super::sample::{STORY, likely};

/// Bytes that are handed over in one piece.
const PIECE: usize = 16 * 1024;

/// Bytes as a file that is brought in: any, one that our own packer made with changes, lines and a manifest with changes behind the right
/// digests, and entries that say anything in a chain that closes. Whether it took the place of what was there; bytes that run out end the
/// round, nothing else.
pub fn backup(bytes: &[u8]) -> bool {
    tried(&mut Unstructured::new(bytes)).unwrap_or_default()
}

fn tried(u: &mut Unstructured<'_>) -> Result<bool> {
    let (file, ids) = match u.int_in_range(0..=5)? {
        0 => (rest(u), Vec::new()),
        1 => (changed(&PACKED, u)?, Vec::new()),
        2 => (lines_changed(u)?, Vec::new()),
        3 => (manifest_changed(u)?, Vec::new()),
        _ => entries_that_say_anything(u)?,
    };
    LIVE.with_borrow_mut(|live| {
        let open = live.get_or_insert_with(Live::begin);
        // What came in took the place of what was there: the next file comes to a phone as this one did.
        let end = open.bring_in(&file, &ids, u);
        if !matches!(end, Ok(false)) {
            *live = None;
        }
        end
    })
}

/// A backup as our own packer makes it.
static PACKED: LazyLock<Vec<u8>> = LazyLock::new(|| Live::begin().save());

thread_local! {
    static LIVE: RefCell<Option<Live>> = const { RefCell::new(None) };
}

/// An opened app on a small record of its own.
struct Live {
    phone: Phone,
    truth: Verified,
    now: Moment,
    _folder: tempfile::TempDir,
}

impl Live {
    fn begin() -> Live {
        let folder = folder();
        let path: PathBuf = folder.path().join("journal.db");
        let mut journal = Journal::open(&path).unwrap();
        for entry in &STORY[..12] {
            let (author, body) = (entry.author.clone(), entry.body.clone());
            let new = NewEntry { id: Some(entry.id), author, aircraft: entry.aircraft, body };
            journal.append(&entry.at, vec![new]).unwrap();
        }
        journal.close().unwrap();
        let now = at_min(60 * 24 * 30);
        let phone = Phone::open(&path, &now).unwrap();
        let truth = phone.verify().unwrap();
        Live { phone, truth, now, _folder: folder }
    }

    fn desk(&self) -> PilotDesk {
        self.phone.pilot().unwrap()
    }

    fn save(&self) -> Vec<u8> {
        let desk = self.desk();
        desk.tap(&go(Place::Backup), &self.now).unwrap();
        let mut screen = desk.saving(&gives_backup(), "it.zip", &self.now).unwrap().screen;
        let mut file = Vec::new();
        while screen.work == Some(Work::Write) {
            file.extend(desk.piece().unwrap().into_iter().flatten());
            screen = desk.wrote(Wrote::Kept, &self.now).unwrap().screen;
        }
        file
    }

    /// Whether it was brought in, and took the place of what was there.
    fn bring_in(&self, file: &[u8], ids: &[EntryId], u: &mut Unstructured<'_>) -> Result<bool> {
        let screen = self.checked(file);
        let (said, why) = verdict(&screen);
        if said == "This file cannot be brought in." {
            let is_storage = why.starts_with("the journal could not be");
            assert!(!why.is_empty() && !is_storage, "the file is at fault, not the storage: {why}");
            assert_eq!(self.phone.verify().expect("the record that is there"), self.truth);
            return Ok(false);
        }
        let desk = self.desk();
        let laid = desk.tap(&journals(Journals::LayIn), &self.now);
        if laid.is_err() {
            // A plan of its own that this version cannot read, say: nothing was changed.
            assert_eq!(self.phone.verify().expect("the record that is there"), self.truth);
            return Ok(true);
        }
        self.phone.verify().expect("what was brought in holds together");
        pages::some(&self.phone, ids, &self.now, u)?;
        Ok(true)
    }

    /// The page that says what became of a file.
    fn checked(&self, file: &[u8]) -> Screen {
        let (desk, now) = (self.desk(), &self.now);
        desk.tap(&go(Place::Backup), now).unwrap();
        let mut tapped = desk.picked(&takes_backup(), "it.zip", Some(file.len() as u64), now).unwrap();
        for piece in file.chunks(PIECE).chain([&[][..]]) {
            if tapped.screen.work != Some(Work::Feed) {
                break;
            }
            tapped = desk.fed(Some(piece), now).unwrap();
        }
        until_done(&desk, tapped.screen, now)
    }
}

fn verdict(screen: &Screen) -> (String, String) {
    let found = screen.blocks.iter().find_map(|block| match block {
        Block::Verdict { text, detail, .. } => Some((text.clone(), detail.clone().unwrap_or_default())),
        _ => None,
    });
    found.unwrap_or_else(|| panic!("nothing is said of it: {screen:?}"))
}

/// Why a backup is refused whose last entry was changed, in a chain that closes over it all the same.
pub fn refusal_with_last(change: impl FnOnce(&mut Row)) -> String {
    let mut rows: Vec<Row> = STORY[..4].iter().map(Row::of).collect();
    change(&mut rows[3]);
    chained::close(&mut rows);
    let lines = chained::lines(&rows);
    let file = container(chained::manifest(&rows, lines.as_bytes()).as_bytes(), lines.as_bytes());
    let (said, why) = verdict(&Live::begin().checked(&file));
    assert_eq!(said, "This file cannot be brought in.");
    why
}

fn container(manifest: &[u8], lines: &[u8]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in [("entries.jsonl", lines), ("manifest.json", manifest)] {
        zip.start_file(name, SimpleFileOptions::default()).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// The first rows of the history, in a chain that closes.
fn rows(count: usize) -> Vec<Row> {
    let mut rows: Vec<Row> = STORY[..count].iter().map(Row::of).collect();
    chained::close(&mut rows);
    rows
}

/// Lines that were changed, under a manifest that has their digest.
fn lines_changed(u: &mut Unstructured<'_>) -> Result<Vec<u8>> {
    let rows = rows(4);
    let lines = changed(chained::lines(&rows).as_bytes(), u)?;
    Ok(container(chained::manifest(&rows, &lines).as_bytes(), &lines))
}

/// A manifest that was changed, over lines that are whole.
fn manifest_changed(u: &mut Unstructured<'_>) -> Result<Vec<u8>> {
    let rows = rows(4);
    let lines = chained::lines(&rows);
    Ok(container(&changed(chained::manifest(&rows, lines.as_bytes()).as_bytes(), u)?, lines.as_bytes()))
}

/// Entries that say anything, in columns that hold anything, behind some of a history; and the names of all.
fn entries_that_say_anything(u: &mut Unstructured<'_>) -> Result<(Vec<u8>, Vec<EntryId>)> {
    let known = u.int_in_range(1..=STORY.len())?;
    let mut rows = rows(known);
    for _ in 0..u.int_in_range(1..=3)? {
        let mut row = Row { body: likely(u)?, withdraws: None, ..rows[rows.len() - 1].clone() };
        // The row before it may stand at any place.
        row.seq = row.seq.wrapping_add(1);
        row.id = *Uuid::from_u128(0x5000_u128.wrapping_add(row.seq as u128)).as_bytes();
        row.kind = kind(&row.body);
        row.withdraws = named_by_withdrawal(&row);
        if u.ratio(1, 3)? {
            odd_column(&mut row, u)?;
        }
        rows.push(row);
    }
    chained::close(&mut rows);
    let lines = chained::lines(&rows);
    let ids = rows.iter().map(|row| EntryId(Uuid::from_bytes(row.id))).collect();
    Ok((container(chained::manifest(&rows, lines.as_bytes()).as_bytes(), lines.as_bytes()), ids))
}

fn kind(body: &str) -> String {
    let value: serde_json::Value = serde_json::from_str(body).unwrap_or_default();
    value["kind"].as_str().unwrap_or("changed").to_owned()
}

fn named_by_withdrawal(row: &Row) -> Option<[u8; 16]> {
    let stored = StoredBody { kind: row.kind.clone(), version: 1, json: row.body.clone() };
    match stored.read() {
        Ok(Body::Withdrawn { entry, .. }) => Some(*entry.0.as_bytes()),
        _ => None,
    }
}

fn odd_column(row: &mut Row, u: &mut Unstructured<'_>) -> Result<()> {
    let odd = *u.choose(&[i64::MIN, -1, 0, 1, 2, i64::MAX])?;
    match u.int_in_range(0..=9)? {
        0 => row.seq = odd,
        1 => row.id = *STORY[0].id.0.as_bytes(),
        2 => {
            row.at = (*u.choose(&["0000-01-01T00:00:00+23:59", "9999-12-31T23:59:59.999-23:59", "today", ""])?).into()
        }
        3 => row.monotonic_ms = odd,
        4 => row.boot = u.arbitrary()?,
        5 => row.author = String::from_utf8_lossy(&changed(br#"{"role":"spotter","name":"Sam"}"#, u)?).into_owned(),
        6 => row.kind = u.arbitrary()?,
        7 => row.version = odd,
        8 => row.withdraws = Some(*STORY[u.int_in_range(0..=3)?].id.0.as_bytes()),
        _ => row.kind = "illegible".to_owned(),
    }
    Ok(())
}
