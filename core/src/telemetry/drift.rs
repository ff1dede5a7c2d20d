//! A test for change over a life: has a figure that should stay where it is begun to drift?
//!
//! A self-starting cumulative sum after D. M. Hawkins, "Self-starting CUSUM charts for location and scale", The Statistician 36 (1987). Each
//! reading is held against the mean and scatter of all before it; for normal readings that ratio has Student's distribution, and through
//! its probability it becomes an independent standard normal score. No life before the first reading needs to be known. The scores are
//! summed up and down, less half a standard deviation each; past the threshold, it has drifted.
//!
//! The threshold follows from the false-alarm rate that is wished for over a number of readings, by a Markov chain after D. Brook and D. A.
//! Evans, "An approach to the probability distribution of CUSUM run length", Biometrika 59 (1972). Both sides together alarm at most twice
//! as often as one. Scores are cut at three, so that one odd reading alone is no drift; that only lowers the rate.

use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

use super::error::{FigureLack, TelemetryError};
use crate::engineering::pack::student_95;

/// What is taken off every score: the test is keenest for a shift of twice this, one standard deviation.
pub const ALLOWANCE: f64 = 0.5;
/// Scores are cut here.
const GREATEST_SCORE: f64 = 3.0;
/// States of the chain; 100 are within a thousandth of the published run lengths.
const STATES: usize = 100;
/// The most readings.
const MOST: usize = 10_000;

/// How sure an alarm must be.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DriftQuestion {
    /// Chance of an alarm, up or down, over `readings` readings of something that does not change: 0.0001 to 0.5.
    pub false_alarm: f64,
    /// Readings that the chance is stated over: 10 to 1000.
    pub readings: u32,
    /// The least step that the reading can show, above zero: identical readings are not known better than that.
    pub resolution: f64,
}

/// A drift.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Drift {
    /// The reading at which it was sure, counted from zero.
    pub seen_at: u32,
    /// The first reading that belongs to it, as far as can be told.
    pub since: u32,
    /// Mean of the readings from there on less the mean before.
    pub change: f64,
    /// Half width of the change's 95 % interval (Welch); none with fewer than two readings on a side.
    pub half_width: Option<f64>,
}

/// What the test says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DriftReport {
    /// What the sums are held against.
    pub threshold: f64,
    /// The score of each reading; zero for the first two, which only begin the mean and scatter.
    pub scores: Vec<f64>,
    /// Sum upwards after each reading.
    pub up: Vec<f64>,
    /// Sum downwards after each reading.
    pub down: Vec<f64>,
    /// The first drift, if there is one.
    pub drift: Option<Drift>,
}

/// The test with its threshold worked out, for any number of trends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DriftTest {
    threshold: f64,
    resolution: f64,
}

impl DriftTest {
    /// Works out the threshold: some tens of milliseconds.
    ///
    /// # Errors
    /// A question out of its range.
    pub fn new(question: &DriftQuestion) -> Result<Self, TelemetryError> {
        if !(question.resolution > 0.0 && question.resolution.is_finite()) {
            return Err(TelemetryError::figure(FigureLack::LeastStep));
        }
        Ok(Self { threshold: threshold(question.false_alarm, question.readings)?, resolution: question.resolution })
    }

    /// The same test for readings of another least step: the threshold does not depend on it. A step that is zero or no number changes
    /// nothing.
    pub fn with_resolution(self, resolution: f64) -> Self {
        let resolution = if resolution > 0.0 && resolution.is_finite() { resolution } else { self.resolution };
        Self { resolution, ..self }
    }

