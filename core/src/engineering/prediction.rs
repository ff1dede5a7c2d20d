//! Prediction of the next step of a hover ladder from the steps flown and a physical prior, with an honest 95 % interval.
//!
//! Electrical power in hover is taken as
//! `P = (kappa P_ideal + (Cd0 + Cd2 alpha^2) rho A (Omega R)^3 sigma / 8) / eta`,
//! with the ideal power of momentum theory, a mean angle of attack from the blade loading, and everything between pack and rotor
//! (controller, motor, gears, tail) in one efficiency `eta`. The four factors have priors; the readings pull them. Which of
//! efficiency and induced factor is off cannot be told from power alone, so their own intervals stay wide while the prediction
//! grows sharp. Readings scatter by a share of their size (gusts, pilot, meter) that is learnt as well.
//!
//! Wind takes from the ideal power what Glauert's inflow says (see [`super::wind`]). What is not known of it widens each hover's own
//! scatter; where nobody told it, the hover may have been in any, and what such hovers have in common is a factor of its own, so that
//! many of them do not make a calm one look like drag.
//!
//! Current is the same model over the loaded pack voltage, which is a factor of its own: a step whose power is known tells of the power, and
//! with its current of the voltage; one of which only the current is known (a charge that was put back) tells of both together. The rise
//! of a hot part over the air goes with a power of the electrical power, between 1 (losses in proportion) and 2 (copper alone), and with how
//! far it has come to its steady state by the time of landing; both are learnt from the readings.
//!
//! # How honest it is
//! Held against 4,000 simulated seasons of one to eight steps, whose aircraft come from another, wider set of figures than the
//! prior and whose drag also moves with the Reynolds number, which this model ignores, new readings of power, current and temperature fell
//! inside the interval in 93 to 97 % of them; the test demands that. With aircraft from the blade-element model of this crate, 95 % of 150.
//!
//! The prior is of two widths: its class, and with a chance of 15 % an aircraft outside of it, two and a half times as wide. A drive of 0.60
//! to 0.68 with rough blades lies inside the interval in a quarter of cases before the first hover, and in 93 to 98 % from the second on.
//! Half of the hovers in wind of 2 to 6 m/s that is told by its Beaufort number: 96 to 97 % (`core/tests/engineering_wind.rs`).
//! One reading that went wrong does not lead the fit astray. It knows nothing of a changed aircraft: after a change, earlier steps do not
//! belong in.

use nalgebra::{SVector, Vector3, Vector4, Vector6};
use serde::{Deserialize, Serialize};

use super::air::G0_M_S2;
use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::heat::{NORMAL_95, TimeConstant};
use super::regression::{Mixture, Posterior, Prior, Reading};
use super::require::{count, within};
use super::wind::{Relief, RotorWind};

/// Least power that the model may come to, as a share of what the prior expects.
const LEAST_LEVEL: f64 = 0.05;
/// What the usual voltage of a pack under hover load is off by before it was read, as a relative standard deviation (common practice, no
/// source: cells differ, and so do charge, cold and leads).
const VOLTAGE_SPREAD: f64 = 0.03;
/// What the voltage under load differs by from hover to hover with one set of sound packs (common practice, no source).
const VOLTAGE_SCATTER: f64 = 0.02;

/// What is believed of an aircraft of this class before it flies; relative standard deviations.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PowerPrior {
    /// Efficiency from pack to main rotor, tail included, 0.3 to 1.
    pub efficiency: f64,
    /// Its relative standard deviation, 0.001 to 0.5.
    pub efficiency_spread: f64,
    /// Induced power over ideal, 1 to 2.
    pub induced_factor: f64,
    /// Its relative standard deviation, 0.001 to 0.5.
    pub induced_spread: f64,
    /// Profile drag without lift, 0.004 to 0.05.
    pub drag_zero: f64,
    /// Its relative standard deviation, 0.001 to 1.
    pub drag_spread: f64,
    /// Growth of drag with the angle of attack squared, per rad2, 0.1 to 10.
    pub drag_alpha2_per_rad2: f64,
    /// Its relative standard deviation, 0.001 to 1.
    pub drag_alpha2_spread: f64,
    /// Median scatter of a reading, as a share of it, 0.001 to 0.3.
    pub scatter: f64,
    /// Times as wide for an aircraft outside of its class, 1 to 5.
    pub wider: f64,
    /// How likely that is, 0 to 0.5.
    pub wider_chance: f64,
}

