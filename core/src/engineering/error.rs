//! The one error of the engineering functions.

use thiserror::Error;

use super::conflict::Conflict;

/// Why a figure could not be computed, in words that a person at the bench can act on.
///
/// Every engineering function checks all of its inputs before it computes, so an error never leaves half a result behind.
/// No function panics, whatever the floating-point input.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum EngineeringError {
    /// A number lies outside the range in which the function means anything (infinities included).
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
    NotANumber {
        /// The quantity's name as a person would say it.
        quantity: &'static str,
    },
    /// A list is too short or too long for the computation.
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
    Contradiction {
        /// What does not agree, and what to check.
        what: Conflict,
    },
}

impl From<Conflict> for EngineeringError {
    fn from(what: Conflict) -> EngineeringError {
        EngineeringError::Contradiction { what }
    }
}

/// Shorthand for the result of an engineering function.
pub type Result<T> = std::result::Result<T, EngineeringError>;
