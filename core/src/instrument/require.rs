//! Checks of inputs.

use super::error::{InstrumentError, Result};

/// `value`, if it is finite and within `low` and `high`.
pub(super) fn within(quantity: &'static str, value: f64, unit: &'static str, (low, high): (f64, f64)) -> Result<f64> {
    if value.is_finite() && (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(InstrumentError::OutOfRange { quantity, value, unit, low, high })
    }
}

/// `count`, if it lies within `low` and `high`.
pub(super) fn count(quantity: &'static str, count: usize, (low, high): (usize, usize)) -> Result<usize> {
    if (low..=high).contains(&count) { Ok(count) } else { Err(InstrumentError::Count { quantity, count, low, high }) }
}

/// Refuses moments that stand still or run backwards.
pub(super) fn rising(t_ns: &[i64]) -> Result<()> {
    match t_ns.windows(2).position(|pair| pair[1] <= pair[0]) {
        Some(at) => Err(InstrumentError::TimeRunsBack { at: at + 1 }),
        None => Ok(()),
    }
}
