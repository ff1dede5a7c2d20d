//! Everything that a person can do which reaches the disk: what lies there before, the way up to it, and the act itself.

use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use liftgate_core::app::AppError;
use liftgate_core::journal::Journal;
use liftgate_core::locale::{Chosen, Language};
use liftgate_core::record::{Author, Body, Entry, MarkKind, Moment};
use liftgate_tests::Person;
use liftgate_tests::example::{Kind, hover_log};
use liftgate_tests::walk::Walk;
use tempfile::TempDir;

use super::disk::Files;
use super::hand::{Hand, a_day};
use super::watch;

pub const JOURNAL: &str = "journal.db";
const FIRST_FLIGHT: &str = "First start, slow, no blades";
const WITH_LOG: &str = "Hover at the lowest head speed";

/// A folder with a journal, and a hand on the phone.
pub struct Scene {
    pub folder: TempDir,
    pub now: Moment,
    pub hand: Option<Hand>,
    /// A document that the phone says is saved.
    pub saved: Option<Vec<u8>>,
}

type Did = Result<(), AppError>;

/// Something that a person can do.
pub struct Act {
    pub name: &'static str,
    /// What lies in the folder before.
    pub begins: fn() -> (Files, Moment),
    /// The way up to it.
    pub way: fn(&mut Scene) -> Did,
    pub does: fn(&mut Scene) -> Did,
    /// It is one commit: entries, drafts and place change together or not at all.
    pub is_one: bool,
    /// The walk up to what lies there before takes a while.
    pub is_long: bool,
}

impl Scene {
    pub fn of(files: &Files, now: &Moment) -> Scene {
        let scene = Scene { folder: in_memory(), now: now.clone(), hand: None, saved: None };
        lay(files, scene.folder.path());
        scene
    }

    pub fn journal(&self) -> PathBuf {
        self.folder.path().join(JOURNAL)
    }

    fn hand(&mut self) -> &mut Hand {
        self.hand.as_mut().expect("a hand on the phone")
    }

    fn open(&mut self) -> Did {
        self.hand = Some(Hand::open(&self.journal(), &self.now)?);
        Ok(())
    }
}

/// A folder that lies in memory where the system has such a place: a disk of its own would only be slower.
pub fn in_memory() -> TempDir {
    let memory = Path::new("/dev/shm");
    if memory.is_dir() { TempDir::new_in(memory) } else { TempDir::new() }.expect("a folder")
}

pub fn lay(files: &Files, folder: &Path) {
    files.iter().for_each(|(name, bytes)| std::fs::write(folder.join(name), bytes).expect("a file"));
}

/// What an entry says, without the names and times that differ from one run to the next.
pub fn said(entries: &[Entry]) -> Vec<(Author, Body)> {
    entries.iter().map(|entry| (entry.author.clone(), entry.body.clone())).collect()
}

/// The entries that are in the files now, read from a copy; none where they do not open.
pub fn entries_in(folder: &Path) -> Option<Vec<Entry>> {
    let copy = in_memory();
    lay(&watch::files(folder), copy.path());
    let journal = Journal::open(&copy.path().join(JOURNAL)).ok()?;
    journal.verify().ok()?;
    journal.entries().ok()
}

// -------------------------------------------------------------------------------------------- what lies there before

/// The files and the moment after someone did this and closed the app, or was killed.
fn left(killed: bool, does: impl FnOnce(&mut Hand) -> Did) -> (Files, Moment) {
    let folder = in_memory();
    let mut hand = Hand::open(&folder.path().join(JOURNAL), &a_day()).expect("a journal");
    does(&mut hand).expect("no fault yet");
    let alive = watch::files(folder.path());
    hand.phone.close().expect("it closes");
    (if killed { alive } else { watch::files(folder.path()) }, hand.now)
}

fn nothing() -> (Files, Moment) {
    (Files::new(), a_day())
}

fn some_notes(hand: &mut Hand) -> Did {
    ["112", "113", "114"].into_iter().try_for_each(|call| hand.note(call))?;
    hand.home()
}

fn noted() -> (Files, Moment) {
    static MADE: OnceLock<(Files, Moment)> = OnceLock::new();
    MADE.get_or_init(|| left(false, some_notes)).clone()
}

