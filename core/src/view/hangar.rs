//! The aircraft of this journal, a line each, and the page on which another is begun.

use super::context::paragraph;
use super::{Block, Context, Control, Go, Icon, Place, Record, Screen, Tone};
use crate::form::NameForm;
use crate::locale::say;
use crate::record::AircraftId;

/// The list of aircraft.
pub(super) fn hangar(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let mut blocks = vec![paragraph(say!(locale, "hangar-intro"), Tone::Quiet)];
    blocks.extend(context.hangar.iter().filter_map(|aircraft| line(context, *aircraft)));
    blocks.push(super::hangar_rows::begin_row(context));
    let count = say!(locale, "hangar-aircraft", count = context.hangar.len());
    context.screen("hangar", say!(locale, "hangar-title"), Some(count), blocks)
}

/// An aircraft: what stands between it and its next flight, and what comes first.
fn line(context: &Context<'_>, aircraft: AircraftId) -> Option<Block> {
    if aircraft == context.ledger.id {
        return line_of(context, Place::Board.into());
    }
    let beside = context.beside.iter().find(|beside| beside.ledger.id == aircraft)?;
    let report = beside.ledger.at(&beside.plan, context.now);
    let there = Context { plan: &beside.plan, ledger: &beside.ledger, report: &report, ..context.clone() };
    line_of(&there, Go::Aircraft(aircraft).into())
}

fn line_of(there: &Context<'_>, command: super::Token) -> Option<Block> {
    let Block::Verdict { text, edge, .. } = super::board::verdict(there) else { return None };
    let locale = there.locale;
    let blockers = there.report.next.as_ref().map(|next| next.blockers.as_slice());
    let state = match blockers.map(<[_]>::len) {
        Some(count) => say!(locale, "hangar-in-the-way", count = count),
        None => String::new(),
    };
    let first = blockers.and_then(<[_]>::first);
    let next = first.map(|blocker| super::blocker_words(locale, there.plan, there.ledger, blocker));
    let detail = match next {
        Some(next) => say!(locale, "hangar-line", sentence = text, next = next),
        None => text,
    };
    let title = there.aircraft_name();
    let spoken = format!("{title}. {state}. {detail}");
    let control = Control::new(command, title.clone()).icon(Icon::Next).spoken(spoken);
    Some(Block::Row { edge, state, title, detail: Some(detail), control: Some(control) })
}

/// Another aircraft, about to be begun.
pub(super) fn new_aircraft(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let mut blocks = vec![paragraph(say!(locale, "hangar-new-intro"), Tone::Plain)];
    blocks.extend(super::aircraft::names(context, &NameForm::of_another(context.form, &context.ledger.aircraft)));
    let begin = Control::primary(Record::BeginAircraft.into(), say!(locale, "hangar-begin-it")).icon(Icon::Tick);
    Screen { foot: vec![begin], ..context.screen("new-aircraft", say!(locale, "hangar-begin"), None, blocks) }
}
