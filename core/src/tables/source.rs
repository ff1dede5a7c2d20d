//! What every table is made from.

use crate::plan::Plan;
use crate::readiness::Ledger;
use crate::record::{Entry, EntryId};

/// What tables are made from.
#[derive(Clone, Copy)]
pub struct Source<'a> {
    /// The plan in force.
    pub plan: &'a Plan,
    /// The journal.
    pub entries: &'a [Entry],
    /// What it says.
    pub ledger: &'a Ledger,
}

impl Source<'_> {
    /// The place of an entry in the journal.
    pub(super) fn seq(&self, id: EntryId) -> Option<i64> {
        Entry::by_id(self.entries, id).map(|entry| entry.seq)
    }
}
