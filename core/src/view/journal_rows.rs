//! Entries of the journal as rows, by their days.

use super::context::{heading, row};
use super::{Block, Context, Control, Edge, Edit, Icon, Place, author_words, entry_words};
use crate::form::JournalForm;
use crate::locale::say;
use crate::record::{Entry, EntryId};

/// Entries under the days on which they were made.
pub(super) fn by_day<'e>(context: &Context<'_>, entries: impl Iterator<Item = &'e Entry>) -> Vec<Block> {
    let (mut blocks, mut day) = (Vec::new(), String::new());
    for entry in entries {
        let of = super::day(context.locale, &entry.at.wall, context.now);
        if of != day {
            blocks.push(heading(&of, None));
            day = of;
        }
        blocks.push(entry_row(context, entry));
    }
    blocks
}

/// The way to see further entries, where there are more than are in sight.
pub(super) fn more_row(context: &Context<'_>, form: &JournalForm<'_>, of: usize) -> Option<Block> {
    let rest = of.saturating_sub(form.shown());
    let label = say!(context.locale, "journal-more", rest = rest);
    let control = Control::new(Edit::set(JournalForm::SHOWN, form.more().to_string()).into(), label.clone());
    (rest > 0).then(|| Block::Row {
        edge: Edge::None,
        state: String::new(),
        title: label,
        detail: None,
        control: Some(control.icon(Icon::Next)),
    })
}

pub(super) fn entry_row(context: &Context<'_>, entry: &Entry) -> Block {
    let title = entry_words(context.locale, context.plan, context.entries, entry);
    let detail = format!("{}, {}", entry.at.wall.format("%H:%M"), author_words(context.locale, &entry.author));
    let (edge, word) = withdrawn_mark(context, entry.id);
    row(edge, word, &title, Some(detail), Place::Entry(entry.id))
}

/// How a row shows whether its entry was withdrawn.
pub(super) fn withdrawn_mark(context: &Context<'_>, entry: EntryId) -> (Edge, String) {
    if context.ledger.withdrawals.contains(entry) {
        (Edge::Stale, say!(context.locale, "journal-withdrawn"))
    } else {
        (Edge::None, String::new())
    }
}
