//! Gears, speeds and the governor.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::drive::{
    self, DriveSpeeds, DriveTrain, GearStage, GovernorQuestion, GovernorReport, StageTurns,
};

use liftgate_core::engineering::drive_load::{self, DriveHold, DrivePart, DriveRatings, PartHold};

use crate::Result;

#[uniffi::remote(Record)]
pub struct GearStage {
    pub driver_teeth: u32,
    pub driven_teeth: u32,
    pub idler_teeth: Option<u32>,
    pub belt_teeth: Option<u32>,
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
pub struct StageTurns {
    pub stage: u32,
    pub turns_hz: f64,
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
    pub idlers: Vec<StageTurns>,
    pub belts: Vec<StageTurns>,
}

#[uniffi::remote(Record)]
pub struct GovernorQuestion {
    pub ratio: f64,
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

#[uniffi::remote(Enum)]
pub enum DrivePart {
    Motor,
    Pack,
    Controller,
}

#[uniffi::remote(Record)]
pub struct DriveRatings {
    pub motor_continuous_a: f64,
    pub motor_burst_a: f64,
    pub pack_continuous_a: f64,
    pub pack_burst_a: f64,
    pub controller_continuous_a: f64,
}

#[uniffi::remote(Record)]
pub struct PartHold {
    pub part: DrivePart,
    pub continuous_a: f64,
    pub burst_a: f64,
}

#[uniffi::remote(Record)]
pub struct DriveHold {
    pub inputs: DriveRatings,
    pub parts: Vec<PartHold>,
    pub continuous: DrivePart,
    pub continuous_a: f64,
    pub burst: DrivePart,
    pub burst_a: f64,
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

/// What the drive can hold at a duty: 1 at full throttle.
#[uniffi::export]
pub fn drive_hold(ratings: &DriveRatings, duty: f64) -> Result<DriveHold> {
    Ok(drive_load::drive_hold(ratings, duty)?)
}

/// How the drive stands at a current that flows for some seconds.
#[uniffi::export]
pub fn drive_grade(hold: &DriveHold, current_a: f64) -> Grade {
    hold.at(current_a)
}
