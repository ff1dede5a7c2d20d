//! Drive: head, tail and motor speeds, head room of the governor at the end of the pack, and the frequencies that the drive makes.
//!
//! Kinematics and Ohm's law; no source is needed beyond the motor's and the gears' own figures.

use serde::{Deserialize, Serialize};

use super::error::Result;
use super::grade::Grade;
use super::require::{count, within};

/// Room over the governed speed at the end of the pack under which a caution is due, in percent (common practice, no source).
pub const GOVERNOR_CAUTION_PERCENT: f64 = 10.0;

/// One reduction: a driving gear or pulley and the one that it drives.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct GearStage {
    /// Teeth of the driver, 4 to 500.
    pub driver_teeth: u32,
    /// Teeth of the driven, 4 to 1000.
    pub driven_teeth: u32,
    /// Teeth of an idler between them, 4 to 1000: the ratio does not know it, its own turns do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub idler_teeth: Option<u32>,
    /// Teeth of the belt over them, 20 to 3000.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub belt_teeth: Option<u32>,
}

impl GearStage {
    /// Two gears in mesh.
    pub const fn gears(driver_teeth: u32, driven_teeth: u32) -> Self {
        Self { driver_teeth, driven_teeth, idler_teeth: None, belt_teeth: None }
    }
}

/// From motor to rotors.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DriveTrain {
    /// Stages from motor to main shaft, motor first, one to four.
    pub stages: Vec<GearStage>,
    /// Tail speed over head speed, 0.5 to 30.
    pub tail_ratio: f64,
    /// Main blades, 1 to 12.
    pub main_blades: u32,
    /// Tail blades, 1 to 30.
    pub tail_blades: u32,
    /// Pole pairs of the motor, 1 to 50.
    pub pole_pairs: u32,
}

/// Turns of something that a stage has besides its two gears.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct StageTurns {
    /// The stage, counted from one, motor first.
    pub stage: u32,
    /// Turns, in Hz.
    pub turns_hz: f64,
}

/// Speeds and frequencies at one head speed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DriveSpeeds {
    /// What went in.
    pub train: DriveTrain,
    /// Head speed, in rpm.
    pub head_rpm: f64,
    /// Motor speed over head speed.
    pub ratio: f64,
    /// Motor speed, in rpm.
    pub motor_rpm: f64,
    /// Tail speed, in rpm.
    pub tail_rpm: f64,
    /// Main rotor once per turn, in Hz.
    pub head_hz: f64,
    /// Main blade passage, in Hz: blades x rpm / 60 (NASA TM 80200).
    pub main_blade_hz: f64,
    /// Tail rotor once per turn, in Hz.
    pub tail_hz: f64,
    /// Tail blade passage, in Hz.
    pub tail_blade_hz: f64,
    /// Motor once per turn, in Hz.
    pub motor_hz: f64,
    /// Electrical frequency: pole pairs x motor turns, in Hz.
    pub electrical_hz: f64,
    /// Commutation of a six-step controller: six times the electrical frequency, in Hz.
    pub commutation_hz: f64,
    /// Mesh of every stage: driver's teeth x its turns, in Hz, motor first. A toothed belt meshes like a gear.
    pub mesh_hz: Vec<f64>,
    /// Turns of the idlers: mesh over their teeth.
    pub idlers: Vec<StageTurns>,
    /// Turns of the belts: mesh over their teeth.
    pub belts: Vec<StageTurns>,
}

/// All speeds and frequencies of the drive at a head speed of 10 to 10000 rpm.
///
/// # Errors
/// Figures out of range, or no stage.
///
/// ```
/// use liftgate_core::engineering::drive::{drive_speeds, DriveTrain, GearStage};
/// let train = DriveTrain { stages: vec![GearStage::gears(12, 120)], tail_ratio: 4.5, main_blades: 3, tail_blades: 2, pole_pairs: 5 };
/// let speeds = drive_speeds(&train, 1200.0)?;
/// assert!((speeds.motor_rpm - 12_000.0).abs() < 1e-9 && (speeds.main_blade_hz - 60.0).abs() < 1e-9);
/// assert!((speeds.electrical_hz - 1000.0).abs() < 1e-9 && (speeds.mesh_hz[0] - 2400.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn drive_speeds(train: &DriveTrain, head_rpm: f64) -> Result<DriveSpeeds> {
    check_train(train)?;
    within("head speed", head_rpm, "rpm", 10.0, 10_000.0)?;
    let ratio = reduction(train);
    let motor_hz = head_rpm * ratio / 60.0;
    let head_hz = head_rpm / 60.0;
    let tail_hz = head_hz * train.tail_ratio;
    let mut shaft_hz = motor_hz;
    let mut mesh_hz = Vec::with_capacity(train.stages.len());
    for stage in &train.stages {
        mesh_hz.push(shaft_hz * f64::from(stage.driver_teeth));
        shaft_hz *= f64::from(stage.driver_teeth) / f64::from(stage.driven_teeth);
    }
    let turns = |teeth: fn(&GearStage) -> Option<u32>| {
        let of = |((stage, mesh_hz), number): ((&GearStage, &f64), u32)| {
            teeth(stage).map(|teeth| StageTurns { stage: number, turns_hz: mesh_hz / f64::from(teeth) })
        };
        train.stages.iter().zip(&mesh_hz).zip(1..).filter_map(of).collect()
    };
    let (idlers, belts) = (turns(|stage| stage.idler_teeth), turns(|stage| stage.belt_teeth));
    let electrical_hz = motor_hz * f64::from(train.pole_pairs);
    Ok(DriveSpeeds {
        train: train.clone(),
        head_rpm,
        ratio,
        motor_rpm: head_rpm * ratio,
        tail_rpm: head_rpm * train.tail_ratio,
        head_hz,
        main_blade_hz: head_hz * f64::from(train.main_blades),
        tail_hz,
        tail_blade_hz: tail_hz * f64::from(train.tail_blades),
        motor_hz,
        electrical_hz,
        commutation_hz: 6.0 * electrical_hz,
        mesh_hz,
        idlers,
        belts,
    })
}

