//! Main rotor in hover and climb, ground effect, tail rotor, and the head room that is left in thin air.
//!
//! Two models stand beside each other. *Momentum theory* gives the ideal power, a lower bound. *Blade-element momentum theory*
//! with Prandtl's tip loss and a section polar gives thrust and power of a real, small rotor for a collective.
//!
//! # How good it is
//! One section for all rotors, from section tables, one induced factor from the textbooks, and nothing fitted to a rotor. Held against
//! rotors of this class's scale that were measured:
//!
//! NACA TN-626 (1937, two to five blades, tip Reynolds number 242,000), pitch of 6 degrees and more, 19 points: thrust reads 2 % low in
//! the mean, 6 % at worst; power at the same pitch 3 % low in the mean, 11 % at worst; power at the same thrust, which is what a hover asks
//! for, 0.8 % low in the mean, 5 % at worst. Below 6 degrees thrust reads up to 21 % high and power up to 25 %: at no lift the same blades
//! took a drag of .0090 to .0126, by how many of them were on the hub, so that no one section can do better.
//!
//! NACA TN-2474 (1951, three blades), `C_T` over .0015: thrust reads 4 % low in the mean, 14 % at worst; two runs of one of its rotors lie 8 %
//! apart. The torque above the zero-thrust torque reads 4 % high in the mean, -17 to +22 %. NASA TM-81232 (1981, two blades of aspect ratio
//! 6): thrust reads 16 to 25 % high; strong tip vortices are outside this model. A four-bladed rotor of Leishman's textbook (tip Reynolds
//! number above 500,000): power at the same thrust reads 9 to 10 % high.
//!
//! Small rotors are not large ones: measured power is 1.35 to 1.56 times ideal where constant drag is counted off.

use std::f64::consts::PI;

use serde::{Deserialize, Serialize};

use super::air::{Air, G0_M_S2, check_air, standard_air};
use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::grade::Grade;
use super::require::within;

/// Blade elements along the span; 40 hold thrust to 0.5 % of 200.
const ELEMENTS: usize = 40;
/// Induced velocity over that of momentum theory: the textbooks' induced power factor of a hovering rotor (1.15; Leishman, Principles of
/// Helicopter Aerodynamics; from memory). It stands for what rings that do not know each other leave out: the wake contracts and turns.
/// With the uneven inflow and the tips, which the elements see, induced power comes to 1.35 times the ideal at TN-626's pitch of 8 degrees.
const INDUCED_FACTOR: f64 = 1.15;
/// Blade loading C_T/sigma above which little is left for manoeuvre (common practice, no source).
pub const BLADE_LOADING_CAUTION: f64 = 0.09;
/// Blade loading C_T/sigma above which the blades are about to stall (common practice, no source).
pub const BLADE_LOADING_STOP: f64 = 0.12;
/// Tip Mach number above which drag and noise grow fast (common practice, no source).
pub const TIP_MACH_CAUTION: f64 = 0.6;

/// What a blade section does, as plain numbers.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SectionPolar {
    /// Lift curve slope of slow air, per rad, 3 to 7.
    pub lift_slope_per_rad: f64,
    /// Greatest lift coefficient, 0.3 to 2.
    pub lift_limit: f64,
    /// Drag coefficient at no lift and the reference Reynolds number, 0.004 to 0.1.
    pub drag_zero: f64,
    /// Growth of drag with the angle of attack squared, per rad2, 0 to 10.
    pub drag_alpha2_per_rad2: f64,
    /// Reynolds number of the chord for which `drag_zero` was measured, 1e4 to 1e7.
    pub reference_reynolds: f64,
    /// Power with which drag falls as the Reynolds number grows, 0 to 0.5.
    pub reynolds_exponent: f64,
}

impl SectionPolar {
    /// A symmetrical section of about 15 % thickness at this class's Reynolds numbers, from tables of the section NACA 0015 alone. Lift
    /// slope 0.11 per degree, bending over to .83 from 5 degrees on, and drag growing by 0.385 alpha squared: Sheldahl and Klimas, SAND80-2114
    /// (1981), at 160,000. Least drag .0113 at 242,000: NACA TN-626, Table V. Falling with the fifth root of the Reynolds number: turbulent
    /// skin friction.
    pub const SMALL_SYMMETRIC: Self = Self {
        lift_slope_per_rad: 6.30,
        lift_limit: 0.85,
        drag_zero: 0.0113,
        drag_alpha2_per_rad2: 0.385,
        reference_reynolds: 242_000.0,
        reynolds_exponent: 0.2,
    };

    /// Lift: a straight line, steeper by `compressed`, that bends over to the limit; the sixth power keeps it straight up to two thirds of it.
    fn lift(&self, alpha_rad: f64, compressed: f64) -> f64 {
        let straight = self.lift_slope_per_rad * compressed * alpha_rad;
        let share2 = (straight / self.lift_limit).powi(2);
        straight / (1.0 + share2 * share2 * share2).sqrt().cbrt()
    }

