//! Documents that come in through the phone's picker.

use super::arriving::{Arriving, Into};
use super::done::Done;
use super::shared::Shared;
use super::{AppError, bringing_in, log, photo, plan};
use crate::journal::{ArrivingBackup, JournalError};
use crate::locale::say;
use crate::view::Wanted;

/// Begins to take in what was picked for a control.
pub(super) fn begin(shared: &mut Shared, wanted: &Wanted, name: &str, length: Option<u64>) -> Result<(), AppError> {
    stop(shared)?;
    let into = match wanted {
        Wanted::Plan => Into::Plan(Vec::new()),
        Wanted::Log(card) => {
            shared.picked_log = None;
            Into::Log(*card, shared.journal.begin_log()?)
        }
        Wanted::Photo(of) => {
            photo::short_enough(shared.locale(), name, length.unwrap_or(0))?;
            shared.picked_log = None;
            Into::Photo(of.clone(), shared.journal.begin_log()?)
        }
        Wanted::Backup => {
            shared.brought = None;
            Into::Backup(ArrivingBackup::begin(&shared.journal)?)
        }
    };
    shared.arriving = Some(Arriving { name: name.to_owned(), length, into });
    Ok(())
}

/// Takes the next piece of it: an empty one is its end, none means that the phone cannot read on. What is to be recorded by its end is
/// given back.
///
/// A piece that comes after the person stopped it is passed over.
pub(super) fn piece(shared: &mut Shared, piece: Option<&[u8]>) -> Result<Option<Done>, AppError> {
    let Some(mut arriving) = shared.arriving.take() else { return Ok(None) };
    let Some(bytes) = piece else {
        give_up(shared, arriving.into)?;
        return Err(AppError::refused(say!(shared.locale(), "app-document-gone", name = arriving.name)));
    };
    if !bytes.is_empty() {
        taken(shared, &mut arriving, bytes)?;
        shared.arriving = Some(arriving);
        return Ok(None);
    }
    match arriving.into {
        Into::Plan(bytes) => plan::pick(shared, &arriving.name, bytes)?,
        Into::Log(card, log) => {
            let offered = log.end(&mut shared.journal)?;
            log::offer(shared, card, &arriving.name, &offered)?;
        }
        Into::Photo(of, file) => {
            let offered = file.end(&mut shared.journal)?;
            return photo::attached(shared, of, &arriving.name, &offered).map(Some);
        }
        Into::Backup(backup) => bringing_in::arrived(shared, &arriving.name, backup.end())?,
    }
    Ok(None)
}

fn taken(shared: &mut Shared, arriving: &mut Arriving, bytes: &[u8]) -> Result<(), AppError> {
    match &mut arriving.into {
        Into::Plan(text) => {
            text.extend_from_slice(bytes);
            plan::short_enough(shared.locale(), &arriving.name, text.len() as u64)
        }
        Into::Log(_, file) => {
            let taken = file.take(&mut shared.journal, bytes);
            kept_or_discarded(shared, taken.map_err(AppError::from))
        }
        Into::Photo(_, file) => {
            let taken = file.take(&mut shared.journal, bytes).map_err(AppError::from);
            let short = taken.and_then(|()| photo::short_enough(shared.locale(), &arriving.name, file.bytes()));
            kept_or_discarded(shared, short)
        }
        Into::Backup(backup) => {
            let Err(error) = backup.take(bytes) else { return Ok(()) };
            shared.journal.discard_brought();
            Err(error.into())
        }
    }
}

/// Of a file that is taken no further, what came so far only takes room away.
fn kept_or_discarded(shared: &mut Shared, taken: Result<(), AppError>) -> Result<(), AppError> {
    if taken.is_err() {
        shared.journal.discard_log()?;
    }
    taken
}

/// Gives up what is on its way, in or out.
pub(super) fn stop(shared: &mut Shared) -> Result<(), JournalError> {
    shared.leaving = None;
    if shared.brought.as_ref().is_some_and(|brought| brought.under_way().is_some()) {
        shared.brought = None;
        shared.journal.discard_brought();
    }
    shared.arriving.take().map_or(Ok(()), |arriving| give_up(shared, arriving.into))
}

/// Takes away what came of a document so far.
fn give_up(shared: &mut Shared, into: Into) -> Result<(), JournalError> {
    match into {
        Into::Plan(_) => Ok(()),
        Into::Log(..) | Into::Photo(..) => shared.journal.discard_log(),
        Into::Backup(_) => {
            shared.journal.discard_brought();
            Ok(())
        }
    }
}
