//! The least that lifting the aircraft takes: a charge under it was misread, or belongs to another flight.

use crate::aircraft::Aircraft;
use crate::engineering::air::{air, standard_air};
use crate::plan::Motion;

/// Gravity, m/s2 (ISO 80000-3, standard acceleration of free fall).
const G_M_S2: f64 = 9.80665;
/// Of the time with the motor on, at least so much is spent in the air, and forward flight takes at least so much of a hover's ideal power
/// (common practice, no source).
const IN_THE_AIR: f64 = 0.5;

/// The mean current, in A, under which a run of this motion cannot have lifted the aircraft; none for a run on the ground, and while mass,
/// rotor or cells are not known.
///
/// An ideal rotor hovers with `W sqrt(W / (2 rho A))` (momentum theory, for example Leishman, Principles of Helicopter Aerodynamics,
/// section 2.4) and a real one takes more; a pack gives it at no more than its full voltage.
pub fn least_lifting_a(aircraft: &Aircraft, motion: Motion, air_c: f64) -> Option<f64> {
    if matches!(motion, Motion::Bench | Motion::Run) {
        return None;
    }
    let weight_n = aircraft.figure("flying-mass")? * G_M_S2;
    let disc_m2 = std::f64::consts::PI * (aircraft.figure("rotor-diameter")? / 2.0).powi(2);
    let pressure_pa = standard_air(aircraft.figure("field-elevation").unwrap_or(0.0)).ok()?.pressure_pa;
    let density = air(pressure_pa, air_c.clamp(-40.0, 60.0), 0.0).ok()?.density_kg_m3;
    let ideal_w = weight_n * (weight_n / (2.0 * density * disc_m2)).sqrt();
    let full_v = aircraft.figure("pack-cells")? * aircraft.full_cell_v();
    (full_v > 0.0).then(|| IN_THE_AIR * ideal_w / full_v)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::aircraft::FigureValue;
    use crate::record::{Basis, EntryId};

    fn aircraft() -> Aircraft {
        let mut aircraft = Aircraft::default();
        for (id, value) in [("flying-mass", 10.0), ("rotor-diameter", 1.8), ("pack-cells", 12.0)] {
            let value = FigureValue { value, basis: Basis::Measured, entry: EntryId(uuid::Uuid::nil()) };
            aircraft.figures.insert(id.to_owned(), value);
        }
        aircraft
    }

    #[test]
    fn an_ideal_rotor_bounds_the_current_of_a_hover_and_of_no_run_on_the_ground() {
        // 98.07 N on 2.545 m2 in 1.225 kg/m3 blow down at 3.966 m/s: 388.9 W, at 50.4 V 7.72 A, half of which bounds a flight.
        let least = least_lifting_a(&aircraft(), Motion::Hover, 15.0).expect("all figures are known");
        assert!((least - 3.858).abs() < 0.01, "{least}");
        assert_eq!(least_lifting_a(&aircraft(), Motion::Run, 15.0), None);
        assert_eq!(least_lifting_a(&aircraft(), Motion::Bench, 15.0), None);
        assert_eq!(least_lifting_a(&Aircraft::default(), Motion::Hover, 15.0), None);
    }
}
