//! A recorder's log: its columns named by the person, then what it says, with the plot of where each figure comes from.

use super::context::{heading, paragraph, row, still_row};
use super::{Block, Command, Context, Control, Document, Edge, Icon, Place, PlotView, Screen, Tone};
use crate::desk::Form;
use crate::engineering::Grade;
use crate::locale::{Locale, say};
use crate::record::{AttachedLog, Body, Entry, EntryId, Unit};
use crate::telemetry::summary::{FigureKind, LogFigure, Side};
use crate::telemetry::{ColumnMap, Layout, LogUnit, MappedColumn, Quantity, Recording, Span, TimeForm};

/// The field of how the time is written.
const TIME: &str = "time";
/// What a column is when it is not read.
const LEAVE_OUT: &str = "none";
/// Columns that can be named one by one on a phone; further ones keep what is suggested.
const NAMED: usize = 40;

/// The field that says what a column is.
pub(crate) fn quantity_field(column: u32) -> String {
    format!("column:{column}")
}

fn unit_field(column: u32) -> String {
    format!("unit:{column}")
}

fn place_field(column: u32) -> String {
    format!("place:{column}")
}

/// The field of how many turns a column counts for one of the rotor.
fn turns_field(column: u32) -> String {
    format!("turns:{column}")
}

/// Plausible turns of a motor for one of the rotor, inclusive.
const TURNS: (f64, f64) = (0.05, 50.0);

fn turns_label(locale: Locale) -> String {
    say!(locale, "log-turns")
}

/// Turns that a column counts for one of the rotor, as typed; none where nothing was.
///
/// # Errors
/// Refused if it is no number, or outside of what a drive has.
pub(crate) fn typed_turns(form: Form<'_>, column: u32) -> Result<Option<f64>, crate::desk::DeskError> {
    form.number(&turns_field(column), &turns_label(form.locale()), Unit::Ratio, TURNS)
}

/// The log of a flight: the last that was attached and not withdrawn.
pub(crate) fn log_of(entries: &[Entry], card: EntryId) -> Option<&AttachedLog> {
    let gone = crate::readiness::withdrawn(entries);
    entries.iter().rev().filter(|entry| !gone.contains_key(&entry.id)).find_map(|entry| match &entry.body {
        Body::LogAttached { card: of, log } if *of == card => Some(log.as_ref()),
        _ => None,
    })
}

/// What the person said of such a file before.
fn known_map<'a>(entries: &'a [Entry], layout: &Layout) -> Option<&'a ColumnMap> {
    entries.iter().rev().find_map(|entry| match &entry.body {
        Body::LogAttached { log, .. } if log.map.fingerprint == layout.fingerprint => Some(&log.map),
        _ => None,
    })
}

fn id_of<T: serde::Serialize>(of: T) -> String {
    serde_json::to_value(of).ok().and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}

/// The columns as they stand in the form: what was known or suggested, changed by what was chosen.
pub(crate) fn named_columns(entries: &[Entry], layout: &Layout, form: Form<'_>) -> ColumnMap {
    let mut map = known_map(entries, layout).cloned().unwrap_or_else(|| layout.suggest());
    if let Some(form) = form.text(TIME).and_then(|id| TimeForm::WRITTEN.into_iter().find(|f| id_of(*f) == id)) {
        map.time_form = form;
    }
    for (column, header) in (0_u32..).zip(&layout.headers) {
        let chosen = form.text(&quantity_field(column));
        if chosen == Some(LEAVE_OUT) {
            map.columns.retain(|mapped| mapped.column != column);
        }
        if let Some(quantity) = Quantity::ALL.into_iter().find(|q| Some(id_of(*q).as_str()) == chosen) {
            map.columns.retain(|mapped| mapped.column != column);
            let unit = header.unit.filter(|unit| quantity.units().contains(unit)).unwrap_or(quantity.unit());
            let label = header.name.clone();
            map.columns.push(MappedColumn { column, label, quantity, unit, place: None, ratio: 1.0 });
        }
        let Some(mapped) = map.columns.iter_mut().find(|mapped| mapped.column == column) else { continue };
        let unit = form.text(&unit_field(column));
        if let Some(unit) = mapped.quantity.units().iter().find(|u| Some(id_of(**u).as_str()) == unit) {
            mapped.unit = *unit;
        }
        if mapped.quantity == Quantity::HeadSpeed
            && let Ok(Some(turns)) = typed_turns(form, column)
        {
            mapped.ratio = 1.0 / turns;
        }
        if let Some(place) = form.text(&place_field(column)) {
            mapped.place = Some(place.to_owned()).filter(|_| mapped.quantity == Quantity::Temperature);
        }
    }
    map.columns.sort_by_key(|mapped| mapped.column);
    map
}

