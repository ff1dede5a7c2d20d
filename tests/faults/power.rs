//! The power is cut at every sync of everything that a person can do: what was not synced is there, is not, is torn, or came in another order.

use std::collections::BTreeMap;
use std::path::Path;

use liftgate_core::journal::{Journal, NewEntry};
use liftgate_core::record::{Body, Entry};
use liftgate_tests::Spread;
use rusqlite::Connection;

use super::disk::{Disk, Done, Files, Way};
use super::hand::a_day;
use super::scene::{Act, JOURNAL, Scene, in_memory, lay};
use super::{asked_for, vfs, wanted_acts, watch};

/// One act, done without a fault, with all that it did to the disk.
struct Trace {
    begun: Files,
    done: Vec<Done>,
    /// Where in all that was done the act began.
    began: usize,
    before: Standing,
    after: Standing,
}

/// What the files say: the entries, and what was typed and where the person is. None where they do not open.
#[derive(Debug, Clone, PartialEq)]
enum Standing {
    /// As damaged as it was.
    Damaged(Vec<u8>),
    Open {
        entries: Vec<Entry>,
        beside: Vec<String>,
    },
}

impl Standing {
    fn in_files(folder: &Path) -> Standing {
        let path = folder.join(JOURNAL);
        let entries = Journal::open(&path).and_then(|journal| {
            journal.verify()?;
            journal.entries()
        });
        match entries {
            Ok(entries) => Standing::Open { entries, beside: beside(&path) },
            Err(_) => Standing::Damaged(std::fs::read(&path).unwrap_or_default()),
        }
    }

    fn of_copy(folder: &Path) -> Standing {
        let copy = in_memory();
        lay(&watch::files(folder), copy.path());
        Standing::in_files(copy.path())
    }

    fn entries(&self) -> &[Entry] {
        match self {
            Standing::Open { entries, .. } => entries,
            Standing::Damaged(_) => &[],
        }
    }

    fn is_as(&self, other: &Standing, with_beside: bool) -> bool {
        match (self, other) {
            (Standing::Open { entries, beside }, Standing::Open { entries: others, beside: other }) => {
                entries == others && (!with_beside || beside == other)
            }
            (one, other) => one == other,
        }
    }
}

/// What was typed, and where the person is.
fn beside(path: &Path) -> Vec<String> {
    let connection = Connection::open(path).expect("a journal");
    let sql = "SELECT place || field || text FROM draft UNION ALL SELECT depth || place FROM bookmark ORDER BY 1";
    let mut statement = connection.prepare(sql).expect("the journal's tables");
    let rows = statement.query_map([], |row| row.get(0)).expect("rows");
    rows.collect::<Result<_, _>>().expect("texts")
}

fn trace(act: &Act) -> Trace {
    let (begun, now) = (act.begins)();
    let mut scene = Scene::of(&begun, &now);
    let folder = scene.folder.path().to_owned();
    watch::begin(&folder);
    (act.way)(&mut scene).unwrap_or_else(|error| panic!("the way to '{}': {error}", act.name));
    let (began, before) = (watch::so_far(), Standing::of_copy(&folder));
    (act.does)(&mut scene).unwrap_or_else(|error| panic!("'{}': {error}", act.name));
    let after = Standing::of_copy(&folder);
    let done = watch::end();
    Trace { begun, done, began, before, after }
}

/// What was tried, and what came of it.
#[derive(Default)]
struct Count {
    cuts: u64,
    again: u64,
    as_before: u64,
    as_after: u64,
    ways: BTreeMap<String, u64>,
}

/// Cuts the power at every sync of an act, so many times each, and at its end.
fn cut(act: &Act, trace: &Trace, times: u64, spread: &mut Spread, count: &mut Count) {
    let mut disk = Disk::of(&trace.begun);
    let scratch = in_memory();
    for (place, done) in trace.done.iter().enumerate() {
        let is_sync = matches!(done, Done::Synced(_) | Done::FolderSynced);
        if place >= trace.began && is_sync && disk.is_unsettled() {
            for time in 0..times {
                once(act, trace, &disk, (time, false), scratch.path(), spread, count);
            }
        }
        disk.take(done);
    }
    for time in 0..times.max(Way::ALL.len() as u64) {
        once(act, trace, &disk, (time, true), scratch.path(), spread, count);
    }
}

