use super::conditions::{Conditions, at_rotor, is_too_windy};
use super::cooling::time_constant;
use super::drive_load::LOADED_CELL_V;
use super::hover::rotor;
use super::on_ground::{hover_current_a, hover_power_w, missing_s};
use super::{Computed, Facts, Figure, Result, Row};
use crate::drawing::{Curve, curve};
use crate::engineering::air::{air, standard_air};
use crate::engineering::prediction::{
    FittedAircraft, FlownStep, Interval95, LadderAircraft, LadderPrediction, LadderQuestion, NextStep, PowerPrior,
    predict,
};
use crate::field::Flight;
use crate::locale::{Locale, say};
use crate::record::{Outcome, Outlier};
use crate::unit::Unit;

/// Humidity of any day at the field: it moves the density by less than half a percent.
const HUMIDITY: f64 = 0.5;
/// What a charger's reading and the time on the ground, which is not the same each time, put on the interval of a charge (common practice,
/// no source).
pub(super) const CHARGE_SLACK: f64 = 0.05;
/// A part less far above its air than this was not heated by the hover, K.
const WARMER_K: f64 = 1.0;

/// What a hover should draw, from the steps flown so far and what rotors of this scale are known to do, and how many steps those are.
pub(super) fn predicted_hover(facts: Facts<'_>, asked: Conditions) -> Option<(LadderPrediction, usize)> {
    let steps = steps(facts, None).ok()?;
    let flown = steps.len();
    Some((step(facts, steps, asked).ok()?, flown))
}

/// How warm a place should be after a hover, degrees Celsius, from these hovers.
///
/// None before it was read after one, and while figures of the aircraft are missing.
pub(super) fn temperature_after<'a>(
    facts: Facts<'_>,
    hovers: impl Iterator<Item = &'a Flight>,
    place: &str,
    asked: Conditions,
) -> Option<Interval95> {
    let read = hovers.filter(|hover| !is_too_windy(hover.wind)).filter_map(|hover| {
        let celsius = warmed_to(facts, hover, place)?;
        Some(FlownStep { temperature_c: Some(celsius), ..drawn(facts, hover).ok()? })
    });
    step(facts, read.collect(), asked).ok()?.temperature_c
}

/// What a place was read at after a flight, degrees Celsius, where that tells of the aircraft.
pub(super) fn warmed_to(facts: Facts<'_>, flight: &Flight, place: &str) -> Option<f64> {
    let of_place = format!("place:{place}");
    if became_finding(facts, flight, |outlier| outlier.reading == of_place) {
        return None;
    }
    flight.hottest_reading(place).filter(|celsius| *celsius >= flight.air_c + WARMER_K)
}

/// Each hover against what the ones before it predicted, and the aircraft that all of them fit.
pub(super) fn agreement(facts: Facts<'_>) -> Result<Computed> {
    let last = facts.last_hover()?;
    let flown: Vec<&Flight> = facts.hovers().collect();
    let fitted = step(facts, steps(facts, None)?, Conditions::to_fit(last))?;
    let judged: Vec<Judged> = flown.iter().filter_map(|flight| judge(facts, flight)).collect();
    let agree = judged.iter().filter(|hover| hover.agrees).count();
    Ok(Computed {
        outcome: judged.iter().map(Judged::outcome).max().unwrap_or(Outcome::Pass),
        summary: say!(facts.locale, "computed-ladder-summary", agree = agree, count = judged.len()),
        figures: fit_figures(facts.locale, &fitted.fitted).into_iter().chain(heat(facts, last)?).collect(),
        rows: judged.iter().map(|hover| row(facts.locale, hover)).collect(),
        picture: Some(picture(facts, &flown)?),
        remarks: vec![say!(facts.locale, "computed-ladder-basis")],
    })
}

/// A hover against what the ones before it predicted.
struct Judged {
    head_rpm: f64,
    ampere: f64,
    predicted_a: Interval95,
    agrees: bool,
    is_explained: bool,
}

impl Judged {
    fn outcome(&self) -> Outcome {
        if self.agrees || self.is_explained { Outcome::Pass } else { Outcome::Caution }
    }
}

/// None where nothing can be predicted or nothing was read.
fn judge(facts: Facts<'_>, flight: &Flight) -> Option<Judged> {
    let before = steps(facts, Some(flight)).ok()?;
    let predicted_a = step(facts, before, Conditions::of(flight)).ok()?.current_a;
    let ampere = hover_current_a(facts, flight, missing_s(facts))?;
    let (low, high) = (predicted_a.low * (1.0 - CHARGE_SLACK), predicted_a.high * (1.0 + CHARGE_SLACK));
    Some(Judged {
        head_rpm: flight.head_speed_rpm,
        ampere,
        predicted_a,
        agrees: (low..=high).contains(&ampere),
        is_explained: flight.is_explained(),
    })
}

