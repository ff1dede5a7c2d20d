//! Unbalance of rotating parts.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::unbalance::{
    self, Blade, Polar, RotatingPart, SinglePlaneReport, SinglePlaneRun, UnbalanceReport,
};

use crate::Result;

/// The blade with the least moment: its place in the list, from zero, and what it lacks at its balance point.
#[derive(Debug, Clone, Copy, uniffi::Record)]
pub struct LightestBlade {
    pub blade: u32,
    pub lacks_g: f64,
}

#[uniffi::remote(Record)]
pub struct RotatingPart {
    pub mass_kg: f64,
    pub speed_rpm: f64,
    pub grade_mm_s: f64,
    pub correction_radius_mm: f64,
    pub measured_gmm: Option<f64>,
}

#[uniffi::remote(Record)]
pub struct UnbalanceReport {
    pub inputs: RotatingPart,
    pub permissible_gmm: f64,
    pub permissible_g: f64,
    pub permissible_um: f64,
    pub force_n: f64,
    pub margin_gmm: Option<f64>,
    pub margin_percent: Option<f64>,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct Blade {
    pub mass_g: f64,
    pub balance_point_mm: f64,
}

/// Unbalance of a set of blades; the lightest by its place in the list, from zero, and what it lacks.
#[derive(Debug, Clone, uniffi::Record)]
pub struct BladeSetReport {
    pub blades: Vec<Blade>,
    pub bolt_radius_mm: f64,
    pub moments_gmm: Vec<f64>,
    pub unbalance_gmm: f64,
    pub force_n: f64,
    pub lightest: LightestBlade,
}

impl From<unbalance::BladeSetReport> for BladeSetReport {
    fn from(of: unbalance::BladeSetReport) -> Self {
        BladeSetReport {
            blades: of.blades,
            bolt_radius_mm: of.bolt_radius_mm,
            moments_gmm: of.moments_gmm,
            unbalance_gmm: of.unbalance_gmm,
            force_n: of.force_n,
            lightest: LightestBlade { blade: super::index(of.lightest.0), lacks_g: of.lightest.1 },
        }
    }
}

#[uniffi::remote(Record)]
pub struct Polar {
    pub size: f64,
    pub angle_deg: f64,
}

#[uniffi::remote(Record)]
pub struct SinglePlaneRun {
    pub first: Polar,
    pub trial_g: Polar,
    pub with_trial: Polar,
    pub with_rotation: bool,
    pub is_lag: bool,
}

#[uniffi::remote(Record)]
pub struct SinglePlaneReport {
    pub inputs: SinglePlaneRun,
    pub correction_g: Polar,
    pub influence_per_g: f64,
    pub change_percent: f64,
    pub grade: Grade,
}

/// Permissible residual unbalance by grade, mass and speed.
#[uniffi::export]
pub fn permissible_unbalance(part: RotatingPart) -> Result<UnbalanceReport> {
    Ok(unbalance::permissible(&part)?)
}

/// Unbalance of two to twelve blades, evenly spaced, from mass and balance point; head speed 10 to 10000 rpm, bolt radius 0 to 2000 mm.
#[uniffi::export]
pub fn blade_set_unbalance(blades: Vec<Blade>, bolt_radius_mm: f64, head_rpm: f64) -> Result<BladeSetReport> {
    Ok(unbalance::blade_set(&blades, bolt_radius_mm, head_rpm)?.into())
}

/// Correction weight by the influence coefficient: `-first / ((with_trial - first) / trial)`.
#[uniffi::export]
pub fn single_plane_correction(run: SinglePlaneRun) -> Result<SinglePlaneReport> {
    Ok(unbalance::single_plane(&run)?)
}
