//! Heat: first-order rise and cooling fitted from readings, the temperature at touchdown, other conditions, time to a limit.
//!
//! Model: one body with one time constant, `T(t) = T_start + rise (1 - exp(-t / tau))`, or cooling to the air, `T(t) = T_air + (T_0 -
//! T_air) exp(-t / tau)`. Fits are least squares; for a given time constant the model is linear, so only the time constant is
//! searched for. Intervals are the usual linearised ones with Student's t.
//!
//! Transfer to other conditions assumes heat with the current squared and cooling with `(density x airflow)^n`; `n` about 0.6 for
//! forced air over a body (from memory, engineering handbooks give 0.47 to 0.62 over this range of Reynolds numbers).

use serde::{Deserialize, Serialize};

use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::grade::Grade;
use super::pack::student_95;
use super::require::{count, ordered, within};
use super::rise_interval::{Rise, rise_interval};

/// Cooling's power of density x airflow in forced air (from memory, handbooks 0.47 to 0.62).
pub const FORCED_EXPONENT: f64 = 0.6;
const COLD_C: f64 = -60.0;
const HOT_C: f64 = 400.0;

/// A temperature reading.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HeatReading {
    /// Time since the start of the run, or since touchdown, in s, 0 to 86400.
    pub time_s: f64,
    /// Temperature, in deg C, -60 to 400.
    pub temperature_c: f64,
}

/// A fitted rise.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RiseFit {
    /// What went in.
    pub readings: Vec<HeatReading>,
    /// Temperature at time zero, in deg C.
    pub start_c: f64,
    /// Rise from start to steady state, in K (negative for cooling).
    pub rise_k: f64,
    /// Time constant, in s.
    pub tau_s: f64,
    /// Steady state, in deg C.
    pub steady_c: f64,
    /// Standard uncertainty of the time constant were every reading's error its own, in s.
    pub tau_u_s: f64,
    /// Half width of the 95 % interval of the time constant, in s, with the memory that the errors may have.
    pub tau_half_width_s: f64,
    /// Half width of the 95 % interval of the steady state, in K, with that memory and the readings' own steps.
    pub steady_half_width_k: f64,
    /// How long what the fit leaves over stays alike, in s; 0 for none.
    pub memory_s: f64,
    /// Root mean square of what the fit leaves over, in K.
    pub residual_k: f64,
    /// Last reading's time over the time constant: under 1.5 the steady state is a guess.
    pub covered: f64,
    /// Caution when the readings cover under 1.5 time constants.
    pub grade: Grade,
}

/// Fits a first-order rise to 4 to 2000 readings.
///
/// # Errors
/// Figures out of range, too few readings, readings that span no time or no temperature, or that do not bend (no time constant between a
/// twentieth of their spacing and 20 times their span fits best).
///
/// # Validity
/// One body, constant power and air. A hand-held meter's one degree is in the interval; its emissivity error is not.
///
/// ```
/// use liftgate_core::engineering::heat::{fit_rise, HeatReading};
/// let readings: Vec<_> = (0..=30).map(|i| { let t = 20.0 * f64::from(i);
///     HeatReading { time_s: t, temperature_c: ((22.0 + 38.0 * (1.0 - (-t / 180.0_f64).exp())) * 2.0).round() / 2.0 } }).collect();
/// let fit = fit_rise(&readings)?;
/// assert!((fit.tau_s - 179.4).abs() < 0.1 && (fit.start_c - 21.95).abs() < 0.01 && (fit.rise_k - 38.06).abs() < 0.01);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn fit_rise(readings: &[HeatReading]) -> Result<RiseFit> {
    let (span_s, spacing_s) = check_readings(readings, 4)?;
    let residual_of = |of: &[HeatReading], tau_s: f64| line(of, tau_s).map_or(f64::INFINITY, |l| l.residual);
    let search = |of: &[HeatReading]| search_tau(spacing_s / 20.0, 20.0 * span_s, |tau_s| residual_of(of, tau_s));
    let full = |tau_s: f64| residual_of(readings, tau_s);
    // A long log is searched by its blocks and settled by all of its readings; where that fails, by all of them at once.
    let quick = || {
        let blocks = blocks(readings)?;
        let tau_s = search(&blocks).ok().filter(|tau_s| *tau_s > 4.0 * span_s / blocks.len() as f64)?;
        settle(tau_s, full)
    };
    let tau_s = match quick() {
        Some(tau_s) => tau_s,
        None => search(readings)?,
    };
    let l = line(readings, tau_s).ok_or_else(no_bend)?;
    let n = readings.len() as f64;
    let freedom = n - 3.0;
    let variance = l.residual / freedom;
    let u2_tau = tau_uncertainty(readings, tau_s, l.rise_k, variance).ok_or_else(no_bend)?;
    // The blocks of a long log tell its memory as well as all of its readings.
    let blocks = blocks(readings);
    let looked_at = blocks.as_deref().unwrap_or(readings).iter().map(|r| (r.time_s, r.temperature_c));
    let fitted = Rise { start_c: l.start_c, rise_k: l.rise_k, tau_s };
    let interval = rise_interval(looked_at, fitted).ok_or_else(no_bend)?;
    let rounded_k = NORMAL_95 * least_step(readings.iter().map(|r| r.temperature_c)) / 12f64.sqrt();
    let covered = span_s / tau_s;
    Ok(RiseFit {
        readings: readings.to_vec(),
        start_c: l.start_c,
        rise_k: l.rise_k,
        tau_s,
        steady_c: l.start_c + l.rise_k,
        tau_u_s: u2_tau.sqrt(),
        tau_half_width_s: interval.tau_s,
        steady_half_width_k: interval.steady_k.hypot(rounded_k),
        memory_s: interval.memory_s,
        residual_k: (l.residual / n).sqrt(),
        covered,
        grade: if covered < 1.5 { Grade::Caution } else { Grade::Ok },
    })
}

