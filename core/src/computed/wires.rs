use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome, worst};
use crate::engineering::wire::{STRANDED_FACTOR, WireReport, WireRun, choose_wire, wire_run};
use crate::record::{Outcome, Thing, ThingKind, Unit};
use crate::view::chart::{Bar, bars};

/// Each run of wire: drop and heat against what is allowed, and the thinnest wire with its fuse that would do.
pub(super) fn runs(facts: Facts<'_>) -> Result<Computed> {
    let conductor_c = facts.figure("hot-day-temperature")? + 20.0;
    let runs: Vec<(&str, WireReport)> = facts
        .some_things(ThingKind::Wire)?
        .into_iter()
        .map(|thing| Ok((thing.name.as_str(), wire_run(&run(thing, conductor_c)?)?)))
        .collect::<Result<_>>()?;
    let tightest = runs.iter().min_by(|a, b| a.1.margin_percent.total_cmp(&b.1.margin_percent));
    let summary = tightest.map_or_else(String::new, |(name, report)| {
        format!("{name}: {:.2} V lost of {:.2} V allowed, the most of all runs", report.drop_v, report.allowed_drop_v)
    });
    let figure = |(name, report): &(&str, WireReport)| {
        let rated = report.rated_a.map_or_else(String::new, |a| format!(", a single wire carries {a:.0} A"));
        let note = format!(
            "allowed {:.2} V, room {:.0} %, {:.1} W of heat{rated}",
            report.allowed_drop_v, report.margin_percent, report.heat_w
        );
        Figure::judged(format!("{name}: drop"), report.drop_v, 2, Unit::Volt, note, report.grade)
    };
    let bar = |(name, report): &(&str, WireReport)| Bar {
        title: (*name).to_owned(),
        value: report.drop_v,
        limit: report.allowed_drop_v,
        text: format!("{:.2} of {:.2} V", report.drop_v, report.allowed_drop_v),
    };
    Ok(Computed {
        outcome: outcome(worst(runs.iter().map(|(_, report)| report.grade))),
        summary,
        figures: runs.iter().map(figure).collect(),
        rows: runs.iter().filter_map(choice).collect(),
        picture: Some(bars(&runs.iter().map(bar).collect::<Vec<_>>())),
        remarks: vec![
            "Gauge by ASTM B258, copper by IEC 60028, stranded wire taken 28 % above solid (FAA AC 43.13-1B, table 11-9). \
             Wires in a bundle carry about half of what a single one does."
                .to_owned(),
        ],
    })
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
fn choice((name, report): &(&str, WireReport)) -> Option<Row> {
    let choice = choose_wire(&report.inputs).ok()?;
    Some(Row {
        title: format!("{name}: gauge {} with a fuse of {} A", choice.wire.inputs.gauge, choice.fuse_a),
        word: "Thinnest that would do".to_owned(),
        detail: "A fuse protects the wire, not the load; motor leads are not fused in flight.".to_owned(),
        outcome: Outcome::Pass,
    })
}
