use crate::aircraft::Aircraft;
use crate::engineering::Grade;
use crate::engineering::supply::{Consumer, Rail, RailLoad, RailReason, RailReport, rail_report};
use crate::record::{NamedValue, Thing, ThingKind, Unit};

use super::{Lacking, number};

/// Every supply with its load; each must have its stirring peak measured.
pub(super) fn load(aircraft: &Aircraft) -> Result<Vec<RailReport>, Lacking> {
    reports(aircraft, |supply| number(supply, "stirring_peak_a"))
}

/// Every supply with its consumers' windows; the load does not matter to them.
pub(super) fn windows(aircraft: &Aircraft) -> Result<Vec<RailReport>, Lacking> {
    reports(aircraft, |supply| Ok(supply.number("stirring_peak_a").unwrap_or(0.0)))
}

fn reports(
    aircraft: &Aircraft,
    stirring_peak: impl Fn(&Thing) -> Result<f64, Lacking>,
) -> Result<Vec<RailReport>, Lacking> {
    let supplies: Vec<&Thing> = aircraft.things_of(ThingKind::Supply).collect();
    if supplies.is_empty() {
        return Err(Lacking::Things(ThingKind::Supply));
    }
    if aircraft.things_of(ThingKind::Consumer).next().is_none() {
        return Err(Lacking::Things(ThingKind::Consumer));
    }
    supplies
        .into_iter()
        .map(|supply| {
            let load = RailLoad {
                rail: rail(supply)?,
                consumers: aircraft
                    .things_of(ThingKind::Consumer)
                    .filter(|consumer| consumer.of.as_ref() == Some(&supply.name))
                    .map(consumer)
                    .collect::<Result<_, _>>()?,
                stirring_peak_a: stirring_peak(supply)?,
                stirring_low_v: None,
            };
            rail_report(&load).map_err(Lacking::Refused)
        })
        .collect()
}

fn rail(supply: &Thing) -> Result<Rail, Lacking> {
    Ok(Rail {
        name: supply.name.clone(),
        full_v: number(supply, "full_v")?,
        nominal_v: number(supply, "nominal_v")?,
        empty_v: number(supply, "empty_v")?,
        continuous_a: number(supply, "continuous_a")?,
        burst_a: number(supply, "burst_a")?,
        ripple_v: 0.0,
    })
}

fn consumer(thing: &Thing) -> Result<Consumer, Lacking> {
    Ok(Consumer {
        name: thing.name.clone(),
        low_v: number(thing, "low_v")?,
        high_v: number(thing, "high_v")?,
        steady_a: number(thing, "steady_a")?,
        // The form takes whole numbers from 1 to 20 only.
        quantity: number(thing, "quantity")? as u32,
        fault_a: None,
    })
}

pub(super) fn load_grade(rail: &RailReport) -> Grade {
    rail.continuous.grade.max(rail.burst.grade)
}

pub(super) fn window_grade(rail: &RailReport) -> Grade {
    rail.worst_window.as_ref().map_or(Grade::Ok, |(_, point)| point.grade)
}

fn is_window(reason: &RailReason) -> bool {
    matches!(reason, RailReason::Window { .. })
}

pub(super) fn load_summary(rails: &[RailReport]) -> String {
    let reasons = rails.iter().flat_map(|rail| {
        let of_load = rail.reasons.iter().filter(|reason| !is_window(reason));
        of_load.map(move |reason| format!("{}: {reason}", rail.inputs.rail.name))
    });
    let reasons: Vec<String> = reasons.collect();
    if !reasons.is_empty() {
        return reasons.join("; ");
    }
    let tightest = rails.iter().min_by(|a, b| a.burst.margin_percent.total_cmp(&b.burst.margin_percent));
    tightest.map_or_else(String::new, |rail| {
        format!(
            "Every supply has room: {} the least, {:.0} % of its burst rating",
            rail.inputs.rail.name, rail.burst.margin_percent
        )
    })
}

pub(super) fn window_summary(rails: &[RailReport]) -> String {
    let outside: Vec<String> =
        rails.iter().flat_map(|rail| &rail.reasons).filter(|r| is_window(r)).map(ToString::to_string).collect();
    if outside.is_empty() {
        "Every consumer stands its supply, full and empty".to_owned()
    } else {
        outside.join("; ")
    }
}

pub(super) fn load_values(rails: &[RailReport]) -> Vec<NamedValue> {
    let ampere = |name: String, value: f64| NamedValue { name, value, unit: Unit::Ampere };
    rails
        .iter()
        .flat_map(|rail| {
            let name = &rail.inputs.rail.name;
            [
                ampere(format!("{name}: stirring peak"), rail.inputs.stirring_peak_a),
                ampere(format!("{name}: hard flight"), rail.hard_flight_a),
                ampere(format!("{name}: continuous rating"), rail.continuous.rated_a),
                ampere(format!("{name}: design peak"), rail.design_peak_a),
                ampere(format!("{name}: burst rating"), rail.burst.rated_a),
            ]
        })
        .collect()
}

pub(super) fn window_values(rails: &[RailReport]) -> Vec<NamedValue> {
    rails
        .iter()
        .flat_map(|rail| &rail.windows)
        .map(|window| NamedValue {
            name: format!("{}: room, {}", window.consumer, window.worst.state),
            value: window.worst.margin_v,
            unit: Unit::Volt,
        })
        .collect()
}