fn a_log_file(card: EntryId, label: String) -> Control {
    let media_types = ["text/csv", "text/comma-separated-values", "text/plain", "*/*"].map(str::to_owned).to_vec();
    Control::primary(Command::PickLog(card).into(), label).icon(Icon::Book).document(Document::Pick { media_types })
}

/// A file that was picked: what its columns are.
pub(super) fn offer(context: &Context<'_>, card: EntryId) -> Screen {
    let Some(picked) = context.picked_log.filter(|picked| picked.card == card) else {
        let words = say!(context.locale, "log-file-gone");
        let blocks = vec![paragraph(words, Tone::Plain)];
        let foot = vec![a_log_file(card, say!(context.locale, "log-pick-again"))];
        return Screen { foot, ..context.screen("log-offer", say!(context.locale, "log-log"), None, blocks) };
    };
    let layout = &picked.layout;
    let map = named_columns(context.entries, layout, context.form);
    let known = known_map(context.entries, layout).is_some();
    let text = if known { say!(context.locale, "log-known") } else { say!(context.locale, "log-say-once") };
    let detail = say!(context.locale, "log-left-out-note");
    let mut blocks = vec![Block::Verdict { text: text.to_owned(), detail: Some(detail), edge: Edge::None }];
    if let Some(column) = map.time_column {
        let name = layout.headers.get(column as usize).map_or("", |header| header.name.as_str());
        let options = TimeForm::WRITTEN.map(|form| {
            let set = Command::Set(TIME.to_owned(), id_of(form));
            Control::new(set.into(), form.word(context.locale)).chosen(map.time_form == form)
        });
        blocks.push(Block::Choice {
            label: say!(context.locale, "log-time-column", column = column + 1, name = name),
            options: options.to_vec(),
        });
    } else {
        blocks.push(still_row(
            Edge::Caution,
            say!(context.locale, "log-guess"),
            say!(context.locale, "log-no-time"),
            Some(say!(context.locale, "log-rows-apart")),
        ));
    }
    for (column, header) in (0_u32..).zip(&layout.headers).take(NAMED) {
        if Some(column) != map.time_column {
            column_blocks(context, &map, column, header, &mut blocks);
        }
    }
    let attach =
        Control::primary(Command::AttachLog(card).into(), say!(context.locale, "log-attach")).icon(Icon::Tick);
    Screen {
        foot: vec![attach],
        ..context.screen("log-offer", picked.name.as_str(), Some(say!(context.locale, "log-log")), blocks)
    }
}

fn column_blocks(
    context: &Context<'_>,
    map: &ColumnMap,
    column: u32,
    header: &crate::telemetry::Header,
    blocks: &mut Vec<Block>,
) {
    let mapped = map.columns.iter().find(|mapped| mapped.column == column);
    let unit = if header.unit_text.is_empty() { String::new() } else { format!(" [{}]", header.unit_text) };
    blocks.push(heading(
        format!("{}{unit}", header.name),
        header.samples.first().map(|s| say!(context.locale, "log-begins", sample = s)),
    ));
    let choose = |field: String, id: String, label: &str, chosen: bool| {
        Control::new(Command::Set(field, id).into(), label).chosen(chosen)
    };
    let mut options = vec![choose(
        quantity_field(column),
        LEAVE_OUT.to_owned(),
        &say!(context.locale, "log-leave-out"),
        mapped.is_none(),
    )];
    options.extend(Quantity::ALL.into_iter().filter(|q| *q != Quantity::Time).map(|quantity| {
        let chosen = mapped.is_some_and(|mapped| mapped.quantity == quantity);
        choose(quantity_field(column), id_of(quantity), &quantity.word(context.locale), chosen)
    }));
    blocks.push(Block::Choice { label: say!(context.locale, "log-column", column = column + 1), options });
    let Some(mapped) = mapped else { return };
    if mapped.quantity.units().len() > 1 {
        let units = mapped.quantity.units().iter();
        let options =
            units.map(|u| choose(unit_field(column), id_of(*u), &u.word(context.locale), mapped.unit == *u));
        blocks.push(Block::Choice {
            label: say!(context.locale, "log-unit-of-column", column = column + 1),
            options: options.collect(),
        });
    }
    if mapped.quantity == Quantity::HeadSpeed {
        let gear = context.ledger.aircraft.figure("gear-ratio");
        let known = Some(1.0 / mapped.ratio).filter(|turns| (turns - 1.0).abs() > 1e-9);
        let mut entry = context.number_entry(
            &turns_field(column),
            &turns_label(context.locale),
            Unit::Ratio,
            TURNS,
            known.or(Some(1.0)),
        );
        if let Block::Entry { hint, .. } = &mut entry {
            let motor = gear.map_or_else(String::new, |turns| {
                say!(context.locale, "log-turns-motor", turns = context.locale.plain(turns))
            });
            *hint = Some(say!(context.locale, "log-turns-hint", motor = motor));
        }
        blocks.push(entry);
    }
    if mapped.quantity == Quantity::Temperature {
        let places = context.plan.places.iter();
        let options =
            places.map(|p| choose(place_field(column), p.id.clone(), &p.title, mapped.place.as_ref() == Some(&p.id)));
        blocks.push(Block::Choice {
            label: say!(context.locale, "log-where-column", column = column + 1),
            options: options.collect(),
        });
    }
}

