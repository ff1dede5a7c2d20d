use super::board::{blocker_row, gate_edge};
use super::context::{heading, paragraph, row, still_row};
use super::way_ahead::{drawn, how_far, span_words};
use super::{Block, Context, Edge, Place, Screen, Tone, stage_title};
use crate::locale::{Locale, say};
use crate::readiness::{Blocker, Span, StageAhead};

/// Why the app asks what it asks, for who sees it the first time.
pub(super) fn why_asked(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let mut blocks = vec![paragraph(say!(locale, "way-why-all"), Tone::Plain)];
    blocks.extend(why_the_first(context));
    blocks.push(heading(say!(locale, "way-why-stages"), None));
    blocks.push(paragraph(say!(locale, "way-why-gates"), Tone::Plain));
    blocks.push(paragraph(say!(locale, "way-why-again"), Tone::Plain));
    if let Some(way) = context.ledger.way_ahead(context.plan, context.report) {
        blocks.push(drawn(context, &way));
        blocks.extend(way.stages.iter().map(|stage| stage_row(context, stage)));
    }
    blocks.push(heading(say!(locale, "way-how-long"), None));
    blocks.push(paragraph(rule(locale), Tone::Quiet));
    blocks.push(heading(say!(locale, "way-marks"), None));
    let marks = [
        (Edge::Missing, say!(locale, "way-mark-missing")),
        (Edge::Fresh, say!(locale, "way-mark-fresh")),
        (Edge::Stale, say!(locale, "way-mark-stale")),
        (Edge::Caution, say!(locale, "way-mark-caution")),
        (Edge::Stop, say!(locale, "way-mark-stop")),
    ];
    blocks.extend(marks.map(|(edge, words)| still_row(edge, "", words, None)));
    context.screen("why-asked", say!(locale, "way-why"), Some(context.aircraft_name()), blocks)
}

/// What comes first, with the plan's own reason for it.
fn why_the_first(context: &Context<'_>) -> Vec<Block> {
    let locale = context.locale;
    let Some(first) = context.report.next.as_ref().and_then(|next| next.blockers.first()) else { return Vec::new() };
    let why = match first {
        Blocker::Figure(id) => context.plan.figure(id).and_then(|figure| figure.why.clone()),
        Blocker::Check { check, .. } => context.plan.check(check).map(|(_, check)| check.why.clone()),
        Blocker::Question(_) => Some(say!(locale, "aircraft-answer-decides")),
        Blocker::Unnamed => Some(say!(locale, "way-why-names")),
        _ => None,
    };
    let mut blocks = vec![heading(say!(locale, "way-comes-first"), None), blocker_row(context, first)];
    blocks.extend(why.map(|why| paragraph(why, Tone::Plain)));
    blocks
}

fn stage_row(context: &Context<'_>, stage: &StageAhead) -> Block {
    let locale = context.locale;
    let gate = context.report.gate(&stage.stage);
    let left = say!(locale, "way-left", span = span_words(locale, stage.left));
    let detail = if stage.is_released { None } else { Some(left) };
    let title = stage_title(context.plan, &stage.stage);
    row(gate_edge(gate), how_far(locale, stage), title, detail, Place::Stage(stage.stage.clone()))
}

/// How the time is reckoned, with the numbers that are reckoned with.
fn rule(locale: Locale) -> String {
    let range =
        |span: Span| say!(locale, "way-range", low = locale.plain(span.low_min), high = locale.plain(span.high_min));
    say!(
        locale,
        "way-rule",
        entered = range(Span::ENTERED),
        looked = range(Span::LOOKED_AT),
        read = range(Span::READ),
        run = range(Span::AROUND_A_RUN)
    )
}
