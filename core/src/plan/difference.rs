//! What differs between two plans, in words that a person can read before one takes the other's place.

use std::collections::BTreeMap;

use super::model::*;
use crate::record::{Outcome, show};

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
    /// What kind of item: `Check`, `Figure` and so on.
    pub kind: &'static str,
    /// Its id.
    pub id: String,
    /// Its title; the new one where there is one.
    pub title: String,
    /// For a changed item each point that differs, as `what: was this, now that`.
    pub points: Vec<String>,
}

/// An item as points: what, and how it is said.
type Points = Vec<(&'static str, String)>;

struct Item {
    kind: &'static str,
    id: String,
    title: String,
    points: Points,
}

impl Plan {
    /// What differs in `new`, item by item, in the order of the new plan; what it no longer has comes first.
    pub fn difference(&self, new: &Plan) -> Vec<Difference> {
        let (before, after) = (items(self), items(new));
        let key = |item: &Item| (item.kind, item.id.clone());
        let old: BTreeMap<_, &Item> = before.iter().map(|item| (key(item), item)).collect();
        let now: BTreeMap<_, &Item> = after.iter().map(|item| (key(item), item)).collect();
        let told = |became, item: &Item, points| Difference {
            became,
            kind: item.kind,
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
                    let points = points_that_differ(&was.points, &item.points);
                    if !points.is_empty() {
                        all.push(told(Became::Changed, item, points));
                    }
                }
            }
        }
        all
    }
}

fn points_that_differ(was: &Points, now: &Points) -> Vec<String> {
    let find = |points: &Points, what: &str| points.iter().find(|(w, _)| *w == what).map(|(_, said)| said.clone());
    let mut whats: Vec<&str> = was.iter().chain(now).map(|(what, _)| *what).collect();
    let mut seen = Vec::new();
    whats.retain(|what| {
        let new = !seen.contains(what);
        seen.push(*what);
        new
    });
    let said = |text: Option<String>| text.filter(|text| !text.is_empty()).unwrap_or_else(|| "nothing".to_owned());
    let differs = whats.into_iter().filter_map(|what| {
        let (old, new) = (find(was, what).unwrap_or_default(), find(now, what).unwrap_or_default());
        (old != new).then(|| format!("{what}: was {}, now {}", said(Some(old)), said(Some(new))))
    });
    differs.collect()
}

fn items(plan: &Plan) -> Vec<Item> {
    let item =
        |kind, id: &str, title: &str, points| Item { kind, id: id.to_owned(), title: title.to_owned(), points };
    let mut all = vec![item(
        "Plan",
        "plan",
        &plan.title,
        vec![("Id", plan.id.clone()), ("Title", plan.title.clone()), ("Notice", tidy(&plan.notice))],
    )];
    all.extend(plan.questions.iter().map(|q| {
        let choices = q.choices.iter().map(|(_, label)| label.clone()).collect::<Vec<_>>().join("; ");
        item("Question", &q.id, &q.text, vec![("Question", q.text.clone()), ("Answers", choices)])
    }));
    all.extend(plan.figures.iter().map(|f| {
        let points = vec![
            ("Title", f.title.clone()),
            ("Unit", f.unit.sign().to_owned()),
            ("Plausible", format!("{} to {}", show(f.low), show(f.high))),
            ("Required", yes_no(f.required)),
            ("Only for", when_words(plan, &f.when)),
            (
                "Lies above",
                f.above.as_deref().map(|id| plan.figure(id).map_or(id, |f| &f.title)).unwrap_or_default().into(),
            ),
            ("Kept in the ledger of settings", yes_no(f.adjustable)),
            ("Why", f.why.clone().unwrap_or_default()),
        ];
        item("Figure", &f.id, &f.title, points)
    }));
    all.extend(plan.parts.iter().map(|p| {
        item("Part", &p.id, &p.title, vec![("Title", p.title.clone()), ("Only for", when_words(plan, &p.when))])
    }));
    all.extend(
        plan.events
            .iter()
            .map(|e| item("Event", &e.id, &e.title, vec![("Title", e.title.clone()), ("Text", tidy(&e.text))])),
    );
    all.extend(plan.settings.iter().map(|s| {
        item(
            "Setting",
            &s.id,
            &s.title,
            vec![
                ("Title", s.title.clone()),
                ("Unit", s.unit.clone().unwrap_or_default()),
                ("Only for", when_words(plan, &s.when)),
            ],
        )
    }));
    all.extend(plan.places.iter().map(|p| {
        let points = vec![
            ("Title", p.title.clone()),
            ("Caution above", format!("{} °C", show(p.caution_above_c))),
            ("Stop above", format!("{} °C", show(p.stop_above_c))),
            ("Basis", p.basis.clone()),
            ("Only for", when_words(plan, &p.when)),
        ];
        item("Temperature", &p.id, &p.title, points)
    }));
    all.extend(
        plan.cautions
            .iter()
            .map(|c| item("Caution", &c.id, &c.title, vec![("Title", c.title.clone()), ("Text", tidy(&c.text))])),
    );
    for stage in &plan.stages {
        all.push(item("Stage", &stage.id, &stage.title, stage_points(plan, stage)));
        all.extend(stage.checks.iter().map(|check| {
            let points = check_points(plan, stage, check);
            item("Check", &check.id, &check.title, points)
        }));
    }
    all
}

