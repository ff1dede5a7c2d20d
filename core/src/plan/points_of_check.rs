//! A check as points. Every field is named here, so that a new one which no difference would tell does not compile.

use super::asked::tidy;
use super::check::{Agreement, Check, CheckKind, Fly, Limit, Limits, Measure, Point};
use super::model::{Plan, Stage};
use super::said::{
    Points, caution_titles, check_title, computation_words, event_titles, flown_words, holds_words, limit_words,
    stage_title, when_words, yes_no,
};
use crate::locale::{Locale, say};
use crate::record::Outcome;
use crate::unit::Unit;

pub(super) fn check_points(locale: Locale, plan: &Plan, stage: &Stage, check: &Check) -> Points {
    let Check {
        // What a check is known by; a check of another id is another one.
        id: _,
        title,
        instruction,
        why,
        judged,
        chunk,
        kind,
        fail,
        mandatory,
        cautions,
        witness,
        point,
        caution_proves,
        called_by,
        rests_on,
        holds,
        when,
        before_flights_from,
        read_on,
        rung_above,
        basis,
    } = check;
    let rests_on = rests_on.iter().map(|on| plan.subject_words(locale, on)).collect::<Vec<_>>().join(", ");
    let due_from = before_flights_from.as_deref().map_or("", |id| stage_title(plan, id)).to_owned();
    let check_titled = |id: &Option<String>| id.as_deref().map_or("", |id| check_title(plan, id)).to_owned();
    let mut points = vec![
        (say!(locale, "difference-title"), title.clone()),
        (say!(locale, "difference-stage"), stage.title.clone()),
        (say!(locale, "difference-do"), tidy(instruction)),
        (say!(locale, "difference-why"), tidy(why)),
        (say!(locale, "difference-judged"), tidy(judged)),
        (say!(locale, "difference-group"), chunk.clone().unwrap_or_default()),
        (say!(locale, "difference-not-right"), fail_words(locale, *fail)),
        (say!(locale, "difference-mandatory"), yes_no(locale, *mandatory)),
        (say!(locale, "difference-cautions"), caution_titles(plan, cautions)),
        (say!(locale, "difference-witness"), yes_no(locale, *witness)),
        (say!(locale, "difference-without"), point_words(locale, *point)),
        (say!(locale, "difference-caution-proves"), yes_no(locale, *caution_proves)),
        (say!(locale, "difference-called-by"), event_titles(plan, called_by)),
        (say!(locale, "difference-rests-on"), rests_on),
        (say!(locale, "difference-holds"), holds_words(locale, plan, holds)),
        (say!(locale, "difference-only-for"), when_words(locale, plan, when)),
        (say!(locale, "difference-before-flights"), due_from),
        (say!(locale, "difference-read-on"), check_titled(read_on)),
        (say!(locale, "difference-rung-above"), check_titled(rung_above)),
        (say!(locale, "difference-basis"), basis.clone().unwrap_or_default()),
    ];
    points.extend(kind_points(locale, plan, kind));
    points
}

fn fail_words(locale: Locale, fail: Outcome) -> String {
    match fail {
        Outcome::Stop => say!(locale, "difference-a-stop"),
        Outcome::Caution | Outcome::Pass => say!(locale, "difference-a-caution"),
    }
}

fn point_words(locale: Locale, point: Point) -> String {
    match point {
        Point::Witness => say!(locale, "difference-goes-on"),
        Point::Hold => say!(locale, "difference-stops"),
    }
}

fn kind_points(locale: Locale, plan: &Plan, kind: &CheckKind) -> Points {
    match kind {
        CheckKind::Confirm => vec![(say!(locale, "difference-kind"), say!(locale, "difference-look"))],
        CheckKind::Compute(computation) => vec![(
            say!(locale, "difference-kind"),
            say!(locale, "difference-computed", what = computation_words(locale, *computation)),
        )],
        CheckKind::Measure(measure) => measure_points(locale, plan, measure),
        CheckKind::Fly(fly) => fly_points(locale, plan, fly),
    }
}

fn measure_points(locale: Locale, plan: &Plan, measure: &Measure) -> Points {
    let Measure { unit, low, high, step, start, limits, agrees_with } = measure;
    let Limits { stop_below, caution_below, caution_above, stop_above } = limits;
    let sign = unit.sign();
    let limit = |limit: &Option<Limit>| limit.as_ref().map_or(String::new(), |l| limit_words(locale, plan, l, sign));
    let agreement = |agreement: &Agreement| {
        let with = plan.on_file_words(locale, &agreement.with);
        format!("{with} ± {} %", locale.plain(agreement.within_percent))
    };
    let agrees_with = agrees_with.iter().map(agreement).collect::<Vec<_>>().join(", ");
    vec![
        (say!(locale, "difference-kind"), say!(locale, "difference-reading")),
        (say!(locale, "difference-unit"), sign.to_owned()),
        (say!(locale, "difference-agrees-with"), agrees_with),
        (
            say!(locale, "difference-plausible"),
            say!(locale, "computed-range", low = locale.plain(*low), high = locale.plain(*high)),
        ),
        (say!(locale, "difference-step"), locale.plain(*step)),
        (say!(locale, "difference-start"), locale.plain(*start)),
        (say!(locale, "difference-stop-below"), limit(stop_below)),
        (say!(locale, "difference-caution-below"), limit(caution_below)),
        (say!(locale, "difference-caution-above"), limit(caution_above)),
        (say!(locale, "difference-stop-above"), limit(stop_above)),
    ]
}

fn fly_points(locale: Locale, plan: &Plan, fly: &Fly) -> Points {
    let Fly { motion, head_speed_rpm, minutes, knock_off, temperatures, predict, reserve } = fly;
    let rpm = locale.shown(Unit::RevolutionsPerMinute).sign;
    let places = temperatures.iter().map(|id| plan.place(id).map_or(id.as_str(), |place| place.title.as_str()));
    vec![
        (say!(locale, "difference-kind"), flown_words(locale, *motion)),
        (say!(locale, "difference-head-speed"), limit_words(locale, plan, head_speed_rpm, rpm)),
        (say!(locale, "difference-minutes"), locale.plain(*minutes)),
        (say!(locale, "difference-knock-off"), knock_off.join("; ")),
        (say!(locale, "difference-temperatures"), places.collect::<Vec<_>>().join(", ")),
        (say!(locale, "difference-predict"), yes_no(locale, *predict)),
        (say!(locale, "difference-reserve"), yes_no(locale, *reserve)),
    ]
}