    fn drag(&self, alpha_rad: f64, reynolds: f64) -> f64 {
        let thicker = (self.reference_reynolds / reynolds.max(1e3)).powf(self.reynolds_exponent);
        self.drag_zero * thicker + self.drag_alpha2_per_rad2 * alpha_rad * alpha_rad
    }

    fn check(&self) -> Result<()> {
        within("lift slope", self.lift_slope_per_rad, "per rad", 3.0, 7.0)?;
        within("lift limit", self.lift_limit, "", 0.3, 2.0)?;
        within("section drag", self.drag_zero, "", 0.004, 0.1)?;
        within("section drag growth", self.drag_alpha2_per_rad2, "per rad2", 0.0, 10.0)?;
        within("reference Reynolds number", self.reference_reynolds, "", 1e4, 1e7)?;
        within("Reynolds exponent", self.reynolds_exponent, "", 0.0, 0.5)?;
        Ok(())
    }
}

/// A rotor with blades of constant chord.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Rotor {
    /// Blades, 1 to 12.
    pub blades: u32,
    /// Radius to the tip, in m, 0.03 to 10.
    pub radius_m: f64,
    /// Chord, in m, 0.003 to 2.
    pub chord_m: f64,
    /// Where the blade's contour begins, as a share of the radius, 0.02 to 0.6.
    pub root_fraction: f64,
    /// Twist from the middle of the shaft to the tip, in deg, -30 to 10; negative washes the tip out.
    pub twist_deg: f64,
    /// The section.
    pub polar: SectionPolar,
}

impl Rotor {
    /// Blade area over disc area: blades x chord / (pi x radius).
    pub fn solidity(&self) -> f64 {
        f64::from(self.blades) * self.chord_m / (PI * self.radius_m)
    }

    fn check(&self) -> Result<()> {
        within("blades", f64::from(self.blades), "", 1.0, 12.0)?;
        within("rotor radius", self.radius_m, "m", 0.03, 10.0)?;
        within("blade chord", self.chord_m, "m", 0.003, 2.0)?;
        within("blade root", self.root_fraction, "of the radius", 0.02, 0.6)?;
        within("blade twist", self.twist_deg, "deg", -30.0, 10.0)?;
        self.polar.check()?;
        if self.solidity() > 0.5 || self.chord_m > self.radius_m {
            return Err(EngineeringError::from(Conflict::DiscTooFull {
                chord_m: self.chord_m,
                percent: 100.0 * self.solidity(),
                radius_m: self.radius_m,
            }));
        }
        Ok(())
    }
}

/// A rotor at work.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RotorPoint {
    /// The rotor.
    pub rotor: Rotor,
    /// The air.
    pub air: Air,
    /// Rotor speed, in rpm, 10 to 30000.
    pub speed_rpm: f64,
    /// Collective at 75 % of the radius, in deg, 0 to 20.
    pub collective_deg: f64,
    /// Climb, in m/s, 0 to 30; 0 is hover.
    pub climb_m_s: f64,
}

/// Thrust and power of a rotor by blade-element momentum theory.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RotorLoads {
    /// What went in.
    pub inputs: RotorPoint,
    /// Thrust, in N.
    pub thrust_n: f64,
    /// Shaft torque, in N m.
    pub torque_nm: f64,
    /// Shaft power, in W.
    pub power_w: f64,
    /// The part of the power that section drag takes, in W.
    pub profile_w: f64,
    /// C_T = T / (rho pi R2 (Omega R)2).
    pub thrust_coefficient: f64,
    /// C_P = P / (rho pi R2 (Omega R)3), equal to C_Q.
    pub power_coefficient: f64,
    /// Ideal hover power for this thrust over the power; in hover the figure of merit.
    pub figure_of_merit: f64,
    /// C_T / solidity.
    pub blade_loading: f64,
    /// Tip speed, in m/s.
    pub tip_speed_m_s: f64,
    /// Tip speed over the speed of sound.
    pub tip_mach: f64,
    /// Reynolds number of the tip's chord.
    pub tip_reynolds: f64,
}

