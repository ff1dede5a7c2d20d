//! The head speeds that the plan runs: against what the blades allow, and from one hover to the next.

use super::{Computed, Facts, Figure, Lacking, Result, outcome, worst};
use crate::drawing::{Bar, bars};
use crate::engineering::Grade;
use crate::locale::{Locale, say};
use crate::plan::Motion;
use crate::unit::Unit;

/// Of the blades' rating that stays in hand (common practice, no source).
const RATING_SHARE: f64 = 0.9;
/// A step that shows a shake while it is still small, percent of the speed below it (common practice, no source).
const SMALL_STEP_PERCENT: f64 = 10.0;
/// A step that is too large, percent of the speed below it (common practice, no source).
const LARGE_STEP_PERCENT: f64 = 15.0;

/// A head speed that the plan runs.
struct Run<'a> {
    title: &'a str,
    rpm: f64,
}

/// What this aircraft is run at, in the plan's order; of one kind of run alone, where it is named.
fn runs(facts: Facts<'_>, motion: Option<Motion>) -> Result<Vec<Run<'_>>> {
    let aircraft = &facts.ledger.aircraft;
    let flown = facts.plan.checks().filter(|(_, check)| aircraft.wants(check));
    let flown = flown.filter_map(|(_, check)| Some((check, check.fly()?)));
    let of = flown.filter(|(_, fly)| motion.is_none_or(|motion| fly.motion == motion));
    of.map(|(check, fly)| Ok(Run { title: &check.title, rpm: facts.limit(&fly.head_speed_rpm)? })).collect()
}

/// The highest head speed of all that the plan runs against what the blades allow.
pub(super) fn under_rating(facts: Facts<'_>) -> Result<Computed> {
    let (locale, rated_rpm) = (facts.locale, facts.figure("blade-max-head-speed")?);
    let runs = runs(facts, None)?;
    let Some(highest) = runs.iter().max_by(|one, other| one.rpm.total_cmp(&other.rpm)) else {
        return Err(Lacking::Flight(String::new()));
    };
    let grade = Grade::of_load(highest.rpm, rated_rpm, RATING_SHARE);
    let rpm = |value: f64| locale.rounded(value, 0, Unit::RevolutionsPerMinute);
    let percent = locale.number(highest.rpm / rated_rpm * 100.0, 0);
    let note =
        say!(locale, "computed-blade-speed-note", rated = rpm(rated_rpm), caution = rpm(rated_rpm * RATING_SHARE));
    let bar = Bar {
        title: highest.title.to_owned(),
        value: highest.rpm,
        limit: rated_rpm,
        text: say!(
            locale,
            "computed-of",
            part = locale.bare(highest.rpm, 0, Unit::RevolutionsPerMinute),
            whole = rpm(rated_rpm)
        ),
    };
    Ok(Computed {
        outcome: outcome(grade),
        summary: say!(
            locale,
            "computed-blade-speed-summary",
            rpm = rpm(highest.rpm),
            check = locale.inside(highest.title),
            percent = percent
        ),
        figures: vec![
            Figure::judged(
                say!(locale, "computed-blade-speed-highest"),
                highest.rpm,
                0,
                Unit::RevolutionsPerMinute,
                note,
                grade,
            )
            .against(rated_rpm),
        ],
        rows: Vec::new(),
        picture: Some(bars(&[bar])),
        remarks: vec![say!(locale, "computed-blade-speed-basis")],
    })
}

/// The steps between the head speeds of the hovers, from each to the next.
pub(super) fn steps(facts: Facts<'_>) -> Result<Computed> {
    let locale = facts.locale;
    let hovers = runs(facts, Some(Motion::Hover))?;
    let steps: Vec<Step<'_>> = hovers.windows(2).map(|pair| Step::between(&pair[0], &pair[1])).collect();
    let Some(worst_step) = steps.iter().max_by(|one, other| one.rank().total_cmp(&other.rank())) else {
        return Err(Lacking::Flight(String::new()));
    };
    Ok(Computed {
        outcome: outcome(worst(steps.iter().map(Step::grade))),
        summary: worst_step.words(locale),
        figures: steps.iter().map(|step| step.figure(locale)).collect(),
        rows: Vec::new(),
        picture: Some(bars(&steps.iter().map(|step| step.bar(locale)).collect::<Vec<_>>())),
        remarks: vec![say!(locale, "computed-steps-basis")],
    })
}

/// From one hover to the next.
struct Step<'a> {
    to: &'a str,
    from_rpm: f64,
    to_rpm: f64,
}

impl<'a> Step<'a> {
    fn between(low: &Run<'a>, high: &Run<'a>) -> Step<'a> {
        Step { to: high.title, from_rpm: low.rpm, to_rpm: high.rpm }
    }

    fn percent(&self) -> f64 {
        (self.to_rpm / self.from_rpm - 1.0) * 100.0
    }

    /// A step that leads down is worse than any that leads up.
    fn rank(&self) -> f64 {
        if self.percent() > 0.0 { self.percent() } else { f64::INFINITY }
    }

    fn grade(&self) -> Grade {
        Grade::of_load(self.rank(), LARGE_STEP_PERCENT, SMALL_STEP_PERCENT / LARGE_STEP_PERCENT)
    }

    fn words(&self, locale: Locale) -> String {
        say!(
            locale,
            "computed-steps-summary",
            from = locale.bare(self.from_rpm, 0, Unit::RevolutionsPerMinute),
            to = locale.rounded(self.to_rpm, 0, Unit::RevolutionsPerMinute),
            percent = locale.number(self.percent(), 1)
        )
    }

    fn figure(&self, locale: Locale) -> Figure {
        let note = say!(
            locale,
            "computed-steps-note",
            rpm = locale.rounded(self.to_rpm - self.from_rpm, 0, Unit::RevolutionsPerMinute),
            small = locale.number(SMALL_STEP_PERCENT, 0),
            large = locale.number(LARGE_STEP_PERCENT, 0)
        );
        let label = say!(locale, "computed-steps-to", check = locale.inside(self.to));
        Figure::judged(label, self.percent(), 1, Unit::Percent, note, self.grade()).against(LARGE_STEP_PERCENT)
    }

    fn bar(&self, locale: Locale) -> Bar {
        Bar {
            title: self.to.to_owned(),
            value: self.percent().max(0.0),
            limit: LARGE_STEP_PERCENT,
            text: say!(
                locale,
                "computed-of",
                part = locale.bare(self.percent(), 1, Unit::Percent),
                whole = locale.rounded(LARGE_STEP_PERCENT, 0, Unit::Percent)
            ),
        }
    }
}
