//! Power, current and temperature of the next step of the hover ladder.

use liftgate_core::engineering::heat::TimeConstant;
use liftgate_core::engineering::prediction::{
    self, Agreement, FittedAircraft, FlownStep, Interval95, LadderAircraft, LadderPrediction, LadderQuestion,
    NextStep, PowerPrior,
};
use liftgate_core::engineering::wind::{self, RotorWind};

use crate::Result;

#[uniffi::remote(Record)]
pub struct PowerPrior {
    pub efficiency: f64,
    pub efficiency_spread: f64,
    pub induced_factor: f64,
    pub induced_spread: f64,
    pub drag_zero: f64,
    pub drag_spread: f64,
    pub drag_alpha2_per_rad2: f64,
    pub drag_alpha2_spread: f64,
    pub scatter: f64,
    pub wider: f64,
    pub wider_chance: f64,
}

#[uniffi::remote(Record)]
pub struct LadderAircraft {
    pub mass_kg: f64,
    pub radius_m: f64,
    pub solidity: f64,
    pub loaded_v: f64,
}

#[uniffi::remote(Record)]
pub struct FlownStep {
    pub head_rpm: f64,
    pub density_kg_m3: f64,
    pub air_c: f64,
    pub power_w: Option<f64>,
    pub current_a: Option<f64>,
    pub temperature_c: Option<f64>,
    pub run_s: Option<f64>,
    pub wind: Option<RotorWind>,
}

#[uniffi::remote(Record)]
pub struct RotorWind {
    pub speed_m_s: f64,
    pub half_width_m_s: f64,
}

#[uniffi::remote(Record)]
pub struct NextStep {
    pub head_rpm: f64,
    pub density_kg_m3: f64,
    pub air_c: f64,
    pub run_s: Option<f64>,
    pub wind: Option<RotorWind>,
}

#[uniffi::remote(Record)]
pub struct LadderQuestion {
    pub aircraft: LadderAircraft,
    pub prior: PowerPrior,
    pub tau: Option<TimeConstant>,
    pub steps: Vec<FlownStep>,
    pub next: NextStep,
}

#[uniffi::remote(Record)]
pub struct Interval95 {
    pub low: f64,
    pub middle: f64,
    pub high: f64,
}

#[uniffi::remote(Record)]
pub struct Agreement {
    pub reading: f64,
    pub interval: Interval95,
    pub agrees: bool,
    pub off_percent: f64,
    pub margin: f64,
}

#[uniffi::remote(Record)]
pub struct FittedAircraft {
    pub efficiency: Interval95,
    pub induced_factor: Interval95,
    pub profile_drag: Interval95,
    pub scatter_percent: f64,
}

#[uniffi::remote(Record)]
pub struct LadderPrediction {
    pub inputs: LadderQuestion,
    pub power_w: Interval95,
    pub current_a: Interval95,
    pub loaded_v: Interval95,
    pub temperature_c: Option<Interval95>,
    pub fitted: FittedAircraft,
    pub beyond_percent: Option<f64>,
}

/// What is expected of a large electric helicopter before anything was flown.
#[uniffi::export]
pub fn large_electric_prior() -> PowerPrior {
    PowerPrior::LARGE_ELECTRIC
}

/// Predicts power, current and temperature of the next step.
#[uniffi::export]
pub fn predict_next_step(question: LadderQuestion) -> Result<LadderPrediction> {
    Ok(prediction::predict(&question)?)
}

/// Wind at the rotor of a hover by a number of the Beaufort scale.
#[uniffi::export]
pub fn wind_by_force(force: u8) -> Result<RotorWind> {
    Ok(RotorWind::by_force(force)?)
}

/// Induced velocity in level flight over that in still air, for the flight's speed over the latter.
#[uniffi::export]
pub fn induced_velocity_ratio(speed_ratio: f64) -> Result<f64> {
    Ok(wind::induced_ratio(speed_ratio)?)
}
