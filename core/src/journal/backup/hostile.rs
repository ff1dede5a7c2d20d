//! A backup that was changed on its way: whatever became of it, nothing else than the record that was packed ever comes out.
#![allow(clippy::unwrap_used)]

use std::path::Path;

use super::{ArrivingBackup, Packing};
use crate::journal::{Journal, JournalError, NewEntry, Verified};
use crate::record::{Body, Moment};

/// Entries of the backup that is changed.
const ENTRIES: usize = 1_000;

fn moment(minute: usize) -> Moment {
    let wall = chrono::DateTime::parse_from_rfc3339("2026-03-07T10:00:00+01:00").unwrap();
    let wall = wall + chrono::TimeDelta::minutes(minute as i64);
    Moment { wall, monotonic_ms: minute as i64 * 60_000, boot: "first".into() }
}

fn recorded(path: &Path) -> Journal {
    let mut journal = Journal::open(path).unwrap();
    for number in 0..ENTRIES / 50 {
        let notes = (0..50).map(|place| {
            let number = number * 50 + place;
            let body = Body::AircraftNamed { name: format!("Nr. {number}"), builder: "Ada".into(), pilot: None };
            NewEntry::pilot(body)
        });
        journal.append(&moment(number), notes.collect()).unwrap();
    }
    journal
}

fn packed(journal: &Journal) -> Vec<u8> {
    let mut packing = Packing::begin(journal).unwrap();
    let mut bytes = Vec::new();
    while let Some(piece) = packing.next(journal).unwrap() {
        bytes.extend(piece);
    }
    bytes
}

/// What comes out of a file.
fn brought(here: &Journal, file: &[u8]) -> Result<Verified, JournalError> {
    let mut arriving = ArrivingBackup::begin(here).unwrap();
    arriving.take(file).unwrap();
    let mut unpacking = arriving.end()?;
    while !unpacking.step()? {}
    unpacking.into_journal().verify()
}

/// Which bytes are changed: so many, spread over the file and its ends; all where that is asked for, or one in so many.
fn places(length: usize) -> Vec<usize> {
    let most = match std::env::var("BACKUP_EVERY_BYTE").map(|every| every.parse()) {
        Ok(every) => length / every.unwrap_or(1),
        Err(_) => 60,
    };
    let spread = (0..most).map(|place| place * length / most);
    // The directory and its end are where a container is believed.
    let mut all: Vec<usize> = spread.chain(length.saturating_sub(100)..length).collect();
    all.sort_unstable();
    all.dedup();
    all
}

#[test]
#[allow(clippy::print_stdout)] // what was tried
fn no_changed_deleted_or_swapped_byte_and_no_cut_end_brings_in_anything_else() {
    let folder = tempfile::tempdir().unwrap();
    let journal = recorded(&folder.path().join("journal.db"));
    let file = packed(&journal);
    let truth = journal.verify().unwrap();
    let here = Journal::open(&folder.path().join("other.db")).unwrap();
    assert_eq!(brought(&here, &file).unwrap(), truth);
    let (mut refused, mut harmless) = (0, std::collections::BTreeSet::new());
    let mut hold = |what: &str, place: usize, changed: &[u8]| match brought(&here, changed) {
        // Two bytes that are the same were swapped.
        _ if changed == file => {}
        Err(JournalError::Backup { .. }) => refused += 1,
        Err(other) => panic!("{what} {place}: {other:?}"),
        // A byte that says nothing of the record: a time, a permission, the text for whoever opens it.
        Ok(same) => {
            assert_eq!(same, truth, "{what} {place}");
            harmless.insert((place, what.to_owned()));
        }
    };
    for place in places(file.len()) {
        for flip in [0x01, 0x80] {
            let mut changed = file.clone();
            changed[place] ^= flip;
            hold("changed", place, &changed);
        }
        let mut shorter = file.clone();
        shorter.remove(place);
        hold("deleted", place, &shorter);
        let mut swapped = file.clone();
        swapped.swap(place, (place + 1) % file.len());
        hold("swapped", place, &swapped);
        hold("cut", place, &file[..place]);
    }
    let read_me = file.windows(13).position(|window| window == b"entries.jsonl").unwrap();
    let in_the_text = harmless.iter().filter(|(place, _)| *place < read_me).count();
    println!(
        "{} bytes, {} of them changed twice, deleted, swapped, and cut there: {refused} refused, {} changed nothing of the record ({in_the_text} \
         of them in the text for whoever opens it)",
        file.len(),
        places(file.len()).len(),
        harmless.len()
    );
    assert!(refused > 4 * harmless.len(), "{refused} refused, {harmless:?} harmless");
}

#[test]
fn a_line_left_out_changed_or_put_elsewhere_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let journal = recorded(&folder.path().join("journal.db"));
    let file = packed(&journal);
    let here = Journal::open(&folder.path().join("other.db")).unwrap();
    let again = |change: &dyn Fn(&mut Vec<String>)| {
        let mut container = zip::ZipArchive::new(std::io::Cursor::new(&file)).unwrap();
        let mut lines = String::new();
        std::io::Read::read_to_string(&mut container.by_name("entries.jsonl").unwrap(), &mut lines).unwrap();
        let mut lines: Vec<String> = lines.lines().map(str::to_owned).collect();
        change(&mut lines);
        let mut other = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
        for name in ["manifest.json", "entries.jsonl"] {
            other.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
            match name {
                "entries.jsonl" => {
                    let text = lines.iter().map(|line| format!("{line}\n")).collect::<String>();
                    std::io::Write::write_all(&mut other, text.as_bytes()).unwrap();
                }
                _ => drop(std::io::copy(&mut container.by_name(name).unwrap(), &mut other).unwrap()),
            }
        }
        brought(&here, &other.finish().unwrap().into_inner()).map_err(|error| error.to_string())
    };
    assert!(again(&|_| ()).is_ok());
    let line = |line: i64| format!("line {line} of 'entries.jsonl'");
    let left_out = again(&|lines| drop(lines.remove(499))).unwrap_err();
    assert!(left_out.contains(&line(500)), "{left_out}");
    let changed = again(&|lines| lines[700] = lines[700].replace("Nr. 700", "Nr. 701")).unwrap_err();
    assert!(changed.contains(&line(701)), "{changed}");
    let swapped = again(&|lines| lines.swap(10, 11)).unwrap_err();
    assert!(swapped.contains(&line(11)), "{swapped}");
    let cut = again(&|lines| lines.truncate(900)).unwrap_err();
    assert!(cut.contains("'entries.jsonl' is not what its digest says"), "{cut}");
}
