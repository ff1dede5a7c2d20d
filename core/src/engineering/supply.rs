//! Loads and voltage windows on each supply rail, regulator heat, and how long a receiver pack lasts.
//!
//! Load rule (common practice, no source): all servos are stirred together with nothing attached and the peak is read. Four
//! times that reading is a design peak, about twice is hard flight; what draws steadily is added to both. A meter held by hand misses
//! peaks of milliseconds, so that there is a second design peak: a motor that starts or reverses draws what it draws stalled, its voltage
//! over its resistance, and servos that are stirred together start together. The greater of the two counts. Hard flight is held against
//! the supply's continuous rating, the design peak against its burst rating.

use serde::{Deserialize, Serialize};

use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::grade::Grade;
use super::require::{count, ordered, within};

/// Design peak over unloaded stirring peak (common practice, no source).
pub const DESIGN_PEAK_FACTOR: f64 = 4.0;
/// Hard flight over unloaded stirring peak (common practice, no source).
pub const HARD_FLIGHT_FACTOR: f64 = 2.0;
/// Share of a rating above which a load earns a caution (common practice, no source).
pub const CAUTION_FRACTION: f64 = 0.8;
/// Lowest voltage at the receiver under stirring, whatever its consumers are rated for (common practice, no source).
pub const STIRRING_LOW_LIMIT_V: f64 = 5.0;
/// Room above the lowest voltage under which a caution is due, in V (common practice, no source).
const SAG_CAUTION_V: f64 = 0.2;
/// A supply that sags by more than this under what it was set to is a caution, in percent (common practice, no source).
pub const SAG_BELOW_SET_PERCENT: f64 = 10.0;
/// Share of a receiver pack's capacity that a flight plan may use (common practice, no source).
pub const USABLE_FRACTION: f64 = 0.6;
/// Room under a regulator's limit temperature below which it earns a caution (common practice, no source).
pub const REGULATOR_CAUTION_K: f64 = 20.0;
/// Rounding of decimal voltages is no reason to fail an accessory that sits exactly at its rating.
const VOLTAGE_SLACK_V: f64 = 1e-9;

/// One supply rail: a pack or a regulator's output, with what it is rated for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Rail {
    /// The name that the person gave it.
    pub name: String,
    /// Voltage with the source full, in V, 0.5 to 100.
    pub full_v: f64,
    /// Nominal voltage, in V, not above `full_v`.
    pub nominal_v: f64,
    /// Voltage with the source at its planned end, in V, not above `nominal_v`.
    pub empty_v: f64,
    /// Rated continuous current, in A, 0.01 to 1000.
    pub continuous_a: f64,
    /// Rated burst current, in A, not below `continuous_a`.
    pub burst_a: f64,
    /// Ripple, peak to peak, in V, 0 to `full_v`; half of it is added to full and taken off empty.
    pub ripple_v: f64,
}

/// Something that a rail feeds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Consumer {
    /// The name that the person gave it.
    pub name: String,
    /// Lowest voltage it is rated for, in V, 0 to 100.
    pub low_v: f64,
    /// Highest voltage it is rated for, in V, not below `low_v`.
    pub high_v: f64,
    /// What one of them draws steadily, in A, 0 to 1000; for a servo, its idle current.
    pub steady_a: f64,
    /// How many are fitted, 1 to 1000.
    pub quantity: u32,
    /// What one draws when stalled or at its worst fault, in A, if the maker says.
    pub fault_a: Option<f64>,
}

/// A rail, what hangs on it, and what was measured on it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RailLoad {
    /// The rail.
    pub rail: Rail,
    /// All that it feeds, up to 200 kinds.
    pub consumers: Vec<Consumer>,
    /// Peak current measured on this rail while all servos are stirred unloaded, in A, 0 to 1000; 0 if it feeds no servo.
    pub stirring_peak_a: f64,
    /// Lowest voltage seen at the receiver while stirring, in V, if it was measured.
    pub stirring_low_v: Option<f64>,
}

