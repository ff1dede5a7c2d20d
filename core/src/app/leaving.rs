//! A document on its way out through the phone's picker, as far as it is.

use std::collections::{BTreeMap, VecDeque};
use std::fs::File;

use super::log_import::LogImport;
use crate::dossier::Section;
use crate::journal::{Digest, Packing, Verified};
use crate::readiness::Report;
use crate::record::{EntryId, Moment};

/// A document on its way out.
pub(super) struct Leaving {
    /// What the phone calls it.
    pub name: String,
    /// Bytes that were handed over.
    pub written: u64,
    /// How many entries there were when it began: it is of them.
    pub entries: usize,
    pub content: Content,
    /// The last piece was handed over: what comes next is that the shell closed it.
    pub ended: bool,
}

/// What it holds.
pub(super) enum Content {
    /// Something short, whole.
    Whole(Vec<u8>),
    /// The dossier, which takes its time.
    Dossier(Box<Making>),
    /// The backup, which takes its time too.
    Backup(Box<Packing>),
    /// A file that lies beside the journal, as it is.
    File(File),
}

impl Leaving {
    /// Steps that are done, and of how many.
    pub fn steps(&self) -> (u64, u64) {
        match &self.content {
            Content::Whole(bytes) => (u64::from(bytes.is_empty()), 1),
            Content::Dossier(making) => making.steps(),
            Content::Backup(packing) => packing.steps(),
            Content::File(file) => (self.written, file.metadata().map_or(1, |known| known.len().max(1))),
        }
    }
}

/// The dossier in the making.
pub(super) struct Making {
    pub now: Moment,
    pub report: Report,
    pub walked: Verified,
    /// The digests of the releases that stand.
    pub releases: BTreeMap<EntryId, Digest>,
    /// What is still to come.
    pub to_come: VecDeque<Section>,
    /// A log that is being read for its plot.
    pub import: Option<LogImport>,
    pub done: u64,
    pub all: u64,
}

impl Making {
    /// Steps that are done, and of how many.
    pub fn steps(&self) -> (u64, u64) {
        (self.done, self.all.max(1))
    }
}
