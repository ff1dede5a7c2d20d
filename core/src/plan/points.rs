//! The items of a plan as points: what, and how it is said. Every field of an item is named here, so that a new one which no
//! difference would tell does not compile.

use super::asked::tidy;
use super::model::{Caution, Event, Figure, FromFigure, Part, Place, Plan, Question, Setting, Stage};
use super::points_of_check::check_points;
use super::said::{Points, caution_titles, stage_title, when_words, yes_no};
use crate::locale::{Locale, say};
use crate::unit::Unit;

/// Something of a plan that has an id.
pub(super) struct Item {
    pub kind: String,
    pub id: String,
    pub title: String,
    pub points: Points,
    /// What stands in it in this order, id and title: a stage's checks, and all else of the plan.
    pub order: Vec<(String, String)>,
}

impl Item {
    fn new(kind: String, id: &str, title: &str, points: Points) -> Item {
        Item { kind, id: id.to_owned(), title: title.to_owned(), points, order: Vec::new() }
    }
}

/// All items, in the plan's order.
pub(super) fn items(locale: Locale, plan: &Plan) -> Vec<Item> {
    let Plan {
        id,
        title,
        // The page names both editions.
        edition: _,
        notice,
        questions,
        figures,
        parts,
        settings,
        places,
        cautions,
        events,
        stages,
    } = plan;
    let points = vec![
        (say!(locale, "difference-id"), id.clone()),
        (say!(locale, "difference-title"), title.clone()),
        (say!(locale, "difference-notice"), tidy(notice)),
    ];
    let check_kind = say!(locale, "difference-check");
    let mut all: Vec<Item> = questions.iter().map(|question| question_item(locale, plan, question)).collect();
    all.extend(figures.iter().map(|figure| figure_item(locale, plan, figure)));
    all.extend(parts.iter().map(|part| part_item(locale, plan, part)));
    all.extend(events.iter().map(|event| event_item(locale, event)));
    all.extend(settings.iter().map(|setting| setting_item(locale, plan, setting)));
    all.extend(places.iter().map(|place| place_item(locale, plan, place)));
    all.extend(cautions.iter().map(|caution| caution_item(locale, caution)));
    for stage in stages {
        all.push(stage_item(locale, plan, stage));
        all.extend(stage.checks.iter().map(|check| {
            let points = check_points(locale, plan, stage, check);
            Item::new(check_kind.clone(), &check.id, &check.title, points)
        }));
    }
    let whole = Item::new(say!(locale, "difference-plan"), "plan", title, points);
    all.insert(0, Item { order: order(&all, &check_kind), ..whole });
    all
}

/// All but the checks, whose order each stage tells: an id with its kind, and a title.
fn order(items: &[Item], check: &str) -> Vec<(String, String)> {
    let rest = items.iter().filter(|item| item.kind != check);
    rest.map(|item| (format!("{}:{}", item.kind, item.id), item.title.clone())).collect()
}

fn question_item(locale: Locale, plan: &Plan, question: &Question) -> Item {
    let Question { id, text, choices, from } = question;
    let joined = |part: fn(&(String, String)) -> &str| choices.iter().map(part).collect::<Vec<_>>().join("; ");
    let points = vec![
        (say!(locale, "difference-question"), text.clone()),
        (say!(locale, "difference-answers"), joined(|(_, label)| label)),
        // What was answered is recorded by its id: under another one it counts no more.
        (say!(locale, "difference-answer-ids"), joined(|(id, _)| id)),
        (
            say!(locale, "difference-answered-by"),
            from.as_ref().map_or_else(String::new, |from| answered_by(plan, from)),
        ),
    ];
    Item::new(say!(locale, "difference-question"), id, text, points)
}

fn answered_by(plan: &Plan, from: &FromFigure) -> String {
    let up_to = from.up_to.iter().map(|bound| crate::unit::show_number(*bound)).collect::<Vec<_>>().join(", ");
    let figure = plan.figure(&from.figure).map_or(from.figure.as_str(), |figure| &figure.title);
    format!("{figure} {up_to}")
}

