//! A recorder's log: its plot as the phone shows it, and the figures that a limit or an interval belongs to.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Written, with_log};
use crate::drawing::{Picture, svg};
use crate::locale::say;
use crate::record::EntryId;
use crate::view;

#[derive(Template)]
#[template(path = "dossier/log.html")]
struct LogPart {
    words: Words,
    what: String,
    file: String,
    figures: Vec<view::LogLine>,
    picture: String,
    is_first: bool,
    is_last: bool,
}

pub(super) fn write(page: &Page<'_>, card: EntryId, plot: Option<&Picture>) -> Written {
    let context = page.context;
    let locale = context.locale;
    let found = context.ledger.logs.of_flight(card).zip(context.ledger.flight(card));
    let Some((log, flight)) = found else { return Ok(String::new()) };
    let when = flight.started.as_ref().map(|at| format!(", {}", page.when(at)));
    let rows = log.rows;
    LogPart {
        words: page.words(),
        what: format!("{}{}", view::check_title(context.plan, &flight.check), when.unwrap_or_default()),
        file: say!(
            locale,
            "dossier-log-file",
            name = log.name,
            rows = rows.imported,
            left_out = rows.left_out,
            faults = log.fault_count,
            sha256 = log.sha256
        ),
        figures: view::log_lines(locale, log),
        picture: plot.map(svg).unwrap_or_default(),
        is_first: with_log(context).next() == Some(card),
        is_last: with_log(context).last() == Some(card),
    }
    .render()
}
