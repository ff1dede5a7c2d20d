use thiserror::Error;

use crate::journal::JournalError;
use crate::locale::Locale;
use crate::plan::PlanFaults;

/// Why something was not done. Nothing that was recorded before is ever touched by it.
#[derive(Debug, Error)]
pub enum DeskError {
    /// What was entered cannot be taken as it is.
    #[error("{reason}")]
    Refused {
        /// The field of the form, where it is one field's fault.
        field: Option<String>,
        /// What is wrong and what would be right.
        reason: String,
    },
    /// The other person has the phone.
    #[error("{reason}")]
    NotYourTurn {
        /// Whose turn it is.
        reason: String,
    },
    /// The journal could not be read or written.
    #[error(transparent)]
    Journal(#[from] JournalError),
    /// The plan does not hold together.
    #[error("{0}")]
    Plan(#[from] PlanFaults),
}

impl DeskError {
    /// What a person reads. A refusal was said in the language of whoever was refused; a plan's faults are for its author.
    pub fn words(&self, locale: Locale) -> String {
        match self {
            DeskError::Refused { reason, .. } | DeskError::NotYourTurn { reason } => reason.clone(),
            DeskError::Journal(error) => error.words(locale),
            DeskError::Plan(faults) => faults.to_string(),
        }
    }

    /// A refusal that is no single field's fault.
    pub(crate) fn refused(reason: impl Into<String>) -> DeskError {
        DeskError::Refused { field: None, reason: reason.into() }
    }

    /// A refusal of what stands in one field.
    pub(crate) fn field(field: &str, reason: impl Into<String>) -> DeskError {
        DeskError::Refused { field: Some(field.to_owned()), reason: reason.into() }
    }
}
