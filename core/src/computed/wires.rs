use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome, worst, worst_first};
use crate::drawing::{Bar, bars};
use crate::engineering::Grade;
use crate::engineering::wire::{STRANDED_FACTOR, WireReport, WireRun, choose_wire, wire_run};
use crate::locale::{Locale, say};
use crate::record::{Outcome, Thing, ThingKind};
use crate::unit::Unit;

/// Each run of wire: drop and heat against what is allowed, and the thinnest wire with its fuse that would do.
pub(super) fn runs(facts: Facts<'_>) -> Result<Computed> {
    let conductor_c = facts.figure("hot-day-temperature")? + 20.0;
    let runs: Vec<(&str, WireReport)> = facts
        .some_things(ThingKind::Wire)?
        .into_iter()
        .map(|thing| Ok((thing.name.as_str(), wire_run(&run(thing, conductor_c)?)?)))
        .collect::<Result<_>>()?;
    let worst_run = worst_first(&runs, |(_, report)| report.grade, |(_, report)| -load_percent(report));
    let summary = worst_run.map_or_else(String::new, |(name, report)| headline(facts.locale, name, report));
    let figure = |(name, report): &(&str, WireReport)| {
        let rated = report.rated_a.map_or_else(String::new, |a| {
            say!(facts.locale, "computed-wires-single", current = facts.locale.number(a, 0))
        });
        let note = say!(
            facts.locale,
            "computed-wires-note",
            allowed = facts.locale.number(report.allowed_drop_v, 2),
            room = facts.locale.number(report.margin_percent, 0),
            heat = facts.locale.number(report.heat_w, 1),
            rated = rated
        );
        Figure::judged(
            say!(facts.locale, "computed-wires-drop", name = name),
            report.drop_v,
            2,
            Unit::Volt,
            note,
            report.grade,
        )
    };
    let bar = |(name, report): &(&str, WireReport)| Bar {
        title: (*name).to_owned(),
        value: report.drop_v,
        limit: report.allowed_drop_v,
        text: say!(
            facts.locale,
            "computed-of",
            part = facts.locale.bare(report.drop_v, 2, Unit::Volt),
            whole = facts.locale.rounded(report.allowed_drop_v, 2, Unit::Volt)
        ),
    };
    Ok(Computed {
        outcome: outcome(worst(runs.iter().map(|(_, report)| report.grade))),
        summary,
        figures: runs.iter().map(figure).collect(),
        rows: runs.iter().filter_map(|run| choice(facts.locale, run)).collect(),
        picture: Some(bars(&runs.iter().map(bar).collect::<Vec<_>>())),
        remarks: vec![say!(facts.locale, "computed-wires-basis")],
    })
}

/// The larger share of what the wire may drop and carry, percent.
fn load_percent(report: &WireReport) -> f64 {
    let carried = report.rated_a.map_or(0.0, |rated_a| 100.0 * report.inputs.current_a / rated_a);
    carried.max(100.0 - report.margin_percent)
}

/// What is the matter with the worst run: its current or its drop, whichever is the larger share of what it may be.
fn headline(locale: Locale, name: &str, report: &WireReport) -> String {
    let dropped_percent = 100.0 - report.margin_percent;
    match report.rated_a {
        Some(rated_a) if load_percent(report) > dropped_percent => say!(
            locale,
            "computed-wires-current",
            name = name,
            current = locale.number(report.inputs.current_a, 1),
            rated = locale.number(rated_a, 1)
        ),
        None if report.grade != Grade::Stop => say!(
            locale,
            "computed-wires-unknown",
            name = name,
            gauge = report.inputs.gauge,
            current = locale.number(report.inputs.current_a, 1)
        ),
        Some(_) | None => say!(
            locale,
            "computed-wires-summary",
            name = name,
            drop = locale.number(report.drop_v, 2),
            allowed = locale.number(report.allowed_drop_v, 2)
        ),
    }
}

fn run(thing: &Thing, conductor_c: f64) -> Result<WireRun> {
    Ok(WireRun {
        // The form takes whole numbers from 0 to 40 only.
        gauge: number(thing, "gauge")? as i32,
        length_m: number(thing, "length_m")?,
        current_a: number(thing, "current_a")?,
        source_v: number(thing, "source_v")?,
        conductor_c,
        stranded_factor: STRANDED_FACTOR,
    })
}

/// The thinnest wire that would do, where there is one; a load past every gauge says so in its own grade.
fn choice(locale: Locale, (name, report): &(&str, WireReport)) -> Option<Row> {
    let choice = choose_wire(&report.inputs).ok()?;
    Some(Row {
        title: say!(
            locale,
            "computed-wires-choice",
            name = name,
            gauge = choice.wire.inputs.gauge,
            fuse = locale.plain(choice.fuse_a)
        ),
        word: say!(locale, "computed-wires-thinnest"),
        detail: say!(locale, "computed-wires-fuse"),
        outcome: Outcome::Pass,
    })
}
