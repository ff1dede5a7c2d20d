//! What a landing is asked about before it is recorded: a run that was too short, readings that are odd, and no readings at all.

use super::context::{heading, still_row};
use super::{Block, Context, Control, Edge, Edit, Icon, Keyboard, Record};
use crate::field::Flight;
use crate::form::{LandingForm, WaiverForm};
use crate::locale::say;
use crate::plan::Fly;

/// That the run is no evidence, where it was too short for its check: better known before it is read.
pub(super) fn too_short(context: &Context<'_>, flight: &Flight, fly: Option<&Fly>) -> Option<Block> {
    let short = flight.too_short(fly?)?;
    let words = super::too_short_words(context.locale, short);
    let detail = Some(say!(context.locale, "landing-too-short"));
    Some(still_row(Edge::Caution, say!(context.locale, "common-look"), crate::locale::sentence(&words), detail))
}

/// What is odd about what was typed, each with the touch that says that it is so.
pub(super) fn doubts(context: &Context<'_>, flight: &Flight, form: &LandingForm<'_>) -> Vec<Block> {
    let locale = context.locale;
    let mut blocks = Vec::new();
    for doubt in form.doubts().unwrap_or_default() {
        let words = super::doubt_words(locale, context.plan, flight, &doubt);
        let how = Some(say!(locale, "landing-doubt-how"));
        blocks.push(still_row(Edge::Caution, say!(locale, "landing-doubt"), &words, how));
        let said =
            Control::new(Edit::set(LandingForm::so_field(&doubt), "so").into(), say!(locale, "landing-it-is-so"));
        let spoken = say!(locale, "landing-it-is-so-spoken", what = words);
        let said = said.icon(Icon::Tick).spoken(spoken).chosen(form.is_so(&doubt));
        blocks.push(Block::Choice { label: String::new(), options: vec![said] });
    }
    if !blocks.is_empty() {
        blocks.insert(0, heading(say!(locale, "landing-is-it-so"), None));
    }
    blocks
}

/// The way to say that nothing will be read, and why.
pub(super) fn waiver(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    if !flight.awaits_landing() {
        return Vec::new();
    }
    let locale = context.locale;
    let mut blocks = vec![
        heading(say!(locale, "landing-nothing-to-read"), Some(say!(locale, "landing-no-evidence"))),
        context.entry(WaiverForm::REASON, say!(locale, "landing-waive-why"), Keyboard::Words, None),
    ];
    if WaiverForm(context.form).reason().is_ok() {
        let waive = Control::new(Record::WaiveLanding(flight.card).into(), say!(locale, "landing-waive"));
        blocks.push(Block::Choice { label: String::new(), options: vec![waive.icon(Icon::Tick)] });
    }
    blocks
}