fn check_train(train: &DriveTrain) -> Result<()> {
    count("gear stages", train.stages.len(), 1, 4)?;
    for stage in &train.stages {
        within("driver teeth", f64::from(stage.driver_teeth), "", 4.0, 500.0)?;
        within("driven teeth", f64::from(stage.driven_teeth), "", 4.0, 1000.0)?;
        if let Some(teeth) = stage.idler_teeth {
            within("idler teeth", f64::from(teeth), "", 4.0, 1000.0)?;
        }
        if let Some(teeth) = stage.belt_teeth {
            within("belt teeth", f64::from(teeth), "", 20.0, 3000.0)?;
        }
    }
    within("tail ratio", train.tail_ratio, "", 0.5, 30.0)?;
    within("main blades", f64::from(train.main_blades), "", 1.0, 12.0)?;
    within("tail blades", f64::from(train.tail_blades), "", 1.0, 30.0)?;
    within("pole pairs", f64::from(train.pole_pairs), "", 1.0, 50.0)?;
    Ok(())
}

/// Motor speed over head speed, as the teeth make it.
pub fn reduction(train: &DriveTrain) -> f64 {
    train.stages.iter().map(|s| f64::from(s.driven_teeth) / f64::from(s.driver_teeth)).product()
}

/// A governed drive near the end of the pack.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct GovernorQuestion {
    /// Motor speed over head speed, over all stages, 1 to 100.
    pub ratio: f64,
    /// Motor constant, in rpm per V, 10 to 10000.
    pub motor_rpm_per_v: f64,
    /// Resistance of motor, controller and leads, in ohm, 0 to 5.
    pub motor_ohm: f64,
    /// Pack voltage at rest near the end of the flight, in V, 1 to 100.
    pub end_rest_v: f64,
    /// Pack resistance, in ohm, 0 to 5.
    pub pack_ohm: f64,
    /// Pack current in the hardest governed manoeuvre, in A, 0 to 1000.
    pub current_a: f64,
    /// Head speed to be held, in rpm, 10 to 10000.
    pub head_rpm: f64,
}

/// What the governor has left.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct GovernorReport {
    /// What went in.
    pub inputs: GovernorQuestion,
    /// Pack voltage under that current, in V.
    pub loaded_v: f64,
    /// Voltage lost in the pack, in V.
    pub sag_v: f64,
    /// Highest head speed at full throttle, in rpm.
    pub reachable_rpm: f64,
    /// Throttle needed for the governed speed, in percent of the loaded voltage; over 100 when it cannot be held.
    pub throttle_percent: f64,
    /// Reachable less governed head speed, in rpm; negative when the governor runs out.
    pub margin_rpm: f64,
    /// The same in percent of the governed speed.
    pub margin_percent: f64,
    /// Stop below zero, caution under [`GOVERNOR_CAUTION_PERCENT`].
    pub grade: Grade,
}

/// Head room of the governor under load at the end of the pack: motor speed = constant x (voltage less all that the current loses).
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// Near full throttle pack and motor current are nearly the same; lower throttle needs more motor current, which this does not count.
///
/// ```
/// use liftgate_core::engineering::drive::{governor, GovernorQuestion};
/// let report = governor(&GovernorQuestion { ratio: 10.0, motor_rpm_per_v: 350.0, motor_ohm: 0.01, end_rest_v: 44.0, pack_ohm: 0.03, current_a: 50.0, head_rpm: 1300.0 })?;
/// assert!((report.loaded_v - 42.5).abs() < 1e-9 && (report.reachable_rpm - 1470.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn governor(question: &GovernorQuestion) -> Result<GovernorReport> {
    let q = question;
    within("gear ratio", q.ratio, "", 1.0, 100.0)?;
    within("motor constant", q.motor_rpm_per_v, "rpm/V", 10.0, 10_000.0)?;
    within("motor resistance", q.motor_ohm, "ohm", 0.0, 5.0)?;
    within("pack voltage at rest", q.end_rest_v, "V", 1.0, 100.0)?;
    within("pack resistance", q.pack_ohm, "ohm", 0.0, 5.0)?;
    within("pack current", q.current_a, "A", 0.0, 1000.0)?;
    within("head speed", q.head_rpm, "rpm", 10.0, 10_000.0)?;
    let ratio = q.ratio;
    let sag_v = q.current_a * q.pack_ohm;
    let loaded_v = q.end_rest_v - sag_v;
    // A pack that its own resistance would pull below zero cannot deliver the current at all.
    within("pack voltage under load", loaded_v, "V", 0.1, 100.0)?;
    let lost_v = q.current_a * q.motor_ohm;
    let reachable_rpm = q.motor_rpm_per_v * (loaded_v - lost_v).max(0.0) / ratio;
    let needed_v = q.head_rpm * ratio / q.motor_rpm_per_v + lost_v;
    let margin_percent = 100.0 * (reachable_rpm / q.head_rpm - 1.0);
    let grade = if margin_percent < 0.0 {
        Grade::Stop
    } else if margin_percent < GOVERNOR_CAUTION_PERCENT {
        Grade::Caution
    } else {
        Grade::Ok
    };
    Ok(GovernorReport {
        inputs: *q,
        loaded_v,
        sag_v,
        reachable_rpm,
        throttle_percent: 100.0 * needed_v / loaded_v,
        margin_rpm: reachable_rpm - q.head_rpm,
        margin_percent,
        grade,
    })
}
