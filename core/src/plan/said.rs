//! How the parts of an item are said where plans are held against each other.

use super::check::{Computation, Holds, Limit, Motion};
use super::model::Plan;
use super::when::When;
use crate::locale::{Locale, say};

/// An item as points: what, and how it is said.
pub(super) type Points = Vec<(String, String)>;

pub(super) fn flown_words(locale: Locale, motion: Motion) -> String {
    match motion {
        Motion::Bench => say!(locale, "difference-flown-bench"),
        Motion::Run => say!(locale, "difference-flown-run"),
        Motion::Hover => say!(locale, "difference-flown-hover"),
        Motion::Flight => say!(locale, "difference-flown-flight"),
    }
}

pub(super) fn computation_words(locale: Locale, computation: Computation) -> String {
    match computation {
        Computation::SupplyLoad => say!(locale, "difference-computed-supply-load"),
        Computation::SupplyWindow => say!(locale, "difference-computed-supply-window"),
        Computation::ReceiverEndurance => say!(locale, "difference-computed-receiver-endurance"),
        Computation::RegulatorHeat => say!(locale, "difference-computed-regulator-heat"),
        Computation::WireRuns => say!(locale, "difference-computed-wire-runs"),
        Computation::CentreOfGravity => say!(locale, "difference-computed-centre-of-gravity"),
        Computation::GovernorRoom => say!(locale, "difference-computed-governor-room"),
        Computation::HoverRoom => say!(locale, "difference-computed-hover-room"),
        Computation::BladeBalance => say!(locale, "difference-computed-blade-balance"),
        Computation::FrequencyPlacement => say!(locale, "difference-computed-frequency-placement"),
        Computation::LadderAgreement => say!(locale, "difference-computed-ladder-agreement"),
        Computation::HotDayHeat => say!(locale, "difference-computed-hot-day-heat"),
        Computation::PackLife => say!(locale, "difference-computed-pack-life"),
        Computation::PackTrend => say!(locale, "difference-computed-pack-trend"),
        Computation::LandingCharge => say!(locale, "difference-computed-landing-charge"),
        Computation::PackRipple => say!(locale, "difference-computed-pack-ripple"),
        Computation::TrialWeight => say!(locale, "difference-computed-trial-weight"),
        Computation::BladeSpeed => say!(locale, "difference-computed-blade-speed"),
        Computation::HeadSpeedSteps => say!(locale, "difference-computed-head-speed-steps"),
        Computation::DriveLoad => say!(locale, "difference-computed-drive-load"),
    }
}

pub(super) fn limit_words(locale: Locale, plan: &Plan, limit: &Limit, sign: &str) -> String {
    match limit {
        Limit::Number(number) => format!("{} {sign}", locale.plain(*number)),
        Limit::FullCell { plus_v } => say!(locale, "difference-full-cell", plus = locale.plain(*plus_v)),
        Limit::Figure { figure, times } => {
            let title = plan.figure(figure).map_or(figure.as_str(), |figure| figure.title.as_str());
            if *times == 1.0 {
                say!(locale, "difference-named", title = title)
            } else {
                say!(locale, "difference-times", times = locale.plain(*times), title = title)
            }
        }
    }
}

pub(super) fn event_titles(plan: &Plan, ids: &[String]) -> String {
    let titles = ids.iter().map(|id| plan.event(id).map_or(id.as_str(), |event| event.title.as_str()));
    titles.collect::<Vec<_>>().join(", ")
}

pub(super) fn holds_words(locale: Locale, plan: &Plan, holds: &Holds) -> String {
    let Holds { session, flights, hours, days, events } = holds;
    let mut parts = Vec::new();
    parts.extend(session.then(|| say!(locale, "difference-day")));
    parts.extend(flights.map(|flights| say!(locale, "difference-flights", flights = flights)));
    parts.extend(hours.map(|hours| say!(locale, "difference-hours", hours = locale.plain(hours))));
    parts.extend(days.map(|days| say!(locale, "difference-days", days = days)));
    if !events.is_empty() {
        parts.push(say!(locale, "difference-until", events = locale.inside(&event_titles(plan, events))));
    }
    if parts.is_empty() {
        say!(locale, "difference-until-changed")
    } else {
        parts.join(&say!(locale, "difference-or"))
    }
}

pub(super) fn when_words(locale: Locale, plan: &Plan, when: &When) -> String {
    let part = |(question, answers): (&String, &Vec<String>)| {
        let found = plan.question(question);
        let label = |answer: &String| {
            let choice = found.and_then(|q| q.choices.iter().find(|(id, _)| id == answer));
            choice.map_or_else(|| answer.clone(), |(_, label)| label.clone())
        };
        let labels = answers.iter().map(label).collect::<Vec<_>>().join(&say!(locale, "difference-or"));
        format!("{} {labels}", found.map_or(question.as_str(), |q| q.text.as_str()))
    };
    when.iter().map(part).collect::<Vec<_>>().join(", ")
}

/// A check by its title; its id where the plan has no such check.
pub(super) fn check_title<'a>(plan: &'a Plan, id: &'a str) -> &'a str {
    plan.check(id).map_or(id, |(_, check)| &check.title)
}

/// A stage by its title; its id where the plan has no such stage.
pub(super) fn stage_title<'a>(plan: &'a Plan, id: &'a str) -> &'a str {
    plan.stage(id).map_or(id, |stage| &stage.title)
}

pub(super) fn caution_titles(plan: &Plan, ids: &[String]) -> String {
    let titles = ids.iter().map(|id| plan.caution(id).map_or(id.as_str(), |caution| caution.title.as_str()));
    titles.collect::<Vec<_>>().join(", ")
}

pub(super) fn yes_no(locale: Locale, yes: bool) -> String {
    if yes { say!(locale, "difference-yes") } else { say!(locale, "difference-no") }
}
