//! What differs between two plans, in words that a person can read before one takes the other's place.

use std::collections::BTreeMap;

use super::model::*;
use crate::locale::{Locale, say};
use crate::record::Outcome;
use crate::unit::Unit;

/// What became of one item of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Became {
    /// It is no longer there.
    Removed,
    /// It is new.
    Added,
    /// It is there in both, and says something else.
    Changed,
}

/// One item that differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// What became of it.
    pub became: Became,
    /// What kind of item, in words: a check, a figure and so on.
    pub kind: String,
    /// Its id.
    pub id: String,
    /// Its title; the new one where there is one.
    pub title: String,
    /// For a changed item each point that differs, as `what: was this, now that`.
    pub points: Vec<String>,
}

/// An item as points: what, and how it is said.
type Points = Vec<(String, String)>;

struct Item {
    kind: String,
    id: String,
    title: String,
    points: Points,
    /// A stage's checks in their order: id and title.
    order: Vec<(String, String)>,
}

impl Plan {
    /// What differs in `new`, item by item, in the order of the new plan; what it no longer has comes first.
    pub fn difference(&self, new: &Plan, locale: Locale) -> Vec<Difference> {
        let (before, after) = (items(locale, self), items(locale, new));
        let key = |item: &Item| (item.kind.clone(), item.id.clone());
        let old: BTreeMap<_, &Item> = before.iter().map(|item| (key(item), item)).collect();
        let now: BTreeMap<_, &Item> = after.iter().map(|item| (key(item), item)).collect();
        let told = |became, item: &Item, points| Difference {
            became,
            kind: item.kind.clone(),
            id: item.id.clone(),
            title: item.title.clone(),
            points,
        };
        let removed = before.iter().filter(|item| !now.contains_key(&key(item)));
        let mut all: Vec<Difference> = removed.map(|item| told(Became::Removed, item, Vec::new())).collect();
        for item in &after {
            match old.get(&key(item)) {
                None => all.push(told(Became::Added, item, Vec::new())),
                Some(was) => {
                    let mut points = points_that_differ(locale, &was.points, &item.points);
                    points.extend(order_that_differs(locale, &was.order, &item.order));
                    if !points.is_empty() {
                        all.push(told(Became::Changed, item, points));
                    }
                }
            }
        }
        all
    }
}

fn points_that_differ(locale: Locale, was: &Points, now: &Points) -> Vec<String> {
    let find = |points: &Points, what: &str| points.iter().find(|(w, _)| w == what).map(|(_, said)| said.clone());
    let mut whats: Vec<&str> = was.iter().chain(now).map(|(what, _)| what.as_str()).collect();
    let mut seen = Vec::new();
    whats.retain(|what| {
        let new = !seen.contains(what);
        seen.push(*what);
        new
    });
    let said = |text: Option<String>| {
        text.filter(|text| !text.is_empty()).unwrap_or_else(|| say!(locale, "difference-nothing"))
    };
    let differs = whats.into_iter().filter_map(|what| {
        let (old, new) = (find(was, what).unwrap_or_default(), find(now, what).unwrap_or_default());
        (old != new)
            .then(|| say!(locale, "difference-point", what = what, old = said(Some(old)), new = said(Some(new))))
    });
    differs.collect()
}

