//! Flight packs: charge used and reserve, flight time, internal resistance and its trend, imbalance, ripple, cold, retirement.
//!
//! Sources: IEC 61960 for resistance from two loads, `R = (U1 - U2) / (I2 - I1)`. All limits of this module are common practice
//! without a source unless said otherwise; what the maker of a pack states goes before them.

use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, StudentsT};

use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::grade::Grade;
use super::require::{count, within};

/// Share of the capacity to land with, in percent (common practice, no source).
pub const RESERVE_PERCENT: f64 = 20.0;
/// Lowest rest voltage of a cell after landing, in V (common practice, no source).
pub const REST_LOW_V: f64 = 3.7;
/// Widest spread between the cells of a pack, in V (common practice, no source).
pub const SPREAD_LIMIT_V: f64 = 0.05;
/// Ripple limit, peak to peak, in V a cell: about 0.2, 2.5 V at twelve cells (common practice, no source).
pub const RIPPLE_LIMIT_V_PER_CELL: f64 = 2.5 / 12.0;
/// Coldest pack to fly with, in deg C (common practice, no source).
pub const COLD_LIMIT_C: f64 = 10.0;
/// Resistance over that of the new pack at which it is retired (common practice, no source).
pub const RETIRE_RESISTANCE_RATIO: f64 = 2.0;
/// Capacity over that of the new pack at which it is retired (common practice, no source).
pub const RETIRE_CAPACITY_RATIO: f64 = 0.8;

/// A full lithium cell where its maker says nothing else, in V (common practice, no source).
pub const FULL_CELL_V: f64 = 4.20;
/// A cell this far under full is full all the same, in V: what a charger ends within and a meter reads (common practice, no source).
pub const FULL_WITHIN_V: f64 = 0.05;
/// A cell this far over full was charged too far, in V (common practice, no source).
pub const OVER_FULL_V: f64 = 0.03;
/// Lowest voltage of a cell under load, in V (common practice, no source).
pub const LOADED_LOW_V: f64 = 3.3;
/// Between what a cell is usually left that is brought to storage, in V (common practice, no source).
pub const STORAGE_CELL_RANGE_V: (f64, f64) = (3.75, 3.85);
/// At what a cell rests that was brought to storage, in V: the middle of [`STORAGE_CELL_RANGE_V`].
pub const STORAGE_CELL_V: f64 = 3.80;
/// Capacity lost a cycle, as a share of that of the new pack: a fifth in 200 (common practice, no source; from memory).
pub const WEAR_A_CYCLE: f64 = 0.001;

/// Rest voltage of a lithium cell that is full at 4.20 V, and the charge that is left in it at least, in percent (from memory, no
/// source; at the low side of what is told, since cells differ and a voltmeter does).
const REST_CHARGE: [(f64, f64); 10] = [
    (3.30, 0.0),
    (3.60, 5.0),
    (3.70, 10.0),
    (3.75, 20.0),
    (3.80, 35.0),
    (3.85, 48.0),
    (3.90, 58.0),
    (4.00, 72.0),
    (4.10, 86.0),
    (4.20, 100.0),
];

/// A pack after a flight.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PackLanding {
    /// Capacity at its present age, in mAh, 10 to 200000.
    pub capacity_mah: f64,
    /// Charge put back or counted, in mAh, 0 to 300000.
    pub used_mah: f64,
    /// Time flown, in min, 0.05 to 240.
    pub flown_min: f64,
    /// Rest voltage of every cell after landing, in V, 0 to 5; empty if not measured, up to 30.
    pub cells_v: Vec<f64>,
    /// Charge to land with, in percent of the capacity, 0 to 90: the pilot's own figure, or [`RESERVE_PERCENT`].
    pub reserve_percent: f64,
}