/// Thrust, torque and power for a collective, in hover or climb.
///
/// # Errors
/// Figures out of range; blades that do not fit their disc; a tip beyond Mach 0.9, where the section data mean nothing.
///
/// # Validity
/// See the module: this class's small rotors, 6 degrees of pitch and more.
///
/// ```
/// use liftgate_core::engineering::{air, rotor::{rotor_loads, Rotor, RotorPoint, SectionPolar}};
/// // NACA TN-626, two blades at 8 degrees: measured C_T .00325, C_Q .000247.
/// let rotor = Rotor { blades: 2, radius_m: 0.762, chord_m: 0.0508, root_fraction: 0.167, twist_deg: 0.0, polar: SectionPolar::SMALL_SYMMETRIC };
/// let loads = rotor_loads(&RotorPoint { rotor, air: air::standard_air(0.0)?, speed_rpm: 960.0, collective_deg: 8.0, climb_m_s: 0.0 })?;
/// assert!((loads.thrust_coefficient / 0.00325 - 1.0).abs() < 0.06);
/// assert!((loads.power_coefficient / 0.000247 - 1.0).abs() < 0.05);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn rotor_loads(point: &RotorPoint) -> Result<RotorLoads> {
    point.rotor.check()?;
    check_air(&point.air)?;
    within("rotor speed", point.speed_rpm, "rpm", 10.0, 30_000.0)?;
    within("collective", point.collective_deg, "deg", 0.0, 20.0)?;
    within("climb", point.climb_m_s, "m/s", 0.0, 30.0)?;
    let tip_speed_m_s = tip_speed(point.rotor.radius_m, point.speed_rpm);
    check_tip(tip_speed_m_s, &point.air)?;
    let tip_reynolds = point.air.density_kg_m3 * tip_speed_m_s * point.rotor.chord_m / point.air.viscosity_pa_s;
    let tip_mach = tip_speed_m_s / point.air.sound_m_s;
    let climb_ratio = point.climb_m_s / tip_speed_m_s;
    let span = Span { rotor: &point.rotor, solidity: point.rotor.solidity(), tip_reynolds, tip_mach, climb_ratio };
    let sums = span.integrate(point.collective_deg.to_radians());
    let area_m2 = PI * point.rotor.radius_m.powi(2);
    let force_n = point.air.density_kg_m3 * area_m2 * tip_speed_m_s.powi(2);
    let thrust_n = sums.thrust * force_n;
    let power_w = sums.power * force_n * tip_speed_m_s;
    Ok(RotorLoads {
        inputs: *point,
        thrust_n,
        torque_nm: sums.power * force_n * point.rotor.radius_m,
        power_w,
        profile_w: sums.profile * force_n * tip_speed_m_s,
        thrust_coefficient: sums.thrust,
        power_coefficient: sums.power,
        figure_of_merit: sums.thrust.max(0.0).powf(1.5) / (2f64.sqrt() * sums.power),
        blade_loading: sums.thrust / point.rotor.solidity(),
        tip_speed_m_s,
        tip_mach,
        tip_reynolds,
    })
}

/// How far the element model may be trusted at a point, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ModelBasis {
    /// Like the rotors that it was held against (NACA TN-626 and TN-2474).
    Measured,
    /// Tip Reynolds number outside the measured 150,000 to 400,000: section drag is carried on by its power law.
    OtherReynolds,
    /// Collective under 6 degrees, where the measured rotors made less thrust than the model.
    LowCollective,
    /// Radius under ten chords: strong tip vortices, which the model does not know (NASA TM-81232, six chords).
    ShortBlades,
}

/// What to say beside a figure of the element model.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ModelAccuracy {
    /// Why.
    pub basis: ModelBasis,
    /// Thrust may be off by this, in percent, as seen against measured rotors; none where nothing was measured.
    pub thrust_percent: Option<f64>,
    /// Power may be off by this, in percent; none where nothing was measured.
    pub power_percent: Option<f64>,
}

/// The worst that the element model was off against measured rotors like this one, to be shown beside its figures.
///
/// Figures are those of the tests: thrust 14 %, power 11 % at 6 degrees and more; thrust 50 %, power 26 % below; thrust 25 % for
/// short blades. They are the worst of a few rotors at a pitch, not an interval. At a thrust, power was off by 5 %.
///
/// ```
/// use liftgate_core::engineering::{air, rotor::*};
/// let rotor = Rotor { blades: 2, radius_m: 0.762, chord_m: 0.0508, root_fraction: 0.167, twist_deg: 0.0, polar: SectionPolar::SMALL_SYMMETRIC };
/// let loads = rotor_loads(&RotorPoint { rotor, air: air::standard_air(0.0)?, speed_rpm: 960.0, collective_deg: 8.0, climb_m_s: 0.0 })?;
/// assert_eq!(model_accuracy(&loads).basis, ModelBasis::Measured);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn model_accuracy(loads: &RotorLoads) -> ModelAccuracy {
    let rotor = &loads.inputs.rotor;
    let (basis, thrust_percent, power_percent) = if rotor.radius_m < 10.0 * rotor.chord_m {
        (ModelBasis::ShortBlades, Some(25.0), None)
    } else if !(150_000.0..=400_000.0).contains(&loads.tip_reynolds) {
        // Whatever the collective: a figure seen at another Reynolds number is none for this one.
        (ModelBasis::OtherReynolds, None, None)
    } else if loads.inputs.collective_deg < 6.0 {
        (ModelBasis::LowCollective, Some(50.0), Some(26.0))
    } else {
        (ModelBasis::Measured, Some(14.0), Some(11.0))
    };
    ModelAccuracy { basis, thrust_percent, power_percent }
}

