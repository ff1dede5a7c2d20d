use super::hover::{LOADED_CELL_V, rotor};
use super::{Computed, Facts, Figure, Result, Row};
use crate::engineering::air::{air, standard_air};
use crate::engineering::prediction::{
    FlownStep, Interval95, LadderAircraft, LadderPrediction, LadderQuestion, NextStep, PowerPrior, predict,
};
use crate::field::Flight;
use crate::plan::Motion;
use crate::record::{Outcome, Prediction, Unit};
use crate::view::chart::{Curve, curve};

/// Humidity of any day at the field: it moves the density by less than half a percent.
const HUMIDITY: f64 = 0.5;
/// A hover's charge is counted from start to stop; spool-up and the charger's reading put this much on the interval
/// (common practice, no source).
pub(super) const CHARGE_SLACK: f64 = 0.05;
/// A part less far above its air than this was not heated by the hover, K.
pub(super) const WARMER_K: f64 = 1.0;

/// The charge that a hover should take, from the steps flown so far and what rotors of this scale are known to do.
///
/// None for other motions than a hover, and while figures of the aircraft are missing.
pub fn predicted_charge(
    facts: Facts<'_>,
    motion: Motion,
    head_rpm: f64,
    planned_s: i64,
    air_c: f64,
) -> Option<Prediction> {
    if motion != Motion::Hover || planned_s <= 0 {
        return None;
    }
    let steps = steps(facts, None).ok()?;
    let flown = steps.len();
    let prediction = step(facts, steps, head_rpm, air_c).ok()?;
    let charge = |ampere: f64| ampere * 1_000.0 * planned_s as f64 / 3_600.0;
    let from = match flown {
        0 => "the figures of rotor, mass and pack".to_owned(),
        1 => "the hover flown and the figures of the rotor".to_owned(),
        flown => format!("the {flown} hovers flown and the figures of the rotor"),
    };
    Some(Prediction {
        used_mah: charge(prediction.current_a.middle),
        low_mah: charge(prediction.current_a.low) * (1.0 - CHARGE_SLACK),
        high_mah: charge(prediction.current_a.high) * (1.0 + CHARGE_SLACK),
        from,
    })
}

/// How warm a place should be after a hover at this head speed, degrees Celsius, from the hovers after which it was read.
///
/// None before there was one, and while figures of the aircraft are missing.
pub fn predicted_temperature(facts: Facts<'_>, place: &str, head_rpm: f64, air_c: f64) -> Option<Interval95> {
    let loaded_v = aircraft(facts).ok()?.loaded_v;
    let with_heat = |flight: &Flight| {
        let celsius = flight.hottest_reading(place).filter(|celsius| *celsius >= flight.air_c + WARMER_K)?;
        Some((flight.mean_current_ma()? / 1_000.0 * loaded_v, celsius))
    };
    let steps: Vec<FlownStep> = facts
        .hovers()
        .filter_map(|flight| {
            let (power_w, celsius) = with_heat(flight)?;
            let density_kg_m3 = density(facts, flight.air_c).ok()?;
            let read =
                FlownStep { power_w: Some(power_w), temperature_c: Some(celsius), ..flown(flight, density_kg_m3) };
            Some(read)
        })
        .collect();
    step(facts, steps, head_rpm, air_c).ok()?.temperature_c
}

/// Each hover against what the ones before it predicted, and the aircraft that all of them fit.
pub(super) fn agreement(facts: Facts<'_>) -> Result<Computed> {
    let last = facts.last_hover()?;
    let flown: Vec<&Flight> = facts.hovers().collect();
    let fitted = step(facts, steps(facts, None)?, last.head_speed_rpm, last.air_c)?;
    let judged: Vec<(Row, bool)> = flown
        .iter()
        .filter_map(|flight| {
            let before = steps(facts, Some(flight)).ok()?;
            let prediction = step(facts, before, flight.head_speed_rpm, flight.air_c).ok()?;
            let ampere = flight.mean_current_ma()? / 1_000.0;
            let (low, high) = (prediction.current_a.low, prediction.current_a.high);
            let agrees = (low * (1.0 - CHARGE_SLACK)..=high * (1.0 + CHARGE_SLACK)).contains(&ampere);
            let row = Row {
                title: format!("{:.0} rpm: {ampere:.1} A", flight.head_speed_rpm),
                word: if agrees { "As predicted" } else { "Not as predicted" }.to_owned(),
                detail: format!("{low:.1} to {high:.1} A from what was flown before"),
                outcome: if agrees || flight.explained.is_some() { Outcome::Pass } else { Outcome::Caution },
            };
            Some((row, agrees))
        })
        .collect();
    let agree = judged.iter().filter(|(_, agrees)| *agrees).count();
    let worst = judged.iter().map(|(row, _)| row.outcome).max().unwrap_or(Outcome::Pass);
    let interval = |label: &str, of: &crate::engineering::prediction::Interval95, digits: usize, unit: Unit| {
        Figure::told(label, of.middle, digits, unit)
            .noted(format!("{:.*} to {:.*}, 95 %", digits, of.low, digits, of.high))
    };
    Ok(Computed {
        outcome: worst,
        summary: format!("{agree} of {} hovers drew what was predicted before them", judged.len()),
        figures: [
            interval("From pack to rotor, tail included", &fitted.fitted.efficiency, 2, Unit::Ratio),
            interval("Induced power over ideal", &fitted.fitted.induced_factor, 2, Unit::Ratio),
            interval("Profile drag without lift", &fitted.fitted.profile_drag, 4, Unit::Ratio),
            Figure::told("Scatter of a reading", fitted.fitted.scatter_percent, 1, Unit::Percent),
        ]
        .into_iter()
        .chain(heat(facts, last)?)
        .collect(),
        rows: judged.into_iter().map(|(row, _)| row).collect(),
        picture: Some(picture(facts, &flown)?),
        remarks: vec![
            "A physical prior for this class (drag by NACA TN-626), fitted to the hovers flown. On simulated aircraft its 95 % \
             interval held the truth in 93 to 97 % of 10,000 seasons. A slipping belt, a dragging bearing and resonance are \
             not in it: that is what a disagreement is for."
                .to_owned(),
        ],
    })
}

