//! What voltage does with current in a log: the resistance that shows within a second of a load.
//!
//! `V(t) = rest - sum of r_k I(t - k) - fall with the charge taken`. Recorders read voltage and current at different moments and smooth each
//! in its own way, and part of a pack's resistance comes slowly: so the voltage may follow the current of half a second later up to that of
//! 1.25 s before, in a few lags, and the resistance is their sum. That is what the voltage has lost a second after a load went on, as the
//! method of IEC 61960-3 for direct current has it (one second at the higher of two loads). What builds up over many seconds is fitted as
//! one part that follows the current in 8 s, and is in it as far as a second goes: more of it a log cannot tell from the pack's own
//! fall. A meter of alternating current shows something else again.
//!
//! The rest voltage falls with the charge by a polynomial of third degree. What is left over has a memory: it is fitted as an autoregression
//! of four steps in turn with the rest (D. Cochrane and G. H. Orcutt, "Application of least squares regression to relationships containing
//! auto-correlated error terms", Journal of the American Statistical Association 44 (1949); Yule and Walker's equations).

use nalgebra::{DMatrix, DVector};
use serde::{Deserialize, Serialize};

use super::grid::Grid;
use super::quantity::Quantity;
use super::recording::{Recording, Span};
use crate::engineering::pack::student_95;

/// Ends of the lags, in s: voltage may lead by half a second, and follow for 1.25 s.
const LAG_ENDS_S: [f64; 7] = [-0.5, -0.25, 0.0, 0.25, 0.5, 0.75, 1.25];
/// The part of a resistance that comes slowly follows the current so, in s.
const SLOW_S: f64 = 8.0;
/// How long a load is on that the resistance is told for, in s.
const LOAD_S: f64 = 1.0;
/// Terms of the rest voltage over the charge taken.
const FALL_TERMS: usize = 4;
/// Steps of the memory of what is left over.
const MEMORY: usize = 4;
/// Rounds of the fit and the memory in turn.
const ROUNDS: usize = 3;
/// The fewest steps that are fitted.
const FEWEST: usize = 60;
/// A resistance that is not known to this share of it is none.
const MOST_UNSURE: f64 = 0.5;

/// What voltage does with current.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Sag {
    /// Voltage without load at the flight's start, in V.
    pub rest_v: f64,
    /// Resistance of pack and leads up to where voltage is measured, within a second of a load, in ohm.
    pub resistance_ohm: f64,
    /// Half width of its 95 % interval, in ohm.
    pub half_width_ohm: f64,
    /// Fall of the rest voltage with charge taken, in V for each Ah, over the flight.
    pub fall_v_per_ah: f64,
    /// Steps of the log that went in.
    pub steps: u32,
    /// Where in the log.
    pub span: Span,
}

/// The sag in a flight. None where the current hardly varies (by under 5 % of its mean), which says nothing of resistance, and where the
/// log does not determine it to half of itself.
pub(super) fn sag(recording: &Recording, flight: Span) -> Option<Sag> {
    let (voltage, current) = (recording.channel(Quantity::PackVoltage)?, recording.channel(Quantity::PackCurrent)?);
    let grid = Grid::over(recording);
    let steps = grid.index(flight.start_s)..grid.index(flight.end_s);
    let (volts, amperes) = (grid.bridged(recording, voltage), grid.bridged(recording, current));
    fit(&volts[steps.clone()], &amperes[steps], grid.step_s, flight)
}

