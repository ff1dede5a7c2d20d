//! The journal in words, entry by entry.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Stretch, Written};
use crate::locale::say;
use crate::record::Entry;
use crate::view;

#[derive(Template)]
#[template(path = "dossier/entries.html")]
struct Entries {
    words: Words,
    entries: Vec<EntryPart>,
    is_first: bool,
    is_last: bool,
}

struct EntryPart {
    seq: i64,
    when: String,
    who: String,
    what: String,
    withdrawn: String,
}

pub(super) fn write(page: &Page<'_>, stretch: &Stretch) -> Written {
    let entries = page.context.entries.get(stretch.from..stretch.to).unwrap_or_default();
    let entries = entries.iter().map(|entry| part(page, entry)).collect();
    Entries { words: page.words(), entries, is_first: stretch.is_first, is_last: stretch.is_last }.render()
}

fn part(page: &Page<'_>, entry: &Entry) -> EntryPart {
    let context = page.context;
    let why = context.ledger.withdrawals.of(entry.id).map(|withdrawal| withdrawal.reason.as_str());
    EntryPart {
        seq: entry.seq,
        when: entry.at.wall.format("%Y-%m-%d %H:%M %:z").to_string(),
        who: view::author_words(context.locale, &entry.author),
        what: view::entry_words(context.locale, context.plan, context.entries, entry),
        withdrawn: why.map(|why| say!(context.locale, "dossier-withdrawn", why = why)).unwrap_or_default(),
    }
}
