//! A recorder's log: picked for a flight, its columns named, read and attached.

use super::AppError;
use super::done::{After, Done};
use super::log_import::{LogImport, Purpose, STEP_BYTES, Unread, layout_of};
use super::open_log::{OpenLog, PickedLog};
use super::shared::Shared;
use crate::engineering::Grade;
use crate::form::{ColumnsForm, Drafts};
use crate::journal::{NewEntry, OfferedLog};
use crate::locale::say;
use crate::record::{AttachedLog, Body, EntryId, ThingKind, ThingNumber};
use crate::telemetry::summary::{ChannelLimit, Side, summarise_for};
use crate::telemetry::{Importing, Limits, Quantity, Recording};
use crate::view::Place;

/// The fields that keep what the phone calls the file that is offered, and which one it is.
const FILE_NAME: &str = "file-name";
const FILE: &str = "file";

/// Looks at a file that is here as a whole, and goes to where its columns are named.
pub(super) fn offer(shared: &mut Shared, card: EntryId, name: &str, file: &OfferedLog) -> Result<(), AppError> {
    shared.picked_log = None;
    let layout = match layout_of(&shared.journal, &file.name) {
        Ok(layout) => layout,
        Err(error) => {
            shared.journal.discard_log()?;
            return Err(error.into());
        }
    };
    let place = Place::LogOffer(card);
    let fields = [(FILE_NAME.to_owned(), name.to_owned()), (FILE.to_owned(), file.name.clone())];
    shared.go_with(place, &fields)?;
    shared.picked_log = Some(PickedLog { card, name: name.to_owned(), layout, file: file.clone() });
    Ok(())
}

/// Finds the file that is offered again after the app was closed.
pub(super) fn offered_again(shared: &mut Shared, card: EntryId) -> Result<(), AppError> {
    if shared.picked_log.is_some() {
        return Ok(());
    }
    let drafts = shared.drafts(&Place::LogOffer(card))?;
    // One that was offered for another flight since took its place.
    let file = shared.journal.offered_log()?.filter(|file| drafts.get(FILE) == Some(&file.name));
    let (Some(name), Some(file)) = (drafts.get(FILE_NAME), file) else { return Ok(()) };
    // One that can no longer be read is as good as gone: the page says so, and it is picked again.
    let Ok(layout) = layout_of(&shared.journal, &file.name) else { return Ok(()) };
    shared.picked_log = Some(PickedLog { card, name: name.clone(), layout, file });
    Ok(())
}

/// Begins to read the picked log under the columns as they are named.
pub(super) fn attach(shared: &mut Shared, card: EntryId, drafts: Drafts<'_>) -> Result<Option<Done>, AppError> {
    let Some(picked) = shared.picked_log.as_ref().filter(|picked| picked.card == card) else {
        return Err(AppError::refused(say!(shared.locale(), "log-gone-pick-again")));
    };
    let form = ColumnsForm::new(drafts, &picked.layout);
    let map = form.named(&shared.ledger.logs, &shared.plan);
    form.check_typed(&map)?;
    let import = LogImport::begin(Purpose::Attach, card, &picked.file, &picked.layout, &map)?;
    shared.import = Some(import);
    import_on(shared)
}

/// The picked log was read: says what to append. The file is kept with that entry, or offered still where it cannot be appended.
///
/// # Errors
/// It is no longer what was picked, or shows no flight.
fn attached(shared: &mut Shared, card: EntryId, read: Option<Recording>) -> Result<Done, AppError> {
    let picked = shared.picked_log.as_ref().filter(|picked| picked.card == card);
    let Some((picked, recording)) = picked.zip(read) else {
        return Err(AppError::refused(say!(shared.locale(), "log-gone-pick-again")));
    };
    let limits = limits(shared, card);
    let summary = summarise_for(&recording, &limits, shared.locale())?;
    let file = picked.file.clone();
    let log = AttachedLog {
        name: picked.name.clone(),
        bytes: file.bytes,
        sha256: file.name.clone(),
        map: recording.map.clone(),
        rows: recording.rows,
        fault_count: recording.faults.total(),
        faults: recording.faults.first.iter().take(20).map(|fault| fault.words(shared.locale())).collect(),
        figures: summary.figures,
    };
    let said = say!(shared.locale(), "log-attached", rows = log.rows.imported, name = log.name);
    shared.picked_log = None;
    shared.open_log = Some(OpenLog { sha256: file.name, card, recording, limits, moving: None });
    let entry = NewEntry::pilot(Body::LogAttached { card, log: Box::new(log) });
    Ok(Done { entries: vec![entry], said, after: After::Instead(Place::Review(card)) })
}

/// The log that was attached was read again: its plot can be drawn.
fn opened(shared: &mut Shared, card: EntryId, recording: Recording, sha256: String) {
    let limits = limits(shared, card);
    shared.open_log = Some(OpenLog { sha256, card, recording, limits, moving: None });
}

/// What the figures of a flight are held against: the plan's limits of temperatures, the pack's cells, the card's head speed.
pub(super) fn limits(shared: &Shared, card: EntryId) -> Limits {
    let flight = shared.ledger.flight(card);
    let cells_of = |pack: &str| shared.ledger.aircraft.thing(ThingKind::Pack, pack)?.number(ThingNumber::Cells);
    let limit = |place: &crate::plan::Place, value, grade| ChannelLimit {
        quantity: Quantity::Temperature,
        place: Some(place.id.clone()),
        value,
        side: Side::Above,
        grade,
        basis: place.basis.clone(),
    };
    let places = shared.plan.places.iter();
    let rating_a = shared.ledger.aircraft.figure("controller-continuous-current");
    let current = rating_a.map(|value| ChannelLimit {
        quantity: Quantity::PackCurrent,
        place: None,
        value,
        side: Side::Above,
        grade: Grade::Caution,
        basis: say!(shared.locale(), "log-controller-rating"),
    });
    Limits {
        cells: flight.and_then(|flight| flight.packs().map(cells_of).sum::<Option<f64>>()).map(|cells| cells as u32),
        set_head_speed_rpm: flight.map(|flight| flight.head_speed_rpm),
        channels: places
            .flat_map(|p| [limit(p, p.caution_above_c, Grade::Caution), limit(p, p.stop_above_c, Grade::Stop)])
            .chain(current)
            .collect(),
    }
}

/// Reads the log on by a step. Once it is read, what was wanted of it is done; what is to be recorded by that is given back.
pub(super) fn import_on(shared: &mut Shared) -> Result<Option<Done>, AppError> {
    let Some(mut import) = shared.import.take() else { return Ok(None) };
    let (purpose, card) = (import.purpose, import.card);
    match import.step(&shared.journal, STEP_BYTES) {
        Ok(Importing::MORE) => {
            shared.import = Some(import);
            return Ok(None);
        }
        Err(error) if purpose == Purpose::Attach => return Err(error.into()),
        Ok(_) | Err(_) => {}
    }
    let file = import.file.name.clone();
    match (purpose, import.finish()) {
        (Purpose::Attach, read) => attached(shared, card, read?).map(Some),
        (Purpose::Show, Ok(Some(recording))) => {
            opened(shared, card, recording, file);
            Ok(None)
        }
        // It has no plot, and that is all: its figures are in the journal.
        (Purpose::Show, _) => {
            shared.unread = Some((card, Unread::Gone));
            Ok(None)
        }
    }
}

/// Reads it no further.
pub(super) fn stop_import(shared: &mut Shared) {
    if let Some(import) = shared.import.take().filter(|import| import.purpose == Purpose::Show) {
        shared.unread = Some((import.card, Unread::Stopped));
    }
}
