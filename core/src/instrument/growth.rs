//! Whether a shake has grown from one reading to another.
//!
//! The pieces of each reading give the mean and the scatter of the velocity's logarithm; the difference is held against Student's t with Welch's
//! degrees of freedom (B. L. Welch, Biometrika 34 (1947)). What two readings of an unchanged aircraft differ by for other reasons (wind, how
//! the phone was held) is no scatter between pieces: the caller says it, as far as known from such readings.

use statrs::distribution::{ContinuousCDF, StudentsT};

use super::error::Result;
use super::require::{count, within};

/// The difference of two readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// The later velocity over the earlier one.
    pub ratio: f64,
    /// Lower end of the ratio's 95 % interval.
    pub low: f64,
    /// Upper end of the ratio's 95 % interval.
    pub high: f64,
    /// Chance that a shake which did not grow would look as grown as this, or more.
    pub chance: f64,
    /// That chance is below the false-alarm rate that was asked for.
    pub has_grown: bool,
}

/// Whether the velocities of the pieces of a later reading have grown over those of an earlier one, in any one unit.
///
/// `between_share` is the standard deviation, as a share, between readings of an unchanged aircraft; `false_alarms` the rate of false
/// alarms that is wanted, 0.0001 to 0.2.
///
/// # Errors
/// Fewer than three pieces, velocities that are not above zero, and rates out of range.
pub fn growth(earlier: &[f64], later: &[f64], between_share: f64, false_alarms: f64) -> Result<Growth> {
    within("share between readings", between_share, "", (0.0, 1.0))?;
    within("rate of false alarms", false_alarms, "", (1e-4, 0.2))?;
    let (before, after) = (of(earlier)?, of(later)?);
    let between = 2.0 * between_share * between_share;
    let sampled = before.variance + after.variance;
    let spread = (sampled + between).max(f64::MIN_POSITIVE);
    // What the caller knows is known: only what was estimated here costs degrees of freedom.
    let estimated = before.variance.powi(2) / before.freedom + after.variance.powi(2) / after.freedom;
    let freedom = (spread * spread / estimated.max(f64::MIN_POSITIVE)).clamp(1.0, 1e6);
    let difference = after.mean - before.mean;
    let (mut chance, mut reach) = (1.0, f64::INFINITY);
    if let Ok(t) = StudentsT::new(0.0, 1.0, freedom) {
        chance = t.sf(difference / spread.sqrt());
        reach = t.inverse_cdf(0.975) * spread.sqrt();
    }
    Ok(Growth {
        ratio: difference.exp(),
        low: (difference - reach).exp(),
        high: (difference + reach).exp(),
        chance,
        has_grown: chance < false_alarms,
    })
}

/// Mean of the logarithm, that mean's variance, and its degrees of freedom.
struct Logarithms {
    mean: f64,
    variance: f64,
    freedom: f64,
}

fn of(velocities: &[f64]) -> Result<Logarithms> {
    count("pieces", velocities.len(), (3, 1_000_000))?;
    for velocity in velocities {
        within("velocity", *velocity, "", (1e-12, 1e12))?;
    }
    let n = velocities.len() as f64;
    let mean = velocities.iter().map(|v| v.ln()).sum::<f64>() / n;
    let squares: f64 = velocities.iter().map(|v| (v.ln() - mean).powi(2)).sum();
    Ok(Logarithms { mean, variance: squares / (n - 1.0) / n, freedom: n - 1.0 })
}