/// What each place that was read should show after a hover at service speed in the same air.
fn heat(facts: Facts<'_>, last: &Flight) -> Result<Vec<Figure>> {
    let service_rpm = facts.figure("service-head-speed")?;
    let read = facts.plan.places.iter().filter(|place| last.hottest_reading(&place.id).is_some());
    let figure = |place: &crate::plan::Place| {
        let expected = predicted_temperature(facts, &place.id, service_rpm, last.air_c)?;
        let note = format!(
            "{:.0} to {:.0} °C, 95 %, after a hover at {service_rpm:.0} rpm in {:.0} °C; stop {:.0} °C",
            expected.low, expected.high, last.air_c, place.stop_above_c
        );
        Some(Figure::told(format!("{} expected", place.title), expected.middle, 0, Unit::Celsius).noted(note))
    };
    Ok(read.filter_map(figure).collect())
}

pub(super) fn aircraft(facts: Facts<'_>) -> Result<LadderAircraft> {
    let rotor = rotor(facts)?;
    Ok(LadderAircraft {
        mass_kg: facts.figure("flying-mass")?,
        radius_m: rotor.radius_m,
        solidity: rotor.solidity(),
        loaded_v: facts.figure("pack-cells")? * LOADED_CELL_V,
    })
}

pub(super) fn density(facts: Facts<'_>, air_c: f64) -> Result<f64> {
    // A field whose height is not known yet is taken at sea level: a few percent, and the interval is wider than that.
    let elevation = facts.ledger.aircraft.figure("field-elevation").unwrap_or(0.0);
    let pressure_pa = standard_air(elevation)?.pressure_pa;
    Ok(air(pressure_pa, air_c, HUMIDITY)?.density_kg_m3)
}

/// The hovers flown, up to but without `before`.
fn steps(facts: Facts<'_>, before: Option<&Flight>) -> Result<Vec<FlownStep>> {
    let earlier = facts.hovers().take_while(|flight| before.is_none_or(|before| flight.card != before.card));
    earlier
        .map(|flight| {
            Ok(FlownStep {
                current_a: flight.mean_current_ma().map(|ma| ma / 1_000.0),
                ..flown(flight, density(facts, flight.air_c)?)
            })
        })
        .collect()
}

/// A hover by its head speed and its air alone.
pub(super) fn flown(flight: &Flight, density_kg_m3: f64) -> FlownStep {
    FlownStep {
        head_rpm: flight.head_speed_rpm,
        density_kg_m3,
        air_c: flight.air_c,
        power_w: None,
        current_a: None,
        temperature_c: None,
    }
}

pub(super) fn step(facts: Facts<'_>, steps: Vec<FlownStep>, head_rpm: f64, air_c: f64) -> Result<LadderPrediction> {
    let next = NextStep { head_rpm, density_kg_m3: density(facts, air_c)?, air_c };
    Ok(predict(&LadderQuestion { aircraft: aircraft(facts)?, prior: PowerPrior::LARGE_ELECTRIC, steps, next })?)
}

/// Predicted current over head speed, with the hovers flown as points.
fn picture(facts: Facts<'_>, flown: &[&Flight]) -> Result<crate::view::Picture> {
    let low = facts.figure("hover-low-head-speed")? * 0.95;
    let high = facts.figure("service-head-speed")? * 1.05;
    let air_c = flown.last().map_or(15.0, |flight| flight.air_c);
    let all = steps(facts, None)?;
    let points: Vec<(f64, f64)> = (0..=20)
        .filter_map(|index| {
            let rpm = low + (high - low) * f64::from(index) / 20.0;
            step(facts, all.clone(), rpm, air_c).ok().map(|prediction| (rpm, prediction.current_a.middle))
        })
        .collect();
    let marks: Vec<(f64, f64, String)> = flown
        .iter()
        .filter_map(|flight| {
            let ampere = flight.mean_current_ma()? / 1_000.0;
            Some((flight.head_speed_rpm, ampere, format!("{ampere:.1} A")))
        })
        .collect();
    Ok(curve(&Curve {
        points: &points,
        marks: &marks,
        limit: None,
        ends: (format!("{low:.0} rpm"), format!("{high:.0} rpm")),
        spoken: format!("Fitted hover current over head speed, with {} hovers flown", marks.len()),
    }))
}
