use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, governor, outcome};
use crate::drawing::{Anchor, Ink, LabelSize, Picture, Sheet};
use crate::engineering::Grade;
use crate::engineering::placement::{
    NaturalFrequency, NearestOrder, PlacementQuestion, PlacementReport, SpeedBand, USUAL_MARGIN_PERCENT,
    drive_exciters, magnification, nearest_order, placement as place, separation_margin,
};
use crate::locale::{Locale, say};
use crate::record::{Outcome, Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

/// Orders of rotors, gears and motor over the ladder's head speeds against the natural frequencies that were measured.
pub(super) fn placement(facts: Facts<'_>) -> Result<Computed> {
    Ok(answer(facts.locale, &judge(gather(facts)?)?))
}

struct Asked {
    placement: PlacementQuestion,
    service_rpm: f64,
    /// The swing at resonance of each natural frequency, where it is known.
    amplifications: Vec<Option<f64>>,
}

fn gather(facts: Facts<'_>) -> Result<Asked> {
    let things = facts.some_things(ThingKind::Natural)?;
    let natural = |thing: &&Thing| {
        Ok(NaturalFrequency {
            name: thing.name.clone(),
            frequency_hz: number(thing, ThingNumber::FrequencyHz)?,
            half_width_hz: thing.number(ThingNumber::HalfWidthHz).unwrap_or(0.0),
        })
    };
    let naturals: Vec<NaturalFrequency> = things.iter().map(natural).collect::<Result<_>>()?;
    let service_rpm = facts.figure("service-head-speed")?;
    let placement = PlacementQuestion {
        exciters: drive_exciters(&governor::train(facts)?)?,
        naturals,
        low_rpm: facts.figure("hover-low-head-speed")? * 0.9,
        high_rpm: service_rpm * 1.1,
        margin_percent: USUAL_MARGIN_PERCENT,
    };
    let amplifications = things.iter().map(|thing| thing.number(ThingNumber::Amplification)).collect();
    Ok(Asked { placement, service_rpm, amplifications })
}

struct Judged {
    service_rpm: f64,
    report: PlacementReport,
    nearest: NearestOrder,
    /// Where the swing of the nearest natural frequency is known.
    damped: Option<Damped>,
}

/// How far off API 684 would have an order, and how much is left of the swing there.
struct Damped {
    amplification: f64,
    wanted_percent: f64,
    swing: f64,
    grade: Grade,
}

fn judge(asked: Asked) -> Result<Judged> {
    let report = place(&asked.placement)?;
    let nearest = nearest_order(&asked.placement, asked.service_rpm)?;
    let amplification = asked.amplifications.get(nearest.natural).copied().flatten();
    let damped = amplification.map(|amplification| damped(amplification, &nearest)).transpose()?;
    Ok(Judged { service_rpm: asked.service_rpm, report, nearest, damped })
}

fn damped(amplification: f64, nearest: &NearestOrder) -> Result<Damped> {
    let separation = separation_margin(amplification)?;
    let below = nearest.exciter_hz < nearest.natural_hz;
    let wanted_percent = if below { separation.below_percent } else { separation.above_percent };
    // Made for machines that stand in a hall: past it is a caution, never a stop.
    let grade = if nearest.margin_percent < wanted_percent { Grade::Caution } else { Grade::Ok };
    // One over twice the damping ratio is the swing at resonance.
    let swing = magnification(nearest.exciter_hz / nearest.natural_hz, 0.5 / amplification)?;
    Ok(Damped { amplification, wanted_percent, swing, grade })
}

fn answer(locale: Locale, judged: &Judged) -> Computed {
    let Judged { service_rpm, report, nearest, damped } = judged;
    let exciter = exciter_words(locale, &report.inputs.exciters[nearest.exciter].name);
    let grade = damped.as_ref().map_or(nearest.grade, |damped| nearest.grade.max(damped.grade));
    Computed {
        outcome: outcome(grade),
        summary: say!(
            locale,
            "computed-frequencies-summary",
            rpm = locale.rounded(*service_rpm, 0, Unit::RevolutionsPerMinute),
            exciter = exciter,
            frequency = locale.number(nearest.exciter_hz, 1),
            natural = report.inputs.naturals[nearest.natural].name,
            percent = locale.number(nearest.margin_percent, 0),
            clear = clear_words(locale, report)
        ),
        figures: figures(locale, judged, exciter),
        rows: rows(locale, report),
        picture: Some(picture(locale, report, *service_rpm)),
        remarks: vec![say!(locale, "computed-frequencies-basis")],
    }
}

/// The head speeds at which nothing meets.
fn clear_words(locale: Locale, report: &PlacementReport) -> String {
    let band = |band: &SpeedBand| {
        say!(
            locale,
            "computed-range",
            low = locale.number(band.low_rpm, 0),
            high = locale.rounded(band.high_rpm, 0, Unit::RevolutionsPerMinute)
        )
    };
    let bands: Vec<String> = report.clear.iter().map(band).collect();
    if bands.is_empty() {
        say!(locale, "computed-frequencies-none-clear")
    } else {
        say!(locale, "computed-frequencies-clear", bands = bands.join(", "))
    }
}

fn figures(locale: Locale, judged: &Judged, exciter: String) -> Vec<Figure> {
    let nearest = &judged.nearest;
    let wanted = say!(
        locale,
        "computed-frequencies-wanted",
        frequency = locale.number(nearest.natural_hz, 1),
        percent = locale.number(nearest.wanted_percent, 0)
    );
    let margin = Figure::judged(
        say!(locale, "computed-frequencies-margin"),
        nearest.margin_percent,
        1,
        Unit::Percent,
        wanted,
        nearest.grade,
    );
    let order =
        Figure::told(say!(locale, "computed-frequencies-nearest"), nearest.exciter_hz, 1, Unit::Hertz).noted(exciter);
    let damping = judged.damped.as_ref().map(|damped| damping_figures(locale, nearest, damped));
    [margin, order].into_iter().chain(damping.into_iter().flatten()).collect()
}

fn damping_figures(locale: Locale, nearest: &NearestOrder, damped: &Damped) -> [Figure; 2] {
    let note = say!(
        locale,
        "computed-frequencies-damping-note",
        percent = locale.number(damped.wanted_percent, 0),
        times = locale.number(damped.amplification, 0)
    );
    let margin = Figure::judged(
        say!(locale, "computed-frequencies-by-damping"),
        nearest.margin_percent,
        1,
        Unit::Percent,
        note,
        damped.grade,
    );
    [margin, Figure::told(say!(locale, "computed-frequencies-swing"), damped.swing, 1, Unit::Ratio)]
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
        other => stage_words(locale, other),
    }
}

/// What stands between motor and rotor, by its stage.
fn stage_words(locale: Locale, name: &str) -> String {
    let (kind, stage) = name.rsplit_once(' ').unwrap_or((name, ""));
    match kind {
        "idler" => say!(locale, "exciter-idler", stage = stage),
        "belt" => say!(locale, "exciter-belt", stage = stage),
        "shaft" => say!(locale, "exciter-shaft", stage = stage),
        _ => say!(locale, "exciter-gear-mesh", stage = stage),
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