/// A load held against a rating.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct CurrentMargin {
    /// The load, in A.
    pub load_a: f64,
    /// The rating, in A.
    pub rated_a: f64,
    /// Rating less load, in A; negative when overloaded.
    pub margin_a: f64,
    /// The same in percent of the rating.
    pub margin_percent: f64,
    /// Stop above the rating, caution above [`CAUTION_FRACTION`] of it.
    pub grade: Grade,
}

impl CurrentMargin {
    fn new(load_a: f64, rated_a: f64) -> Self {
        Self {
            load_a,
            rated_a,
            margin_a: rated_a - load_a,
            margin_percent: 100.0 * (rated_a - load_a) / rated_a,
            grade: Grade::of_load(load_a, rated_a, CAUTION_FRACTION),
        }
    }
}

/// A state of the source in which every consumer's window is checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RailState {
    /// Full, with half the ripple on top.
    RippleCrest,
    /// Full.
    Full,
    /// Nominal.
    Nominal,
    /// At its planned end.
    Empty,
    /// At its planned end, less half the ripple.
    RippleTrough,
}

/// Which edge of a consumer's window is the nearer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WindowEdge {
    /// The lowest rated voltage.
    Low,
    /// The highest rated voltage.
    High,
}

/// A consumer's window against the rail in one state.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WindowPoint {
    /// The source's state.
    pub state: RailState,
    /// Voltage of the rail in that state, in V.
    pub rail_v: f64,
    /// The nearer edge of the window.
    pub edge: WindowEdge,
    /// Voltage of that edge, in V.
    pub limit_v: f64,
    /// Room to that edge, in V; negative outside.
    pub margin_v: f64,
    /// Stop outside the window; caution where only ripple leaves it.
    pub grade: Grade,
}

/// A consumer's window against every state of its rail.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ConsumerWindow {
    /// The consumer's name.
    pub consumer: String,
    /// One point per state, from the highest voltage to the lowest.
    pub points: Vec<WindowPoint>,
    /// The worst of them: by grade, then by margin.
    pub worst: WindowPoint,
}

/// The lowest voltage under stirring against what its consumers need, at least [`STIRRING_LOW_LIMIT_V`], and against what was set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SagMargin {
    /// Lowest voltage at the receiver, in V.
    pub low_v: f64,
    /// The limit, in V.
    pub limit_v: f64,
    /// The consumer whose lowest rating that is; none where it is [`STIRRING_LOW_LIMIT_V`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub consumer: Option<String>,
    /// Room above the limit, in V; negative below.
    pub margin_v: f64,
    /// What the supply was set to, in V: its nominal voltage.
    pub set_v: f64,
    /// How far the lowest voltage lies under that, in percent.
    pub below_set_percent: f64,
    /// Stop below the limit; caution within 0.2 V of it, or more than [`SAG_BELOW_SET_PERCENT`] under what was set.
    pub grade: Grade,
}

/// Why a rail does not earn an `Ok`; each prints as one short clause.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum RailReason {
    /// Hard flight against the continuous rating.
    Continuous {
        /// The load and its rating.
        margin: CurrentMargin,
    },
    /// The design peak against the burst rating.
    Burst {
        /// The load and its rating.
        margin: CurrentMargin,
    },
    /// One consumer at its fault current while the others fly hard, against the burst rating.
    Fault {
        /// The consumer.
        consumer: String,
        /// The load and its rating.
        margin: CurrentMargin,
    },
    /// A consumer outside its window.
    Window {
        /// The consumer.
        consumer: String,
        /// Where it is worst.
        point: WindowPoint,
    },
    /// Voltage at the receiver under stirring.
    Sag {
        /// The reading and its limit.
        margin: SagMargin,
    },
}

impl RailReason {
    /// The grade that this reason brings.
    pub fn grade(&self) -> Grade {
        match self {
            Self::Continuous { margin } | Self::Burst { margin } | Self::Fault { margin, .. } => margin.grade,
            Self::Window { point, .. } => point.grade,
            Self::Sag { margin } => margin.grade,
        }
    }
}

