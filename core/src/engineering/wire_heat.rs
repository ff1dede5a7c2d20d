//! How warm a wire gets: what its resistance heats against what still air and radiation take away.
//!
//! The surface is that of the insulation where its diameter is known, else that of the bare conductor: insulation of this size only adds to
//! it (its critical radius, conductivity over heat transfer, is some 10 mm), so the wire is then cooler than said.
//!
//! Sources: Churchill and Chu 1975 for natural convection round a horizontal cylinder, up to a Rayleigh number of 1e12 (Incropera, equation
//! 9.34); Sutherland's law for the viscosity and the conductivity of air (White, Viscous Fluid Flow, from memory); Hottel's crossed strings
//! for two cylinders that touch. Held against FAA AC 43.13-1B, figure 11-4a as its page 11-27 reads it: a single wire of size 14 carries 47 A
//! at 150 K above the air.

use std::f64::consts::PI;

/// Surface of the insulation against that of a black body (plastics and rubber: 0.9 and more, Incropera, table A.11).
const EMISSIVITY: f64 = 0.9;
/// Stefan and Boltzmann's constant, in W/m2/K4.
const RADIATION_W_M2_K4: f64 = 5.670_374e-8;
/// Conductivity of insulation, in W/m/K: silicone and PVC 0.17 to 0.2 and more (from memory).
const INSULATION_W_M_K: f64 = 0.17;
/// Share of its surface that each of two round wires that touch shows to the air: the string round both, against both rims.
const OF_A_PAIR: f64 = (PI + 2.0) / (2.0 * PI);
/// Deg C to K.
const ZERO_C_K: f64 = 273.15;

/// One of two wires side by side.
pub(super) struct Surface {
    /// Diameter of the copper, in m.
    pub copper_m: f64,
    /// Diameter over the insulation, in m; that of the copper where it is not known.
    pub outside_m: f64,
    /// Temperature of the air, in deg C.
    pub air_c: f64,
}

impl Surface {
    /// Heat that the wire gives to the air, in W/m, and the temperature of its copper, in deg C, where its surface is at `surface_c`.
    pub fn lost_w_per_m(&self, surface_c: f64) -> (f64, f64) {
        let rise_k = surface_c - self.air_c;
        let (hot_k, air_k) = (surface_c + ZERO_C_K, self.air_c + ZERO_C_K);
        let convected = convection_w_m2_k(self.outside_m, rise_k, f64::midpoint(hot_k, air_k)) * rise_k;
        let radiated = EMISSIVITY * RADIATION_W_M2_K4 * (hot_k.powi(4) - air_k.powi(4));
        let lost = OF_A_PAIR * PI * self.outside_m * (convected + radiated);
        let through_k_m_per_w = (self.outside_m / self.copper_m).ln() / (2.0 * PI * INSULATION_W_M_K);
        (lost, surface_c + lost * through_k_m_per_w)
    }
}

/// Heat transfer of a horizontal cylinder in still air at sea level, in W/m2/K. At 2 km it is some 5 % less.
fn convection_w_m2_k(diameter_m: f64, rise_k: f64, film_k: f64) -> f64 {
    let air = Air::at(film_k);
    let rayleigh = 9.806_65 * rise_k.max(0.0) / film_k * diameter_m.powi(3)
        / (air.kinematic_viscosity_m2_s * air.diffusivity_m2_s);
    let of_prandtl =
        (1.0 + (0.559 * air.diffusivity_m2_s / air.kinematic_viscosity_m2_s).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    let nusselt = (0.60 + 0.387 * rayleigh.powf(1.0 / 6.0) / of_prandtl).powi(2);
    nusselt * air.conductivity_w_m_k / diameter_m
}

/// Dry air at sea level's pressure.
struct Air {
    conductivity_w_m_k: f64,
    kinematic_viscosity_m2_s: f64,
    diffusivity_m2_s: f64,
}

impl Air {
    fn at(kelvin: f64) -> Self {
        let sutherland = |at_zero: f64, constant_k: f64| {
            at_zero * (kelvin / ZERO_C_K).powf(1.5) * (ZERO_C_K + constant_k) / (kelvin + constant_k)
        };
        let density_kg_m3 = 101_325.0 / (287.05 * kelvin);
        let conductivity_w_m_k = sutherland(0.0241, 194.0);
        Air {
            conductivity_w_m_k,
            kinematic_viscosity_m2_s: sutherland(1.716e-5, 111.0) / density_kg_m3,
            diffusivity_m2_s: conductivity_w_m_k / (density_kg_m3 * 1_007.0),
        }
    }
}
