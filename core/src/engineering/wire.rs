//! Wire by gauge: resistance, voltage drop, heat, and the choice of wire and fuse.
//!
//! Sources: ASTM B258 for the gauge's diameter; IEC 60028 for copper's resistivity at 20 deg C and its temperature coefficient; FAA
//! AC 43.13-1B for the drop that is allowed continuously (0.5 V at 14 V, 1 V at 28 V) and for real stranded, tinned
//! aircraft wire, which may have up to 27.2 % more resistance than solid copper; NASA EEE-INST-002 for the current of a single wire
//! (from memory; its 25 A at gauge 12 was seen in a public discussion); ISO 8820 for the steps of blade fuses (from memory).

use serde::{Deserialize, Serialize};

use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::grade::Grade;
use super::require::within;

/// Resistivity of annealed copper at 20 deg C, in ohm mm2/m (IEC 60028).
pub const COPPER_OHM_MM2_M: f64 = 0.017_241;
/// Temperature coefficient of copper at 20 deg C, per K (IEC 60028).
pub const COPPER_PER_K: f64 = 0.003_93;
/// Most that stranding and tinning make of the resistance of solid copper, rounded up (FAA AC 43.13-1B, table 11-9 maxima: 1.272).
pub const STRANDED_FACTOR: f64 = 1.28;
/// Continuous drop allowed per volt of the source: 0.5 V at 14 V, 1 V at 28 V (FAA AC 43.13-1B).
pub const ALLOWED_DROP_FRACTION: f64 = 1.0 / 28.0;
/// Share of a fuse's rating that may flow continuously (common practice, no source).
pub const FUSE_CONTINUOUS_FRACTION: f64 = 0.75;

/// Gauge and the current that a single wire of it may carry, in A (NASA EEE-INST-002, from memory), thickest first.
const SINGLE_WIRE_A: [(i32, f64); 11] = [
    (6, 60.0),
    (8, 44.0),
    (10, 33.0),
    (12, 25.0),
    (14, 19.0),
    (16, 13.0),
    (18, 9.2),
    (20, 6.5),
    (22, 4.5),
    (24, 3.3),
    (26, 2.5),
];

/// Steps of blade fuses, in A (ISO 8820, from memory).
const FUSES_A: [f64; 16] = [1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0];

/// Diameter of a gauge, in mm: `0.127 x 92^((36 - n) / 39)`; gauge -3 (0000) to 40.
///
/// # Errors
/// A gauge out of range.
///
/// ```
/// let d_mm = liftgate_core::engineering::wire::gauge_diameter_mm(36)?;
/// assert!((d_mm - 0.127).abs() < 1e-12);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn gauge_diameter_mm(gauge: i32) -> Result<f64> {
    within("wire gauge", f64::from(gauge), "AWG", -3.0, 40.0)?;
    Ok(0.127 * 92f64.powf(f64::from(36 - gauge) / 39.0))
}

/// Resistance of a gauge in solid copper, in ohm per km, at a conductor temperature of -60 to 250 deg C.
///
/// # Errors
/// A gauge or a temperature out of range.
///
/// ```
/// let ohm = liftgate_core::engineering::wire::resistance_ohm_per_km(20, 20.0)?;
/// assert!((ohm / 33.3083 - 1.0).abs() < 1e-4);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn resistance_ohm_per_km(gauge: i32, conductor_c: f64) -> Result<f64> {
    let diameter_mm = gauge_diameter_mm(gauge)?;
    within("conductor temperature", conductor_c, "deg C", -60.0, 250.0)?;
    let area_mm2 = std::f64::consts::PI * diameter_mm * diameter_mm / 4.0;
    Ok(1000.0 * COPPER_OHM_MM2_M / area_mm2 * (1.0 + COPPER_PER_K * (conductor_c - 20.0)))
}

/// A run of wire, out and back.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WireRun {
    /// Gauge, -3 to 40.
    pub gauge: i32,
    /// Length one way, in m, 0.001 to 50; the current goes out and back.
    pub length_m: f64,
    /// Continuous current, in A, 0 to 1000.
    pub current_a: f64,
    /// Voltage of the source, in V, 1 to 100.
    pub source_v: f64,
    /// Temperature of the conductor, in deg C, -60 to 250.
    pub conductor_c: f64,
    /// Resistance over that of solid copper, 1 to 1.5; [`STRANDED_FACTOR`] is the careful choice.
    pub stranded_factor: f64,
}

