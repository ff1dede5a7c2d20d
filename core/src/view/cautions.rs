//! The cautions that a gate stands on, with the gate's own sentence: what the pilot reads before releasing over them.

use super::context::{heading, paragraph, row};
use super::{Block, Context, Control, Edge, Icon, Place, Record, Screen, Tone, result_words, standing_word};
use crate::locale::say;
use crate::plan::{Check, Stage};

/// What a stage's gate would be released over. The control that releases it stands here and nowhere else while there is a caution.
pub(super) fn cautions(context: &Context<'_>, id: &str) -> Screen {
    let Some(stage) = context.plan.stage(id) else { return context.gone("cautions") };
    let cautions = context.ledger.cautions(context.plan, context.report, id);
    let mut blocks =
        vec![Block::Verdict { text: stage.gate.clone().unwrap_or_default(), detail: None, edge: Edge::Caution }];
    blocks.push(match cautions.is_empty() {
        true => paragraph(say!(context.locale, "cautions-none"), Tone::Plain),
        false => heading(say!(context.locale, "cautions-stands-on"), None),
    });
    blocks.extend(cautions.into_iter().map(|check| caution_row(context, check)));
    let may = context.report.gate(id).may_be_released();
    let foot = may.then(|| release(context, stage)).into_iter().collect();
    Screen {
        foot,
        ..context.screen("cautions", say!(context.locale, "cautions-title"), Some(stage.title.clone()), blocks)
    }
}

/// The control that releases a stage's gate.
pub(super) fn release(context: &Context<'_>, stage: &Stage) -> Control {
    let label = say!(context.locale, "stage-release", stage = context.locale.inside(&stage.title));
    Control::primary(Record::Release(stage.id.clone()).into(), label).icon(Icon::Tick)
}

/// A check past a caution: what was found, how that is judged, and why nobody saw it.
pub(super) fn caution_row(context: &Context<'_>, check: &Check) -> Block {
    let (locale, ledger) = (context.locale, context.ledger);
    let standing = context.report.standing(&check.id);
    let evidence = ledger.evidence.get(&check.id);
    let found = evidence.map_or_else(String::new, |evidence| result_words(locale, ledger, &evidence.of));
    let alone = evidence.and_then(|evidence| evidence.alone.as_ref());
    let alone = alone.map(|why| say!(locale, "check-alone", why = why)).unwrap_or_default();
    let detail = say!(locale, "cautions-found", found = found, judged = check.judged, alone = alone);
    row(Edge::Caution, standing_word(locale, &standing), &check.title, Some(detail), Place::Check(check.id.clone()))
}