fn items(locale: Locale, plan: &Plan) -> Vec<Item> {
    let item = |kind, id: &str, title: &str, points| Item {
        kind,
        id: id.to_owned(),
        title: title.to_owned(),
        points,
        order: Vec::new(),
    };
    let mut all = vec![item(
        say!(locale, "difference-plan"),
        "plan",
        &plan.title,
        vec![
            (say!(locale, "difference-id"), plan.id.clone()),
            (say!(locale, "difference-title"), plan.title.clone()),
            (say!(locale, "difference-notice"), tidy(&plan.notice)),
        ],
    )];
    all.extend(plan.questions.iter().map(|q| {
        let choices = q.choices.iter().map(|(_, label)| label.clone()).collect::<Vec<_>>().join("; ");
        item(
            say!(locale, "difference-question"),
            &q.id,
            &q.text,
            vec![
                (say!(locale, "difference-question"), q.text.clone()),
                (say!(locale, "difference-answers"), choices),
            ],
        )
    }));
    all.extend(plan.figures.iter().map(|f| {
        let points = vec![
            (say!(locale, "difference-title"), f.title.clone()),
            (say!(locale, "difference-unit"), f.unit.sign().to_owned()),
            (
                say!(locale, "difference-plausible"),
                say!(locale, "computed-range", low = locale.plain(f.low), high = locale.plain(f.high)),
            ),
            (say!(locale, "difference-required"), yes_no(locale, f.required)),
            (say!(locale, "difference-only-for"), when_words(locale, plan, &f.when)),
            (
                say!(locale, "difference-above"),
                f.above.as_deref().map(|id| plan.figure(id).map_or(id, |f| &f.title)).unwrap_or_default().into(),
            ),
            (say!(locale, "difference-adjustable"), yes_no(locale, f.adjustable)),
            (say!(locale, "difference-why"), f.why.clone().unwrap_or_default()),
        ];
        item(say!(locale, "difference-figure"), &f.id, &f.title, points)
    }));
    all.extend(plan.parts.iter().map(|p| {
        item(
            say!(locale, "difference-part"),
            &p.id,
            &p.title,
            vec![
                (say!(locale, "difference-title"), p.title.clone()),
                (say!(locale, "difference-only-for"), when_words(locale, plan, &p.when)),
            ],
        )
    }));
    all.extend(plan.events.iter().map(|e| {
        item(
            say!(locale, "difference-event"),
            &e.id,
            &e.title,
            vec![
                (say!(locale, "difference-title"), e.title.clone()),
                (say!(locale, "difference-text"), tidy(&e.text)),
            ],
        )
    }));
    all.extend(plan.settings.iter().map(|s| {
        item(
            say!(locale, "difference-setting"),
            &s.id,
            &s.title,
            vec![
                (say!(locale, "difference-title"), s.title.clone()),
                (say!(locale, "difference-unit"), s.unit.clone().unwrap_or_default()),
                (say!(locale, "difference-only-for"), when_words(locale, plan, &s.when)),
            ],
        )
    }));
    all.extend(plan.places.iter().map(|p| {
        let points = vec![
            (say!(locale, "difference-title"), p.title.clone()),
            (say!(locale, "difference-caution-above"), locale.quantity(p.caution_above_c, Unit::Celsius)),
            (say!(locale, "difference-stop-above"), locale.quantity(p.stop_above_c, Unit::Celsius)),
            (say!(locale, "difference-basis"), p.basis.clone()),
            (say!(locale, "difference-only-for"), when_words(locale, plan, &p.when)),
        ];
        item(say!(locale, "difference-temperature"), &p.id, &p.title, points)
    }));
    all.extend(plan.cautions.iter().map(|c| {
        item(
            say!(locale, "difference-caution"),
            &c.id,
            &c.title,
            vec![
                (say!(locale, "difference-title"), c.title.clone()),
                (say!(locale, "difference-text"), tidy(&c.text)),
            ],
        )
    }));
    for stage in &plan.stages {
        let points = stage_points(locale, plan, stage);
        let order = stage.checks.iter().map(|check| (check.id.clone(), check.title.clone())).collect();
        all.push(Item { order, ..item(say!(locale, "difference-stage"), &stage.id, &stage.title, points) });
        all.extend(stage.checks.iter().map(|check| {
            let points = check_points(locale, plan, stage, check);
            item(say!(locale, "difference-check"), &check.id, &check.title, points)
        }));
    }
    all
}

fn stage_points(locale: Locale, plan: &Plan, stage: &Stage) -> Points {
    let titles = |ids: &[String]| {
        let named = ids.iter().map(|id| plan.stage(id).map_or(id.as_str(), |stage| stage.title.as_str()));
        named.collect::<Vec<_>>().join(", ")
    };
    vec![
        (say!(locale, "difference-title"), stage.title.clone()),
        (say!(locale, "difference-purpose"), tidy(&stage.purpose)),
        (say!(locale, "difference-job"), stage.job.to_string()),
        (say!(locale, "difference-after"), titles(&stage.after)),
        (say!(locale, "difference-cautions"), caution_titles(plan, &stage.cautions)),
        (say!(locale, "difference-gate"), stage.gate.clone().unwrap_or_default()),
    ]
}