/// What a landing says about the pack.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PackLandingReport {
    /// What went in.
    pub inputs: PackLanding,
    /// Charge left, in percent of the capacity; negative when more than the capacity was used.
    pub left_percent: f64,
    /// Left less the reserve, in percent of the capacity.
    pub reserve_margin_percent: f64,
    /// Average current, in A.
    pub average_a: f64,
    /// Flight time that keeps the reserve at the same average, in min.
    pub time_to_reserve_min: f64,
    /// Lowest cell, in V, with its number from 1.
    pub lowest: Option<(usize, f64)>,
    /// Highest less lowest cell, in V.
    pub spread_v: Option<f64>,
    /// Stop: nothing left, a cell under 3.3 V or a spread over twice the limit. Caution: reserve, rest voltage or spread limit missed.
    pub grade: Grade,
}

/// Charge, reserve and imbalance after a flight.
///
/// # Errors
/// Figures out of range.
///
/// ```
/// use liftgate_core::engineering::pack::{landing, PackLanding, RESERVE_PERCENT};
/// let report = landing(&PackLanding { capacity_mah: 5000.0, used_mah: 3500.0, flown_min: 6.0, cells_v: vec![3.82, 3.80, 3.81],
///     reserve_percent: RESERVE_PERCENT })?;
/// assert!((report.left_percent - 30.0).abs() < 1e-9 && (report.average_a - 35.0).abs() < 1e-9);
/// assert!((report.time_to_reserve_min - 6.0 * 4000.0 / 3500.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn landing(pack: &PackLanding) -> Result<PackLandingReport> {
    within("capacity", pack.capacity_mah, "mAh", 10.0, 200_000.0)?;
    within("charge used", pack.used_mah, "mAh", 0.0, 300_000.0)?;
    within("time flown", pack.flown_min, "min", 0.05, 240.0)?;
    within("reserve", pack.reserve_percent, "%", 0.0, 90.0)?;
    count("cells", pack.cells_v.len(), 0, 30)?;
    for cell_v in &pack.cells_v {
        within("cell voltage", *cell_v, "V", 0.0, 5.0)?;
    }
    if pack.used_mah > 1.5 * pack.capacity_mah {
        return Err(EngineeringError::from(Conflict::MoreUsedThanHeld {
            used_mah: pack.used_mah,
            capacity_mah: pack.capacity_mah,
        }));
    }
    let left_percent = 100.0 * (1.0 - pack.used_mah / pack.capacity_mah);
    let lowest = extreme(&pack.cells_v, |a, b| a < b);
    let highest = extreme(&pack.cells_v, |a, b| a > b);
    let spread_v = lowest.zip(highest).map(|(l, h)| h.1 - l.1);
    let usable_mah = pack.capacity_mah * (1.0 - pack.reserve_percent / 100.0);
    Ok(PackLandingReport {
        inputs: pack.clone(),
        left_percent,
        reserve_margin_percent: left_percent - pack.reserve_percent,
        average_a: pack.used_mah / 1000.0 / (pack.flown_min / 60.0),
        // A flight that used nothing has no measured end: a day stands for it.
        time_to_reserve_min: (pack.flown_min * usable_mah / pack.used_mah.max(1e-6)).min(1440.0),
        grade: landing_grade(left_percent, pack.reserve_percent, lowest.map(|l| l.1), spread_v),
        lowest,
        spread_v,
    })
}

fn extreme(cells_v: &[f64], better: fn(f64, f64) -> bool) -> Option<(usize, f64)> {
    let mut found: Option<(usize, f64)> = None;
    for (i, cell_v) in cells_v.iter().enumerate() {
        if found.is_none_or(|(_, v)| better(*cell_v, v)) {
            found = Some((i + 1, *cell_v));
        }
    }
    found
}

fn landing_grade(left_percent: f64, reserve_percent: f64, lowest_v: Option<f64>, spread_v: Option<f64>) -> Grade {
    let low_v = lowest_v.unwrap_or(f64::INFINITY);
    let spread_v = spread_v.unwrap_or(0.0);
    if left_percent <= 0.0 || low_v < 3.3 || spread_v > 2.0 * SPREAD_LIMIT_V + 1e-9 {
        Grade::Stop
    } else if left_percent < reserve_percent - 1e-9 || low_v < REST_LOW_V || spread_v > SPREAD_LIMIT_V + 1e-9 {
        Grade::Caution
    } else {
        Grade::Ok
    }
}

