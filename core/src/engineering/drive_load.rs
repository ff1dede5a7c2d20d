//! What a drive can hold: the least of motor, pack and controller, for as long as it likes and for a few seconds.
//!
//! All currents are those out of the pack, as makers rate motors and packs for electric aircraft; a motor's rating so meant is for near full
//! throttle. At part throttle a controller's output stage keeps the power, so that the motor's own current is the pack's over the duty:
//! what a motor can hold then is its rating times the duty (a buck converter in continuous conduction; R. W. Erickson and D. Maksimovic,
//! "Fundamentals of Power Electronics", the ideal transformer of their chapter 3, from memory).

use serde::{Deserialize, Serialize};

use super::error::Result;
use super::grade::Grade;
use super::require::within;

/// Of the controller's rating, what is counted on: a third is kept in hand (common practice, no source).
pub const CONTROLLER_SHARE: f64 = 2.0 / 3.0;

/// A part of the drive.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DrivePart {
    /// The motor.
    Motor,
    /// The flight pack, as it is wired.
    Pack,
    /// The controller.
    Controller,
}

/// What the parts bear, by their makers, in A, 1 to 1000.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DriveRatings {
    /// Motor, for as long as it likes with the cooling that its maker asks for.
    pub motor_continuous_a: f64,
    /// Motor, for some seconds.
    pub motor_burst_a: f64,
    /// Pack, for as long as it likes.
    pub pack_continuous_a: f64,
    /// Pack, for some seconds.
    pub pack_burst_a: f64,
    /// Controller, for as long as it likes. What it bears for seconds is not counted on: it fails at once, not by growing hot.
    pub controller_continuous_a: f64,
}

/// One part of the drive.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PartHold {
    /// Which.
    pub part: DrivePart,
    /// What is counted on for as long as it likes, in A.
    pub continuous_a: f64,
    /// What is counted on for some seconds, in A.
    pub burst_a: f64,
}

/// What the drive can hold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DriveHold {
    /// What went in.
    pub inputs: DriveRatings,
    /// Motor, pack and controller.
    pub parts: Vec<PartHold>,
    /// The part that holds the least for as long as it likes.
    pub continuous: DrivePart,
    /// What that is, in A.
    pub continuous_a: f64,
    /// The part that holds the least for some seconds.
    pub burst: DrivePart,
    /// What that is, in A.
    pub burst_a: f64,
}

/// What the drive can hold at `duty`: 1 at full throttle, 0.05 to 1.
///
/// # Errors
/// Figures out of range.
///
/// ```
/// use liftgate_core::engineering::drive_load::{DrivePart, DriveRatings, drive_hold};
/// let ratings = DriveRatings { motor_continuous_a: 90.0, motor_burst_a: 140.0, pack_continuous_a: 250.0, pack_burst_a: 400.0, controller_continuous_a: 160.0 };
/// let hold = drive_hold(&ratings, 1.0)?;
/// assert_eq!((hold.continuous, hold.continuous_a), (DrivePart::Motor, 90.0));
/// assert_eq!((hold.burst, hold.burst_a), (DrivePart::Motor, 140.0));
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn drive_hold(ratings: &DriveRatings, duty: f64) -> Result<DriveHold> {
    let r = ratings;
    within("motor, continuous current", r.motor_continuous_a, "A", 1.0, 1000.0)?;
    within("motor, burst current", r.motor_burst_a, "A", 1.0, 1000.0)?;
    within("pack, continuous current", r.pack_continuous_a, "A", 1.0, 1000.0)?;
    within("pack, burst current", r.pack_burst_a, "A", 1.0, 1000.0)?;
    within("controller, continuous current", r.controller_continuous_a, "A", 1.0, 1000.0)?;
    within("duty", duty, "", 0.05, 1.0)?;
    // A burst that is rated lower than what may flow for ever is a slip: what may flow for ever may flow for a second.
    let part =
        |part, continuous_a: f64, burst_a: f64| PartHold { part, continuous_a, burst_a: burst_a.max(continuous_a) };
    let parts = vec![
        part(DrivePart::Motor, duty * r.motor_continuous_a, duty * r.motor_burst_a),
        part(DrivePart::Pack, r.pack_continuous_a, r.pack_burst_a),
        part(DrivePart::Controller, CONTROLLER_SHARE * r.controller_continuous_a, r.controller_continuous_a),
    ];
    let least = |of: fn(&PartHold) -> f64| {
        let first = (DrivePart::Motor, f64::INFINITY);
        parts.iter().fold(first, |least, part| if of(part) < least.1 { (part.part, of(part)) } else { least })
    };
    let (continuous, continuous_a) = least(|part| part.continuous_a);
    let (burst, burst_a) = least(|part| part.burst_a);
    Ok(DriveHold { inputs: *r, parts, continuous, continuous_a, burst, burst_a })
}

impl PartHold {
    /// How a part stands at a current that flows for some seconds: a stop past what it bears for those, a caution past what it bears for ever.
    pub fn at(&self, current_a: f64) -> Grade {
        if current_a > self.burst_a {
            Grade::Stop
        } else if current_a > self.continuous_a {
            Grade::Caution
        } else {
            Grade::Ok
        }
    }
}

impl DriveHold {
    /// How the drive stands at a current that flows for some seconds: as its worst part.
    pub fn at(&self, current_a: f64) -> Grade {
        self.parts.iter().map(|part| part.at(current_a)).max().unwrap_or(Grade::Ok)
    }
}
