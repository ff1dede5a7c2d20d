//! What a touch, a screen and an opening cost, each beside an anchor that is measured in the same run, at journals of a real mix that are
//! as long as asked for: flights with their logs, findings that were fixed and proven, checks. Rows of a table, for `tests/bench`.
//!
//! `cargo bench -p liftgate-tests --bench table -- 500 5000` measures at these lengths; without any at 500, 5,000, 50,000 and 1,000,000;
//! `-- hangar 5000` ten aircraft of so many entries each, and nothing else.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout, clippy::print_stderr)]

use std::collections::HashMap;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::time::Instant;

use chrono::Duration;
use liftgate_core::app::Phone;
use liftgate_core::journal::{Journal, NewEntry};
use liftgate_core::record::{AircraftId, Body, Entry, EntryId, Moment};
use liftgate_tests::Person;
use liftgate_tests::example::{Kind, hover_log};
use liftgate_tests::walk::Walk;
use rusqlite::Connection;
use uuid::Uuid;

const FLIGHT: &str = "Flight in service";
/// Milliseconds that a touch may take in the core, and that opening may take.
const TOUCH_MS: f64 = 5.0;
const OPENING_MS: f64 = 50.0;
/// Milliseconds between two pictures of a screen that shows sixty a second.
const FRAME_MS: f64 = 16.0;

/// One row: what, how much in which unit, beside which anchor, and the budget of the value, where it has one.
fn row(what: &str, value: f64, unit: &str, anchor: &str, beside: f64, budget: Option<f64>) {
    let budget_words = budget.map_or_else(String::new, |budget| format!("{budget}"));
    let held = budget.map_or("", |budget| if value <= budget { "held" } else { "over" });
    println!("row\t{what}\t{value:.3}\t{unit}\t{anchor}\t{beside:.3}\t{:.2}\t{budget_words}\t{held}", value / beside);
}

fn ms(work: impl FnOnce()) -> f64 {
    let from = Instant::now();
    work();
    from.elapsed().as_secs_f64() * 1e3
}

/// The middle of as many measurements as are asked for.
fn middle(times: usize, mut measure: impl FnMut() -> f64) -> f64 {
    let mut all: Vec<f64> = (0..times).map(|_| measure()).collect();
    all.sort_by(f64::total_cmp);
    all[all.len() / 2]
}

/// Memory that this process holds at the moment, bytes.
fn held() -> usize {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find(|line| line.starts_with("VmRSS")).unwrap();
    line.split_whitespace().nth(1).unwrap().parse::<usize>().unwrap() * 1024
}

/// What a day in service leaves: a flight with its landing and its log, a finding with its fix, and the flight that proves it.
struct Season {
    /// A journal as the app left it before such a day, closed.
    file: PathBuf,
    /// The day's entries.
    day: Vec<Entry>,
    now: Moment,
    before: usize,
    _person: Person,
}

fn season() -> Season {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let before = walk.person.entries().len();
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.person.tap("Raise a finding");
    walk.person.enter("What is wrong", "Tail wags a little in gusts");
    walk.person.tap("Raise it");
    walk.person.home();
    walk.step();
    walk.land();
    walk.to_the_log();
    walk.person.pick("Pick a log", "hover.csv", hover_log().as_bytes());
    walk.person.tap("Attach this log");
    walk.person.home();
    walk.person.tap("Findings");
    walk.person.tap("1. Tail wags a little in gusts");
    walk.person.enter("What was done", "Tail gain down a tenth");
    walk.person.tap("Record the fix");
    walk.person.home();
    walk.until_flight(FLIGHT);
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.land();
    let day = walk.person.entries().split_off(before);
    let has =
        |kind: fn(&Body) -> bool| assert!(day.iter().any(|entry| kind(&entry.body)), "the day is not a real mix");
    has(|body| matches!(body, Body::LandingRecorded { .. }));
    has(|body| matches!(body, Body::LogAttached { .. }));
    has(|body| matches!(body, Body::FindingRaised { .. }));
    has(|body| matches!(body, Body::FindingFixed { .. }));
    walk.person.phone.close().unwrap();
    let (file, now) = (walk.person.journal(), walk.person.now.clone());
    Season { file, day, now, before, _person: walk.person }
}

