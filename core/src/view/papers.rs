//! The aircraft's papers: how long each is good, where a check rests on them and where one of them ends.

use super::context::{heading, paragraph, row};
use super::{Block, Context, Control, Edge, Icon, Place, Tone};
use crate::locale::say;
use crate::plan::{Check, Subject};
use crate::readiness::PaperIs;
use crate::record::{Thing, ThingKind};

/// The papers that end soon or are over, for the board.
pub(super) fn ending(context: &Context<'_>) -> Vec<Block> {
    let papers = context.ledger.papers(context.now);
    let mut ending: Vec<(&Thing, PaperIs)> = papers.into_iter().filter(|(_, is)| is.is_told()).collect();
    ending.sort_by_key(|(paper, _)| paper.last_day);
    if ending.is_empty() {
        return Vec::new();
    }
    let title = heading(ThingKind::Paper.words(context.locale), None);
    [title].into_iter().chain(ending.into_iter().map(|(paper, is)| paper_row(context, paper, is))).collect()
}

/// All of them, and the way to one more, where a check rests on them.
pub(super) fn of_check(context: &Context<'_>, check: &Check) -> Vec<Block> {
    if !check.rests_on.contains(&Subject::Papers) {
        return Vec::new();
    }
    let locale = context.locale;
    let papers = context.ledger.papers(context.now);
    let mut blocks = vec![heading(ThingKind::Paper.words(locale), None)];
    if papers.is_empty() {
        blocks.push(paragraph(say!(locale, "papers-none"), Tone::Plain));
    }
    blocks.extend(papers.into_iter().map(|(paper, is)| paper_row(context, paper, is)));
    let add = say!(locale, "aircraft-add", kind = locale.inside(&ThingKind::Paper.word(locale)));
    let add = Control::new(Place::Thing { kind: ThingKind::Paper, name: None }.into(), add).icon(Icon::Add);
    blocks.push(Block::Choice { label: String::new(), options: vec![add] });
    blocks
}

fn paper_row(context: &Context<'_>, paper: &Thing, is: PaperIs) -> Block {
    let locale = context.locale;
    let day = paper.last_day.map(|day| locale.date(day)).unwrap_or_default();
    let (edge, word, detail) = match is {
        PaperIs::WithoutEnd => (Edge::Fresh, say!(locale, "papers-good"), say!(locale, "papers-no-end")),
        PaperIs::Good => (Edge::Fresh, say!(locale, "papers-good"), say!(locale, "papers-last-day", day = day)),
        PaperIs::EndsSoon { days: 0 } => (Edge::Caution, say!(locale, "board-soon"), say!(locale, "papers-today")),
        PaperIs::EndsSoon { days } => {
            (Edge::Caution, say!(locale, "board-soon"), say!(locale, "papers-ends", day = day, days = days))
        }
        PaperIs::Over => (Edge::Stop, say!(locale, "papers-over"), say!(locale, "papers-last-day-was", day = day)),
    };
    let place = Place::Thing { kind: ThingKind::Paper, name: Some(paper.name.clone()) };
    row(edge, word, &paper.name, Some(detail), place)
}
