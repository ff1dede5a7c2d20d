//! The names of entries and of aircraft.

use std::fmt;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// Names one entry for ever: a UUIDv7, so that names sort by the time they were made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct EntryId(pub Uuid);

impl fmt::Display for EntryId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// Which of a journal's aircraft: the entry that began it names it. The one that the journal began with was there before others could be,
/// and has no such entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct AircraftId(pub Option<EntryId>);

impl AircraftId {
    /// The aircraft that the journal began with.
    pub const FIRST: AircraftId = AircraftId(None);

    pub(super) fn is_first(&self) -> bool {
        *self == AircraftId::FIRST
    }
}
