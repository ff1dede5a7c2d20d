use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome};
use crate::drawing::{Anchor, Ink, LabelSize, Picture, Sheet};
use crate::engineering::Grade;
use crate::engineering::unbalance::{Polar, SinglePlaneReport, SinglePlaneRun, single_plane};
use crate::locale::{Locale, say};
use crate::record::{Outcome, Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

/// Vibration that needs no weight, mm/s rms (ISO 10816-1, class I, orientation only: made for machines on the ground).
const QUIET_MM_S: f64 = 4.5;

/// The weight that the last run with a trial weight asks for, and where it goes.
pub(super) fn correction(facts: Facts<'_>) -> Result<Computed> {
    let mut runs = facts.some_things(ThingKind::TrialRun)?;
    // The newest run first: it shows what the weights that were fitted before it have done.
    runs.sort_by_key(|thing| std::cmp::Reverse(facts.described_at(thing)));
    let reports: Vec<(&Thing, SinglePlaneReport)> =
        runs.into_iter().map(|thing| Ok((thing, single_plane(&run(thing)?)?))).collect::<Result<_>>()?;
    let Some(((newest, report), earlier)) = reports.split_first() else {
        return Err(super::Lacking::Things(ThingKind::TrialRun));
    };
    Ok(answer(facts.locale, newest, report, earlier))
}

fn answer(
    locale: Locale,
    newest: &Thing,
    report: &SinglePlaneReport,
    earlier: &[(&Thing, SinglePlaneReport)],
) -> Computed {
    let before_mm_s = report.inputs.first.size;
    let quiet = before_mm_s <= QUIET_MM_S;
    let grade = if quiet { Grade::Ok } else { Grade::Caution };
    let summary = if quiet {
        say!(
            locale,
            "computed-trial-quiet",
            run = newest.name,
            speed = locale.rounded(before_mm_s, 1, Unit::MillimetrePerSecond)
        )
    } else {
        say!(
            locale,
            "computed-trial-summary",
            grams = locale.rounded(report.correction_g.size, 2, Unit::Gram),
            angle = locale.number(report.correction_g.angle_deg, 0)
        )
    };
    Computed {
        outcome: outcome(grade),
        summary,
        figures: figures(locale, newest, report, grade),
        rows: earlier.iter().map(|(thing, report)| earlier_row(locale, thing, report)).collect(),
        picture: Some(picture(locale, newest, report)),
        remarks: vec![say!(locale, "computed-trial-basis"), say!(locale, "computed-trial-bullet")],
    }
}

/// `grade` is that of the vibration without a weight.
fn figures(locale: Locale, newest: &Thing, report: &SinglePlaneReport, grade: Grade) -> Vec<Figure> {
    let correction = report.correction_g;
    let limit = locale.quantity(QUIET_MM_S, Unit::MillimetrePerSecond);
    let poor = report.grade != Grade::Ok;
    vec![
        Figure::judged(
            say!(locale, "computed-trial-without"),
            report.inputs.first.size,
            1,
            Unit::MillimetrePerSecond,
            say!(locale, "computed-trial-without-note", limit = limit),
            grade,
        )
        .against(QUIET_MM_S),
        Figure::told(say!(locale, "computed-trial-weight"), correction.size, 2, Unit::Gram).noted(say!(
            locale,
            "computed-trial-weight-note",
            angle = locale.number(correction.angle_deg, 0),
            sense = sense(locale, newest, ThingNumber::Counted)
        )),
        Figure::told(say!(locale, "computed-trial-gram"), report.influence_per_g, 2, Unit::MillimetrePerSecond),
        Figure::judged(
            say!(locale, "computed-trial-change"),
            report.change_percent,
            0,
            Unit::Percent,
            say!(locale, "computed-trial-change-note"),
            if poor { Grade::Caution } else { Grade::Ok },
        ),
    ]
}

fn run(thing: &Thing) -> Result<SinglePlaneRun> {
    let polar =
        |size, angle| -> Result<Polar> { Ok(Polar { size: number(thing, size)?, angle_deg: number(thing, angle)? }) };
    Ok(SinglePlaneRun {
        with_rotation: is_first(thing, ThingNumber::Counted)? == is_first(thing, ThingNumber::Turns)?,
        is_lag: is_first(thing, ThingNumber::Later)?,
        first: polar(ThingNumber::FirstMmS, ThingNumber::FirstDeg)?,
        trial_g: polar(ThingNumber::TrialG, ThingNumber::TrialDeg)?,
        with_trial: polar(ThingNumber::WithMmS, ThingNumber::WithDeg)?,
    })
}

/// Whether a field that is one of two is the first of them: clockwise, or more degrees.
fn is_first(thing: &Thing, field: ThingNumber) -> Result<bool> {
    Ok(number(thing, field)? < 1.5)
}

/// What was answered there, as it stands within a sentence.
fn sense(locale: Locale, thing: &Thing, field: ThingNumber) -> String {
    let known = ThingKind::TrialRun.field(field).zip(thing.number(field));
    known.map_or_else(String::new, |(field, value)| locale.inside(&field.shown(value, locale)))
}

fn earlier_row(locale: Locale, thing: &Thing, report: &SinglePlaneReport) -> Row {
    Row {
        title: thing.name.clone(),
        word: say!(locale, "computed-trial-earlier"),
        detail: say!(
            locale,
            "computed-trial-earlier-note",
            speed = locale.rounded(report.inputs.first.size, 1, Unit::MillimetrePerSecond),
            grams = locale.rounded(report.correction_g.size, 2, Unit::Gram),
            angle = locale.number(report.correction_g.angle_deg, 0)
        ),
        outcome: Outcome::Pass,
    }
}

/// The rotor from above: how it turns, which way angles grow, where the trial weight sat and where the weight goes.
fn picture(locale: Locale, newest: &Thing, report: &SinglePlaneReport) -> Picture {
    let is_clockwise = |field: ThingNumber| is_first(newest, field).unwrap_or(false);
    let mut sheet = Sheet::new();
    let (middle_x, middle_y, rim) = (Sheet::WIDTH / 2.0, 128.0, 70.0_f32);
    // On paper an angle grows anticlockwise, from the right.
    let at = |radius: f32, angle_deg: f64, clockwise: bool| {
        let turn = if clockwise { -angle_deg.to_radians() } else { angle_deg.to_radians() } as f32;
        (middle_x + radius * turn.cos(), middle_y - radius * turn.sin())
    };
    sheet.ring(Ink::Quiet, middle_x, middle_y, rim, false);
    sheet.ring(Ink::Quiet, middle_x, middle_y, 4.0, true);
    let turns = is_clockwise(ThingNumber::Turns);
    let swept: Vec<(f32, f32)> = (0..=12).map(|step| at(rim * 0.45, 200.0 + 10.0 * f64::from(step), turns)).collect();
    sheet.line(Ink::Strong, 2.5, &swept);
    let barbs = [at(rim * 0.33, 308.0, turns), at(rim * 0.45, 320.0, turns), at(rim * 0.57, 308.0, turns)];
    sheet.line(Ink::Strong, 2.5, &barbs);
    let counted = is_clockwise(ThingNumber::Counted);
    for quarter in 0..4 {
        let angle_deg = 90.0 * f64::from(quarter);
        sheet.line(Ink::Quiet, 1.5, &[at(rim - 4.0, angle_deg, counted), at(rim + 4.0, angle_deg, counted)]);
        let (x, y) = at(rim + 20.0, angle_deg, counted);
        sheet.label(x, y + 4.0, format!("{angle_deg}°"), Ink::Quiet, LabelSize::Small, Anchor::Middle);
    }
    let trial = at(rim, report.inputs.trial_g.angle_deg, counted);
    let weight = at(rim, report.correction_g.angle_deg, counted);
    sheet.ring(Ink::Quiet, trial.0, trial.1, 5.0, false);
    sheet.ring(Ink::Action, weight.0, weight.1, 8.0, true);
    let words = say!(
        locale,
        "computed-trial-picture-fit",
        grams = locale.rounded(report.correction_g.size, 2, Unit::Gram),
        angle = locale.number(report.correction_g.angle_deg, 0)
    );
    let turning = say!(locale, "computed-trial-picture-turns", sense = sense(locale, newest, ThingNumber::Turns));
    sheet.label(8.0, 14.0, turning.clone(), Ink::Strong, LabelSize::Small, Anchor::Start);
    sheet.label(8.0, 30.0, words.clone(), Ink::Action, LabelSize::Small, Anchor::Start);
    let spoken = say!(
        locale,
        "computed-trial-spoken",
        turns = turning,
        counted = sense(locale, newest, ThingNumber::Counted),
        words = words
    );
    sheet.finish(228.0, spoken)
}
