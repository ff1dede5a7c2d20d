use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// What can be wrong with a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FaultKind {
    /// A field that should be a number is text. The rest of the row was kept.
    NotANumber,
    /// The time cannot be read. The row was left out.
    NoTime,
    /// Fewer fields than columns. What is there was kept.
    TooFewFields,
    /// More fields than columns. The further ones were left out.
    TooManyFields,
    /// The file ends within this row. A torn row was left out; of a row whole but for its line end, only the last field was.
    Torn,
    /// A row longer than any table has: zeros or other bytes that are no text. It was left out.
    TooLong,
    /// A quotation mark that never closes. The row was left out.
    OpenQuote,
    /// The time jumps ahead for one row and comes back. The row was left out.
    TimeJump,
}

/// One fault, with its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fault {
    /// What is wrong.
    pub kind: FaultKind,
    /// The line in the file, counted from one.
    pub row: u64,
    /// The column, counted from one, where it is one field's fault.
    pub column: Option<u32>,
    /// The column's name, or its number where it has none.
    pub column_name: Option<String>,
    /// What stands there, cut after 24 signs.
    pub found: String,
}

/// The faults of a file: every one counted, the first of each kind kept with their places.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Faults {
    /// How many of each kind.
    pub counts: BTreeMap<FaultKind, u64>,
    /// The first [`Faults::KEPT`] of each kind, in the order of the file.
    pub first: Vec<Fault>,
}

impl Faults {
    /// So many of each kind are kept with their places.
    pub const KEPT: u64 = 25;

    pub(super) fn add(&mut self, kind: FaultKind, fault: impl FnOnce() -> Fault) {
        let count = self.counts.entry(kind).or_default();
        *count += 1;
        if *count <= Self::KEPT {
            self.first.push(fault());
        }
    }

    /// How many there are of all kinds.
    pub fn total(&self) -> u64 {
        self.counts.values().sum()
    }

    /// How many of one kind.
    pub fn count(&self, kind: FaultKind) -> u64 {
        self.counts.get(&kind).copied().unwrap_or(0)
    }
}
