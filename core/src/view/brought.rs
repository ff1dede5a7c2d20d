//! A backup that was picked, as its page is told of it.

use chrono::{DateTime, FixedOffset};

use crate::journal::{Compared, JournalError};

/// What a record holds, in short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Holds {
    /// The aircraft's name; empty while it has none.
    pub aircraft: String,
    /// How many entries.
    pub entries: i64,
    /// When the last one was made.
    pub last: Option<DateTime<FixedOffset>>,
}

/// A record that was brought in, and how it compares with the one on the phone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// How many entries each has, and how many both.
    pub compared: Compared,
    /// What is on the phone.
    pub here: Holds,
    /// What was brought in.
    pub brought: Holds,
    /// Whether nothing was recorded on this phone yet by anybody.
    pub here_is_new: bool,
    /// Logs that were damaged before they were packed, and are not in what was brought in.
    pub logs_left_out: usize,
    /// When the first entry was made that is on the phone alone.
    pub lost_from: Option<DateTime<FixedOffset>>,
}

/// A backup that was picked, as far as it is.
#[derive(Clone, Copy)]
pub struct Brought<'a> {
    /// What the phone calls it.
    pub name: &'a str,
    /// What came of it.
    pub stage: BroughtStage<'a>,
}

/// What came of a backup that was picked.
#[derive(Clone, Copy)]
pub enum BroughtStage<'a> {
    /// It is being unpacked and checked.
    Unpacking,
    /// It is whole, and waits for the person.
    Offered(&'a Offer),
    /// It cannot be brought in.
    Refused(&'a JournalError),
}
