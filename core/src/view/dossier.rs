//! What leaves the phone for another person: what is in it, what it stands on, and the way to save it.

use super::context::{heading, in_groups, paragraph, row, still_row};
use super::{Block, Context, Control, Document, Edge, Edit, Icon, Offered, Place, Screen, Tone};
use crate::form::TablesForm;
use crate::locale::{Locale, say};
use crate::tables::{Form, Table};

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
    blocks.extend(context.head.map(|head| {
        let count = say!(locale, "dossier-head-of", count = context.journal_count);
        still_row(Edge::None, "", count, Some(in_groups(&head.to_string())))
    }));
    blocks.push(paragraph(say!(locale, "dossier-not-recorded"), Tone::Quiet));
    blocks.extend(tables(context));
    blocks.push(super::backup::backup_row(context, context.unkept()));
    let save = Control::primary(Offered::Dossier.into(), say!(locale, "dossier-save")).icon(Icon::Book).document(
        Document::Save {
            name: context.dated_file_name(say!(locale, "dossier-file-word"), "html"),
            media_type: "text/html".to_owned(),
        },
    );
    let title = say!(locale, "dossier-page");
    Screen { foot: vec![save], ..context.screen("dossier", title, Some(context.aircraft_name()), blocks) }
}

/// The tables, each of which is saved by a touch, in the form that is chosen.
fn tables(context: &Context<'_>) -> Vec<Block> {
    let locale = context.locale;
    let form = TablesForm(context.form).form();
    let forms = Form::ALL.map(|one| {
        let label = match one {
            Form::Csv => say!(locale, "tables-csv"),
            Form::Json => say!(locale, "tables-json"),
        };
        Control::new(Edit::set(TablesForm::FORM, one.id()).into(), label).chosen(one == form)
    });
    let rows = Table::ALL.map(|table| {
        let title = table_words(locale, table);
        let name = format!("{}-{}.{}", context.file_stem(), table.id(), form.id());
        let save = Control::new(Offered::Table { table, form }.into(), title.clone())
            .icon(Icon::List)
            .spoken(say!(locale, "tables-save-spoken", table = title))
            .document(Document::Save { name, media_type: form.media_type().to_owned() });
        Block::Row { edge: Edge::None, state: String::new(), title, detail: None, control: Some(save) }
    });
    let mut blocks = vec![
        heading(say!(locale, "tables-heading"), None),
        paragraph(say!(locale, "tables-what"), Tone::Quiet),
        Block::Choice { label: say!(locale, "tables-form"), options: forms.to_vec() },
    ];
    blocks.extend(rows);
    blocks
}

fn table_words(locale: Locale, table: Table) -> String {
    match table {
        Table::Flights => say!(locale, "tables-flights"),
        Table::Landings => say!(locale, "tables-landings"),
        Table::Packs => say!(locale, "tables-packs"),
        Table::Parts => say!(locale, "tables-parts"),
        Table::Settings => say!(locale, "tables-settings"),
        Table::Findings => say!(locale, "tables-findings"),
    }
}

/// The row that leads there.
pub(super) fn dossier_row(context: &Context<'_>) -> Block {
    let locale = context.locale;
    row(Edge::None, "", say!(locale, "dossier-page"), Some(say!(locale, "dossier-row-note")), Place::Dossier)
}
