//! What a hover should show in the air, and at which number it is called off.

use super::conditions::Conditions;
use super::drive_load::{duty, ratings};
use super::ladder::predicted_hover;
use super::{Facts, Result};
use crate::engineering::drive_load::drive_hold;
use crate::engineering::pack::LOADED_LOW_V;
use crate::engineering::prediction::Interval95;

/// A number that can be read in flight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExpectedInFlight {
    /// What it should be.
    pub expected: Interval95,
    /// Where it is called off.
    pub call_off: f64,
}

/// Current and voltage of a hover.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExpectedHover {
    /// Current, A: called off above.
    pub current_a: ExpectedInFlight,
    /// Voltage of the pack under that load, V: called off below.
    pub loaded_v: ExpectedInFlight,
}

/// What a hover should show. None while figures of the aircraft are missing, and in more wind than one is predicted in.
///
/// It is called off where a reading is further out than the interval is wide: no gust explains that (as [`crate::field::Flight`] has it for
/// the charge). And never later than where the drive holds no more for long, or a cell comes to its lowest voltage under load.
pub fn expected_hover(facts: Facts<'_>, asked: Conditions) -> Option<ExpectedHover> {
    let (predicted, _) = predicted_hover(facts, asked)?;
    let (current_a, loaded_v) = (predicted.current_a, predicted.loaded_v);
    let width = |interval: &Interval95| interval.high - interval.low;
    let held_a = held_a(facts, asked.head_rpm).unwrap_or(f64::INFINITY);
    let lowest_v = facts.figure("pack-cells").ok()? * LOADED_LOW_V;
    Some(ExpectedHover {
        current_a: ExpectedInFlight {
            expected: current_a,
            call_off: (current_a.high + width(&current_a)).min(held_a),
        },
        loaded_v: ExpectedInFlight { expected: loaded_v, call_off: (loaded_v.low - width(&loaded_v)).max(lowest_v) },
    })
}

/// What the drive holds for as long as it likes.
fn held_a(facts: Facts<'_>, head_rpm: f64) -> Result<f64> {
    Ok(drive_hold(&ratings(facts)?, duty(facts, head_rpm)?)?.continuous_a)
}
