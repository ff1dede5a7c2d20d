use liftgate_core::app::AppError;
use liftgate_core::journal::JournalError;

/// What a caller can act on. Every reason is a sentence for the person, with what to do.
#[derive(Debug, thiserror::Error, uniffi::Error)]
pub enum LiftgateError {
    /// What was entered cannot be taken as it is: correct the field and touch again.
    #[error("{reason}")]
    Refused {
        /// The field of the screen, where it is one field's fault.
        field: Option<String>,
        /// What is wrong.
        reason: String,
    },
    /// The other person has the phone: ask for the other handle.
    #[error("{reason}")]
    NotYourTurn {
        /// Whose turn it is.
        reason: String,
    },
    /// The storage is full: free some space and touch again.
    #[error("{reason}")]
    StorageFull {
        /// What is safe and what to do.
        reason: String,
    },
    /// The journal is open already: go on there, or close it there and open it here again.
    #[error("{reason}")]
    OpenElsewhere {
        /// Which file.
        reason: String,
    },
    /// The file was written by a newer app: update.
    #[error("{reason}")]
    NewerJournal {
        /// Which file.
        reason: String,
    },
    /// The file is not ours, or is damaged: it was left as it is.
    #[error("{reason}")]
    NotReadable {
        /// Which file and why.
        reason: String,
    },
    /// The storage said something else: touch again, then report it.
    #[error("{reason}")]
    Storage {
        /// The storage's words.
        reason: String,
    },
}

impl From<AppError> for LiftgateError {
    fn from(error: AppError) -> Self {
        let reason = error.to_string();
        match error {
            AppError::Refused { field, .. } | AppError::Log { field, .. } => LiftgateError::Refused { field, reason },
            AppError::NotYourTurn { .. } => LiftgateError::NotYourTurn { reason },
            AppError::Journal { source, .. } => of_journal(&source, reason),
            AppError::Plan { .. } => LiftgateError::NotReadable { reason },
        }
    }
}

fn of_journal(error: &JournalError, reason: String) -> LiftgateError {
    match error {
        JournalError::Full => LiftgateError::StorageFull { reason },
        JournalError::OpenElsewhere { .. } => LiftgateError::OpenElsewhere { reason },
        JournalError::Newer { .. } => LiftgateError::NewerJournal { reason },
        JournalError::NotAJournal { .. } | JournalError::Broken { .. } | JournalError::Unreadable { .. } => {
            LiftgateError::NotReadable { reason }
        }
        JournalError::CannotWithdraw { .. } | JournalError::Backup { .. } => {
            LiftgateError::Refused { field: None, reason }
        }
        JournalError::Busy
        | JournalError::CannotLock { .. }
        | JournalError::BetweenTwo
        | JournalError::Sqlite { .. } => LiftgateError::Storage { reason },
    }
}