fn once(
    act: &Act,
    trace: &Trace,
    disk: &Disk,
    (time, is_done): (u64, bool),
    scratch: &Path,
    spread: &mut Spread,
    count: &mut Count,
) {
    let way = Way::ALL[time as usize % Way::ALL.len()];
    let mut files = disk.after_cut(way, spread);
    let mut told = format!("'{}', {way:?}, done: {is_done}", act.name);
    clear(scratch);
    lay(&files, scratch);
    // The power fails again while the app comes back.
    if spread.below(6) == 0 {
        watch::begin(scratch);
        let _ = Journal::open(&scratch.join(JOURNAL));
        let back = watch::end();
        let until = spread.below(back.len() as u64 + 1) as usize;
        let again = Way::ALL[spread.below(Way::ALL.len() as u64) as usize];
        files = watch::disk(&files, &back[..until]).after_cut(again, spread);
        clear(scratch);
        lay(&files, scratch);
        told = format!("{told}, and again at {until} of {}, {again:?}", back.len());
        count.again += 1;
    }
    let found = Standing::in_files(scratch);
    count.cuts += 1;
    *count.ways.entry(format!("{way:?}")).or_default() += 1;
    let is_after = found.is_as(&trace.after, act.is_one);
    let is_before = !is_done && found.is_as(&trace.before, act.is_one);
    count.as_after += u64::from(is_after);
    count.as_before += u64::from(is_before && !is_after);
    if !is_after && !is_before {
        let counts = [&trace.before, &found, &trace.after].map(|standing| standing.entries().len());
        let names: Vec<_> = files.iter().map(|(name, bytes)| (name, bytes.len())).collect();
        panic!("{told}: {counts:?} entries before, found, after; {names:?}; {:?}", short(&found));
    }
    if let Standing::Open { entries, .. } = &found {
        goes_on(scratch, entries, &told);
    }
}

fn short(standing: &Standing) -> String {
    match standing {
        Standing::Damaged(bytes) => format!("does not open, {} bytes", bytes.len()),
        Standing::Open { beside, .. } => format!("{beside:?}"),
    }
}

/// One more entry comes behind those that are there.
fn goes_on(folder: &Path, entries: &[Entry], told: &str) {
    let mut journal = Journal::open(&folder.join(JOURNAL)).expect(told);
    let body = Body::AircraftNamed { name: "On".into(), builder: "Ada".into(), pilot: None };
    journal.append(&a_day(), vec![NewEntry::pilot(body)]).expect(told);
    assert_eq!(journal.verify().expect(told).count, entries.len() as i64 + 1, "{told}");
}

fn clear(folder: &Path) {
    for file in std::fs::read_dir(folder).expect("a folder").flatten() {
        std::fs::remove_file(file.path()).expect("a file");
    }
}

/// Syncs of an act at which something is unsettled, and its end.
fn points(trace: &Trace) -> u64 {
    let mut disk = Disk::of(&trace.begun);
    let mut points = 1;
    for (place, done) in trace.done.iter().enumerate() {
        let is_sync = matches!(done, Done::Synced(_) | Done::FolderSynced);
        points += u64::from(place >= trace.began && is_sync && disk.is_unsettled());
        disk.take(done);
    }
    points
}

#[test]
#[allow(clippy::print_stdout)] // what was tried
fn nothing_that_was_told_as_recorded_is_lost_in_a_power_cut_and_nothing_is_half_there() {
    vfs::stand_in();
    let wanted = asked_for();
    let traces: Vec<(&Act, Trace)> = wanted_acts().map(|act| (act, trace(act))).collect();
    let all: u64 = traces.iter().map(|(_, trace)| points(trace)).sum();
    let times = wanted.map_or(6, |wanted| wanted.div_ceil(all));
    let mut spread = Spread::from(20_261_130);
    let mut count = Count::default();
    for (act, trace) in &traces {
        let (began, before) = (std::time::Instant::now(), count.cuts);
        cut(act, trace, times, &mut spread, &mut count);
        println!(
            "{:55} {:4} syncs and its end, {:6} cuts, {:.1} s",
            act.name,
            points(trace) - 1,
            count.cuts - before,
            began.elapsed().as_secs_f64()
        );
    }
    println!(
        "{} power cuts at {all} places of {} acts, {} of them with a second cut while the app came back: {} as before, {} as after; {:?}",
        count.cuts,
        traces.len(),
        count.again,
        count.as_before,
        count.as_after,
        count.ways
    );
    assert!(count.as_before > 0 && count.as_after > count.as_before / 10);
}
