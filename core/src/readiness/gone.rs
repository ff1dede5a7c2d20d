//! What was found and withdrawn: it counts for nothing, and is not as if nobody had ever found it.

use crate::record::EntryId;

/// A result of a check or a finding that was withdrawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gone {
    /// The entry.
    pub entry: EntryId,
    /// What it was of.
    pub of: GoneOf,
}

/// What was withdrawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum GoneOf {
    /// A result of this check, or the landing of a flight for it.
    Check(String),
    /// A finding.
    Finding,
}
