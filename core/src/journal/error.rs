use std::path::PathBuf;

use thiserror::Error;

use crate::record::StoredFormError;

/// What can go wrong with the journal. Nothing here ever means that something recorded was thrown away.
#[derive(Debug, Error)]
pub enum JournalError {
    /// The file is something else.
    #[error("{} is not a Liftgate journal: {reason}. It was left as it is; choose another place", path.display())]
    NotAJournal {
        /// Which file.
        path: PathBuf,
        /// What it seems to be.
        reason: String,
    },
    /// Written by a newer Liftgate.
    #[error(
        "{} was written by a newer Liftgate (form {found}, this one reads up to {known}). \
         It was left as it is; update the app",
        path.display()
    )]
    Newer {
        /// Which file.
        path: PathBuf,
        /// Its form.
        found: i64,
        /// The newest form known here.
        known: i64,
    },
    /// No room left.
    #[error(
        "the phone's storage is full, so this was not recorded. All that was recorded before is safe; \
         free some space and do it again"
    )]
    Full,
    /// Another process holds the file.
    #[error("the journal is held by another program; close it and try again")]
    Busy,
    /// The chain of digests does not close.
    #[error(
        "entry {seq} does not fit the one before it: {reason}. Keep the file and restore your last backup beside it"
    )]
    Broken {
        /// First entry that does not fit.
        seq: i64,
        /// What does not fit.
        reason: String,
    },
    /// An entry that this version cannot read.
    #[error("entry {seq}: {source}")]
    Unreadable {
        /// Which entry.
        seq: i64,
        /// Why.
        source: StoredFormError,
    },
    /// An entry was to be withdrawn that cannot be.
    #[error("{reason}")]
    CannotWithdraw {
        /// Why.
        reason: String,
    },
    /// SQLite said something else.
    #[error("the journal could not be {doing}: {source}")]
    Sqlite {
        /// What was being done.
        doing: &'static str,
        /// SQLite's own words.
        source: rusqlite::Error,
    },
}

impl JournalError {
    /// Sorts SQLite's errors into those that a person can act on.
    pub(super) fn while_doing(doing: &'static str) -> impl FnOnce(rusqlite::Error) -> JournalError {
        move |source| match source.sqlite_error_code() {
            Some(rusqlite::ErrorCode::DiskFull) => JournalError::Full,
            // The index of the write-ahead log could not grow: no room either, by another name.
            _ if source
                .sqlite_error()
                .is_some_and(|error| error.extended_code == rusqlite::ffi::SQLITE_IOERR_SHMSIZE) =>
            {
                JournalError::Full
            }
            Some(rusqlite::ErrorCode::DatabaseBusy | rusqlite::ErrorCode::DatabaseLocked) => JournalError::Busy,
            _ => JournalError::Sqlite { doing, source },
        }
    }
}