/// The order of the checks that a stage has in both plans, where it differs. A check that is new, gone or named anew is told as
/// itself and moves none.
fn order_that_differs(locale: Locale, was: &[(String, String)], now: &[(String, String)]) -> Option<String> {
    let common = |of: &[(String, String)], other: &[(String, String)]| -> Vec<(String, String)> {
        of.iter().filter(|(id, _)| other.iter().any(|(known, _)| known == id)).cloned().collect()
    };
    let (was, now) = (common(was, now), common(now, was));
    let moved = was.iter().zip(&now).any(|((old, _), (new, _))| old != new);
    let titles =
        |checks: &[(String, String)]| checks.iter().map(|(_, title)| title.as_str()).collect::<Vec<_>>().join("; ");
    moved.then(|| {
        let what = say!(locale, "difference-order");
        say!(locale, "difference-point", what = what, old = titles(&was), new = titles(&now))
    })
}

fn check_points(locale: Locale, plan: &Plan, stage: &Stage, check: &Check) -> Points {
    let mut points = vec![
        (say!(locale, "difference-title"), check.title.clone()),
        (say!(locale, "difference-stage"), stage.title.clone()),
        (say!(locale, "difference-do"), tidy(&check.instruction)),
        (say!(locale, "difference-why"), tidy(&check.why)),
        (say!(locale, "difference-judged"), tidy(&check.judged)),
        (say!(locale, "difference-group"), check.chunk.clone().unwrap_or_default()),
        (
            say!(locale, "difference-not-right"),
            if check.fail == Outcome::Stop {
                say!(locale, "difference-a-stop")
            } else {
                say!(locale, "difference-a-caution")
            },
        ),
        (say!(locale, "difference-mandatory"), yes_no(locale, check.mandatory)),
        (say!(locale, "difference-cautions"), caution_titles(plan, &check.cautions)),
        (say!(locale, "difference-witness"), yes_no(locale, check.witness)),
        (
            say!(locale, "difference-without"),
            if check.point == Point::Witness {
                say!(locale, "difference-goes-on")
            } else {
                say!(locale, "difference-stops")
            },
        ),
        (say!(locale, "difference-caution-proves"), yes_no(locale, check.caution_proves)),
        (say!(locale, "difference-called-by"), event_titles(plan, &check.called_by)),
        (
            say!(locale, "difference-rests-on"),
            check.rests_on.iter().map(|on| plan.subject_words(locale, on)).collect::<Vec<_>>().join(", "),
        ),
        (say!(locale, "difference-holds"), holds_words(locale, plan, &check.holds)),
        (say!(locale, "difference-only-for"), when_words(locale, plan, &check.when)),
        (say!(locale, "difference-before-flights"), check.before_flights_from.clone().unwrap_or_default()),
        (say!(locale, "difference-basis"), check.basis.clone().unwrap_or_default()),
    ];
    points.extend(kind_points(locale, plan, check));
    points
}

