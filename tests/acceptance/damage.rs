//! A damaged file never shuts the person out, and nothing of it that can still be read is lost.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use liftgate_core::app::Phone;
use liftgate_core::record::{Body, Entry, Moment};
use liftgate_core::view::Edge;
use liftgate_tests::example::{Kind, hover_log};
use liftgate_tests::walk::Walk;
use liftgate_tests::{Person, Spread};

const GO_ON: &str = "Go on with what can be read";
const PAGE: usize = 4096;

/// A journal with flights, releases and a log, closed: its bytes, its entries, and the moment.
struct Whole {
    file: Vec<u8>,
    entries: Vec<Entry>,
    now: Moment,
    backup: Vec<u8>,
}

fn whole() -> &'static Whole {
    static MADE: OnceLock<Whole> = OnceLock::new();
    MADE.get_or_init(|| {
        let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
        walk.person.pick("Pick a log", "hover.csv", hover_log().as_bytes());
        walk.person.tap("Attach this log");
        walk.person.home();
        let backup = walk.person.backup();
        let (now, entries) = (walk.person.now.clone(), walk.person.entries());
        walk.person.phone.close().unwrap();
        Whole { file: std::fs::read(walk.person.journal()).unwrap(), entries, now, backup }
    })
}

/// A folder with a file that looks like it was open here before.
fn laid(file: &[u8]) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("journal.db");
    std::fs::write(&path, file).unwrap();
    std::fs::write(folder.path().join("journal.db-lock"), b"").unwrap();
    (folder, path)
}

/// What became of a file once the person went on with it.
struct Opened {
    was_damaged: bool,
    entries: BTreeMap<i64, Entry>,
    log_is_there: bool,
    set_aside: Option<Vec<u8>>,
}

fn opened(file: &[u8]) -> Opened {
    let (folder, path) = laid(file);
    let now = &whole().now;
    let phone = Phone::open(&path, now).unwrap_or_else(|error| panic!("it does not open: {error}"));
    let pilot = phone.pilot().unwrap();
    let screen = pilot.screen(now).unwrap();
    let was_damaged = screen.name == "damaged";
    if was_damaged {
        let tapped = pilot.tap(&screen.foot[0].token, now).unwrap_or_else(|error| panic!("no way on: {error}"));
        assert!(tapped.said.is_some() && tapped.screen.name != "damaged", "{tapped:?}");
    }
    phone.verify().unwrap_or_else(|error| panic!("the chain does not close: {error}"));
    phone.close().unwrap();
    let journal = liftgate_core::journal::Journal::open(&path).unwrap();
    let entries = journal.entries().unwrap();
    let log_is_there = lies(&path, hover_log().as_bytes());
    let set_aside = std::fs::read(folder.path().join("journal.db-aside-1")).ok();
    Opened {
        was_damaged,
        entries: entries.into_iter().map(|entry| (entry.seq, entry)).collect(),
        log_is_there,
        set_aside,
    }
}

/// Whether the log's first bytes lie in the file.
fn lies(path: &Path, log: &[u8]) -> bool {
    let file = std::fs::read(path).unwrap();
    file.windows(200).any(|window| window == &log[..200])
}

/// How many of the entries are not there as they were.
fn lost(opened: &Opened) -> usize {
    whole().entries.iter().filter(|entry| opened.entries.get(&entry.seq) != Some(entry)).count()
}

/// So many flips on each page; more where `DAMAGE_FLIPS` asks for them.
fn flips() -> u64 {
    std::env::var("DAMAGE_FLIPS").ok().and_then(|flips| flips.parse().ok()).unwrap_or(1)
}

#[test]
#[allow(clippy::print_stdout)] // what was measured
fn a_flipped_bit_anywhere_costs_one_entry_at_most_and_never_the_way_in() {
    let whole = whole();
    let pages = whole.file.len().div_ceil(PAGE);
    let (mut damaged, mut costs) = (0, 0);
    for page in 0..pages {
        for flip in 0..flips() {
            let bit = Spread::from((page as u64) << 16 | flip).below(PAGE as u64 * 8) as usize;
            let place = page * PAGE + bit / 8;
            let mut file = whole.file.clone();
            file[place] ^= 1 << (bit % 8);
            let found = opened(&file);
            let lost = lost(&found);
            assert!(lost <= 1, "byte {place}: {lost} entries");
            if found.was_damaged {
                damaged += 1;
                assert_eq!(found.set_aside.as_deref(), Some(&file[..]), "byte {place}: set aside byte for byte");
                // Where the plan itself is missing, the one that the app ships is adopted anew behind that.
                let behind = found.entries.range(whole.entries.len() as i64 + 1..);
                let said: Vec<&Body> = behind.map(|(_, entry)| &entry.body).collect();
                let is_said =
                    matches!(said[..], [Body::Repaired { .. }] | [Body::Repaired { .. }, Body::PlanAdopted { .. }]);
                assert!(is_said, "byte {place}: {said:?}");
            } else {
                assert_eq!(lost, 0, "byte {place}: changed, and nobody was told");
            }
            costs += lost;
        }
    }
    println!("{pages} pages, {damaged} flips found when opened, {costs} entries lost");
    assert!(damaged > 10 && costs > 0, "{damaged} found, {costs} lost");
}