    /// Tests readings in the order of time (up to 10 000).
    ///
    /// # Errors
    /// Too many readings, or one that is no number.
    pub fn of(&self, readings: &[f64]) -> Result<DriftReport, TelemetryError> {
        if readings.len() > MOST || readings.iter().any(|value| !value.is_finite()) {
            return Err(TelemetryError::figure(FigureLack::Readings { most: MOST }));
        }
        let scores = scores(readings, self.resolution);
        let up = sums(scores.iter().copied());
        let down = sums(scores.iter().map(|score| -score));
        let past = |at: &usize| up[*at] > self.threshold || down[*at] > self.threshold;
        let seen_at = (0..readings.len()).find(past);
        let drift = seen_at.map(|at| describe(readings, at, if up[at] > self.threshold { &up } else { &down }));
        Ok(DriftReport { threshold: self.threshold, scores, up, down, drift })
    }
}

/// Tests readings in the order of time (up to 10 000), working the threshold out anew.
///
/// # Errors
/// Too many readings, one that is no number, or a question out of its range.
///
/// # Validity
/// Readings apart from drift independent and about normal. Corrected first for what is known to move them (air, pack, power).
///
/// ```
/// use liftgate_core::telemetry::drift::{drift, DriftQuestion};
/// let question = DriftQuestion { false_alarm: 0.05, readings: 100, resolution: 0.1 };
/// let mut mohm = vec![20.1, 19.8, 20.3, 20.0, 19.9, 20.2, 19.7, 20.1, 20.0, 19.9];
/// assert!(drift(&mohm, &question)?.drift.is_none());
/// mohm.extend([20.6, 20.7, 20.5, 20.8, 20.7, 20.9]);
/// let found = drift(&mohm, &question)?.drift.unwrap();
/// assert_eq!(found.since, 10);
/// # Ok::<(), liftgate_core::telemetry::TelemetryError>(())
/// ```
pub fn drift(readings: &[f64], question: &DriftQuestion) -> Result<DriftReport, TelemetryError> {
    DriftTest::new(question)?.of(readings)
}

fn scores(readings: &[f64], resolution: f64) -> Vec<f64> {
    // The scatter of rounding alone.
    let least_variance = resolution * resolution / 12.0;
    let (mut n, mut mean, mut squares) = (0.0_f64, 0.0, 0.0);
    let mut scores = Vec::with_capacity(readings.len());
    for value in readings {
        scores.push(if n < 2.0 {
            0.0
        } else {
            let scatter = (squares / (n - 1.0)).max(least_variance).sqrt();
            normal_score((value - mean) / scatter * (n / (n + 1.0)).sqrt(), n - 1.0)
        });
        n += 1.0;
        let step = value - mean;
        mean += step / n;
        squares += step * (value - mean);
    }
    scores
}

/// The standard normal value that is as unlikely as `t` in Student's distribution.
fn normal_score(t: f64, freedom: f64) -> f64 {
    // From the lower tail, where small probabilities keep their digits.
    let share = StudentsT::new(0.0, 1.0, freedom).map_or(0.5, |student| student.cdf(-t.abs()));
    let score = if share < 1e-12 { GREATEST_SCORE } else { -Normal::standard().inverse_cdf(share) };
    score.min(GREATEST_SCORE) * t.signum()
}

fn sums(scores: impl Iterator<Item = f64>) -> Vec<f64> {
    scores
        .scan(0.0_f64, |sum, score| {
            *sum = (*sum + score - ALLOWANCE).max(0.0);
            Some(*sum)
        })
        .collect()
}

fn describe(readings: &[f64], seen_at: usize, sums: &[f64]) -> Drift {
    let since = sums[..seen_at].iter().rposition(|sum| *sum == 0.0).map_or(0, |zero| zero + 1);
    changed(readings, seen_at, since)
}

