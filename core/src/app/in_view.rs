//! What a place is about, brought into memory.

use super::log::{import_on, offered_again};
use super::log_import::{LogImport, Purpose, Unread};
use super::shared::Shared;
use super::{AppError, bringing_in, photo, search};
use crate::form::{Drafts, JournalForm};
use crate::record::EntryId;
use crate::view::Place;

/// The flight whose log a place shows.
fn shown_at(place: &Place) -> Option<EntryId> {
    match place {
        Place::Review(card) | Place::LogFigure { card, .. } => Some(*card),
        _ => None,
    }
}

/// Brings what a place is about into memory: the log in view, once, from the file that was kept; or the file that is offered. What
/// was being read for another place is given up.
pub(super) fn open(shared: &mut Shared, place: &Place) -> Result<(), AppError> {
    if let Place::LogOffer(card) | Place::LogColumn { card, .. } = place {
        offered_again(shared, *card)?;
    }
    if *place == Place::Journal {
        let drafts = shared.drafts(place)?;
        search::search(shared, JournalForm::new(Drafts::new(&drafts, shared.locale())).wanted());
    }
    if matches!(place, Place::Hangar | Place::NewAircraft) {
        shared.look_beside()?;
    }
    photo::open(shared, place);
    if *place == Place::BackupOffer {
        bringing_in::step(shared)?;
    } else if shared.brought.take().is_some() {
        shared.journal.discard_brought();
    }
    shared.import = shared.import.take().filter(|import| import.is_for(place));
    let Some(card) = shown_at(place) else {
        (shared.open_log, shared.unread) = (None, None);
        return Ok(());
    };
    let Some(attached) = shared.ledger.logs.of_flight(card) else { return Ok(()) };
    let is_open = shared.open_log.as_ref().is_some_and(|open| open.sha256 == attached.sha256 && open.card == card);
    if is_open || shared.import.is_some() || shared.unread.is_some_and(|(unread, _)| unread == card) {
        return Ok(());
    }
    shared.open_log = None;
    match LogImport::again(&shared.journal, Purpose::Show, card, attached) {
        Ok(begun) => shared.import = Some(begun),
        Err(_) => shared.unread = Some((card, Unread::Gone)),
    }
    import_on(shared).map(|_| ())
}