#[test]
fn each_byte_of_the_header_may_be_wrong() {
    for place in 0..100 {
        let mut file = whole().file.clone();
        file[place] ^= 0x10;
        let found = opened(&file);
        assert_eq!(lost(&found), 0, "byte {place} of the header");
        assert!(found.log_is_there, "byte {place} of the header");
    }
}

#[test]
fn a_page_that_is_gone_costs_what_was_on_it_and_a_file_without_its_end_what_was_behind() {
    let whole = whole();
    let pages = whole.file.len() / PAGE;
    for page in (0..pages).step_by(7) {
        let mut file = whole.file.clone();
        file[page * PAGE..(page + 1) * PAGE].fill(0);
        let found = opened(&file);
        // A row takes some 180 bytes at the least: two digests, a name, a time and a body.
        assert!(lost(&found) < 24, "page {page}: {} entries", lost(&found));
    }
    let cut = opened(&whole.file[..whole.file.len() / 5 * 4]);
    assert!(cut.was_damaged);
    let kept = whole.entries.len() - lost(&cut);
    assert!(kept > whole.entries.len() / 5, "{kept} of {}", whole.entries.len());
    let nothing = opened(&vec![0x5A; 40_000]);
    assert!(nothing.was_damaged);
    assert_eq!(lost(&nothing), whole.entries.len());
}

/// A flipped bit in the text of the entry that this picks.
fn damaged_in(which: impl Fn(&Body) -> bool) -> (Vec<u8>, i64) {
    let whole = whole();
    let entry = whole.entries.iter().find(|entry| which(&entry.body)).unwrap();
    let id = *entry.id.0.as_bytes();
    // The row of the table; an index holds the id alone.
    let moment = entry.at.wall.to_rfc3339_opts(chrono::SecondsFormat::Millis, false);
    let row = [&id[..], moment.as_bytes()].concat();
    let mut file = whole.file.clone();
    // A row that was moved from one page to another has left a copy behind.
    let places: Vec<usize> = (0..file.len() - row.len()).filter(|at| file[*at..].starts_with(&row)).collect();
    assert!(!places.is_empty(), "entry {} is in the file", entry.seq);
    places.iter().for_each(|place| file[place + id.len() + 3] ^= 0x01);
    (file, entry.seq)
}

#[test]
fn what_is_missing_is_shown_shuts_gates_and_comes_back_with_a_backup() {
    let whole = whole();
    // The proof of the first gate.
    let (file, seq) =
        damaged_in(|body| matches!(body, Body::CheckRecorded { check, .. } if check == "pack-polarity-and-cells"));
    let (_folder, path) = laid(&file);
    let mut person = Person::at(path);
    person.now = whole.now.clone();
    assert_eq!(person.verdict(), "The file that holds the record is damaged. Nothing of it is thrown away.");
    assert_eq!(person.row(&format!("Entry {seq}")).unwrap().1, "Missing");
    person.killed_and_the_same();
    let said = person.tap(GO_ON).said.unwrap();
    assert_eq!(said, "The record goes on. The damaged file is set aside as number 1.");
    person.home();
    assert!(!person.verdict().starts_with("Nothing stands between"), "{}", person.verdict());
    let (edge, word, _) = person.row("Bench electrics").unwrap();
    assert_eq!((edge, word.as_str()), (Edge::Stale, "Lapsed"));
    person.tap("Journal");
    assert!(
        person
            .words()
            .contains("The file was damaged; the record goes on with what could be read. 1 entry could not be read")
    );

    person.to_the_backup();
    person.bring_in("before.zip", &whole.backup);
    assert!(person.words().contains("1 entry that this phone does not have"), "{}", person.words());
    person.tap("Go on with the backup");
    assert_eq!(person.entries(), whole.entries);
    person.to_the_backup();
    assert!(person.control("Record 1, set aside").is_some() && person.control("Record 2, set aside").is_some());
}

#[test]
fn a_gate_that_was_released_after_what_is_missing_stands_and_one_before_it_is_decided_on_again() {
    let whole = whole();
    let (file, _) = damaged_in(|body| matches!(body, Body::AircraftNamed { .. }));
    let (_folder, path) = laid(&file);
    let mut person = Person::at(path);
    person.now = whole.now.clone();
    person.tap(GO_ON);
    // The name went with it; every gate was released later, by someone who knew what it said.
    let released = |person: &Person| person.row("Bench electrics").is_some_and(|(_, word, _)| word == "Released");
    person.home();
    assert!(released(&person), "{}", person.words());
    let last = whole.entries.iter().rposition(|entry| matches!(entry.body, Body::LandingRecorded { .. })).unwrap();
    let late = whole.entries[last].id;
    let (file, _) = damaged_in(|body| matches!(body, Body::LandingRecorded { card, .. } if card_of(late) == *card));
    let (_folder, path) = laid(&file);
    let mut person = Person::at(path);
    person.now = whole.now.clone();
    person.tap(GO_ON);
    person.home();
    assert!(!released(&person), "{}", person.words());
}

fn card_of(landing: liftgate_core::record::EntryId) -> liftgate_core::record::EntryId {
    let entry = whole().entries.iter().find(|entry| entry.id == landing).unwrap();
    match &entry.body {
        Body::LandingRecorded { card, .. } => *card,
        other => panic!("{other:?}"),
    }
}
