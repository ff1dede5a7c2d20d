//! A recorder's log: picked for a flight, its columns named, read and attached.

use std::collections::BTreeMap;

use super::command::{After, Done};
use super::phone::Shared;
use super::{DeskError, Form};
use crate::engineering::Grade;
use crate::journal::NewEntry;
use crate::locale::{Locale, say};
use crate::record::{AttachedLog, Body, EntryId, FindingGrade, ThingKind};
use crate::telemetry::summary::{ChannelLimit, Side, summarise};
use crate::telemetry::{Import, Layout, Limits, Quantity, Recording, Settings, SightStep, TelemetryError};
use crate::view::{self, Block, Place, PlotFingers, PlotPhase, PlotView};

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
pub struct OpenLog {
    sha256: String,
    /// For which card's flight.
    card: EntryId,
    /// Its columns.
    pub(crate) recording: Recording,
    /// What they are held against.
    pub(crate) limits: Limits,
    /// The plot while fingers are on it: kept in memory until they are gone, since a written draft takes longer than a frame.
    moving: Option<(Place, PlotView)>,
}

impl From<TelemetryError> for DeskError {
    fn from(source: TelemetryError) -> Self {
        let field = match &source {
            TelemetryError::Map { column: Some(column), .. } => Some(view::quantity_field(column - 1)),
            _ => None,
        };
        DeskError::Log { field, source, locale: Locale::default() }
    }
}

/// Looks at a file that was picked for a flight, and goes to where its columns are named.
pub(super) fn pick(shared: &mut Shared, card: EntryId, name: &str, bytes: Vec<u8>) -> Result<(), DeskError> {
    if bytes.len() as u64 > MOST_LOG_BYTES {
        return Err(DeskError::refused(say!(shared.locale(), "log-too-long", name = name)));
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
        return Err(DeskError::refused(say!(shared.locale(), "log-gone-pick-again")));
    };
    let map = view::named_columns(&shared.entries, &picked.layout, form);
    for mapped in map.columns.iter().filter(|mapped| mapped.quantity == Quantity::HeadSpeed) {
        view::typed_turns(form, mapped.column)?;
    }
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
    let said = say!(shared.locale(), "log-attached", rows = log.rows.imported, name = log.name);
    shared.journal.keep_log(&picked.bytes)?;
    shared.picked_log = None;
    let entry = NewEntry::pilot(Body::LogAttached { card, log: Box::new(log) });
    Ok(Done { entries: vec![entry], said, after: After::Instead(Place::Review(card)) })
}

/// The flight whose log a place shows.
fn shown_at(place: &Place) -> Option<EntryId> {
    match place {
        Place::Review(card) | Place::LogFigure { card, .. } => Some(*card),
        _ => None,
    }
}

/// Reads the log of the flight in view, once, from the file that was kept.
pub(super) fn open(shared: &mut Shared, place: &Place) -> Result<(), DeskError> {
    let Some(card) = shown_at(place) else {
        shared.open_log = None;
        return Ok(());
    };
    let Some(attached) = view::log_of(&shared.entries, card) else { return Ok(()) };
    if shared.open_log.as_ref().is_some_and(|open| open.sha256 == attached.sha256 && open.card == card) {
        return Ok(());
    }
    let recording = kept(shared, attached)?;
    let limits = limits(shared, card);
    shared.open_log =
        recording.map(|recording| OpenLog { sha256: attached.sha256.clone(), card, recording, limits, moving: None });
    Ok(())
}

/// Raises the finding that a flight proposes: one touch, with what will prove the fix.
pub(super) fn raise_proposed(shared: &Shared, card: EntryId) -> Result<Done, DeskError> {
    let flight =
        shared.ledger.flight(card).ok_or_else(|| DeskError::refused(say!(shared.locale(), "log-flight-gone")))?;
    let log = view::log_of(&shared.entries, card);
    let nothing = || DeskError::refused(say!(shared.locale(), "log-all-as-predicted"));
    let proposal = view::proposal(shared.facts(), flight, log).ok_or_else(nothing)?;
    let (stage, _) = shared.plan.check(&flight.check).ok_or_else(nothing)?;
    let body = Body::FindingRaised {
        title: proposal.title.clone(),
        grade: FindingGrade::Caution,
        stage: stage.id.clone(),
        proof: flight.check.clone(),
        shown_by: Some(proposal.shown_by),
    };
    super::command::one(body, say!(shared.locale(), "log-finding-raised", title = proposal.title), After::Stay)
}

