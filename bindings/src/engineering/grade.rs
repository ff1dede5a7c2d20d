//! How a figure stands against its limit.

use liftgate_core::engineering::Grade;

#[uniffi::remote(Enum)]
pub enum Grade {
    Ok,
    Caution,
    Stop,
}
