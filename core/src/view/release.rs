use super::context::{heading, paragraph, still_row};
use super::{Block, Context, Control, Edge, Icon, Record, Screen, Tone, blocker_words, result_words};
use crate::locale::say;
use crate::plan::Stage;
use crate::readiness::Release;

/// Lapsed gates over fresh evidence: the pilot reads each, and releases them with one touch at the end of the page.
pub(super) fn release_again(context: &Context<'_>) -> Screen {
    let again = context.ledger.releasable_again(context.plan, context.now);
    let mut blocks = Vec::new();
    if again.is_empty() {
        blocks.push(paragraph(say!(context.locale, "release-none"), Tone::Plain));
        return context.screen(
            "release-again",
            say!(context.locale, "release-title"),
            Some(context.aircraft_name()),
            blocks,
        );
    }
    blocks.push(paragraph(say!(context.locale, "release-intro"), Tone::Plain));
    let stages = again.iter().filter_map(|id| context.plan.stage(id));
    for stage in stages {
        if let Some(release) = context.ledger.releases.get(&stage.id) {
            blocks.extend(gate(context, stage, release));
        }
    }
    let label = say!(context.locale, "release-gates", count = again.len());
    let release = Control::primary(Record::ReleaseAgain(again).into(), label).icon(Icon::Tick);
    // At the end of the page and not in the foot, so that it is reached past every gate.
    blocks.push(heading(say!(context.locale, "release-pilot-decides"), None));
    blocks.push(Block::Choice { label: String::new(), options: vec![release] });
    context.screen("release-again", say!(context.locale, "release-title"), Some(context.aircraft_name()), blocks)
}

fn gate(context: &Context<'_>, stage: &Stage, release: &Release) -> Vec<Block> {
    let mut blocks = vec![heading(&stage.title, Some(say!(context.locale, "gate-lapsed")))];
    blocks.push(paragraph(stage.gate.clone().unwrap_or_default(), Tone::Strong));
    let over: Vec<String> = release
        .lapsed
        .iter()
        .flat_map(|(blockers, _)| blockers)
        .map(|blocker| blocker_words(context.locale, context.plan, context.ledger, blocker))
        .collect();
    let when = release.lapsed.as_ref().map(|(_, at)| super::day_and_time(context.locale, &at.wall, context.now));
    blocks.push(still_row(Edge::Stale, say!(context.locale, "release-lapsed-over"), over.join(", "), when));
    let renewed = renewed(context, stage, release);
    if renewed.is_empty() {
        blocks.push(still_row(
            Edge::Fresh,
            say!(context.locale, "release-own-checks"),
            say!(context.locale, "release-all-hold"),
            None,
        ));
    }
    blocks.extend(renewed);
    let cautions = context.ledger.cautions(context.plan, context.report, &stage.id);
    blocks.extend(cautions.into_iter().map(|check| super::cautions::caution_row(context, check)));
    blocks
}

/// Evidence of the stage that is not what the gate stood on.
fn renewed(context: &Context<'_>, stage: &Stage, release: &Release) -> Vec<Block> {
    let rows = stage.checks.iter().filter(|check| context.ledger.aircraft.wants(check)).filter_map(|check| {
        let evidence = context.ledger.evidence.get(&check.id)?;
        let known = release.evidence.iter().any(|(id, entry)| *id == check.id && *entry == evidence.entry);
        if known {
            return None;
        }
        let standing = context.report.standing(&check.id);
        let detail = format!(
            "{}, {}",
            result_words(context.locale, context.ledger, &evidence.of),
            super::day(context.locale, &evidence.at.wall, context.now)
        );
        Some(still_row(
            super::context::edge(&standing),
            say!(context.locale, "release-done-anew"),
            &check.title,
            Some(detail),
        ))
    });
    rows.collect()
}
