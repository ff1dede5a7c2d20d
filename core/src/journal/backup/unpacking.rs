//! A backup on its way in: laid beside the journal, held against its manifest, and made into a journal of its own, step by step.

use std::collections::VecDeque;
use std::fs::File;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};

use sha2::{Digest as _, Sha256};

use super::BackupError;
use super::container::{Container, Unpacked};
use super::entry_line::EntryLine;
use super::lines_of::LinesOf;
use super::manifest::{
    ENTRIES, LOGS, LONGEST_MANIFEST, LogFile, MANIFEST, MOST_ENTRY_BYTES, Manifest, NEWEST_FORM, Said, WHAT,
};
use crate::journal::beside::Beside;
use crate::journal::logs::hexadecimal;
use crate::journal::store::StoredEntry;
use crate::journal::{ArrivingLog, Digest, Journal, JournalError, Verified};

/// Entries that are taken in with one commit, and the bytes of them that are in memory for it.
const ENTRIES_A_STEP: usize = 500;
const ENTRY_BYTES_A_STEP: usize = 4 << 20;
/// Bytes of a log that are taken in in one step.
const LOG_BYTES_A_STEP: u64 = 1 << 20;

/// A backup whose bytes are still coming.
pub(crate) struct ArrivingBackup {
    journal: PathBuf,
    file: File,
    bytes: u64,
}

impl ArrivingBackup {
    /// Begins to lay one beside the journal.
    pub fn begin(journal: &Journal) -> Result<ArrivingBackup, JournalError> {
        let path = Beside::of(journal.path()).arriving();
        let file = File::create(path).map_err(BackupError::from)?;
        Ok(ArrivingBackup { journal: journal.path().to_owned(), file, bytes: 0 })
    }

    /// Bytes that came so far.
    pub fn bytes(&self) -> u64 {
        self.bytes
    }

    /// Takes the next bytes of it.
    ///
    /// # Errors
    /// [`JournalError::Full`]: what came is given up.
    pub fn take(&mut self, bytes: &[u8]) -> Result<(), JournalError> {
        self.bytes += bytes.len() as u64;
        Ok(self.file.write_all(bytes).map_err(BackupError::from)?)
    }

    /// It is here as a whole: begins to unpack it.
    pub fn end(self) -> Result<Unpacking, JournalError> {
        Unpacking::begin(&self.journal)
    }
}

/// A backup that is being made into a journal.
pub(crate) struct Unpacking {
    container: Container,
    manifest: Manifest,
    building: Journal,
    part: Part,
    left_out: usize,
    done: u64,
    all: u64,
}

enum Part {
    Entries {
        lines: LinesOf<Unpacked>,
        digest: Sha256,
        walked: Verified,
    },
    Logs(VecDeque<LogFile>),
    Log {
        log: LogFile,
        from: Unpacked,
        arriving: ArrivingLog,
        rest: VecDeque<LogFile>,
    },
    /// The chain is walked again, as the new journal has it.
    Walk(Verified),
    Done,
}

impl Unpacking {
    fn begin(journal: &Path) -> Result<Unpacking, JournalError> {
        let beside = Beside::of(journal);
        let container = Container::open(&beside.arriving())?;
        let manifest = read_manifest(&container)?;
        beside.clear(&beside.building());
        let (entries, entry_bytes) = container.read(ENTRIES)?;
        if entry_bytes > MOST_ENTRY_BYTES {
            return Err(BackupError::TooMuch { file: ENTRIES.to_owned() }.into());
        }
        let steps = |log: &LogFile| log.bytes.div_ceil(LOG_BYTES_A_STEP) + 1;
        let count = manifest.entries.count.unsigned_abs();
        Ok(Unpacking {
            building: Journal::open_alone(&beside.building())?,
            part: Part::Entries {
                lines: LinesOf::new(entries, ENTRIES),
                digest: Sha256::new(),
                walked: Verified { count: 0, head: Digest::NONE },
            },
            left_out: 0,
            done: 0,
            all: 2 * count.div_ceil(ENTRIES_A_STEP as u64) + manifest.logs.iter().map(steps).sum::<u64>() + 2,
            container,
            manifest,
        })
    }

    /// Steps that are done, and of how many.
    pub fn steps(&self) -> (u64, u64) {
        (self.done.min(self.all), self.all)
    }

    /// Goes a step on; whether that was the last one, and the journal is whole.
    ///
    /// # Errors
    /// It is not what it says: nothing of it is used.
    pub fn step(&mut self) -> Result<bool, JournalError> {
        self.done += 1;
        self.part = match std::mem::replace(&mut self.part, Part::Done) {
            Part::Entries { lines, digest, walked } => self.take_entries(lines, digest, walked)?,
            Part::Logs(mut logs) => match logs.pop_front() {
                Some(log) => self.begin_log(log, logs)?,
                None => Part::Walk(Verified { count: 0, head: Digest::NONE }),
            },
            Part::Log { log, from, arriving, rest } => self.take_log(log, from, arriving, rest)?,
            Part::Walk(walked) => {
                let on = self.building.verify_on(walked, ENTRIES_A_STEP as i64)?;
                if on.count == walked.count { Part::Done } else { Part::Walk(on) }
            }
            Part::Done => Part::Done,
        };
        Ok(matches!(self.part, Part::Done))
    }

