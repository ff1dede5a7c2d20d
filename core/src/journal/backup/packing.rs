//! A backup in the making, step by step: the entries with their chain walked, the logs as they came, the manifest at the end.

use std::collections::VecDeque;
use std::io::{self, Read, Write};
use std::sync::{Arc, Mutex, PoisonError};

use sha2::{Digest as _, Sha256};
use zip::write::{SimpleFileOptions, StreamWriter};
use zip::{CompressionMethod, DateTime, ZipWriter};

use super::BackupError;
use super::entry_line::EntryLine;
use super::manifest::{ENTRIES, EntriesFile, LOGS, LogFile, MANIFEST, Manifest, NEWEST_FORM, READ_ME, WHAT};
use crate::journal::error::Doing;
use crate::journal::logs::{KeptLog, hexadecimal};
use crate::journal::{Digest, Journal, JournalError, Verified};

/// What the file says to whoever opens it without Liftgate.
const READ_ME_TEXT: &str = include_str!("../../../templates/backup/read-me.txt");

/// Entries that are written in one step.
const ENTRIES_A_STEP: i64 = 1_000;
/// Bytes of a log that are written in one step.
const LOG_BYTES_A_STEP: u64 = 1 << 20;
/// From this length on a file in the container needs its long form, bytes: a little below what the short one holds.
const LONG: u64 = 0xF000_0000;

/// What the container wrote and nobody took yet.
#[derive(Clone, Default)]
struct Sink(Arc<Mutex<Vec<u8>>>);

