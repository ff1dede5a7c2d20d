//! A log that was picked: what its columns are, as a list, and a page for each that is not what it is taken for.

use std::collections::BTreeMap;

use super::context::{heading, paragraph, row};
use super::{Block, Command, Context, Control, Edge, Icon, Place, Screen, Tone, Weight};
use crate::form::{Drafts, Refusal};
use crate::locale::{Locale, say};
use crate::readiness::Logs;
use crate::record::EntryId;
use crate::telemetry::{ColumnMap, Header, Layout, MappedColumn, Quantity, TimeForm};
use crate::unit::Unit;

/// The field of how the time is written.
const TIME_FORM: &str = "time";
/// The field of how far apart rows are, where no column is the time.
const PERIOD: &str = "period";
/// What a column is when it is not read.
pub(crate) const LEAVE_OUT: &str = "none";
/// Columns that are listed on a phone; further ones keep what is suggested.
const LISTED: usize = 200;
/// Plausible turns of a motor for one of the rotor, inclusive.
const TURNS: (f64, f64) = (0.05, 50.0);
/// Plausible seconds from row to row, inclusive.
const PERIODS_S: (f64, f64) = (0.001, 60.0);
/// What is taken for it until the person says.
const PERIOD_S: f64 = 0.1;

const QUANTITY_PREFIX: &str = "column:";