fn stage_points(plan: &Plan, stage: &Stage) -> Points {
    let titles = |ids: &[String]| {
        let named = ids.iter().map(|id| plan.stage(id).map_or(id.as_str(), |stage| stage.title.as_str()));
        named.collect::<Vec<_>>().join(", ")
    };
    vec![
        ("Title", stage.title.clone()),
        ("Purpose", tidy(&stage.purpose)),
        ("Part of the job", stage.job.to_string()),
        ("Comes after", titles(&stage.after)),
        ("Cautions", caution_titles(plan, &stage.cautions)),
        ("Gate", stage.gate.clone().unwrap_or_default()),
        ("Order", stage.checks.iter().map(|check| check.title.as_str()).collect::<Vec<_>>().join("; ")),
    ]
}

fn check_points(plan: &Plan, stage: &Stage, check: &Check) -> Points {
    let mut points = vec![
        ("Title", check.title.clone()),
        ("Stage", stage.title.clone()),
        ("What to do", tidy(&check.instruction)),
        ("Why", tidy(&check.why)),
        ("How it is judged", tidy(&check.judged)),
        ("Group", check.chunk.clone().unwrap_or_default()),
        ("Not right is", if check.fail == Outcome::Stop { "a stop" } else { "a caution" }.to_owned()),
        ("Wanted for the gate", yes_no(check.mandatory)),
        ("Cautions", caution_titles(plan, &check.cautions)),
        ("Second person", yes_no(check.witness)),
        ("Without that person", if check.point == Point::Witness { "it goes on" } else { "it stops" }.to_owned()),
        ("A caution proves a fix", yes_no(check.caution_proves)),
        ("Called for by", event_titles(plan, &check.called_by)),
        ("Rests on", check.rests_on.iter().map(|on| plan.subject_words(on)).collect::<Vec<_>>().join(", ")),
        ("Holds", holds_words(plan, &check.holds)),
        ("Only for", when_words(plan, &check.when)),
        ("Due before flights from", check.before_flights_from.clone().unwrap_or_default()),
        ("Basis", check.basis.clone().unwrap_or_default()),
    ];
    points.extend(kind_points(plan, check));
    points
}

fn kind_points(plan: &Plan, check: &Check) -> Points {
    match &check.kind {
        CheckKind::Confirm => vec![("Kind", "look and say".to_owned())],
        CheckKind::Compute(computation) => vec![("Kind", format!("computed, {computation:?}"))],
        CheckKind::Measure(measure) => {
            let sign = measure.unit.sign();
            let limit = |limit: &Option<Limit>| limit.as_ref().map_or(String::new(), |l| limit_words(plan, l, sign));
            vec![
                ("Kind", "a reading".to_owned()),
                ("Unit", sign.to_owned()),
                ("Plausible", format!("{} to {}", show(measure.low), show(measure.high))),
                ("Stop below", limit(&measure.limits.stop_below)),
                ("Caution below", limit(&measure.limits.caution_below)),
                ("Caution above", limit(&measure.limits.caution_above)),
                ("Stop above", limit(&measure.limits.stop_above)),
            ]
        }
        CheckKind::Fly(fly) => vec![
            ("Kind", format!("flown, {:?}", fly.motion).to_lowercase()),
            ("Head speed", limit_words(plan, &fly.head_speed_rpm, "rpm")),
            ("Minutes", show(fly.minutes)),
            ("Call it off at", fly.knock_off.join("; ")),
            ("Temperatures", fly.temperatures.join(", ")),
            ("Held against a prediction", yes_no(fly.predict)),
        ],
    }
}

fn limit_words(plan: &Plan, limit: &Limit, sign: &str) -> String {
    match limit {
        Limit::Number(number) => format!("{} {sign}", show(*number)),
        Limit::Figure { figure, times } => {
            let title = plan.figure(figure).map_or(figure.as_str(), |figure| figure.title.as_str());
            if *times == 1.0 { format!("'{title}'") } else { format!("{} times '{title}'", show(*times)) }
        }
    }
}

fn event_titles(plan: &Plan, ids: &[String]) -> String {
    let titles = ids.iter().map(|id| plan.event(id).map_or(id.as_str(), |event| event.title.as_str()));
    titles.collect::<Vec<_>>().join(", ")
}

fn holds_words(plan: &Plan, holds: &Holds) -> String {
    let mut parts = Vec::new();
    parts.extend(holds.session.then(|| "the day".to_owned()));
    parts.extend(holds.flights.map(|flights| format!("{flights} flights")));
    parts.extend(holds.hours.map(|hours| format!("{} h", show(hours))));
    parts.extend(holds.days.map(|days| format!("{days} days")));
    if !holds.events.is_empty() {
        parts.push(format!("until {}", event_titles(plan, &holds.events).to_lowercase()));
    }
    if parts.is_empty() { "until changed".to_owned() } else { parts.join(" or ") }
}

fn when_words(plan: &Plan, when: &When) -> String {
    let part = |(question, answers): (&String, &Vec<String>)| {
        let found = plan.question(question);
        let label = |answer: &String| {
            let choice = found.and_then(|q| q.choices.iter().find(|(id, _)| id == answer));
            choice.map_or_else(|| answer.clone(), |(_, label)| label.clone())
        };
        let labels = answers.iter().map(label).collect::<Vec<_>>().join(" or ");
        format!("{} {labels}", found.map_or(question.as_str(), |q| q.text.as_str()))
    };
    when.iter().map(part).collect::<Vec<_>>().join(", ")
}

fn caution_titles(plan: &Plan, ids: &[String]) -> String {
    let titles = ids.iter().map(|id| plan.caution(id).map_or(id.as_str(), |caution| caution.title.as_str()));
    titles.collect::<Vec<_>>().join(", ")
}

fn yes_no(yes: bool) -> String {
    if yes { "yes" } else { "no" }.to_owned()
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
