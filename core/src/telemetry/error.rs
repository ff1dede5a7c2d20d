use thiserror::Error;

use super::faults::Fault;
use super::quantity::{LogUnit, Quantity};

/// Why a log could not be taken in at all. What is wrong with a single row is a [`super::Fault`] and stops nothing.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum TelemetryError {
    /// The file has no table of numbers.
    NotATable {
        /// What was found instead.
        found: NoTable,
    },
    /// The columns that the person named do not fit the file.
    Map {
        /// The column, counted from one, where it is one column's fault.
        column: Option<u32>,
        /// What does not fit, and what to do.
        misfit: MapMisfit,
    },
    /// Not one row could be used.
    NoRows {
        /// The first row's fault; none where there are no rows.
        first: Option<Fault>,
    },
    /// The person stopped it. Nothing was kept.
    Stopped,
    /// The file could not be read on.
    Unreadable {
        /// Bytes read before.
        at_bytes: u64,
        /// The system's words.
        reason: String,
    },
    /// A figure cannot be worked out from this log.
    Figure {
        /// What is missing, and what would bring it.
        lack: FigureLack,
    },
}

/// What a file is that is no table of numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoTable {
    /// It is empty.
    Empty,
    /// It has no rows of numbers.
    NoNumbers {
        /// How it begins.
        begins: String,
    },
}

/// Why the columns do not fit the file. Columns are counted from one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MapMisfit {
    /// Nothing is to be read.
    NoColumns,
    /// More is to be read than can be kept.
    TooMany {
        /// So many columns.
        columns: usize,
    },
    /// The column of the time lies beyond the file's last.
    NoTimeColumn {
        /// The column.
        column: u32,
        /// So many the file has.
        width: u32,
    },
    /// There is a column of the time, and rows are said to be evenly apart.
    TimeTwice,
    /// Nothing tells the time.
    NoTime,
    /// A column lies beyond the file's last.
    NoColumn {
        /// The column.
        column: u32,
        /// Its name.
        label: String,
        /// So many the file has.
        width: u32,
    },
    /// A column is the time and something else.
    AlsoTime {
        /// The column.
        column: u32,
        /// Its name.
        label: String,
    },
    /// A quantity is not written in that unit.
    Unit {
        /// The quantity.
        quantity: Quantity,
        /// The unit.
        unit: LogUnit,
    },
    /// A column's ratio is zero or no number.
    Ratio {
        /// The column.
        column: u32,
        /// Its name.
        label: String,
    },
    /// Two columns are the same.
    Twice {
        /// The earlier one.
        first: u32,
        /// The later one.
        second: u32,
        /// What both are.
        quantity: Quantity,
    },
}

/// Why a figure cannot be worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FigureLack {
    /// The load never rose as in a hover.
    NoFlight,
    /// No column tells of a load.
    NoLoad,
    /// The least step of a reading is not above zero.
    LeastStep,
    /// Too many readings for a test, or one that is no number.
    Readings {
        /// The most that it takes.
        most: usize,
    },
    /// The chance of a false alarm is out of range.
    FalseAlarm,
    /// The threshold or the shift is out of range.
    Threshold,
    /// A run length is beyond reckoning.
    RunLength,
}

impl TelemetryError {
    pub(super) fn map(column: Option<u32>, misfit: MapMisfit) -> Self {
        Self::Map { column, misfit }
    }

    pub(super) fn figure(lack: FigureLack) -> Self {
        Self::Figure { lack }
    }
}
