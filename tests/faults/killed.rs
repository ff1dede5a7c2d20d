//! A process that records is killed at any moment: whatever it was told is recorded is there, and what goes together is there together.

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use liftgate_core::journal::{Journal, NewEntry};
use liftgate_core::record::{Body, Moment};
use liftgate_tests::Spread;

use super::asked_for;
use super::hand::a_day;
use super::scene::{JOURNAL, in_memory};

/// Where the process that is killed keeps its journal.
const FOLDER: &str = "LIFTGATE_KILLED_FOLDER";
const TOLD: &str = "recorded ";
/// Kills of one record before a new one is begun: walking a long chain takes its time.
const KILLS_A_RECORD: u64 = 40;

fn named(name: String) -> NewEntry {
    NewEntry::pilot(Body::AircraftNamed { name, builder: "Ada".into(), pilot: None })
}

/// Records two entries with what was typed and where the person is, in one commit.
fn record(journal: &mut Journal, now: &Moment, number: i64) -> i64 {
    let form = "a form".to_owned();
    journal.keep_draft(&form, "name", &number.to_string()).unwrap();
    let long = "x".repeat(number as usize * 379 % 9_000);
    let two = vec![named(format!("first {number}")), named(format!("second {number} {long}"))];
    let recorded = journal.append_and_go(now, two, &[form], Some(&[format!("\"{number}\"")])).unwrap();
    recorded[1].seq
}

/// Not a test: the process that is killed.
#[test]
#[ignore = "run by another test, as the process that is killed"]
fn the_process_that_is_killed() {
    let Some(folder) = std::env::var_os(FOLDER) else { return };
    let path = Path::new(&folder).join(JOURNAL);
    let mut out = std::io::stdout().lock();
    loop {
        let mut journal = Journal::open(&path).unwrap();
        for _ in 0..12 {
            let number = journal.verify().unwrap().count / 2;
            let told = record(&mut journal, &a_day(), number);
            writeln!(out, "{TOLD}{told}").unwrap();
            out.flush().unwrap();
        }
        // Closing folds the log in: that is a moment too.
        journal.close().unwrap();
    }
}

/// One process, killed; how many entries it was told are recorded.
fn kill_one(folder: &Path, spread: &mut Spread) -> i64 {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args(["killed::the_process_that_is_killed", "--exact", "--ignored", "--nocapture"])
        .env(FOLDER, folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    let told = |line: String| line.split(TOLD).nth(1).and_then(|text| text.trim().parse::<i64>().ok());
    // Before it records anything, or after some.
    let mut known = 0;
    for _ in 0..spread.below(4) {
        known = lines.by_ref().map_while(Result::ok).find_map(told).unwrap_or(known);
    }
    std::thread::sleep(Duration::from_micros(spread.below(4_000)));
    child.kill().unwrap();
    child.wait().unwrap();
    // What was on its way when it died was told too.
    lines.map_while(Result::ok).filter_map(told).fold(known, i64::max)
}

#[test]
#[allow(clippy::print_stdout)] // what was tried
fn a_writing_process_is_killed_and_nothing_that_it_was_told_is_lost() {
    let kills = asked_for().map_or(30, |wanted| wanted / 10);
    let mut spread = Spread::from(9);
    let mut folder = in_memory();
    let (mut told, mut there, mut behind) = (0, 0, 0);
    for kill in 0..kills {
        if kill % KILLS_A_RECORD == 0 {
            there += told;
            (folder, told) = (in_memory(), 0);
        }
        told = kill_one(folder.path(), &mut spread).max(told);
        let journal = Journal::open(&folder.path().join(JOURNAL)).unwrap();
        let count = journal.verify().unwrap().count;
        assert!(count >= told, "kill {kill}: {told} were told as recorded, {count} are there");
        assert_eq!(count % 2, 0, "kill {kill}: two in one call, both or none");
        assert_eq!(journal.entries().unwrap().len() as i64, count);
        let place = journal.bookmark().unwrap();
        let expected = (count > 0).then(|| format!("\"{}\"", count / 2 - 1));
        assert_eq!(place, expected.into_iter().collect::<Vec<_>>(), "kill {kill}: the place goes with the entries");
        let typed = journal.drafts("a form").unwrap();
        let left = typed.get("name").map(String::as_str);
        assert!(left.is_none_or(|text| text == (count / 2).to_string()), "kill {kill}: {left:?} of {count}");
        behind += u64::from(count > told);
        told = count;
    }
    println!(
        "{kills} kills of a process that recorded {} entries; {behind} times more was there than it was told",
        there + told
    );
    assert!(there + told > 2 * kills as i64 / 10);
}
