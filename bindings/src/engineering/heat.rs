//! Heating, cooling and other conditions.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::heat::{
    self, HeatCondition, HeatReading, HotterDay, HotterDayReport, RiseFit, SteadyQuestion, SteadyReport,
    TimeConstant, TouchdownFit,
};

use crate::Result;

#[uniffi::remote(Record)]
pub struct HeatReading {
    pub time_s: f64,
    pub temperature_c: f64,
}

#[uniffi::remote(Record)]
pub struct RiseFit {
    pub readings: Vec<HeatReading>,
    pub start_c: f64,
    pub rise_k: f64,
    pub tau_s: f64,
    pub steady_c: f64,
    pub tau_u_s: f64,
    pub tau_half_width_s: f64,
    pub steady_half_width_k: f64,
    pub memory_s: f64,
    pub residual_k: f64,
    pub covered: f64,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct TouchdownFit {
    pub readings: Vec<HeatReading>,
    pub air_c: f64,
    pub touchdown_c: f64,
    pub half_width_k: Option<f64>,
    pub tau_s: f64,
    pub above_first_k: f64,
}

#[uniffi::remote(Record)]
pub struct HeatCondition {
    pub air_c: f64,
    pub density_kg_m3: f64,
    pub airflow_m_s: f64,
    pub current_a: f64,
}

#[uniffi::remote(Record)]
pub struct SteadyQuestion {
    pub measured_c: f64,
    pub measured_at: HeatCondition,
    pub asked_for: HeatCondition,
    pub exponent: f64,
    pub limit_c: f64,
    pub loss_per_k: f64,
}

#[uniffi::remote(Record)]
pub struct SteadyReport {
    pub inputs: SteadyQuestion,
    pub rise_k: f64,
    pub steady_c: f64,
    pub margin_k: f64,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct TimeConstant {
    pub tau_s: f64,
    pub half_width_s: f64,
}

#[uniffi::remote(Record)]
pub struct HotterDay {
    pub question: SteadyQuestion,
    pub measured_after_s: f64,
    pub measured_half_width_k: f64,
    pub exponent_half_width: f64,
    pub tau: Option<TimeConstant>,
    pub flight_s: f64,
}

#[uniffi::remote(Record)]
pub struct HotterDayReport {
    pub inputs: HotterDay,
    pub reached: SteadyReport,
    pub half_width_k: f64,
    pub at_end_c: f64,
    pub at_end_half_width_k: f64,
    pub covers_s: Option<f64>,
    pub limit_after_s: Option<f64>,
    pub limit_after_low_s: Option<f64>,
    pub limit_after_high_s: Option<f64>,
    pub current_ratio: f64,
    pub airflow_ratio: f64,
    pub grade: Grade,
}

/// The hotter day: steady state, time to the limit and their intervals, and what would hold the limit.
#[uniffi::export]
pub fn hotter_day(day: HotterDay) -> Result<HotterDayReport> {
    Ok(heat::hotter_day(&day)?)
}

/// Fits a first-order rise to 4 to 2000 readings.
#[uniffi::export]
pub fn fit_heat_rise(readings: Vec<HeatReading>) -> Result<RiseFit> {
    Ok(heat::fit_rise(&readings)?)
}

/// Temperature at touchdown from 2 to 200 readings taken while the part cools in air of `air_c` (-60 to 60 deg C); times since touchdown.
#[uniffi::export]
pub fn heat_at_touchdown(readings: Vec<HeatReading>, air_c: f64) -> Result<TouchdownFit> {
    Ok(heat::touchdown(&readings, air_c)?)
}

/// The steady temperature at another ambient, density, airflow and current.
#[uniffi::export]
pub fn steady_elsewhere(question: SteadyQuestion) -> Result<SteadyReport> {
    Ok(heat::steady_elsewhere(&question)?)
}

/// Time until a limit is reached, in s; none if the steady state stays under it. Zero if it is already reached.
#[uniffi::export]
pub fn time_to_limit(start_c: f64, steady_c: f64, tau_s: f64, limit_c: f64) -> Result<Option<f64>> {
    Ok(heat::time_to_limit(start_c, steady_c, tau_s, limit_c)?)
}