impl Season {
    /// The same file with the day again and again, until it has so many entries or a few more. References within a day go along.
    fn drawn_out(&self, wanted: usize, folder: &Path) -> (PathBuf, Moment) {
        let path = folder.join(format!("{wanted}.db"));
        std::fs::copy(&self.file, &path).unwrap();
        let mut journal = Journal::open(&path).unwrap();
        let mut now = self.now.clone();
        let mut count = self.before + self.day.len();
        let texts: Vec<String> = self.day.iter().map(|entry| serde_json::to_string(&entry.body).unwrap()).collect();
        // A million entries a day at a time would be fifty thousand writes to the disk: there, twenty days go into one.
        let at_once = if wanted > 100_000 { 20 } else { 1 };
        while count < wanted {
            now.wall += Duration::days(1);
            now.monotonic_ms += 86_400_000;
            let new: Vec<NewEntry> = (0..at_once).flat_map(|_| self.another_day(&texts)).collect();
            count += new.len();
            journal.append(&now, new).unwrap();
        }
        journal.close().unwrap();
        (path, now)
    }

    /// The day's entries under names of their own.
    fn another_day(&self, texts: &[String]) -> Vec<NewEntry> {
        let ids: Vec<(String, EntryId)> =
            self.day.iter().map(|entry| (entry.id.0.to_string(), EntryId(Uuid::now_v7()))).collect();
        let new = self.day.iter().zip(texts).zip(&ids).map(|((entry, text), (_, id))| {
            let refers = ids.iter().filter(|(old, _)| text.contains(old.as_str()));
            let text = refers.fold(text.clone(), |text, (old, new)| text.replace(old.as_str(), &new.0.to_string()));
            let body = serde_json::from_str(&text).unwrap();
            NewEntry { id: Some(*id), author: entry.author.clone(), aircraft: entry.aircraft, body }
        });
        new.collect()
    }
}

/// A table of the journal's columns with nothing around it, written as durably: what a recorded touch is held against.
fn bare(folder: &Path) -> Connection {
    let path = folder.join("bare.db");
    if path.exists() {
        std::fs::remove_file(&path).unwrap();
    }
    let bare = Connection::open(path).unwrap();
    bare.pragma_update(None, "journal_mode", "WAL").unwrap();
    bare.pragma_update(None, "synchronous", "FULL").unwrap();
    bare.execute_batch("CREATE TABLE bare (seq INTEGER PRIMARY KEY, row BLOB NOT NULL) STRICT").unwrap();
    bare
}

fn touch(folder: &Path, path: &Path, now: &Moment, count: usize) {
    let mut person = Person::with(&std::fs::read(path).unwrap(), now.clone());
    person.home();
    person.tap("Fire or accident");
    person.enter("Number to call", "112");
    person.enter("Address of the site, and the way in", "Mill Lane 4, second gate");
    person.tap("Record");
    let record = person.control("Record").unwrap();
    // An entry's row: its body beside identifier, two digests, moment and author.
    let bytes = vec![7_u8; serde_json::to_string(&person.last()).unwrap().len() + 16 + 64 + 120];
    let bare = bare(folder);
    let mut insert = bare.prepare("INSERT INTO bare (row) VALUES (?)").unwrap();
    let times = if count > 100_000 { 5 } else { 41 };
    let mut anchors = Vec::new();
    let value = middle(times, || {
        anchors.push(ms(|| assert_eq!(insert.execute([&bytes]).unwrap(), 1)));
        person.wait(1);
        ms(|| drop(person.phone.pilot().unwrap().tap(&record.token, &person.now).unwrap()))
    });
    anchors.sort_by(f64::total_cmp);
    let what = format!("a touch that records, {count} entries");
    row(
        &what,
        value,
        "ms",
        "a bare SQLite insert of the same bytes, as durable",
        anchors[anchors.len() / 2],
        Some(TOUCH_MS),
    );
}

