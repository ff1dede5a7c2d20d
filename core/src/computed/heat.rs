use super::hotter::{AskedDay, There, fed_back, no_time_constant, there};
use super::{Computed, Facts, Figure, Lacking, Result, outcome, worst, worst_first};
use crate::drawing::{Curve, curve};
use crate::engineering::Grade;
use crate::engineering::heat::SteadyReport;
use crate::locale::{Locale, say};
use crate::unit::Unit;

/// The same hover on the hottest day: each place against its stop, by the arithmetic of [`there`]; and how long it takes to get there.
pub(super) fn hot_day(facts: Facts<'_>) -> Result<Computed> {
    let last = facts.last_hover()?;
    let hot_c = facts.figure("hot-day-temperature")?;
    let minutes = last.flown_ms().unwrap_or(0) as f64 / 60_000.0;
    let places = there(facts, AskedDay { air_c: hot_c, airflow_share: 1.0, power_share: 1.0, minutes })?;
    let margin_k = |part: &There<'_>| part.report.reached.margin_k;
    let Some(hottest) = worst_first(&places, grade, margin_k) else {
        return Err(Lacking::Flight(last.check.clone()));
    };
    let (locale, report) = (facts.locale, &hottest.report);
    let summary = say!(
        locale,
        "computed-heat-summary",
        day = locale.rounded(hot_c, 0, Unit::Celsius),
        part = locale.inside(&hottest.place.title),
        temperature = locale.rounded(report.at_end_c, 0, Unit::Celsius),
        limit = locale.rounded(hottest.place.stop_above_c, 0, Unit::Celsius),
        time = further(locale, hottest)
    );
    let mut remarks = vec![hottest.words_of_flight()];
    remarks.extend(report.covers_s.map(|covers_s| no_time_constant(locale, covers_s)));
    remarks.extend(fed_back(locale, hottest));
    remarks.extend([say!(locale, "computed-heat-basis"), say!(locale, "computed-heat-cure")]);
    Ok(Computed {
        outcome: outcome(worst(places.iter().map(grade))),
        summary,
        figures: places.iter().map(|part| figure(locale, part)).collect(),
        rows: Vec::new(),
        picture: Some(picture(locale, hot_c, &report.reached, report.inputs.tau.map(|tau| tau.tau_s))),
        remarks,
    })
}

/// As the flight ends; and a caution at least where it would pass its stop if it were flown on.
fn grade(part: &There<'_>) -> Grade {
    let flown_on = if part.report.reached.margin_k < 0.0 { Grade::Caution } else { Grade::Ok };
    part.report.grade.max(flown_on)
}

/// What a longer flight would come to.
fn further(locale: Locale, part: &There<'_>) -> String {
    let report = &part.report;
    match report.limit_after_s {
        Some(seconds) => {
            say!(locale, "computed-heat-reaches", time = crate::locale::clock(seconds.round() as i64))
        }
        None if report.reached.margin_k < 0.0 => say!(locale, "computed-heat-would-pass"),
        None if report.covers_s.is_some() => say!(locale, "computed-heat-as-long"),
        None => {
            say!(locale, "computed-heat-stays", steady = locale.rounded(report.reached.steady_c, 0, Unit::Celsius))
        }
    }
}

fn figure(locale: Locale, part: &There<'_>) -> Figure {
    let (report, measured) = (&part.report, &part.report.inputs.question);
    let note = say!(
        locale,
        "computed-heat-note",
        limit = locale.rounded(measured.limit_c, 0, Unit::Celsius),
        steady = locale.rounded(report.reached.steady_c, 0, Unit::Celsius),
        measured = locale.rounded(measured.measured_c, 0, Unit::Celsius),
        air = locale.rounded(measured.measured_at.air_c, 0, Unit::Celsius)
    );
    Figure::judged(part.place.title.clone(), report.at_end_c, 0, Unit::Celsius, note, grade(part))
}

fn picture(locale: Locale, hot_c: f64, report: &SteadyReport, tau_s: Option<f64>) -> crate::drawing::Picture {
    // Without a measured time constant the shape is drawn over three of whatever it may be.
    let points: Vec<(f64, f64)> = (0..=30)
        .map(|index| {
            let turns = f64::from(index) / 10.0;
            (turns, hot_c + (report.steady_c - hot_c) * (1.0 - (-turns).exp()))
        })
        .collect();
    let end = tau_s.map_or_else(
        || say!(locale, "computed-warm-through"),
        |tau| crate::locale::clock((3.0 * tau).round() as i64),
    );
    curve(&Curve {
        points: &points,
        marks: &[(3.0, points.last().map_or(hot_c, |p| p.1), locale.rounded(report.steady_c, 0, Unit::Celsius))],
        limit: Some((
            report.inputs.limit_c,
            say!(locale, "computed-stop", temperature = locale.rounded(report.inputs.limit_c, 0, Unit::Celsius)),
        )),
        ends: (say!(locale, "computed-start"), end),
        spoken: say!(
            locale,
            "computed-heat-spoken",
            day = locale.bare(hot_c, 0, Unit::Celsius),
            temperature = locale.bare(report.steady_c, 0, Unit::Celsius),
            limit = locale.bare(report.inputs.limit_c, 0, Unit::Celsius)
        ),
    })
}
