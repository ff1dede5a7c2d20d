use std::fmt;
use std::path::PathBuf;

use thiserror::Error;

use super::backup::BackupError;
use crate::locale::Locale;
use crate::record::StoredFormError;

/// What can go wrong with the journal. Nothing here ever means that something recorded was thrown away.
#[derive(Debug, Error)]
pub enum JournalError {
    /// The file is something else.
    NotAJournal {
        /// Which file.
        path: PathBuf,
        /// What it seems to be.
        reason: NotOurs,
    },
    /// Written by a newer Liftgate.
    Newer {
        /// Which file.
        path: PathBuf,
        /// Its form.
        found: i64,
        /// The newest form known here.
        known: i64,
    },
    /// No room left.
    Full,
    /// Another process holds the file.
    Busy,
    /// It is open already: in another window, another program, or a second time in this one.
    OpenElsewhere {
        /// Which file.
        path: PathBuf,
    },
    /// It could not be found out whether it is open elsewhere.
    CannotLock {
        /// The system's own words.
        source: std::io::Error,
    },
    /// The chain of digests does not close.
    Broken {
        /// First entry that does not fit.
        seq: i64,
        /// What does not fit.
        reason: Misfit,
    },
    /// An entry that this version cannot read.
    Unreadable {
        /// Which entry.
        seq: i64,
        /// Why.
        source: StoredFormError,
    },
    /// An entry was to be withdrawn that cannot be.
    CannotWithdraw {
        /// Why.
        reason: NoWithdrawal,
    },
    /// A backup cannot be made, or brought in.
    Backup {
        /// Why.
        source: BackupError,
    },
    /// The phone's storage failed while one journal took another one's place. Both are whole, and the next start ends it.
    BetweenTwo,
    /// SQLite said something else.
    Sqlite {
        /// What was being done.
        doing: Doing,
        /// SQLite's own words.
        source: rusqlite::Error,
    },
}

/// What a file that is no journal of ours seems to be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotOurs {
    /// No database.
    NoDatabase,
    /// A database with damaged pages.
    Damaged,
    /// A database of another program.
    OtherProgram,
    /// Something else, in the words of whatever found it.
    Other(String),
}

/// Why an entry does not fit the one before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Misfit {
    /// An entry is missing before it.
    Missing,
    /// It names another one as the one before it.
    OtherBefore,
    /// What it says was altered.
    Altered,
    /// The entry that it withdraws was altered.
    WithdrawsAltered,
    /// One of its columns was altered.
    ColumnAltered,
}

/// Why an entry is not withdrawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoWithdrawal {
    /// It is not there.
    NotThere,
    /// It was withdrawn before.
    Withdrawn,
    /// It is a withdrawal itself.
    IsWithdrawal,
}

/// What was being done to the journal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Doing {
    /// It was opened.
    Opening,
    /// It was begun.
    Creating,
    /// It was brought to the newest form.
    Updating,
    /// It was read.
    Reading,
    /// It was written to.
    Writing,
    /// It was closed.
    Closing,
}

/// For logs and developers, in English; a person reads [`JournalError::words`].
impl fmt::Display for JournalError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}

impl JournalError {
    /// Whether the file itself may be at fault, rather than the phone around it.
    pub(crate) fn may_be_damage(&self) -> bool {
        use rusqlite::ErrorCode::{
            ConstraintViolation, DatabaseCorrupt, NotADatabase, SchemaChanged, TypeMismatch, Unknown,
        };
        match self {
            JournalError::NotAJournal { .. }
            | JournalError::Newer { .. }
            | JournalError::Broken { .. }
            | JournalError::Unreadable { .. } => true,
            // A statement that does not fit the tables any more is an unknown error in SQLite's own words.
            JournalError::Sqlite { source, .. } => source.sqlite_error_code().is_none_or(|code| {
                let of_the_file =
                    [ConstraintViolation, DatabaseCorrupt, NotADatabase, SchemaChanged, TypeMismatch, Unknown];
                of_the_file.contains(&code)
            }),
            JournalError::Full
            | JournalError::Busy
            | JournalError::OpenElsewhere { .. }
            | JournalError::CannotLock { .. }
            | JournalError::CannotWithdraw { .. }
            | JournalError::Backup { .. }
            | JournalError::BetweenTwo => false,
        }
    }

    /// Sorts SQLite's errors into those that a person can act on.
    pub(super) fn while_doing(doing: Doing) -> impl FnOnce(rusqlite::Error) -> JournalError {
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

impl From<BackupError> for JournalError {
    fn from(source: BackupError) -> Self {
        match source {
            BackupError::Storage { source } if source.kind() == std::io::ErrorKind::StorageFull => JournalError::Full,
            source => JournalError::Backup { source },
        }
    }
}
