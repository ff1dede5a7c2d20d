//! Checks of one input each, used before anything is computed.

use super::conflict::Conflict;
use super::error::{EngineeringError, Result};

/// Accepts `value` from `low` to `high` inclusive; NaN and infinities get their typed error.
pub(super) fn within(quantity: &'static str, value: f64, unit: &'static str, low: f64, high: f64) -> Result<f64> {
    if value.is_nan() {
        return Err(EngineeringError::NotANumber { quantity });
    }
    if value < low || value > high {
        return Err(EngineeringError::OutOfRange { quantity, value, unit, low, high });
    }
    Ok(value)
}

/// Accepts a list whose length lies from `low` to `high`.
pub(super) fn count(quantity: &'static str, count: usize, low: usize, high: usize) -> Result<()> {
    if count < low || count > high {
        return Err(EngineeringError::Count { quantity, count, low, high });
    }
    Ok(())
}

/// Accepts `lower <= upper`; `what` says which two figures disagree.
pub(super) fn ordered(lower: f64, upper: f64, what: impl FnOnce() -> Conflict) -> Result<()> {
    if lower > upper {
        return Err(what().into());
    }
    Ok(())
}
