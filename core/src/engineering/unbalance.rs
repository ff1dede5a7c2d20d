//! Balance of rotating parts: permissible residual unbalance, a blade set's unbalance, and single-plane correction.
//!
//! Sources: ISO 21940-11 (formerly ISO 1940-1) for `U = 1000 G m / omega`; the influence-coefficient method for one plane. The
//! standard is made for rigid rotors: for a blade set, which is hinged and flexible, the grade is orientation only. ISO 10816-1
//! class I zones (small machines standing on the ground) are orientation only as well.

use std::f64::consts::PI;

use nalgebra::Complex;
use serde::{Deserialize, Serialize};

use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::grade::Grade;
use super::require::{count, within};

/// Velocity zone edges of small machines, in mm/s rms (ISO 10816-1 class I): new, long-term, not tolerable beyond the last.
pub const SMALL_MACHINE_ZONES_MM_S: [f64; 3] = [0.71, 1.8, 4.5];

/// A rotating part.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RotatingPart {
    /// Mass, in kg, 0.0001 to 50.
    pub mass_kg: f64,
    /// Highest service speed, in rpm, 10 to 100000.
    pub speed_rpm: f64,
    /// Balance quality grade G, in mm/s, 0.4 to 40: 6.3 for fans and flywheels, 2.5 for small armatures.
    pub grade_mm_s: f64,
    /// Radius where mass is added or taken off, in mm, 0.5 to 5000.
    pub correction_radius_mm: f64,
    /// Residual unbalance, in g mm, if it was measured.
    pub measured_gmm: Option<f64>,
}

/// Permissible residual unbalance of a part.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct UnbalanceReport {
    /// What went in.
    pub inputs: RotatingPart,
    /// Permissible residual unbalance, in g mm.
    pub permissible_gmm: f64,
    /// The same as a mass at the correction radius, in g.
    pub permissible_g: f64,
    /// Permissible offset of the part's centre of mass, in micrometres.
    pub permissible_um: f64,
    /// Turning force of the permissible unbalance at service speed, in N.
    pub force_n: f64,
    /// Room, in g mm, if a residual was measured; negative past the limit.
    pub margin_gmm: Option<f64>,
    /// The same in percent of what is permissible.
    pub margin_percent: Option<f64>,
    /// Stop above the permissible, caution above 80 % of it; `Ok` if nothing was measured.
    pub grade: Grade,
}

/// Permissible residual unbalance by grade, mass and speed.
///
/// # Errors
/// Figures out of range.
///
/// ```
/// use liftgate_core::engineering::unbalance::{permissible, RotatingPart};
/// let report = permissible(&RotatingPart { mass_kg: 1.0, speed_rpm: 3000.0, grade_mm_s: 6.3, correction_radius_mm: 50.0, measured_gmm: None })?;
/// assert!((report.permissible_gmm - 20.0535).abs() < 1e-4);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn permissible(part: &RotatingPart) -> Result<UnbalanceReport> {
    within("mass of the part", part.mass_kg, "kg", 1e-4, 50.0)?;
    within("service speed", part.speed_rpm, "rpm", 10.0, 100_000.0)?;
    within("balance quality grade", part.grade_mm_s, "mm/s", 0.4, 40.0)?;
    within("correction radius", part.correction_radius_mm, "mm", 0.5, 5000.0)?;
    if let Some(measured_gmm) = part.measured_gmm {
        within("measured unbalance", measured_gmm, "g mm", 0.0, 1e6)?;
    }
    let omega = part.speed_rpm * 2.0 * PI / 60.0;
    let permissible_gmm = 1000.0 * part.grade_mm_s * part.mass_kg / omega;
    Ok(UnbalanceReport {
        inputs: *part,
        permissible_gmm,
        permissible_g: permissible_gmm / part.correction_radius_mm,
        permissible_um: permissible_gmm / part.mass_kg,
        force_n: permissible_gmm * 1e-6 * omega * omega,
        margin_gmm: part.measured_gmm.map(|m| permissible_gmm - m),
        margin_percent: part.measured_gmm.map(|m| 100.0 * (1.0 - m / permissible_gmm)),
        grade: part.measured_gmm.map_or(Grade::Ok, |m| Grade::of_load(m, permissible_gmm, 0.8)),
    })
}