fn row(locale: Locale, hover: &Judged) -> Row {
    Row {
        title: say!(
            locale,
            "computed-ladder-row",
            rpm = locale.rounded(hover.head_rpm, 0, Unit::RevolutionsPerMinute),
            current = locale.number(hover.ampere, 1)
        ),
        word: if hover.agrees {
            say!(locale, "computed-ladder-agrees")
        } else {
            say!(locale, "computed-ladder-differs")
        },
        detail: say!(
            locale,
            "computed-ladder-row-note",
            low = locale.number(hover.predicted_a.low, 1),
            high = locale.number(hover.predicted_a.high, 1)
        ),
        outcome: hover.outcome(),
    }
}

/// The aircraft that all hovers fit.
fn fit_figures(locale: Locale, fitted: &FittedAircraft) -> [Figure; 4] {
    let interval = |label: String, of: &Interval95, digits: usize| {
        Figure::told(label, of.middle, digits, Unit::Ratio).noted(say!(
            locale,
            "computed-ladder-interval",
            low = locale.number(of.low, digits),
            high = locale.number(of.high, digits)
        ))
    };
    [
        interval(say!(locale, "computed-ladder-efficiency"), &fitted.efficiency, 2),
        interval(say!(locale, "computed-ladder-induced"), &fitted.induced_factor, 2),
        interval(say!(locale, "computed-ladder-drag"), &fitted.profile_drag, 4),
        Figure::told(say!(locale, "computed-ladder-scatter"), fitted.scatter_percent, 1, Unit::Percent),
    ]
}

/// What each place that was read should show after a hover at service speed in the same air.
fn heat(facts: Facts<'_>, last: &Flight) -> Result<Vec<Figure>> {
    let service_rpm = facts.figure("service-head-speed")?;
    let read = facts.plan.places.iter().filter(|place| last.hottest_reading(&place.id).is_some());
    let figure = |place: &crate::plan::Place| {
        let asked = Conditions { head_rpm: service_rpm, ..Conditions::to_fit(last) };
        let expected = temperature_after(facts, facts.hovers(), &place.id, asked)?;
        let note = say!(
            facts.locale,
            "computed-ladder-heat-note",
            low = facts.locale.bare(expected.low, 0, Unit::Celsius),
            high = facts.locale.rounded(expected.high, 0, Unit::Celsius),
            rpm = facts.locale.rounded(service_rpm, 0, Unit::RevolutionsPerMinute),
            air = facts.locale.rounded(last.air_c, 0, Unit::Celsius),
            limit = facts.locale.rounded(place.stop_above_c, 0, Unit::Celsius)
        );
        Some(
            Figure::told(
                say!(facts.locale, "computed-ladder-expected", place = place.title),
                expected.middle,
                0,
                Unit::Celsius,
            )
            .noted(note),
        )
    };
    Ok(read.filter_map(figure).collect())
}

fn aircraft(facts: Facts<'_>) -> Result<LadderAircraft> {
    let rotor = rotor(facts)?;
    Ok(LadderAircraft {
        mass_kg: facts.figure("flying-mass")?,
        radius_m: rotor.radius_m,
        solidity: rotor.solidity(),
        loaded_v: facts.figure("pack-cells")? * LOADED_CELL_V,
    })
}

fn density(facts: Facts<'_>, air_c: f64) -> Result<f64> {
    // A field whose height is not known yet is taken at sea level: a few percent, and the interval is wider than that.
    let elevation = facts.ledger.aircraft.figure("field-elevation").unwrap_or(0.0);
    let pressure_pa = standard_air(elevation)?.pressure_pa;
    Ok(air(pressure_pa, air_c, HUMIDITY)?.density_kg_m3)
}

/// The hovers flown, up to but without `before`.
fn steps(facts: Facts<'_>, before: Option<&Flight>) -> Result<Vec<FlownStep>> {
    let earlier = facts.hovers().take_while(|flight| before.is_none_or(|before| flight.card != before.card));
    fitted_steps(facts, earlier)
}

/// Hovers as the fit of power takes them in.
pub(super) fn fitted_steps<'a>(facts: Facts<'_>, hovers: impl Iterator<Item = &'a Flight>) -> Result<Vec<FlownStep>> {
    fitted_hovers(facts, hovers).into_iter().map(|flight| drawn(facts, flight)).collect()
}

/// The hovers that the fit of power takes in: without those in too much wind, and those whose draw was explained or became a finding.
pub(super) fn fitted_hovers<'a>(facts: Facts<'_>, hovers: impl Iterator<Item = &'a Flight>) -> Vec<&'a Flight> {
    let is_draw = |outlier: &Outlier| matches!(outlier.reading.as_str(), "charge" | "power" | "current");
    let hovers = hovers.filter(|flight| !is_too_windy(flight.wind));
    fair(hovers.collect(), |flight| flight.is_explained() || became_finding(facts, flight, is_draw))
}