fn check_tip(tip_speed_m_s: f64, air: &Air) -> Result<()> {
    within("tip Mach number", tip_speed_m_s / air.sound_m_s, "", 0.0, 0.9)?;
    Ok(())
}

/// Tip speed from radius and rotor speed, unchecked.
fn tip_speed(radius_m: f64, speed_rpm: f64) -> f64 {
    radius_m * speed_rpm * 2.0 * PI / 60.0
}

/// Coefficients of thrust, power and the profile part of power.
#[derive(Default)]
struct Sums {
    thrust: f64,
    power: f64,
    profile: f64,
}

/// What is the same for every collective of one rotor.
struct Span<'a> {
    rotor: &'a Rotor,
    solidity: f64,
    tip_reynolds: f64,
    tip_mach: f64,
    climb_ratio: f64,
}

/// A place along the blade.
#[derive(Clone, Copy)]
struct Element {
    /// Distance from the shaft, as a share of the radius.
    r: f64,
    pitch_rad: f64,
    /// Lift slope over that of slow air: Prandtl and Glauert, 1 / sqrt(1 - M2).
    compressed: f64,
}

impl Span<'_> {
    fn element(&self, r: f64, collective_rad: f64) -> Element {
        let pitch_rad = collective_rad + self.rotor.twist_deg.to_radians() * (r - 0.75);
        let mach = self.tip_mach * r;
        Element { r, pitch_rad, compressed: 1.0 / (1.0 - mach * mach).sqrt() }
    }

    fn integrate(&self, collective_rad: f64) -> Sums {
        let mut sums = Sums::default();
        let step = (1.0 - self.rotor.root_fraction) / ELEMENTS as f64;
        for i in 0..ELEMENTS {
            let element = self.element(self.rotor.root_fraction + (i as f64 + 0.5) * step, collective_rad);
            let phi = self.inflow_angle(element);
            let (sin, cos) = phi.sin_cos();
            let alpha = element.pitch_rad - phi;
            let lift = self.rotor.polar.lift(alpha, element.compressed);
            let drag = self.rotor.polar.drag(alpha, self.tip_reynolds * element.r);
            // Blade speed squared at the element, in tip speeds: r^2 / cos^2 phi.
            let pressure = 0.5 * self.solidity * (element.r / cos).powi(2) * step;
            sums.thrust += pressure * (lift * cos - drag * sin);
            sums.power += pressure * (lift * sin + drag * cos) * element.r;
            sums.profile += pressure * drag * cos * element.r;
        }
        sums
    }

    /// Element thrust less momentum thrust: positive while the inflow angle is too small. Momentum theory's own induced velocity is the
    /// smaller one, without [`INDUCED_FACTOR`].
    fn imbalance(&self, element: Element, phi: f64) -> f64 {
        let Element { r, pitch_rad, compressed } = element;
        let (sin, cos) = phi.sin_cos();
        let induced = (r * sin / cos - self.climb_ratio) / INDUCED_FACTOR;
        let blade = 0.5 * self.solidity * self.rotor.polar.lift(pitch_rad - phi, compressed) * r * r / cos;
        blade - 4.0 * self.tip_loss(r, sin) * (self.climb_ratio + induced) * induced * r
    }

    /// Prandtl's factor, from the spacing of the vortex sheets at the tip.
    fn tip_loss(&self, r: f64, sin_phi: f64) -> f64 {
        let spacing = 0.5 * f64::from(self.rotor.blades) * (1.0 - r) / (r * sin_phi.max(1e-9));
        2.0 / PI * (-spacing.min(50.0)).exp().acos()
    }

    /// Inflow angle where blade and momentum agree: secant steps from the closed form without tip loss, halved where they leave the
    /// bracket. An element whose pitch does not exceed the angle of the climb alone induces nothing.
    fn inflow_angle(&self, element: Element) -> f64 {
        let Element { r, pitch_rad, .. } = element;
        let climb_angle = self.climb_ratio.atan2(r);
        if pitch_rad <= climb_angle {
            return climb_angle;
        }
        let (mut low, mut high) = (climb_angle, pitch_rad);
        let mut phi = self.first_guess(r, pitch_rad).clamp(low + 0.02 * (high - low), high - 0.02 * (high - low));
        let mut before: Option<(f64, f64)> = None;
        for _ in 0..60 {
            let value = self.imbalance(element, phi);
            if value > 0.0 {
                low = phi;
            } else {
                high = phi;
            }
            let next = match before {
                Some((other, other_value)) => phi - value * (phi - other) / (value - other_value),
                None => phi + 0.1 * (if value > 0.0 { high } else { low } - phi),
            };
            before = Some((phi, value));
            let next = if next > low && next < high { next } else { 0.5 * (low + high) };
            if (next - phi).abs() < 1e-9 {
                return next;
            }
            phi = next;
        }
        phi
    }

    /// Inflow angle of a straight lift curve without tip loss, for which blade and momentum balance in closed form.
    fn first_guess(&self, r: f64, pitch_rad: f64) -> f64 {
        let eighth = self.solidity * self.rotor.polar.lift_slope_per_rad / 8.0;
        let half = 0.5 * (eighth - self.climb_ratio);
        let inflow = (half * half + eighth * pitch_rad * r).sqrt() - half;
        (inflow / r).atan()
    }
}

