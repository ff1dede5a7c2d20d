use thiserror::Error;

/// Why a log could not be taken in at all. What is wrong with a single row is a [`super::Fault`] and stops nothing.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum TelemetryError {
    /// The file has no table of numbers.
    #[error("{what}: choose the file that the recorder wrote as text with one row for each moment")]
    NotATable {
        /// What was found instead.
        what: String,
    },
    /// The columns that the person named do not fit the file.
    #[error("{what}")]
    Map {
        /// The column, counted from one, where it is one column's fault.
        column: Option<u32>,
        /// What does not fit, and what to do.
        what: String,
    },
    /// Not one row could be used.
    #[error(
        "no row could be used; the first that could not: {first}. Check which column is the time, and how it is written"
    )]
    NoRows {
        /// The first row's fault.
        first: String,
    },
    /// The person stopped it. Nothing was kept.
    #[error("the import was stopped; nothing was kept of it")]
    Stopped,
    /// The file could not be read on.
    #[error("the file could not be read after {at_bytes} bytes: {reason}")]
    Unreadable {
        /// Bytes read before.
        at_bytes: u64,
        /// The system's words.
        reason: String,
    },
    /// A figure cannot be worked out from this log.
    #[error("{what}")]
    Figure {
        /// What is missing, and what would bring it.
        what: String,
    },
}

impl TelemetryError {
    pub(super) fn map(column: Option<u32>, what: impl Into<String>) -> Self {
        Self::Map { column, what: what.into() }
    }

    pub(super) fn figure(what: impl Into<String>) -> Self {
        Self::Figure { what: what.into() }
    }
}