/// Without those that are set aside, which were something else than the aircraft. Several that are the most of all are the aircraft itself.
fn fair<T: Copy>(all: Vec<T>, is_set_aside: impl Fn(T) -> bool) -> Vec<T> {
    let fair: Vec<T> = all.iter().copied().filter(|one| !is_set_aside(*one)).collect();
    let aside = all.len() - fair.len();
    if aside >= 2 && aside > fair.len() { all } else { fair }
}

/// Whether a finding was raised of such a reading of a flight.
fn became_finding(facts: Facts<'_>, flight: &Flight, is_such: impl Fn(&Outlier) -> bool) -> bool {
    let landed = flight.landing.as_ref().map(|landing| landing.entry);
    facts.ledger.findings.iter().any(|finding| {
        let shown = finding.shown_by.is_some_and(|by| by == flight.card || Some(by) == landed);
        shown && finding.proposed_from.as_ref().is_some_and(&is_such)
    })
}

/// A hover as the fit of power reads it: by its current without the time on the ground, and by its power where a log has the voltage.
pub(super) fn drawn(facts: Facts<'_>, flight: &Flight) -> Result<FlownStep> {
    Ok(FlownStep {
        head_rpm: flight.head_speed_rpm,
        density_kg_m3: density(facts, flight.air_c)?,
        air_c: flight.air_c,
        power_w: hover_power_w(facts, flight),
        current_a: hover_current_a(facts, flight, missing_s(facts)),
        temperature_c: None,
        run_s: long_enough(Conditions::of(flight).run_s),
        wind: flight.wind.and_then(at_rotor),
    })
}

/// A time that a rise can be reckoned with.
fn long_enough(run_s: Option<f64>) -> Option<f64> {
    run_s.filter(|run_s| *run_s >= 1.0)
}

pub(super) fn step(facts: Facts<'_>, steps: Vec<FlownStep>, asked: Conditions) -> Result<LadderPrediction> {
    let Conditions { head_rpm, air_c, run_s, wind } = asked;
    let (density_kg_m3, wind) = (density(facts, air_c)?, wind.and_then(at_rotor));
    let next = NextStep { head_rpm, density_kg_m3, air_c, run_s: long_enough(run_s), wind };
    // Only a temperature asks for it, and a bench run that gives none, or none yet, takes nothing away.
    let is_warm = steps.iter().any(|step| step.temperature_c.is_some());
    let tau = if is_warm { time_constant(facts).unwrap_or_default() } else { None };
    let (aircraft, prior) = (aircraft(facts)?, PowerPrior::LARGE_ELECTRIC);
    Ok(predict(&LadderQuestion { aircraft, prior, tau, steps, next })?)
}

/// Predicted current over head speed, with the hovers flown as points.
fn picture(facts: Facts<'_>, flown: &[&Flight]) -> Result<crate::drawing::Picture> {
    let low = facts.figure("hover-low-head-speed")? * 0.95;
    let high = facts.figure("service-head-speed")? * 1.05;
    let last = facts.last_hover()?;
    let all = steps(facts, None)?;
    let points: Vec<(f64, f64)> = (0..=20)
        .filter_map(|index| {
            let rpm = low + (high - low) * f64::from(index) / 20.0;
            let asked = Conditions { head_rpm: rpm, ..Conditions::to_fit(last) };
            step(facts, all.clone(), asked).ok().map(|prediction| (rpm, prediction.current_a.middle))
        })
        .collect();
    let missing_s = missing_s(facts);
    let marks: Vec<(f64, f64, String)> = flown
        .iter()
        .filter_map(|flight| {
            let ampere = hover_current_a(facts, flight, missing_s)?;
            Some((
                flight.head_speed_rpm,
                ampere,
                say!(facts.locale, "computed-amperes", current = facts.locale.number(ampere, 1)),
            ))
        })
        .collect();
    Ok(curve(&Curve {
        points: &points,
        marks: &marks,
        limit: None,
        ends: (
            facts.locale.rounded(low, 0, Unit::RevolutionsPerMinute),
            facts.locale.rounded(high, 0, Unit::RevolutionsPerMinute),
        ),
        spoken: say!(facts.locale, "computed-ladder-spoken", count = marks.len()),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_explained_is_left_out_until_it_is_the_most_of_what_was_flown() {
        // Negative ones are explained.
        let left = |all: &[i32]| fair(all.to_vec(), |hover| hover < 0);
        assert_eq!(left(&[-1]), Vec::<i32>::new());
        assert_eq!(left(&[1, -2]), [1]);
        assert_eq!(left(&[1, -2, 3, -4]), [1, 3]);
        assert_eq!(left(&[-1, -2]), [-1, -2]);
        assert_eq!(left(&[1, -2, -3]), [1, -2, -3]);
    }
}
