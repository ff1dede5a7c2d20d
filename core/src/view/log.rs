//! What a recorder's log says, with the plot of where each figure comes from.

use super::context::{heading, in_groups, paragraph, row, still_row};
use super::{Block, Context, Control, Document, Edge, Icon, Place, PlotView, Screen, Tone, Wanted};
use crate::engineering::Grade;
use crate::form::Drafts;
use crate::locale::{Locale, say};
use crate::readiness::Logs;
use crate::record::{AttachedLog, EntryId};
use crate::telemetry::summary::{FigureKind, LogFigure, Side};
use crate::telemetry::{LogUnit, Recording, Span};

/// Sends the person to the phone's picker for a log.
pub(super) fn a_log_file(card: EntryId, label: String) -> Control {
    let media_types = ["text/csv", "text/comma-separated-values", "text/plain", "*/*"].map(str::to_owned).to_vec();
    Control::primary(Wanted::Log(card).into(), label).icon(Icon::Book).document(Document::Pick { media_types })
}

/// The log of a flight: its plot, and its figures, each of which shows where it comes from.
pub(super) fn review(context: &Context<'_>, card: EntryId) -> Screen {
    let Some(flight) = context.ledger.flight(card) else { return context.gone("review") };
    let title =
        context.plan.check(&flight.check).map_or_else(|| flight.check.clone(), |(_, check)| check.title.clone());
    let above = Some(title);
    let Some(log) = context.ledger.logs.of_flight(card) else {
        let words = say!(context.locale, "log-none-attached-yet");
        let mut blocks = vec![paragraph(words, Tone::Plain)];
        blocks.extend(super::compared::blocks(context, flight));
        blocks.extend(further(context));
        return Screen {
            foot: vec![a_log_file(card, say!(context.locale, "log-pick"))],
            ..context.screen("review", say!(context.locale, "log-review"), above, blocks)
        };
    };
    let mut blocks = vec![verdict(context, log)];
    blocks.extend(plot_blocks(context, &Place::Review(card)));
    blocks.extend(super::compared::blocks(context, flight));
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
    let shown = LogUnit::of_text(&figure.unit).map(|unit| unit.shown_in(locale));
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
    let shown = limit.quantity.unit().shown_in(locale);
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
pub(crate) fn plot_view(logs: &Logs, place: &Place, form: Drafts<'_>, recording: &Recording) -> PlotView {
    let begin = match place {
        Place::LogFigure { card, figure } => logs
            .of_flight(*card)
            .and_then(|log| log.figures.get(*figure as usize))
            .map(|figure| (widened(figure.span), figure.channel)),
        _ => None,
    };
    PlotView::of(form, recording, begin)
}

fn plot_blocks(context: &Context<'_>, place: &Place) -> Vec<Block> {
    let Some(open) = context.log else { return super::waiting::instead_of_plot(context) };
    let view = plot_view(&context.ledger.logs, place, context.form, open.recording);
    let mut blocks = vec![super::plot::block(context.locale, open.recording, open.limits, &view)];
    blocks.extend(super::plot::channels(context.locale, open.recording, &view));
    blocks
}

/// One figure of a log, with the stretch of the plot that it comes from.
pub(super) fn figure(context: &Context<'_>, card: EntryId, index: u32) -> Screen {
    let Some(log) = context.ledger.logs.of_flight(card) else { return context.gone("log-figure") };
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
    let log = context.ledger.logs.of_flight(card);
    let detail = log.map_or_else(|| say!(context.locale, "log-none-attached"), |log| log.name.clone());
    row(Edge::None, "", say!(context.locale, "log-of-flight"), Some(detail), Place::Review(card))
}