/// Flight time at a power, in min, with a reserve: `capacity x nominal voltage x usable share / power`.
///
/// `capacity_mah` 10 to 200000, `nominal_v` 1 to 100, `reserve_percent` 0 to 90, `power_w` 1 to 100000.
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// Nominal voltage stands for the average under load: at high currents sag takes some percent more.
///
/// ```
/// let min = liftgate_core::engineering::pack::flight_time(5000.0, 44.4, 20.0, 1776.0)?;
/// assert!((min - 6.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn flight_time(capacity_mah: f64, nominal_v: f64, reserve_percent: f64, power_w: f64) -> Result<f64> {
    within("capacity", capacity_mah, "mAh", 10.0, 200_000.0)?;
    within("nominal voltage", nominal_v, "V", 1.0, 100.0)?;
    within("reserve", reserve_percent, "%", 0.0, 90.0)?;
    within("power", power_w, "W", 1.0, 100_000.0)?;
    let usable_wh = capacity_mah / 1000.0 * nominal_v * (1.0 - reserve_percent / 100.0);
    Ok(usable_wh / power_w * 60.0)
}

/// Charge that is left at least in a cell at rest, in percent, by its voltage (0 to 5 V) and by what it has when full (3.5 to 4.5 V).
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// From memory, no source, and of a lithium polymer cell that has rested: under load or just after it a cell reads low. A cell that is
/// full at another voltage is taken to fall alike between that and 3.3 V, which reads low for those that are full at more.
///
/// ```
/// use liftgate_core::engineering::pack::rest_charge;
/// assert!((rest_charge(3.80, 4.20)? - 35.0).abs() < 1e-9 && (rest_charge(4.20, 4.20)? - 100.0).abs() < 1e-9);
/// assert!(rest_charge(4.20, 4.35)? < 90.0);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn rest_charge(cell_v: f64, full_v: f64) -> Result<f64> {
    within("cell voltage", cell_v, "V", 0.0, 5.0)?;
    within("voltage of a full cell", full_v, "V", 3.5, 4.5)?;
    let (empty_v, usual_v) = (REST_CHARGE[0].0, FULL_CELL_V);
    let alike_v = empty_v + (cell_v - empty_v) * (usual_v - empty_v) / (full_v - empty_v);
    Ok(between(alike_v, REST_CHARGE))
}

/// Charge to keep so that no cell falls under [`LOADED_LOW_V`] at a current (0 to 1000 A), in percent, by the resistance of one cell
/// (0 to 1 ohm) and what it has when full (3.5 to 4.5 V).
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// As [`rest_charge`]; a resistance rises in the cold and towards the end.
///
/// ```
/// use liftgate_core::engineering::pack::charge_to_keep;
/// // 100 A through 4 mOhm take 0.4 V: at rest it must have 3.7 V.
/// assert!((charge_to_keep(100.0, 0.004, 4.20)? - 10.0).abs() < 1e-9);
/// assert!(charge_to_keep(0.0, 0.004, 4.20)?.abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn charge_to_keep(current_a: f64, cell_ohm: f64, full_v: f64) -> Result<f64> {
    within("current", current_a, "A", 0.0, 1000.0)?;
    within("cell resistance", cell_ohm, "ohm", 0.0, 1.0)?;
    rest_charge((LOADED_LOW_V + current_a * cell_ohm).min(5.0), full_v)
}

/// On the line through points that rise; at its ends beyond them.
fn between<const N: usize>(x: f64, line: [(f64, f64); N]) -> f64 {
    let first = line.first().map_or(0.0, |(_, y)| *y);
    let mut y = first;
    for pair in line.windows(2) {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        if x >= x0 {
            y = y0 + (y1 - y0) * ((x - x0) / (x1 - x0)).min(1.0);
        }
    }
    y
}