/// One blade on the bench.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Blade {
    /// Mass, in g, 0.1 to 20000.
    pub mass_g: f64,
    /// Balance point from the bolt hole, in mm, 1 to 5000.
    pub balance_point_mm: f64,
}

/// Unbalance of a blade set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BladeSetReport {
    /// The blades, in their order around the head.
    pub blades: Vec<Blade>,
    /// Distance of the bolt hole from the shaft, in mm.
    pub bolt_radius_mm: f64,
    /// Moment of every blade about the shaft, in g mm.
    pub moments_gmm: Vec<f64>,
    /// Unbalance of the set: vector sum of the moments, in g mm.
    pub unbalance_gmm: f64,
    /// Its turning force at the head speed, in N.
    pub force_n: f64,
    /// The lightest-moment blade's index and the mass that it lacks at its balance point against the heaviest, in g.
    pub lightest: (usize, f64),
}

/// Unbalance of two to twelve blades, evenly spaced, from mass and balance point; head speed 10 to 10000 rpm, bolt radius 0 to 2000 mm.
///
/// # Errors
/// Figures out of range or fewer than two blades.
///
/// # Validity
/// Blades in line with the hub; lead and lag of a hinged blade change it, so tracking and a run decide.
///
/// ```
/// use liftgate_core::engineering::unbalance::{blade_set, Blade};
/// let report = blade_set(&[Blade { mass_g: 240.0, balance_point_mm: 350.0 }, Blade { mass_g: 241.0, balance_point_mm: 350.0 }], 50.0, 1500.0)?;
/// assert!((report.unbalance_gmm - 400.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn blade_set(blades: &[Blade], bolt_radius_mm: f64, head_rpm: f64) -> Result<BladeSetReport> {
    count("blades", blades.len(), 2, 12)?;
    within("bolt radius", bolt_radius_mm, "mm", 0.0, 2000.0)?;
    within("head speed", head_rpm, "rpm", 10.0, 10_000.0)?;
    for blade in blades {
        within("blade mass", blade.mass_g, "g", 0.1, 20_000.0)?;
        within("balance point", blade.balance_point_mm, "mm", 1.0, 5000.0)?;
    }
    let arm_mm = |b: &Blade| bolt_radius_mm + b.balance_point_mm;
    let moments_gmm: Vec<f64> = blades.iter().map(|b| b.mass_g * arm_mm(b)).collect();
    let step = 2.0 * PI / blades.len() as f64;
    let sum: Complex<f64> =
        moments_gmm.iter().enumerate().map(|(i, m)| Complex::from_polar(*m, step * i as f64)).sum();
    let heaviest_gmm = moments_gmm.iter().copied().fold(0.0, f64::max);
    let mut lightest = (0, 0.0);
    for (i, (blade, moment_gmm)) in blades.iter().zip(&moments_gmm).enumerate() {
        let lacks_g = (heaviest_gmm - moment_gmm) / arm_mm(blade);
        if lacks_g > lightest.1 {
            lightest = (i, lacks_g);
        }
    }
    let omega = head_rpm * 2.0 * PI / 60.0;
    Ok(BladeSetReport {
        blades: blades.to_vec(),
        bolt_radius_mm,
        moments_gmm,
        unbalance_gmm: sum.norm(),
        force_n: sum.norm() * 1e-6 * omega * omega,
        lightest,
    })
}

/// Amplitude and phase of a vibration, or mass and angle of a weight.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Polar {
    /// Amplitude in any unit, or mass in g.
    pub size: f64,
    /// Phase or angle, in deg.
    pub angle_deg: f64,
}

impl Polar {
    fn complex(self) -> Complex<f64> {
        Complex::from_polar(self.size, self.angle_deg.to_radians())
    }
}

