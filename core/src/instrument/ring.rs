//! Natural frequencies and damping from a tap: how a part rings down.
//!
//! After a tap each mode is a sine that dies out. All taps share frequencies and dampings; size and phase are each tap's own. First values come from
//! the shift invariance of the ring-downs' signal subspace (R. Roy and T. Kailath, "ESPRIT", IEEE Transactions on Acoustics, Speech, and
//! Signal Processing 37 (1989)), then frequencies and dampings are fitted by least squares with sizes and phases eliminated (G. H. Golub
//! and V. Pereyra, "The differentiation of pseudo-inverses and nonlinear least squares problems", SIAM Journal on Numerical Analysis 10
//! (1973), in the short form of Kaufman).
//! How many modes there are is settled by Schwarz's criterion.
//!
//! Damping is taken as viscous and small (ratio below 0.2), and the part as ringing freely: a part that knocks, or a tap that lingers, does not.

use std::f64::consts::TAU;

use nalgebra::{Complex, DMatrix, DVector};
use statrs::distribution::{ContinuousCDF, StudentsT};

use super::decimate::Decimator;
use super::ear::Estimate;
use super::error::Result;
use super::require::{count, within};

/// Samples that are fitted of each tap, at most: more would take longer and say little.
const MOST_SAMPLES: usize = 500;
/// Samples a second over the highest frequency looked for.
const RATE_OVER_HIGH: f64 = 3.2;
/// Most modes that are told apart.
const MOST_MODES: usize = 4;
/// Rounds of the least squares.
const ROUNDS: usize = 30;
/// Largest damping ratio of what is called a ring.
const MOST_DAMPING: f64 = 0.2;
/// Power of the ring's beginning over its end from which there was a tap at all, in dB.
const LEAST_FALL_DB: f64 = 5.0;
/// Bins to either side of a mode that its noise is read from.
const NOISE_BINS: i32 = 20;
/// A mode must turn so many times before it is gone or the record ends.
const FEWEST_TURNS: f64 = 3.0;

/// What is looked for in a tap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tapping {
    /// Samples a second, 20 to 96000.
    pub rate_hz: f64,
    /// Lowest frequency looked for, in Hz.
    pub low_hz: f64,
    /// Highest frequency looked for, in Hz, at most 0.4 of the rate.
    pub high_hz: f64,
    /// How long the tap itself may last after its highest sample, in seconds: that is left out. 0 to 0.5.
    pub contact_s: f64,
}

/// A mode that rings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mode {
    /// Natural frequency without damping, in Hz.
    pub natural_hz: Estimate,
    /// Damping ratio: share of the critical damping.
    pub damping: Estimate,
    /// Share of the ring's energy that is this mode's, over all taps.
    pub energy_share: f64,
}

/// What rings.
#[derive(Debug, Clone, PartialEq)]
pub struct RingDown {
    /// The modes, lowest first.
    pub modes: Vec<Mode>,
    /// How many taps it is of.
    pub taps: usize,
    /// Power of the ring over what is left of it when the modes are taken out, in dB.
    pub over_noise_db: f64,
}

/// Why nothing is told of a tap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoRing {
    /// Nothing dies out in this tap (by its place): no tap, or too much noise.
    NoTap {
        /// Which of the taps.
        tap: usize,
    },
    /// The record ends too soon after this tap.
    TooShort {
        /// Which of the taps.
        tap: usize,
        /// What is there, in seconds.
        seconds: f64,
    },
    /// What follows the tap is no sine that dies out: dead, or damped too strongly to ring.
    NoMode,
}

/// Natural frequencies and dampings of what was tapped, from one record or more of it, each with one tap.
///
/// # Errors
/// No record or more than 16, rates and frequencies that cannot be, and samples that are no numbers.
pub fn ring_down(records: &[&[f64]], tapping: &Tapping) -> Result<std::result::Result<RingDown, NoRing>> {
    check(records, tapping)?;
    // One scale for all: noise is alike in all taps, however hard each was.
    let largest = records.iter().copied().flatten().map(|sample| sample.abs()).fold(f64::MIN_POSITIVE, f64::max);
    let mut rings = Vec::new();
    let mut rate_hz = tapping.rate_hz;
    for (tap, record) in records.iter().enumerate() {
        match ring(record, largest, tapping) {
            Ok((ring, rate)) => {
                rings.push(ring);
                rate_hz = rate;
            }
            Err(Missing::Fall) => return Ok(Err(NoRing::NoTap { tap })),
            Err(Missing::Length(seconds)) => return Ok(Err(NoRing::TooShort { tap, seconds })),
        }
    }
    Ok(modes(&rings, rate_hz, tapping).ok_or(NoRing::NoMode))
}

