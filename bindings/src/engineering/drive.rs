//! Gears, speeds and the governor.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::drive::{self, DriveSpeeds, DriveTrain, GearStage, GovernorQuestion, GovernorReport};

use crate::Result;

#[uniffi::remote(Record)]
pub struct GearStage {
    pub driver_teeth: u32,
    pub driven_teeth: u32,
}

#[uniffi::remote(Record)]
pub struct DriveTrain {
    pub stages: Vec<GearStage>,
    pub tail_ratio: f64,
    pub main_blades: u32,
    pub tail_blades: u32,
    pub pole_pairs: u32,
}

#[uniffi::remote(Record)]
pub struct DriveSpeeds {
    pub train: DriveTrain,
    pub head_rpm: f64,
    pub ratio: f64,
    pub motor_rpm: f64,
    pub tail_rpm: f64,
    pub head_hz: f64,
    pub main_blade_hz: f64,
    pub tail_hz: f64,
    pub tail_blade_hz: f64,
    pub motor_hz: f64,
    pub electrical_hz: f64,
    pub commutation_hz: f64,
    pub mesh_hz: Vec<f64>,
}

#[uniffi::remote(Record)]
pub struct GovernorQuestion {
    pub train: DriveTrain,
    pub motor_rpm_per_v: f64,
    pub motor_ohm: f64,
    pub end_rest_v: f64,
    pub pack_ohm: f64,
    pub current_a: f64,
    pub head_rpm: f64,
}

#[uniffi::remote(Record)]
pub struct GovernorReport {
    pub inputs: GovernorQuestion,
    pub loaded_v: f64,
    pub sag_v: f64,
    pub reachable_rpm: f64,
    pub throttle_percent: f64,
    pub margin_rpm: f64,
    pub margin_percent: f64,
    pub grade: Grade,
}

/// All speeds and frequencies of the drive at a head speed of 10 to 10000 rpm.
#[uniffi::export]
pub fn drive_speeds(train: DriveTrain, head_rpm: f64) -> Result<DriveSpeeds> {
    Ok(drive::drive_speeds(&train, head_rpm)?)
}

/// Head room of the governor under load at the end of the pack: motor speed = constant x (voltage less all that the current loses).
#[uniffi::export]
pub fn governor(question: GovernorQuestion) -> Result<GovernorReport> {
    Ok(drive::governor(&question)?)
}