impl PowerPrior {
    /// This class: drag from measured small rotors (NACA TN-626: .0113, 1.25), rounded up for worn and covered blades; the induced factor
    /// of 1.25 makes, with that drag, the total of 1.35 to 1.56 times ideal that was measured; efficiency and scatter are common
    /// practice without a source.
    pub const LARGE_ELECTRIC: Self = Self {
        efficiency: 0.79,
        efficiency_spread: 0.09,
        induced_factor: 1.25,
        induced_spread: 0.10,
        drag_zero: 0.0120,
        drag_spread: 0.25,
        drag_alpha2_per_rad2: 1.25,
        drag_alpha2_spread: 0.40,
        scatter: 0.03,
        wider: 2.5,
        wider_chance: 0.15,
    };

    fn check(&self) -> Result<()> {
        within("prior efficiency", self.efficiency, "", 0.3, 1.0)?;
        within("spread of the efficiency", self.efficiency_spread, "", 0.001, 0.5)?;
        within("prior induced factor", self.induced_factor, "", 1.0, 2.0)?;
        within("spread of the induced factor", self.induced_spread, "", 0.001, 0.5)?;
        within("prior profile drag", self.drag_zero, "", 0.004, 0.05)?;
        within("spread of the profile drag", self.drag_spread, "", 0.001, 1.0)?;
        within("prior drag growth", self.drag_alpha2_per_rad2, "per rad2", 0.1, 10.0)?;
        within("spread of the drag growth", self.drag_alpha2_spread, "", 0.001, 1.0)?;
        within("scatter of a reading", self.scatter, "", 0.001, 0.3)?;
        within("width of a prior outside of its class", self.wider, "", 1.0, 5.0)?;
        within("chance of an aircraft outside of its class", self.wider_chance, "", 0.0, 0.5)?;
        Ok(())
    }

    fn regression(&self, voltage_sd: f64) -> Prior<6> {
        Prior {
            spread: [
                self.efficiency_spread,
                self.induced_spread,
                self.drag_spread,
                self.drag_alpha2_spread,
                voltage_sd,
                // The row of a hover has what wind takes off in the mean: none of it, or twice as much.
                1.0,
            ],
            wider: (self.wider, self.wider_chance),
            scatter: self.scatter,
            scatter_log_sd: 0.5,
        }
    }
}

/// What stays the same over the ladder.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct LadderAircraft {
    /// All-up mass, in kg, 0.05 to 500.
    pub mass_kg: f64,
    /// Rotor radius, in m, 0.1 to 10.
    pub radius_m: f64,
    /// Blade area over disc area, 0.005 to 0.3.
    pub solidity: f64,
    /// Pack voltage under hover load as it usually is, in V, 1 to 100; steps with power and current say more of it.
    pub loaded_v: f64,
}

/// One step that was flown, or one reading of several at the same head speed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct FlownStep {
    /// Head speed, in rpm, 50 to 10000.
    pub head_rpm: f64,
    /// Air density, in kg/m3, 0.5 to 1.8.
    pub density_kg_m3: f64,
    /// Air temperature, in deg C, -40 to 60.
    pub air_c: f64,
    /// Mean electrical power in hover, in W, 1 to 100000, if known.
    pub power_w: Option<f64>,
    /// Mean current in hover, in A, 0.1 to 5000, if known.
    pub current_a: Option<f64>,
    /// Temperature of the watched part after the step, in deg C, above the air, to 250, if known.
    pub temperature_c: Option<f64>,
    /// How long the motor was on, in s, 1 to 36000, if known: a temperature after nobody knows how long tells nothing of the next.
    pub run_s: Option<f64>,
    /// Wind at the rotor, to [`super::wind::MOST_FITTED_M_S`], if known.
    pub wind: Option<RotorWind>,
}

