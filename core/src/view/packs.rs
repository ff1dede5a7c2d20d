use super::context::{heading, paragraph, row};
use super::{Block, Context, Control, Edge, Icon, Keyboard, Place, Record, Screen, Tone, day_and_time};
use crate::form::PutBackForm;
use crate::locale::{Locale, say};
use crate::readiness::{Charge, PackStand};
use crate::record::ThingKind;
use crate::unit::Unit;

/// The flight packs, the one that is best flown next first, each charged in one touch.
pub(super) fn packs(context: &Context<'_>) -> Screen {
    let packs = context.ledger.packs();
    let mut blocks = Vec::new();
    if packs.is_empty() {
        let place = Place::Thing { kind: ThingKind::Pack, name: None };
        blocks.push(row(
            Edge::Missing,
            say!(context.locale, "common-to-enter"),
            say!(context.locale, "packs-none"),
            None,
            place,
        ));
    }
    for pack in &packs {
        blocks.extend(pack_blocks(context, pack));
    }
    blocks.push(paragraph(say!(context.locale, "packs-order"), Tone::Quiet));
    blocks.push(super::trends::trends_row(context.locale));
    context.screen("packs", say!(context.locale, "packs-title"), Some(context.aircraft_name()), blocks)
}

fn pack_blocks(context: &Context<'_>, pack: &PackStand) -> Vec<Block> {
    let place = Place::Thing { kind: ThingKind::Pack, name: Some(pack.name.clone()) };
    let (edge, word) = charge_word(context.locale, &pack.charge);
    let form = PutBackForm::new(context.form, &context.ledger.aircraft, &pack.name);
    let charged = Control::new(Record::Charged(pack.name.clone()).into(), say!(context.locale, "packs-charged"))
        .icon(Icon::Pack)
        .spoken(say!(context.locale, "packs-charged-spoken", pack = pack.name));
    let label = say!(context.locale, "packs-put-back", pack = pack.name);
    let mut put_back = context.number_entry(&form.field(), &label, Unit::MilliampereHour, form.range_mah(), None);
    if let Block::Entry { keyboard, .. } = &mut put_back {
        *keyboard = Keyboard::Whole;
    }
    vec![
        heading(&pack.name, None),
        row(edge, word, &pack.name, Some(pack_words(context, pack)), place),
        Block::Choice { label: String::new(), options: vec![charged] },
        put_back,
    ]
}

/// Shape and word for a pack's charge.
pub(super) fn charge_word(locale: Locale, charge: &Charge) -> (Edge, String) {
    match charge {
        Charge::Charged { .. } => (Edge::Fresh, say!(locale, "packs-charged")),
        Charge::Unknown => (Edge::Missing, say!(locale, "packs-unknown")),
        Charge::Flown => (Edge::Stale, say!(locale, "packs-flown")),
    }
}

/// When a pack was charged and flown.
pub(super) fn pack_words(context: &Context<'_>, pack: &PackStand) -> String {
    let charged = match &pack.charge {
        Charge::Charged { at } => {
            say!(context.locale, "packs-charged-at", when = day_and_time(context.locale, &at.wall, context.now))
        }
        _ => String::new(),
    };
    match &pack.flown {
        Some(at) => {
            let when = day_and_time(context.locale, &at.wall, context.now);
            say!(context.locale, "packs-flown-at", charged = charged, when = when, count = pack.runs as usize)
        }
        None => say!(context.locale, "packs-not-flown", charged = charged),
    }
}

/// The row that leads there, where there are packs.
pub(super) fn packs_row(context: &Context<'_>) -> Option<Block> {
    let packs = context.ledger.packs();
    let charged = packs.iter().filter(|pack| matches!(pack.charge, Charge::Charged { .. })).count();
    let word = say!(context.locale, "packs-how-many", charged = charged, count = packs.len());
    let edge = if charged > 0 { Edge::Fresh } else { Edge::Missing };
    (!packs.is_empty()).then(|| row(edge, &word, say!(context.locale, "packs-title"), None, Place::Packs))
}