/// Everything about one rail.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RailReport {
    /// What went in.
    pub inputs: RailLoad,
    /// Sum of what draws steadily, in A.
    pub steady_a: f64,
    /// Average in flight: steady plus one stirring peak, in A (common practice, no source; a measured average goes before it).
    pub average_a: f64,
    /// [`HARD_FLIGHT_FACTOR`] x stirring peak + steady, in A.
    pub hard_flight_a: f64,
    /// [`DESIGN_PEAK_FACTOR`] x stirring peak + steady, in A.
    pub stirred_peak_a: f64,
    /// All consumers whose stall current is known at that current together, and the others steady, in A; none where none is known.
    pub stalled_peak_a: Option<f64>,
    /// The greater of both, in A.
    pub design_peak_a: f64,
    /// Hard flight against the continuous rating.
    pub continuous: CurrentMargin,
    /// Design peak against the burst rating.
    pub burst: CurrentMargin,
    /// Hard flight with the worst single consumer at its fault current, against the burst rating; none if no fault current is known.
    pub fault: Option<CurrentMargin>,
    /// Each consumer's window, in the order given.
    pub windows: Vec<ConsumerWindow>,
    /// The worst point of all, with the consumer that it belongs to; none if the rail feeds nothing.
    pub worst_window: Option<(String, WindowPoint)>,
    /// Sag under stirring, if measured.
    pub sag: Option<SagMargin>,
    /// The worst grade of all parts.
    pub grade: Grade,
    /// Every reason short of `Ok`, the worst first.
    pub reasons: Vec<RailReason>,
}

/// Loads, margins and voltage windows of one rail.
///
/// # Errors
/// A figure that is not a number or out of its range; `full_v`, `nominal_v`, `empty_v` that do not descend; a burst rating below
/// the continuous one; a consumer whose window is upside down.
///
/// # Validity
/// The load factors are common practice without a source: a log of the rail's current in flight goes before them.
///
/// ```
/// use liftgate_core::engineering::supply::{rail_report, Consumer, Rail, RailLoad};
/// use liftgate_core::engineering::Grade;
/// let report = rail_report(&RailLoad {
///     rail: Rail { name: "receiver".into(), full_v: 8.4, nominal_v: 7.4, empty_v: 7.0, continuous_a: 10.0, burst_a: 20.0, ripple_v: 0.1 },
///     consumers: vec![
///         Consumer { name: "cyclic servo".into(), low_v: 4.8, high_v: 8.4, steady_a: 0.1, quantity: 3, fault_a: None },
///         Consumer { name: "landing light".into(), low_v: 4.5, high_v: 6.0, steady_a: 0.4, quantity: 1, fault_a: None },
///     ],
///     stirring_peak_a: 3.0,
///     stirring_low_v: None,
/// })?;
/// assert!((report.design_peak_a - 12.7).abs() < 1e-9);
/// assert!((report.hard_flight_a - 6.7).abs() < 1e-9);
/// assert_eq!(report.burst.grade, Grade::Ok);
/// // The light does not stand a full two-cell pack.
/// assert_eq!(report.worst_window.as_ref().map(|(name, _)| name.as_str()), Some("landing light"));
/// assert_eq!(report.grade, Grade::Stop);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn rail_report(load: &RailLoad) -> Result<RailReport> {
    check_load(load)?;
    let steady_a: f64 = load.consumers.iter().map(|c| c.steady_a * f64::from(c.quantity)).sum();
    let hard_flight_a = HARD_FLIGHT_FACTOR * load.stirring_peak_a + steady_a;
    let stirred_peak_a = DESIGN_PEAK_FACTOR * load.stirring_peak_a + steady_a;
    let stalled_peak_a = stalled_peak(load);
    let design_peak_a = stalled_peak_a.map_or(stirred_peak_a, |stalled_a| stalled_a.max(stirred_peak_a));
    let continuous = CurrentMargin::new(hard_flight_a, load.rail.continuous_a);
    let burst = CurrentMargin::new(design_peak_a, load.rail.burst_a);
    let worst_fault = worst_fault(load, hard_flight_a);
    let windows: Vec<ConsumerWindow> = load.consumers.iter().map(|c| consumer_window(&load.rail, c)).collect();
    let sag = load.stirring_low_v.map(|low_v| sag_margin(load, low_v));
    let reasons = reasons(continuous, burst, worst_fault.as_ref(), &windows, sag.as_ref());
    Ok(RailReport {
        inputs: load.clone(),
        steady_a,
        average_a: load.stirring_peak_a + steady_a,
        hard_flight_a,
        stirred_peak_a,
        stalled_peak_a,
        design_peak_a,
        continuous,
        burst,
        fault: worst_fault.map(|(_, margin)| margin),
        worst_window: worst_window(&windows),
        windows,
        sag,
        grade: reasons.first().map_or(Grade::Ok, RailReason::grade),
        reasons,
    })
}