/// The step to predict.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct NextStep {
    /// Head speed, in rpm, 50 to 10000.
    pub head_rpm: f64,
    /// Air density, in kg/m3, 0.5 to 1.8.
    pub density_kg_m3: f64,
    /// Air temperature, in deg C, -40 to 60.
    pub air_c: f64,
    /// How long the motor will be on, in s, 1 to 36000; none where no temperature is asked for.
    pub run_s: Option<f64>,
    /// Wind at the rotor, to [`super::wind::MOST_FITTED_M_S`], if known.
    pub wind: Option<RotorWind>,
}

/// A ladder so far and the step that comes next.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LadderQuestion {
    /// The aircraft.
    pub aircraft: LadderAircraft,
    /// The prior; [`PowerPrior::LARGE_ELECTRIC`] for this class.
    pub prior: PowerPrior,
    /// Time constant of the watched part, if it was measured.
    pub tau: Option<TimeConstant>,
    /// Steps flown with this aircraft unchanged, 0 to 2000.
    pub steps: Vec<FlownStep>,
    /// The next step.
    pub next: NextStep,
}

/// A 95 % interval with its middle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Interval95 {
    /// 2.5 % lie below.
    pub low: f64,
    /// Half lie below.
    pub middle: f64,
    /// 2.5 % lie above.
    pub high: f64,
}

/// Whether a reading agrees with its prediction.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Agreement {
    /// The reading.
    pub reading: f64,
    /// What it was held against.
    pub interval: Interval95,
    /// True inside the interval.
    pub agrees: bool,
    /// Reading over the middle, less one, in percent.
    pub off_percent: f64,
    /// Distance to the nearer end, in the reading's unit; negative outside.
    pub margin: f64,
}

impl Interval95 {
    fn of(mixture: &Mixture) -> Self {
        Self { low: mixture.quantile(0.025), middle: mixture.quantile(0.5), high: mixture.quantile(0.975) }
    }

    pub(crate) fn map(self, f: impl Fn(f64) -> f64) -> Self {
        Self { low: f(self.low), middle: f(self.middle), high: f(self.high) }
    }

    /// Holds a new reading, in the interval's unit, against the prediction. One in twenty honest readings falls outside.
    ///
    /// # Errors
    /// A reading that is not a number or infinite.
    ///
    /// ```
    /// use liftgate_core::engineering::prediction::Interval95;
    /// let predicted = Interval95 { low: 900.0, middle: 1000.0, high: 1100.0 };
    /// assert!(predicted.agrees(1050.0)?.agrees && !predicted.agrees(1200.0)?.agrees);
    /// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
    /// ```
    pub fn agrees(&self, reading: f64) -> Result<Agreement> {
        within("reading", reading, "", -1e9, 1e9)?;
        for end in [self.low, self.middle, self.high] {
            within("end of the interval", end, "", -1e9, 1e9)?;
        }
        let margin = (reading - self.low).min(self.high - reading);
        Ok(Agreement {
            reading,
            interval: *self,
            agrees: margin >= 0.0,
            off_percent: 100.0 * (reading - self.middle) / self.middle.abs().max(1e-9),
            margin,
        })
    }
}

/// What the steps say about the aircraft.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct FittedAircraft {
    /// Efficiency from pack to main rotor, tail included.
    pub efficiency: Interval95,
    /// Induced power over ideal.
    pub induced_factor: Interval95,
    /// Profile drag without lift.
    pub profile_drag: Interval95,
    /// Scatter of the power readings, in percent.
    pub scatter_percent: f64,
}

/// The prediction of the next step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LadderPrediction {
    /// What went in.
    pub inputs: LadderQuestion,
    /// Electrical power, in W: where a new reading should fall.
    pub power_w: Interval95,
    /// Current, in A: where a new reading should fall.
    pub current_a: Interval95,
    /// Voltage under load, in V: where a new reading should fall.
    pub loaded_v: Interval95,
    /// Temperature of the watched part at landing, in deg C; none before a first temperature with its power and its time.
    pub temperature_c: Option<Interval95>,
    /// The fitted aircraft.
    pub fitted: FittedAircraft,
    /// How far the next head speed lies outside the flown ones, in percent of the nearest; 0 inside, none before the first step.
    pub beyond_percent: Option<f64>,
}

