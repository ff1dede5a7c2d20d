use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, governor, outcome};
use crate::drawing::{Anchor, Ink, LabelSize, Picture, Sheet};
use crate::engineering::Grade;
use crate::engineering::placement::{
    NaturalFrequency, NearestOrder, PlacementQuestion, PlacementReport, USUAL_MARGIN_PERCENT, drive_exciters,
    magnification, nearest_order, placement as place, separation_margin,
};
use crate::locale::{Locale, say};
use crate::record::{Outcome, ThingKind};
use crate::unit::Unit;

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
    let bands: Vec<String> = report
        .clear
        .iter()
        .map(|band| {
            say!(
                facts.locale,
                "computed-range",
                low = facts.locale.number(band.low_rpm, 0),
                high = facts.locale.rounded(band.high_rpm, 0, Unit::RevolutionsPerMinute)
            )
        })
        .collect();
    let clear = if bands.is_empty() {
        say!(facts.locale, "computed-frequencies-none-clear")
    } else {
        say!(facts.locale, "computed-frequencies-clear", bands = bands.join(", "))
    };
    let damping = damping(facts, &question.naturals[nearest.natural].name, &nearest)?;
    Ok(Computed {
        outcome: outcome(damping.iter().map(|(_, grade)| *grade).fold(nearest.grade, Grade::max)),
        summary: say!(
            facts.locale,
            "computed-frequencies-summary",
            rpm = facts.locale.rounded(service, 0, Unit::RevolutionsPerMinute),
            exciter = exciter_words(facts.locale, &exciter.name),
            frequency = facts.locale.number(nearest.exciter_hz, 1),
            natural = natural.name,
            percent = facts.locale.number(nearest.margin_percent, 0),
            clear = clear
        ),
        figures: vec![
            Figure::judged(
                say!(facts.locale, "computed-frequencies-margin"),
                nearest.margin_percent,
                1,
                Unit::Percent,
                say!(
                    facts.locale,
                    "computed-frequencies-wanted",
                    frequency = facts.locale.number(nearest.natural_hz, 1),
                    percent = facts.locale.number(nearest.wanted_percent, 0)
                ),
                nearest.grade,
            ),
            Figure::told(say!(facts.locale, "computed-frequencies-nearest"), nearest.exciter_hz, 1, Unit::Hertz)
                .noted(exciter_words(facts.locale, &exciter.name)),
        ]
        .into_iter()
        .chain(damping.into_iter().map(|(figure, _)| figure))
        .collect(),
        rows: rows(facts.locale, &report),
        picture: Some(picture(facts.locale, &report, service)),
        remarks: vec![say!(facts.locale, "computed-frequencies-basis")],
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
    let note = say!(
        facts.locale,
        "computed-frequencies-damping-note",
        percent = facts.locale.number(wanted_percent, 0),
        times = facts.locale.number(amplification, 0)
    );
    let margin = Figure::judged(
        say!(facts.locale, "computed-frequencies-by-damping"),
        nearest.margin_percent,
        1,
        Unit::Percent,
        note,
        grade,
    );
    // One over twice the damping ratio is the swing at resonance.
    let swing = magnification(nearest.exciter_hz / nearest.natural_hz, 0.5 / amplification)?;
    let swing = Figure::told(say!(facts.locale, "computed-frequencies-swing"), swing, 1, Unit::Ratio);
    Ok(vec![(margin, grade), (swing, Grade::Ok)])
}

/// What `drive_exciters` calls its exciters, as a person reads it.
fn exciter_words(locale: Locale, name: &str) -> String {
    match name {
        "main rotor, 1 per turn" => say!(locale, "exciter-main-rotor-1-per-turn"),
        "main rotor, 2 per turn" => say!(locale, "exciter-main-rotor-2-per-turn"),
        "main blade passage" => say!(locale, "exciter-main-blade-passage"),
        "main blade passage, twice" => say!(locale, "exciter-main-blade-passage-twice"),
        "tail rotor, 1 per turn" => say!(locale, "exciter-tail-rotor-1-per-turn"),
        "tail blade passage" => say!(locale, "exciter-tail-blade-passage"),
        "motor, 1 per turn" => say!(locale, "exciter-motor-1-per-turn"),
        "motor, electrical" => say!(locale, "exciter-motor-electrical"),
        mesh => say!(locale, "exciter-gear-mesh", stage = mesh.trim_start_matches("gear mesh ")),
    }
}

fn rows(locale: Locale, report: &PlacementReport) -> Vec<Row> {
    let row = |crossing: &crate::engineering::placement::Crossing| Row {
        title: say!(
            locale,
            "computed-frequencies-meets",
            exciter = exciter_words(locale, &report.inputs.exciters[crossing.exciter].name),
            natural = report.inputs.naturals[crossing.natural].name,
            rpm = locale.rounded(crossing.rpm, 0, Unit::RevolutionsPerMinute)
        ),
        word: say!(locale, "computed-frequencies-keep-out"),
        detail: say!(
            locale,
            "computed-range",
            low = locale.number(crossing.blocked_low_rpm, 0),
            high = locale.rounded(crossing.blocked_high_rpm, 0, Unit::RevolutionsPerMinute)
        ),
        outcome: Outcome::Caution,
    };
    report.crossings.iter().map(row).collect()
}

/// Head speed from left to right: what is blocked as boxes, the service speed as a line.
fn picture(locale: Locale, report: &PlacementReport, service: f64) -> Picture {
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
    let words =
        say!(locale, "computed-frequencies-service", rpm = locale.rounded(service, 0, Unit::RevolutionsPerMinute));
    sheet.label(x(service), top - 14.0, words.clone(), Ink::Strong, LabelSize::Small, Anchor::End);
    sheet.label(
        left,
        bottom + 20.0,
        locale.rounded(low, 0, Unit::RevolutionsPerMinute),
        Ink::Quiet,
        LabelSize::Small,
        Anchor::Start,
    );
    sheet.label(
        right,
        bottom + 20.0,
        locale.rounded(high, 0, Unit::RevolutionsPerMinute),
        Ink::Quiet,
        LabelSize::Small,
        Anchor::End,
    );
    let blocked: Vec<String> = report
        .crossings
        .iter()
        .map(|c| {
            say!(
                locale,
                "computed-range",
                low = locale.number(c.blocked_low_rpm, 0),
                high = locale.number(c.blocked_high_rpm, 0)
            )
        })
        .collect();
    sheet.finish(124.0, say!(locale, "computed-frequencies-spoken", speeds = blocked.join(", "), words = words))
}
