use super::context::{heading, paragraph, row};
use super::{Block, Command, Context, Control, Edge, Icon, Keyboard, Place, Screen, Tone, counted, day_and_time};
use crate::readiness::{Charge, PackStand};
use crate::record::{ThingKind, Unit};

/// Fields with what a charger put back start with this, the pack's name follows.
pub(crate) const PUT_BACK: &str = "put:";

/// The flight packs, the one that is best flown next first, each charged in one touch.
pub(super) fn packs(context: &Context<'_>) -> Screen {
    let packs = context.ledger.packs();
    let mut blocks = Vec::new();
    if packs.is_empty() {
        let place = Place::Thing { kind: ThingKind::Pack, name: None };
        blocks.push(row(Edge::Missing, "To enter", "No pack described yet", None, place));
    }
    for pack in &packs {
        blocks.extend(pack_blocks(context, pack));
    }
    blocks
        .push(paragraph("The charged pack that has rested longest stands first, here and on the card.", Tone::Quiet));
    context.screen("packs", "Packs", Some(context.aircraft_name()), blocks)
}

fn pack_blocks(context: &Context<'_>, pack: &PackStand) -> Vec<Block> {
    let place = Place::Thing { kind: ThingKind::Pack, name: Some(pack.name.clone()) };
    let (edge, word) = charge_word(&pack.charge);
    let field = format!("{PUT_BACK}{}", pack.name);
    let charged = Control::new(Command::Charged(pack.name.clone()).into(), "Charged")
        .icon(Icon::Pack)
        .spoken(format!("{}: charged", pack.name));
    let range = crate::field::charge_range_mah(&context.ledger.aircraft, &pack.name);
    let label = format!("{}: put back, if you read it", pack.name);
    let mut put_back = context.number_entry(&field, &label, Unit::MilliampereHour, range, None);
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
pub(super) fn charge_word(charge: &Charge) -> (Edge, &'static str) {
    match charge {
        Charge::Charged { .. } => (Edge::Fresh, "Charged"),
        Charge::Unknown => (Edge::Missing, "Charge not known"),
        Charge::Flown => (Edge::Stale, "Flown, not charged since"),
    }
}

/// When a pack was charged and flown.
pub(super) fn pack_words(context: &Context<'_>, pack: &PackStand) -> String {
    let charged = match &pack.charge {
        Charge::Charged { at } => format!("charged {}, ", day_and_time(context.locale, &at.wall, context.now)),
        _ => String::new(),
    };
    match &pack.flown {
        Some(at) => {
            let runs = counted(pack.runs as usize, "motor run", "motor runs");
            format!("{charged}flown {}, {runs}", day_and_time(context.locale, &at.wall, context.now))
        }
        None => format!("{charged}not flown yet"),
    }
}

/// The row that leads there, where there are packs.
pub(super) fn packs_row(context: &Context<'_>) -> Option<Block> {
    let packs = context.ledger.packs();
    let charged = packs.iter().filter(|pack| matches!(pack.charge, Charge::Charged { .. })).count();
    let word = format!("{charged} of {} charged", packs.len());
    let edge = if charged > 0 { Edge::Fresh } else { Edge::Missing };
    (!packs.is_empty()).then(|| row(edge, &word, "Packs", None, Place::Packs))
}
