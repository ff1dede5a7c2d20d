//! What cools the parts at the field, and how fast they take on their heat.

use super::facts::number;
use super::hover::HUMIDITY;
use super::{Facts, Result};
use crate::engineering::air::{air, standard_air};
use crate::engineering::heat::{HeatReading, TimeConstant, fit_rise};
use crate::record::{ThingKind, ThingNumber};

/// Air over the parts in a hover, m/s; the same on both days, so that it cancels (common practice, no source).
pub(super) const HOVER_AIRFLOW_M_S: f64 = 4.0;

/// Density at the field on a flying day of the standard pressure, kg/m3: which pressure it had, nobody wrote down.
pub(super) fn density_at_field(facts: Facts<'_>, air_c: f64) -> Result<f64> {
    let pressure_pa = standard_air(facts.figure("field-elevation")?)?.pressure_pa;
    Ok(air(pressure_pa, air_c, HUMIDITY)?.density_kg_m3)
}

/// The time constant of the watched part, from readings of a run on the bench, if there are any.
pub(super) fn time_constant(facts: Facts<'_>) -> Result<Option<TimeConstant>> {
    let readings: Vec<HeatReading> = facts
        .things(ThingKind::HeatReading)
        .into_iter()
        .map(|thing| {
            Ok(HeatReading {
                time_s: number(thing, ThingNumber::TimeS)?,
                temperature_c: number(thing, ThingNumber::TemperatureC)?,
            })
        })
        .collect::<Result<_>>()?;
    if readings.is_empty() {
        return Ok(None);
    }
    let fit = fit_rise(&readings)?;
    Ok(Some(TimeConstant { tau_s: fit.tau_s, half_width_s: fit.tau_half_width_s }))
}