fn no_bend() -> EngineeringError {
    EngineeringError::from(Conflict::NoSteadyState)
}

/// Span of all readings and the mean spacing between them.
fn check_readings(readings: &[HeatReading], low: usize) -> Result<(f64, f64)> {
    count("temperature readings", readings.len(), low, 2000)?;
    let (mut first_s, mut last_s) = (f64::INFINITY, f64::NEG_INFINITY);
    for r in readings {
        within("reading time", r.time_s, "s", 0.0, 86_400.0)?;
        within("temperature", r.temperature_c, "deg C", COLD_C, HOT_C)?;
        first_s = first_s.min(r.time_s);
        last_s = last_s.max(r.time_s);
    }
    let span_s = last_s - first_s;
    if span_s < 1.0 {
        return Err(EngineeringError::from(Conflict::ReadingsTooClose));
    }
    Ok((span_s, span_s / (readings.len() - 1) as f64))
}

/// Best start and rise for a time constant.
struct Line {
    start_c: f64,
    rise_k: f64,
    residual: f64,
}

fn line(readings: &[HeatReading], tau_s: f64) -> Option<Line> {
    let n = readings.len() as f64;
    let basis: Vec<f64> = readings.iter().map(|r| -(-r.time_s / tau_s).exp_m1()).collect();
    let pairs = || basis.iter().zip(readings);
    let mean_g = basis.iter().sum::<f64>() / n;
    let mean_c = readings.iter().map(|r| r.temperature_c).sum::<f64>() / n;
    let sgg: f64 = basis.iter().map(|g| (g - mean_g).powi(2)).sum();
    let sgc: f64 = pairs().map(|(g, r)| (g - mean_g) * (r.temperature_c - mean_c)).sum();
    let rise_k = sgc / sgg;
    let start_c = mean_c - rise_k * mean_g;
    let residual = pairs().map(|(g, r)| (r.temperature_c - start_c - rise_k * g).powi(2)).sum();
    rise_k.is_finite().then_some(Line { start_c, rise_k, residual })
}

/// Least residual over the time constant: a coarse scan of its logarithm, then golden sections about the best.
fn search_tau(low_s: f64, high_s: f64, residual: impl Fn(f64) -> f64) -> Result<f64> {
    let (low, high) = (low_s.ln(), high_s.ln());
    let steps = 48;
    let at = |i: usize| low + (high - low) * i as f64 / steps as f64;
    let mut best = (0, f64::INFINITY);
    for i in 0..=steps {
        let value = residual(at(i).exp());
        if value < best.1 {
            best = (i, value);
        }
    }
    if best.0 == 0 || best.0 == steps {
        return Err(no_bend());
    }
    let ratio = (5f64.sqrt() - 1.0) / 2.0;
    let (mut a, mut b) = (at(best.0 - 1), at(best.0 + 1));
    let (mut c, mut d) = (b - ratio * (b - a), a + ratio * (b - a));
    let (mut fc, mut fd) = (residual(c.exp()), residual(d.exp()));
    // 36 sections narrow two cells of the scan to a millionth of a percent.
    for _ in 0..36 {
        if fc < fd {
            (b, d, fd) = (d, c, fc);
            c = b - ratio * (b - a);
            fc = residual(c.exp());
        } else {
            (a, c, fc) = (c, d, fd);
            d = a + ratio * (b - a);
            fd = residual(d.exp());
        }
    }
    Ok(((a + b) / 2.0).exp())
}