fn killed() -> (Files, Moment) {
    static MADE: OnceLock<(Files, Moment)> = OnceLock::new();
    MADE.get_or_init(|| left(true, some_notes)).clone()
}

/// A journal with a wrong bit in the text of an entry.
fn damaged() -> (Files, Moment) {
    let (mut files, now) = noted();
    let file = files.get_mut(JOURNAL).expect("a journal");
    let text = br#""call":"113""#;
    let places: Vec<usize> = (0..file.len() - text.len()).filter(|at| file[*at..].starts_with(text)).collect();
    assert!(!places.is_empty(), "the entry is in the file");
    places.iter().for_each(|place| file[place + 9] ^= 1);
    (files, now)
}

/// A power cut came between the renames of a change of place: the new one waits.
fn waiting() -> (Files, Moment) {
    let (mut files, now) = noted();
    let (other, _) = left(false, |hand| hand.note("911"));
    files.insert(format!("{JOURNAL}-next"), other[JOURNAL].clone());
    (files, now)
}

/// One record was set aside.
fn one_aside() -> (Files, Moment) {
    static MADE: OnceLock<(Files, Moment)> = OnceLock::new();
    MADE.get_or_init(|| {
        left(false, |hand| {
            some_notes(hand)?;
            picked_backup(hand)?;
            hand.tap("Go on with the backup")?;
            hand.home()
        })
    })
    .clone()
}

/// The backup of another record.
fn backup() -> &'static [u8] {
    static MADE: OnceLock<Vec<u8>> = OnceLock::new();
    MADE.get_or_init(|| {
        let folder = in_memory();
        let mut hand = Hand::open(&folder.path().join(JOURNAL), &a_day()).expect("a journal");
        ["1", "2"].into_iter().for_each(|call| hand.note(call).expect("no fault yet"));
        hand.go_to_the_backup().expect("no fault yet");
        hand.save("Save a backup").ok().flatten().expect("a backup")
    })
}

fn picked_backup(hand: &mut Hand) -> Did {
    hand.go_to_the_backup()?;
    hand.pick("Bring a backup in", backup()).map(drop)
}

/// Someone before a flight.
fn before_flight() -> (Files, Moment) {
    static MADE: OnceLock<(Files, Moment)> = OnceLock::new();
    MADE.get_or_init(|| {
        let mut walk = Walk::at_flight(Kind::Scale, FIRST_FLIGHT);
        walk.give_away();
        closed(walk.person)
    })
    .clone()
}

/// Someone at the log of a flight that was landed.
fn at_log() -> (Files, Moment) {
    static MADE: OnceLock<(Files, Moment)> = OnceLock::new();
    MADE.get_or_init(|| closed(Walk::at_log(Kind::Scale, WITH_LOG).person)).clone()
}

/// Someone with a log in the record.
fn with_log() -> (Files, Moment) {
    static MADE: OnceLock<(Files, Moment)> = OnceLock::new();
    MADE.get_or_init(|| {
        let mut walk = Walk::at_log(Kind::Scale, WITH_LOG);
        walk.person.pick("Pick a log", "hover.csv", hover_log().as_bytes());
        walk.person.tap("Attach this log");
        closed(walk.person)
    })
    .clone()
}

fn closed(person: Person) -> (Files, Moment) {
    person.phone.close().expect("it closes");
    (watch::files(person.journal().parent().expect("a folder")), person.now)
}

// -------------------------------------------------------------------------------------------- the acts

fn no_way(_: &mut Scene) -> Did {
    Ok(())
}

fn opened(scene: &mut Scene) -> Did {
    scene.open()
}

fn started(scene: &mut Scene) -> Did {
    scene.open()?;
    let hand = scene.hand();
    hand.phone.spotter()?.start(&hand.now)?;
    hand.wait(60);
    Ok(())
}

const fn act(
    name: &'static str,
    begins: fn() -> (Files, Moment),
    way: fn(&mut Scene) -> Did,
    does: fn(&mut Scene) -> Did,
) -> Act {
    Act { name, begins, way, does, is_one: false, is_long: false }
}

const fn one(act: Act) -> Act {
    Act { is_one: true, ..act }
}

const fn long(act: Act) -> Act {
    Act { is_long: true, ..act }
}