fn check_load(load: &RailLoad) -> Result<()> {
    let rail = &load.rail;
    within("full voltage", rail.full_v, "V", 0.5, 100.0)?;
    within("nominal voltage", rail.nominal_v, "V", 0.5, 100.0)?;
    within("empty voltage", rail.empty_v, "V", 0.0, 100.0)?;
    ordered(rail.nominal_v, rail.full_v, || Conflict::NominalAboveFull {
        rail: rail.name.clone(),
        nominal_v: rail.nominal_v,
        full_v: rail.full_v,
    })?;
    ordered(rail.empty_v, rail.nominal_v, || Conflict::EmptyAboveNominal {
        rail: rail.name.clone(),
        empty_v: rail.empty_v,
        nominal_v: rail.nominal_v,
    })?;
    within("continuous rating", rail.continuous_a, "A", 0.01, 1000.0)?;
    within("burst rating", rail.burst_a, "A", 0.01, 5000.0)?;
    ordered(rail.continuous_a, rail.burst_a, || Conflict::BurstBelowContinuous {
        rail: rail.name.clone(),
        burst_a: rail.burst_a,
        continuous_a: rail.continuous_a,
    })?;
    within("ripple", rail.ripple_v, "V", 0.0, rail.full_v)?;
    within("stirring peak", load.stirring_peak_a, "A", 0.0, 1000.0)?;
    if let Some(low_v) = load.stirring_low_v {
        within("lowest voltage under stirring", low_v, "V", 0.0, 100.0)?;
    }
    count("consumers on one rail", load.consumers.len(), 0, 200)?;
    load.consumers.iter().try_for_each(check_consumer)
}

fn check_consumer(consumer: &Consumer) -> Result<()> {
    within("lowest rated voltage", consumer.low_v, "V", 0.0, 100.0)?;
    within("highest rated voltage", consumer.high_v, "V", 0.1, 100.0)?;
    ordered(consumer.low_v, consumer.high_v, || Conflict::WindowUpsideDown {
        consumer: consumer.name.clone(),
        low_v: consumer.low_v,
        high_v: consumer.high_v,
    })?;
    within("steady current", consumer.steady_a, "A", 0.0, 1000.0)?;
    within("quantity", f64::from(consumer.quantity), "pieces", 1.0, 1000.0)?;
    if let Some(fault_a) = consumer.fault_a {
        within("fault current", fault_a, "A", 0.0, 5000.0)?;
        ordered(consumer.steady_a, fault_a, || Conflict::FaultBelowSteady {
            consumer: consumer.name.clone(),
            fault_a,
            steady_a: consumer.steady_a,
        })?;
    }
    Ok(())
}

fn worst_fault(load: &RailLoad, hard_flight_a: f64) -> Option<(String, CurrentMargin)> {
    load.consumers
        .iter()
        .filter_map(|c| c.fault_a.map(|fault_a| (c, fault_a - c.steady_a)))
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(c, extra_a)| (c.name.clone(), CurrentMargin::new(hard_flight_a + extra_a, load.rail.burst_a)))
}

/// What the rail draws while all that can stall does, as it does in the first moment of a start.
fn stalled_peak(load: &RailLoad) -> Option<f64> {
    load.consumers.iter().find(|c| c.fault_a.is_some())?;
    Some(load.consumers.iter().map(|c| c.fault_a.unwrap_or(c.steady_a) * f64::from(c.quantity)).sum())
}

