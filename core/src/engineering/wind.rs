//! Wind over a hover: what it is at the rotor, by the Beaufort scale or a meter, and what it takes from the induced power.
//!
//! A hover over a spot in wind is level flight at the wind's speed: the rotor breathes in more air and needs to blow it down less. Glauert's
//! hypothesis (H. Glauert, "A general theory of the autogyro", ARC R&M 1111, 1926) has the induced velocity
//! `v = v_h^2 / sqrt(V^2 + v^2)` for the wind's speed `V` and the `v_h` of still air. A large model blows down 3 to 4 m/s: 4 m/s of
//! wind take a quarter of its induced power.
//!
//! Wind is told for 10 m over open ground; a hover is at two. The logarithmic profile carries it down: `ln(2 / z) / ln(10 / z)` with the
//! roughness length `z` of 0.03 m for open flat ground with grass (WMO-No. 8, Guide to Instruments and Methods of Observation, volume I,
//! chapter 5: exposure, and its table of terrains).

use serde::{Deserialize, Serialize};

use super::error::Result;
use super::require::within;

/// Speeds of the Beaufort numbers from 0 on at 10 m over open ground, in m/s, from and to (WMO, Manual on Codes, code table 1100, in tenths).
const BEAUFORT_M_S: [(f64, f64); 13] = [
    (0.0, 0.2),
    (0.3, 1.5),
    (1.6, 3.3),
    (3.4, 5.4),
    (5.5, 7.9),
    (8.0, 10.7),
    (10.8, 13.8),
    (13.9, 17.1),
    (17.2, 20.7),
    (20.8, 24.4),
    (24.5, 28.4),
    (28.5, 32.6),
    (32.7, 40.0),
];
/// Height of the rotor of a hover, and that for which wind is told, m.
const ROTOR_M: f64 = 2.0;
const TOLD_AT_M: f64 = 10.0;
/// Roughness length of open flat ground with grass, m.
const ROUGHNESS_M: f64 = 0.03;
/// Nobody knows the wind over a whole hover better than this, half of the interval of 95 %, m/s (common practice, no source: gusts).
const LEAST_HALF_WIDTH_M_S: f64 = 0.5;
/// A number that a person tells, by the width of its speeds: it may be the next one (common practice, no source).
const FORCE_HALF_WIDTH: f64 = 0.75;
/// A meter that is held up now and then, as a share of the mean of a hover (common practice, no source: gusts).
const METER_HALF_WIDTH: f64 = 0.25;
/// In more wind at the rotor than this nothing is fitted and nothing predicted, m/s: about the upper end of Beaufort 4. Gusts, drag of the
/// body and a rotor that is held against them take as much as the wind gives (common practice, no source).
pub const MOST_FITTED_M_S: f64 = 6.0;
/// What the hypothesis of an even inflow, the drag of the body and the blades' own may be off by, as a relative standard deviation of what the
/// wind takes off (common practice, no source).
const MODEL_SD: f64 = 0.15;
/// Winds at the rotor that are as likely as each other where nobody said what it was, m/s (common practice, no source).
const UNKNOWN_M_S: [f64; 3] = [0.0, 2.5, 5.0];

/// Wind at the rotor.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RotorWind {
    /// Its mean over the hover, in m/s, 0 to 60.
    pub speed_m_s: f64,
    /// Half width of its 95 % interval, in m/s, 0 to 30.
    pub half_width_m_s: f64,
}

impl RotorWind {
    /// None at all, as in a hall.
    pub const STILL: RotorWind = RotorWind { speed_m_s: 0.0, half_width_m_s: 0.0 };

    /// By a number of the Beaufort scale, 0 to 12: the middle of its speeds, carried down to the rotor. A person may take the next number
    /// for it: the interval is half as wide again as its speeds.
    ///
    /// # Errors
    /// No number of the scale.
    ///
    /// ```
    /// let wind = liftgate_core::engineering::wind::RotorWind::by_force(3)?;
    /// assert!((wind.speed_m_s - 4.4 * 0.723).abs() < 0.01 && (wind.half_width_m_s - 1.5 * 0.723).abs() < 0.01);
    /// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
    /// ```
    pub fn by_force(force: u8) -> Result<RotorWind> {
        let most = (BEAUFORT_M_S.len() - 1) as f64;
        let force = within("Beaufort number", f64::from(force), "", 0.0, most)?;
        let (low, high) = BEAUFORT_M_S[force as usize];
        let at_rotor = at_rotor();
        let half_width_m_s = (FORCE_HALF_WIDTH * (high - low) * at_rotor).max(LEAST_HALF_WIDTH_M_S);
        Ok(RotorWind { speed_m_s: (low + high) / 2.0 * at_rotor, half_width_m_s })
    }