/// The log of a flight: its plot, and its figures, each of which shows where it comes from.
pub(super) fn review(context: &Context<'_>, card: EntryId) -> Screen {
    let Some(flight) = context.ledger.flight(card) else { return context.gone("review") };
    let title =
        context.plan.check(&flight.check).map_or_else(|| flight.check.clone(), |(_, check)| check.title.clone());
    let above = Some(title);
    let Some(log) = log_of(context.entries, card) else {
        let words = say!(context.locale, "log-none-attached-yet");
        let mut blocks = vec![paragraph(words, Tone::Plain)];
        blocks.extend(super::compared::blocks(context, flight, None));
        blocks.extend(further(context));
        return Screen {
            foot: vec![a_log_file(card, say!(context.locale, "log-pick"))],
            ..context.screen("review", say!(context.locale, "log-review"), above, blocks)
        };
    };
    let mut blocks = vec![verdict(context, log)];
    blocks.extend(plot_blocks(context, &Place::Review(card)));
    blocks.extend(super::compared::blocks(context, flight, Some(log)));
    blocks.push(heading(say!(context.locale, "log-says"), Some(say!(context.locale, "log-touch-one"))));
    // What is past its limit first, then what has one; figures are named by their place in the log all the same.
    let mut figures: Vec<(u32, &LogFigure)> = (0..).zip(&log.figures).collect();
    figures.sort_by_key(|(_, figure)| std::cmp::Reverse(figure.grade));
    blocks.extend(figures.into_iter().map(|(index, figure)| figure_row(context, card, log, index, figure)));
    blocks.push(heading(say!(context.locale, "log-the-file"), Some(log.name.clone())));
    blocks.extend(file_rows(context, log));
    blocks.extend(further(context));
    let again = a_log_file(card, say!(context.locale, "log-pick-another")).weight(super::Weight::Quiet);
    Screen { foot: vec![again], ..context.screen("review", say!(context.locale, "log-review"), above, blocks) }
}

/// Where else to look.
fn further(context: &Context<'_>) -> [Block; 3] {
    [
        heading(say!(context.locale, "log-further"), None),
        super::trends::trends_row(context.locale),
        row(
            Edge::None,
            "",
            say!(context.locale, "log-another-day"),
            Some(say!(context.locale, "log-another-day-note")),
            Place::HotterDay,
        ),
    ]
}

fn edge_of(grade: Option<Grade>) -> Edge {
    match grade {
        None => Edge::None,
        Some(Grade::Ok) => Edge::Fresh,
        Some(Grade::Caution) => Edge::Caution,
        Some(Grade::Stop) => Edge::Stop,
    }
}

fn verdict(context: &Context<'_>, log: &AttachedLog) -> Block {
    let worst = log.figures.iter().filter_map(|figure| figure.grade).max();
    let past = log.figures.iter().filter(|figure| matches!(figure.grade, Some(Grade::Caution | Grade::Stop))).count();
    let text = match past {
        0 => say!(context.locale, "log-nothing-past"),
        _ => say!(context.locale, "log-past", count = past),
    };
    let missed = log.fault_count;
    let detail = say!(
        context.locale,
        "log-read-counts",
        rows = log.rows.imported,
        missed = missed,
        left_out = log.rows.left_out
    );
    Block::Verdict { text, detail: Some(detail), edge: edge_of(worst) }
}

