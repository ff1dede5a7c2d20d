//! What was done to the aircraft and happened to it, line by line.

use crate::plan::Subject;
use crate::record::{EntryId, Moment};

/// A recorded change.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// What was touched, as plans write it.
    pub subjects: Vec<String>,
    /// What was done.
    pub what: String,
}

/// Whom to call, and where the site is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Emergency {
    /// The number, as a person reads it.
    pub call: String,
    /// The address, and the way in.
    pub address: String,
}

/// Something that happened to the aircraft.
#[derive(Debug, Clone, PartialEq)]
pub struct Happened {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// Which event of the plan.
    pub event: String,
    /// What was remarkable.
    pub note: Option<String>,
    /// Motor runs before it.
    pub runs: u32,
}

/// One line of the ledger of settings.
#[derive(Debug, Clone, PartialEq)]
pub struct Adjusted {
    /// The entry.
    pub entry: EntryId,
    /// When.
    pub at: Moment,
    /// [`Subject::Setting`] or [`Subject::Figure`].
    pub subject: Subject,
    /// What it was, if that was known.
    pub before: Option<String>,
    /// What it is since.
    pub after: String,
    /// Why.
    pub reason: String,
    /// Motor runs before it.
    pub runs: u32,
}

/// What was done with a pack on the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct PackDeed {
    /// When it was recorded.
    pub at: Moment,
    /// Its place in the journal: what was flown after it, was flown on it.
    pub seq: i64,
    /// What.
    pub what: DoneToPack,
}

/// What can be done with a pack on the ground that tells what is in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DoneToPack {
    /// Charged.
    Charged {
        /// What the charger put back, milliampere hours, if it was read.
        put_back_mah: Option<f64>,
    },
    /// Its cells were read at rest.
    CellsRead {
        /// The lowest, volts.
        low_v: f64,
        /// The highest, volts.
        high_v: f64,
    },
    /// Brought to storage.
    Stored,
    /// No longer there: another under its name is another.
    Gone,
}

/// A list of things that the pilot declared complete, while nothing has come to it or gone from it since.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Declared {
    /// How many there were.
    pub count: u32,
    /// Those of which it was asked whether they carry no current, and which do not.
    pub idle: Vec<String>,
}

/// When a thing was last described.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Described {
    /// Place in the journal.
    pub seq: i64,
    /// Motor runs before it.
    pub runs: u32,
}
