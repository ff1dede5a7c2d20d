//! What was touched under the evidence.

use super::reason::Reason;
use crate::plan::Subject;

/// Something was touched that evidence may rest on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Touch {
    /// Place in the journal of the entry that says so.
    pub seq: i64,
    /// What was touched.
    pub subject: Subject,
    /// What a check that rests on it says.
    pub reason: Reason,
}