/// Blocks that a long log is searched by.
const BLOCKS: usize = 128;
/// Standard deviations that hold 95 % of a normal distribution.
pub(crate) const NORMAL_95: f64 = 1.96;

/// Means of equal blocks in the order of time; none for a log that is short enough as it is.
fn blocks(readings: &[HeatReading]) -> Option<Vec<HeatReading>> {
    if readings.len() < 2 * BLOCKS {
        return None;
    }
    let mut by_time = readings.to_vec();
    by_time.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    let mean =
        |block: &[HeatReading], of: fn(&HeatReading) -> f64| block.iter().map(of).sum::<f64>() / block.len() as f64;
    let blocks = by_time.chunks(readings.len().div_ceil(BLOCKS));
    Some(
        blocks
            .map(|block| HeatReading {
                time_s: mean(block, |r| r.time_s),
                temperature_c: mean(block, |r| r.temperature_c),
            })
            .collect(),
    )
}

/// Least residual close to a time constant: the lowest point of a parabola through three, twice; none if it runs away.
fn settle(tau_s: f64, residual: impl Fn(f64) -> f64) -> Option<f64> {
    let mut log = tau_s.ln();
    for step in [1e-2, 1e-3] {
        let [before, here, after] = [log - step, log, log + step].map(|l| residual(l.exp()));
        let bend = before - 2.0 * here + after;
        let shift = 0.5 * (before - after) / bend * step;
        if bend <= 0.0 || !shift.is_finite() || shift.abs() > 5.0 * step {
            return None;
        }
        log += shift;
    }
    Some(log.exp())
}

/// The least step between two readings of different size: what the instrument rounds to, or nothing that matters.
pub(crate) fn least_step(readings: impl Iterator<Item = f64>) -> f64 {
    let mut sizes: Vec<f64> = readings.filter(|reading| !reading.is_nan()).collect();
    sizes.sort_by(f64::total_cmp);
    let steps = sizes.windows(2).map(|pair| pair[1] - pair[0]).filter(|step| *step > 1e-9);
    steps.reduce(f64::min).unwrap_or(0.0)
}

/// Squared uncertainty of the time constant from the linearised model; none where the readings do not determine it.
fn tau_uncertainty(readings: &[HeatReading], tau_s: f64, rise_k: f64, variance: f64) -> Option<f64> {
    let mut normal = nalgebra::Matrix3::<f64>::zeros();
    for r in readings {
        let decay = (-r.time_s / tau_s).exp();
        // Derivatives by start, rise and time constant.
        let row = nalgebra::Vector3::new(1.0, 1.0 - decay, -rise_k * decay * r.time_s / (tau_s * tau_s));
        normal += row * row.transpose();
    }
    let inverse = normal.try_inverse()?;
    Some((variance * inverse[(2, 2)]).max(0.0)).filter(|squared| squared.is_finite())
}

/// A temperature worked back to touchdown.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TouchdownFit {
    /// What went in.
    pub readings: Vec<HeatReading>,
    /// Air temperature used, in deg C.
    pub air_c: f64,
    /// Temperature at touchdown, in deg C.
    pub touchdown_c: f64,
    /// Half width of its 95 % interval, in K: from the readings' scatter; of two readings, which show none, from [`METER_K`]. None where the
    /// readings say nothing of it.
    pub half_width_k: Option<f64>,
    /// Time constant of the cooling, in s.
    pub tau_s: f64,
    /// Touchdown less the first reading, in K: what a late reading hides.
    pub above_first_k: f64,
}

