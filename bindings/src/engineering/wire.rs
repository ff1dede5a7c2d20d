//! Wire gauge, drop and fuse.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::wire::{self, WireChoice, WireReport, WireRun};

use crate::Result;

#[uniffi::remote(Record)]
pub struct WireRun {
    pub gauge: i32,
    pub length_m: f64,
    pub current_a: f64,
    pub source_v: f64,
    pub conductor_c: f64,
    pub stranded_factor: f64,
}

#[uniffi::remote(Record)]
pub struct WireReport {
    pub inputs: WireRun,
    pub resistance_ohm: f64,
    pub drop_v: f64,
    pub allowed_drop_v: f64,
    pub margin_v: f64,
    pub margin_percent: f64,
    pub heat_w: f64,
    pub heat_w_per_m: f64,
    pub rated_a: Option<f64>,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct WireChoice {
    pub wire: WireReport,
    pub fuse_a: f64,
}

/// Diameter of a gauge, in mm: `0.127 x 92^((36 - n) / 39)`; gauge -3 (0000) to 40.
#[uniffi::export]
pub fn gauge_diameter_mm(gauge: i32) -> Result<f64> {
    Ok(wire::gauge_diameter_mm(gauge)?)
}

/// Resistance of a gauge in solid copper, in ohm per km, at a conductor temperature of -60 to 250 deg C.
#[uniffi::export]
pub fn resistance_ohm_per_km(gauge: i32, conductor_c: f64) -> Result<f64> {
    Ok(wire::resistance_ohm_per_km(gauge, conductor_c)?)
}

/// Voltage drop and heat of a run of wire.
#[uniffi::export]
pub fn wire_run(run: WireRun) -> Result<WireReport> {
    Ok(wire::wire_run(&run)?)
}

/// The thinnest wire and the fuse for a continuous load; `run.gauge` is not used.
#[uniffi::export]
pub fn choose_wire(run: WireRun) -> Result<WireChoice> {
    Ok(wire::choose_wire(&run)?)
}
