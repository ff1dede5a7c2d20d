//! The kept logs of a damaged journal: found by their pieces, and believed where the whole closes over its digest.

use std::collections::BTreeMap;

use super::cell::{Cell, Form, Lies, each_cell, whole};
use super::pages::Pages;
use crate::journal::backup::BackupError;
use crate::journal::logs::hexadecimal;
use crate::journal::{Journal, JournalError};

/// What was found of logs.
#[derive(Default)]
struct Found {
    /// The digest and the number of pieces of each kept log, by its number.
    logs: BTreeMap<i64, Vec<u8>>,
    pieces: BTreeMap<(i64, i64), Lies>,
}

/// Lays every log that is still whole into a journal that is being made; the digests of those that are not.
pub(super) fn lay_logs(pages: &Pages, made: &mut Journal) -> Result<Vec<String>, JournalError> {
    let found = search(pages);
    pages.failure().map_err(BackupError::from)?;
    let mut lost = Vec::new();
    for (log, digest) in &found.logs {
        let name = hexadecimal(digest);
        let mut arriving = made.begin_log()?;
        for place in 0.. {
            let Some(piece) = found.pieces.get(&(*log, place)).and_then(|lies| piece(pages, *lies)) else { break };
            arriving.take(made, &piece)?;
        }
        pages.failure().map_err(BackupError::from)?;
        let offered = arriving.end(made)?;
        if offered.bytes > 0 && offered.name == name {
            made.keep_offered(&name)?;
        } else {
            made.discard_log()?;
            lost.push(name);
        }
    }
    Ok(lost)
}

fn search(pages: &Pages) -> Found {
    let mut found = Found::default();
    each_cell(pages, |lies, cell| match cell.forms[..] {
        [Form::Null, Form::Bytes(32), bytes, kept] if bytes.is_whole() && kept == Form::One => {
            let digest = cell.columns(pages).map(|mut columns| columns.swap_remove(1));
            found.logs.extend(digest.map(|digest| (cell.rowid, digest)));
        }
        [log, number, Form::Bytes(_)] if log.is_whole() && number.is_whole() => {
            found.pieces.extend(named(cell, pages).map(|name| (name, lies)));
        }
        _ => {}
    });
    found
}

/// The log that a piece belongs to, and its place in it.
fn named(cell: &Cell<'_>, pages: &Pages) -> Option<(i64, i64)> {
    let columns = cell.columns(pages)?;
    Some((whole(cell.forms[0], &columns[0])?, whole(cell.forms[1], &columns[1])?))
}

fn piece(pages: &Pages, (place, from): Lies) -> Option<Vec<u8>> {
    let page = pages.image(place);
    Cell::at(&page, from)?.columns(pages)?.pop()
}