/// The plots of the logs that are attached, for a page that nobody touches, by the flight's card.
pub(super) fn printed(shared: &Shared) -> Result<BTreeMap<EntryId, view::Picture>, DeskError> {
    let mut plots = BTreeMap::new();
    for flight in &shared.ledger.flights {
        let Some(log) = view::log_of(&shared.entries, flight.card) else { continue };
        let Some(recording) = kept(shared, log)? else { continue };
        plots.insert(flight.card, view::plot_printed(Locale::default(), &recording, &limits(shared, flight.card)));
    }
    Ok(plots)
}

/// An attached log, read; none where its file is damaged or missing: the figures, which are in the entry, stay.
fn kept(shared: &Shared, log: &AttachedLog) -> Result<Option<Recording>, DeskError> {
    let bytes = shared.journal.log(&log.sha256)?;
    Ok(bytes.and_then(|bytes| {
        let layout = Layout::of(&bytes).ok()?;
        read(&layout, &log.map, &bytes).ok()
    }))
}

fn no_plot(locale: Locale) -> DeskError {
    DeskError::refused(say!(locale, "log-no-plot"))
}

/// What of the plot is in view at a place, with the log that it is of.
fn in_view<'a>(shared: &'a Shared, place: &Place) -> Result<(PlotView, &'a OpenLog), DeskError> {
    let open = shared.open_log.as_ref().ok_or_else(|| no_plot(shared.locale()))?;
    if let Some((_, view)) = open.moving.as_ref().filter(|(of, _)| of == place) {
        return Ok((*view, open));
    }
    let drafts = shared.journal.drafts(place)?;
    Ok((view::plot_view(&shared.entries, place, Form::new(&drafts, shared.locale()), &open.recording), open))
}

fn keep(shared: &mut Shared, place: &Place, view: &PlotView) -> Result<(), DeskError> {
    for (field, text) in view.fields() {
        shared.journal.keep_draft(place, field, &text)?;
    }
    if let Some(open) = shared.open_log.as_mut() {
        open.moving = None;
    }
    Ok(())
}

/// Moves what is in view of the plot by a button.
pub(super) fn step(shared: &mut Shared, place: &Place, step: SightStep) -> Result<(), DeskError> {
    open(shared, place)?;
    let (view, open) = in_view(shared, place)?;
    let next = view.stepped(&open.recording, step);
    keep(shared, place, &next)
}

/// Brings a channel of the plot to the top.
pub(super) fn show_channel(shared: &mut Shared, place: &Place, channel: u32) -> Result<(), DeskError> {
    open(shared, place)?;
    let (view, _) = in_view(shared, place)?;
    keep(shared, place, &PlotView { channel: Some(channel), ..view })
}

/// Moves the plot with the fingers on it, and draws it anew.
pub(super) fn fingers(shared: &mut Shared, place: &Place, fingers: &PlotFingers) -> Result<Block, DeskError> {
    open(shared, place)?;
    let (view, open) = in_view(shared, place)?;
    let next = view.touched(&open.recording, fingers);
    if matches!(fingers.phase, PlotPhase::Up | PlotPhase::Tap) {
        keep(shared, place, &next)?;
    } else if let Some(open) = shared.open_log.as_mut() {
        open.moving = Some((place.clone(), next));
    }
    let open = shared.open_log.as_ref().ok_or_else(|| no_plot(shared.locale()))?;
    Ok(view::plot_block(shared.locale(), &open.recording, &open.limits, &next))
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
        cells: pack.and_then(|pack| pack.number("cells")).map(|cells| cells as u32),
        set_head_speed_rpm: flight.map(|flight| flight.head_speed_rpm),
        channels: places
            .flat_map(|p| [limit(p, p.caution_above_c, Grade::Caution), limit(p, p.stop_above_c, Grade::Stop)])
            .chain(current)
            .collect(),
    }
}