/// The same by even steps; NaN where there is no value.
pub fn fit(volts: &[f64], amperes: &[f64], step_s: f64, span: Span) -> Option<Sag> {
    let rows = Rows::of(volts, amperes, step_s)?;
    let left = |coefficients: &DVector<f64>| &rows.y - &rows.x * coefficients;
    let mut coefficients = solve(&rows.x, &rows.y)?.0;
    let mut whitened = None;
    for _ in 0..ROUNDS {
        let (x, y) = rows.without(&memory(&rows, &left(&coefficients))?);
        let (found, inverse) = solve(&x, &y)?;
        let errors = (&y - &x * &found).norm_squared();
        coefficients = found;
        whitened = Some((x.nrows(), inverse, errors));
    }
    let (count, inverse, errors) = whitened?;
    let freedom = count.checked_sub(rows.x.ncols()).filter(|freedom| *freedom >= FEWEST / 2)? as f64;
    // What a load that is on for a second has of each column.
    let mut load = DVector::zeros(rows.x.ncols());
    load.rows_mut(0, rows.lags).fill(1.0);
    load[rows.lags] = 1.0 - (-LOAD_S / SLOW_S).exp();
    let variance = errors / freedom * (&inverse * &load).dot(&load);
    let resistance_ohm = -load.dot(&coefficients);
    let half_width_ohm = student_95(freedom) * variance.max(0.0).sqrt();
    let falls = coefficients.rows(rows.lags + 1, FALL_TERMS);
    // Legendre's polynomials are one at the end, and one or minus one at the start.
    let start_v = falls.iter().enumerate().map(|(i, c)| if i % 2 == 0 { *c } else { -c }).sum::<f64>();
    let known = half_width_ohm.is_finite() && half_width_ohm <= MOST_UNSURE * resistance_ohm;
    known.then(|| Sag {
        rest_v: start_v,
        resistance_ohm,
        half_width_ohm,
        fall_v_per_ah: (start_v - falls.sum()) / rows.taken_ah,
        steps: u32::try_from(rows.y.len()).unwrap_or(u32::MAX),
        span,
    })
}

/// The steps that have all that the fit asks for.
struct Rows {
    x: DMatrix<f64>,
    y: DVector<f64>,
    /// Which step each is.
    step: Vec<usize>,
    /// Columns that are lags; the slow part and those of the fall come after them.
    lags: usize,
    taken_ah: f64,
}

impl Rows {
    fn of(volts: &[f64], amperes: &[f64], step_s: f64) -> Option<Rows> {
        let ends = lag_ends(step_s);
        let lags = ends.len() - 1;
        let (sums, taken) = running(amperes);
        let whole = *taken.last()?;
        let slow = slowly(&taken, step_s);
        let (mut rows, mut y, mut step) = (Vec::new(), Vec::new(), Vec::new());
        for (at, volt) in volts.iter().enumerate().filter(|(_, volt)| !volt.is_nan()) {
            let Some(of_lags) = lagged(&sums, &ends, at) else { continue };
            let share = 2.0 * (taken[at] + taken[at + 1]) / 2.0 / whole - 1.0;
            rows.extend(of_lags);
            rows.push(slow[at]);
            rows.extend(legendre(share));
            y.push(*volt);
            step.push(at);
        }
        let held: Vec<f64> = step.iter().map(|at| amperes[*at]).filter(|a| !a.is_nan()).collect();
        let mean_a = held.iter().sum::<f64>() / held.len() as f64;
        let sd_a = (held.iter().map(|a| (a - mean_a).powi(2)).sum::<f64>() / held.len() as f64).sqrt();
        if y.len() < FEWEST || sd_a.is_nan() || sd_a < 0.05 * mean_a.abs() {
            return None;
        }
        let x = DMatrix::from_row_slice(y.len(), lags + 1 + FALL_TERMS, &rows);
        Some(Rows { x, y: DVector::from_vec(y), step, lags, taken_ah: whole * step_s / 3_600.0 })
    }

    /// Rows less what the memory foretells of them, where the ones before are there.
    fn without(&self, memory: &[f64]) -> (DMatrix<f64>, DVector<f64>) {
        let kept: Vec<usize> = (MEMORY..self.y.len()).filter(|row| self.follows(*row, MEMORY)).collect();
        let news = |of: &dyn Fn(usize) -> f64, row: usize| {
            of(row) - memory.iter().enumerate().map(|(i, share)| share * of(row - 1 - i)).sum::<f64>()
        };
        let x = DMatrix::from_fn(kept.len(), self.x.ncols(), |i, j| news(&|row| self.x[(row, j)], kept[i]));
        let y = DVector::from_fn(kept.len(), |i, _| news(&|row| self.y[row], kept[i]));
        (x, y)
    }

    /// Whether the rows before one are the steps just before it.
    fn follows(&self, row: usize, before: usize) -> bool {
        row >= before && self.step[row] - self.step[row - before] == before
    }
}

