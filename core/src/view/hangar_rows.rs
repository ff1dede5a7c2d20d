//! The ways to the journal's other aircraft, and to another.

use super::context::{heading, paragraph, row};
use super::{Block, Context, Control, Edge, Go, Icon, Place, Tone};
use crate::locale::{Locale, say};
use crate::record::{ThingKind, ThingNumber};

/// The way to the list, where there is more than one aircraft.
pub(super) fn hangar_row(context: &Context<'_>) -> Option<Block> {
    let locale = context.locale;
    let count = say!(locale, "hangar-aircraft", count = context.hangar.len());
    (context.hangar.len() > 1).then(|| row(Edge::None, count, say!(locale, "hangar-title"), None, Place::Hangar))
}

/// The way to another aircraft, and what it shares.
pub(super) fn begin_row(context: &Context<'_>) -> Block {
    let locale = context.locale;
    row(Edge::None, "", say!(locale, "hangar-begin"), Some(say!(locale, "hangar-shares")), Place::NewAircraft)
}

/// The packs of the other aircraft, under a heading of their own.
pub(super) fn packs_to_share(context: &Context<'_>) -> Vec<Block> {
    let mut blocks: Vec<Block> = to_take_over(context).collect();
    if !blocks.is_empty() {
        blocks.insert(0, heading(say!(context.locale, "hangar-packs"), None));
        blocks.push(paragraph(say!(context.locale, "hangar-packs-note"), Tone::Quiet));
    }
    blocks
}

/// The packs of the other aircraft, each of which is taken over on a page where all but its place is filled in.
pub(super) fn to_take_over(context: &Context<'_>) -> impl Iterator<Item = Block> {
    let locale = context.locale;
    context.ledger.packs_to_share().map(move |pack| {
        let go = Go::Like { kind: ThingKind::Pack, name: pack.name.clone() };
        // Where it sits there says nothing here.
        let mut fits = pack.clone();
        fits.numbers.remove(ThingNumber::XMm.as_str());
        let (title, detail) = (pack.name.clone(), super::lists::thing_words(locale, &fits));
        let state = say!(locale, "hangar-pack-elsewhere");
        let spoken = format!("{title}. {state}. {detail}");
        let control = Control::new(go.into(), title.clone()).icon(Icon::Add).spoken(spoken);
        Block::Row { edge: Edge::None, state, title, detail: Some(detail), control: Some(control) }
    })
}

/// The way to them, while this aircraft has none of its own.
pub(super) fn packs_elsewhere_row(locale: Locale, count: usize) -> Block {
    let word = say!(locale, "hangar-packs-to-take-over", count = count);
    row(Edge::Missing, word, say!(locale, "packs-title"), None, Place::Packs)
}