fn figure_item(locale: Locale, plan: &Plan, figure: &Figure) -> Item {
    let Figure { id, title, unit, low, high, required, why, when, above, adjustable } = figure;
    let above = above.as_deref().map(|id| plan.figure(id).map_or(id, |figure| &figure.title));
    let points = vec![
        (say!(locale, "difference-title"), title.clone()),
        (say!(locale, "difference-unit"), unit.sign().to_owned()),
        (
            say!(locale, "difference-plausible"),
            say!(locale, "computed-range", low = locale.plain(*low), high = locale.plain(*high)),
        ),
        (say!(locale, "difference-required"), yes_no(locale, *required)),
        (say!(locale, "difference-only-for"), when_words(locale, plan, when)),
        (say!(locale, "difference-above"), above.unwrap_or_default().to_owned()),
        (say!(locale, "difference-adjustable"), yes_no(locale, *adjustable)),
        (say!(locale, "difference-why"), why.clone().unwrap_or_default()),
    ];
    Item::new(say!(locale, "difference-figure"), id, title, points)
}

fn part_item(locale: Locale, plan: &Plan, part: &Part) -> Item {
    let Part { id, title, when } = part;
    let points = vec![
        (say!(locale, "difference-title"), title.clone()),
        (say!(locale, "difference-only-for"), when_words(locale, plan, when)),
    ];
    Item::new(say!(locale, "difference-part"), id, title, points)
}

fn event_item(locale: Locale, event: &Event) -> Item {
    let Event { id, title, text } = event;
    let points =
        vec![(say!(locale, "difference-title"), title.clone()), (say!(locale, "difference-text"), tidy(text))];
    Item::new(say!(locale, "difference-event"), id, title, points)
}

fn setting_item(locale: Locale, plan: &Plan, setting: &Setting) -> Item {
    let Setting { id, title, unit, when } = setting;
    let points = vec![
        (say!(locale, "difference-title"), title.clone()),
        (say!(locale, "difference-unit"), unit.clone().unwrap_or_default()),
        (say!(locale, "difference-only-for"), when_words(locale, plan, when)),
    ];
    Item::new(say!(locale, "difference-setting"), id, title, points)
}

fn place_item(locale: Locale, plan: &Plan, place: &Place) -> Item {
    let Place { id, title, caution_above_c, stop_above_c, is_winding, basis, when } = place;
    let winding = is_winding.then(|| say!(locale, "difference-is-winding")).unwrap_or_default();
    let points = vec![
        (say!(locale, "difference-title"), title.clone()),
        (say!(locale, "difference-caution-above"), locale.quantity(*caution_above_c, Unit::Celsius)),
        (say!(locale, "difference-stop-above"), locale.quantity(*stop_above_c, Unit::Celsius)),
        (say!(locale, "difference-heated-by"), winding),
        (say!(locale, "difference-basis"), basis.clone()),
        (say!(locale, "difference-only-for"), when_words(locale, plan, when)),
    ];
    Item::new(say!(locale, "difference-temperature"), id, title, points)
}

fn caution_item(locale: Locale, caution: &Caution) -> Item {
    let Caution { id, title, text } = caution;
    let points =
        vec![(say!(locale, "difference-title"), title.clone()), (say!(locale, "difference-text"), tidy(text))];
    Item::new(say!(locale, "difference-caution"), id, title, points)
}

fn stage_item(locale: Locale, plan: &Plan, stage: &Stage) -> Item {
    let Stage { id, title, purpose, job, after, cautions, gate, checks } = stage;
    let after = after.iter().map(|id| stage_title(plan, id));
    let points = vec![
        (say!(locale, "difference-title"), title.clone()),
        (say!(locale, "difference-purpose"), tidy(purpose)),
        (say!(locale, "difference-job"), job.to_string()),
        (say!(locale, "difference-after"), after.collect::<Vec<_>>().join(", ")),
        (say!(locale, "difference-cautions"), caution_titles(plan, cautions)),
        (say!(locale, "difference-gate"), gate.clone().unwrap_or_default()),
    ];
    let order = checks.iter().map(|check| (check.id.clone(), check.title.clone())).collect();
    Item { order, ..Item::new(say!(locale, "difference-stage"), id, title, points) }
}