    /// By a meter that was held up where it is flown, in m/s, 0 to 60.
    ///
    /// # Errors
    /// Out of range.
    pub fn by_meter(speed_m_s: f64) -> Result<RotorWind> {
        within("wind", speed_m_s, "m/s", 0.0, 60.0)?;
        let half_width_m_s = (METER_HALF_WIDTH * speed_m_s).max(LEAST_HALF_WIDTH_M_S);
        Ok(RotorWind { speed_m_s, half_width_m_s })
    }

    /// Whether a hover in it tells of the aircraft.
    pub fn is_fitted(&self) -> bool {
        self.speed_m_s <= MOST_FITTED_M_S
    }

    pub(super) fn check(&self) -> Result<()> {
        within("wind at the rotor", self.speed_m_s, "m/s", 0.0, MOST_FITTED_M_S)?;
        within("accuracy of the wind", self.half_width_m_s, "m/s", 0.0, 30.0)?;
        Ok(())
    }
}

/// Wind at the height of a hover over that at 10 m.
fn at_rotor() -> f64 {
    (ROTOR_M / ROUGHNESS_M).ln() / (TOLD_AT_M / ROUGHNESS_M).ln()
}

/// Induced velocity in level flight over that of a hover in still air, by Glauert's hypothesis; the induced power at the same thrust goes
/// with it. `speed_ratio` is the flight's speed over the induced velocity in still air, 0 to 100.
///
/// With `x = v / v_h` and `m = V / v_h` it reads `x^2 (m^2 + x^2) = 1`, a quadratic in `x^2`.
///
/// # Errors
/// Out of range.
///
/// ```
/// use liftgate_core::engineering::wind::induced_ratio;
/// let x = induced_ratio(1.0)?;
/// assert!((x * x * (1.0 + x * x) - 1.0).abs() < 1e-12 && (induced_ratio(0.0)? - 1.0).abs() < 1e-12);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn induced_ratio(speed_ratio: f64) -> Result<f64> {
    Ok(ratio(within("speed over induced velocity", speed_ratio, "", 0.0, 100.0)?))
}

fn ratio(m: f64) -> f64 {
    // The root of `y^2 + m^2 y - 1 = 0` without a difference of two near numbers.
    let square = m * m;
    (2.0 / (square + (square * square + 4.0).sqrt())).sqrt()
}

/// What wind does to the induced power of a hover, as shares of that in still air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Relief {
    /// Induced power over that in still air.
    pub ratio: f64,
    /// Standard deviation of it, of this hover alone.
    pub sd: f64,
    /// Of a wind that nobody told, what it takes off in the mean: alike for all such hovers.
    pub untold: f64,
}

impl Relief {
    /// For the induced velocity of a hover in still air, m/s. A wind that was not told is taken for none, and for any.
    pub(super) fn of(wind: Option<RotorWind>, still_m_s: f64) -> Relief {
        let at = |speed_m_s: f64| ratio(speed_m_s.max(0.0) / still_m_s);
        let Some(RotorWind { speed_m_s, half_width_m_s }) = wind else {
            let off = UNKNOWN_M_S.map(|speed_m_s| 1.0 - at(speed_m_s));
            let count = off.len() as f64;
            let mean = off.iter().sum::<f64>() / count;
            let sd = (off.iter().map(|off| (off - mean).powi(2)).sum::<f64>() / count).sqrt();
            return Relief { ratio: 1.0, sd, untold: mean };
        };
        let (middle, sd_m_s) = (at(speed_m_s), half_width_m_s / super::heat::NORMAL_95);
        let moved = [speed_m_s - sd_m_s, speed_m_s + sd_m_s].map(|speed| (at(speed) - middle).abs());
        let by_wind = (moved[0] + moved[1]) / 2.0;
        Relief { ratio: middle, sd: by_wind.hypot(MODEL_SD * (1.0 - middle)), untold: 0.0 }
    }
}
