use super::facts::number;
use super::{Computed, Facts, Figure, Result, outcome, worst};
use crate::engineering::supply::{Regulator, RegulatorKind, RegulatorReport, regulator_report};
use crate::record::{Thing, ThingKind, Unit};
use crate::view::chart::{Bar, bars};

/// A linear regulator's least voltage difference where the maker says nothing, V (common practice, no source).
const DROPOUT_V: f64 = 1.2;

/// Each regulator's heat on the hottest day against its limit.
pub(super) fn heat(facts: Facts<'_>) -> Result<Computed> {
    let ambient_c = facts.figure("hot-day-temperature")?;
    let reports: Vec<(&str, RegulatorReport)> = facts
        .some_things(ThingKind::Regulator)?
        .into_iter()
        .map(|thing| Ok((thing.name.as_str(), regulator_report(&regulator(thing, ambient_c)?)?)))
        .collect::<Result<_>>()?;
    let hottest = reports.iter().min_by(|a, b| a.1.margin_k.total_cmp(&b.1.margin_k));
    let summary = hottest.map_or_else(String::new, |(name, report)| {
        format!(
            "{name} gets to {:.0} °C on a day of {ambient_c:.0} °C, its limit is {:.0} °C",
            report.temperature_c, report.inputs.limit_c
        )
    });
    let figure = |(name, report): &(&str, RegulatorReport)| {
        let note = format!(
            "{:.1} W of heat, limit {:.0} °C, room {:.0} K ({:.0} %)",
            report.heat_w, report.inputs.limit_c, report.margin_k, report.margin_percent
        );
        Figure::judged(*name, report.temperature_c, 0, Unit::Celsius, note, report.grade)
    };
    let bar = |(name, report): &(&str, RegulatorReport)| Bar {
        title: (*name).to_owned(),
        value: report.temperature_c.max(0.0),
        limit: report.inputs.limit_c,
        text: format!("{:.0} of {:.0} °C", report.temperature_c, report.inputs.limit_c),
    };
    Ok(Computed {
        outcome: outcome(worst(reports.iter().map(|(_, report)| report.grade))),
        summary,
        figures: reports.iter().map(figure).collect(),
        rows: Vec::new(),
        picture: Some(bars(&reports.iter().map(bar).collect::<Vec<_>>())),
        remarks: vec![
            "Steady state in still air, by the maker's rise for each watt. Inside a closed body the air is warmer than the \
             day."
                .to_owned(),
        ],
    })
}

fn regulator(thing: &Thing, ambient_c: f64) -> Result<Regulator> {
    let kind = match thing.number("efficiency") {
        Some(percent) => RegulatorKind::Switching { efficiency: percent / 100.0 },
        None => RegulatorKind::Linear { dropout_v: thing.number("dropout_v").unwrap_or(DROPOUT_V) },
    };
    Ok(Regulator {
        kind,
        input_v: number(thing, "input_v")?,
        output_v: number(thing, "output_v")?,
        load_a: number(thing, "load_a")?,
        ambient_c,
        thermal_resistance_k_per_w: number(thing, "rise_k_per_w")?,
        limit_c: number(thing, "limit_c")?,
    })
}