/// Temperature at touchdown from 2 to 200 readings taken while the part cools in air of `air_c` (-60 to 60 deg C); times since touchdown.
///
/// # Errors
/// Figures out of range, readings that do not cool towards the air.
///
/// # Validity
/// Cooling by one time constant; right after touchdown heat from inside may still raise the outside for some seconds. The air 3 K wrong moves
/// the answer by some tenths of a degree.
///
/// ```
/// use liftgate_core::engineering::heat::{touchdown, HeatReading};
/// let readings: Vec<_> = [(30.0, 65.242), (60.0, 60.161), (90.0, 55.677), (120.0, 51.720), (180.0, 45.146)].iter()
///     .map(|(time_s, temperature_c)| HeatReading { time_s: *time_s, temperature_c: *temperature_c }).collect();
/// assert!((touchdown(&readings, 22.0)?.touchdown_c - 71.0).abs() < 0.01);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn touchdown(readings: &[HeatReading], air_c: f64) -> Result<TouchdownFit> {
    let (span_s, spacing_s) = check_readings(readings, 2)?;
    within("air temperature", air_c, "deg C", -60.0, 60.0)?;
    let amplitude = |tau_s: f64| {
        let (mut top, mut bottom) = (0.0, 0.0);
        for r in readings {
            let decay = (-r.time_s / tau_s).exp();
            top += decay * (r.temperature_c - air_c);
            bottom += decay * decay;
        }
        top / bottom
    };
    let residual = |tau_s: f64, above_k: f64| -> f64 {
        readings.iter().map(|r| (r.temperature_c - air_c - above_k * (-r.time_s / tau_s).exp()).powi(2)).sum()
    };
    let tau_s = search_tau(spacing_s / 20.0, 50.0 * span_s, |tau_s| {
        let value = residual(tau_s, amplitude(tau_s));
        if value.is_finite() { value } else { f64::INFINITY }
    })
    .map_err(|_| not_cooling())?;
    let above_k = amplitude(tau_s);
    let touchdown_c = within("temperature worked back", air_c + above_k, "deg C", COLD_C, 2.0 * HOT_C)
        .map_err(|_| not_cooling())?;
    let first_c =
        readings.iter().min_by(|a, b| a.time_s.total_cmp(&b.time_s)).map_or(touchdown_c, |r| r.temperature_c);
    let freedom = readings.len() as f64 - 2.0;
    let of_one_k =
        if freedom >= 1.0 { student_95(freedom) * (residual(tau_s, above_k) / freedom).sqrt() } else { METER_K };
    let half_width_k = of_one_k * touchdown_variance(readings, tau_s, above_k).sqrt();
    let half_width_k = Some(half_width_k).filter(|k| k.is_finite());
    Ok(TouchdownFit {
        readings: readings.to_vec(),
        air_c,
        touchdown_c,
        half_width_k,
        tau_s,
        above_first_k: touchdown_c - first_c,
    })
}

fn not_cooling() -> EngineeringError {
    EngineeringError::from(Conflict::NoCooling)
}

/// Variance of the amplitude over that of one reading.
fn touchdown_variance(readings: &[HeatReading], tau_s: f64, above_k: f64) -> f64 {
    let mut normal = nalgebra::Matrix2::<f64>::zeros();
    for r in readings {
        let decay = (-r.time_s / tau_s).exp();
        let row = nalgebra::Vector2::new(decay, above_k * decay * r.time_s / (tau_s * tau_s));
        normal += row * row.transpose();
    }
    normal.try_inverse().map_or(f64::INFINITY, |c| c[(0, 0)].max(0.0))
}

/// Conditions that decide a steady temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HeatCondition {
    /// Air temperature, in deg C, -60 to 60.
    pub air_c: f64,
    /// Air density, in kg/m3, 0.5 to 1.8.
    pub density_kg_m3: f64,
    /// Air speed over the part, in m/s, 0 to 100; in a hover what the rotor or a fan brings.
    pub airflow_m_s: f64,
    /// Current through it, in A, 0.01 to 2000.
    pub current_a: f64,
}

/// Half width of the 95 % interval of one reading of a hand-held meter on a warm part, in K (common practice, no source).
pub const METER_K: f64 = 2.0;

/// Airflow under this counts as still air, in m/s.
const STILL_M_S: f64 = 0.05;

/// A measured steady state, and other conditions to carry it to.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SteadyQuestion {
    /// Steady temperature that was measured or fitted, in deg C, above `measured_at.air_c`.
    pub measured_c: f64,
    /// Where it was measured.
    pub measured_at: HeatCondition,
    /// Where it is asked for.
    pub asked_for: HeatCondition,
    /// Power of density x airflow, 0.3 to 0.9; [`FORCED_EXPONENT`].
    pub exponent: f64,
    /// Limit, in deg C, 20 to 250.
    pub limit_c: f64,
    /// Growth of its loss with its temperature, per K of the loss at 20 deg C, 0 to 0.01: that of copper for a winding, 0 where it is not known.
    pub loss_per_k: f64,
}

/// The steady state elsewhere.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SteadyReport {
    /// What went in.
    pub inputs: SteadyQuestion,
    /// Rise over the air there, in K.
    pub rise_k: f64,
    /// Steady temperature there, in deg C; 400 for all that is hotter, and for a rise without an end.
    pub steady_c: f64,
    /// Limit less steady temperature, in K; negative past it.
    pub margin_k: f64,
    /// Stop past the limit, caution within 10 K.
    pub grade: Grade,
}