impl Sink {
    fn take(&self) -> Vec<u8> {
        std::mem::take(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Write for Sink {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

type Zip = ZipWriter<StreamWriter<Sink>>;

/// A backup on its way out.
pub(crate) struct Packing {
    /// None once it is closed.
    zip: Option<Zip>,
    sink: Sink,
    part: Part,
    manifest: Manifest,
    done: u64,
    all: u64,
}

enum Part {
    Beginning,
    Entries { walked: Verified, bytes: u64, digest: Sha256 },
    Logs(VecDeque<KeptLog>),
    Log { log: KeptLog, at: u64, digest: Sha256, rest: VecDeque<KeptLog> },
    End,
}

impl Packing {
    /// Begins one of all that stands in the journal.
    pub fn begin(journal: &Journal) -> Result<Packing, JournalError> {
        let logs = journal.kept_logs()?;
        let entries = journal.count()?;
        let of_logs: u64 = logs.iter().map(|log| log.bytes.div_ceil(LOG_BYTES_A_STEP)).sum();
        let manifest =
            Manifest { what: WHAT.to_owned(), form: NEWEST_FORM, entries: EntriesFile::default(), logs: Vec::new() };
        let sink = Sink::default();
        Ok(Packing {
            zip: Some(ZipWriter::new_stream(sink.clone())),
            sink,
            part: Part::Beginning,
            manifest,
            done: 0,
            all: entries.unsigned_abs().div_ceil(ENTRIES_A_STEP as u64) + of_logs + 2,
        })
    }

    /// Steps that are done, and of how many.
    pub fn steps(&self) -> (u64, u64) {
        (self.done.min(self.all), self.all)
    }

    /// What it is of: the number of entries and the digest of the last. True once the entries are written.
    pub fn of(&self) -> (i64, &str) {
        (self.manifest.entries.count, &self.manifest.entries.head)
    }

    /// The next bytes of it, which may be none yet; nothing at the end.
    ///
    /// # Errors
    /// The chain does not close: what does not hold together is no backup.
    pub fn next(&mut self, journal: &Journal) -> Result<Option<Vec<u8>>, JournalError> {
        let Some(mut zip) = self.zip.take() else { return Ok(None) };
        self.done += 1;
        self.part = match std::mem::replace(&mut self.part, Part::End) {
            Part::Beginning => begin_entries(&mut zip)?,
            Part::Entries { walked, bytes, digest } => {
                self.write_entries(&mut zip, journal, walked, bytes, digest)?
            }
            Part::Logs(mut logs) => match logs.pop_front() {
                Some(log) => begin_log(&mut zip, log, logs)?,
                None => {
                    start(&mut zip, MANIFEST, 0)?;
                    write(&mut zip, &json(&self.manifest))?;
                    zip.finish().map_err(io::Error::from).map_err(BackupError::from)?;
                    return Ok(Some(self.sink.take()));
                }
            },
            Part::Log { log, at, digest, rest } => self.write_log(&mut zip, journal, log, at, digest, rest)?,
            Part::End => return Ok(None),
        };
        self.zip = Some(zip);
        Ok(Some(self.sink.take()))
    }

    fn write_entries(
        &mut self,
        zip: &mut Zip,
        journal: &Journal,
        mut walked: Verified,
        mut bytes: u64,
        mut digest: Sha256,
    ) -> Result<Part, JournalError> {
        let entries = journal.stored_behind(walked, ENTRIES_A_STEP)?;
        if entries.is_empty() {
            self.manifest.entries = EntriesFile {
                file: ENTRIES.to_owned(),
                count: walked.count,
                head: walked.head.to_string(),
                bytes,
                sha256: hexadecimal(&digest.finalize()),
            };
            return Ok(Part::Logs(journal.kept_logs()?.into()));
        }
        for entry in entries {
            walked = entry.follows(&walked)?;
            let mut line = json(&EntryLine::of(&entry));
            line.push(b'\n');
            digest.update(&line);
            bytes += line.len() as u64;
            write(zip, &line)?;
        }
        Ok(Part::Entries { walked, bytes, digest })
    }

    fn write_log(
        &mut self,
        zip: &mut Zip,
        journal: &Journal,
        log: KeptLog,
        at: u64,
        mut digest: Sha256,
        rest: VecDeque<KeptLog>,
    ) -> Result<Part, JournalError> {
        let mut piece = Vec::new();
        // Of a log that is damaged what can be read of it is kept; its own digest tells. What the storage does not give now is no damage.
        let read = journal.read_log(&log.name, at).take(LOG_BYTES_A_STEP).read_to_end(&mut piece);
        read.map(drop).or_else(unless_damaged)?;
        digest.update(&piece);
        write(zip, &piece)?;
        let at = at + piece.len() as u64;
        if !piece.is_empty() && at < log.bytes {
            return Ok(Part::Log { log, at, digest, rest });
        }
        let sha256 = hexadecimal(&digest.finalize());
        self.manifest.logs.push(LogFile { file: format!("{LOGS}{}", log.name), bytes: at, sha256 });
        Ok(Part::Logs(rest))
    }
}

/// A log's damage is passed over, a failure of the storage is not.
fn unless_damaged(error: io::Error) -> Result<(), JournalError> {
    match error.downcast::<rusqlite::Error>() {
        Ok(error) => match JournalError::while_doing(Doing::Reading)(error) {
            damage if damage.may_be_damage() => Ok(()),
            failure => Err(failure),
        },
        Err(other) => Err(BackupError::from(other).into()),
    }
}

fn begin_entries(zip: &mut Zip) -> Result<Part, JournalError> {
    start(zip, READ_ME, 0)?;
    write(zip, READ_ME_TEXT.as_bytes())?;
    start(zip, ENTRIES, 0)?;
    Ok(Part::Entries { walked: Verified { count: 0, head: Digest::NONE }, bytes: 0, digest: Sha256::new() })
}

fn begin_log(zip: &mut Zip, log: KeptLog, rest: VecDeque<KeptLog>) -> Result<Part, JournalError> {
    start(zip, &format!("{LOGS}{}", log.name), log.bytes)?;
    Ok(Part::Log { log, at: 0, digest: Sha256::new(), rest })
}

/// Begins a file in the container: the same at any time, on any phone.
fn start(zip: &mut Zip, name: &str, bytes: u64) -> Result<(), JournalError> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::DEFAULT)
        .unix_permissions(0o644)
        .large_file(bytes >= LONG);
    Ok(zip.start_file(name, options).map_err(io::Error::from).map_err(BackupError::from)?)
}

/// Only memory can be lacking here: the phone writes what was taken.
fn write(zip: &mut Zip, bytes: &[u8]) -> Result<(), JournalError> {
    Ok(zip.write_all(bytes).map_err(BackupError::from)?)
}

fn json(of: &impl serde::Serialize) -> Vec<u8> {
    // Plain data: JSON can always hold it. What is missing shows where it is held against the manifest.
    serde_json::to_vec(of).unwrap_or_default()
}
