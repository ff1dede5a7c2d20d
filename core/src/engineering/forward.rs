//! What a flight that leaves the hover draws, and how far it warms a part, from the hover of the same aircraft and from the flights so far.
//!
//! In forward flight the induced power falls by Glauert's inflow (see [`super::wind`]), that of the blades grows by `1 + 4.65 mu^2`
//! and that of the body with the cube of the speed (A. R. S. Bramwell, Helicopter Dynamics). For a large model, from 3 to 20 m/s, with a
//! drag area of 0.5 to 3 % of its disc, the mean power comes to 0.6 to 1.2 of the hover's. How fast, how draggy and how much of it climbs
//! nobody knows before: so the prior is that range, and what was flown narrows it. The flights of one kind are more alike than others.
//!
//! A rise goes with the power to about 1.5, and with the air over the part to -0.5 to -0.6 (forced flow over a plate or a cylinder, Incropera).
//! A part in the open gets two to four times the air of the hover, one inside of the body none more: so 0.4 to 1.3 of the hover's rise.

use serde::{Deserialize, Serialize};

use super::error::Result;
use super::heat::NORMAL_95;
use super::prediction::Interval95;
use super::require::{count, within};

/// What is believed of a flight over its hover before any was flown. Deviations are of the logarithm (common practice, no source, but for
/// what the head of this file derives).
struct Belief {
    /// Middle of what a flight comes to over its hover.
    middle: f64,
    /// Of an aircraft about the middle.
    aircraft_sd: f64,
    /// Of a kind of flight about its aircraft.
    kind_sd: f64,
    /// Of one flight about its kind.
    flight_sd: f64,
}

const CURRENT: Belief = Belief { middle: 0.85, aircraft_sd: 0.13, kind_sd: 0.11, flight_sd: 0.06 };
const RISE: Belief = Belief { middle: 0.72, aircraft_sd: 0.25, kind_sd: 0.17, flight_sd: 0.12 };

/// A flight that was flown.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct FlownForward {
    /// Its mean current, or the rise of a part, over that of a hover at its head speed, in its air and for its time, 0.05 to 20.
    pub over_hover: f64,
    /// Whether it was of the kind that is asked about.
    pub is_alike: bool,
}

/// The mean current of a flight in the air, in A: where a new one should fall.
///
/// `hover_a` is that of a hover in still air, `flown` up to 2000 flights.
///
/// A normal prior in two steps on the logarithm of the ratio, each kind about its aircraft; in closed form, since all widths are given.
///
/// # Errors
/// Figures out of range.
///
/// ```
/// use liftgate_core::engineering::{forward::{forward_current, FlownForward}, prediction::Interval95};
/// let hover = Interval95 { low: 23.0, middle: 25.0, high: 27.0 };
/// let before = forward_current(hover, &[])?;
/// let after = forward_current(hover, &[FlownForward { over_hover: 0.95, is_alike: true }; 3])?;
/// assert!((before.middle / 25.0 - 0.85).abs() < 0.01 && after.middle > before.middle);
/// assert!(after.high - after.low < before.high - before.low);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn forward_current(hover_a: Interval95, flown: &[FlownForward]) -> Result<Interval95> {
    for end in [hover_a.low, hover_a.middle, hover_a.high] {
        within("current of the hover", end, "A", 0.01, 10_000.0)?;
    }
    over(&CURRENT, hover_a, flown)
}

/// How far a part is over the air as such a flight ends, in K: where a new one should fall. `hover_k` is its rise in a hover as long in still
/// air, `flown` up to 2000 flights; otherwise as [`forward_current`].
///
/// # Errors
/// Figures out of range.
///
/// ```
/// use liftgate_core::engineering::{forward::forward_rise, prediction::Interval95};
/// let rise = forward_rise(Interval95 { low: 26.0, middle: 30.0, high: 35.0 }, &[])?;
/// assert!(rise.low < 0.45 * 30.0 && rise.high > 1.25 * 30.0);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn forward_rise(hover_k: Interval95, flown: &[FlownForward]) -> Result<Interval95> {
    for end in [hover_k.low, hover_k.middle, hover_k.high] {
        within("rise in the hover", end, "K", 0.01, 10_000.0)?;
    }
    over(&RISE, hover_k, flown)
}

fn over(belief: &Belief, hover: Interval95, flown: &[FlownForward]) -> Result<Interval95> {
    count("flights", flown.len(), 0, 2000)?;
    for flight in flown {
        within("flight over hover", flight.over_hover, "", 0.05, 20.0)?;
    }
    let of = |is_alike: bool| flown.iter().filter(move |flight| flight.is_alike == is_alike);
    let flight_variance = belief.flight_sd.powi(2);
    let aircraft = Known { middle: belief.middle.ln(), variance: belief.aircraft_sd.powi(2) };
    let other_variance = belief.kind_sd.powi(2) + flight_variance;
    let aircraft = of(false).fold(aircraft, |known, flight| known.read(flight.over_hover.ln(), other_variance));
    let kind = Known { variance: aircraft.variance + belief.kind_sd.powi(2), ..aircraft };
    let kind = of(true).fold(kind, |known, flight| known.read(flight.over_hover.ln(), flight_variance));
    let hover_sd = (hover.high / hover.low).ln() / (2.0 * NORMAL_95);
    let reach = NORMAL_95 * (kind.variance + flight_variance + hover_sd.powi(2)).sqrt();
    let at = |deviation: f64| hover.middle * (kind.middle + deviation).exp();
    Ok(Interval95 { low: at(-reach), middle: at(0.0), high: at(reach) })
}

/// A normal belief.
#[derive(Clone, Copy)]
struct Known {
    middle: f64,
    variance: f64,
}

impl Known {
    /// With a reading of this variance: precisions add up.
    fn read(self, value: f64, variance: f64) -> Known {
        let share = self.variance / (self.variance + variance);
        Known { middle: self.middle + share * (value - self.middle), variance: self.variance * (1.0 - share) }
    }
}