/// Board, card, opening and memory at one length; gives back what board and card took.
fn at_length(season: &Season, folder: &Path, count: usize, first: Option<(f64, f64)>) -> (f64, f64) {
    eprintln!("bench: a journal of {count} entries");
    let (path, now) = season.drawn_out(count, folder);
    let size = std::fs::metadata(&path).unwrap().len() as f64 / 1e6;
    let times = if count > 10_000 { 3 } else { 9 };
    let read = middle(times, || {
        let bare = Connection::open(&path).unwrap();
        let mut all = bare.prepare("SELECT * FROM entry ORDER BY seq").unwrap();
        ms(|| {
            let mut rows = all.query([]).unwrap();
            while let Some(row) = rows.next().unwrap() {
                black_box(row.get_ref(8).unwrap());
            }
        })
    });
    let before = held();
    let mut opened = None;
    let opening = middle(times, || {
        if let Some(phone) = opened.take() {
            let phone: Phone = phone;
            phone.close().unwrap();
        }
        ms(|| opened = Some(Phone::open(&path, &now).unwrap()))
    });
    let phone = opened.unwrap();
    let memory = (held().saturating_sub(before)) as f64 / 1e6;
    row(
        &format!("opening, {count} entries"),
        opening,
        "ms",
        "reading the same rows by bare SQLite",
        read,
        Some(OPENING_MS),
    );
    row(&format!("memory, {count} entries"), memory, "MB", "the file", size, None);
    let pilot = phone.pilot().unwrap();
    let go = |command: liftgate_core::view::Place| {
        let token: liftgate_core::view::Token = command.into();
        drop(pilot.tap(&token, &now).unwrap());
        middle(times * 3, || ms(|| drop(black_box(pilot.screen(&now).unwrap()))))
    };
    let board = go(liftgate_core::view::Place::Board);
    let card = go(liftgate_core::view::Place::Card("service-flight".to_owned()));
    let (first_board, first_card) = first.unwrap_or((board, card));
    row(
        &format!("board, {count} entries"),
        board,
        "ms",
        "the board of the shortest journal",
        first_board,
        Some(TOUCH_MS),
    );
    row(
        &format!("card, {count} entries"),
        card,
        "ms",
        "the card of the shortest journal",
        first_card,
        Some(TOUCH_MS),
    );
    phone.close().unwrap();
    touch(folder, &path, &now, count);
    (board, card)
}

/// Ten aircraft of so many entries each in one journal, beside one aircraft with as many entries as all of them.
fn hangar(season: &Season, folder: &Path, of_each: usize) {
    const AIRCRAFT: usize = 10;
    eprintln!("bench: {AIRCRAFT} aircraft of {of_each} entries each");
    let opening = |path: &Path, now: &Moment| {
        middle(3, || {
            let mut opened = None;
            let took = ms(|| opened = Some(Phone::open(path, now).unwrap()));
            opened.unwrap().close().unwrap();
            took
        })
    };
    let (alone, then) = season.drawn_out(AIRCRAFT * of_each, folder);
    let one = opening(&alone, &then);
    let (path, now) = season.drawn_out(of_each, folder);
    let mut journal = Journal::open(&path).unwrap();
    let first = journal.entries().unwrap();
    for _ in 1..AIRCRAFT {
        let new = another_aircraft(&first);
        journal.append(&now, new).unwrap();
    }
    journal.close().unwrap();
    let what = |of: &str| format!("{of}, {AIRCRAFT} aircraft of {of_each} entries");
    row(&what("opening"), opening(&path, &now), "ms", "one aircraft with as many entries", one, Some(2.0 * one));
    let phone = Phone::open(&path, &now).unwrap();
    let pilot = phone.pilot().unwrap();
    let go = |place: liftgate_core::view::Place| {
        let token: liftgate_core::view::Token = place.into();
        ms(|| drop(pilot.tap(&token, &now).unwrap()))
    };
    let screen = || middle(9, || ms(|| drop(black_box(pilot.screen(&now).unwrap()))));
    go(liftgate_core::view::Place::Board);
    let board = screen();
    row(&what("board"), board, "ms", "a frame", FRAME_MS, Some(FRAME_MS));
    let look = go(liftgate_core::view::Place::Hangar);
    row(&what("the list, looked at first"), look, "ms", "opening one aircraft with as many entries", one, None);
    row(&what("the list"), screen(), "ms", "a frame", FRAME_MS, Some(FRAME_MS));
    phone.close().unwrap();
}

