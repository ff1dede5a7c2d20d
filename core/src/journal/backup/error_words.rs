//! What a person reads where a backup cannot be brought in.

use super::BackupError;
use crate::locale::{Locale, say};

impl BackupError {
    /// What is wrong and what to do. What the storage says of itself stays as it is.
    pub fn words(&self, locale: Locale) -> String {
        match self {
            BackupError::NoContainer => say!(locale, "backup-no-container"),
            BackupError::NotOurs { file } => say!(locale, "backup-not-ours", file = file),
            BackupError::Newer => say!(locale, "backup-newer"),
            BackupError::Damaged { file, line: Some(line) } => {
                say!(locale, "backup-damaged-line", file = file, line = line.to_string())
            }
            BackupError::Damaged { file, line: None } => say!(locale, "backup-damaged", file = file),
            BackupError::TooMuch { file } => say!(locale, "backup-too-much", file = file),
            BackupError::Storage { source } => say!(locale, "backup-storage", words = source.to_string()),
        }
    }
}