    /// Logs that were damaged before they were packed, and are left out.
    pub fn left_out(&self) -> usize {
        self.left_out
    }

    /// The journal that was made of it, once it is whole.
    pub fn into_journal(self) -> Journal {
        self.building
    }

    fn take_entries(
        &mut self,
        mut lines: LinesOf<Unpacked>,
        mut digest: Sha256,
        mut walked: Verified,
    ) -> Result<Part, JournalError> {
        let mut rows = Vec::with_capacity(ENTRIES_A_STEP);
        let (mut bytes, mut ended) = (0, false);
        while rows.len() < ENTRIES_A_STEP && bytes < ENTRY_BYTES_A_STEP {
            let Some(line) = lines.next()? else {
                ended = true;
                break;
            };
            digest.update(&line);
            bytes += line.len();
            let (row, on) = entry_of(&line, lines.count, walked)?;
            walked = on;
            rows.push(row);
        }
        self.building.lay_down(rows).map_err(of_a_line)?;
        if !ended {
            return Ok(Part::Entries { lines, digest, walked });
        }
        let said = &self.manifest.entries;
        let is_whole = walked.count == said.count
            && walked.count > 0
            && walked.head.to_string() == said.head
            && hexadecimal(&digest.finalize()) == said.sha256;
        match is_whole {
            true => Ok(Part::Logs(self.manifest.logs.clone().into())),
            false => Err(BackupError::damaged(ENTRIES, None).into()),
        }
    }

    fn begin_log(&mut self, log: LogFile, rest: VecDeque<LogFile>) -> Result<Part, JournalError> {
        let (from, bytes) = self.container.read(&log.file)?;
        if bytes != log.bytes {
            return Err(BackupError::damaged(&log.file, None).into());
        }
        let arriving = self.building.begin_log()?;
        Ok(Part::Log { log, from, arriving, rest })
    }

    fn take_log(
        &mut self,
        log: LogFile,
        mut from: Unpacked,
        mut arriving: ArrivingLog,
        rest: VecDeque<LogFile>,
    ) -> Result<Part, JournalError> {
        let mut piece = Vec::new();
        from.by_ref()
            .take(LOG_BYTES_A_STEP)
            .read_to_end(&mut piece)
            .map_err(BackupError::reading(&log.file, None))?;
        if !piece.is_empty() {
            arriving.take(&mut self.building, &piece)?;
            return Ok(Part::Log { log, from, arriving, rest });
        }
        let bytes = arriving.bytes();
        let offered = arriving.end(&mut self.building)?;
        if bytes != log.bytes || offered.name != log.sha256 {
            return Err(BackupError::damaged(&log.file, None).into());
        }
        match log.file.strip_prefix(LOGS) {
            Some(name) if name == offered.name => self.building.keep_offered(name)?,
            // It was damaged before it was packed: the record goes on without it, as it did.
            _ => {
                self.building.discard_log()?;
                self.left_out += 1;
            }
        }
        Ok(Part::Logs(rest))
    }
}

/// An entry that no journal takes is a line of the backup that is not what it should be: each has its place as its line's number.
fn of_a_line(error: JournalError) -> JournalError {
    match error {
        JournalError::Broken { seq, .. } => BackupError::damaged(ENTRIES, Some(seq)).into(),
        other => other,
    }
}

fn read_manifest(container: &Container) -> Result<Manifest, BackupError> {
    let (reader, bytes) = container.read(MANIFEST)?;
    if bytes > LONGEST_MANIFEST {
        return Err(BackupError::TooMuch { file: MANIFEST.to_owned() });
    }
    let mut text = Vec::new();
    reader.take(LONGEST_MANIFEST).read_to_end(&mut text).map_err(BackupError::reading(MANIFEST, None))?;
    let damaged = |_| BackupError::damaged(MANIFEST, None);
    // Its form is asked first, for what a newer one holds besides.
    let said: Said = serde_json::from_slice(&text).map_err(damaged)?;
    if said.what != WHAT {
        return Err(BackupError::NotOurs { file: MANIFEST.to_owned() });
    }
    if said.form > u64::from(NEWEST_FORM) {
        return Err(BackupError::Newer);
    }
    let manifest: Manifest = serde_json::from_slice(&text).map_err(damaged)?;
    let names = manifest.logs.iter().map(|log| log.file.as_str());
    let is_plain = manifest.entries.file == ENTRIES && names.clone().all(|name| name.starts_with(LOGS));
    let is_in_order = names.clone().zip(names.skip(1)).all(|(one, next)| one < next);
    if is_plain && is_in_order { Ok(manifest) } else { Err(BackupError::damaged(MANIFEST, None)) }
}

/// The row that a line stands for, and where the chain is walked to with it.
///
/// # Errors
/// It does not fit behind the one before it. One that fits and cannot be read was written by a newer version.
fn entry_of(line: &[u8], number: i64, walked: Verified) -> Result<(StoredEntry, Verified), BackupError> {
    let damaged = || BackupError::damaged(ENTRIES, Some(number));
    let read: EntryLine = serde_json::from_slice(line).map_err(|_| damaged())?;
    let row = read.into_stored().ok_or_else(damaged)?;
    let on = row.follows(&walked).map_err(|_| damaged())?;
    match row.clone().into_entry() {
        Ok(_) => Ok((row, on)),
        Err(_) => Err(BackupError::Newer),
    }
}
