//! Which backup was made last: no entry, since the same record gives the same backup.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::{Journal, JournalError};

const LAST_BACKUP: &str = "last-backup";

/// The last backup of this journal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LastBackup {
    /// When it was made, or brought in.
    pub at: DateTime<FixedOffset>,
    /// The entries that are in it.
    pub count: i64,
    /// The digest of the last of them.
    head: String,
}

impl LastBackup {
    /// One that holds the entries up to this digest.
    pub fn new(at: DateTime<FixedOffset>, count: i64, head: &str) -> LastBackup {
        LastBackup { at, count, head: head.to_owned() }
    }
}

impl Journal {
    /// The last backup, where one was made of this chain.
    pub fn last_backup(&self) -> Result<Option<LastBackup>, JournalError> {
        let kept = self.preference(LAST_BACKUP)?;
        let Some(last) = kept.and_then(|text| serde_json::from_str::<LastBackup>(&text).ok()) else {
            return Ok(None);
        };
        let stands = self.digest_of(last.count)?.is_some_and(|digest| digest.to_string() == last.head);
        Ok(Some(last).filter(|_| stands))
    }

    /// Keeps which one was made.
    ///
    /// # Errors
    /// [`JournalError::Full`]: the one before is known still.
    pub fn keep_last_backup(&mut self, last: &LastBackup) -> Result<(), JournalError> {
        self.keep_preference(LAST_BACKUP, serde_json::to_string(last).ok().as_deref())
    }
}
