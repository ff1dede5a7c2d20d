use super::facts::number;
use super::{Computed, Facts, Figure, Lacking, Result, outcome, supply};
use crate::drawing::{Bar, bars};
use crate::engineering::supply::{ReceiverPack, USABLE_FRACTION, receiver_endurance};
use crate::locale::say;
use crate::record::{ThingKind, ThingNumber};
use crate::unit::Unit;

/// How long the receiver pack lasts against what is planned between two charges.
pub(super) fn endurance(facts: Facts<'_>) -> Result<Computed> {
    let rails = supply::reports(facts, |thing| number(thing, ThingNumber::StirringPeakA))?;
    // Whatever else is fitted, the servos hang on the supply with the largest draw.
    let rail = rails.iter().max_by(|a, b| a.average_a.total_cmp(&b.average_a));
    let rail = rail.ok_or(Lacking::Things(ThingKind::Supply))?;
    let report = receiver_endurance(&ReceiverPack {
        capacity_mah: facts.figure("receiver-pack-capacity")?,
        average_a: rail.average_a,
        planned_min: facts.figure("session-minutes")?,
        usable_fraction: USABLE_FRACTION,
    })?;
    let name = &rail.inputs.rail.name;
    Ok(Computed {
        outcome: outcome(report.grade),
        summary: say!(
            facts.locale,
            "computed-receiver-summary",
            name = name,
            minutes = facts.locale.number(report.endurance_min, 0),
            planned = facts.locale.number(report.inputs.planned_min, 0)
        ),
        figures: vec![
            Figure::judged(
                say!(facts.locale, "computed-receiver-used"),
                report.used_percent,
                0,
                Unit::Percent,
                say!(
                    facts.locale,
                    "computed-receiver-used-note",
                    used = facts.locale.number(report.used_mah, 0),
                    usable = facts.locale.number(report.usable_mah, 0)
                ),
                report.grade,
            ),
            Figure::told(say!(facts.locale, "computed-receiver-room"), report.margin_min, 0, Unit::Minute).noted(
                say!(facts.locale, "computed-percent", percent = facts.locale.number(report.margin_percent, 0)),
            ),
            Figure::told(say!(facts.locale, "computed-receiver-current"), report.inputs.average_a, 2, Unit::Ampere)
                .noted(say!(facts.locale, "computed-receiver-current-note")),
        ],
        rows: Vec::new(),
        picture: Some(bars(&[Bar {
            title: say!(facts.locale, "computed-receiver-bar"),
            value: report.inputs.planned_min,
            limit: report.endurance_min,
            text: say!(
                facts.locale,
                "computed-of",
                part = facts.locale.bare(report.inputs.planned_min, 0, Unit::Minute),
                whole = facts.locale.rounded(report.endurance_min, 0, Unit::Minute)
            ),
        }])),
        remarks: vec![say!(facts.locale, "computed-receiver-basis")],
    })
}
