//! Centre of gravity from a weighing and from parts.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::balance::{
    self, Accuracy, BalanceInput, BalanceReport, Band, BandMargin, Centre, CentreHalfWidth, Part, PartMove,
    PartMoveReport, Support, TiltedReadings, Weighing,
};

use crate::Result;

#[uniffi::remote(Record)]
pub struct Part {
    pub name: String,
    pub mass_g: f64,
    pub x_mm: f64,
    pub y_mm: f64,
    pub z_mm: f64,
    pub to_come: bool,
}

#[uniffi::remote(Record)]
pub struct Support {
    pub name: String,
    pub reading_g: f64,
    pub x_mm: f64,
    pub y_mm: f64,
    pub z_mm: f64,
}

#[uniffi::remote(Record)]
pub struct TiltedReadings {
    pub nose_up_deg: f64,
    pub angle_half_width_deg: f64,
    pub readings_g: Vec<f64>,
}

#[uniffi::remote(Record)]
pub struct Weighing {
    pub supports: Vec<Support>,
    pub tilted: Option<TiltedReadings>,
}

#[uniffi::remote(Record)]
pub struct Accuracy {
    pub scale_half_width_g: f64,
    pub ruler_half_width_mm: f64,
}

#[uniffi::remote(Record)]
pub struct Band {
    pub x_low_mm: f64,
    pub x_high_mm: f64,
    pub y_low_mm: f64,
    pub y_high_mm: f64,
}

#[uniffi::remote(Record)]
pub struct Centre {
    pub mass_g: f64,
    pub x_mm: f64,
    pub y_mm: f64,
    pub z_mm: Option<f64>,
}

#[uniffi::remote(Record)]
pub struct CentreHalfWidth {
    pub mass_g: f64,
    pub x_mm: f64,
    pub y_mm: f64,
    pub z_mm: Option<f64>,
}

#[uniffi::remote(Record)]
pub struct BalanceInput {
    pub weighing: Option<Weighing>,
    pub parts: Vec<Part>,
    pub accuracy: Accuracy,
    pub band: Option<Band>,
}

#[uniffi::remote(Record)]
pub struct BandMargin {
    pub value_mm: f64,
    pub low_mm: f64,
    pub high_mm: f64,
    pub margin_mm: f64,
    pub margin_percent: f64,
    pub half_width_mm: f64,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct BalanceReport {
    pub inputs: BalanceInput,
    pub fitted: Option<Centre>,
    pub complete: Centre,
    pub half_width: CentreHalfWidth,
    pub fore_aft: Option<BandMargin>,
    pub lateral: Option<BandMargin>,
    pub flight_shift_mm: f64,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct PartMove {
    pub centre: Centre,
    pub part_mass_g: f64,
    pub dx_mm: f64,
    pub dy_mm: f64,
    pub dz_mm: f64,
}

#[uniffi::remote(Record)]
pub struct PartMoveReport {
    pub inputs: PartMove,
    pub shift_x_mm: f64,
    pub shift_y_mm: f64,
    pub shift_z_mm: f64,
    pub after: Centre,
}

/// Centre of gravity of the aircraft from a weighing, from parts, or from both.
#[uniffi::export]
pub fn balance_report(input: BalanceInput) -> Result<BalanceReport> {
    Ok(balance::balance_report(&input)?)
}

/// The effect of moving a pack or any other part: shift = part mass x movement / aircraft mass (FAA-H-8083-1B).
#[uniffi::export]
pub fn move_part(question: PartMove) -> Result<PartMoveReport> {
    Ok(balance::move_part(&question)?)
}

/// How far a part must move along one axis to bring the centre from `now_mm` to `required_mm`, in mm (signed).
#[uniffi::export]
pub fn move_for(aircraft_mass_g: f64, now_mm: f64, required_mm: f64, part_mass_g: f64) -> Result<f64> {
    Ok(balance::move_for(aircraft_mass_g, now_mm, required_mm, part_mass_g)?)
}

/// Mass that must move from one place to another to bring the centre from `now_mm` to `required_mm`, in g.
#[uniffi::export]
pub fn mass_to_shift(aircraft_mass_g: f64, now_mm: f64, required_mm: f64, from_mm: f64, to_mm: f64) -> Result<f64> {
    Ok(balance::mass_to_shift(aircraft_mass_g, now_mm, required_mm, from_mm, to_mm)?)
}

/// Ballast at one place that brings the centre along one axis to `required_mm`, in g.
#[uniffi::export]
pub fn ballast_at(aircraft_mass_g: f64, now_mm: f64, required_mm: f64, arm_mm: f64) -> Result<f64> {
    Ok(balance::ballast_at(aircraft_mass_g, now_mm, required_mm, arm_mm)?)
}

/// A band drawn in by the uncertainty of the centre, so that ballast found for it holds with the interval.
#[uniffi::export]
pub fn band_inside(band: Band, half_width: CentreHalfWidth) -> Result<Band> {
    Ok(band.inside(&half_width)?)
}