/// Predicts power, current and temperature of the next step.
///
/// # Errors
/// Figures out of range; a part that is not warmer than its air; too many steps.
///
/// # Validity
/// Hover out of ground effect, steps of about equal length, one unchanged aircraft. Resonance, a slipping belt or a dragging bearing are not in the
/// model: that is what a disagreement is for.
///
/// ```
/// use liftgate_core::engineering::prediction::*;
/// let step = |head_rpm, power_w| FlownStep { head_rpm, density_kg_m3: 1.2, air_c: 18.0, power_w: Some(power_w), current_a: None,
///     temperature_c: None, run_s: None, wind: None };
/// let prediction = predict(&LadderQuestion {
///     aircraft: LadderAircraft { mass_kg: 9.0, radius_m: 0.9, solidity: 0.06, loaded_v: 44.0 },
///     prior: PowerPrior::LARGE_ELECTRIC,
///     steps: vec![step(1000.0, 905.0), step(1075.0, 965.0)],
///     tau: None, next: NextStep { head_rpm: 1150.0, density_kg_m3: 1.2, air_c: 18.0, run_s: None, wind: None },
/// })?;
/// assert!(prediction.power_w.low < prediction.power_w.middle && prediction.power_w.middle < prediction.power_w.high);
/// assert!(prediction.power_w.middle > 965.0);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn predict(question: &LadderQuestion) -> Result<LadderPrediction> {
    check_question(question)?;
    let next = question.next;
    let row = PowerRow::new(question, next.head_rpm, (next.density_kg_m3, next.wind));
    let voltage = Voltage::of(question);
    let fit = fit_power(question, voltage)?;
    let level = level(&row, &fit.mean());
    // Readings that pull the model to no power at all are slips of a unit, not an aircraft.
    if level <= LEAST_LEVEL {
        return Err(no_fit());
    }
    let power = fit.along(&row.of_power(), level, row.wind_sd * level);
    let current = fit.along(&row.of_current(level), level, VOLTAGE_SCATTER.hypot(row.wind_sd) * level);
    let volts = fit.along(&Vector6::new(0.0, 0.0, 0.0, 0.0, 1.0, 0.0), 0.0, VOLTAGE_SCATTER);
    Ok(LadderPrediction {
        power_w: Interval95::of(&power).map(|share| row.prior_w * (1.0 + share).max(0.0)),
        current_a: Interval95::of(&current).map(|share| row.prior_w / voltage.middle_v * (1.0 + share).max(0.0)),
        loaded_v: Interval95::of(&volts).map(|share| voltage.middle_v * (1.0 + share).max(0.0)),
        temperature_c: temperature(question, &row, &fit, voltage)?,
        fitted: fitted(question, &fit),
        beyond_percent: beyond(question),
        inputs: question.clone(),
    })
}

fn check_question(question: &LadderQuestion) -> Result<()> {
    question.prior.check()?;
    let a = &question.aircraft;
    within("all-up mass", a.mass_kg, "kg", 0.05, 500.0)?;
    within("rotor radius", a.radius_m, "m", 0.1, 10.0)?;
    within("solidity", a.solidity, "", 0.005, 0.3)?;
    within("pack voltage under load", a.loaded_v, "V", 1.0, 100.0)?;
    count("steps", question.steps.len(), 0, 2000)?;
    let n = &question.next;
    check_air(n.head_rpm, n.density_kg_m3, n.air_c)?;
    n.wind.iter().try_for_each(RotorWind::check)?;
    check_run(n.run_s)?;
    if let Some(tau) = question.tau {
        within("time constant", tau.tau_s, "s", 0.1, 86_400.0)?;
        within("accuracy of the time constant", tau.half_width_s, "s", 0.0, 86_400.0)?;
    }
    question.steps.iter().try_for_each(check_step)
}