/// The steady temperature at another ambient, density, airflow and current: the rise goes with `I2 / (density x airflow)^n`, the ambient adds one
/// for one.
///
/// # Errors
/// Figures out of range; a measured temperature not above its air; no airflow in one condition but some in the other (nothing here says
/// how still air compares: measure that hover).
///
/// # Validity
/// Both in still air: natural cooling, where the rise goes with `(I2 / sqrt density)^0.8` (laminar natural convection). Radiation is not counted.
///
/// A winding's loss grows with its own temperature, copper's by 0.39 % of that at 20 deg C for each K (IEC 60028), and that feeds back. With
/// the rise `k` that the same loss would make there, the measured temperature `T1` and `c = 1 + a (T1 - 20)`, what settles is
/// `k (1 + a (T_air - 20)) / (c - k a)`, and nothing where `c <= k a`: it runs away. All loss is taken for copper's, at the
/// temperature that was read; a part that gets cooler than that is not credited, since some of its loss is none of copper's.
///
/// ```
/// use liftgate_core::engineering::heat::{steady_elsewhere, HeatCondition, SteadyQuestion, FORCED_EXPONENT};
/// let here = HeatCondition { air_c: 15.0, density_kg_m3: 1.225, airflow_m_s: 5.0, current_a: 40.0 };
/// let report = steady_elsewhere(&SteadyQuestion { measured_c: 65.0, measured_at: here,
///     asked_for: HeatCondition { air_c: 35.0, ..here }, exponent: FORCED_EXPONENT, limit_c: 90.0, loss_per_k: 0.0 })?;
/// assert!((report.steady_c - 85.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn steady_elsewhere(question: &SteadyQuestion) -> Result<SteadyReport> {
    let q = question;
    let same_loss_k = same_loss_rise_k(q)?;
    let air_c = q.asked_for.air_c;
    let steady_c = (air_c + fed_back_k(q, same_loss_k)).min(HOT_C);
    let margin_k = q.limit_c - steady_c;
    Ok(SteadyReport {
        inputs: *q,
        rise_k: steady_c - air_c,
        steady_c,
        margin_k,
        grade: if margin_k < 0.0 {
            Grade::Stop
        } else if margin_k < 10.0 {
            Grade::Caution
        } else {
            Grade::Ok
        },
    })
}

/// The rise there with a loss that does not change with the temperature.
fn same_loss_rise_k(q: &SteadyQuestion) -> Result<f64> {
    within("measured temperature", q.measured_c, "deg C", COLD_C, HOT_C)?;
    within("cooling exponent", q.exponent, "", 0.3, 0.9)?;
    within("limit temperature", q.limit_c, "deg C", 20.0, 250.0)?;
    within("growth of the loss", q.loss_per_k, "per K", 0.0, 0.01)?;
    check_condition(&q.measured_at)?;
    check_condition(&q.asked_for)?;
    ordered(q.measured_at.air_c, q.measured_c, || Conflict::NotHeated {
        part_c: q.measured_c,
        air_c: q.measured_at.air_c,
    })?;
    let heat_ratio = (q.asked_for.current_a / q.measured_at.current_a).powi(2);
    let density_ratio = q.asked_for.density_kg_m3 / q.measured_at.density_kg_m3;
    let still = |c: &HeatCondition| c.airflow_m_s < STILL_M_S;
    let factor = match (still(&q.measured_at), still(&q.asked_for)) {
        (true, true) => (heat_ratio / density_ratio.sqrt()).powf(0.8),
        (false, false) => {
            let flow_ratio = q.asked_for.airflow_m_s / q.measured_at.airflow_m_s;
            heat_ratio / (density_ratio * flow_ratio).powf(q.exponent)
        }
        _ => {
            return Err(EngineeringError::from(Conflict::AirflowMixed));
        }
    };
    Ok((q.measured_c - q.measured_at.air_c) * factor)
}

/// Loss of a part at a temperature, over that at 20 deg C.
fn loss(q: &SteadyQuestion, celsius: f64) -> f64 {
    1.0 + q.loss_per_k * (celsius - 20.0)
}

/// The rise there once the loss has grown with it.
fn fed_back_k(q: &SteadyQuestion, same_loss_k: f64) -> f64 {
    let left = loss(q, q.measured_c) - same_loss_k * q.loss_per_k;
    let settles_k = same_loss_k * loss(q, q.asked_for.air_c) / left;
    if left > 0.0 { settles_k.max(same_loss_k) } else { f64::INFINITY }
}

/// The rise with the same loss that settles at the limit once it is fed back.
fn held_same_loss_k(q: &SteadyQuestion) -> f64 {
    let allowed_k = q.limit_c - q.asked_for.air_c;
    allowed_k * (loss(q, q.measured_c) / loss(q, q.limit_c)).min(1.0)
}

fn check_condition(c: &HeatCondition) -> Result<()> {
    within("air temperature", c.air_c, "deg C", -60.0, 60.0)?;
    within("air density", c.density_kg_m3, "kg/m3", 0.5, 1.8)?;
    within("airflow", c.airflow_m_s, "m/s", 0.0, 100.0)?;
    within("current", c.current_a, "A", 0.01, 2000.0)?;
    Ok(())
}

