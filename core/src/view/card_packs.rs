//! The packs of a card: which are on it, and what is to be known of one that is not known to be full.

use super::context::row;
use super::packs::{charge_word, pack_words};
use super::{Block, Context, Control, Edge, Edit, Icon, Keyboard, Place, Record};
use crate::field::wrong_set;
use crate::form::CardForm;
use crate::locale::say;
use crate::plan::Check;
use crate::readiness::PackStand;

/// Each pack, a touch: on the card, or off it where several make the set.
pub(super) fn chosen(context: &Context<'_>, check: &Check, packs: &[PackStand]) -> Option<Block> {
    let form = CardForm::new(context.form, context.facts(), check, check.fly()?, context.now);
    let on_card = form.packs();
    let options = packs.iter().map(|pack| {
        let command = Edit::set(CardForm::PACK, form.packs_with(&pack.name));
        let (_, word) = charge_word(context.locale, &pack.charge);
        let chosen = on_card.contains(&pack.name);
        Control::new(command.into(), &pack.name).icon(Icon::Pack).detail(word).chosen(chosen)
    });
    Some(Block::Choice { label: say!(context.locale, "card-pack"), options: options.collect() })
}

/// The figure that is wrong where the chosen packs are not: it is mended with one touch from here.
pub(super) fn figure_or_packs_wrong(context: &Context<'_>, on_card: &[String]) -> Option<Block> {
    let wrong = wrong_set(&context.ledger.aircraft, on_card)?;
    let figure = context.plan.figure(wrong.figure()?)?;
    let on_file = context.ledger.aircraft.figure(&figure.id)?;
    let detail = context.locale.quantity(on_file, figure.unit);
    let word = say!(context.locale, "board-correct");
    Some(row(Edge::Caution, word, &figure.title, Some(detail), Place::Figure(figure.id.clone())))
}

/// What is to be known of each pack that is not known to be full, a touch that says that it was charged, and why it is flown so.
pub(super) fn not_full(context: &Context<'_>, packs: &[PackStand]) -> Vec<Block> {
    let locale = context.locale;
    let mut blocks: Vec<Block> = Vec::new();
    for pack in packs {
        let (_, word) = charge_word(locale, &pack.charge);
        let title = say!(locale, "card-pack-not-full", pack = pack.name);
        let detail = format!("{word}: {}", pack_words(context, pack));
        blocks.push(row(Edge::Caution, say!(locale, "common-look"), title, Some(detail), Place::Packs));
    }
    let charged = |pack: &PackStand| {
        let words = say!(locale, "card-pack-was-charged", pack = pack.name);
        Control::new(Record::Charged(pack.name.clone()).into(), words).icon(Icon::Pack)
    };
    if !packs.is_empty() {
        let names = || packs.iter().map(|pack| pack.name.clone()).collect();
        let all = || Control::new(Record::ChargedAll(names()).into(), say!(locale, "card-packs-were-charged"));
        let all = (packs.len() > 1).then(|| all().icon(Icon::Pack));
        let options = all.into_iter().chain(packs.iter().map(charged)).collect();
        blocks.push(Block::Choice { label: say!(locale, "card-charged-or-why"), options });
        let label = say!(locale, "card-why-not-full");
        blocks.push(context.entry(CardForm::NOT_FULL, label, Keyboard::Words, None));
    }
    blocks
}