/// A single-plane balancing run: two readings at the same speed and place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SinglePlaneRun {
    /// Vibration without the trial weight; the size above 0 to 1e6.
    pub first: Polar,
    /// The trial weight, in g, at its angle; the size above 0 to 1e4.
    pub trial_g: Polar,
    /// Vibration with the trial weight, same unit as `first`.
    pub with_trial: Polar,
    /// Whether a weight's angle grows in the rotor's sense of rotation.
    pub with_rotation: bool,
    /// Whether the phase is a lag: a peak that comes later after the mark reads more degrees.
    pub is_lag: bool,
}

impl SinglePlaneRun {
    /// A vibration as it turns with the rotor: its phase as a lead.
    fn turning(&self, vibration: Polar) -> Complex<f64> {
        let reading = vibration.complex();
        if self.is_lag { reading.conj() } else { reading }
    }

    /// A weight, or the place of one, from the angle that is counted to that in the sense of rotation, and back.
    fn mirrored(&self, weight: Complex<f64>) -> Complex<f64> {
        if self.with_rotation { weight } else { weight.conj() }
    }
}

/// The correction of a single-plane run.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SinglePlaneReport {
    /// What went in.
    pub inputs: SinglePlaneRun,
    /// Weight to fit instead of the trial weight, at the same radius: mass in g, angle from -180 to 180 deg, counted as the trial's.
    pub correction_g: Polar,
    /// Vibration per gram at the trial's radius.
    pub influence_per_g: f64,
    /// How much the trial changed the vibration, in percent of the first; under 20 % the answer is poor (common practice, no source).
    pub change_percent: f64,
    /// Caution under a change of 20 %.
    pub grade: Grade,
}

/// Correction weight by the influence coefficient: `-first / ((with_trial - first) / trial)`, each as it turns with the rotor. A vibration
/// that leads by more turns the same way as a weight further on in the sense of rotation; what is counted otherwise is mirrored first
/// (balancing in place, ISO 21940-13, wants both senses stated). The wrong sense leaves a shake that may be larger than the first.
///
/// # Errors
/// Figures out of range, or a trial weight that changed nothing.
///
/// # Validity
/// A linear, rigid rotor and one plane; on a head with hinged blades repeat the run and stop when it no longer improves.
///
/// ```
/// use liftgate_core::engineering::unbalance::{single_plane, Polar, SinglePlaneRun};
/// let report = single_plane(&SinglePlaneRun {
///     first: Polar { size: 3.4, angle_deg: 116.0 }, trial_g: Polar { size: 2.0, angle_deg: 0.0 }, with_trial: Polar { size: 1.8, angle_deg: 42.0 },
///     with_rotation: true, is_lag: false })?;
/// assert!((report.correction_g.size - 2.0117).abs() < 1e-4 && (report.correction_g.angle_deg + 30.789).abs() < 1e-3);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn single_plane(run: &SinglePlaneRun) -> Result<SinglePlaneReport> {
    within("first vibration", run.first.size, "", 1e-6, 1e6)?;
    within("trial weight", run.trial_g.size, "g", 1e-4, 1e4)?;
    within("vibration with the trial weight", run.with_trial.size, "", 0.0, 1e6)?;
    for polar in [run.first, run.trial_g, run.with_trial] {
        within("angle", polar.angle_deg, "deg", -720.0, 720.0)?;
    }
    let first = run.turning(run.first);
    let change = run.turning(run.with_trial) - first;
    let change_percent = 100.0 * change.norm() / run.first.size;
    if change_percent < 0.1 {
        return Err(EngineeringError::from(Conflict::TrialWeightTooLight));
    }
    let influence = change / run.mirrored(run.trial_g.complex());
    let correction = run.mirrored(-first / influence);
    Ok(SinglePlaneReport {
        inputs: *run,
        correction_g: Polar { size: correction.norm(), angle_deg: correction.arg().to_degrees() },
        influence_per_g: influence.norm(),
        change_percent,
        grade: if change_percent < 20.0 { Grade::Caution } else { Grade::Ok },
    })
}