/// The field that says what a column is.
pub(crate) fn quantity_field(column: u32) -> String {
    format!("{QUANTITY_PREFIX}{column}")
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

fn id_of<T: serde::Serialize>(of: T) -> String {
    serde_json::to_value(of).ok().and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}

/// Which columns are no longer the time once this field says so of another one: only one can be.
pub(crate) fn no_longer_time(field: &str, text: &str, drafts: &BTreeMap<String, String>) -> Vec<String> {
    if !field.starts_with(QUANTITY_PREFIX) || text != id_of(Quantity::Time) {
        return Vec::new();
    }
    let others = drafts
        .iter()
        .filter(|(other, was)| other.starts_with(QUANTITY_PREFIX) && other.as_str() != field && was.as_str() == text);
    others.map(|(other, _)| other.clone()).collect()
}

fn turns(form: Drafts<'_>, column: u32) -> Result<Option<f64>, Refusal> {
    form.number(&turns_field(column), &say!(form.locale(), "log-turns"), Unit::Ratio, TURNS)
}

fn period(form: Drafts<'_>) -> Result<Option<f64>, Refusal> {
    form.number(PERIOD, &say!(form.locale(), "log-period"), Unit::Second, PERIODS_S)
}

/// Whether what was typed about the columns can be read.
///
/// # Errors
/// Refused where a number is none, or outside of what can be.
pub(crate) fn check_typed(form: Drafts<'_>, map: &ColumnMap) -> Result<(), Refusal> {
    for mapped in map.columns.iter().filter(|mapped| mapped.quantity == Quantity::HeadSpeed) {
        turns(form, mapped.column)?;
    }
    if map.time_column.is_none() {
        period(form)?;
    }
    Ok(())
}

/// The columns as they stand in the form: what was known or suggested, changed by what was chosen.
pub(crate) fn named_columns(logs: &Logs, layout: &Layout, form: Drafts<'_>) -> ColumnMap {
    let mut map = logs.columns_under(&layout.fingerprint).cloned().unwrap_or_else(|| layout.suggest());
    for (column, header) in (0_u32..).zip(&layout.headers) {
        name_column(&mut map, column, header, form);
    }
    name_time(&mut map, layout, form);
    map.columns.sort_by_key(|mapped| mapped.column);
    map
}

fn name_column(map: &mut ColumnMap, column: u32, header: &Header, form: Drafts<'_>) {
    if let Some(chosen) = form.text(&quantity_field(column)) {
        map.columns.retain(|mapped| mapped.column != column);
        map.time_column = map.time_column.filter(|time| *time != column);
        let named = Quantity::ALL.into_iter().find(|quantity| id_of(*quantity) == chosen);
        if let Some(quantity) = named.filter(|quantity| *quantity != Quantity::Time) {
            let unit = header.unit.filter(|unit| quantity.units().contains(unit)).unwrap_or(quantity.unit());
            let label = header.name.clone();
            map.columns.push(MappedColumn { column, label, quantity, unit, place: None, ratio: 1.0 });
        }
    }
    let Some(mapped) = map.columns.iter_mut().find(|mapped| mapped.column == column) else { return };
    let unit = form.text(&unit_field(column));
    if let Some(unit) = mapped.quantity.units().iter().find(|u| Some(id_of(**u).as_str()) == unit) {
        mapped.unit = *unit;
    }
    if let (Quantity::HeadSpeed, Ok(Some(turns))) = (mapped.quantity, turns(form, column)) {
        mapped.ratio = 1.0 / turns;
    }
    if let Some(place) = form.text(&place_field(column)) {
        mapped.place = Some(place.to_owned()).filter(|_| mapped.quantity == Quantity::Temperature);
    }
}

/// Which column is the time, and how it is written; or how far apart rows are.
fn name_time(map: &mut ColumnMap, layout: &Layout, form: Drafts<'_>) {
    let time = id_of(Quantity::Time);
    let is_named_time = |column: &u32| form.text(&quantity_field(*column)) == Some(time.as_str());
    let named = (0_u32..).zip(&layout.headers).map(|(column, _)| column).find(is_named_time);
    if let Some(column) = named.filter(|column| map.time_column != Some(*column)) {
        map.time_column = Some(column);
        map.time_form = layout.time_form_of(column).unwrap_or(TimeForm::Seconds);
    }
    let Some(column) = map.time_column else {
        let before = match map.time_form {
            TimeForm::EveryRow { period_s } => period_s,
            _ => PERIOD_S,
        };
        map.time_form = TimeForm::EveryRow { period_s: period(form).ok().flatten().unwrap_or(before) };
        return;
    };
    map.columns.retain(|mapped| mapped.column != column);
    let chosen = form.text(TIME_FORM);
    if let Some(form) = layout.time_forms(column).into_iter().find(|form| Some(id_of(*form).as_str()) == chosen) {
        map.time_form = form;
    }
}

/// A file that was picked: what its columns are, each a row that leads to its page.
pub(super) fn offer(context: &Context<'_>, card: EntryId) -> Screen {
    let Some(picked) = context.picked_log.filter(|picked| picked.card == card) else {
        let words = say!(context.locale, "log-file-gone");
        let blocks = vec![paragraph(words, Tone::Plain)];
        let foot = vec![super::log::a_log_file(card, say!(context.locale, "log-pick-again"))];
        return Screen { foot, ..context.screen("log-offer", say!(context.locale, "log-log"), None, blocks) };
    };
    let layout = &picked.layout;
    let map = named_columns(&context.ledger.logs, layout, context.form);
    let known = context.ledger.logs.columns_under(&layout.fingerprint).is_some();
    let text = if known { say!(context.locale, "log-known") } else { say!(context.locale, "log-say-once") };
    let detail = say!(context.locale, "log-left-out-note");
    let mut blocks = vec![Block::Verdict { text, detail: Some(detail), edge: Edge::None }];
    if map.time_column.is_none() {
        let label = say!(context.locale, "log-period");
        let TimeForm::EveryRow { period_s } = map.time_form else { return context.gone("log-offer") };
        let mut entry = context.number_entry(PERIOD, &label, Unit::Second, PERIODS_S, Some(period_s));
        if let Block::Entry { hint, .. } = &mut entry {
            *hint = Some(say!(context.locale, "log-no-time"));
        }
        blocks.push(entry);
    }
    let is_read =
        |column: u32| map.time_column == Some(column) || map.columns.iter().any(|mapped| mapped.column == column);
    let columns = (0_u32..).zip(&layout.headers).take(LISTED);
    let (read, left): (Vec<_>, Vec<_>) = columns.partition(|(column, _)| is_read(*column));
    let mut list = |title: String, columns: Vec<(u32, &Header)>| {
        if columns.is_empty() {
            return;
        }
        blocks.push(heading(title, Some(say!(context.locale, "log-columns", count = columns.len()))));
        blocks.extend(columns.into_iter().map(|(column, header)| column_row(context, card, &map, column, header)));
    };
    list(say!(context.locale, "log-columns-read"), read);
    list(say!(context.locale, "log-columns-left"), left);
    let attach =
        Control::primary(Command::AttachLog(card).into(), say!(context.locale, "log-attach")).icon(Icon::Tick);
    Screen {
        foot: vec![attach],
        ..context.screen("log-offer", picked.name, Some(say!(context.locale, "log-log")), blocks)
    }
}

fn header_words(header: &Header) -> String {
    match header.unit_text.as_str() {
        "" => header.name.clone(),
        unit => format!("{} [{unit}]", header.name),
    }
}

fn begins(locale: Locale, header: &Header) -> Option<String> {
    header.samples.first().map(|sample| say!(locale, "log-begins", sample = sample))
}

/// What a column is taken for, and how it begins.
fn column_row(context: &Context<'_>, card: EntryId, map: &ColumnMap, column: u32, header: &Header) -> Block {
    let locale = context.locale;
    let mapped = map.columns.iter().find(|mapped| mapped.column == column);
    let mut details: Vec<String> = Vec::new();
    let state = match mapped {
        _ if map.time_column == Some(column) => {
            details.push(map.time_form.word(locale));
            Quantity::Time.word(locale)
        }
        Some(mapped) => {
            let unit = mapped.unit.word(locale);
            details.extend(Some(unit).filter(|unit| !unit.is_empty()));
            let place = context.plan.places.iter().find(|place| mapped.place.as_ref() == Some(&place.id));
            details.extend(place.map(|place| place.title.clone()));
            let turns = Some(1.0 / mapped.ratio).filter(|turns| (turns - 1.0).abs() > 1e-9);
            details.extend(turns.map(|turns| say!(locale, "log-turns-named", turns = locale.plain(turns))));
            if mapped.quantity == Quantity::Temperature && place.is_none() {
                details.push(say!(locale, "log-no-place"));
            }
            mapped.quantity.word(locale)
        }
        None => String::new(),
    };
    details.extend(begins(locale, header));
    let place = Place::LogColumn { card, column };
    row(Edge::None, state, header_words(header), Some(details.join(", ")).filter(|words| !words.is_empty()), place)
}

/// One column: what it is, in which unit, of which place.
pub(super) fn column(context: &Context<'_>, card: EntryId, column: u32) -> Screen {
    let picked = context.picked_log.filter(|picked| picked.card == card);
    let Some((picked, header)) =
        picked.and_then(|picked| Some((picked, picked.layout.headers.get(column as usize)?)))
    else {
        return context.gone("log-column");
    };
    let map = named_columns(&context.ledger.logs, &picked.layout, context.form);
    let mapped = map.columns.iter().find(|mapped| mapped.column == column);
    let is_time = map.time_column == Some(column);
    let mut blocks = Vec::new();
    if !header.samples.is_empty() {
        let samples = header.samples.join("  ");
        blocks.push(paragraph(say!(context.locale, "log-begins", sample = samples), Tone::Plain));
    }
    blocks.push(what_it_is(context, column, mapped, is_time));
    if is_time {
        blocks.push(how_time_is_written(context, picked.layout, &map, column));
    }
    if let Some(mapped) = mapped {
        more_of(context, mapped, &mut blocks);
    }
    let done = Control::new(Command::Back.into(), say!(context.locale, "log-column-done")).icon(Icon::Tick);
    Screen {
        foot: vec![done.weight(Weight::Primary)],
        ..context.screen("log-column", header_words(header), Some(picked.name.to_owned()), blocks)
    }
}

fn choose(field: String, id: String, label: impl Into<String>, chosen: bool) -> Control {
    Control::new(Command::Set(field, id).into(), label).chosen(chosen)
}

fn what_it_is(context: &Context<'_>, column: u32, mapped: Option<&MappedColumn>, is_time: bool) -> Block {
    let out = say!(context.locale, "log-leave-out");
    let mut options = vec![choose(quantity_field(column), LEAVE_OUT.to_owned(), out, mapped.is_none() && !is_time)];
    options.extend(Quantity::ALL.into_iter().map(|quantity| {
        let chosen = match quantity {
            Quantity::Time => is_time,
            _ => mapped.is_some_and(|mapped| mapped.quantity == quantity),
        };
        choose(quantity_field(column), id_of(quantity), quantity.word(context.locale), chosen)
    }));
    Block::Choice { label: say!(context.locale, "log-column", column = column + 1), options }
}

/// Only the forms in which the column can be read.
fn how_time_is_written(context: &Context<'_>, layout: &Layout, map: &ColumnMap, column: u32) -> Block {
    let mut forms = layout.time_forms(column);
    if !forms.contains(&map.time_form) {
        forms.push(map.time_form);
    }
    let options = forms
        .into_iter()
        .map(|form| choose(TIME_FORM.to_owned(), id_of(form), form.word(context.locale), map.time_form == form));
    Block::Choice { label: say!(context.locale, "log-time-written"), options: options.collect() }
}

/// The unit, the turns of a head speed, the place of a temperature.
fn more_of(context: &Context<'_>, mapped: &MappedColumn, blocks: &mut Vec<Block>) {
    let column = mapped.column;
    if mapped.quantity.units().len() > 1 {
        let units = mapped.quantity.units().iter();
        let options = units.map(|u| choose(unit_field(column), id_of(*u), u.word(context.locale), mapped.unit == *u));
        let label = say!(context.locale, "log-unit-of-column", column = column + 1);
        blocks.push(Block::Choice { label, options: options.collect() });
    }
    if mapped.quantity == Quantity::HeadSpeed {
        blocks.push(turns_entry(context, mapped));
    }
    if mapped.quantity == Quantity::Temperature {
        let places = context.plan.places.iter();
        let options = places.map(|place| {
            choose(place_field(column), place.id.clone(), &place.title, mapped.place.as_ref() == Some(&place.id))
        });
        let label = say!(context.locale, "log-where-column", column = column + 1);
        blocks.push(Block::Choice { label, options: options.collect() });
    }
}

fn turns_entry(context: &Context<'_>, mapped: &MappedColumn) -> Block {
    let gear = context.ledger.aircraft.figure("gear-ratio");
    let known = Some(1.0 / mapped.ratio).filter(|turns| (turns - 1.0).abs() > 1e-9);
    let label = say!(context.locale, "log-turns");
    let field = turns_field(mapped.column);
    let mut entry = context.number_entry(&field, &label, Unit::Ratio, TURNS, known.or(Some(1.0)));
    if let Block::Entry { hint, .. } = &mut entry {
        let motor = gear.map_or_else(String::new, |turns| {
            say!(context.locale, "log-turns-motor", turns = context.locale.plain(turns))
        });
        *hint = Some(say!(context.locale, "log-turns-hint", motor = motor));
    }
    entry
}
