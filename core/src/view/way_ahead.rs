use super::context::{heading, paragraph, row};
use super::{Block, Context, Edge, Place, Tone, blocker_words, stage_title};
use crate::drawing::{Step, steps};
use crate::locale::{Locale, say};
use crate::readiness::{Span, StageAhead, WayAhead};

/// For an aircraft that is not in service yet: what comes first, about how long the way takes, and how far it is.
pub(super) fn ahead(context: &Context<'_>) -> Vec<Block> {
    let (locale, Some(way)) = (context.locale, context.ledger.way_ahead(context.plan, context.report)) else {
        return Vec::new();
    };
    let at = say!(locale, "way-at", number = way.here + 1, of = way.stages.len());
    let mut blocks = vec![heading(say!(locale, "way-title"), Some(at))];
    blocks.extend(line(context, &way).map(|line| paragraph(line, Tone::Strong)));
    blocks.push(drawn(context, &way));
    let detail = Some(say!(locale, "way-why-detail"));
    blocks.push(row(Edge::None, "", say!(locale, "way-why"), detail, Place::WhyAsked));
    blocks
}

/// What comes first, and about how long.
fn line(context: &Context<'_>, way: &WayAhead) -> Option<String> {
    let locale = context.locale;
    let stage = way.stage()?;
    let first = context.report.next.as_ref().and_then(|next| next.blockers.first());
    let gate = say!(
        locale,
        "way-takes",
        stage = locale.inside(&stage_title(context.plan, &stage.stage)),
        here = span_words(locale, stage.left),
        all = span_words(locale, way.left())
    );
    Some(match first {
        Some(first) => {
            let what = blocker_words(locale, context.plan, context.ledger, first);
            let stop = if what.ends_with('?') { "" } else { "." };
            format!("{}{stop} {gate}", say!(locale, "way-first", what = what))
        }
        None => gate,
    })
}

/// How far each stage is, as a drawing that says the same in words.
pub(super) fn drawn(context: &Context<'_>, way: &WayAhead) -> Block {
    let locale = context.locale;
    let step = |stage: &StageAhead| Step {
        done: if stage.is_released { 1.0 } else { share(stage) },
        is_lapsed: stage.is_lapsed,
    };
    let spoken = way.stages.iter().enumerate().map(|(index, stage)| {
        let title = stage_title(context.plan, &stage.stage);
        say!(locale, "way-spoken", number = index + 1, stage = title, how_far = how_far(locale, stage))
    });
    let spoken: Vec<String> = spoken.collect();
    let all: Vec<Step> = way.stages.iter().map(step).collect();
    Block::Drawing { picture: steps(&all, way.here, spoken.join(" ")) }
}

fn share(stage: &StageAhead) -> f32 {
    // A gate that only waits for the pilot is not through.
    (stage.done as f32 / stage.wanted.max(1) as f32).min(0.95)
}

pub(super) fn how_far(locale: Locale, stage: &StageAhead) -> String {
    match (stage.is_released, stage.is_lapsed) {
        (true, _) => say!(locale, "gate-released"),
        (_, true) => say!(locale, "gate-lapsed"),
        _ => say!(locale, "way-done", done = stage.done, wanted = stage.wanted),
    }
}

/// A span as a person says it: minutes in fives below two hours, whole hours above.
pub(super) fn span_words(locale: Locale, span: Span) -> String {
    let counted =
        |step_min: f64| ((span.low_min / step_min).floor() as i64, (span.high_min / step_min).ceil() as i64);
    if span.high_min <= 120.0 {
        let (low, high) = counted(5.0);
        return say!(locale, "way-minutes", low = (5 * low).max(1), high = (5 * high).max(5));
    }
    let (low, high) = counted(60.0);
    say!(locale, "way-hours", low = low.max(1), high = high)
}
