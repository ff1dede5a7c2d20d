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
