use super::facts::number;
use super::hover::{HUMIDITY, hot_air};
use super::{Computed, Facts, Figure, Lacking, Result, outcome, worst};
use crate::drawing::{Curve, curve};
use crate::engineering::air::{air, standard_air};
use crate::engineering::heat::{
    FORCED_EXPONENT, HeatCondition, HeatReading, SteadyQuestion, SteadyReport, TimeConstant, fit_rise,
    steady_elsewhere, time_to_limit,
};
use crate::field::Flight;
use crate::locale::{Locale, say};
use crate::record::ThingKind;
use crate::unit::Unit;

/// Air over the parts in a hover, m/s; the same on both days, so that it cancels (common practice, no source).
pub(super) const HOVER_AIRFLOW_M_S: f64 = 4.0;

/// One place of the last hover, carried to the hottest day.
struct Carried {
    title: String,
    report: SteadyReport,
}

/// The last hover's temperatures on the hottest day, each against its stop; and how long it takes to get there.
pub(super) fn hot_day(facts: Facts<'_>) -> Result<Computed> {
    let flight = facts.last_hover()?;
    let carried = carry(facts, flight)?;
    let worst_of = carried.iter().min_by(|a, b| a.report.margin_k.total_cmp(&b.report.margin_k));
    let Some(hottest) = worst_of else { return Err(Lacking::Flight(flight.check.clone())) };
    let hot_c = facts.figure("hot-day-temperature")?;
    let tau_s = time_constant(facts)?.map(|tau| tau.tau_s);
    let limit_c = hottest.report.inputs.limit_c;
    let time_s = match tau_s {
        Some(tau_s) => time_to_limit(hot_c, hottest.report.steady_c, tau_s, limit_c)?,
        None => None,
    };
    let time = match time_s {
        Some(seconds) => {
            say!(facts.locale, "computed-heat-reaches", time = crate::locale::clock(seconds.round() as i64))
        }
        None if hottest.report.steady_c > limit_c => say!(facts.locale, "computed-heat-would-pass"),
        None => say!(facts.locale, "computed-heat-stays"),
    };
    let figure = |part: &Carried| {
        let note = say!(
            facts.locale,
            "computed-heat-note",
            limit = facts.locale.rounded(part.report.inputs.limit_c, 0, Unit::Celsius),
            room = facts.locale.rounded(part.report.margin_k, 0, Unit::Kelvin),
            measured = facts.locale.rounded(part.report.inputs.measured_c, 0, Unit::Celsius),
            air = facts.locale.rounded(flight.air_c, 0, Unit::Celsius)
        );
        Figure::judged(part.title.clone(), part.report.steady_c, 0, Unit::Celsius, note, part.report.grade)
    };
    Ok(Computed {
        outcome: outcome(worst(carried.iter().map(|part| part.report.grade))),
        summary: say!(
            facts.locale,
            "computed-heat-summary",
            day = facts.locale.rounded(hot_c, 0, Unit::Celsius),
            part = facts.locale.inside(&hottest.title),
            temperature = facts.locale.rounded(hottest.report.steady_c, 0, Unit::Celsius),
            limit = facts.locale.rounded(limit_c, 0, Unit::Celsius),
            time = time
        ),
        figures: carried.iter().map(figure).collect(),
        rows: Vec::new(),
        picture: Some(picture(facts.locale, hot_c, &hottest.report, tau_s)),
        remarks: vec![say!(facts.locale, "computed-heat-basis"), say!(facts.locale, "computed-heat-cure")],
    })
}

fn carry(facts: Facts<'_>, flight: &Flight) -> Result<Vec<Carried>> {
    let hot = hot_air(facts)?;
    let here_kg_m3 = density_at_field(facts, flight.air_c)?;
    let current_a = flight.mean_current_ma().unwrap_or(0.0) / 1_000.0;
    let condition = |air_c: f64, density_kg_m3: f64| HeatCondition {
        air_c,
        density_kg_m3,
        airflow_m_s: HOVER_AIRFLOW_M_S,
        current_a,
    };
    let readings = flight.landing.iter().flat_map(|landing| &landing.temperatures);
    readings
        .filter_map(|reading| facts.plan.place(&reading.place).map(|place| (place, reading.celsius)))
        // A part no warmer than the air says nothing of a hotter day.
        .filter(|(_, celsius)| *celsius > flight.air_c)
        .map(|(place, celsius)| {
            let report = steady_elsewhere(&SteadyQuestion {
                measured_c: celsius,
                measured_at: condition(flight.air_c, here_kg_m3),
                asked_for: condition(hot.temperature_c, hot.density_kg_m3),
                exponent: FORCED_EXPONENT,
                limit_c: place.stop_above_c,
            })?;
            Ok(Carried { title: place.title.clone(), report })
        })
        .collect()
}

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
            Ok(HeatReading { time_s: number(thing, "time_s")?, temperature_c: number(thing, "temperature_c")? })
        })
        .collect::<Result<_>>()?;
    if readings.is_empty() {
        return Ok(None);
    }
    let fit = fit_rise(&readings)?;
    // Two standard uncertainties: about 95 %.
    Ok(Some(TimeConstant { tau_s: fit.tau_s, half_width_s: 2.0 * fit.tau_u_s }))
}

fn picture(locale: Locale, hot_c: f64, report: &SteadyReport, tau_s: Option<f64>) -> crate::drawing::Picture {
    // Without a measured time constant the shape is drawn over three of whatever it may be.
    let points: Vec<(f64, f64)> = (0..=30)
        .map(|index| {
            let turns = f64::from(index) / 10.0;
            (turns, hot_c + (report.steady_c - hot_c) * (1.0 - (-turns).exp()))
        })
        .collect();
    let end = tau_s.map_or_else(
        || say!(locale, "computed-warm-through"),
        |tau| crate::locale::clock((3.0 * tau).round() as i64),
    );
    curve(&Curve {
        points: &points,
        marks: &[(3.0, points.last().map_or(hot_c, |p| p.1), locale.rounded(report.steady_c, 0, Unit::Celsius))],
        limit: Some((
            report.inputs.limit_c,
            say!(locale, "computed-stop", temperature = locale.rounded(report.inputs.limit_c, 0, Unit::Celsius)),
        )),
        ends: (say!(locale, "computed-start"), end),
        spoken: say!(
            locale,
            "computed-heat-spoken",
            day = locale.bare(hot_c, 0, Unit::Celsius),
            temperature = locale.bare(report.steady_c, 0, Unit::Celsius),
            limit = locale.bare(report.inputs.limit_c, 0, Unit::Celsius)
        ),
    })
}