fn check(records: &[&[f64]], tapping: &Tapping) -> Result<()> {
    within("sampling rate", tapping.rate_hz, "Hz", (20.0, 96_000.0))?;
    within("highest frequency", tapping.high_hz, "Hz", (1.0, 0.4 * tapping.rate_hz))?;
    within("lowest frequency", tapping.low_hz, "Hz", (0.01 * tapping.high_hz, 0.9 * tapping.high_hz))?;
    within("length of the tap", tapping.contact_s, "s", (0.0, 0.5))?;
    count("records", records.len(), (1, 16))?;
    for record in records {
        count("samples of a record", record.len(), (16, 20_000_000))?;
        for sample in *record {
            within("sample", *sample, "", (-1e9, 1e9))?;
        }
    }
    Ok(())
}

/// What a record lacks.
enum Missing {
    Fall,
    Length(f64),
}

/// The ring after a record's tap, at a rate that suits the highest frequency, with that rate.
fn ring(record: &[f64], scale: f64, tapping: &Tapping) -> std::result::Result<(Vec<f64>, f64), Missing> {
    let mean = record.iter().sum::<f64>() / record.len() as f64;
    let top = |a: &(usize, f64), b: &(usize, f64)| a.1.total_cmp(&b.1);
    let sizes = record.iter().map(|sample| (sample - mean).abs()).enumerate();
    let (tap, largest) = sizes.max_by(top).unwrap_or((0, 0.0));
    if largest <= 1e-9 * scale {
        return Err(Missing::Fall);
    }
    let factor = ((tapping.rate_hz / (RATE_OVER_HIGH * tapping.high_hz)) as usize).max(1);
    let rate_hz = tapping.rate_hz / factor as f64;
    let mut decimator = Decimator::new(factor);
    let lower: Vec<f64> =
        record.iter().filter_map(|s| decimator.push(((s - mean) / scale) as f32)).map(f64::from).collect();
    // The filter must have let go of the tap.
    let start = (tap as f64 + 1.0 + tapping.contact_s * tapping.rate_hz + 2.0 * decimator.delay()) / factor as f64;
    let after = lower.get(start.ceil() as usize..).unwrap_or_default();
    let seconds = after.len() as f64 / rate_hz;
    if after.len() < 32 || seconds * tapping.low_hz < 1.0 {
        return Err(Missing::Length(seconds));
    }
    let ring = &after[..after.len().min(MOST_SAMPLES)];
    let fifth = ring.len() / 5;
    let power = |part: &[f64]| part.iter().map(|s| s * s).sum::<f64>() / part.len() as f64;
    let (first, last) = (power(&ring[..fifth]), power(&after[after.len() - fifth..]));
    if first <= 0.0 || 10.0 * (first / last.max(1e-300)).log10() < LEAST_FALL_DB {
        return Err(if seconds * tapping.low_hz < 10.0 { Missing::Length(seconds) } else { Missing::Fall });
    }
    Ok((ring.to_vec(), rate_hz))
}

/// The modes of rings, by the number of modes that Schwarz's criterion prefers; none where it prefers none.
fn modes(rings: &[Vec<f64>], rate_hz: f64, tapping: &Tapping) -> Option<RingDown> {
    let samples: f64 = rings.iter().map(|ring| ring.len() as f64).sum();
    let energy: f64 = rings.iter().flatten().map(|s| s * s).sum();
    let criterion = |left: f64, parameters: usize| samples * (left / samples).ln() + parameters as f64 * samples.ln();
    let mut best: Option<(f64, Fit)> = None;
    for order in 1..=MOST_MODES {
        let poles = poles(rings, order, rate_hz, tapping);
        if poles.is_empty() {
            continue;
        }
        let Some(fit) = fitted(rings, poles) else { continue };
        let value = criterion(fit.left, fit.poles.len() * (2 + 2 * rings.len()));
        if value < best.as_ref().map_or(criterion(energy, 0), |(value, _)| *value) {
            best = Some((value, fit));
        }
    }
    told(&best?.1, rings, rate_hz, tapping)
}

/// A mode's decay and turn for each sample, both in radians.
#[derive(Debug, Clone, Copy)]
struct Pole {
    decay: f64,
    turn: f64,
}