/// Share of its new capacity that a pack has left by its cycles (0 to 5000) alone: where it was measured, from that on.
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// Common practice, no source: [`WEAR_A_CYCLE`], and never less than [`RETIRE_CAPACITY_RATIO`], where it is retired by a measurement.
///
/// ```
/// let share = liftgate_core::engineering::pack::worn(50.0)?;
/// assert!((share - 0.95).abs() < 1e-12);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn worn(cycles: f64) -> Result<f64> {
    within("cycles", cycles, "", 0.0, 5000.0)?;
    Ok((1.0 - WEAR_A_CYCLE * cycles).max(RETIRE_CAPACITY_RATIO))
}

/// Voltage at two loads.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct TwoLoads {
    /// Lower current, in A, 0 to 1000.
    pub low_a: f64,
    /// Voltage at the lower current, in V, 0.5 to 100.
    pub low_load_v: f64,
    /// Higher current, in A, above `low_a`.
    pub high_a: f64,
    /// Voltage at the higher current, in V, below `low_load_v`.
    pub high_load_v: f64,
    /// Cells in series, 1 to 30.
    pub cells: u32,
    /// The voltmeter is right within plus or minus this, in V, 0 to 1.
    pub voltmeter_half_width_v: f64,
}

/// Internal resistance from two loads.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ResistanceReport {
    /// What went in.
    pub inputs: TwoLoads,
    /// Resistance of the pack, in ohm.
    pub pack_ohm: f64,
    /// The same per cell, in ohm.
    pub cell_ohm: f64,
    /// Half width of the 95 % interval of `pack_ohm` from the voltmeter alone, in ohm.
    pub half_width_ohm: f64,
}

/// Internal resistance from two loads (IEC 61960: 0.2 C for 10 s, then 1 C for 1 s).
///
/// # Errors
/// Figures out of range; currents or voltages in the wrong order.
///
/// # Validity
/// Short steps: the open-circuit voltage's own fall over a step of 30 s at 10 C reads 21 % high.
///
/// ```
/// use liftgate_core::engineering::pack::{internal_resistance, TwoLoads};
/// let report = internal_resistance(&TwoLoads { low_a: 1.0, low_load_v: 22.92, high_a: 5.0, high_load_v: 22.68, cells: 6, voltmeter_half_width_v: 0.01 })?;
/// assert!((report.pack_ohm - 0.06).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn internal_resistance(loads: &TwoLoads) -> Result<ResistanceReport> {
    within("lower current", loads.low_a, "A", 0.0, 1000.0)?;
    within("higher current", loads.high_a, "A", 0.001, 2000.0)?;
    within("voltage at the lower current", loads.low_load_v, "V", 0.5, 100.0)?;
    within("voltage at the higher current", loads.high_load_v, "V", 0.1, 100.0)?;
    within("cells", f64::from(loads.cells), "", 1.0, 30.0)?;
    within("voltmeter accuracy", loads.voltmeter_half_width_v, "V", 0.0, 1.0)?;
    let step_a = loads.high_a - loads.low_a;
    if step_a < 0.01 || loads.high_load_v > loads.low_load_v {
        return Err(EngineeringError::from(Conflict::VoltageDoesNotFall {
            low_load_v: loads.low_load_v,
            low_a: loads.low_a,
            high_load_v: loads.high_load_v,
            high_a: loads.high_a,
        }));
    }
    let pack_ohm = (loads.low_load_v - loads.high_load_v) / step_a;
    Ok(ResistanceReport {
        inputs: *loads,
        pack_ohm,
        cell_ohm: pack_ohm / f64::from(loads.cells),
        // Two independent readings, each u = a / sqrt 3; two standard uncertainties.
        half_width_ohm: 2.0 * loads.voltmeter_half_width_v / 3f64.sqrt() * 2f64.sqrt() / step_a,
    })
}

/// A resistance reading in a pack's life.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ResistanceReading {
    /// Cycles flown so far, 0 to 5000.
    pub cycles: f64,
    /// Resistance, in ohm, 0.0001 to 5; always at about the same pack temperature.
    pub pack_ohm: f64,
}