fn check_air(head_rpm: f64, density_kg_m3: f64, air_c: f64) -> Result<()> {
    within("head speed", head_rpm, "rpm", 50.0, 10_000.0)?;
    within("air density", density_kg_m3, "kg/m3", 0.5, 1.8)?;
    within("air temperature", air_c, "deg C", -40.0, 60.0)?;
    Ok(())
}

fn check_run(run_s: Option<f64>) -> Result<()> {
    if let Some(run_s) = run_s {
        within("time with the motor on", run_s, "s", 1.0, 36_000.0)?;
    }
    Ok(())
}

fn check_step(step: &FlownStep) -> Result<()> {
    check_air(step.head_rpm, step.density_kg_m3, step.air_c)?;
    step.wind.iter().try_for_each(RotorWind::check)?;
    if let Some(power_w) = step.power_w {
        within("power", power_w, "W", 1.0, 100_000.0)?;
    }
    if let Some(current_a) = step.current_a {
        within("current", current_a, "A", 0.1, 5000.0)?;
    }
    check_run(step.run_s)?;
    if let Some(temperature_c) = step.temperature_c {
        within("temperature of the part", temperature_c, "deg C", -40.0, 250.0)?;
        if temperature_c < step.air_c + 0.5 {
            return Err(EngineeringError::from(Conflict::NotHeatedInFlight {
                rpm: step.head_rpm,
                part_c: temperature_c,
                air_c: step.air_c,
            }));
        }
    }
    Ok(())
}

/// The prior's power at a step and how it moves with each factor.
struct PowerRow {
    /// Electrical power that the prior's middle expects, in W.
    prior_w: f64,
    /// Relative change of power by a relative change of efficiency, induced factor, drag and its growth.
    shares: Vector4<f64>,
    /// What a wind that nobody told takes off in the mean, as a share.
    untold_wind: f64,
    /// Standard deviation of what the wind of this hover alone takes off, as a share.
    wind_sd: f64,
}

impl PowerRow {
    fn new(question: &LadderQuestion, head_rpm: f64, (density_kg_m3, wind): (f64, Option<RotorWind>)) -> Self {
        let (a, prior) = (&question.aircraft, &question.prior);
        let area_m2 = std::f64::consts::PI * a.radius_m.powi(2);
        let thrust_n = a.mass_kg * G0_M_S2;
        let tip_m_s = a.radius_m * head_rpm * std::f64::consts::TAU / 60.0;
        let still_m_s = (thrust_n / (2.0 * density_kg_m3 * area_m2)).sqrt();
        let relief = Relief::of(wind, still_m_s);
        let still_w = prior.induced_factor * thrust_n * still_m_s;
        let induced_w = still_w * relief.ratio;
        let flow_w = density_kg_m3 * area_m2 * tip_m_s.powi(3) * a.solidity / 8.0;
        let thrust_coefficient = thrust_n / (density_kg_m3 * area_m2 * tip_m_s.powi(2));
        // Mean lift coefficient 6 C_T / sigma over a slope of 5.73 per rad; a stalled rotor is not flown on a ladder.
        let alpha_rad = (6.0 * thrust_coefficient / a.solidity / 5.73).min(0.35);
        let zero_w = prior.drag_zero * flow_w;
        let lift_w = prior.drag_alpha2_per_rad2 * alpha_rad * alpha_rad * flow_w;
        let shaft_w = induced_w + zero_w + lift_w;
        Self {
            prior_w: shaft_w / prior.efficiency,
            shares: Vector4::new(-1.0, induced_w / shaft_w, zero_w / shaft_w, lift_w / shaft_w),
            untold_wind: relief.untold * still_w / shaft_w,
            wind_sd: relief.sd * still_w / shaft_w,
        }
    }

    /// How power moves with the factors, the voltage and the wind that nobody told last.
    fn of_power(&self) -> Vector6<f64> {
        self.shares.push(0.0).push(-self.untold_wind)
    }

    /// How current moves with them, at a level of power over the prior's.
    fn of_current(&self, level: f64) -> Vector6<f64> {
        self.shares.push(-level).push(-self.untold_wind)
    }
}

