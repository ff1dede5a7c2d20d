//! A log that is being read in steps, since it takes longer than a touch may.

use std::io::Read;

use sha2::{Digest as _, Sha256};

use crate::journal::{Journal, OfferedLog, hexadecimal};
use crate::record::{AttachedLog, EntryId};
use crate::telemetry::{ColumnMap, Import, Importing, Layout, Progress, Recording, Settings, TelemetryError};
use crate::view::Place;

/// What is read in one step: some 10 ms on a desk, and on a phone well under the tenth of a second after which a touch seems lost.
pub(super) const STEP_BYTES: u64 = 2 << 20;

/// What the kept columns of a log may take: for a longer one, rows are joined into cells that keep their least, mean and greatest.
const KEPT_BYTES: usize = 32 << 20;

/// What a log is read for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Purpose {
    /// To attach it to a flight.
    Attach,
    /// To draw its plot.
    Show,
}

/// A log that is being read.
pub(super) struct LogImport {
    pub purpose: Purpose,
    pub card: EntryId,
    importing: Importing,
    /// Digest of what was read so far, to be held against the file's name.
    digest: Sha256,
    pub file: OfferedLog,
}

/// A reader that digests what goes through it.
struct Digesting<'a, R> {
    from: R,
    digest: &'a mut Sha256,
}

impl<R: Read> Read for Digesting<'_, R> {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        let length = self.from.read(into)?;
        self.digest.update(&into[..length]);
        Ok(length)
    }
}

impl LogImport {
    /// Begins to read a file of the journal.
    ///
    /// # Errors
    /// The columns do not fit the file.
    pub fn begin(
        purpose: Purpose,
        card: EntryId,
        file: &OfferedLog,
        layout: &Layout,
        map: &ColumnMap,
    ) -> Result<LogImport, TelemetryError> {
        let settings = Settings { kept_bytes: KEPT_BYTES, file_bytes: Some(file.bytes) };
        let importing = Import::new(layout, map, settings)?.begin();
        Ok(LogImport { purpose, card, importing, digest: Sha256::new(), file: file.clone() })
    }

    /// Begins to read a log that was attached, under the columns as they were named then.
    ///
    /// # Errors
    /// The file is missing or damaged.
    pub fn again(
        journal: &Journal,
        purpose: Purpose,
        card: EntryId,
        log: &AttachedLog,
    ) -> Result<LogImport, TelemetryError> {
        let layout = layout_of(journal, &log.sha256)?;
        let file = OfferedLog { name: log.sha256.clone(), bytes: log.bytes };
        LogImport::begin(purpose, card, &file, &layout, &log.map)
    }

    /// Whether it belongs to a place.
    pub fn is_for(&self, place: &Place) -> bool {
        match (self.purpose, place) {
            (Purpose::Attach, Place::LogOffer(card)) => self.card == *card,
            (Purpose::Show, Place::Review(card) | Place::LogFigure { card, .. }) => self.card == *card,
            _ => false,
        }
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        self.importing.progress()
    }

    /// How long the file is.
    pub fn length(&self) -> u64 {
        self.file.bytes
    }

    /// Whether the screen waits for it, and has nothing else to show.
    pub fn is_waited_for(&self) -> bool {
        self.purpose == Purpose::Attach
    }

    /// Reads one step; whether there is more.
    pub fn step(&mut self, journal: &Journal, bytes: u64) -> Result<bool, TelemetryError> {
        let from = journal.read_log(&self.file.name, self.importing.progress().bytes);
        self.importing.go_on(&mut Digesting { from, digest: &mut self.digest }, bytes)
    }

    /// What was read; none if it is no longer the file that it was.
    pub fn finish(self) -> Result<Option<Recording>, TelemetryError> {
        let name = hexadecimal(&self.digest.finalize());
        let recording = self.importing.finish()?;
        Ok((name == self.file.name).then_some(recording))
    }
}

/// Why a log in view is not read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unread {
    /// The person did not want to wait.
    Stopped,
    /// The file is missing, or no longer what was attached.
    Gone,
}

pub(super) fn layout_of(journal: &Journal, name: &str) -> Result<Layout, TelemetryError> {
    Layout::read(&mut journal.read_log(name, 0))
}
