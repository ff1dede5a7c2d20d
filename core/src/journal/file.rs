//! The journal's file: opened by one owner, closed by the same.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, Transaction, TransactionBehavior};
use uuid::ContextV7;

use super::backup::BackupError;
use super::beside::Beside;
use super::error::{Doing, JournalError, NotOurs};
use super::lock::Lock;
use super::open;

/// The open journal. One owner, one connection.
pub struct Journal {
    path: PathBuf,
    pub(super) connection: Connection,
    // Counts on within a millisecond, so that ids made in one call still sort in the order they were made.
    pub(super) ids: ContextV7,
    // Last, so that it is given up when the connection is gone.
    _lock: Option<Lock>,
}

impl Journal {
    /// Opens the journal at `path`, or creates it where there is no file. It is refused to everyone else until this is dropped.
    ///
    /// # Errors
    /// [`JournalError::OpenElsewhere`] while it is open already. [`JournalError::NotAJournal`] and [`JournalError::Newer`] leave
    /// the file as it is; [`JournalError::Full`] where there is no room for a new one. [`JournalError::BetweenTwo`] while another journal
    /// that waits to take its place cannot take it: what would be recorded in the meantime would be set aside with the old one.
    pub fn open(path: &Path) -> Result<Journal, JournalError> {
        let beside = Beside::of(path);
        // Where another one waits to take its place, it is known to be ours, whatever state it is in.
        let is_ours = beside.has_next().map_err(BackupError::from)?;
        if !is_ours {
            open::glance(path)?;
        }
        let lock = Lock::take(path).map_err(|error| match error {
            JournalError::OpenElsewhere { .. } => error,
            _ if is_ours => JournalError::BetweenTwo,
            other => other,
        })?;
        beside.put_right().map_err(|_| JournalError::BetweenTwo)?;
        if is_ours {
            open::glance(path)?;
        }
        Ok(Journal { path: path.to_owned(), connection: open::open(path)?, ids: ContextV7::new(), _lock: lock })
    }

    /// Opens a file that nobody else knows of: one that is being made beside the journal.
    pub(super) fn open_alone(path: &Path) -> Result<Journal, JournalError> {
        Ok(Journal { path: path.to_owned(), connection: open::open(path)?, ids: ContextV7::new(), _lock: None })
    }

    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Holds the tables that every touch needs against their indexes. The pieces of logs are left out: each is read for itself, and a long
    /// log takes longer to look through than an app may take to open.
    ///
    /// # Errors
    /// [`JournalError::NotAJournal`]: the file is damaged.
    pub(crate) fn is_sound(&self) -> Result<(), JournalError> {
        for table in ["sqlite_schema", "entry", "draft", "bookmark", "preference", "log"] {
            let found: String = self
                .connection
                .query_row(&format!("PRAGMA integrity_check({table})"), [], |row| row.get(0))
                .map_err(JournalError::while_doing(Doing::Opening))?;
            if found != "ok" {
                return Err(self.unsound(found));
            }
        }
        Ok(())
    }

    /// What a check of the tables found. A page that the storage did not give is no damage: SQLite says of it that it could not get it.
    fn unsound(&self, found: String) -> JournalError {
        if !["unable to get the page", "failed to get page"].iter().any(|words| found.contains(words)) {
            return JournalError::NotAJournal { path: self.path.clone(), reason: NotOurs::Damaged };
        }
        let error = rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_IOERR_READ);
        JournalError::while_doing(Doing::Opening)(rusqlite::Error::SqliteFailure(error, Some(found)))
    }

    /// Does something in one transaction.
    pub(super) fn at_once(
        &mut self,
        act: impl FnOnce(&Transaction<'_>) -> Result<(), JournalError>,
    ) -> Result<(), JournalError> {
        let writing = JournalError::while_doing;
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(writing(Doing::Writing))?;
        act(&transaction)?;
        transaction.commit().map_err(writing(Doing::Writing))
    }

    /// Folds the write-ahead log back into the file, before the file alone is moved.
    ///
    /// # Errors
    /// It could not be: closing the file would leave the log beside it, and say nothing.
    pub(super) fn fold_log_in(&self) -> Result<(), JournalError> {
        self.connection
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get::<_, i64>(0))
            .map_err(JournalError::while_doing(Doing::Closing))
            .and_then(|busy| if busy == 0 { Ok(()) } else { Err(JournalError::Busy) })
    }

    /// Closes a file that is about to be moved: all of it is in it.
    pub(super) fn close_whole(self) -> Result<(), JournalError> {
        self.fold_log_in()?;
        self.close()
    }

    /// Closes the file, with the write-ahead log folded back into it.
    pub fn close(self) -> Result<(), JournalError> {
        self.connection.close().map_err(|(_, error)| JournalError::while_doing(Doing::Closing)(error))
    }
}
