use super::facts::number;
use super::{Computed, Facts, Figure, Lacking, Result, outcome, supply};
use crate::engineering::supply::{ReceiverPack, USABLE_FRACTION, receiver_endurance};
use crate::record::{ThingKind, Unit};
use crate::view::chart::{Bar, bars};

/// How long the receiver pack lasts against what is planned between two charges.
pub(super) fn endurance(facts: Facts<'_>) -> Result<Computed> {
    let rails = supply::reports(facts, |thing| number(thing, "stirring_peak_a"))?;
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
        summary: format!(
            "{name} lasts {:.0} min with its reserve, {:.0} min are planned",
            report.endurance_min, report.inputs.planned_min
        ),
        figures: vec![
            Figure::judged(
                "Used by the plan",
                report.used_percent,
                0,
                Unit::Percent,
                format!("{:.0} of {:.0} mAh that may be used", report.used_mah, report.usable_mah),
                report.grade,
            ),
            Figure::told("Room", report.margin_min, 0, Unit::Minute).noted(format!("{:.0} %", report.margin_percent)),
            Figure::told("Average current", report.inputs.average_a, 2, Unit::Ampere)
                .noted("steady draw and one stirring peak"),
        ],
        rows: Vec::new(),
        picture: Some(bars(&[Bar {
            title: "Planned of what the reserve allows".to_owned(),
            value: report.inputs.planned_min,
            limit: report.endurance_min,
            text: format!("{:.0} of {:.0} min", report.inputs.planned_min, report.endurance_min),
        }])),
        remarks: vec![
            "Six tenths of the capacity may be used between charges (common practice, no source). A cold or old pack holds \
             less than its label says; a measured average goes before this one."
                .to_owned(),
        ],
    })
}