fn sag_margin(load: &RailLoad, low_v: f64) -> SagMargin {
    let needs_most = load.consumers.iter().max_by(|a, b| a.low_v.total_cmp(&b.low_v));
    let needs_most = needs_most.filter(|consumer| consumer.low_v > STIRRING_LOW_LIMIT_V);
    let limit_v = needs_most.map_or(STIRRING_LOW_LIMIT_V, |consumer| consumer.low_v);
    let set_v = load.rail.nominal_v;
    let (margin_v, below_set_percent) = (low_v - limit_v, 100.0 * (1.0 - low_v / set_v));
    let grade = if margin_v < -VOLTAGE_SLACK_V {
        Grade::Stop
    } else if margin_v < SAG_CAUTION_V || below_set_percent > SAG_BELOW_SET_PERCENT {
        Grade::Caution
    } else {
        Grade::Ok
    };
    let consumer = needs_most.map(|consumer| consumer.name.clone());
    SagMargin { low_v, limit_v, consumer, margin_v, set_v, below_set_percent, grade }
}

fn consumer_window(rail: &Rail, consumer: &Consumer) -> ConsumerWindow {
    let half_ripple_v = rail.ripple_v / 2.0;
    let crest = (RailState::RippleCrest, rail.full_v + half_ripple_v);
    let trough = (RailState::RippleTrough, (rail.empty_v - half_ripple_v).max(0.0));
    let steady =
        [(RailState::Full, rail.full_v), (RailState::Nominal, rail.nominal_v), (RailState::Empty, rail.empty_v)];
    let mut worst = window_point(consumer, steady[0], Grade::Stop);
    let mut points = vec![window_point(consumer, crest, Grade::Caution)];
    points.extend(steady.iter().map(|s| window_point(consumer, *s, Grade::Stop)));
    points.push(window_point(consumer, trough, Grade::Caution));
    for point in &points {
        if is_worse(point, &worst) {
            worst = *point;
        }
    }
    ConsumerWindow { consumer: consumer.name.clone(), points, worst }
}

fn window_point(consumer: &Consumer, (state, rail_v): (RailState, f64), outside: Grade) -> WindowPoint {
    let above_low_v = rail_v - consumer.low_v;
    let below_high_v = consumer.high_v - rail_v;
    let (edge, limit_v, margin_v) = if above_low_v < below_high_v {
        (WindowEdge::Low, consumer.low_v, above_low_v)
    } else {
        (WindowEdge::High, consumer.high_v, below_high_v)
    };
    let grade = if margin_v < -VOLTAGE_SLACK_V { outside } else { Grade::Ok };
    WindowPoint { state, rail_v, edge, limit_v, margin_v, grade }
}

fn is_worse(a: &WindowPoint, b: &WindowPoint) -> bool {
    a.grade > b.grade || (a.grade == b.grade && a.margin_v < b.margin_v)
}

fn worst_window(windows: &[ConsumerWindow]) -> Option<(String, WindowPoint)> {
    let mut worst: Option<&ConsumerWindow> = None;
    for window in windows {
        if worst.is_none_or(|w| is_worse(&window.worst, &w.worst)) {
            worst = Some(window);
        }
    }
    worst.map(|w| (w.consumer.clone(), w.worst))
}

fn reasons(
    continuous: CurrentMargin,
    burst: CurrentMargin,
    fault: Option<&(String, CurrentMargin)>,
    windows: &[ConsumerWindow],
    sag: Option<&SagMargin>,
) -> Vec<RailReason> {
    let mut all = vec![RailReason::Continuous { margin: continuous }, RailReason::Burst { margin: burst }];
    all.extend(fault.map(|(consumer, margin)| RailReason::Fault { consumer: consumer.clone(), margin: *margin }));
    all.extend(windows.iter().map(|w| RailReason::Window { consumer: w.consumer.clone(), point: w.worst }));
    all.extend(sag.map(|margin| RailReason::Sag { margin: margin.clone() }));
    all.retain(|r| r.grade() > Grade::Ok);
    all.sort_by_key(|r| std::cmp::Reverse(r.grade()));
    all
}

