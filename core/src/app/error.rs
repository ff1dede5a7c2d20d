use std::fmt;

use thiserror::Error;

use crate::form::{ColumnsForm, Refusal};
use crate::journal::JournalError;
use crate::locale::Locale;
use crate::plan::PlanFaults;
use crate::telemetry::TelemetryError;

/// Why something was not done. Nothing that was recorded before is ever touched by it. It reads in the language of whoever was
/// at the phone.
#[derive(Debug, Error)]
pub enum AppError {
    /// What was entered cannot be taken as it is.
    Refused {
        /// The field of the form, where it is one field's fault.
        field: Option<String>,
        /// What is wrong and what would be right.
        reason: String,
    },
    /// The other person has the phone.
    NotYourTurn {
        /// Whose turn it is.
        reason: String,
    },
    /// The journal could not be read or written.
    Journal {
        /// Why.
        source: JournalError,
        /// How the person reads it.
        locale: Locale,
    },
    /// The plan does not hold together.
    Plan {
        /// What is wrong in it.
        source: PlanFaults,
        /// How the person reads it.
        locale: Locale,
    },
    /// A log cannot be taken in.
    Log {
        /// The field of the form, where it is one column's fault.
        field: Option<String>,
        /// Why.
        source: TelemetryError,
        /// How the person reads it.
        locale: Locale,
    },
}

impl fmt::Display for AppError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            AppError::Refused { reason, .. } | AppError::NotYourTurn { reason } => f.write_str(reason),
            AppError::Journal { source, locale } => f.write_str(&source.words(*locale)),
            AppError::Plan { source, locale } => f.write_str(&source.words(*locale)),
            AppError::Log { source, locale, .. } => f.write_str(&source.words(*locale)),
        }
    }
}

// What fails below the desk knows of no person: it reads in English until a handle says who is there.

impl From<JournalError> for AppError {
    fn from(source: JournalError) -> Self {
        AppError::Journal { source, locale: Locale::default() }
    }
}

impl From<PlanFaults> for AppError {
    fn from(source: PlanFaults) -> Self {
        AppError::Plan { source, locale: Locale::default() }
    }
}

impl From<TelemetryError> for AppError {
    fn from(source: TelemetryError) -> Self {
        let field = match &source {
            TelemetryError::Map { column: Some(column), .. } => Some(ColumnsForm::quantity_field(column - 1)),
            _ => None,
        };
        AppError::Log { field, source, locale: Locale::default() }
    }
}

impl From<Refusal> for AppError {
    fn from(refusal: Refusal) -> Self {
        AppError::Refused { field: refusal.field, reason: refusal.reason }
    }
}

impl AppError {
    /// The same, as a person reads it.
    pub(super) fn read_in(mut self, to: Locale) -> AppError {
        match &mut self {
            AppError::Refused { .. } | AppError::NotYourTurn { .. } => {}
            AppError::Journal { locale, .. } | AppError::Plan { locale, .. } | AppError::Log { locale, .. } => {
                *locale = to;
            }
        }
        self
    }

    /// A refusal that is no single field's fault.
    pub(crate) fn refused(reason: impl Into<String>) -> AppError {
        AppError::Refused { field: None, reason: reason.into() }
    }

    /// A refusal of what stands in one field.
    pub(crate) fn field(field: &str, reason: impl Into<String>) -> AppError {
        AppError::Refused { field: Some(field.to_owned()), reason: reason.into() }
    }
}
