//! What a person reads where the journal could not be read or written.

use std::fmt;

use super::{Doing, JournalError, Misfit, NoWithdrawal, NotOurs};
use crate::locale::{Locale, say};
use crate::record::StoredFormError;

impl JournalError {
    /// What is wrong, what is safe and what to do, as a person reads it. What SQLite says of itself stays as it is.
    pub fn words(&self, locale: Locale) -> String {
        match self {
            JournalError::NotAJournal { path, reason } => {
                let reason = reason.words(locale);
                say!(locale, "store-not-ours", path = path.display().to_string(), reason = reason)
            }
            JournalError::Newer { path, found, known } => {
                say!(locale, "store-newer", path = path.display().to_string(), found = found, known = known)
            }
            JournalError::Full => say!(locale, "store-full"),
            JournalError::Busy => say!(locale, "store-busy"),
            JournalError::OpenElsewhere { path } => {
                say!(locale, "store-open-elsewhere", path = path.display().to_string())
            }
            JournalError::CannotLock { source } => say!(locale, "store-cannot-lock", words = source.to_string()),
            JournalError::Broken { seq, reason } => {
                say!(locale, "store-broken", seq = seq.to_string(), reason = reason.words(locale))
            }
            JournalError::Unreadable { seq, source } => {
                say!(locale, "store-unreadable", seq = seq.to_string(), why = source.words(locale))
            }
            JournalError::CannotWithdraw { reason } => reason.words(locale),
            JournalError::Backup { source } => source.words(locale),
            JournalError::BetweenTwo => say!(locale, "store-between-two"),
            JournalError::Sqlite { doing, source } => {
                say!(locale, "store-storage", doing = doing.words(locale), words = source.to_string())
            }
        }
    }
}

impl NotOurs {
    fn words(&self, locale: Locale) -> String {
        match self {
            NotOurs::NoDatabase => say!(locale, "store-no-database"),
            NotOurs::Damaged => say!(locale, "store-damaged"),
            NotOurs::OtherProgram => say!(locale, "store-other-program"),
            NotOurs::Other(words) => words.clone(),
        }
    }
}

impl Misfit {
    fn words(self, locale: Locale) -> String {
        match self {
            Misfit::Missing => say!(locale, "store-entry-missing"),
            Misfit::OtherBefore => say!(locale, "store-other-before"),
            Misfit::Altered => say!(locale, "store-altered"),
            Misfit::WithdrawsAltered => say!(locale, "store-withdraws-altered"),
            Misfit::ColumnAltered => say!(locale, "store-column-altered"),
        }
    }
}

impl NoWithdrawal {
    fn words(self, locale: Locale) -> String {
        match self {
            NoWithdrawal::NotThere => say!(locale, "store-withdraws-nothing"),
            NoWithdrawal::Withdrawn => say!(locale, "store-withdrawn-before"),
            NoWithdrawal::IsWithdrawal => say!(locale, "store-withdraws-withdrawal"),
        }
    }
}

impl Doing {
    fn words(self, locale: Locale) -> String {
        match self {
            Doing::Opening => say!(locale, "store-opened"),
            Doing::Creating => say!(locale, "store-created"),
            Doing::Updating => say!(locale, "store-updated"),
            Doing::Reading => say!(locale, "store-read"),
            Doing::Writing => say!(locale, "store-written"),
            Doing::Closing => say!(locale, "store-closed"),
        }
    }
}

/// For logs and developers, in English.
impl fmt::Display for StoredFormError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}

impl StoredFormError {
    fn words(&self, locale: Locale) -> String {
        match self {
            StoredFormError::Newer { kind, version } => {
                say!(locale, "store-form-newer", kind = kind, version = version)
            }
            StoredFormError::Unreadable { kind, reason } => {
                say!(locale, "store-form-unreadable", kind = kind, reason = reason)
            }
        }
    }
}
