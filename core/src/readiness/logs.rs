//! The logs that were attached to flights.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::record::{AttachedLog, EntryId};
use crate::telemetry::ColumnMap;

/// The logs that were attached. They are shared with every copy, since each may be long.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Logs {
    of_flight: BTreeMap<EntryId, Arc<AttachedLog>>,
    columns: BTreeMap<String, Arc<ColumnMap>>,
}

impl Logs {
    /// The log of a card's flight: the last that was attached and not withdrawn.
    pub fn of_flight(&self, card: EntryId) -> Option<&AttachedLog> {
        self.of_flight.get(&card).map(AsRef::as_ref)
    }

    /// What a person said last of the columns under such a header, by [`ColumnMap::fingerprint`]; also of a log that was withdrawn.
    pub fn columns_under(&self, fingerprint: &str) -> Option<&ColumnMap> {
        self.columns.get(fingerprint).map(AsRef::as_ref)
    }

    pub(super) fn attach(&mut self, card: EntryId, log: &AttachedLog) {
        self.of_flight.insert(card, Arc::new(log.clone()));
    }

    pub(super) fn name_columns(&mut self, map: &ColumnMap) {
        self.columns.insert(map.fingerprint.clone(), Arc::new(map.clone()));
    }
}
