//! Flight packs.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::pack::{
    self, ColdReport, PackHealth, PackLanding, ResistanceReading, ResistanceReport, ResistanceTrend, RetireReason,
    RetireReport, RippleReport, RippleShape, TwoLoads,
};

use crate::Result;

/// The cell that is lowest: its number from 1, and its voltage.
#[derive(Debug, Clone, Copy, uniffi::Record)]
pub struct LowestCell {
    pub number: u32,
    pub cell_v: f64,
}

#[uniffi::remote(Record)]
pub struct PackLanding {
    pub capacity_mah: f64,
    pub used_mah: f64,
    pub flown_min: f64,
    pub cells_v: Vec<f64>,
    pub reserve_percent: f64,
}

/// Charge, reserve and imbalance after a flight.
#[derive(Debug, Clone, uniffi::Record)]
pub struct PackLandingReport {
    pub inputs: PackLanding,
    pub left_percent: f64,
    pub reserve_margin_percent: f64,
    pub average_a: f64,
    pub time_to_reserve_min: f64,
    pub lowest: Option<LowestCell>,
    pub spread_v: Option<f64>,
    pub grade: Grade,
}

impl From<pack::PackLandingReport> for PackLandingReport {
    fn from(of: pack::PackLandingReport) -> Self {
        PackLandingReport {
            inputs: of.inputs,
            left_percent: of.left_percent,
            reserve_margin_percent: of.reserve_margin_percent,
            average_a: of.average_a,
            time_to_reserve_min: of.time_to_reserve_min,
            lowest: of.lowest.map(|(number, cell_v)| LowestCell { number: super::index(number), cell_v }),
            spread_v: of.spread_v,
            grade: of.grade,
        }
    }
}

#[uniffi::remote(Record)]
pub struct TwoLoads {
    pub low_a: f64,
    pub low_load_v: f64,
    pub high_a: f64,
    pub high_load_v: f64,
    pub cells: u32,
    pub voltmeter_half_width_v: f64,
}

#[uniffi::remote(Record)]
pub struct ResistanceReport {
    pub inputs: TwoLoads,
    pub pack_ohm: f64,
    pub cell_ohm: f64,
    pub half_width_ohm: f64,
}

#[uniffi::remote(Record)]
pub struct ResistanceReading {
    pub cycles: f64,
    pub pack_ohm: f64,
}

#[uniffi::remote(Record)]
pub struct ResistanceTrend {
    pub readings: Vec<ResistanceReading>,
    pub new_ohm: f64,
    pub ohm_per_cycle: f64,
    pub half_width_ohm_per_cycle: f64,
    pub ratio: f64,
    pub doubled_at_cycles: Option<f64>,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct RippleReport {
    pub cells: u32,
    pub ripple_v: f64,
    pub limit_v: f64,
    pub margin_v: f64,
    pub margin_percent: f64,
    pub grade: Grade,
}

#[uniffi::remote(Enum)]
pub enum RippleShape {
    Sine,
    Triangle,
}

#[uniffi::remote(Record)]
pub struct ColdReport {
    pub pack_c: f64,
    pub capacity_factor: f64,
    pub margin_k: f64,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct PackHealth {
    pub resistance_ratio: Option<f64>,
    pub capacity_ratio: Option<f64>,
    pub charged_spread_v: Option<f64>,
    pub hot_cell_k: Option<f64>,
    pub damaged: bool,
}

#[uniffi::remote(Enum)]
pub enum RetireReason {
    Damaged,
    Resistance { ratio: f64, limit: f64 },
    Capacity { ratio: f64, limit: f64 },
    Spread { spread_v: f64, limit_v: f64 },
    HotCell { above_k: f64, limit_k: f64 },
}

#[uniffi::remote(Record)]
pub struct RetireReport {
    pub inputs: PackHealth,
    pub reasons: Vec<RetireReason>,
    pub grade: Grade,
}

/// Charge, reserve and imbalance after a flight.
#[uniffi::export]
pub fn pack_after_landing(pack: PackLanding) -> Result<PackLandingReport> {
    Ok(pack::landing(&pack)?.into())
}

/// Flight time at a power, in min, with a reserve: `capacity x nominal voltage x usable share / power`.
#[uniffi::export]
pub fn flight_time(capacity_mah: f64, nominal_v: f64, reserve_percent: f64, power_w: f64) -> Result<f64> {
    Ok(pack::flight_time(capacity_mah, nominal_v, reserve_percent, power_w)?)
}

/// Internal resistance from two loads (IEC 61960: 0.2 C for 10 s, then 1 C for 1 s).
#[uniffi::export]
pub fn internal_resistance(loads: TwoLoads) -> Result<ResistanceReport> {
    Ok(pack::internal_resistance(&loads)?)
}

/// Trend of the internal resistance over three to 2000 readings.
#[uniffi::export]
pub fn resistance_trend(readings: Vec<ResistanceReading>) -> Result<ResistanceTrend> {
    Ok(pack::resistance_trend(&readings)?)
}

/// Ripple (peak to peak, 0 to 50 V) against the limit by cell count (1 to 30).
#[uniffi::export]
pub fn pack_ripple(cells: u32, ripple_v: f64) -> Result<RippleReport> {
    Ok(pack::ripple(cells, ripple_v)?)
}

/// Effective ripple current from its peak-to-peak value, in A: peak to peak over `2 sqrt 2` (sine) or `2 sqrt 3` (triangle).
#[uniffi::export]
pub fn ripple_rms(peak_to_peak_a: f64, shape: RippleShape) -> Result<f64> {
    Ok(pack::ripple_rms(peak_to_peak_a, shape)?)
}

/// Derating of a cold pack, -40 to 80 deg C: full from 20 deg C, one percent less for each degree below, 70 % at the least.
#[uniffi::export]
pub fn cold_pack(pack_c: f64) -> Result<ColdReport> {
    Ok(pack::cold(pack_c)?)
}

/// Reasons to retire a pack: damage, doubled resistance, capacity under 80 %, cells that drift apart, a hot cell (10 K).
#[uniffi::export]
pub fn pack_retirement(health: PackHealth) -> Result<RetireReport> {
    Ok(pack::retire(&health)?)
}