pub const ACTS: &[Act] = &[
    act("begin a record", nothing, no_way, opened),
    act("open it", noted, no_way, opened),
    act("open it after a kill", killed, no_way, opened),
    act("open it while another one waits to take its place", waiting, no_way, opened),
    act("close it", killed, opened, |scene| scene.hand().phone.close()),
    one(act(
        "type a word",
        noted,
        |scene| {
            scene.open()?;
            scene.hand().go_to_the_note("1")
        },
        |scene| scene.hand().enter("Number to call", "118"),
    )),
    one(act("go to a page", noted, opened, |scene| scene.hand().tap("Fire or accident").map(drop))),
    one(act(
        "record something typed",
        noted,
        |scene| {
            scene.open()?;
            scene.hand().go_to_the_note("115")
        },
        |scene| scene.hand().tap("Record number and address").map(drop),
    )),
    one(act("take it back", noted, opened, |scene| scene.hand().tap("Take back").map(drop))),
    act("choose a language", noted, opened, |scene| {
        scene.hand().phone.choose(Chosen { language: Some(Language::German), ..Chosen::default() })
    }),
    act(
        "save a backup",
        noted,
        |scene| {
            scene.open()?;
            scene.hand().go_to_the_backup()
        },
        saved,
    ),
    act("bring a backup in and compare", noted, opened, |scene| picked_backup(scene.hand())),
    act(
        "go on with the backup",
        noted,
        |scene| {
            scene.open()?;
            picked_backup(scene.hand())
        },
        |scene| go_on_with_the_backup(scene.hand()),
    ),
    act(
        "compare what was set aside",
        one_aside,
        |scene| {
            scene.open()?;
            scene.hand().go_to_the_backup()
        },
        |scene| scene.hand().taps(&["Record 1, set aside", "Compare and bring back"]),
    ),
    act(
        "bring back what was set aside",
        one_aside,
        |scene| {
            scene.open()?;
            scene.hand().go_to_the_backup()?;
            scene.hand().taps(&["Record 1, set aside", "Compare and bring back"])
        },
        |scene| go_on_with_the_backup(scene.hand()),
    ),
    act(
        "let go of it for good",
        one_aside,
        |scene| {
            scene.open()?;
            scene.hand().go_to_the_backup()?;
            scene.hand().tap("Record 1, set aside").map(drop)
        },
        |scene| scene.hand().tap("Let it go for good").map(drop),
    ),
    act("find the damage", damaged, no_way, opened),
    act("go on with what can be read", damaged, opened, |scene| {
        scene.hand().tap("Go on with what can be read").map(drop)
    }),
    long(one(act("mark a sound in flight", before_flight, started, |scene| {
        let Hand { phone, now } = scene.hand();
        phone.spotter()?.mark(MarkKind::Shake, now).map(drop)
    }))),
    long(one(act(
        "hand back after the flight",
        before_flight,
        |scene| {
            started(scene)?;
            let Hand { phone, now } = scene.hand();
            phone.spotter()?.land(now).map(drop)
        },
        |scene| {
            let Hand { phone, now } = scene.hand();
            phone.spotter()?.hand_back(now)
        },
    ))),
    long(act("take in a log", at_log, opened, |scene| {
        scene.hand().pick("Pick a log", hover_log().as_bytes()).map(drop)
    })),
    long(act(
        "attach the log",
        at_log,
        |scene| {
            scene.open()?;
            scene.hand().pick("Pick a log", hover_log().as_bytes()).map(drop)
        },
        |scene| scene.hand().tap("Attach this log").map(drop),
    )),
    long(act(
        "save a backup with a log",
        with_log,
        |scene| {
            scene.open()?;
            scene.hand().go_to_the_backup()
        },
        saved,
    )),
];

fn saved(scene: &mut Scene) -> Did {
    scene.saved = scene.hand().save("Save a backup")?;
    assert!(scene.saved.is_some(), "what is saved is said");
    Ok(())
}

/// What is not changed is said, too: then nothing is claimed.
fn go_on_with_the_backup(hand: &mut Hand) -> Did {
    let tapped = hand.tap("Go on with the backup")?;
    let said = tapped.said.unwrap_or_default();
    if said.starts_with("The backup is in place") {
        Ok(())
    } else {
        Err(AppError::Refused { field: None, reason: said })
    }
}
