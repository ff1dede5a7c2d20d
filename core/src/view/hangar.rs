//! The aircraft of this journal, a line each, and the way to begin another.

use super::context::{heading, paragraph, row};
use super::{Block, Context, Control, Edge, Go, Icon, Place, Record, Screen, Tone};
use crate::form::NameForm;
use crate::locale::say;
use crate::plan::Plan;
use crate::readiness::Ledger;
use crate::record::{AircraftId, ThingKind};

/// An aircraft of the journal beside the one in view.
pub struct Beside {
    /// The plan in force there, as it was adopted.
    pub written: Plan,
    /// The same, as the person reads it.
    pub plan: Plan,
    /// What its entries say.
    pub ledger: Ledger,
}

/// The list of aircraft.
pub(super) fn hangar(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let mut blocks = vec![paragraph(say!(locale, "hangar-intro"), Tone::Quiet)];
    blocks.extend(context.hangar.iter().filter_map(|aircraft| line(context, *aircraft)));
    blocks.push(begin_row(context));
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

/// Another aircraft, about to be begun.
pub(super) fn new_aircraft(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let mut blocks = vec![paragraph(say!(locale, "hangar-new-intro"), Tone::Plain)];
    blocks.extend(super::aircraft::names(context, &NameForm::of_another(context.form, &context.ledger.aircraft)));
    let begin = Control::primary(Record::BeginAircraft.into(), say!(locale, "hangar-begin-it")).icon(Icon::Tick);
    Screen { foot: vec![begin], ..context.screen("new-aircraft", say!(locale, "hangar-begin"), None, blocks) }
}

/// The packs of the other aircraft, each of which can be taken over here with one touch more than is typed of it.
pub(super) fn packs_to_share(context: &Context<'_>) -> Vec<Block> {
    let locale = context.locale;
    let mut rows: Vec<Block> = context
        .ledger
        .packs_to_share()
        .map(|pack| {
            let go = Go::Like { kind: ThingKind::Pack, name: pack.name.clone() };
            let (title, detail) = (pack.name.clone(), super::aircraft::thing_words(locale, pack));
            let spoken = format!("{title}. {detail}");
            let control = Control::new(go.into(), title.clone()).icon(Icon::Add).spoken(spoken);
            let state = say!(locale, "hangar-pack-elsewhere");
            Block::Row { edge: Edge::None, state, title, detail: Some(detail), control: Some(control) }
        })
        .collect();
    if !rows.is_empty() {
        rows.insert(0, heading(say!(locale, "hangar-packs"), None));
        rows.push(paragraph(say!(locale, "hangar-packs-note"), Tone::Quiet));
    }
    rows
}
