//! The engineering functions of the core as plain functions, with its own records declared field by field.
//!
//! The compiler holds the declarations against the core's types. A record is copied here only where the core's holds what
//! UniFFI has no word for: a pair, or a place in a list.

mod air;
mod balance;
mod ballast;
mod drive;
mod grade;
mod heat;
mod pack;
mod placement;
mod prediction;
mod rotor;
mod supply;
mod unbalance;
mod wire;

use liftgate_core::engineering::EngineeringError;

use crate::LiftgateError;

/// A place in a list. None here holds more than a few thousand.
fn index(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}

/// The arithmetic is put out for other programs and knows of no person: its errors are in English.
impl From<EngineeringError> for LiftgateError {
    fn from(error: EngineeringError) -> Self {
        LiftgateError::Refused { field: None, reason: error.to_string() }
    }
}