/// The straight line through a pack's resistance readings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ResistanceTrend {
    /// What went in.
    pub readings: Vec<ResistanceReading>,
    /// Resistance of the fitted line at no cycles, in ohm.
    pub new_ohm: f64,
    /// Growth a cycle, in ohm.
    pub ohm_per_cycle: f64,
    /// Half width of the 95 % interval of the growth, in ohm a cycle.
    pub half_width_ohm_per_cycle: f64,
    /// Latest reading over the lowest of the first three: what [`RETIRE_RESISTANCE_RATIO`] is held against.
    pub ratio: f64,
    /// Cycle at which the line reaches twice the new resistance; none unless the growth is surely above zero.
    pub doubled_at_cycles: Option<f64>,
    /// Stop at a doubled resistance, caution from one and a half.
    pub grade: Grade,
}

/// Trend of the internal resistance over three to 2000 readings.
///
/// # Errors
/// Figures out of range, too few readings, all at one cycle count.
///
/// # Validity
/// Resistance rises in the cold: readings at other temperatures do not belong into one line. Wear is not a straight line near the end.
///
/// ```
/// use liftgate_core::engineering::pack::{resistance_trend, ResistanceReading};
/// let readings: Vec<_> = (0..6).map(|i| ResistanceReading { cycles: 10.0 * f64::from(i), pack_ohm: 0.020 + 0.001 * f64::from(i) }).collect();
/// let trend = resistance_trend(&readings)?;
/// assert!((trend.ohm_per_cycle - 1e-4).abs() < 1e-12);
/// assert!((trend.doubled_at_cycles.unwrap_or(0.0) - 200.0).abs() < 1e-6);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn resistance_trend(readings: &[ResistanceReading]) -> Result<ResistanceTrend> {
    count("resistance readings", readings.len(), 3, 2000)?;
    for r in readings {
        within("cycles", r.cycles, "", 0.0, 5000.0)?;
        within("pack resistance", r.pack_ohm, "ohm", 1e-4, 5.0)?;
    }
    let n = readings.len() as f64;
    let mean_cycles = readings.iter().map(|r| r.cycles).sum::<f64>() / n;
    let mean_ohm = readings.iter().map(|r| r.pack_ohm).sum::<f64>() / n;
    let sxx: f64 = readings.iter().map(|r| (r.cycles - mean_cycles).powi(2)).sum();
    if sxx < 1e-6 {
        return Err(EngineeringError::from(Conflict::OneCycleCount));
    }
    let sxy: f64 = readings.iter().map(|r| (r.cycles - mean_cycles) * (r.pack_ohm - mean_ohm)).sum();
    let slope = sxy / sxx;
    let new_ohm = mean_ohm - slope * mean_cycles;
    let residual: f64 = readings.iter().map(|r| (r.pack_ohm - new_ohm - slope * r.cycles).powi(2)).sum();
    let half_width = student_95(n - 2.0) * (residual / (n - 2.0) / sxx).sqrt();
    let ratio = latest_over_first(readings);
    let surely_grows = slope - half_width > 0.0 && new_ohm > 0.0;
    Ok(ResistanceTrend {
        readings: readings.to_vec(),
        new_ohm,
        ohm_per_cycle: slope,
        half_width_ohm_per_cycle: half_width,
        ratio,
        doubled_at_cycles: surely_grows.then(|| new_ohm * (RETIRE_RESISTANCE_RATIO - 1.0) / slope),
        grade: if ratio >= RETIRE_RESISTANCE_RATIO {
            Grade::Stop
        } else if ratio >= 1.5 {
            Grade::Caution
        } else {
            Grade::Ok
        },
    })
}

fn latest_over_first(readings: &[ResistanceReading]) -> f64 {
    let mut by_cycles = readings.to_vec();
    by_cycles.sort_by(|a, b| a.cycles.total_cmp(&b.cycles));
    let first_ohm = by_cycles.iter().take(3).map(|r| r.pack_ohm).fold(f64::INFINITY, f64::min);
    by_cycles.last().map_or(1.0, |r| r.pack_ohm / first_ohm)
}

/// Two-sided 95 % quantile of Student's t.
pub(crate) fn student_95(freedom: f64) -> f64 {
    StudentsT::new(0.0, 1.0, freedom.max(1.0)).map_or(f64::INFINITY, |t| t.inverse_cdf(0.975))
}