/// Drop and heat of a run.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WireReport {
    /// What went in.
    pub inputs: WireRun,
    /// Resistance out and back, in ohm.
    pub resistance_ohm: f64,
    /// Drop out and back, in V.
    pub drop_v: f64,
    /// Drop allowed continuously, in V.
    pub allowed_drop_v: f64,
    /// Room in the drop, in V; negative when too much.
    pub margin_v: f64,
    /// The same in percent of what is allowed.
    pub margin_percent: f64,
    /// Heat in the whole run, in W.
    pub heat_w: f64,
    /// Heat per metre of wire, in W/m.
    pub heat_w_per_m: f64,
    /// Current that a single wire of this gauge may carry, in A: between two gauges of the table (26 to 6) the thinner one's, none beyond it.
    pub rated_a: Option<f64>,
    /// Stop above the allowed drop or the rated current, caution above 80 % of either, and where the rated current is not known.
    pub grade: Grade,
}

/// Voltage drop and heat of a run of wire.
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// Wires in a bundle carry less than the single-wire figure: about half in a bundle of eight (EEE-INST-002).
///
/// ```
/// use liftgate_core::engineering::wire::{wire_run, WireRun};
/// let report = wire_run(&WireRun { gauge: 22, length_m: 1.0, current_a: 2.0, source_v: 6.0, conductor_c: 20.0, stranded_factor: 1.0 })?;
/// assert!((report.drop_v - 2.0 * 2.0 * 0.0529622).abs() < 1e-4);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn wire_run(run: &WireRun) -> Result<WireReport> {
    within("wire length", run.length_m, "m", 0.001, 50.0)?;
    within("wire current", run.current_a, "A", 0.0, 1000.0)?;
    within("source voltage", run.source_v, "V", 1.0, 100.0)?;
    within("stranded factor", run.stranded_factor, "", 1.0, 1.5)?;
    let ohm_per_m = resistance_ohm_per_km(run.gauge, run.conductor_c)? / 1000.0 * run.stranded_factor;
    let resistance_ohm = 2.0 * run.length_m * ohm_per_m;
    let drop_v = resistance_ohm * run.current_a;
    let allowed_drop_v = run.source_v * ALLOWED_DROP_FRACTION;
    let rated_a = rated_a(run.gauge);
    let by_drop = Grade::of_load(drop_v, allowed_drop_v, 0.8);
    // What is not known is no pass.
    let by_current = rated_a.map_or(Grade::Caution, |a| Grade::of_load(run.current_a, a, 0.8));
    Ok(WireReport {
        inputs: *run,
        resistance_ohm,
        drop_v,
        allowed_drop_v,
        margin_v: allowed_drop_v - drop_v,
        margin_percent: 100.0 * (1.0 - drop_v / allowed_drop_v),
        heat_w: drop_v * run.current_a,
        heat_w_per_m: ohm_per_m * run.current_a * run.current_a,
        rated_a,
        grade: by_drop.max(by_current),
    })
}

/// What a single wire of a gauge may carry, in A: between those of the table as much as the next thinner one; outside of it nobody knows.
fn rated_a(gauge: i32) -> Option<f64> {
    let (thickest, _) = SINGLE_WIRE_A.first()?;
    let next_thinner = SINGLE_WIRE_A.iter().find(|(known, _)| *known >= gauge).filter(|_| gauge >= *thickest);
    next_thinner.map(|(_, rated_a)| *rated_a)
}

/// A wire and a fuse for a load.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WireChoice {
    /// The thinnest gauge of the table that holds both current and drop, and carries the fuse.
    pub wire: WireReport,
    /// The fuse that protects it, in A: the load is at most [`FUSE_CONTINUOUS_FRACTION`] of it, and it is at most what the wire carries.
    pub fuse_a: f64,
}

/// The thinnest wire and the fuse for a continuous load; `run.gauge` is not used.
///
/// # Errors
/// Figures out of range; a load for which no gauge from 26 to 6 will do.
///
/// # Validity
/// A fuse protects the wire, not the load; a motor's power leads are not fused in flight.
///
/// ```
/// use liftgate_core::engineering::wire::{choose_wire, WireRun, STRANDED_FACTOR};
/// let choice = choose_wire(&WireRun { gauge: 0, length_m: 0.5, current_a: 5.0, source_v: 8.4, conductor_c: 40.0, stranded_factor: STRANDED_FACTOR })?;
/// assert_eq!(choice.fuse_a, 7.5);
/// assert!(choice.wire.inputs.gauge <= 18);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn choose_wire(run: &WireRun) -> Result<WireChoice> {
    within("wire current", run.current_a, "A", 0.0, 1000.0)?;
    let fuse_a = FUSES_A.iter().copied().find(|f| run.current_a <= f * FUSE_CONTINUOUS_FRACTION);
    for (gauge, rated_a) in SINGLE_WIRE_A.iter().rev() {
        let wire = wire_run(&WireRun { gauge: *gauge, ..*run })?;
        if let Some(fuse_a) = fuse_a.filter(|f| f <= rated_a)
            && wire.margin_v >= 0.0
        {
            return Ok(WireChoice { wire, fuse_a });
        }
    }
    Err(EngineeringError::from(Conflict::NoWire {
        current_a: run.current_a,
        length_m: run.length_m,
        source_v: run.source_v,
    }))
}
