//! The bookmark: the way from the first screen to the one in view, so that a killed app opens there again. Each step is a text that
//! whoever keeps it can read again.

use rusqlite::{Transaction, params};

use super::error::Doing;
use super::{Journal, JournalError};

impl Journal {
    /// The way that was kept, its first step first.
    pub fn bookmark(&self) -> Result<Vec<String>, JournalError> {
        let reading = JournalError::while_doing;
        let mut statement = self
            .connection
            .prepare_cached("SELECT place FROM bookmark ORDER BY depth")
            .map_err(reading(Doing::Reading))?;
        let rows = statement.query_map([], |row| row.get::<_, String>(0)).map_err(reading(Doing::Reading))?;
        rows.collect::<rusqlite::Result<_>>().map_err(reading(Doing::Reading))
    }

    /// Keeps a way.
    pub fn keep_bookmark(&mut self, way: &[String]) -> Result<(), JournalError> {
        self.at_once(|transaction| keep_bookmark(transaction, way))
    }
}

pub(super) fn keep_bookmark(transaction: &Transaction<'_>, way: &[String]) -> Result<(), JournalError> {
    let writing = JournalError::while_doing;
    transaction.execute("DELETE FROM bookmark", []).map_err(writing(Doing::Writing))?;
    for (depth, step) in (0_i64..).zip(way) {
        transaction
            .execute("INSERT INTO bookmark (depth, place) VALUES (?1, ?2)", params![depth, step])
            .map_err(writing(Doing::Writing))?;
    }
    Ok(())
}
