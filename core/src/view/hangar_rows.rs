//! The ways to the journal's other aircraft, and to another.

use super::context::row;
use super::{Block, Context, Edge, Place};
use crate::locale::say;

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
