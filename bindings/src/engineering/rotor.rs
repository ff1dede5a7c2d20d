//! Main and tail rotor in hover and climb.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::air::Air;
use liftgate_core::engineering::rotor::{
    self, GroundEffect, HeadRoomQuestion, HeadRoomReport, HoverQuestion, HoverReport, ModelAccuracy, ModelBasis,
    MomentumHover, Rotor, RotorLoads, RotorPoint, SectionPolar, TailKind, TailQuestion, TailReport,
};

use crate::Result;

#[uniffi::remote(Record)]
pub struct SectionPolar {
    pub lift_slope_per_rad: f64,
    pub lift_limit: f64,
    pub drag_zero: f64,
    pub drag_alpha2_per_rad2: f64,
    pub reference_reynolds: f64,
    pub reynolds_exponent: f64,
}

#[uniffi::remote(Record)]
pub struct Rotor {
    pub blades: u32,
    pub radius_m: f64,
    pub chord_m: f64,
    pub root_fraction: f64,
    pub twist_deg: f64,
    pub polar: SectionPolar,
}

#[uniffi::remote(Record)]
pub struct RotorPoint {
    pub rotor: Rotor,
    pub air: Air,
    pub speed_rpm: f64,
    pub collective_deg: f64,
    pub climb_m_s: f64,
}

#[uniffi::remote(Record)]
pub struct RotorLoads {
    pub inputs: RotorPoint,
    pub thrust_n: f64,
    pub torque_nm: f64,
    pub power_w: f64,
    pub profile_w: f64,
    pub thrust_coefficient: f64,
    pub power_coefficient: f64,
    pub figure_of_merit: f64,
    pub blade_loading: f64,
    pub tip_speed_m_s: f64,
    pub tip_mach: f64,
    pub tip_reynolds: f64,
}

#[uniffi::remote(Record)]
pub struct MomentumHover {
    pub induced_m_s: f64,
    pub ideal_w: f64,
    pub disc_loading_n_m2: f64,
}

#[uniffi::remote(Record)]
pub struct HoverQuestion {
    pub rotor: Rotor,
    pub air: Air,
    pub speed_rpm: f64,
    pub mass_kg: f64,
    pub download_fraction: f64,
    pub climb_m_s: f64,
}

#[uniffi::remote(Record)]
pub struct HoverReport {
    pub inputs: HoverQuestion,
    pub collective_deg: f64,
    pub loads: RotorLoads,
    pub ideal_w: f64,
    pub disc_loading_n_m2: f64,
    pub blade_loading_margin_percent: f64,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct HeadRoomQuestion {
    pub hover: HoverQuestion,
    pub available_w: f64,
    pub density_altitude_m: f64,
}

#[uniffi::remote(Record)]
pub struct HeadRoomReport {
    pub inputs: HeadRoomQuestion,
    pub hover: HoverReport,
    pub margin_w: f64,
    pub margin_percent: f64,
    pub power_ratio: f64,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct GroundEffect {
    pub height_over_radius: f64,
    pub thrust_ratio: f64,
    pub induced_power_ratio: f64,
}

#[uniffi::remote(Enum)]
pub enum TailKind {
    Open,
    Shrouded { wake_area_ratio: f64 },
}

#[uniffi::remote(Record)]
pub struct TailQuestion {
    pub main_power_w: f64,
    pub head_speed_rpm: f64,
    pub arm_m: f64,
    pub tail_diameter_m: f64,
    pub density_kg_m3: f64,
    pub kind: TailKind,
    pub figure_of_merit: f64,
}

#[uniffi::remote(Record)]
pub struct TailReport {
    pub inputs: TailQuestion,
    pub main_torque_nm: f64,
    pub thrust_n: f64,
    pub induced_m_s: f64,
    pub ideal_w: f64,
    pub power_w: f64,
    pub share_percent: f64,
}

#[uniffi::remote(Enum)]
pub enum ModelBasis {
    Measured,
    OtherReynolds,
    LowCollective,
    ShortBlades,
}

#[uniffi::remote(Record)]
pub struct ModelAccuracy {
    pub basis: ModelBasis,
    pub thrust_percent: Option<f64>,
    pub power_percent: Option<f64>,
}

/// The section of small symmetric blades, as measured.
#[uniffi::export]
pub fn small_symmetric_section() -> SectionPolar {
    SectionPolar::SMALL_SYMMETRIC
}

/// The worst that the element model was off against measured rotors like this one, to be shown beside its figures.
#[uniffi::export]
pub fn model_accuracy(loads: RotorLoads) -> ModelAccuracy {
    rotor::model_accuracy(&loads)
}

/// Thrust, torque and power for a collective, in hover or climb.
#[uniffi::export]
pub fn rotor_loads(point: RotorPoint) -> Result<RotorLoads> {
    Ok(rotor::rotor_loads(&point)?)
}

/// Ideal hover power of a thrust (N, 0.01 to 1e5) over a disc (radius 0.03 to 10 m) in air (0.5 to 1.8 kg/m3).
#[uniffi::export]
pub fn momentum_hover(thrust_n: f64, radius_m: f64, density_kg_m3: f64) -> Result<MomentumHover> {
    Ok(rotor::momentum_hover(thrust_n, radius_m, density_kg_m3)?)
}

/// Profile power at constant drag, in W: `rho A (Omega R)^3 sigma Cd0 / 8`.
#[uniffi::export]
pub fn profile_power(
    solidity: f64,
    drag_zero: f64,
    radius_m: f64,
    speed_rpm: f64,
    density_kg_m3: f64,
) -> Result<f64> {
    Ok(rotor::profile_power(solidity, drag_zero, radius_m, speed_rpm, density_kg_m3)?)
}

/// Thrust coefficient of an untwisted, uncut blade with uniform inflow and no tip loss.
#[uniffi::export]
pub fn uniform_inflow_thrust(solidity: f64, lift_slope_per_rad: f64, collective_deg: f64) -> Result<f64> {
    Ok(rotor::uniform_inflow_thrust(solidity, lift_slope_per_rad, collective_deg)?)
}

/// Collective and main rotor power for a mass, in hover or climb, out of ground effect.
#[uniffi::export]
pub fn hover_power(question: HoverQuestion) -> Result<HoverReport> {
    Ok(rotor::hover(&question)?)
}

/// Hover head room at a density altitude.
#[uniffi::export]
pub fn head_room(question: HeadRoomQuestion) -> Result<HeadRoomReport> {
    Ok(rotor::head_room(&question)?)
}

/// Climb power by momentum theory, in W: `T (Vc/2 + sqrt((Vc/2)^2 + v_h^2))`, induced and climb together.
#[uniffi::export]
pub fn climb_power(thrust_n: f64, radius_m: f64, density_kg_m3: f64, climb_m_s: f64) -> Result<f64> {
    Ok(rotor::climb_power(thrust_n, radius_m, density_kg_m3, climb_m_s)?)
}

/// Ground effect in hover, orientation only: published power ratios at one radius run from .84 to .94.
#[uniffi::export]
pub fn ground_effect(height_over_radius: f64) -> Result<GroundEffect> {
    Ok(rotor::ground_effect(height_over_radius)?)
}

/// Tail thrust and power in hover.
#[uniffi::export]
pub fn tail_rotor(question: TailQuestion) -> Result<TailReport> {
    Ok(rotor::tail(&question)?)
}