/// First values of up to so many modes within the frequencies looked for.
fn poles(rings: &[Vec<f64>], order: usize, rate_hz: f64, tapping: &Tapping) -> Vec<Pole> {
    let shortest = rings.iter().map(Vec::len).min().unwrap_or(0);
    let rows = (shortest / 3).min(80);
    let mut moments = DMatrix::zeros(rows, rows);
    for window in rings.iter().flat_map(|ring| ring.windows(rows)) {
        let column = DVector::from_column_slice(window);
        moments.ger(1.0, &column, &column, 1.0);
    }
    let eigen = moments.symmetric_eigen();
    let mut places: Vec<usize> = (0..rows).collect();
    places.sort_by(|a, b| eigen.eigenvalues[*b].total_cmp(&eigen.eigenvalues[*a]));
    // Besides the modes wanted, room for one that is out of the band.
    let rank = (2 * order).min(rows - 1);
    let signal = DMatrix::from_fn(rows, rank, |row, k| eigen.eigenvectors[(row, places[k])]);
    let (upper, lower) = (signal.rows(0, rows - 1).into_owned(), signal.rows(1, rows - 1).into_owned());
    let Ok(shift) = upper.svd(true, true).solve(&lower, 1e-12) else { return Vec::new() };
    let pole = |root: &Complex<f64>| Pole { decay: -root.norm().ln(), turn: root.arg() };
    let in_band = |pole: &Pole| {
        let hz = pole.turn * rate_hz / TAU;
        (0.9 * tapping.low_hz..1.05 * tapping.high_hz).contains(&hz) && pole.decay.is_finite()
    };
    shift
        .complex_eigenvalues()
        .iter()
        .map(pole)
        .filter(in_band)
        .map(|p| Pole { decay: p.decay.max(1e-5), ..p })
        .collect()
}

/// A least-squares fit of modes to rings.
struct Fit {
    poles: Vec<Pole>,
    /// Sum of the squared residuals.
    left: f64,
    /// Covariance of the poles' decays and turns, in that order pole by pole.
    covariance: DMatrix<f64>,
    freedom: f64,
    /// Energy of each mode over all rings.
    energies: Vec<f64>,
    residuals: Vec<DVector<f64>>,
}

impl Fit {
    /// Power of the noise at a mode's frequency over its mean: the filter before, and wind, do not leave it alike everywhere.
    fn noise_there(&self, pole: &Pole) -> f64 {
        let (mut sum, mut count, mut mean, mut samples) = (0.0, 0.0, 0.0, 0.0);
        for residual in &self.residuals {
            let step = TAU / residual.len() as f64;
            // At the mode itself the fit has taken the noise with it.
            for k in (-NOISE_BINS..=NOISE_BINS).filter(|k: &i32| k.abs() > 1) {
                let turn = pole.turn + f64::from(k) * step;
                let wave = residual.iter().enumerate().map(|(n, r)| Complex::from_polar(*r, turn * n as f64));
                sum += wave.sum::<Complex<f64>>().norm_sqr() / residual.len() as f64;
                count += 1.0;
            }
            mean += residual.norm_squared();
            samples += residual.len() as f64;
        }
        sum / count / (mean / samples).max(f64::MIN_POSITIVE)
    }
}

/// One ring with the poles as they are: what is left, its derivatives by the poles, and each mode's energy.
struct Projected {
    residual: DVector<f64>,
    slopes: DMatrix<f64>,
    energies: Vec<f64>,
}

fn projected(ring: &[f64], poles: &[Pole]) -> Option<Projected> {
    let (n, k) = (ring.len(), poles.len());
    let wave = |row: usize, column: usize| {
        let (pole, t) = (poles[column / 2], row as f64);
        let size = (-pole.decay * t).exp();
        size * if column.is_multiple_of(2) { (pole.turn * t).cos() } else { (pole.turn * t).sin() }
    };
    let basis = DMatrix::from_fn(n, 2 * k, wave);
    let qr = basis.clone().qr();
    let q = qr.q();
    let values = DVector::from_column_slice(ring);
    let sizes = qr.r().solve_upper_triangular(&q.tr_mul(&values))?;
    let residual = &values - &basis * &sizes;
    // Derivatives of the model with its sizes held, less what the sizes would make good (Kaufman).
    let slope = |row: usize, parameter: usize| {
        let (mode, t) = (parameter / 2, row as f64);
        let (cos, sin) = (basis[(row, 2 * mode)], basis[(row, 2 * mode + 1)]);
        let (a, b) = (sizes[2 * mode], sizes[2 * mode + 1]);
        if parameter.is_multiple_of(2) { -t * (a * cos + b * sin) } else { t * (b * cos - a * sin) }
    };
    let slopes = DMatrix::from_fn(n, 2 * k, slope);
    let slopes = &slopes - &q * q.tr_mul(&slopes);
    let energy = |mode: usize| {
        let part = basis.columns(2 * mode, 2) * sizes.rows(2 * mode, 2);
        part.norm_squared()
    };
    Some(Projected { residual, slopes, energies: (0..k).map(energy).collect() })
}