fn kind_word(locale: Locale, kind: FigureKind) -> String {
    match kind {
        FigureKind::FlightTime => say!(locale, "log-figure-time"),
        FigureKind::Peak => say!(locale, "log-figure-highest"),
        FigureKind::Lowest => say!(locale, "log-figure-lowest"),
        FigureKind::Average => say!(locale, "log-figure-mean"),
        FigureKind::HoverAverage => say!(locale, "log-figure-hover-mean"),
        FigureKind::PastLimit => say!(locale, "log-figure-past"),
        FigureKind::Charge => say!(locale, "log-figure-charge"),
        FigureKind::Energy => say!(locale, "log-figure-energy"),
        FigureKind::Resistance => say!(locale, "log-figure-resistance"),
        FigureKind::Sag => say!(locale, "log-figure-sag"),
        FigureKind::Ripple => say!(locale, "log-figure-ripple"),
        FigureKind::HeadSpeedError => say!(locale, "log-figure-speed-error"),
        FigureKind::HeadSpeedDroop => say!(locale, "log-figure-droop"),
        FigureKind::SteadyTemperature => say!(locale, "log-figure-settles"),
        FigureKind::TimeConstant => say!(locale, "log-figure-time-constant"),
        FigureKind::DropOut => say!(locale, "log-figure-drop-out"),
    }
}

fn figure_title(locale: Locale, log: &AttachedLog, figure: &LogFigure) -> String {
    let channel = figure.channel.and_then(|channel| log.map.columns.get(channel as usize));
    let word = kind_word(locale, figure.kind);
    channel.map_or(word.clone(), |channel| format!("{}, {word}", channel.label))
}

/// A figure in the unit that the person reads.
struct FigureWords {
    value: String,
    /// The half width of its interval, where it has one.
    width: Option<String>,
    unit: String,
}

impl FigureWords {
    /// All of it in one line.
    fn line(&self) -> String {
        let width = self.width.as_ref().map_or_else(String::new, |width| format!(" {width}"));
        format!("{}{width} {}", self.value, self.unit)
    }
}

/// The value, its interval and its unit. All are stored as the log keeps them.
fn figure_value(locale: Locale, figure: &LogFigure) -> FigureWords {
    let shown = LogUnit::of_text(&figure.unit).map(|unit| locale.shown_of_log(unit));
    let digits = |value: f64| match value.abs() {
        v if v >= 100.0 => locale.number(value, 0),
        v if v >= 10.0 => locale.number(value, 1),
        _ => locale.number(value, 2),
    };
    let value = shown.map_or(figure.value, |shown| shown.out(figure.value));
    let width = figure.half_width.map(|width| shown.map_or(width, |shown| shown.difference_out(width)));
    FigureWords {
        value: digits(value),
        width: width.map(|width| format!("± {}", digits(width))),
        unit: shown.map_or_else(|| figure.unit.clone(), |shown| shown.sign.to_owned()),
    }
}

/// What a person should know with a figure: the limit in the person's unit where one is stored, else the words that are.
fn note_words(locale: Locale, figure: &LogFigure) -> String {
    let Some(limit) = &figure.limit else { return figure.note.clone() };
    let shown = locale.shown_of_log(limit.quantity.unit());
    let value = super::plot::digits(locale, shown.out(limit.value));
    let value = crate::locale::with_sign(value, shown.sign);
    match limit.side {
        Side::Above => say!(locale, "log-past-above", limit = value, basis = limit.basis),
        Side::Below => say!(locale, "log-past-below", limit = value, basis = limit.basis),
    }
}

/// A figure of a log for a page.
pub(crate) struct LogLine {
    /// What it is.
    pub title: String,
    /// Its value with its interval and unit.
    pub value: String,
    /// What it was held against.
    pub note: String,
}

/// The figures of a log that have a limit or an interval, and what was taken from the pack.
pub(crate) fn log_lines(locale: Locale, log: &AttachedLog) -> Vec<LogLine> {
    let told = |figure: &&LogFigure| {
        let taken = matches!(figure.kind, FigureKind::Charge | FigureKind::Energy | FigureKind::HoverAverage);
        figure.grade.is_some() || figure.half_width.is_some() || taken
    };
    let line = |figure: &LogFigure| LogLine {
        title: figure_title(locale, log, figure),
        value: figure_value(locale, figure).line(),
        note: note_words(locale, figure),
    };
    log.figures.iter().filter(told).map(line).collect()
}

