//! A recorder's log: picked for a flight, its columns named, read and attached.

use std::collections::BTreeMap;

use super::AppError;
use super::command::{After, Done};
use super::phone::Shared;
use super::reading::{self, Purpose, Reading, Unread};
use crate::drawing::Picture;
use crate::engineering::Grade;
use crate::form::Drafts;
use crate::journal::{Journal, NewEntry, OfferedLog};
use crate::locale::{Locale, say};
use crate::record::{AttachedLog, Body, EntryId, FindingGrade, ThingKind};
use crate::telemetry::summary::{ChannelLimit, Side, summarise_for};
use crate::telemetry::{Layout, Limits, Quantity, Recording, SightStep, TelemetryError};
use crate::view::{self, Block, Place, PlotFingers, PlotPhase, PlotView};

/// A log that was picked and is not attached yet.
pub(super) struct PickedLog {
    /// For which card's flight.
    pub card: EntryId,
    /// What the phone calls it.
    pub name: String,
    /// How it is written.
    pub layout: Layout,
    /// The file in the journal.
    pub(super) file: OfferedLog,
}

/// The log in view, read.
pub(super) struct OpenLog {
    sha256: String,
    /// For which card's flight.
    card: EntryId,
    /// Its columns.
    pub(super) recording: Recording,
    /// What they are held against.
    pub(super) limits: Limits,
    /// The plot while fingers are on it: kept in memory until they are gone, since a written draft takes longer than a frame.
    moving: Option<(Place, PlotView)>,
}

impl PickedLog {
    pub fn seen(&self) -> view::PickedLog<'_> {
        view::PickedLog { card: self.card, name: &self.name, layout: &self.layout }
    }
}

impl OpenLog {
    pub fn seen(&self) -> view::OpenLog<'_> {
        view::OpenLog { recording: &self.recording, limits: &self.limits }
    }
}

impl From<TelemetryError> for AppError {
    fn from(source: TelemetryError) -> Self {
        let field = match &source {
            TelemetryError::Map { column: Some(column), .. } => Some(view::quantity_field(column - 1)),
            _ => None,
        };
        AppError::Log { field, source, locale: Locale::default() }
    }
}

/// The fields that keep what the phone calls the file that is offered, and which one it is.
const FILE_NAME: &str = "file-name";
const FILE: &str = "file";

