use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, governor, outcome};
use crate::engineering::Grade;
use crate::engineering::placement::{
    NaturalFrequency, NearestOrder, PlacementQuestion, PlacementReport, USUAL_MARGIN_PERCENT, drive_exciters,
    magnification, nearest_order, placement as place, separation_margin,
};
use crate::record::{Outcome, ThingKind, Unit};
use crate::view::chart::Sheet;
use crate::view::{Anchor, Ink, LabelSize, Picture};

/// Orders of rotors, gears and motor over the ladder's head speeds against the natural frequencies that were measured.
pub(super) fn placement(facts: Facts<'_>) -> Result<Computed> {
    let naturals: Vec<NaturalFrequency> = facts
        .some_things(ThingKind::Natural)?
        .into_iter()
        .map(|thing| {
            Ok(NaturalFrequency {
                name: thing.name.clone(),
                frequency_hz: number(thing, "frequency_hz")?,
                half_width_hz: thing.number("half_width_hz").unwrap_or(0.0),
            })
        })
        .collect::<Result<_>>()?;
    let service = facts.figure("service-head-speed")?;
    let question = PlacementQuestion {
        exciters: drive_exciters(&governor::train(facts)?)?,
        naturals,
        low_rpm: facts.figure("hover-low-head-speed")? * 0.9,
        high_rpm: service * 1.1,
        margin_percent: USUAL_MARGIN_PERCENT,
    };
    let report = place(&question)?;
    let nearest = nearest_order(&question, service)?;
    let (exciter, natural) = (&question.exciters[nearest.exciter], &question.naturals[nearest.natural]);
    let bands: Vec<String> =
        report.clear.iter().map(|band| format!("{:.0} to {:.0} rpm", band.low_rpm, band.high_rpm)).collect();
    let clear = if bands.is_empty() {
        "no band of head speed is clear".to_owned()
    } else {
        format!("clear: {}", bands.join(", "))
    };
    let damping = damping(facts, &question.naturals[nearest.natural].name, &nearest)?;
    Ok(Computed {
        outcome: outcome(damping.iter().map(|(_, grade)| *grade).fold(nearest.grade, Grade::max)),
        summary: format!(
            "At {service:.0} rpm {} at {:.1} Hz passes {} by {:.0} %; {clear}",
            exciter.name, nearest.exciter_hz, natural.name, nearest.margin_percent
        ),
        figures: vec![
            Figure::judged(
                "Margin at service speed",
                nearest.margin_percent,
                1,
                Unit::Percent,
                format!(
                    "of {:.1} Hz, {:.0} % wanted",
                    nearest.natural_hz, nearest.wanted_percent
                ),
                nearest.grade,
            ),
            Figure::told("Nearest order", nearest.exciter_hz, 1, Unit::Hertz).noted(exciter.name.clone()),
        ]
        .into_iter()
        .chain(damping.into_iter().map(|(figure, _)| figure))
        .collect(),
        rows: rows(&report),
        picture: Some(picture(&report, service)),
        remarks: vec![
            "Ten percent of the natural frequency is kept clear (common practice, no source). What was measured at rest \
             shifts when the rotor turns and carries."
                .to_owned(),
        ],
    })
}

/// Where the swing at resonance is known: how far off API 684 would have it, and how much is left of the swing there.
fn damping(facts: Facts<'_>, natural: &str, nearest: &NearestOrder) -> Result<Vec<(Figure, Grade)>> {
    let thing = facts.ledger.aircraft.thing(ThingKind::Natural, natural);
    let Some(amplification) = thing.and_then(|thing| thing.number("amplification")) else { return Ok(Vec::new()) };
    let separation = separation_margin(amplification)?;
    let below = nearest.exciter_hz < nearest.natural_hz;
    let wanted_percent = if below { separation.below_percent } else { separation.above_percent };
    // Made for machines that stand in a hall: past it is a caution, never a stop.
    let grade = if nearest.margin_percent < wanted_percent { Grade::Caution } else { Grade::Ok };
    let note = format!(
        "{wanted_percent:.0} % wanted at {amplification:.0} times the push at resonance (API 684, orientation only)"
    );
    let margin = Figure::judged("Margin by damping", nearest.margin_percent, 1, Unit::Percent, note, grade);
    // One over twice the damping ratio is the swing at resonance.
    let swing = magnification(nearest.exciter_hz / nearest.natural_hz, 0.5 / amplification)?;
    let swing = Figure::told("Swing there, over the still push", swing, 1, Unit::Ratio);
    Ok(vec![(margin, grade), (swing, Grade::Ok)])
}

fn rows(report: &PlacementReport) -> Vec<Row> {
    let row = |crossing: &crate::engineering::placement::Crossing| Row {
        title: format!(
            "{} meets {} at {:.0} rpm",
            report.inputs.exciters[crossing.exciter].name,
            report.inputs.naturals[crossing.natural].name,
            crossing.rpm
        ),
        word: "Keep out of".to_owned(),
        detail: format!("{:.0} to {:.0} rpm", crossing.blocked_low_rpm, crossing.blocked_high_rpm),
        outcome: Outcome::Caution,
    };
    report.crossings.iter().map(row).collect()
}

/// Head speed from left to right: what is blocked as boxes, the service speed as a line.
fn picture(report: &PlacementReport, service: f64) -> Picture {
    let mut sheet = Sheet::new();
    let (left, right, top, bottom) = (12.0, Sheet::WIDTH - 12.0, 34.0, 96.0);
    let (low, high) = (report.inputs.low_rpm, report.inputs.high_rpm);
    let x = |rpm: f64| left + (right - left) * ((rpm.clamp(low, high) - low) / (high - low)) as f32;
    sheet.line(Ink::Quiet, 1.0, &[(left, bottom), (right, bottom)]);
    for crossing in &report.crossings {
        sheet.bar(Ink::Limit, x(crossing.blocked_low_rpm), top, x(crossing.blocked_high_rpm), bottom, false);
        sheet.line(Ink::Limit, 1.5, &[(x(crossing.rpm), top), (x(crossing.rpm), bottom)]).dashed = true;
    }
    sheet.line(Ink::Strong, 3.0, &[(x(service), top - 8.0), (x(service), bottom + 8.0)]);
    let words = format!("service {service:.0} rpm");
    sheet.label(x(service), top - 14.0, words.clone(), Ink::Strong, LabelSize::Small, Anchor::End);
    sheet.label(left, bottom + 20.0, format!("{low:.0} rpm"), Ink::Quiet, LabelSize::Small, Anchor::Start);
    sheet.label(right, bottom + 20.0, format!("{high:.0} rpm"), Ink::Quiet, LabelSize::Small, Anchor::End);
    let blocked: Vec<String> =
        report.crossings.iter().map(|c| format!("{:.0} to {:.0}", c.blocked_low_rpm, c.blocked_high_rpm)).collect();
    sheet.finish(124.0, format!("Head speeds to keep out of: {}; {words}", blocked.join(", ")))
}