/// The entries of one aircraft again as another's: every entry, and every reference to one, under a name of its own.
fn another_aircraft(first: &[Entry]) -> Vec<NewEntry> {
    let names: HashMap<String, EntryId> =
        first.iter().map(|entry| (entry.id.0.to_string(), EntryId(Uuid::now_v7()))).collect();
    let id = EntryId(Uuid::now_v7());
    let aircraft = AircraftId(Some(id));
    let new = first.iter().map(|entry| {
        let mut said = serde_json::to_value(&entry.body).unwrap();
        rename(&mut said, &names);
        let (author, body) = (entry.author.clone(), serde_json::from_value(said).unwrap());
        NewEntry { id: Some(names[&entry.id.0.to_string()]), author, aircraft, body }
    });
    let (plan, edition, text) = first
        .iter()
        .find_map(|entry| match &entry.body {
            Body::PlanAdopted { plan, edition, text } => Some((plan.clone(), edition.clone(), text.clone())),
            _ => None,
        })
        .unwrap();
    let begun = NewEntry::pilot(Body::AircraftBegun { plan, edition, text }).named(id).of(aircraft);
    std::iter::once(begun).chain(new).collect()
}

fn rename(said: &mut serde_json::Value, names: &HashMap<String, EntryId>) {
    match said {
        serde_json::Value::String(text) => {
            if let Some(new) = names.get(text.as_str()) {
                *text = new.0.to_string();
            }
        }
        serde_json::Value::Array(all) => all.iter_mut().for_each(|said| rename(said, names)),
        serde_json::Value::Object(all) => all.values_mut().for_each(|said| rename(said, names)),
        _ => {}
    }
}

fn dossier(season: &Season, folder: &Path) {
    let mut person = Person::with(&std::fs::read(&season.file).unwrap(), season.now.clone());
    person.home();
    let mut bytes = 0;
    let value = middle(3, || ms(|| bytes = person.dossier().len()));
    let beside = middle(3, || {
        ms(|| {
            use std::io::Write;
            let mut file = std::fs::File::create(folder.join("dossier.html")).unwrap();
            file.write_all(&vec![b' '; bytes]).unwrap();
            file.sync_all().unwrap();
        })
    });
    let what = format!("the dossier of a walked season, {} kB", bytes / 1000);
    row(&what, value, "ms", "writing and syncing as many bytes", beside, Some(1_000.0));
}

fn main() {
    let is_hangar = std::env::args().any(|word| word == "hangar");
    let counts: Vec<usize> = std::env::args().filter_map(|word| word.parse().ok()).collect();
    let counts = if counts.is_empty() { vec![500, 5_000, 50_000, 1_000_000] } else { counts };
    let season = season();
    let folder = tempfile::tempdir().unwrap();
    eprintln!("bench: a season of {} entries, a day of {}", season.before, season.day.len());
    if is_hangar {
        return hangar(&season, folder.path(), counts[0]);
    }
    let mut first = None;
    for count in counts {
        let took = at_length(&season, folder.path(), count, first);
        first = first.or(Some(took));
    }
    hangar(&season, folder.path(), 5_000);
    dossier(&season, folder.path());
}