/// Looks at a file that is here as a whole, and goes to where its columns are named.
pub(super) fn offer(shared: &mut Shared, card: EntryId, name: &str, file: &OfferedLog) -> Result<(), AppError> {
    shared.picked_log = None;
    let layout = match layout_of(&shared.journal, &file.name) {
        Ok(layout) => layout,
        Err(error) => {
            shared.journal.give_log_up()?;
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
fn offered_again(shared: &mut Shared, card: EntryId) -> Result<(), AppError> {
    if shared.picked_log.is_some() {
        return Ok(());
    }
    let drafts = shared.journal.drafts(&Place::LogOffer(card).draft_key())?;
    // One that was offered for another flight since took its place.
    let file = shared.journal.offered_log()?.filter(|file| drafts.get(FILE) == Some(&file.name));
    let (Some(name), Some(file)) = (drafts.get(FILE_NAME), file) else { return Ok(()) };
    // One that can no longer be read is as good as gone: the page says so, and it is picked again.
    let Ok(layout) = layout_of(&shared.journal, &file.name) else { return Ok(()) };
    shared.picked_log = Some(PickedLog { card, name: name.clone(), layout, file });
    Ok(())
}

pub(super) fn layout_of(journal: &Journal, name: &str) -> Result<Layout, TelemetryError> {
    Layout::read(&mut journal.read_log(name, 0))
}

/// Begins to read the picked log under the columns as they are named.
pub(super) fn attach(shared: &mut Shared, card: EntryId, form: Drafts<'_>) -> Result<(), AppError> {
    let Some(picked) = shared.picked_log.as_ref().filter(|picked| picked.card == card) else {
        return Err(AppError::refused(say!(shared.locale(), "log-gone-pick-again")));
    };
    let map = view::named_columns(&shared.ledger.logs, &picked.layout, form);
    view::check_typed(form, &map)?;
    let reading = Reading::begin(Purpose::Attach, card, &picked.file, &picked.layout, &map)?;
    shared.reading = Some(reading);
    Ok(())
}

/// The picked log was read: says what to append. The file is kept with that entry, or offered still where it cannot be appended.
///
/// # Errors
/// It is no longer what was picked, or shows no flight.
pub(super) fn attached(shared: &mut Shared, card: EntryId, read: Option<Recording>) -> Result<Done, AppError> {
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
    shared.reading = shared.reading.take().filter(|reading| reading.is_for(place));
    let Some(card) = shown_at(place) else {
        (shared.open_log, shared.unread) = (None, None);
        return Ok(());
    };
    let Some(attached) = shared.ledger.logs.of_flight(card) else { return Ok(()) };
    let is_open = shared.open_log.as_ref().is_some_and(|open| open.sha256 == attached.sha256 && open.card == card);
    if is_open || shared.reading.is_some() || shared.unread.is_some_and(|(unread, _)| unread == card) {
        return Ok(());
    }
    shared.open_log = None;
    match Reading::again(&shared.journal, Purpose::Show, card, attached) {
        Ok(begun) => shared.reading = Some(begun),
        Err(_) => shared.unread = Some((card, Unread::Gone)),
    }
    reading::go_on(shared).map(|_| ())
}

/// The log that was attached was read again: its plot can be drawn.
pub(super) fn opened(shared: &mut Shared, card: EntryId, recording: Recording, sha256: String) {
    let limits = limits(shared, card);
    shared.open_log = Some(OpenLog { sha256, card, recording, limits, moving: None });
}

/// Raises the finding that a flight proposes: one touch, with what will prove the fix.
pub(super) fn raise_proposed(shared: &Shared, card: EntryId) -> Result<Done, AppError> {
    let flight =
        shared.ledger.flight(card).ok_or_else(|| AppError::refused(say!(shared.locale(), "log-flight-gone")))?;
    let log = shared.ledger.logs.of_flight(card);
    let nothing = || AppError::refused(say!(shared.locale(), "log-all-as-predicted"));
    let proposal = view::proposal(shared.facts(), flight, log).ok_or_else(nothing)?;
    let (stage, _) = shared.plan.check(&flight.check).ok_or_else(nothing)?;
    let body = Body::FindingRaised {
        title: proposal.title.clone(),
        grade: FindingGrade::Caution,
        stage: stage.id.clone(),
        proof: flight.check.clone(),
        shown_by: Some(proposal.shown_by),
        proposed_from: Some(proposal.from),
    };
    super::command::one(body, say!(shared.locale(), "log-finding-raised", title = proposal.title), After::Stay)
}

/// The plots of the logs that are attached, for a page that nobody touches, by the flight's card.
pub(super) fn printed(shared: &Shared) -> Result<BTreeMap<EntryId, Picture>, AppError> {
    let mut plots = BTreeMap::new();
    for flight in &shared.ledger.flights {
        let Some(log) = shared.ledger.logs.of_flight(flight.card) else { continue };
        let Some(recording) = kept(shared, flight.card, log) else { continue };
        plots.insert(flight.card, view::plot_printed(shared.locale(), &recording, &limits(shared, flight.card)));
    }
    Ok(plots)
}

/// An attached log, read; none where its file is damaged or missing.
fn kept(shared: &Shared, card: EntryId, log: &AttachedLog) -> Option<Recording> {
    Reading::again(&shared.journal, Purpose::Show, card, log).ok()?.read_whole(&shared.journal).ok()?
}

fn no_plot(locale: Locale) -> AppError {
    AppError::refused(say!(locale, "log-no-plot"))
}

/// What of the plot is in view at a place, with the log that it is of.
fn in_view<'a>(shared: &'a Shared, place: &Place) -> Result<(PlotView, &'a OpenLog), AppError> {
    let open = shared.open_log.as_ref().ok_or_else(|| no_plot(shared.locale()))?;
    if let Some((_, view)) = open.moving.as_ref().filter(|(of, _)| of == place) {
        return Ok((*view, open));
    }
    let drafts = shared.journal.drafts(&place.draft_key())?;
    Ok((view::plot_view(&shared.ledger.logs, place, Drafts::new(&drafts, shared.locale()), &open.recording), open))
}

fn keep(shared: &mut Shared, place: &Place, view: &PlotView) -> Result<(), AppError> {
    let fields: Vec<_> = view.fields().into_iter().map(|(field, text)| (field.to_owned(), text)).collect();
    shared.journal.keep_drafts(&place.draft_key(), &fields)?;
    if let Some(open) = shared.open_log.as_mut() {
        open.moving = None;
    }
    Ok(())
}

/// Moves what is in view of the plot by a button.
pub(super) fn step(shared: &mut Shared, place: &Place, step: SightStep) -> Result<(), AppError> {
    open(shared, place)?;
    let (view, open) = in_view(shared, place)?;
    let next = view.stepped(&open.recording, step);
    keep(shared, place, &next)
}

/// Brings a channel of the plot to the top.
pub(super) fn show_channel(shared: &mut Shared, place: &Place, channel: u32) -> Result<(), AppError> {
    open(shared, place)?;
    let (view, _) = in_view(shared, place)?;
    keep(shared, place, &PlotView { channel: Some(channel), ..view })
}

/// Moves the plot with the fingers on it, and draws it anew.
pub(super) fn fingers(shared: &mut Shared, place: &Place, fingers: &PlotFingers) -> Result<Block, AppError> {
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
