//! What leaves the phone for another person: what is in it, what it stands on, and the way to save it.

use super::context::{heading, paragraph, row, still_row};
use super::{Block, Context, Control, Document, Edge, Icon, Offered, Place, Screen, Tone};
use crate::locale::say;

/// The page from which the dossier is saved.
pub(super) fn dossier(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let ledger = context.ledger;
    let logs = ledger.flights.iter().filter(|flight| ledger.logs.of_flight(flight.card).is_some()).count();
    let flown = ledger.flights.iter().filter(|flight| flight.started.is_some()).count();
    let holds = [
        say!(locale, "dossier-holds-entries", count = context.entries.len()),
        say!(locale, "dossier-holds-runs", count = flown),
        say!(locale, "dossier-holds-findings", count = ledger.findings.len()),
        say!(locale, "dossier-holds-logs", count = logs),
    ];
    let mut blocks = vec![
        paragraph(say!(locale, "dossier-for-whom"), Tone::Plain),
        heading(say!(locale, "dossier-holds-heading"), None),
    ];
    blocks.extend(holds.into_iter().map(|words| still_row(Edge::None, "", words, None)));
    blocks.push(paragraph(say!(locale, "dossier-check-it"), Tone::Quiet));
    blocks.push(paragraph(say!(locale, "dossier-not-recorded"), Tone::Quiet));
    let save = Control::primary(Offered::Dossier.into(), say!(locale, "dossier-save"))
        .icon(Icon::Book)
        .document(Document::Save { name: file_name(context), media_type: "text/html".to_owned() });
    let title = say!(locale, "dossier-page");
    Screen { foot: vec![save], ..context.screen("dossier", title, Some(context.aircraft_name()), blocks) }
}

/// The row that leads there.
pub(super) fn dossier_row(context: &Context<'_>) -> Block {
    let locale = context.locale;
    row(Edge::None, "", say!(locale, "dossier-page"), Some(say!(locale, "dossier-row-note")), Place::Dossier)
}

/// A name that every file system takes: the aircraft's letters and digits, and the day.
fn file_name(context: &Context<'_>) -> String {
    let name: String = context.aircraft_name().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let name = name.trim_matches('-').to_lowercase();
    let word = say!(context.locale, "dossier-file-word");
    format!("{name}-{word}-{}.html", context.now.wall.format("%Y-%m-%d"))
}