/// Ends of the lags in steps; a log with long steps has fewer.
fn lag_ends(step_s: f64) -> Vec<i64> {
    let mut ends: Vec<i64> = LAG_ENDS_S.iter().map(|end_s| (end_s / step_s).round() as i64).collect();
    // The step itself and the ones to either side, whatever the recorder's rate.
    ends.extend([-1, 0, 1, 2]);
    ends.sort_unstable();
    ends.dedup();
    ends
}

/// Sums of the current up to each step, NaN from where one is missing told by a count; and the same with the last current in its place.
fn running(amperes: &[f64]) -> (Vec<(f64, usize)>, Vec<f64>) {
    let (mut sums, mut taken) = (vec![(0.0, 0)], vec![0.0]);
    let mut last_a = 0.0;
    for ampere in amperes {
        let (sum, missing) = sums.last().copied().unwrap_or_default();
        let is_missing = ampere.is_nan();
        // What flows while nothing is recorded is taken from the pack all the same.
        last_a = if is_missing { last_a } else { *ampere };
        sums.push(if is_missing { (sum, missing + 1) } else { (sum + ampere, missing) });
        taken.push(taken.last().copied().unwrap_or(0.0) + last_a);
    }
    (sums, taken)
}

/// The current of each step as what follows it slowly has it.
fn slowly(taken: &[f64], step_s: f64) -> Vec<f64> {
    let stays = (-step_s / SLOW_S).exp();
    let each = taken.windows(2).map(|pair| pair[1] - pair[0]);
    let of = |held: &mut Option<f64>, ampere: f64| {
        let before = held.unwrap_or(ampere);
        *held = Some(stays * before + (1.0 - stays) * ampere);
        *held
    };
    each.scan(None, of).collect()
}

/// Mean current over each lag before a step; none where one is missing.
fn lagged(sums: &[(f64, usize)], ends: &[i64], at: usize) -> Option<Vec<f64>> {
    let mean = |pair: &[i64]| {
        let (from, to) = (at as i64 - pair[1] + 1, at as i64 - pair[0] + 1);
        let from = sums.get(usize::try_from(from).ok()?)?;
        let to = sums.get(usize::try_from(to).ok()?)?;
        (from.1 == to.1).then(|| (to.0 - from.0) / (pair[1] - pair[0]) as f64)
    };
    ends.windows(2).map(mean).collect()
}

/// Legendre's polynomials up to the third degree.
fn legendre(x: f64) -> [f64; FALL_TERMS] {
    [1.0, x, 0.5 * (3.0 * x * x - 1.0), 0.5 * (5.0 * x.powi(3) - 3.0 * x)]
}

/// Least squares, with the inverse of the normal matrix.
fn solve(x: &DMatrix<f64>, y: &DVector<f64>) -> Option<(DVector<f64>, DMatrix<f64>)> {
    let inverse = (x.transpose() * x).cholesky()?.inverse();
    let coefficients = &inverse * (x.transpose() * y);
    coefficients.iter().all(|value| value.is_finite()).then_some((coefficients, inverse))
}

/// The autoregression of what is left over, by Yule and Walker's equations.
fn memory(rows: &Rows, left: &DVector<f64>) -> Option<Vec<f64>> {
    let mean = left.mean();
    let covariance = |lag: usize| {
        let pairs = (lag..left.len()).filter(|row| rows.follows(*row, lag));
        let (sum, count) = pairs
            .fold((0.0, 0.0), |(sum, count), row| (sum + (left[row] - mean) * (left[row - lag] - mean), count + 1.0));
        sum / f64::max(count, 1.0)
    };
    let of: Vec<f64> = (0..=MEMORY).map(covariance).collect();
    let matrix = DMatrix::from_fn(MEMORY, MEMORY, |i, j| of[i.abs_diff(j)]);
    let right = DVector::from_fn(MEMORY, |i, _| of[i + 1]);
    // What leaves nothing over remembers nothing.
    Some(matrix.lu().solve(&right).map_or(vec![0.0; MEMORY], |found| found.iter().copied().collect()))
}