/// Hover by momentum theory: the ideal, never reached.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct MomentumHover {
    /// Induced velocity, in m/s: sqrt(T / (2 rho A)).
    pub induced_m_s: f64,
    /// Ideal power, in W.
    pub ideal_w: f64,
    /// Thrust over disc area, in N/m2.
    pub disc_loading_n_m2: f64,
}

/// Ideal hover power of a thrust (N, 0.01 to 1e5) over a disc (radius 0.03 to 10 m) in air (0.5 to 1.8 kg/m3).
///
/// # Errors
/// Figures out of range.
///
/// ```
/// let hover = liftgate_core::engineering::rotor::momentum_hover(11.0 * 9.80665, 1.0, 1.225)?;
/// assert!((hover.induced_m_s - 3.74368).abs() < 1e-4 && (hover.ideal_w - 403.843).abs() < 1e-2);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn momentum_hover(thrust_n: f64, radius_m: f64, density_kg_m3: f64) -> Result<MomentumHover> {
    within("thrust", thrust_n, "N", 0.01, 1e5)?;
    within("rotor radius", radius_m, "m", 0.03, 10.0)?;
    within("air density", density_kg_m3, "kg/m3", 0.5, 1.8)?;
    let area_m2 = PI * radius_m * radius_m;
    let induced_m_s = (thrust_n / (2.0 * density_kg_m3 * area_m2)).sqrt();
    Ok(MomentumHover { induced_m_s, ideal_w: thrust_n * induced_m_s, disc_loading_n_m2: thrust_n / area_m2 })
}

/// Profile power at constant drag, in W: `rho A (Omega R)^3 sigma Cd0 / 8`.
///
/// # Errors
/// Figures out of range (solidity 0.001 to 0.5, drag 0.004 to 0.1, radius 0.03 to 10 m, 10 to 30000 rpm, density 0.5 to 1.8).
///
/// # Validity
/// Orientation only: at this class's scale drag is not constant, and ideal x 1.15 plus this reads 15 % low on average, 22 % at worst
/// (NACA TN-626). Use [`hover`].
///
/// ```
/// let power_w = liftgate_core::engineering::rotor::profile_power(0.05, 0.0113, 0.8, 1800.0, 1.225)?;
/// assert!((power_w - 596.48).abs() < 0.01);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn profile_power(
    solidity: f64,
    drag_zero: f64,
    radius_m: f64,
    speed_rpm: f64,
    density_kg_m3: f64,
) -> Result<f64> {
    within("solidity", solidity, "", 0.001, 0.5)?;
    within("section drag", drag_zero, "", 0.004, 0.1)?;
    within("rotor radius", radius_m, "m", 0.03, 10.0)?;
    within("rotor speed", speed_rpm, "rpm", 10.0, 30_000.0)?;
    within("air density", density_kg_m3, "kg/m3", 0.5, 1.8)?;
    let tip_m_s = tip_speed(radius_m, speed_rpm);
    Ok(density_kg_m3 * PI * radius_m.powi(2) * tip_m_s.powi(3) * solidity * drag_zero / 8.0)
}

/// Thrust coefficient of an untwisted, uncut blade with uniform inflow and no tip loss: the closed form that the element
/// model is held against. Solidity 0.001 to 0.5, lift slope 3 to 7 per rad, collective 0 to 20 deg.
///
/// # Errors
/// Figures out of range.
///
/// ```
/// let ct = liftgate_core::engineering::rotor::uniform_inflow_thrust(0.1061, std::f64::consts::TAU, 8.0)?;
/// assert!((ct - 0.00622).abs() < 5e-6);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn uniform_inflow_thrust(solidity: f64, lift_slope_per_rad: f64, collective_deg: f64) -> Result<f64> {
    within("solidity", solidity, "", 0.001, 0.5)?;
    within("lift slope", lift_slope_per_rad, "per rad", 3.0, 7.0)?;
    within("collective", collective_deg, "deg", 0.0, 20.0)?;
    let half = solidity * lift_slope_per_rad / 2.0;
    let linear = half / (2.0 * 2f64.sqrt());
    let root = (linear * linear + 4.0 * half * collective_deg.to_radians() / 3.0).sqrt();
    Ok((0.5 * (root - linear)).powi(2))
}

