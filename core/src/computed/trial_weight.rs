use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome};
use crate::drawing::{Anchor, Ink, LabelSize, Picture, Sheet};
use crate::engineering::Grade;
use crate::engineering::unbalance::{Polar, SinglePlaneReport, SinglePlaneRun, single_plane};
use crate::locale::{Locale, say};
use crate::record::{Outcome, Thing, ThingKind};
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
        figures: figures(locale, report, grade),
        rows: earlier.iter().map(|(thing, report)| earlier_row(locale, thing, report)).collect(),
        picture: Some(picture(locale, report)),
        remarks: vec![say!(locale, "computed-trial-basis"), say!(locale, "computed-trial-bullet")],
    }
}

/// `grade` is that of the vibration without a weight.
fn figures(locale: Locale, report: &SinglePlaneReport, grade: Grade) -> Vec<Figure> {
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
            angle = locale.number(correction.angle_deg, 0)
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
        first: polar("first_mm_s", "first_deg")?,
        trial_g: polar("trial_g", "trial_deg")?,
        with_trial: polar("with_mm_s", "with_deg")?,
    })
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

/// Both vibrations as arrows from one point, the change between them, and the place of the weight on the rim.
fn picture(locale: Locale, report: &SinglePlaneReport) -> Picture {
    let mut sheet = Sheet::new();
    let (middle_x, middle_y, rim) = (Sheet::WIDTH / 2.0, 120.0, 84.0_f32);
    let (first, with) = (report.inputs.first, report.inputs.with_trial);
    let scale = f64::from(rim) / first.size.max(with.size).max(1e-9) * 0.9;
    let at = |polar: Polar, scale: f64| {
        let turn = polar.angle_deg.to_radians();
        (middle_x + (polar.size * scale * turn.cos()) as f32, middle_y - (polar.size * scale * turn.sin()) as f32)
    };
    sheet.ring(Ink::Quiet, middle_x, middle_y, rim, false);
    let (head, other) = (at(first, scale), at(with, scale));
    sheet.line(Ink::Strong, 3.0, &[(middle_x, middle_y), head]);
    sheet.line(Ink::Quiet, 3.0, &[(middle_x, middle_y), other]);
    sheet.line(Ink::Quiet, 1.5, &[head, other]).dashed = true;
    let on_rim = |angle_deg: f64| at(Polar { size: 1.0, angle_deg }, f64::from(rim));
    let (trial, weight) = (on_rim(report.inputs.trial_g.angle_deg), on_rim(report.correction_g.angle_deg));
    sheet.ring(Ink::Quiet, trial.0, trial.1, 5.0, false);
    sheet.ring(Ink::Action, weight.0, weight.1, 8.0, true);
    let lines = [
        (
            14.0,
            say!(
                locale,
                "computed-trial-picture-without",
                speed = locale.rounded(first.size, 1, Unit::MillimetrePerSecond)
            ),
            Ink::Strong,
        ),
        (
            30.0,
            say!(
                locale,
                "computed-trial-picture-with",
                speed = locale.rounded(with.size, 1, Unit::MillimetrePerSecond)
            ),
            Ink::Quiet,
        ),
    ];
    for (y, words, ink) in lines {
        sheet.label(8.0, y, words, ink, LabelSize::Small, Anchor::Start);
    }
    let words = say!(
        locale,
        "computed-trial-picture-fit",
        grams = locale.rounded(report.correction_g.size, 2, Unit::Gram),
        angle = locale.number(report.correction_g.angle_deg, 0)
    );
    sheet.label(Sheet::WIDTH - 8.0, 14.0, words.clone(), Ink::Action, LabelSize::Small, Anchor::End);
    sheet.finish(
        212.0,
        say!(
            locale,
            "computed-trial-spoken",
            first = locale.bare(first.size, 1, Unit::MillimetrePerSecond),
            with = locale.bare(with.size, 1, Unit::MillimetrePerSecond),
            words = words
        ),
    )
}
