//! Wire gauge, drop and fuse.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::wire::{self, WireChoice, WireReport, WireRun, WireWarmth};

use crate::Result;

#[uniffi::remote(Record)]
pub struct WireRun {
    pub area_mm2: f64,
    pub length_m: f64,
    pub current_a: f64,
    pub source_v: f64,
    pub air_c: f64,
    pub insulation_c: Option<f64>,
    pub outside_mm: Option<f64>,
    pub stranded_factor: f64,
}

#[uniffi::remote(Enum)]
pub enum WireWarmth {
    NotKnown,
    Settles { conductor_c: f64 },
    Burns { above_c: f64 },
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
    pub warmth: WireWarmth,
    pub limit_c: f64,
    pub rated_a: Option<f64>,
    pub drop_grade: Grade,
    pub warmth_grade: Grade,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct WireChoice {
    pub gauge: i32,
    pub wire: WireReport,
    pub fuse_a: Option<f64>,
}

/// Diameter of a gauge, in mm: `0.127 x 92^((36 - n) / 39)`; gauge -3 (0000) to 40.
#[uniffi::export]
pub fn gauge_diameter_mm(gauge: i32) -> Result<f64> {
    Ok(wire::gauge_diameter_mm(gauge)?)
}

/// Cross-section of a gauge, in mm2; gauge -3 (0000) to 40.
#[uniffi::export]
pub fn gauge_area_mm2(gauge: i32) -> Result<f64> {
    Ok(wire::gauge_area_mm2(gauge)?)
}

/// Resistance of a gauge in solid copper, in ohm per km, at a conductor temperature of -60 to 250 deg C.
#[uniffi::export]
pub fn resistance_ohm_per_km(gauge: i32, conductor_c: f64) -> Result<f64> {
    Ok(wire::resistance_ohm_per_km(gauge, conductor_c)?)
}

/// Voltage drop, heat and temperature of a run of wire.
#[uniffi::export]
pub fn wire_run(run: WireRun) -> Result<WireReport> {
    Ok(wire::wire_run(&run)?)
}

/// The thinnest wire and the fuse for a continuous load; `run.area_mm2` and `run.outside_mm` are not used.
#[uniffi::export]
pub fn choose_wire(run: WireRun) -> Result<WireChoice> {
    Ok(wire::choose_wire(&run)?)
}
