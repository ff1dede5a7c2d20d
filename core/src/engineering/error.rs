//! The one error of the engineering functions.

use thiserror::Error;

/// Why a figure could not be computed, in words that a person at the bench can act on.
///
/// Every engineering function checks all of its inputs before it computes, so an error never leaves half a result behind.
/// No function panics, whatever the floating-point input.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum EngineeringError {
    /// A number lies outside the range in which the function means anything (infinities included).
    #[error(
        "{quantity} is {}, but must be from {low} to {}: check the figure and its unit, then enter it again",
        with_unit(*value, unit),
        with_unit(*high, unit)
    )]
    OutOfRange {
        /// The quantity's name as a person would say it.
        quantity: &'static str,
        /// The value that was given, in `unit`.
        value: f64,
        /// The unit of `value`, `low` and `high`; empty for a plain number.
        unit: &'static str,
        /// Lowest value accepted.
        low: f64,
        /// Highest value accepted.
        high: f64,
    },
    /// A value is NaN: a field left empty or a reading that failed.
    #[error("{quantity} is not a number: enter or measure it again")]
    NotANumber {
        /// The quantity's name as a person would say it.
        quantity: &'static str,
    },
    /// A list is too short or too long for the computation.
    #[error("{quantity}: {count} given, but {low} to {high} are needed: add or remove some")]
    Count {
        /// What was counted.
        quantity: &'static str,
        /// How many were given.
        count: usize,
        /// Fewest accepted.
        low: usize,
        /// Most accepted.
        high: usize,
    },
    /// Two inputs cannot both be true, or the inputs cannot determine the answer.
    #[error("{what}")]
    Contradiction {
        /// What does not agree, and what to check.
        what: String,
    },
}

/// A number and its unit, without a stray space where there is no unit.
fn with_unit(value: f64, unit: &str) -> String {
    format!("{value} {unit}").trim_end().to_owned()
}

impl EngineeringError {
    /// A [`EngineeringError::Contradiction`] with this text.
    pub(crate) fn contradiction(what: impl Into<String>) -> Self {
        Self::Contradiction { what: what.into() }
    }
}

/// Shorthand for the result of an engineering function.
pub type Result<T> = std::result::Result<T, EngineeringError>;