/// Time until a limit is reached, in s; none if the steady state stays under it. Zero if it is already reached.
///
/// `start_c`, `steady_c`, `limit_c` -60 to 400 deg C; `tau_s` 0.1 to 86400.
///
/// # Errors
/// Figures out of range.
///
/// ```
/// let s = liftgate_core::engineering::heat::time_to_limit(20.0, 100.0, 180.0, 60.0)?;
/// assert!((s.unwrap_or(0.0) - 180.0 * 2f64.ln()).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn time_to_limit(start_c: f64, steady_c: f64, tau_s: f64, limit_c: f64) -> Result<Option<f64>> {
    within("starting temperature", start_c, "deg C", COLD_C, HOT_C)?;
    within("steady temperature", steady_c, "deg C", COLD_C, HOT_C)?;
    within("limit temperature", limit_c, "deg C", COLD_C, HOT_C)?;
    within("time constant", tau_s, "s", 0.1, 86_400.0)?;
    if start_c >= limit_c {
        return Ok(Some(0.0));
    }
    if steady_c <= limit_c {
        return Ok(None);
    }
    Ok(Some(tau_s * ((steady_c - start_c) / (steady_c - limit_c)).ln()))
}

/// How fast a part takes on its temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct TimeConstant {
    /// Time to 63 % of a rise, in s, 0.1 to 86400.
    pub tau_s: f64,
    /// Half width of its 95 % interval, in s, 0 to 86400.
    pub half_width_s: f64,
}

/// A measured flight, and the day and the flight that are asked about.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HotterDay {
    /// What was measured, where, and where it is asked for; with the limit. Its `measured_c` is the temperature at touchdown, which is not
    /// the steady one yet.
    pub question: SteadyQuestion,
    /// Time with the motor on before that touchdown, in s, 1 to 86400; begun at the air's temperature.
    pub measured_after_s: f64,
    /// The measured temperature is right within plus or minus this, in K, 0 to 30.
    pub measured_half_width_k: f64,
    /// The cooling exponent is right within plus or minus this, 0 to 0.3, and stays within 0.3 to 0.9.
    pub exponent_half_width: f64,
    /// Time constant of the part; none if it was never measured.
    pub tau: Option<TimeConstant>,
    /// Time that is to be flown, in s, 1 to 86400.
    pub flight_s: f64,
}

/// What comes of that day, and what would bring it under the limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HotterDayReport {
    /// What went in.
    pub inputs: HotterDay,
    /// The steady state there; without a time constant, what is reached there by a flight as long as the one that was measured.
    pub reached: SteadyReport,
    /// Half width of its 95 % interval, in K.
    pub half_width_k: f64,
    /// Temperature at the end of the flight, in deg C; without a time constant that of a flight as long as the one that was measured.
    pub at_end_c: f64,
    /// Half width of its 95 % interval, in K.
    pub at_end_half_width_k: f64,
    /// Flights longer than this, in s, are not covered by the answer; none where a time constant covers all.
    pub covers_s: Option<f64>,
    /// Seconds from the air's temperature to the limit; none if it stays under it, or if no time constant is known.
    pub limit_after_s: Option<f64>,
    /// The ends of its 95 % interval, in s; no end where it may never come to the limit.
    pub limit_after_low_s: Option<f64>,
    /// The late end.
    pub limit_after_high_s: Option<f64>,
    /// Current over the one asked for at which `reached` with its half width is the limit, 0.001 to 1000; under 1 where less is needed.
    pub current_ratio: f64,
    /// Airflow over the one asked for at which that is so, 0.001 to 1000; over 1 where more is needed. Means nothing in still air.
    pub airflow_ratio: f64,
    /// Stop where the limit is passed within the flight, caution where the interval reaches it or within 10 K, and where the flight is longer
    /// than what the answer covers.
    pub grade: Grade,
}

impl HotterDayReport {
    /// Whether the flight asked about is longer than what the answer covers.
    pub fn is_too_long(&self) -> bool {
        self.covers_s.is_some_and(|covers_s| self.inputs.flight_s > covers_s)
    }
}

/// Without a time constant a flight may be longer than the one that was measured by this part: a rise bends over, so that it is higher by
/// less than this part of itself, which lies within the 10 K that are wanted under a limit.
const AS_LONG: f64 = 0.1;