/// What the steps with power and current say of the voltage under load.
#[derive(Clone, Copy)]
struct Voltage {
    middle_v: f64,
    /// Relative standard deviation of the mean over all hovers.
    sd: f64,
}

impl Voltage {
    /// A normal prior and readings of one scatter: precisions add up.
    fn of(question: &LadderQuestion) -> Voltage {
        let usual_v = question.aircraft.loaded_v;
        let read = question.steps.iter().filter_map(|step| Some(step.power_w? / step.current_a? / usual_v - 1.0));
        let (sum, count) = read.fold((0.0, 0.0), |(sum, count), share| (sum + share, count + 1.0));
        let precision = VOLTAGE_SPREAD.powi(-2) + count * VOLTAGE_SCATTER.powi(-2);
        Voltage {
            middle_v: usual_v * (1.0 + sum * VOLTAGE_SCATTER.powi(-2) / precision),
            sd: precision.sqrt().recip(),
        }
    }
}

/// What a step says of power: its power, or its current times the voltage that is likely.
struct Drawn {
    row: PowerRow,
    /// Over the prior's power, less one.
    share: f64,
    by_current: bool,
}

impl Drawn {
    fn of(question: &LadderQuestion, step: &FlownStep, voltage: Voltage) -> Option<Drawn> {
        let row = PowerRow::new(question, step.head_rpm, (step.density_kg_m3, step.wind));
        let share = drawn_w(step, voltage)? / row.prior_w - 1.0;
        Some(Drawn { row, share, by_current: step.power_w.is_none() })
    }
}

fn drawn_w(step: &FlownStep, voltage: Voltage) -> Option<f64> {
    step.power_w.or_else(|| Some(step.current_a? * voltage.middle_v))
}

/// Posterior of the relative factors: efficiency, induced power, drag, its growth, the voltage, and the wind that nobody told.
fn fit_power(question: &LadderQuestion, voltage: Voltage) -> Result<Posterior<6>> {
    let prior = question.prior.regression(voltage.sd);
    let drawn: Vec<Drawn> = question.steps.iter().filter_map(|step| Drawn::of(question, step, voltage)).collect();
    // Readings scatter by a share of the true value, which the first looks have yet to find.
    let mut factors = Vector6::zeros();
    for _ in 0..2 {
        factors = Posterior::quick_mean(&prior, &readings(&drawn, &factors)).ok_or_else(no_fit)?;
    }
    Posterior::new(&prior, &readings(&drawn, &factors)).ok_or_else(no_fit)
}

/// Model value over the prior's, kept positive.
fn level(row: &PowerRow, factors: &Vector6<f64>) -> f64 {
    (1.0 + row.of_power().dot(factors)).max(LEAST_LEVEL)
}

/// Each reading as a share of the level that the factors give it.
fn readings(drawn: &[Drawn], factors: &Vector6<f64>) -> Vec<Reading<6>> {
    let of = |drawn: &Drawn| {
        let level = level(&drawn.row, factors);
        let x = if drawn.by_current { drawn.row.of_current(level) } else { drawn.row.of_power() };
        Reading { x: x / level, y: drawn.share / level, own_sd: drawn.row.wind_sd }
    };
    drawn.iter().map(of).collect()
}

fn no_fit() -> EngineeringError {
    EngineeringError::from(Conflict::StepsDoNotFit)
}

fn fitted(question: &LadderQuestion, posterior: &Posterior<6>) -> FittedAircraft {
    let factor = |i: usize, middle: f64| {
        let mut x: SVector<f64, 6> = Vector6::zeros();
        x[i] = 1.0;
        Interval95::of(&posterior.along(&x, 0.0, 0.0)).map(|share| middle * (1.0 + share).max(0.0))
    };
    let p = &question.prior;
    FittedAircraft {
        efficiency: factor(0, p.efficiency),
        induced_factor: factor(1, p.induced_factor),
        profile_drag: factor(2, p.drag_zero),
        scatter_percent: 100.0 * posterior.scatter(),
    }
}

