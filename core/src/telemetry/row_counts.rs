use serde::{Deserialize, Serialize};

/// What became of the rows.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct RowCounts {
    /// Rows of data in the file: all below it, but for empty lines.
    pub found: u64,
    /// Rows that were kept.
    pub imported: u64,
    /// Rows that were left out as faulty.
    pub left_out: u64,
    /// Rows that repeated the row before them in time and in every value, and were left out as such.
    pub repeated: u64,
    /// Rows kept whose time lies up to a second before the row above them; they stand at that row's time.
    pub out_of_order: u64,
    /// Times that the recorder began again, its time fallen back; the rows after it follow on.
    pub restarts: u64,
    /// Times that the header was written again.
    pub headers_again: u64,
}