/// The hotter day: what a flight there comes to, the time to the limit, their intervals, and what would hold the limit.
///
/// A reading at touchdown is the rise of a first-order body on its way: the steady rise is that over `1 - exp(-t / tau)` (lumped
/// capacitance; Incropera, Fundamentals of Heat and Mass Transfer, transient conduction). Steady states are carried to the other day by
/// [`steady_elsewhere`] and followed from that day's air on, with the same time constant: one that a winding feeds back is longer. Without a time constant nothing is known of the way: rises after the same time
/// are in the same proportion as the steady ones, so that the answer holds for flights as long as the one that was measured, and for shorter
/// ones as an upper bound.
///
/// Intervals by the law of propagation of uncertainty (JCGM 100:2008, 5.1): each input moved by its half width alone, the changes added in
/// squares.
///
/// # Errors
/// Figures out of range; as [`steady_elsewhere`]; a day at or over the limit itself.
///
/// # Validity
/// One time constant, the same on both days, a start at the air's temperature, constant power. What heats the part from its neighbours is not
/// in it.
///
/// ```
/// use liftgate_core::engineering::heat::{hotter_day, HeatCondition, HotterDay, SteadyQuestion, TimeConstant, FORCED_EXPONENT};
/// let here = HeatCondition { air_c: 26.0, density_kg_m3: 1.13, airflow_m_s: 4.0, current_a: 22.0 };
/// // 68 deg C after 242 s at 26 deg C, with a time constant of 168 s: the steady rise is 42 K over 0.763, 55 K.
/// let day = HotterDay {
///     question: SteadyQuestion { measured_c: 68.0, measured_at: here, asked_for: here, exponent: FORCED_EXPONENT, limit_c: 90.0,
///         loss_per_k: 0.0 },
///     measured_after_s: 242.0, measured_half_width_k: 2.0, exponent_half_width: 0.1,
///     tau: Some(TimeConstant { tau_s: 168.0, half_width_s: 10.0 }), flight_s: 242.0 };
/// let same = hotter_day(&day)?;
/// assert!((same.at_end_c - 68.0).abs() < 1e-9, "the same day and the same flight are what was read");
/// assert!((same.reached.rise_k - 42.0 / (1.0 - (-242.0 / 168.0_f64).exp())).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn hotter_day(day: &HotterDay) -> Result<HotterDayReport> {
    check_day(day)?;
    let carried = Carried::of(day)?;
    let moved = moved(day)?;
    let spread = |change: fn(&Carried, &Carried) -> f64| {
        let widest = |pair: &[Carried; 2]| pair.iter().map(|to| change(&carried, to).abs()).fold(0.0, f64::max);
        moved.iter().map(widest).map(|k| k * k).sum::<f64>().sqrt()
    };
    let half_width_k = spread(|from, to| to.reached.steady_c - from.reached.steady_c);
    let at_end_half_width_k = spread(|from, to| to.at_end_c - from.at_end_c);
    let (limit_after_low_s, limit_after_high_s) = time_interval(day, &carried, &moved, half_width_k)?;
    let limit_c = day.question.limit_c;
    let allowed = carried.allowed(half_width_k)?;
    let still = day.question.asked_for.airflow_m_s < STILL_M_S;
    let covers_s = day.tau.is_none().then_some(day.measured_after_s * (1.0 + AS_LONG));
    let report = HotterDayReport {
        inputs: *day,
        half_width_k,
        at_end_c: carried.at_end_c,
        at_end_half_width_k,
        covers_s,
        limit_after_s: carried.limit_after_s,
        limit_after_low_s,
        limit_after_high_s,
        current_ratio: told(if still { allowed.powf(0.625) } else { allowed.sqrt() }),
        airflow_ratio: told(allowed.powf(-1.0 / day.question.exponent)),
        grade: day_grade(carried.at_end_c, at_end_half_width_k, limit_c),
        reached: carried.reached,
    };
    let grade = if report.is_too_long() { report.grade.max(Grade::Caution) } else { report.grade };
    Ok(HotterDayReport { grade, ..report })
}

/// A flight that was measured, carried to the day that is asked about.
#[derive(Debug, Clone, Copy)]
struct Carried {
    reached: SteadyReport,
    at_end_c: f64,
    limit_after_s: Option<f64>,
}

impl Carried {
    fn of(day: &HotterDay) -> Result<Carried> {
        let q = &day.question;
        let Some(TimeConstant { tau_s, .. }) = day.tau else {
            let reached = steady_elsewhere(q)?;
            return Ok(Carried { reached, at_end_c: reached.steady_c, limit_after_s: None });
        };
        let share = |time_s: f64| -(-time_s / tau_s).exp_m1();
        let air_c = q.measured_at.air_c;
        let steady_c = air_c + (q.measured_c - air_c) / share(day.measured_after_s);
        let reached = steady_elsewhere(&SteadyQuestion { measured_c: steady_c, ..*q })?;
        let there_c = q.asked_for.air_c;
        let at_end_c = there_c + reached.rise_k * share(day.flight_s);
        let limit_after_s = time_to_limit(there_c, reached.steady_c, tau_s, q.limit_c)?;
        Ok(Carried { reached, at_end_c, limit_after_s })
    }

