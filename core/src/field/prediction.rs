//! What a flight should take from its pack, before there is a fitted model of this aircraft.
//!
//! Two honest brackets. The first hover is bracketed from momentum theory by what rotors of this scale were measured to
//! reach. A later one is bracketed by the last hover: what lifts does not depend on head speed, what drags grows with
//! its cube, and every mix of the two lies in between.

use super::Flight;
use crate::plan::{Motion, Plan};
use crate::readiness::Ledger;
use crate::record::Prediction;

/// Figure of merit of rotors of this scale: lowest and highest measured (NACA TN-626, 1937).
const FIGURE_OF_MERIT: (f64, f64) = (0.42, 0.62);
/// From pack to main rotor, with tail, drive, motor and controller (common practice, no source).
const DRIVE_EFFICIENCY: (f64, f64) = (0.65, 0.80);
/// Volts a cell under a hover's load (common practice, no source).
const CELL_V: f64 = 3.75;
/// Standard gravity, m/s2 (exact by definition).
const GRAVITY: f64 = 9.806_65;
/// Air at sea level: density = pressure / (gas constant x temperature) (US Standard Atmosphere 1976), kg/m3.
const SEA_LEVEL_PA: f64 = 101_325.0;
const GAS_CONSTANT: f64 = 287.053;
/// Wind, spool-up and the charger's reading put this much on either side (common practice, no source).
const SCATTER: f64 = 0.10;

/// The charge that a hover should take, mAh, with its interval; none for other motions and while figures are missing.
pub fn predicted_charge(
    ledger: &Ledger,
    motion: Motion,
    plan: &Plan,
    head_speed_rpm: f64,
    planned_s: i64,
) -> Option<Prediction> {
    if motion != Motion::Hover || planned_s <= 0 {
        return None;
    }
    let hours = planned_s as f64 / 3_600.0;
    from_last_hover(ledger, plan, head_speed_rpm, hours).or_else(|| from_momentum(ledger, hours))
}

fn from_last_hover(ledger: &Ledger, plan: &Plan, head_speed_rpm: f64, hours: f64) -> Option<Prediction> {
    let hovers = |flight: &&Flight| {
        let fly = plan.check(&flight.check).and_then(|(_, check)| check.fly());
        fly.is_some_and(|fly| fly.motion == Motion::Hover) && flight.mean_current_ma().is_some()
    };
    let last = ledger.flights.iter().rev().find(hovers)?;
    let hover_mah = last.mean_current_ma()? * hours;
    let cube = (head_speed_rpm / last.head_speed_rpm).powi(3);
    Some(Prediction {
        used_mah: hover_mah * (1.0 + cube) / 2.0,
        low_mah: hover_mah * cube.min(1.0) * (1.0 - SCATTER),
        high_mah: hover_mah * cube.max(1.0) * (1.0 + SCATTER),
        from: format!(
            "the hover at {:.0} rpm, lift unchanged and drag with the cube of head speed",
            last.head_speed_rpm
        ),
    })
}

fn from_momentum(ledger: &Ledger, hours: f64) -> Option<Prediction> {
    let figure = |id: &str| ledger.aircraft.figure(id);
    let (mass_kg, diameter_m, cells) = (figure("flying-mass")?, figure("rotor-diameter")?, figure("pack-cells")?);
    let density = SEA_LEVEL_PA / (GAS_CONSTANT * 288.15);
    let disc_m2 = std::f64::consts::PI * (diameter_m / 2.0).powi(2);
    let ideal_w = (mass_kg * GRAVITY).powf(1.5) / (2.0 * density * disc_m2).sqrt();
    let charge = |merit: f64, efficiency: f64| 1_000.0 * ideal_w / (merit * efficiency * cells * CELL_V) * hours;
    let low = charge(FIGURE_OF_MERIT.1, DRIVE_EFFICIENCY.1);
    let high = charge(FIGURE_OF_MERIT.0, DRIVE_EFFICIENCY.0);
    Some(Prediction {
        used_mah: (low * high).sqrt(),
        low_mah: low * (1.0 - SCATTER),
        high_mah: high * (1.0 + SCATTER),
        from: "momentum theory and the figures of merit measured at this scale".to_owned(),
    })
}