/// Ripple on a pack against its limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RippleReport {
    /// Cells in series.
    pub cells: u32,
    /// Measured ripple, peak to peak, in V.
    pub ripple_v: f64,
    /// Limit for that many cells, in V.
    pub limit_v: f64,
    /// Room, in V; negative past the limit.
    pub margin_v: f64,
    /// The same in percent of the limit.
    pub margin_percent: f64,
    /// Stop past the limit, caution above 80 % of it.
    pub grade: Grade,
}

/// Ripple (peak to peak, 0 to 50 V) against the limit by cell count (1 to 30).
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// Common practice, no source. A logger that samples slower than the ripple reads too little.
///
/// ```
/// let report = liftgate_core::engineering::pack::ripple(12, 2.0)?;
/// assert!((report.limit_v - 2.5).abs() < 1e-9 && (report.margin_percent - 20.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn ripple(cells: u32, ripple_v: f64) -> Result<RippleReport> {
    within("cells", f64::from(cells), "", 1.0, 30.0)?;
    within("ripple", ripple_v, "V", 0.0, 50.0)?;
    let limit_v = RIPPLE_LIMIT_V_PER_CELL * f64::from(cells);
    Ok(RippleReport {
        cells,
        ripple_v,
        limit_v,
        margin_v: limit_v - ripple_v,
        margin_percent: 100.0 * (1.0 - ripple_v / limit_v),
        grade: Grade::of_load(ripple_v, limit_v, 0.8),
    })
}

/// The shape of a ripple current.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RippleShape {
    /// A sine wave.
    Sine,
    /// A triangle, as a switching controller makes.
    Triangle,
}

/// Effective ripple current from its peak-to-peak value, in A: peak to peak over `2 sqrt 2` (sine) or `2 sqrt 3` (triangle).
/// `peak_to_peak_a` 0 to 5000.
///
/// # Errors
/// A figure out of range.
///
/// ```
/// use liftgate_core::engineering::pack::{ripple_rms, RippleShape};
/// assert!((ripple_rms(10.0, RippleShape::Triangle)? - 2.88675).abs() < 1e-5);
/// // 10 A sine amplitude on 40 A: a ripple factor of .17678.
/// assert!((ripple_rms(20.0, RippleShape::Sine)? / 40.0 - 0.17678).abs() < 1e-5);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn ripple_rms(peak_to_peak_a: f64, shape: RippleShape) -> Result<f64> {
    within("ripple current, peak to peak", peak_to_peak_a, "A", 0.0, 5000.0)?;
    Ok(match shape {
        RippleShape::Sine => peak_to_peak_a / (2.0 * 2f64.sqrt()),
        RippleShape::Triangle => peak_to_peak_a / (2.0 * 3f64.sqrt()),
    })
}

/// What cold takes from a pack.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ColdReport {
    /// Temperature of the pack before the flight, in deg C.
    pub pack_c: f64,
    /// Share of the capacity to plan with, 0.7 to 1.
    pub capacity_factor: f64,
    /// Room above [`COLD_LIMIT_C`], in K.
    pub margin_k: f64,
    /// Stop below the limit, caution within 5 K of it.
    pub grade: Grade,
}

/// Derating of a cold pack, -40 to 80 deg C: full from 20 deg C, one percent less for each degree below, 70 % at the least.
///
/// # Errors
/// A temperature out of range.
///
/// # Validity
/// Common practice, no source; packs differ. Warm the pack rather than trust the figure.
///
/// ```
/// let report = liftgate_core::engineering::pack::cold(12.0)?;
/// assert!((report.capacity_factor - 0.92).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn cold(pack_c: f64) -> Result<ColdReport> {
    within("pack temperature", pack_c, "deg C", -40.0, 80.0)?;
    let margin_k = pack_c - COLD_LIMIT_C;
    Ok(ColdReport {
        pack_c,
        capacity_factor: (1.0 - 0.01 * (20.0 - pack_c)).clamp(0.7, 1.0),
        margin_k,
        grade: if margin_k < 0.0 {
            Grade::Stop
        } else if margin_k < 5.0 {
            Grade::Caution
        } else {
            Grade::Ok
        },
    })
}

