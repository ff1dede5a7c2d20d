//! What takes longer than a touch, as far as it is.

/// What the person is waiting for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnderWay {
    /// What it is.
    pub what: UnderWayWith,
    /// Bytes that are done; of a document that leaves, or of a backup, steps.
    pub bytes: u64,
    /// Of how many, where that is known.
    pub of: Option<u64>,
    /// Rows that were read.
    pub rows: Option<u64>,
}

/// What the person is waiting for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum UnderWayWith {
    /// A document comes in.
    Arriving {
        /// What the phone calls it.
        name: String,
    },
    /// A document is written to where the person said.
    Leaving {
        /// What the phone calls it.
        name: String,
        /// Bytes that were handed over.
        written: u64,
    },
    /// A backup is unpacked and checked.
    Unpacking {
        /// What the phone calls it.
        name: String,
    },
    /// A log is read, to be attached.
    Attaching {
        /// What the phone calls it.
        name: String,
    },
    /// The log in view is read for its plot.
    Plot,
}
