//! Documents that go out through the phone's picker, piece by piece.

use std::fs::File;
use std::io::Read;

use super::leaving::{Content, Leaving};
use super::opened::text_in_force;
use super::shared::Shared;
use super::{AppError, document, dossier, photo};
use crate::form::Drafts;
use crate::journal::{BackupError, JournalError, LastBackup, Packing};
use crate::locale::say;
use crate::paper;
use crate::record::Moment;
use crate::tables;
use crate::view::{Offered, Wrote};

/// Begins to give the document that a control offers; what was on its way before is given up.
pub(super) fn begin(shared: &mut Shared, offered: &Offered, name: &str, now: &Moment) -> Result<(), AppError> {
    document::stop(shared)?;
    let content = match offered {
        Offered::Plan => Content::Whole(text_in_force(shared.ledger.id, &shared.entries).1.as_bytes().to_vec()),
        Offered::Table { table, form } => {
            let (plan, entries, ledger) = (&shared.plan, &shared.entries, &shared.ledger);
            Content::Whole(tables::write(tables::Source { plan, entries, ledger }, *table, *form))
        }
        Offered::Card(check) => Content::Whole(printed_card(shared, check, now)?),
        Offered::Photo(entry) => Content::Whole(
            photo::as_it_came(shared, *entry)
                .ok_or_else(|| AppError::refused(say!(shared.locale(), "photo-gone")))?,
        ),
        Offered::Backup => Content::Backup(Box::new(Packing::begin(&shared.journal)?)),
        Offered::SetAsideLog(number) => Content::File(shared.journal.open_aside_log(*number)?),
        Offered::SetAside(number) => Content::File(shared.journal.open_aside(*number)?),
        Offered::Dossier => Content::Dossier(Box::new(dossier::begin(shared, now)?)),
    };
    let entries = shared.entries.len();
    shared.leaving = Some(Leaving { name: name.to_owned(), written: 0, entries, content, ended: false });
    Ok(())
}

/// The card of a check as a page to print.
fn printed_card(shared: &Shared, check: &str, now: &Moment) -> Result<Vec<u8>, AppError> {
    let report = shared.report(now);
    let context = shared.context(&report, Drafts::none(shared.locale()), now);
    let page =
        paper::card(&context, check).ok_or_else(|| AppError::refused(say!(shared.locale(), "app-not-flown")))?;
    page.map(String::into_bytes).map_err(|error| AppError::refused(error.to_string()))
}

/// The next piece, which may be empty while there is more to come; none at its end, and after the person stopped it.
pub(super) fn piece(shared: &mut Shared) -> Result<Option<Vec<u8>>, AppError> {
    let Some(mut leaving) = shared.leaving.take() else { return Ok(None) };
    if leaving.entries != shared.entries.len() {
        return Err(AppError::refused(say!(shared.locale(), "app-saving-overtaken", name = leaving.name)));
    }
    let piece = match &mut leaving.content {
        Content::Whole(bytes) if bytes.is_empty() => None,
        Content::Whole(bytes) => Some(std::mem::take(bytes)),
        Content::Dossier(making) => dossier::next(making, shared)?.map(String::into_bytes),
        Content::Backup(packing) => packing.next(&shared.journal)?,
        Content::File(file) => read_on(file)?,
    };
    leaving.written += piece.as_ref().map_or(0, |piece| piece.len() as u64);
    leaving.ended = piece.is_none();
    shared.leaving = Some(leaving);
    Ok(piece)
}

/// What became of it where the shell wrote it; a sentence once all of it is there. What comes after the person stopped it is passed
/// over.
pub(super) fn wrote(shared: &mut Shared, how: Wrote, now: &Moment) -> Result<Option<String>, AppError> {
    let Some(leaving) = shared.leaving.take() else { return Ok(None) };
    let (locale, name) = (shared.locale(), &leaving.name);
    match how {
        Wrote::Kept if leaving.ended => {
            let said = say!(locale, "app-saved", name = name);
            if let Content::Backup(packing) = &leaving.content {
                let (count, head) = packing.of();
                shared.keep_last_backup(LastBackup::new(now.wall, count, head))?;
            }
            Ok(Some(said))
        }
        Wrote::Kept => {
            shared.leaving = Some(leaving);
            Ok(None)
        }
        Wrote::NoRoom => Err(AppError::refused(say!(locale, "app-saving-no-room", name = name))),
        Wrote::Gone => Err(AppError::refused(say!(locale, "app-saving-gone", name = name))),
    }
}

/// The next bytes of a file; none at its end.
fn read_on(file: &mut File) -> Result<Option<Vec<u8>>, AppError> {
    const PIECE: u64 = 1 << 20;
    let mut piece = Vec::new();
    file.take(PIECE).read_to_end(&mut piece).map_err(BackupError::from).map_err(JournalError::from)?;
    Ok(Some(piece).filter(|piece| !piece.is_empty()))
}