/// How slowly the part warms, by a share of its time constant: its middle, and the standard deviation of its logarithm. One minute to nine
/// (common practice, no source).
const TAU_S: f64 = 170.0;
const TAU_LOG_SD: f64 = 0.6;
/// What a time constant that was measured on the bench may be wrong by in the air, or for another part: the same, of its logarithm.
const MEASURED_TAU_LOG_SD: f64 = 0.2;

/// Temperature: the logarithm of the rise against that of the power and of the share of the steady rise that the time was enough for,
/// `1 - exp(-t / tau)` (lumped capacitance, Incropera, Fundamentals of Heat and Mass Transfer), with tau itself unknown.
fn temperature(
    question: &LadderQuestion,
    row: &PowerRow,
    power: &Posterior<6>,
    voltage: Voltage,
) -> Result<Option<Interval95>> {
    let Some(run_s) = question.next.run_s else { return Ok(None) };
    // The power itself without a reading's scatter: that is already in what the rises scatter about the readings. The wind is not.
    let power = power.along(&row.of_power(), 0.0, row.wind_sd);
    let expected = (1.0 + power.mean()).max(LEAST_LEVEL);
    let expected_w = row.prior_w * expected;
    let (tau_s, tau_log_sd) = question.tau.map_or((TAU_S, TAU_LOG_SD), |tau| {
        (tau.tau_s, MEASURED_TAU_LOG_SD.hypot(tau.half_width_s / NORMAL_95 / tau.tau_s))
    });
    // A steady rise of 45 K within a factor of e; an exponent of 1.5 within half; scatter of 8 % (common practice, no source).
    let (middle, exponent) = (45f64.ln(), 1.5);
    let prior = Prior { spread: [1.0, 0.5, tau_log_sd], wider: (1.0, 0.0), scatter: 0.08, scatter_log_sd: 0.5 };
    let read = question.steps.iter().filter_map(|step| {
        let (power_w, temperature_c) = (drawn_w(step, voltage)?, step.temperature_c?);
        let ratio = (power_w / expected_w).ln();
        let warm = Warming::after(step.run_s?, tau_s);
        let rise = (temperature_c - step.air_c).ln();
        let x = Vector3::new(1.0, ratio, warm.by_log_tau);
        Some(Reading { x, y: rise - middle - exponent * ratio - warm.log_share, own_sd: 0.0 })
    });
    let read: Vec<Reading<3>> = read.collect();
    if read.is_empty() {
        return Ok(None);
    }
    let posterior = Posterior::new(&prior, &read).ok_or_else(no_fit)?;
    // The power that the next step really takes is not known either; what it does to the rise goes with the exponent.
    let power_sd = (exponent + posterior.mean()[1]) * power.sd() / expected;
    let warm = Warming::after(run_s, tau_s);
    let rise = posterior.along(&Vector3::new(1.0, 0.0, warm.by_log_tau), 1.0, power_sd);
    let air_c = question.next.air_c;
    Ok(Some(Interval95::of(&rise).map(|log| air_c + (middle + warm.log_share + log).min(10.0).exp())))
}

/// How far a part has come on its way to the steady state.
struct Warming {
    /// Natural logarithm of its share of the steady rise.
    log_share: f64,
    /// How that grows with the logarithm of the time constant.
    by_log_tau: f64,
}

impl Warming {
    fn after(run_s: f64, tau_s: f64) -> Warming {
        let times = run_s / tau_s;
        let share = -(-times).exp_m1();
        Warming { log_share: share.ln(), by_log_tau: -times * (-times).exp() / share }
    }
}

fn beyond(question: &LadderQuestion) -> Option<f64> {
    let next_rpm = question.next.head_rpm;
    let flown = || question.steps.iter().map(|s| s.head_rpm);
    let low_rpm = flown().reduce(f64::min)?;
    let high_rpm = flown().reduce(f64::max)?;
    Some(if next_rpm > high_rpm {
        100.0 * (next_rpm / high_rpm - 1.0)
    } else if next_rpm < low_rpm {
        100.0 * (1.0 - next_rpm / low_rpm)
    } else {
        0.0
    })
}
