//! Why what a person entered cannot be taken as it is.

use std::fmt;

/// What was entered cannot be taken as it is. Nothing was recorded, and what was typed is still there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// The field, where it is one field's fault.
    pub field: Option<String>,
    /// What is wrong and what would be right, as the person reads it.
    pub reason: String,
}

impl Refusal {
    /// A refusal that is no single field's fault.
    pub fn new(reason: impl Into<String>) -> Refusal {
        Refusal { field: None, reason: reason.into() }
    }

    /// A refusal of what stands in one field.
    pub fn of(field: &str, reason: impl Into<String>) -> Refusal {
        Refusal { field: Some(field.to_owned()), reason: reason.into() }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.reason)
    }
}

impl std::error::Error for Refusal {}

/// What reading a form comes to.
pub(super) type Result<T> = std::result::Result<T, Refusal>;
