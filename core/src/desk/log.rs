//! A recorder's log: picked for a flight, its columns named, read and attached.

use super::command::{After, Done};
use super::phone::Shared;
use super::{DeskError, Form};
use crate::engineering::Grade;
use crate::journal::NewEntry;
use crate::record::{AttachedLog, Body, EntryId, ThingKind};
use crate::telemetry::summary::{ChannelLimit, Side, summarise};
use crate::telemetry::{Import, Layout, Limits, Quantity, Recording, Settings, TelemetryError};
use crate::view::{self, Place};

/// A log passes through the phone's memory on its way here.
pub(crate) const MOST_LOG_BYTES: u64 = 64 << 20;
/// What the kept columns of the log in view may take.
const KEPT_BYTES: usize = 32 << 20;

/// A log that was picked and is not attached yet.
pub struct PickedLog {
    /// For which card's flight.
    pub card: EntryId,
    /// What the phone calls it.
    pub name: String,
    /// How it is written.
    pub layout: Layout,
    /// The file.
    pub bytes: Vec<u8>,
}

/// The log in view, read.
pub(super) struct OpenLog {
    sha256: String,
    recording: Recording,
}

impl From<TelemetryError> for DeskError {
    fn from(error: TelemetryError) -> Self {
        let field = match &error {
            TelemetryError::Map { column: Some(column), .. } => Some(view::quantity_field(column - 1)),
            _ => None,
        };
        DeskError::Refused { field, reason: error.to_string() }
    }
}

/// Looks at a file that was picked for a flight, and goes to where its columns are named.
pub(super) fn pick(shared: &mut Shared, card: EntryId, name: &str, bytes: Vec<u8>) -> Result<(), DeskError> {
    if bytes.len() as u64 > MOST_LOG_BYTES {
        return Err(DeskError::refused(format!(
            "'{name}' is longer than 64 MiB: cut it at the recorder, then pick it again"
        )));
    }
    let layout = Layout::of(&bytes)?;
    let place = Place::LogOffer(card);
    shared.journal.drop_drafts(&place)?;
    shared.picked_log = Some(PickedLog { card, name: name.to_owned(), layout, bytes });
    shared.go(place)
}

/// Reads the picked log under the columns as they are named, keeps the file, and says what to append.
pub(super) fn attach(shared: &mut Shared, card: EntryId, form: Form<'_>) -> Result<Done, DeskError> {
    let Some(picked) = shared.picked_log.as_ref().filter(|picked| picked.card == card) else {
        return Err(DeskError::refused("The file is no longer at hand: pick it again"));
    };
    let map = view::named_columns(&shared.entries, &picked.layout, form);
    let recording = read(&picked.layout, &map, &picked.bytes)?;
    let summary = summarise(&recording, &limits(shared, card))?;
    let log = AttachedLog {
        name: picked.name.clone(),
        bytes: picked.bytes.len() as u64,
        sha256: crate::journal::log_name(&picked.bytes),
        map,
        rows: recording.rows,
        fault_count: recording.faults.total(),
        faults: recording.faults.first.iter().take(20).map(ToString::to_string).collect(),
        figures: summary.figures,
    };
    let said = format!("Log attached: {} rows of {}", log.rows.imported, log.name);
    shared.journal.keep_log(&picked.bytes)?;
    shared.picked_log = None;
    let entry = NewEntry::pilot(Body::LogAttached { card, log: Box::new(log) });
    Ok(Done { entries: vec![entry], said, after: After::Instead(Place::Review(card)) })
}

/// Reads the log of the flight in view, once, from the file that was kept.
pub(super) fn open(shared: &mut Shared, place: &Place) -> Result<(), DeskError> {
    let Place::Review(card) = place else {
        shared.open_log = None;
        return Ok(());
    };
    let Some(attached) = view::log_of(&shared.entries, *card) else { return Ok(()) };
    if shared.open_log.as_ref().is_some_and(|open| open.sha256 == attached.sha256) {
        return Ok(());
    }
    // A file that is damaged or missing leaves the figures, which are in the entry, and no plot.
    shared.open_log = match shared.journal.log(&attached.sha256)? {
        Some(bytes) => Layout::of(&bytes)
            .and_then(|layout| read(&layout, &attached.map, &bytes))
            .ok()
            .map(|recording| OpenLog { sha256: attached.sha256.clone(), recording }),
        None => None,
    };
    Ok(())
}

impl Shared {
    pub(super) fn recording(&self) -> Option<&Recording> {
        self.open_log.as_ref().map(|open| &open.recording)
    }
}

fn read(layout: &Layout, map: &crate::telemetry::ColumnMap, bytes: &[u8]) -> Result<Recording, TelemetryError> {
    let settings = Settings { kept_bytes: KEPT_BYTES, file_bytes: Some(bytes.len() as u64) };
    Import::new(layout, map, settings)?.read(&mut &bytes[..], &mut |_| true)
}

/// What the figures of a flight are held against: the plan's limits of temperatures, the pack's cells, the card's head speed.
fn limits(shared: &Shared, card: EntryId) -> Limits {
    let flight = shared.ledger.flight(card);
    let pack = flight.and_then(|flight| shared.ledger.aircraft.thing(ThingKind::Pack, &flight.pack));
    let limit = |place: &crate::plan::Place, value, grade| ChannelLimit {
        quantity: Quantity::Temperature,
        place: Some(place.id.clone()),
        value,
        side: Side::Above,
        grade,
        basis: place.basis.clone(),
    };
    let places = shared.plan.places.iter();
    Limits {
        cells: pack.and_then(|pack| pack.number("cells")).map(|cells| cells as u32),
        set_head_speed_rpm: flight.map(|flight| flight.head_speed_rpm),
        channels: places
            .flat_map(|p| [limit(p, p.caution_above_c, Grade::Caution), limit(p, p.stop_above_c, Grade::Stop)])
            .collect(),
    }
}
