use std::fmt;
use std::io;

use thiserror::Error;

use crate::locale::Locale;

/// Why a file cannot be brought in as a backup. Nothing on the phone is changed by it.
#[derive(Debug, Error)]
pub enum BackupError {
    /// It is no ZIP container, or one that was cut short.
    NoContainer,
    /// A container with something else in it.
    NotOurs {
        /// The file in it that is missing or is not what it should be.
        file: String,
    },
    /// Made by a newer Liftgate.
    Newer,
    /// Something in it is not what the manifest or the chain says.
    Damaged {
        /// The file in it.
        file: String,
        /// The line of that file, from 1, where it is one line's fault.
        line: Option<i64>,
    },
    /// It holds more than it says, or more than a record ever would.
    TooMuch {
        /// The file in it.
        file: String,
    },
    /// The storage.
    Storage {
        /// Its own words.
        source: io::Error,
    },
}

/// For logs and developers, in English; a person reads [`BackupError::words`].
impl fmt::Display for BackupError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}

impl BackupError {
    /// What a file of a container could not be read for: the storage, or what is in it.
    pub(super) fn reading(file: &str, line: Option<i64>) -> impl FnOnce(io::Error) -> BackupError {
        move |error| match error.raw_os_error() {
            Some(_) => error.into(),
            None => BackupError::damaged(file, line),
        }
    }

    pub(super) fn damaged(file: &str, line: Option<i64>) -> BackupError {
        BackupError::Damaged { file: file.to_owned(), line }
    }
}

impl From<io::Error> for BackupError {
    fn from(source: io::Error) -> Self {
        BackupError::Storage { source }
    }
}
