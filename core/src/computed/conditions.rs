//! In which conditions a hover is predicted.

use crate::engineering::wind::RotorWind;
use crate::field::Flight;
use crate::record::Wind;

/// A hover that is asked about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Head speed, rpm.
    pub head_rpm: f64,
    /// Air, degrees Celsius.
    pub air_c: f64,
    /// Seconds with the motor on, where they are known.
    pub run_s: Option<f64>,
    /// Wind, where it is known.
    pub wind: Option<Wind>,
}

impl Conditions {
    /// Those of a flight.
    pub(super) fn of(flight: &Flight) -> Conditions {
        let run_s = flight.flown_ms().map(|ms| ms as f64 / 1_000.0);
        Conditions { head_rpm: flight.head_speed_rpm, air_c: flight.air_c, run_s, wind: flight.wind }
    }

    /// The same for what goes by all hovers; in a wind in which one can be predicted.
    pub(super) fn to_fit(flight: &Flight) -> Conditions {
        let conditions = Conditions::of(flight);
        Conditions { wind: conditions.wind.filter(|wind| !is_too_windy(Some(*wind))), ..conditions }
    }

    /// The same without the wind, which may drop at any time.
    pub(super) fn in_still_air(self) -> Conditions {
        Conditions { wind: Some(Wind::Beaufort(0)), ..self }
    }
}

/// Wind at the rotor; none for what is no wind.
pub(super) fn at_rotor(wind: Wind) -> Option<RotorWind> {
    match wind {
        Wind::Beaufort(force) => RotorWind::by_force(force).ok(),
        Wind::MetresPerSecond(speed_m_s) => RotorWind::by_meter(speed_m_s).ok(),
    }
}

/// Whether there is more wind than a hover can be predicted in, or tells of the aircraft.
pub fn is_too_windy(wind: Option<Wind>) -> bool {
    wind.and_then(at_rotor).is_some_and(|wind| !wind.is_fitted())
}