/// An aircraft to hover or climb.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HoverQuestion {
    /// The main rotor.
    pub rotor: Rotor,
    /// The air.
    pub air: Air,
    /// Head speed, in rpm, 10 to 30000.
    pub speed_rpm: f64,
    /// All-up mass, in kg, 0.05 to 500.
    pub mass_kg: f64,
    /// Download of the wake on the body, as a share of the weight, 0 to 0.3 (a few percent for a scale body; common practice, no source).
    pub download_fraction: f64,
    /// Climb, in m/s, 0 to 30; 0 is hover.
    pub climb_m_s: f64,
}

/// What a hover or a climb takes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HoverReport {
    /// What went in.
    pub inputs: HoverQuestion,
    /// Collective at 75 % of the radius, in deg.
    pub collective_deg: f64,
    /// Thrust, power and coefficients at that collective.
    pub loads: RotorLoads,
    /// Ideal hover power at the same thrust, in W.
    pub ideal_w: f64,
    /// Thrust over disc area, in N/m2.
    pub disc_loading_n_m2: f64,
    /// Room to [`BLADE_LOADING_STOP`], in percent of it.
    pub blade_loading_margin_percent: f64,
    /// Stop above [`BLADE_LOADING_STOP`]; caution above [`BLADE_LOADING_CAUTION`] or [`TIP_MACH_CAUTION`].
    pub grade: Grade,
}

/// Collective and main rotor power for a mass, in hover or climb, out of ground effect.
///
/// # Errors
/// Figures out of range, or a mass that the rotor cannot lift at that speed with 20 degrees of collective.
///
/// ```
/// use liftgate_core::engineering::{air, rotor::{hover, HoverQuestion, Rotor, SectionPolar}};
/// let rotor = Rotor { blades: 3, radius_m: 0.9, chord_m: 0.07, root_fraction: 0.17, twist_deg: 0.0, polar: SectionPolar::SMALL_SYMMETRIC };
/// let report = hover(&HoverQuestion { rotor, air: air::standard_air(0.0)?, speed_rpm: 1200.0, mass_kg: 10.0, download_fraction: 0.03, climb_m_s: 0.0 })?;
/// assert!(report.loads.power_w > 1.3 * report.ideal_w);
/// assert!((report.loads.thrust_n - 10.0 * 9.80665 * 1.03).abs() < 0.01);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn hover(question: &HoverQuestion) -> Result<HoverReport> {
    within("all-up mass", question.mass_kg, "kg", 0.05, 500.0)?;
    within("download", question.download_fraction, "of the weight", 0.0, 0.3)?;
    let thrust_n = question.mass_kg * G0_M_S2 * (1.0 + question.download_fraction);
    let point = |collective_deg| RotorPoint {
        rotor: question.rotor,
        air: question.air,
        speed_rpm: question.speed_rpm,
        collective_deg,
        climb_m_s: question.climb_m_s,
    };
    let (mut low_deg, mut high_deg) = (0.0, 20.0);
    let most_n = rotor_loads(&point(high_deg))?.thrust_n;
    if most_n < thrust_n {
        return Err(EngineeringError::from(Conflict::LiftsTooLittle {
            rpm: question.speed_rpm,
            most_kg: most_n / G0_M_S2,
            mass_kg: question.mass_kg,
        }));
    }
    // Thrust grows with the collective all the way: secant steps, halved where they leave the bracket.
    let mut guess_deg = 6.0;
    let mut before = (high_deg, most_n - thrust_n);
    let mut loads = rotor_loads(&point(guess_deg))?;
    for _ in 0..60 {
        let above_n = loads.thrust_n - thrust_n;
        if above_n.abs() < 1e-8 * thrust_n || high_deg - low_deg < 1e-12 {
            break;
        }
        if above_n < 0.0 {
            low_deg = guess_deg;
        } else {
            high_deg = guess_deg;
        }
        let secant_deg = guess_deg - above_n * (guess_deg - before.0) / (above_n - before.1);
        before = (guess_deg, above_n);
        guess_deg =
            if secant_deg > low_deg && secant_deg < high_deg { secant_deg } else { 0.5 * (low_deg + high_deg) };
        loads = rotor_loads(&point(guess_deg))?;
    }
    if (loads.thrust_n / thrust_n - 1.0).abs() > 1e-5 {
        return Err(EngineeringError::from(Conflict::LiftsTooMuch {
            rpm: question.speed_rpm,
            mass_kg: question.mass_kg,
        }));
    }
    hover_report(question, loads)
}

fn hover_report(question: &HoverQuestion, loads: RotorLoads) -> Result<HoverReport> {
    let ideal = momentum_hover(loads.thrust_n, question.rotor.radius_m, question.air.density_kg_m3)?;
    let grade = if loads.blade_loading > BLADE_LOADING_STOP {
        Grade::Stop
    } else if loads.blade_loading > BLADE_LOADING_CAUTION || loads.tip_mach > TIP_MACH_CAUTION {
        Grade::Caution
    } else {
        Grade::Ok
    };
    Ok(HoverReport {
        inputs: *question,
        collective_deg: loads.inputs.collective_deg,
        loads,
        ideal_w: ideal.ideal_w,
        disc_loading_n_m2: ideal.disc_loading_n_m2,
        blade_loading_margin_percent: 100.0 * (1.0 - loads.blade_loading / BLADE_LOADING_STOP),
        grade,
    })
}

