//! A recorder's log: its columns named by the person, then what it says, with the plot of where each figure comes from.

use super::chart::Sheet;
use super::context::{heading, paragraph, row, still_row};
use super::{
    Anchor, Block, Command, Context, Control, Document, Edge, Icon, Ink, LabelSize, Picture, Place, Screen, Tone,
};
use crate::desk::{Form, MOST_LOG_BYTES};
use crate::engineering::Grade;
use crate::record::{AttachedLog, Body, Entry, EntryId, show};
use crate::telemetry::plot::line;
use crate::telemetry::summary::{FigureKind, LogFigure};
use crate::telemetry::{ColumnMap, Layout, MappedColumn, Quantity, Recording, Span, TimeForm};

/// The field of the window in view: its start and end in s, and the channel that the touched figure is of.
const WINDOW: &str = "window";
/// The field of how the time is written.
const TIME: &str = "time";
/// What a column is when it is not read.
const LEAVE_OUT: &str = "none";
/// Columns that can be named one by one on a phone; further ones keep what is suggested.
const NAMED: usize = 40;
/// Columns of pixels of a plot: more than a phone's screen has.
const PIXELS: u32 = 1_440;

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
        if let Some(place) = form.text(&place_field(column)) {
            mapped.place = Some(place.to_owned()).filter(|_| mapped.quantity == Quantity::Temperature);
        }
    }
    map.columns.sort_by_key(|mapped| mapped.column);
    map
}

fn a_log_file(card: EntryId, label: &str) -> Control {
    let media_types = ["text/csv", "text/comma-separated-values", "text/plain", "*/*"].map(str::to_owned).to_vec();
    Control::primary(Command::PickLog(card).into(), label)
        .icon(Icon::Book)
        .document(Document::Pick { media_types, most_bytes: MOST_LOG_BYTES })
}

