//! A step or a slope in few readings, which a cumulative sum is too slow for; and whether so few could show one at all.
//!
//! Every place between two readings is tried for a step by Student's t with pooled scatter, the probabilities multiplied by the number of places
//! (Bonferroni); the slope is that of least squares. Both are looked for anew with each reading, so that the chance of a false alarm is spent
//! over a life: of n readings 3 / (n (n - 1)) of it, which sums to all of it from four readings on, half for steps and half for slopes.

use statrs::distribution::{ContinuousCDF, StudentsT};

use super::drift::{Drift, changed};

/// The fewest readings that can show a step: two on each side.
pub const FEWEST: usize = 4;
/// A change by this part of the mean is what a person wants to be told of: a pack at half its new resistance again is watched (common
/// practice, no source).
const WORTH_TELLING: f64 = 0.5;
/// And no less than so many of the least steps that a reading can show.
const LEAST_STEPS: f64 = 4.0;

/// What few readings say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shift {
    /// The step or the slope, told by the means before and after the place that divides the readings best.
    pub drift: Option<Drift>,
    /// Whether a change worth telling would have shown: if not, that there is none is not known.
    pub can_tell: bool,
}

/// Looks for a step or a slope in readings in the order of time.
///
/// `resolution` is the least step that a reading can show; `false_alarm` the chance of an alarm over the whole life of something that does not
/// change.
///
/// ```
/// use liftgate_core::telemetry::shift::shift;
/// // The rise of a pack that doubled: two readings after the change are enough.
/// let doubled = shift(&[11.0, 12.0, 11.0, 12.0, 23.0, 24.0], 1.0, 0.05);
/// assert_eq!(doubled.drift.map(|drift| drift.since), Some(4));
/// // Three that scatter say nothing, and say so.
/// assert!(!shift(&[11.0, 17.0, 9.0], 1.0, 0.05).can_tell);
/// ```
pub fn shift(readings: &[f64], resolution: f64, false_alarm: f64) -> Shift {
    let n = readings.len();
    if n < FEWEST || readings.iter().any(|value| !value.is_finite()) {
        return Shift { drift: None, can_tell: false };
    }
    let chance = 1.5 * false_alarm / (n as f64 * (n as f64 - 1.0));
    let of_each_step = chance / (n as f64 - 3.0);
    let floor = resolution * resolution / 12.0;
    let steps = (2..=n - 2).map(|since| (since, step_t(readings, since, floor)));
    let (since, step) = steps.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((2, 0.0));
    let found = two_sided(step, n) < of_each_step || two_sided(slope_t(readings, floor), n) < chance;
    let half = n / 2;
    let spread = (squares(readings) / (n as f64 - 1.0)).max(floor).sqrt();
    let seen = critical(of_each_step, n) * spread * (1.0 / half as f64 + 1.0 / (n - half) as f64).sqrt();
    let worth = (WORTH_TELLING * mean(readings).abs()).max(LEAST_STEPS * resolution);
    let drift = found.then(|| changed(readings, n - 1, since));
    Shift { drift, can_tell: found || seen <= worth }
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// Squares about the mean.
fn squares(values: &[f64]) -> f64 {
    let mean = mean(values);
    values.iter().map(|value| (value - mean).powi(2)).sum()
}

/// Student's t of a step at a place, with pooled scatter.
fn step_t(readings: &[f64], since: usize, floor: f64) -> f64 {
    let (before, after) = readings.split_at(since);
    let freedom = readings.len() as f64 - 2.0;
    let variance = ((squares(before) + squares(after)) / freedom).max(floor);
    let parts = 1.0 / before.len() as f64 + 1.0 / after.len() as f64;
    (mean(after) - mean(before)).abs() / (variance * parts).sqrt()
}

/// Student's t of the slope of least squares.
fn slope_t(readings: &[f64], floor: f64) -> f64 {
    let n = readings.len() as f64;
    let (middle, mean) = ((n - 1.0) / 2.0, mean(readings));
    let places = || readings.iter().enumerate().map(|(place, value)| (place as f64 - middle, value - mean));
    let wide: f64 = places().map(|(x, _)| x * x).sum();
    let slope = places().map(|(x, y)| x * y).sum::<f64>() / wide;
    let left: f64 = places().map(|(x, y)| (y - slope * x).powi(2)).sum();
    let variance = (left / (n - 2.0)).max(floor);
    slope.abs() / (variance / wide).sqrt()
}

/// How likely so great a t is by chance, either way.
fn two_sided(t: f64, readings: usize) -> f64 {
    2.0 * StudentsT::new(0.0, 1.0, readings as f64 - 2.0).map_or(0.5, |student| student.cdf(-t))
}

/// The t that is as unlikely as this, either way.
fn critical(chance: f64, readings: usize) -> f64 {
    StudentsT::new(0.0, 1.0, readings as f64 - 2.0)
        .map_or(f64::INFINITY, |student| -student.inverse_cdf(chance / 2.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_and_a_slope_are_found_and_one_odd_reading_is_neither() {
        let step = shift(&[20.1, 19.8, 20.3, 20.0, 40.2, 39.8, 40.1], 0.1, 0.05).drift;
        assert_eq!(step.map(|drift| drift.since), Some(4));
        assert!(step.is_some_and(|drift| (drift.change - 20.0).abs() < 0.3));
        let slope: Vec<f64> = (0..9).map(|i| 20.0 + f64::from(i) + 0.2 * f64::from(i % 3)).collect();
        assert!(shift(&slope, 0.1, 0.05).drift.is_some_and(|drift| drift.change > 0.0));
        assert_eq!(shift(&[20.1, 19.8, 20.3, 20.0, 19.9, 40.0], 0.1, 0.05).drift, None);
    }

    #[test]
    fn what_scatters_too_much_for_its_number_cannot_tell() {
        let (steady, loose) = ([20.0, 20.4, 19.7, 20.1, 20.2, 19.9], [20.0, 28.0, 14.0, 24.0, 13.0, 22.0]);
        assert_eq!(shift(&steady, 0.1, 0.05), Shift { drift: None, can_tell: true });
        assert_eq!(shift(&loose, 0.1, 0.05), Shift { drift: None, can_tell: false });
    }
}