/// What is left at a density altitude.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HeadRoomQuestion {
    /// The hover; its air is replaced by the standard air at `density_altitude_m`.
    pub hover: HoverQuestion,
    /// Shaft power that the drive can hold at the rotor, in W, 1 to 100000.
    pub available_w: f64,
    /// Density altitude, in m, -500 to 5000.
    pub density_altitude_m: f64,
}

/// Power left over at a density altitude.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HeadRoomReport {
    /// What went in.
    pub inputs: HeadRoomQuestion,
    /// The hover at that altitude.
    pub hover: HoverReport,
    /// Available less needed power, in W; negative when the drive cannot hold it.
    pub margin_w: f64,
    /// The same in percent of the available power.
    pub margin_percent: f64,
    /// Power needed there over the power needed at standard sea level.
    pub power_ratio: f64,
    /// Stop without power to spare or past the blade loading limit; caution under a quarter to spare (common practice, no source).
    pub grade: Grade,
}

/// Hover head room at a density altitude.
///
/// # Errors
/// As [`hover`], or figures out of range.
///
/// # Validity
/// Thin air is taken as standard air of that altitude: the Reynolds number differs a little from hot air of the same density.
///
/// ```
/// use liftgate_core::engineering::{air, rotor::*};
/// let rotor = Rotor { blades: 2, radius_m: 0.8, chord_m: 0.06, root_fraction: 0.17, twist_deg: 0.0, polar: SectionPolar::SMALL_SYMMETRIC };
/// let hover = HoverQuestion { rotor, air: air::standard_air(0.0)?, speed_rpm: 1500.0, mass_kg: 6.0, download_fraction: 0.0, climb_m_s: 0.0 };
/// let report = head_room(&HeadRoomQuestion { hover, available_w: 1500.0, density_altitude_m: 2000.0 })?;
/// assert!(report.margin_w > 0.0);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn head_room(question: &HeadRoomQuestion) -> Result<HeadRoomReport> {
    within("available power", question.available_w, "W", 1.0, 100_000.0)?;
    check_air(&question.hover.air)?;
    let mut there = question.hover;
    there.air = standard_air(question.density_altitude_m)?;
    let mut at_sea = question.hover;
    at_sea.air = standard_air(0.0)?;
    let report = hover(&there)?;
    let sea_w = hover(&at_sea)?.loads.power_w;
    let needed_w = report.loads.power_w;
    Ok(HeadRoomReport {
        inputs: *question,
        margin_w: question.available_w - needed_w,
        margin_percent: 100.0 * (1.0 - needed_w / question.available_w),
        power_ratio: needed_w / sea_w,
        grade: report.grade.max(Grade::of_load(needed_w, question.available_w, 0.75)),
        hover: report,
    })
}

/// Climb power by momentum theory, in W: `T (Vc/2 + sqrt((Vc/2)^2 + v_h^2))`, induced and climb together.
///
/// # Errors
/// Figures out of range (climb 0 to 30 m/s).
///
/// # Validity
/// Ideal: add profile power, or use [`hover`] with its climb.
///
/// ```
/// use liftgate_core::engineering::rotor::{climb_power, momentum_hover};
/// let hover_w = momentum_hover(100.0, 1.0, 1.225)?.ideal_w;
/// assert!((climb_power(100.0, 1.0, 1.225, 0.0)? - hover_w).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn climb_power(thrust_n: f64, radius_m: f64, density_kg_m3: f64, climb_m_s: f64) -> Result<f64> {
    within("climb", climb_m_s, "m/s", 0.0, 30.0)?;
    let v_h = momentum_hover(thrust_n, radius_m, density_kg_m3)?.induced_m_s;
    Ok(thrust_n * (climb_m_s / 2.0 + (climb_m_s * climb_m_s / 4.0 + v_h * v_h).sqrt()))
}

/// Ground effect at one height.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct GroundEffect {
    /// Rotor height over rotor radius that was asked for.
    pub height_over_radius: f64,
    /// Thrust over free thrust at constant power: Cheeseman and Bennett, ARC R&M 3021 (1955), hover.
    pub thrust_ratio: f64,
    /// Induced power over free induced power at constant thrust: Hayden (1976), not above 1.
    pub induced_power_ratio: f64,
}

