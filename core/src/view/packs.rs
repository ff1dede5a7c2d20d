use super::context::{heading, paragraph, row, still_row};
use super::mend::{is_refused, mend_first};
use super::{Block, Context, Control, Edge, Icon, Keyboard, Place, Record, Screen, Tone, day_and_time};
use crate::engineering::pack::STORAGE_CELL_RANGE_V;
use crate::form::{CellsForm, PutBackForm};
use crate::locale::{Locale, say};
use crate::readiness::{Charge, PackStand};
use crate::record::{PackState, ThingKind};
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
    blocks.extend(super::hangar_rows::packs_to_share(context));
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
    if let Block::Entry { keyboard, flag, .. } = &mut put_back {
        *keyboard = Keyboard::Whole;
        *flag = form.put_back_mah().err().map(|refusal| refusal.to_string());
    }
    let charged = charged.unless(mend_first(context.locale, is_refused(std::slice::from_ref(&put_back))));
    let mut blocks =
        vec![heading(&pack.name, None), row(edge, word, &pack.name, Some(pack_words(context, pack)), place)];
    if matches!(pack.charge, Charge::Retired { .. }) {
        blocks.push(paragraph(say!(context.locale, "packs-retired-how"), Tone::Plain));
        return blocks;
    }
    let noted = |state: PackState, icon: Icon| {
        let word = state.word(context.locale);
        let spoken = format!("{}: {}", pack.name, context.locale.inside(&word));
        let command = Record::PackNoted { pack: pack.name.clone(), state };
        Control::new(command.into(), word).icon(icon).spoken(spoken)
    };
    if let Some(days) = pack.days_unstored(&context.ledger.clock, context.now) {
        let words = say!(
            context.locale,
            "packs-wants-storage",
            days = days,
            low = context.locale.number(STORAGE_CELL_RANGE_V.0, 2),
            high = context.locale.number(STORAGE_CELL_RANGE_V.1, 2)
        );
        blocks.push(still_row(Edge::Caution, say!(context.locale, "common-look"), words, None));
    }
    let done = vec![charged, noted(PackState::Storage, Icon::Tick)];
    blocks.push(Block::Choice { label: String::new(), options: done });
    blocks.push(put_back);
    blocks.extend(cells(context, pack));
    let damages = PackState::DAMAGES.into_iter().map(|state| noted(state, Icon::Warning)).collect();
    blocks.push(Block::Choice { label: say!(context.locale, "packs-damaged", pack = pack.name), options: damages });
    blocks
}

/// Its cells, as they are read at rest.
fn cells(context: &Context<'_>, pack: &PackStand) -> [Block; 3] {
    let locale = context.locale;
    let form = CellsForm::new(context.form, &pack.name);
    let entry =
        |field: String, label: String| context.number_entry(&field, &label, Unit::Volt, CellsForm::RANGE_V, None);
    let read = Control::new(Record::CellsRead(pack.name.clone()).into(), say!(locale, "packs-cells-read"))
        .icon(Icon::Tick)
        .spoken(say!(locale, "packs-cells-read-spoken", pack = pack.name));
    let fields = [
        entry(form.low_field(), say!(locale, "packs-lowest-cell", pack = pack.name)),
        entry(form.high_field(), say!(locale, "packs-highest-cell", pack = pack.name)),
    ];
    let options = vec![read.unless(mend_first(locale, is_refused(&fields)))];
    let [low, high] = fields;
    [low, high, Block::Choice { label: String::new(), options }]
}

/// Shape and word for a pack's charge.
pub(crate) fn charge_word(locale: Locale, charge: &Charge) -> (Edge, String) {
    match charge {
        Charge::Charged { .. } => (Edge::Fresh, say!(locale, "packs-charged")),
        Charge::ReadFull { low_v, .. } => {
            (Edge::Fresh, say!(locale, "packs-read-full", low = locale.number(*low_v, 2)))
        }
        Charge::ReadLow { low_v, .. } => {
            (Edge::Missing, say!(locale, "packs-read-low", low = locale.number(*low_v, 2)))
        }
        Charge::TooHigh { high_v } => (Edge::Stop, say!(locale, "packs-too-high", high = locale.number(*high_v, 2))),
        Charge::NotAllBack { short_mah, .. } => {
            let short = locale.rounded(*short_mah, 0, Unit::MilliampereHour);
            (Edge::Missing, say!(locale, "packs-not-all-back", short = short))
        }
        Charge::Unknown => (Edge::Missing, say!(locale, "packs-unknown")),
        Charge::Flown => (Edge::Stale, say!(locale, "packs-flown")),
        Charge::Stored => (Edge::Missing, say!(locale, "pack-state-storage")),
        Charge::Retired { state } => {
            (Edge::Stop, say!(locale, "packs-retired", state = locale.inside(&state.word(locale))))
        }
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
    let charged = packs.iter().filter(|pack| pack.is_full()).count();
    let word = say!(context.locale, "packs-how-many", charged = charged, count = packs.len());
    let unstored: Vec<String> = packs
        .iter()
        .filter_map(|pack| Some((&pack.name, pack.days_unstored(&context.ledger.clock, context.now)?)))
        .map(|(pack, days)| say!(context.locale, "packs-stood", pack = pack, days = days))
        .collect();
    let edge = match (unstored.is_empty(), charged) {
        (false, _) => Edge::Caution,
        (true, 0) => Edge::Missing,
        (true, _) => Edge::Fresh,
    };
    let detail =
        (!unstored.is_empty()).then(|| say!(context.locale, "packs-not-stored", packs = unstored.join(", ")));
    let to_share = context.ledger.packs_to_share().count();
    match (packs.is_empty(), to_share) {
        (false, _) => Some(row(edge, &word, say!(context.locale, "packs-title"), detail, Place::Packs)),
        (true, 0) => None,
        (true, _) => Some(super::hangar_rows::packs_elsewhere_row(context.locale, to_share)),
    }
}
