use super::facts::number;
use super::{Computed, Facts, Figure, Result, outcome, worst, worst_first};
use crate::drawing::{Bar, bars};
use crate::engineering::supply::{Regulator, RegulatorKind, RegulatorReport, regulator_report};
use crate::locale::say;
use crate::record::{Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

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
    let hottest = worst_first(&reports, |(_, report)| report.grade, |(_, report)| report.margin_k);
    let summary = hottest.map_or_else(String::new, |(name, report)| {
        say!(
            facts.locale,
            "computed-regulator-summary",
            name = name,
            temperature = facts.locale.rounded(report.temperature_c, 0, Unit::Celsius),
            day = facts.locale.rounded(ambient_c, 0, Unit::Celsius),
            limit = facts.locale.rounded(report.inputs.limit_c, 0, Unit::Celsius)
        )
    });
    let figure = |(name, report): &(&str, RegulatorReport)| {
        let note = say!(
            facts.locale,
            "computed-regulator-note",
            heat = facts.locale.number(report.heat_w, 1),
            limit = facts.locale.rounded(report.inputs.limit_c, 0, Unit::Celsius),
            room = facts.locale.rounded(report.margin_k, 0, Unit::Kelvin),
            percent = facts.locale.number(report.margin_percent, 0)
        );
        Figure::judged(*name, report.temperature_c, 0, Unit::Celsius, note, report.grade)
    };
    let bar = |(name, report): &(&str, RegulatorReport)| Bar {
        title: (*name).to_owned(),
        value: report.temperature_c.max(0.0),
        limit: report.inputs.limit_c,
        text: say!(
            facts.locale,
            "computed-of",
            part = facts.locale.bare(report.temperature_c, 0, Unit::Celsius),
            whole = facts.locale.rounded(report.inputs.limit_c, 0, Unit::Celsius)
        ),
    };
    Ok(Computed {
        outcome: outcome(worst(reports.iter().map(|(_, report)| report.grade))),
        summary,
        figures: reports.iter().map(figure).collect(),
        rows: Vec::new(),
        picture: Some(bars(&reports.iter().map(bar).collect::<Vec<_>>())),
        remarks: vec![say!(facts.locale, "computed-regulator-basis")],
    })
}

fn regulator(thing: &Thing, ambient_c: f64) -> Result<Regulator> {
    let kind = match thing.number(ThingNumber::Efficiency) {
        Some(percent) => RegulatorKind::Switching { efficiency: percent / 100.0 },
        None => RegulatorKind::Linear { dropout_v: thing.number(ThingNumber::DropoutV).unwrap_or(DROPOUT_V) },
    };
    Ok(Regulator {
        kind,
        input_v: number(thing, ThingNumber::InputV)?,
        output_v: number(thing, ThingNumber::OutputV)?,
        load_a: number(thing, ThingNumber::LoadA)?,
        ambient_c,
        thermal_resistance_k_per_w: number(thing, ThingNumber::RiseKPerW)?,
        limit_c: number(thing, ThingNumber::LimitC)?,
    })
}