/// How a regulator gets its voltage, and what that loses.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum RegulatorKind {
    /// Turns the whole voltage difference into heat.
    Linear {
        /// Least difference between input and output that it needs, in V, 0 to 10.
        dropout_v: f64,
    },
    /// Loses the share that its efficiency leaves.
    Switching {
        /// Efficiency at this load, 0.3 to 1.
        efficiency: f64,
    },
}

/// A regulator at work.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Regulator {
    /// Linear or switching.
    pub kind: RegulatorKind,
    /// Input voltage, in V, 0.5 to 100.
    pub input_v: f64,
    /// Output voltage, in V, 0.5 to 100.
    pub output_v: f64,
    /// Output current, in A, 0 to 200.
    pub load_a: f64,
    /// Air around it, in deg C, -40 to 85.
    pub ambient_c: f64,
    /// Rise per watt from air to its hottest part, in K/W, 0.1 to 1000, as the maker gives it for this mounting.
    pub thermal_resistance_k_per_w: f64,
    /// Its limit temperature, in deg C, 40 to 200.
    pub limit_c: f64,
}

/// A regulator's heat against its limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RegulatorReport {
    /// What went in.
    pub inputs: Regulator,
    /// Heat, in W.
    pub heat_w: f64,
    /// Steady temperature of its hottest part, in deg C.
    pub temperature_c: f64,
    /// Limit less temperature, in K; negative when too hot.
    pub margin_k: f64,
    /// The same in percent of the rise that the limit allows.
    pub margin_percent: f64,
    /// Room above the dropout voltage, in V; none for a switching regulator.
    pub dropout_margin_v: Option<f64>,
    /// Stop past the limit or below dropout, caution within [`REGULATOR_CAUTION_K`] of the limit.
    pub grade: Grade,
}

/// Steady heat and temperature of a regulator: `P = (U_in - U_out) I` for a linear one, `P = U_out I (1/efficiency - 1)` for a
/// switching one, `T = T_ambient + P x theta`.
///
/// # Errors
/// Figures out of range; a linear regulator asked to raise the voltage; a limit below the ambient temperature.
///
/// # Validity
/// Steady state, still air as the maker's thermal resistance assumes; the regulator's own idle current is not counted.
///
/// ```
/// use liftgate_core::engineering::supply::{regulator_report, Regulator, RegulatorKind};
/// let report = regulator_report(&Regulator {
///     kind: RegulatorKind::Linear { dropout_v: 0.3 },
///     input_v: 3.6, output_v: 1.8, load_a: 0.1, ambient_c: 40.0, thermal_resistance_k_per_w: 208.33, limit_c: 125.0,
/// })?;
/// assert!((report.temperature_c - 77.5).abs() < 0.01);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn regulator_report(regulator: &Regulator) -> Result<RegulatorReport> {
    let r = regulator;
    within("regulator input", r.input_v, "V", 0.5, 100.0)?;
    within("regulator output", r.output_v, "V", 0.5, 100.0)?;
    within("regulator load", r.load_a, "A", 0.0, 200.0)?;
    within("ambient temperature", r.ambient_c, "deg C", -40.0, 85.0)?;
    within("thermal resistance", r.thermal_resistance_k_per_w, "K/W", 0.1, 1000.0)?;
    within("limit temperature", r.limit_c, "deg C", 40.0, 200.0)?;
    if r.limit_c <= r.ambient_c {
        return Err(EngineeringError::from(Conflict::NoHeatAllowed { limit_c: r.limit_c, ambient_c: r.ambient_c }));
    }
    let (heat_w, dropout_margin_v) = regulator_heat(r)?;
    let rise_k = heat_w * r.thermal_resistance_k_per_w;
    let margin_k = r.limit_c - r.ambient_c - rise_k;
    let starved = dropout_margin_v.is_some_and(|v| v < -VOLTAGE_SLACK_V);
    let grade = if margin_k < 0.0 || starved {
        Grade::Stop
    } else if margin_k < REGULATOR_CAUTION_K {
        Grade::Caution
    } else {
        Grade::Ok
    };
    Ok(RegulatorReport {
        inputs: *r,
        heat_w,
        temperature_c: r.ambient_c + rise_k,
        margin_k,
        margin_percent: 100.0 * margin_k / (r.limit_c - r.ambient_c),
        dropout_margin_v,
        grade,
    })
}