    /// Loss over the one asked for with which the limit is held with this half width.
    fn allowed(&self, half_width_k: f64) -> Result<f64> {
        let (q, rise_k) = (&self.reached.inputs, self.reached.rise_k);
        if rise_k <= 0.0 {
            return Ok(f64::INFINITY);
        }
        Ok(held_same_loss_k(q) / same_loss_rise_k(q)? * rise_k / (rise_k + half_width_k))
    }
}

/// The same with one input moved by its half width, down and up, one after the other.
fn moved(day: &HotterDay) -> Result<Vec<[Carried; 2]>> {
    let by = |change: &dyn Fn(f64) -> HotterDay| -> Result<[Carried; 2]> {
        Ok([Carried::of(&change(-1.0))?, Carried::of(&change(1.0))?])
    };
    let q = day.question;
    let measured = |sign: f64| {
        // No part is colder than its air.
        let measured_c = (q.measured_c + sign * day.measured_half_width_k).max(q.measured_at.air_c + 1e-3);
        HotterDay { question: SteadyQuestion { measured_c, ..q }, ..*day }
    };
    let exponent = |sign: f64| {
        let exponent = (q.exponent + sign * day.exponent_half_width).clamp(0.3, 0.9);
        HotterDay { question: SteadyQuestion { exponent, ..q }, ..*day }
    };
    let mut moved = vec![by(&measured)?, by(&exponent)?];
    if let Some(TimeConstant { tau_s, half_width_s }) = day.tau {
        // A time constant that is hardly known may still not be nothing.
        let tau = |sign: f64| TimeConstant { tau_s: (tau_s + sign * half_width_s).max(tau_s / 4.0), half_width_s };
        moved.push(by(&|sign| HotterDay { tau: Some(tau(sign)), ..*day })?);
    }
    Ok(moved)
}

/// The early and the late end of the time to the limit. No late end where it may stay under it.
fn time_interval(
    day: &HotterDay,
    carried: &Carried,
    moved: &[[Carried; 2]],
    half_width_k: f64,
) -> Result<(Option<f64>, Option<f64>)> {
    let Some(TimeConstant { tau_s, .. }) = day.tau else { return Ok((None, None)) };
    let Some(middle_s) = carried.limit_after_s else {
        // It stays under the limit in the middle: only the early end can pass it.
        let hottest_c = (carried.reached.steady_c + half_width_k).min(HOT_C);
        return Ok((time_to_limit(day.question.asked_for.air_c, hottest_c, tau_s, day.question.limit_c)?, None));
    };
    let (mut early_s2, mut late_s2, mut may_stay_under) = (0.0, 0.0, false);
    for pair in moved {
        may_stay_under |= pair.iter().any(|to| to.limit_after_s.is_none());
        let changes = || pair.iter().filter_map(|to| to.limit_after_s).map(|after_s| after_s - middle_s);
        early_s2 += changes().fold(0.0, f64::min).powi(2);
        late_s2 += changes().fold(0.0, f64::max).powi(2);
    }
    let late_s = (!may_stay_under).then_some(middle_s + late_s2.sqrt());
    Ok((Some((middle_s - early_s2.sqrt()).max(0.0)), late_s))
}

/// A thousandfold either way says all there is to say.
fn told(ratio: f64) -> f64 {
    ratio.clamp(1e-3, 1e3)
}

fn check_day(day: &HotterDay) -> Result<()> {
    within("accuracy of the measured temperature", day.measured_half_width_k, "K", 0.0, 30.0)?;
    within("accuracy of the cooling exponent", day.exponent_half_width, "", 0.0, 0.3)?;
    within("time before the reading", day.measured_after_s, "s", 1.0, 86_400.0)?;
    within("time of the flight", day.flight_s, "s", 1.0, 86_400.0)?;
    if let Some(TimeConstant { tau_s, half_width_s }) = day.tau {
        within("time constant", tau_s, "s", 0.1, 86_400.0)?;
        within("accuracy of the time constant", half_width_s, "s", 0.0, 86_400.0)?;
    }
    within("limit temperature", day.question.limit_c, "deg C", 20.0, 250.0)?;
    if day.question.asked_for.air_c >= day.question.limit_c {
        return Err(EngineeringError::from(Conflict::AirAtLimit {
            air_c: day.question.asked_for.air_c,
            limit_c: day.question.limit_c,
        }));
    }
    Ok(())
}

fn day_grade(at_end_c: f64, half_width_k: f64, limit_c: f64) -> Grade {
    if at_end_c > limit_c {
        Grade::Stop
    } else if at_end_c + half_width_k.max(10.0) > limit_c {
        Grade::Caution
    } else {
        Grade::Ok
    }
}
