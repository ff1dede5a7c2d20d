//! What a caller got wrong, apart from what cannot be told from a good recording.

use thiserror::Error;

/// An input that means nothing to an instrument.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum InstrumentError {
    /// A number is not finite or lies outside the range in which the function means anything.
    #[error("{quantity} is {value} {unit}, and must lie within {low} and {high}")]
    OutOfRange {
        /// What the number is.
        quantity: &'static str,
        /// What was given, in `unit`.
        value: f64,
        /// Unit of `value`, `low` and `high`; empty for a plain number.
        unit: &'static str,
        /// Lowest value accepted.
        low: f64,
        /// Highest value accepted.
        high: f64,
    },
    /// A list is too short or too long.
    #[error("{count} {quantity} given, and it must be {low} to {high}")]
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
    /// Time stamps that stand still or run backwards, at this place of the list.
    #[error("time stamp {at} does not lie after the one before it")]
    TimeRunsBack {
        /// Place in the list, from zero.
        at: usize,
    },
    /// The equations have no one answer: what was measured does not tell the unknowns apart.
    #[error("the readings do not tell the unknowns apart: condition number {condition}")]
    Singular {
        /// Condition number of the equations; infinite where they are singular.
        condition: f64,
    },
}

/// Shorthand for the result of an instrument's function.
pub type Result<T> = std::result::Result<T, InstrumentError>;