fn regulator_heat(r: &Regulator) -> Result<(f64, Option<f64>)> {
    match r.kind {
        RegulatorKind::Linear { dropout_v } => {
            within("dropout voltage", dropout_v, "V", 0.0, 10.0)?;
            ordered(r.output_v, r.input_v, || Conflict::LinearCannotRaise {
                input_v: r.input_v,
                output_v: r.output_v,
            })?;
            let drop_v = r.input_v - r.output_v;
            Ok((drop_v * r.load_a, Some(drop_v - dropout_v)))
        }
        RegulatorKind::Switching { efficiency } => {
            within("regulator efficiency", efficiency, "", 0.3, 1.0)?;
            Ok((r.output_v * r.load_a * (1.0 / efficiency - 1.0), None))
        }
    }
}

/// A receiver pack and what is planned with it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ReceiverPack {
    /// Capacity, in mAh, 10 to 100000: measured goes before rated.
    pub capacity_mah: f64,
    /// Average current, in A, 0.001 to 200.
    pub average_a: f64,
    /// Planned time between charges, in min, 0.1 to 1440.
    pub planned_min: f64,
    /// Share of the capacity that may be used, 0.05 to 1; [`USABLE_FRACTION`] by common practice.
    pub usable_fraction: f64,
}

/// How long a receiver pack lasts against the plan.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct EnduranceReport {
    /// What went in.
    pub inputs: ReceiverPack,
    /// Charge that the plan uses, in mAh.
    pub used_mah: f64,
    /// The same as a share of the capacity, in percent.
    pub used_percent: f64,
    /// Charge that may be used, in mAh.
    pub usable_mah: f64,
    /// Time until only the reserve is left, in min.
    pub endurance_min: f64,
    /// `endurance_min` less the plan, in min; negative when the plan eats the reserve.
    pub margin_min: f64,
    /// Room in the usable charge, in percent of it.
    pub margin_percent: f64,
    /// Stop when the plan eats the reserve, caution above nine tenths of the usable charge (common practice, no source).
    pub grade: Grade,
}

/// Endurance of a receiver pack with its reserve kept.
///
/// # Errors
/// Figures that are not numbers or out of range.
///
/// # Validity
/// Capacity at the pack's present age and temperature; a cold or old pack holds less than its label says.
///
/// ```
/// use liftgate_core::engineering::supply::{receiver_endurance, ReceiverPack, USABLE_FRACTION};
/// let report = receiver_endurance(&ReceiverPack {
///     capacity_mah: 3000.0, average_a: 3.0, planned_min: 30.0, usable_fraction: USABLE_FRACTION,
/// })?;
/// assert!((report.endurance_min - 36.0).abs() < 1e-9);
/// assert!((report.used_percent - 50.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn receiver_endurance(pack: &ReceiverPack) -> Result<EnduranceReport> {
    within("capacity", pack.capacity_mah, "mAh", 10.0, 100_000.0)?;
    within("average current", pack.average_a, "A", 0.001, 200.0)?;
    within("planned time", pack.planned_min, "min", 0.1, 1440.0)?;
    within("usable share", pack.usable_fraction, "", 0.05, 1.0)?;
    let used_mah = pack.average_a * 1000.0 * pack.planned_min / 60.0;
    let usable_mah = pack.capacity_mah * pack.usable_fraction;
    let endurance_min = usable_mah / (pack.average_a * 1000.0) * 60.0;
    Ok(EnduranceReport {
        inputs: *pack,
        used_mah,
        used_percent: 100.0 * used_mah / pack.capacity_mah,
        usable_mah,
        endurance_min,
        margin_min: endurance_min - pack.planned_min,
        margin_percent: 100.0 * (usable_mah - used_mah) / usable_mah,
        grade: Grade::of_load(used_mah, usable_mah * (1.0 + 1e-12), 0.9),
    })
}