/// What is known about a pack's health.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PackHealth {
    /// Resistance over that of the new pack, 0.1 to 20, if known.
    pub resistance_ratio: Option<f64>,
    /// Measured capacity over that of the new pack, 0 to 1.5, if known.
    pub capacity_ratio: Option<f64>,
    /// Spread of the cells after a full charge, in V, 0 to 5, if known.
    pub charged_spread_v: Option<f64>,
    /// Hottest cell less the pack's mean after a flight, in K, -50 to 200, if known.
    pub hot_cell_k: Option<f64>,
    /// Swollen, dented or punctured.
    pub damaged: bool,
}

/// Why a pack should be retired.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum RetireReason {
    /// Swollen, dented or punctured: outside, away from anything that burns.
    Damaged,
    /// Resistance at or past the limit.
    Resistance {
        /// Over that of the new pack.
        ratio: f64,
        /// The limit.
        limit: f64,
    },
    /// Capacity at or under the limit.
    Capacity {
        /// Over that of the new pack.
        ratio: f64,
        /// The limit.
        limit: f64,
    },
    /// Cells drift apart even after a full charge.
    Spread {
        /// Spread, in V.
        spread_v: f64,
        /// The limit, in V.
        limit_v: f64,
    },
    /// One cell runs hotter than the rest.
    HotCell {
        /// Above the mean, in K.
        above_k: f64,
        /// The limit, in K.
        limit_k: f64,
    },
}

/// Whether a pack should be retired, and why.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RetireReport {
    /// What went in.
    pub inputs: PackHealth,
    /// Every reason to retire it; empty if there is none.
    pub reasons: Vec<RetireReason>,
    /// Stop with any reason.
    pub grade: Grade,
}

/// Reasons to retire a pack: damage, doubled resistance, capacity under 80 %, cells that drift apart, a hot cell (10 K).
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// Common practice, no source. Absence of a reason is no promise.
///
/// ```
/// use liftgate_core::engineering::pack::{retire, PackHealth, RetireReason};
/// let report = retire(&PackHealth { resistance_ratio: Some(2.1), capacity_ratio: None, charged_spread_v: None, hot_cell_k: None, damaged: false })?;
/// assert!(matches!(report.reasons[0], RetireReason::Resistance { .. }));
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn retire(health: &PackHealth) -> Result<RetireReport> {
    let mut reasons = Vec::new();
    if health.damaged {
        reasons.push(RetireReason::Damaged);
    }
    if let Some(ratio) = health.resistance_ratio {
        within("resistance ratio", ratio, "", 0.1, 20.0)?;
        if ratio >= RETIRE_RESISTANCE_RATIO {
            reasons.push(RetireReason::Resistance { ratio, limit: RETIRE_RESISTANCE_RATIO });
        }
    }
    if let Some(ratio) = health.capacity_ratio {
        within("capacity ratio", ratio, "", 0.0, 1.5)?;
        if ratio <= RETIRE_CAPACITY_RATIO {
            reasons.push(RetireReason::Capacity { ratio, limit: RETIRE_CAPACITY_RATIO });
        }
    }
    if let Some(spread_v) = health.charged_spread_v {
        within("spread of the cells", spread_v, "V", 0.0, 5.0)?;
        if spread_v > SPREAD_LIMIT_V + 1e-9 {
            reasons.push(RetireReason::Spread { spread_v, limit_v: SPREAD_LIMIT_V });
        }
    }
    if let Some(above_k) = health.hot_cell_k {
        within("hottest cell above the mean", above_k, "K", -50.0, 200.0)?;
        if above_k > 10.0 {
            reasons.push(RetireReason::HotCell { above_k, limit_k: 10.0 });
        }
    }
    Ok(RetireReport { inputs: *health, grade: if reasons.is_empty() { Grade::Ok } else { Grade::Stop }, reasons })
}
