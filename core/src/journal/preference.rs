use rusqlite::params;

use super::error::Doing;
use super::{Journal, JournalError};

impl Journal {
    /// What was chosen of a preference on this phone, if anything was. It is no entry: it proves nothing and may change.
    pub fn preference(&self, name: &str) -> Result<Option<String>, JournalError> {
        use rusqlite::OptionalExtension;
        self.connection
            .prepare_cached("SELECT value FROM preference WHERE name = ?1")
            .and_then(|mut statement| statement.query_row([name], |row| row.get(0)).optional())
            .map_err(JournalError::while_doing(Doing::Reading))
    }

    /// Keeps a preference; `None` gives the choice up.
    ///
    /// # Errors
    /// [`JournalError::Full`], and nothing was kept.
    pub fn keep_preference(&mut self, name: &str, value: Option<&str>) -> Result<(), JournalError> {
        let kept = match value {
            Some(value) => self.connection.execute(
                "INSERT INTO preference (name, value) VALUES (?1, ?2)
                 ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                params![name, value],
            ),
            None => self.connection.execute("DELETE FROM preference WHERE name = ?1", [name]),
        };
        kept.map(drop).map_err(JournalError::while_doing(Doing::Writing))
    }
}
