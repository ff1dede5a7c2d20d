//! How a computed figure stands against its limit.

use serde::{Deserialize, Serialize};

/// How a figure stands against its limit; ordered so that the greater is the worse.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Inside the limit with the usual room to spare.
    Ok,
    /// Inside the limit, but with less than the usual room.
    Caution,
    /// Past the limit.
    Stop,
}

impl Grade {
    /// The grade of a `load` against a `limit` of the same unit: stop above it, caution above `caution_fraction` of it.
    pub(crate) fn of_load(load: f64, limit: f64, caution_fraction: f64) -> Self {
        if load > limit {
            Self::Stop
        } else if load > limit * caution_fraction {
            Self::Caution
        } else {
            Self::Ok
        }
    }
}
