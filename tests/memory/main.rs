//! A log that would not fit: a hundred megabytes and four million rows go from the picker to the plot through the whole app, and the app
//! never takes more than 64 MiB beside the columns that it keeps of it. A program of its own, since it watches all of its memory.
#![cfg(target_os = "linux")]
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use std::alloc::System;
use std::io::{Read, Write};

use cap::Cap;
use liftgate_core::record::Body;
use liftgate_core::telemetry::{Import, Layout, Settings};
use liftgate_core::view::{Screen, Work};
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

#[global_allocator]
static MEMORY: Cap<System> = Cap::new(System, usize::MAX);

const MIB: usize = 1 << 20;
/// What the app keeps of a log: `core/src/desk/reading.rs`.
const KEPT: usize = 32 * MIB;
/// What reading may take beside that.
const BESIDE: usize = 64 * MIB;
const ROWS: u64 = 4_100_000;

/// Rows of an invented flight that are never anywhere at once; the current peaks in one row of them all.
struct Rows {
    next: u64,
    end: u64,
    waiting: Vec<u8>,
}

impl Rows {
    fn new(end: u64) -> Rows {
        Rows { next: 0, end, waiting: b"Time [s],Voltage [V],Current [A],Rotor [rpm]\n".to_vec() }
    }
}

impl Read for Rows {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        while self.waiting.len() < into.len() && self.next < self.end {
            let row = self.next;
            let wave = row % 701;
            let current = if row == 3_141_592 { 910 } else { 400 + wave / 10 };
            writeln!(
                self.waiting,
                "{}.{:03},48.{:02},{}.{},1400",
                row / 1000,
                row % 1000,
                wave % 100,
                current / 10,
                current % 10
            )?;
            self.next += 1;
        }
        let length = into.len().min(self.waiting.len());
        into[..length].copy_from_slice(&self.waiting[..length]);
        self.waiting.drain(..length);
        Ok(length)
    }
}

/// The most memory that this process has held since it was last asked for, in bytes, from the system's own account.
fn peak_since(mark: bool) -> usize {
    if mark {
        std::fs::write("/proc/self/clear_refs", "5").unwrap();
    }
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find(|line| line.starts_with("VmHWM")).unwrap();
    line.split_whitespace().nth(1).unwrap().parse::<usize>().unwrap() * 1024
}

/// From now on the program has so much more memory, and ends if it asks for more.
fn allow(bytes: usize) {
    MEMORY.set_limit(MEMORY.allocated() + bytes).unwrap();
}

fn go_on(walk: &Walk, mut screen: Screen) -> (Screen, usize) {
    let mut steps = 0;
    while let Some(Work::Touch { token }) = &screen.work {
        screen = walk.person.phone.pilot().unwrap().tap(token, &walk.person.now).unwrap().screen;
        steps += 1;
    }
    (screen, steps)
}

/// One test: a second one beside it would take of the same memory.
#[test]
fn a_log_longer_than_memory_is_taken_in_read_and_shown_within_bounds() {
    // The reader alone, on three hundred megabytes with room for eighty.
    let layout = Layout::read(&mut Rows::new(10_000)).unwrap();
    let import =
        Import::new(&layout, &layout.suggest(), Settings { kept_bytes: 16 * MIB, file_bytes: None }).unwrap();
    let before = peak_since(true);
    allow(16 * MIB + BESIDE);
    let log = import.read(&mut Rows::new(3 * ROWS), &mut |_| true).unwrap();
    MEMORY.set_limit(usize::MAX).unwrap();
    assert_eq!((log.rows.imported, log.rows.left_out), (3 * ROWS, 0));
    assert!(log.bytes > 300_000_000, "{} bytes", log.bytes);
    assert!(log.kept_bytes() <= 16 * MIB);
    println!(
        "{} MB read alone; {} MiB above what was held before",
        log.bytes / 1_000_000,
        (peak_since(false) - before) / MIB
    );
    drop(log);

    // The whole app.
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    let before = peak_since(true);
    allow(KEPT + BESIDE);
    let mut rows = Rows::new(ROWS);
    walk.person.pick_from("Pick a log", "long.csv", None, &mut rows).unwrap();
    let reading = walk.person.tap("Attach this log");
    let (review, steps) = go_on(&walk, reading.screen);
    let Body::LogAttached { log, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!((log.rows.imported, log.rows.left_out), (ROWS, 0));
    assert!(log.bytes > 100_000_000 && steps > 40, "{} bytes, {steps} steps", log.bytes);
    assert_eq!(review.title, "Review");
    // The spike of one row among four million is in the plot still.
    assert!(walk.person.words().contains("91 A"), "{}", walk.person.words());
    walk.person.killed();
    let (_, again) = go_on(&walk, walk.person.screen());
    assert!(again > 40 && walk.person.words().contains("91 A"));
    MEMORY.set_limit(usize::MAX).unwrap();
    let grown = peak_since(false) - before;
    println!(
        "{} MB through the app in {steps} steps; {} MiB above what it held before",
        log.bytes / 1_000_000,
        grown / MIB
    );
    assert!(grown <= KEPT + BESIDE, "{} MiB", grown / MIB);
}