/// Ground effect in hover, orientation only: published power ratios at one radius run from .84 to .94.
///
/// # Errors
/// A height below half a radius, where neither formula holds, or above 20.
///
/// ```
/// let effect = liftgate_core::engineering::rotor::ground_effect(1.0)?;
/// assert!((effect.thrust_ratio - 1.06667).abs() < 1e-5 && (effect.induced_power_ratio - 0.87385).abs() < 1e-5);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn ground_effect(height_over_radius: f64) -> Result<GroundEffect> {
    within("rotor height over radius", height_over_radius, "", 0.5, 20.0)?;
    let thrust_ratio = 1.0 / (1.0 - (1.0 / (4.0 * height_over_radius)).powi(2));
    let power_ratio = 1.0 / (0.9926 + 0.03794 * (2.0 / height_over_radius).powi(2));
    Ok(GroundEffect { height_over_radius, thrust_ratio, induced_power_ratio: power_ratio.min(1.0) })
}

/// How a tail makes its thrust.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum TailKind {
    /// A rotor in the open.
    Open,
    /// A fan in a shroud, whose wake leaves with this share of the fan's area, 0.5 to 1.5. 0.5 is an open rotor's own contraction, 1 a
    /// straight duct.
    Shrouded {
        /// Wake area far behind over fan area.
        wake_area_ratio: f64,
    },
}

/// A tail that holds the main rotor's torque.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct TailQuestion {
    /// Main rotor shaft power, in W, 1 to 100000.
    pub main_power_w: f64,
    /// Head speed, in rpm, 10 to 30000.
    pub head_speed_rpm: f64,
    /// Distance from main shaft to tail shaft, in m, 0.1 to 10.
    pub arm_m: f64,
    /// Tail rotor or fan diameter, in m, 0.03 to 5.
    pub tail_diameter_m: f64,
    /// Air density, in kg/m3, 0.5 to 1.8.
    pub density_kg_m3: f64,
    /// Open or shrouded.
    pub kind: TailKind,
    /// Ideal over real power of the tail, 0.2 to 1; about 0.5 at this scale (common practice, no source).
    pub figure_of_merit: f64,
}

/// Thrust and power of a tail.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct TailReport {
    /// What went in.
    pub inputs: TailQuestion,
    /// Main rotor torque, in N m.
    pub main_torque_nm: f64,
    /// Tail thrust in hover, in N.
    pub thrust_n: f64,
    /// Velocity through the tail disc, in m/s.
    pub induced_m_s: f64,
    /// Ideal power, in W.
    pub ideal_w: f64,
    /// Power with the figure of merit, in W.
    pub power_w: f64,
    /// The same in percent of the main rotor's.
    pub share_percent: f64,
}

/// Tail thrust and power in hover. Ideal power is `T^1.5 / sqrt(4 s rho A)` with the wake's area ratio `s`: one half for an open rotor
/// (momentum theory), the duct's own for a shrouded one (ducted-fan momentum theory).
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// Hover without yaw or wind; the fin's blockage is not counted.
///
/// ```
/// use liftgate_core::engineering::rotor::{tail, TailKind, TailQuestion};
/// let report = tail(&TailQuestion { main_power_w: 1200.0, head_speed_rpm: 1600.0, arm_m: 0.95, tail_diameter_m: 0.30,
///     density_kg_m3: 1.225, kind: TailKind::Open, figure_of_merit: 1.0 })?;
/// assert!((report.thrust_n - 7.53892).abs() < 1e-4 && (report.ideal_w - 49.741).abs() < 1e-3);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn tail(question: &TailQuestion) -> Result<TailReport> {
    let q = question;
    within("main rotor power", q.main_power_w, "W", 1.0, 100_000.0)?;
    within("head speed", q.head_speed_rpm, "rpm", 10.0, 30_000.0)?;
    within("tail arm", q.arm_m, "m", 0.1, 10.0)?;
    within("tail diameter", q.tail_diameter_m, "m", 0.03, 5.0)?;
    within("air density", q.density_kg_m3, "kg/m3", 0.5, 1.8)?;
    within("figure of merit of the tail", q.figure_of_merit, "", 0.2, 1.0)?;
    let wake_ratio = match q.kind {
        TailKind::Open => 0.5,
        TailKind::Shrouded { wake_area_ratio } => within("wake area ratio", wake_area_ratio, "", 0.5, 1.5)?,
    };
    let main_torque_nm = q.main_power_w / (q.head_speed_rpm * 2.0 * PI / 60.0);
    let thrust_n = main_torque_nm / q.arm_m;
    let area_m2 = PI * q.tail_diameter_m.powi(2) / 4.0;
    let ideal_w = thrust_n.powf(1.5) / (4.0 * wake_ratio * q.density_kg_m3 * area_m2).sqrt();
    // Thrust is momentum through the disc at the wake's speed: T = rho A v w, w = v / s.
    let induced_m_s = (thrust_n * wake_ratio / (q.density_kg_m3 * area_m2)).sqrt();
    let power_w = ideal_w / q.figure_of_merit;
    Ok(TailReport {
        inputs: *q,
        main_torque_nm,
        thrust_n,
        induced_m_s,
        ideal_w,
        power_w,
        share_percent: 100.0 * power_w / q.main_power_w,
    })
}