/// Levenberg and Marquardt's rounds over all rings at once.
fn fitted(rings: &[Vec<f64>], mut poles: Vec<Pole>) -> Option<Fit> {
    let all = |poles: &[Pole]| rings.iter().map(|ring| projected(ring, poles)).collect::<Option<Vec<_>>>();
    let left = |parts: &[Projected]| parts.iter().map(|part| part.residual.norm_squared()).sum::<f64>();
    let normal = |parts: &[Projected]| -> DMatrix<f64> { parts.iter().map(|p| p.slopes.tr_mul(&p.slopes)).sum() };
    let mut parts = all(&poles)?;
    let mut damp = 1e-3;
    for _ in 0..ROUNDS {
        let matrix = normal(&parts);
        let pull: DVector<f64> = parts.iter().map(|part| part.slopes.tr_mul(&part.residual)).sum();
        let damped = &matrix + DMatrix::from_diagonal(&(matrix.diagonal() * damp));
        let step = damped.cholesky()?.solve(&pull);
        let next: Vec<Pole> = poles
            .iter()
            .enumerate()
            .map(|(k, pole)| Pole { decay: (pole.decay + step[2 * k]).max(1e-7), turn: pole.turn + step[2 * k + 1] })
            .collect();
        let tried = all(&next)?;
        let (before, after) = (left(&parts), left(&tried));
        if after <= before {
            (poles, parts, damp) = (next, tried, damp * 0.2);
            if before - after < 1e-12 * before {
                break;
            }
        } else {
            damp *= 8.0;
        }
    }
    let samples: usize = rings.iter().map(Vec::len).sum();
    let freedom = samples.checked_sub(poles.len() * (2 + 2 * rings.len())).filter(|f| *f > 8)? as f64;
    let left = left(&parts);
    let covariance = normal(&parts).try_inverse()? * (left / freedom);
    let energies = (0..poles.len()).map(|k| parts.iter().map(|part| part.energies[k]).sum()).collect();
    let residuals = parts.into_iter().map(|part| part.residual).collect();
    Some(Fit { poles, left, covariance, freedom, energies, residuals })
}

/// The fit as natural frequencies and damping ratios; none where a mode that was found does not ring.
fn told(fit: &Fit, rings: &[Vec<f64>], rate_hz: f64, tapping: &Tapping) -> Option<RingDown> {
    let t = StudentsT::new(0.0, 1.0, fit.freedom).ok()?.inverse_cdf(0.975);
    let total: f64 = fit.energies.iter().sum();
    let longest = rings.iter().map(Vec::len).max()? as f64;
    let mut modes = Vec::new();
    for (k, pole) in fit.poles.iter().enumerate() {
        let natural = pole.decay.hypot(pole.turn);
        let damping = pole.decay / natural;
        let turns = pole.turn / TAU * longest.min(1.0 / pole.decay);
        let hz = natural * rate_hz / TAU;
        let block = fit.covariance.view((2 * k, 2 * k), (2, 2)) * fit.noise_there(pole);
        // Natural frequency and ratio move with decay and turn by these.
        let (c, s) = (pole.decay / natural, pole.turn / natural);
        let spread = |a: f64, b: f64| {
            (a * a * block[(0, 0)] + 2.0 * a * b * block[(0, 1)] + b * b * block[(1, 1)]).max(0.0).sqrt()
        };
        let hz_sd = spread(c, s) * rate_hz / TAU;
        let damping_sd = spread(s * s / natural, -c * s / natural);
        // What is hardly there, or known to nothing, is no mode.
        let in_band = (tapping.low_hz..=tapping.high_hz).contains(&hz);
        if !in_band || damping > MOST_DAMPING || turns < FEWEST_TURNS * 0.5 || hz_sd > 0.1 * hz {
            continue;
        }
        modes.push(Mode {
            natural_hz: Estimate { value: hz, low: hz - t * hz_sd, high: hz + t * hz_sd },
            damping: Estimate {
                value: damping,
                low: (damping - t * damping_sd).max(0.0),
                high: damping + t * damping_sd,
            },
            energy_share: fit.energies[k] / total,
        });
    }
    modes.sort_by(|a, b| a.natural_hz.value.total_cmp(&b.natural_hz.value));
    let energy: f64 = rings.iter().flatten().map(|s| s * s).sum();
    let over_noise_db = 10.0 * ((energy - fit.left).max(1e-300) / fit.left.max(1e-300)).log10();
    (!modes.is_empty()).then_some(RingDown { modes, taps: rings.len(), over_noise_db })
}
