//! Logs in memory: one that was picked, and the one in view.

use crate::journal::OfferedLog;
use crate::record::EntryId;
use crate::telemetry::{Layout, Limits, Recording};
use crate::view::{self, Place, PlotView};

/// A log that was picked and is not attached yet.
pub(super) struct PickedLog {
    /// For which card's flight.
    pub card: EntryId,
    /// What the phone calls it.
    pub name: String,
    /// How it is written.
    pub layout: Layout,
    /// The file in the journal.
    pub file: OfferedLog,
}

/// The log in view, read.
pub(super) struct OpenLog {
    /// The file's digest.
    pub sha256: String,
    /// For which card's flight.
    pub card: EntryId,
    /// Its columns.
    pub recording: Recording,
    /// What they are held against.
    pub limits: Limits,
    /// The plot while fingers are on it: kept in memory until they are gone, since a written draft takes longer than a frame.
    pub moving: Option<(Place, PlotView)>,
}

impl PickedLog {
    pub fn seen(&self) -> view::PickedLog<'_> {
        view::PickedLog { card: self.card, name: &self.name, layout: &self.layout }
    }
}

impl OpenLog {
    pub fn seen(&self) -> view::OpenLog<'_> {
        view::OpenLog { recording: &self.recording, limits: &self.limits }
    }
}