/// A file that was picked: what its columns are.
pub(super) fn offer(context: &Context<'_>, card: EntryId) -> Screen {
    let Some(picked) = context.picked_log.filter(|picked| picked.card == card) else {
        let words = "The file is no longer at hand. Nothing was recorded of it.";
        let blocks = vec![paragraph(words, Tone::Plain)];
        let foot = vec![a_log_file(card, "Pick it again")];
        return Screen { foot, ..context.screen("log-offer", "Log", None, blocks) };
    };
    let layout = &picked.layout;
    let map = named_columns(context.entries, layout, context.form);
    let known = known_map(context.entries, layout).is_some();
    let text = if known { "This kind of file is known." } else { "Say once what its columns are." };
    let detail = "Columns that are left out are not read. The file itself is kept whole.".to_owned();
    let mut blocks = vec![Block::Verdict { text: text.to_owned(), detail: Some(detail), edge: Edge::None }];
    if let Some(column) = map.time_column {
        let name = layout.headers.get(column as usize).map_or("", |header| header.name.as_str());
        let options = TimeForm::WRITTEN.map(|form| {
            let set = Command::Set(TIME.to_owned(), id_of(form));
            Control::new(set.into(), form.word()).chosen(map.time_form == form)
        });
        blocks.push(Block::Choice {
            label: format!("Time, column {} ({name})", column + 1),
            options: options.to_vec(),
        });
    } else {
        blocks.push(still_row(
            Edge::Caution,
            "Guess",
            "No column holds the time",
            Some("Rows are taken 0.1 s apart".to_owned()),
        ));
    }
    for (column, header) in (0_u32..).zip(&layout.headers).take(NAMED) {
        if Some(column) != map.time_column {
            column_blocks(context, &map, column, header, &mut blocks);
        }
    }
    let attach = Control::primary(Command::AttachLog(card).into(), "Attach this log").icon(Icon::Tick);
    Screen { foot: vec![attach], ..context.screen("log-offer", picked.name.as_str(), Some("Log".to_owned()), blocks) }
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
    blocks.push(heading(format!("{}{unit}", header.name), header.samples.first().map(|s| format!("begins {s}"))));
    let choose = |field: String, id: String, label: &str, chosen: bool| {
        Control::new(Command::Set(field, id).into(), label).chosen(chosen)
    };
    let mut options = vec![choose(quantity_field(column), LEAVE_OUT.to_owned(), "Leave out", mapped.is_none())];
    options.extend(Quantity::ALL.into_iter().filter(|q| *q != Quantity::Time).map(|quantity| {
        let chosen = mapped.is_some_and(|mapped| mapped.quantity == quantity);
        choose(quantity_field(column), id_of(quantity), quantity.word(), chosen)
    }));
    blocks.push(Block::Choice { label: format!("Column {}", column + 1), options });
    let Some(mapped) = mapped else { return };
    if mapped.quantity.units().len() > 1 {
        let units = mapped.quantity.units().iter();
        let options = units.map(|u| {
            choose(
                unit_field(column),
                id_of(*u),
                if u.sign().is_empty() { "ratio" } else { u.sign() },
                mapped.unit == *u,
            )
        });
        blocks.push(Block::Choice { label: format!("Unit of column {}", column + 1), options: options.collect() });
    }
    if mapped.quantity == Quantity::Temperature {
        let places = context.plan.places.iter();
        let options =
            places.map(|p| choose(place_field(column), p.id.clone(), &p.title, mapped.place.as_ref() == Some(&p.id)));
        blocks.push(Block::Choice {
            label: format!("Where column {} is measured", column + 1),
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
        let words = "No log is attached to this flight. Any table of text that a recorder wrote will do.";
        let blocks = vec![paragraph(words, Tone::Plain)];
        return Screen {
            foot: vec![a_log_file(card, "Pick a log")],
            ..context.screen("review", "Log", above, blocks)
        };
    };
    let mut blocks = vec![verdict(log)];
    blocks.extend(predicted(flight, log));
    let window = window(context.form, context.log);
    if let (Some(recording), Some((window, channel))) = (context.log, window) {
        blocks.push(Block::Drawing { picture: plot(recording, window, channel) });
        blocks.push(window_controls(recording, window, channel));
    }
    blocks.push(heading("What it says", Some("touch one to see where".to_owned())));
    blocks.extend(log.figures.iter().map(|figure| figure_row(log, figure)));
    blocks.push(heading("The file", Some(log.name.clone())));
    blocks.extend(file_rows(log));
    let again = a_log_file(card, "Pick another log").weight(super::Weight::Quiet);
    Screen { foot: vec![again], ..context.screen("review", "Log", above, blocks) }
}

fn edge_of(grade: Option<Grade>) -> Edge {
    match grade {
        None => Edge::None,
        Some(Grade::Ok) => Edge::Fresh,
        Some(Grade::Caution) => Edge::Caution,
        Some(Grade::Stop) => Edge::Stop,
    }
}

fn verdict(log: &AttachedLog) -> Block {
    let worst = log.figures.iter().filter_map(|figure| figure.grade).max();
    let past = log.figures.iter().filter(|figure| matches!(figure.grade, Some(Grade::Caution | Grade::Stop))).count();
    let text = match past {
        0 => "Nothing in this log is past its limit.".to_owned(),
        _ => format!("{} past a limit.", super::counted(past, "figure is", "figures are")),
    };
    let missed = log.fault_count;
    let detail = format!("{} rows read, {missed} faults, {} rows left out", log.rows.imported, log.rows.left_out);
    Block::Verdict { text, detail: Some(detail), edge: edge_of(worst) }
}

/// What the flight was expected to take, beside what the log counted.
fn predicted(flight: &crate::field::Flight, log: &AttachedLog) -> Option<Block> {
    let prediction = flight.prediction.as_ref()?;
    let charge = log.figures.iter().find(|figure| figure.kind == FigureKind::Charge)?;
    let inside = (prediction.low_mah..=prediction.high_mah).contains(&charge.value);
    let (edge, state) = if inside { (Edge::Fresh, "As predicted") } else { (Edge::Caution, "Not as predicted") };
    let detail = format!(
        "{:.0} mAh predicted for the planned time, {:.0} to {:.0}; the log counted {:.0}",
        prediction.used_mah, prediction.low_mah, prediction.high_mah, charge.value
    );
    Some(still_row(edge, state, "Charge, predicted and logged", Some(detail)))
}

fn kind_word(kind: FigureKind) -> &'static str {
    match kind {
        FigureKind::FlightTime => "Time in flight",
        FigureKind::Peak => "highest",
        FigureKind::Lowest => "lowest",
        FigureKind::Average => "mean in flight",
        FigureKind::HoverAverage => "mean in hover",
        FigureKind::PastLimit => "time past its limit",
        FigureKind::Charge => "Charge taken in flight",
        FigureKind::Energy => "Energy taken in flight",
        FigureKind::Resistance => "Resistance of pack and leads",
        FigureKind::Sag => "Voltage lost under load",
        FigureKind::Ripple => "Ripple",
        FigureKind::HeadSpeedError => "in hover, against what was set",
        FigureKind::HeadSpeedDroop => "deepest fall under load",
        FigureKind::SteadyTemperature => "would settle at",
        FigureKind::TimeConstant => "time constant",
        FigureKind::DropOut => "Nothing recorded",
    }
}

fn figure_row(log: &AttachedLog, figure: &LogFigure) -> Block {
    let channel = figure.channel.and_then(|channel| log.map.columns.get(channel as usize));
    let word = kind_word(figure.kind);
    let title = channel.map_or_else(|| word.to_owned(), |channel| format!("{}, {word}", channel.label));
    let digits = |value: f64| match value.abs() {
        v if v >= 100.0 => format!("{value:.0}"),
        v if v >= 10.0 => format!("{value:.1}"),
        _ => format!("{value:.2}"),
    };
    let width = figure.half_width.map_or_else(String::new, |width| format!(" ± {}", digits(width)));
    let value = format!("{}{width} {}", digits(figure.value), figure.unit);
    let detail = if figure.note.is_empty() { value.clone() } else { format!("{value}; {}", figure.note) };
    let state = match figure.grade {
        Some(Grade::Stop) => "Stop",
        Some(Grade::Caution) => "Caution",
        Some(Grade::Ok) => "Within",
        None => "",
    };
    let set = Command::Set(WINDOW.to_owned(), window_text(widened(figure.span), figure.channel));
    let control = Control::new(set.into(), title.clone()).icon(Icon::Next).spoken(format!("{title}. {detail}"));
    Block::Row {
        edge: edge_of(figure.grade),
        state: state.to_owned(),
        title,
        detail: Some(detail),
        control: Some(control),
    }
}

fn file_rows(log: &AttachedLog) -> Vec<Block> {
    let rows = log.rows;
    let detail = format!("{} bytes, SHA-256 {}", log.bytes, log.sha256);
    let counts = format!(
        "{} found, {} read, {} left out, {} repeated, {} out of order, {} restarts",
        rows.found, rows.imported, rows.left_out, rows.repeated, rows.out_of_order, rows.restarts
    );
    let mut blocks = vec![
        still_row(Edge::None, "", "Kept as it was", Some(detail)),
        still_row(Edge::None, "", "Rows", Some(counts)),
    ];
    blocks.extend(log.faults.iter().map(|fault| still_row(Edge::Caution, "Fault", fault, None)));
    blocks
}

/// A moment is shown with a quarter of its neighbourhood, never less than four seconds.
fn widened(span: Span) -> Span {
    let more_s = (0.25 * span.length_s()).max(2.0 - span.length_s() / 2.0).max(0.5);
    Span { start_s: span.start_s - more_s, end_s: span.end_s + more_s }
}

fn window_text(window: Span, channel: Option<u32>) -> String {
    let channel = channel.map_or_else(|| "-".to_owned(), |channel| channel.to_string());
    format!("{:.3} {:.3} {channel}", window.start_s, window.end_s)
}

/// The window in view: the form's, or the whole log.
fn window(form: Form<'_>, recording: Option<&Recording>) -> Option<(Span, Option<u32>)> {
    let whole = recording?.span();
    let kept = form.text(WINDOW).and_then(|text| {
        let parts: Vec<&str> = text.split(' ').collect();
        let [start, end, channel] = parts[..] else { return None };
        Some((Span { start_s: start.parse().ok()?, end_s: end.parse().ok()? }, channel.parse().ok()))
    });
    Some(kept.filter(|(window, _)| window.length_s() > 0.0).unwrap_or((whole, None)))
}

fn window_controls(recording: &Recording, window: Span, channel: Option<u32>) -> Block {
    let (whole, length_s) = (recording.span(), window.length_s());
    let middle_s = 0.5 * (window.start_s + window.end_s);
    let at =
        |middle_s: f64, length_s: f64| Span { start_s: middle_s - length_s / 2.0, end_s: middle_s + length_s / 2.0 };
    let options = [
        ("Closer", at(middle_s, (length_s / 2.0).max(4.0 * recording.step_s).max(0.1))),
        ("Wider", at(middle_s, (2.0 * length_s).min(2.0 * whole.length_s()))),
        ("Earlier", at(middle_s - length_s / 2.0, length_s)),
        ("Later", at(middle_s + length_s / 2.0, length_s)),
        ("All of it", whole),
    ];
    let control = |(label, window): (&str, Span)| {
        Control::new(Command::Set(WINDOW.to_owned(), window_text(window, channel)).into(), label)
    };
    Block::Choice { label: "Plot".to_owned(), options: options.map(control).to_vec() }
}

/// Which channels are plotted: the touched figure's first, then what matters most of a flight.
fn plotted(recording: &Recording, first: Option<u32>) -> Vec<u32> {
    let order = [Quantity::PackCurrent, Quantity::PackVoltage, Quantity::HeadSpeed, Quantity::Temperature];
    let place = |quantity| recording.channels.iter().position(|c| c.mapped.quantity == quantity);
    let mut channels: Vec<u32> = first.into_iter().collect();
    channels.extend(order.into_iter().filter_map(place).filter_map(|at| u32::try_from(at).ok()));
    channels.extend((0..).take(recording.channels.len()));
    let mut seen = Vec::new();
    channels.retain(|channel| {
        !seen.contains(channel) && {
            seen.push(*channel);
            true
        }
    });
    channels.truncate(4);
    channels
}

/// Channels one below the other, each over its own range, in the geometry that the core makes of all samples.
pub(crate) fn plot(recording: &Recording, window: Span, first: Option<u32>) -> Picture {
    const PANE: f32 = 84.0;
    let (left, right) = (8.0_f32, Sheet::WIDTH - 8.0);
    let mut sheet = Sheet::new();
    let mut spoken = Vec::new();
    let mut top = 6.0;
    for channel in plotted(recording, first) {
        let Some(mapped) = recording.channels.get(channel as usize).map(|channel| &channel.mapped) else { continue };
        let unit = mapped.quantity.unit().sign();
        let Some(drawn) = line(recording, channel, window, PIXELS) else {
            sheet.label(
                left,
                top + 12.0,
                format!("{}: nothing here", mapped.label),
                Ink::Quiet,
                LabelSize::Small,
                Anchor::Start,
            );
            top += 20.0;
            continue;
        };
        let range = (drawn.greatest - drawn.least).max(1e-9);
        let words =
            format!("{} {} to {} {unit}", mapped.label, show(round(drawn.least)), show(round(drawn.greatest)));
        sheet.label(left, top + 10.0, words.clone(), Ink::Strong, LabelSize::Small, Anchor::Start);
        spoken.push(words);
        let x = |time_s: f64| {
            (left + (right - left) * ((time_s - window.start_s) / window.length_s()) as f32).clamp(left, right)
        };
        let y = |value: f64| top + 16.0 + (PANE - 24.0) * (1.0 - ((value - drawn.least) / range) as f32);
        for stroke in &drawn.strokes {
            let points: Vec<(f32, f32)> = stroke.iter().map(|point| (x(point.time_s), y(point.value))).collect();
            sheet.line(Ink::Strong, 1.0, &points);
        }
        top += PANE;
    }
    sheet.line(Ink::Quiet, 1.0, &[(left, top), (right, top)]);
    let clock = |s: f64| super::clock(s.max(0.0).round() as i64);
    sheet.label(left, top + 12.0, clock(window.start_s), Ink::Quiet, LabelSize::Small, Anchor::Start);
    sheet.label(right, top + 12.0, clock(window.end_s), Ink::Quiet, LabelSize::Small, Anchor::End);
    let spoken = format!("From {} to {}: {}", clock(window.start_s), clock(window.end_s), spoken.join("; "));
    sheet.finish(top + 18.0, spoken)
}

fn round(value: f64) -> f64 {
    if value.abs() >= 100.0 { value.round() } else { (value * 100.0).round() / 100.0 }
}

/// The row that leads to a flight's log.
pub(super) fn log_row(context: &Context<'_>, card: EntryId) -> Block {
    let log = log_of(context.entries, card);
    let detail = log.map_or_else(|| "none attached".to_owned(), |log| log.name.clone());
    row(Edge::None, "", "Log of this flight", Some(detail), Place::Review(card))
}