fn figure_row(context: &Context<'_>, card: EntryId, log: &AttachedLog, index: u32, figure: &LogFigure) -> Block {
    let title = figure_title(context.locale, log, figure);
    let value = figure_value(context.locale, figure).line();
    let note = note_words(context.locale, figure);
    let detail = if note.is_empty() { value } else { format!("{value}; {note}") };
    let state = match figure.grade {
        Some(Grade::Stop) => say!(context.locale, "log-state-stop"),
        Some(Grade::Caution) => say!(context.locale, "log-state-caution"),
        Some(Grade::Ok) => say!(context.locale, "log-state-within"),
        None => String::new(),
    };
    row(edge_of(figure.grade), state, &title, Some(detail), Place::LogFigure { card, figure: index })
}

/// A digest in groups of eight signs: whole it is wider than any phone.
fn in_groups(digest: &str) -> String {
    digest.as_bytes().chunks(8).map(String::from_utf8_lossy).collect::<Vec<_>>().join(" ")
}

fn file_rows(context: &Context<'_>, log: &AttachedLog) -> Vec<Block> {
    let rows = log.rows;
    let detail = say!(context.locale, "log-bytes", bytes = log.bytes, sha256 = in_groups(&log.sha256));
    let counts = say!(
        context.locale,
        "log-row-counts",
        found = rows.found,
        read = rows.imported,
        left_out = rows.left_out,
        repeated = rows.repeated,
        out_of_order = rows.out_of_order,
        restarts = rows.restarts
    );
    let mut blocks = vec![
        still_row(Edge::None, "", say!(context.locale, "log-kept"), Some(detail)),
        still_row(Edge::None, "", say!(context.locale, "log-rows"), Some(counts)),
    ];
    blocks.extend(
        log.faults.iter().map(|fault| still_row(Edge::Caution, say!(context.locale, "log-fault"), fault, None)),
    );
    blocks
}

/// A moment is shown with a quarter of its neighbourhood, never less than four seconds.
fn widened(span: Span) -> Span {
    let more_s = (0.25 * span.length_s()).max(2.0 - span.length_s() / 2.0).max(0.5);
    Span { start_s: span.start_s - more_s, end_s: span.end_s + more_s }
}

/// What of the log's plot is in view at a place.
pub(crate) fn plot_view(entries: &[Entry], place: &Place, form: Form<'_>, recording: &Recording) -> PlotView {
    let begin = match place {
        Place::LogFigure { card, figure } => log_of(entries, *card)
            .and_then(|log| log.figures.get(*figure as usize))
            .map(|figure| (widened(figure.span), figure.channel)),
        _ => None,
    };
    PlotView::of(form, recording, begin)
}

fn plot_blocks(context: &Context<'_>, place: &Place) -> Vec<Block> {
    let Some(open) = context.log else { return super::reading::instead_of_plot(context) };
    let view = plot_view(context.entries, place, context.form, &open.recording);
    let mut blocks = vec![super::plot::block(context.locale, &open.recording, &open.limits, &view)];
    blocks.extend(super::plot::channels(context.locale, &open.recording, &view));
    blocks
}

/// One figure of a log, with the stretch of the plot that it comes from.
pub(super) fn figure(context: &Context<'_>, card: EntryId, index: u32) -> Screen {
    let Some(log) = log_of(context.entries, card) else { return context.gone("log-figure") };
    let Some(figure) = log.figures.get(index as usize) else { return context.gone("log-figure") };
    let FigureWords { value, width, unit } = figure_value(context.locale, figure);
    let note = Some(note_words(context.locale, figure));
    let note: Vec<String> = width.into_iter().chain(note).filter(|n| !n.is_empty()).collect();
    let mut blocks = vec![Block::Figure {
        label: figure_title(context.locale, log, figure),
        value,
        unit,
        note: Some(note.join("; ")).filter(|note| !note.is_empty()),
        edge: edge_of(figure.grade),
    }];
    blocks.extend(plot_blocks(context, &Place::LogFigure { card, figure: index }));
    context.screen("log-figure", say!(context.locale, "log-where-from"), Some(log.name.clone()), blocks)
}

/// The row that leads to a flight's log.
pub(super) fn log_row(context: &Context<'_>, card: EntryId) -> Block {
    let log = log_of(context.entries, card);
    let detail = log.map_or_else(|| say!(context.locale, "log-none-attached"), |log| log.name.clone());
    row(Edge::None, "", say!(context.locale, "log-of-flight"), Some(detail), Place::Review(card))
}