fn kind_points(locale: Locale, plan: &Plan, check: &Check) -> Points {
    match &check.kind {
        CheckKind::Confirm => vec![(say!(locale, "difference-kind"), say!(locale, "difference-look"))],
        CheckKind::Compute(computation) => vec![(
            say!(locale, "difference-kind"),
            say!(locale, "difference-computed", what = format!("{computation:?}")),
        )],
        CheckKind::Measure(measure) => {
            let sign = measure.unit.sign();
            let limit =
                |limit: &Option<Limit>| limit.as_ref().map_or(String::new(), |l| limit_words(locale, plan, l, sign));
            vec![
                (say!(locale, "difference-kind"), say!(locale, "difference-reading")),
                (say!(locale, "difference-unit"), sign.to_owned()),
                (
                    say!(locale, "difference-plausible"),
                    say!(
                        locale,
                        "computed-range",
                        low = locale.plain(measure.low),
                        high = locale.plain(measure.high)
                    ),
                ),
                (say!(locale, "difference-stop-below"), limit(&measure.limits.stop_below)),
                (say!(locale, "difference-caution-below"), limit(&measure.limits.caution_below)),
                (say!(locale, "difference-caution-above"), limit(&measure.limits.caution_above)),
                (say!(locale, "difference-stop-above"), limit(&measure.limits.stop_above)),
            ]
        }
        CheckKind::Fly(fly) => vec![
            (say!(locale, "difference-kind"), flown_words(locale, fly.motion)),
            (
                say!(locale, "difference-head-speed"),
                limit_words(locale, plan, &fly.head_speed_rpm, locale.shown(Unit::RevolutionsPerMinute).sign),
            ),
            (say!(locale, "difference-minutes"), locale.plain(fly.minutes)),
            (say!(locale, "difference-knock-off"), fly.knock_off.join("; ")),
            (say!(locale, "difference-temperatures"), fly.temperatures.join(", ")),
            (say!(locale, "difference-predict"), yes_no(locale, fly.predict)),
        ],
    }
}

fn flown_words(locale: Locale, motion: Motion) -> String {
    match motion {
        Motion::Run => say!(locale, "difference-flown-run"),
        Motion::Hover => say!(locale, "difference-flown-hover"),
        Motion::Flight => say!(locale, "difference-flown-flight"),
    }
}

fn limit_words(locale: Locale, plan: &Plan, limit: &Limit, sign: &str) -> String {
    match limit {
        Limit::Number(number) => format!("{} {sign}", locale.plain(*number)),
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

fn event_titles(plan: &Plan, ids: &[String]) -> String {
    let titles = ids.iter().map(|id| plan.event(id).map_or(id.as_str(), |event| event.title.as_str()));
    titles.collect::<Vec<_>>().join(", ")
}

fn holds_words(locale: Locale, plan: &Plan, holds: &Holds) -> String {
    let mut parts = Vec::new();
    parts.extend(holds.session.then(|| say!(locale, "difference-day")));
    parts.extend(holds.flights.map(|flights| say!(locale, "difference-flights", flights = flights)));
    parts.extend(holds.hours.map(|hours| say!(locale, "difference-hours", hours = locale.plain(hours))));
    parts.extend(holds.days.map(|days| say!(locale, "difference-days", days = days)));
    if !holds.events.is_empty() {
        parts.push(say!(locale, "difference-until", events = locale.inside(&event_titles(plan, &holds.events))));
    }
    if parts.is_empty() {
        say!(locale, "difference-until-changed")
    } else {
        parts.join(&say!(locale, "difference-or"))
    }
}

fn when_words(locale: Locale, plan: &Plan, when: &When) -> String {
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

fn caution_titles(plan: &Plan, ids: &[String]) -> String {
    let titles = ids.iter().map(|id| plan.caution(id).map_or(id.as_str(), |caution| caution.title.as_str()));
    titles.collect::<Vec<_>>().join(", ")
}

fn yes_no(locale: Locale, yes: bool) -> String {
    if yes { say!(locale, "difference-yes") } else { say!(locale, "difference-no") }
}

/// Blanks and line ends are no difference.
fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl Check {
    /// Whether evidence of this check answers what `other` asks. Limits may differ: a reading is judged by the limits in
    /// force whenever it is looked at. What is done, how it is judged and what is flown may not.
    pub fn asks_the_same(&self, other: &Check) -> bool {
        let kinds = match (&self.kind, &other.kind) {
            (CheckKind::Confirm, CheckKind::Confirm) => true,
            (CheckKind::Compute(one), CheckKind::Compute(two)) => one == two,
            (CheckKind::Measure(one), CheckKind::Measure(two)) => one.unit == two.unit,
            (CheckKind::Fly(one), CheckKind::Fly(two)) => {
                one.motion == two.motion
                    && one.head_speed_rpm == two.head_speed_rpm
                    && one.minutes == two.minutes
                    && one.predict == two.predict
            }
            _ => false,
        };
        kinds && tidy(&self.instruction) == tidy(&other.instruction) && tidy(&self.judged) == tidy(&other.judged)
    }
}