/// The change at a reading, by the means before and from there on.
pub(super) fn changed(readings: &[f64], seen_at: usize, since: usize) -> Drift {
    let (before, after) = readings.split_at(since);
    let moments = |values: &[f64]| {
        let n = values.len() as f64;
        let mean = values.iter().sum::<f64>() / n;
        let variance = values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (n - 1.0);
        (n, mean, variance / n)
    };
    let (n_before, mean_before, var_before) = moments(before);
    let (n_after, mean_after, var_after) = moments(after);
    let variance = var_before + var_after;
    let half_width = (n_before >= 2.0 && n_after >= 2.0 && variance > 0.0).then(|| {
        let freedom = variance * variance
            / (var_before * var_before / (n_before - 1.0) + var_after * var_after / (n_after - 1.0));
        student_95(freedom) * variance.sqrt()
    });
    let place = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    Drift { seen_at: place(seen_at), since: place(since), change: mean_after - mean_before, half_width }
}

/// The threshold at which both sides together alarm with a chance of at most `false_alarm` (0.0001 to 0.5) over `readings` (10 to 1000).
///
/// # Errors
/// Out of those ranges.
pub fn threshold(false_alarm: f64, readings: u32) -> Result<f64, TelemetryError> {
    if !(0.000_1..=0.5).contains(&false_alarm) || !(10..=1_000).contains(&readings) {
        return Err(TelemetryError::figure(FigureLack::FalseAlarm));
    }
    let (mut low, mut high) = (0.5, 20.0);
    // 24 halvings: to a millionth.
    for _ in 0..24 {
        let middle = 0.5 * (low + high);
        if chance(middle, readings - 2) > false_alarm {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(high)
}

/// Chance that a two-sided test with this threshold alarms within so many scores of something that does not change, at most.
fn chance(threshold: f64, scores: u32) -> f64 {
    let chain = Chain::new(threshold, 0.0);
    let mut state = vec![0.0; STATES];
    state[0] = 1.0;
    for _ in 0..scores {
        state = chain.step(&state);
    }
    2.0 * (1.0 - state.iter().sum::<f64>())
}

/// Mean number of scores until a one-sided sum passes `threshold` (0.5 to 20), the mean score being `shift` (-2 to 10); allowance [`ALLOWANCE`].
///
/// # Errors
/// Out of those ranges.
pub fn average_run_length(threshold: f64, shift: f64) -> Result<f64, TelemetryError> {
    if !(0.5..=20.0).contains(&threshold) || !(-2.0..=10.0).contains(&shift) {
        return Err(TelemetryError::figure(FigureLack::Threshold));
    }
    let chain = Chain::new(threshold, shift);
    let matrix = nalgebra::DMatrix::from_fn(STATES, STATES, |from, to| {
        f64::from(u8::from(from == to)) - chain.moves[from * STATES + to]
    });
    let ones = nalgebra::DVector::from_element(STATES, 1.0);
    let lengths = matrix.lu().solve(&ones).ok_or_else(|| TelemetryError::figure(FigureLack::RunLength))?;
    Ok(lengths[0])
}

/// The one-sided sum as a chain of states: zero, and steps up to the threshold.
struct Chain {
    moves: Vec<f64>,
}

impl Chain {
    fn new(threshold: f64, shift: f64) -> Self {
        let width = 2.0 * threshold / (2.0 * STATES as f64 - 1.0);
        let normal = Normal::standard();
        let below = |edge: f64| normal.cdf(edge + ALLOWANCE - shift);
        let edges: Vec<f64> = (0..2 * STATES).map(|i| below((i as f64 - STATES as f64 + 0.5) * width)).collect();
        // Moves depend on the distance alone, but for those that end at zero.
        let edge = |distance: i64| edges[(distance + STATES as i64) as usize];
        let states = STATES as i64;
        let moves = (0..states)
            .flat_map(|from| {
                let edge = &edge;
                (0..states).map(move |to| if to == 0 { edge(-from) } else { edge(to - from) - edge(to - from - 1) })
            })
            .collect();
        Self { moves }
    }

    fn step(&self, state: &[f64]) -> Vec<f64> {
        let mut next = vec![0.0; STATES];
        for (share, moves) in state.iter().zip(self.moves.chunks_exact(STATES)) {
            for (to, chance) in next.iter_mut().zip(moves) {
                *to += share * chance;
            }
        }
        next
    }
}
