//! A log that was picked: what its columns are, as a list, and a page for each that is not what it is taken for.

use super::context::{heading, paragraph, row};
use super::mend::{is_refused, mend_first};
use super::{Block, Context, Control, Edge, Edit, Go, Icon, Place, Record, Screen, Tone, Weight};
use crate::form::ColumnsForm;
use crate::locale::{Locale, say};
use crate::record::EntryId;
use crate::telemetry::{ColumnMap, Header, Layout, MappedColumn, Quantity, TimeForm};
use crate::unit::Unit;

/// Columns that are left out and have a row of their own, which leads to their page; further ones are named.
const LISTED: usize = 200;

/// A file that was picked: what its columns are, each a row that leads to its page.
pub(super) fn offer(context: &Context<'_>, card: EntryId) -> Screen {
    let Some(picked) = context.picked_log.filter(|picked| picked.card == card) else {
        let words = say!(context.locale, "log-file-gone");
        let blocks = vec![paragraph(words, Tone::Plain)];
        let foot = vec![super::log::a_log_file(card, say!(context.locale, "log-pick-again"))];
        return Screen { foot, ..context.screen("log-offer", say!(context.locale, "log-log"), None, blocks) };
    };
    let layout = &picked.layout;
    let map = ColumnsForm::new(context.form, layout).named(&context.ledger.logs, context.plan);
    let known = context.ledger.logs.columns_under(&layout.fingerprint).is_some();
    let text = if known { say!(context.locale, "log-known") } else { say!(context.locale, "log-say-once") };
    let detail = say!(context.locale, "log-left-out-note");
    let mut blocks = vec![Block::Verdict { text, detail: Some(detail), edge: Edge::None }];
    if map.time_column.is_none() {
        let label = say!(context.locale, "log-period");
        let TimeForm::EveryRow { period_s } = map.time_form else { return context.gone("log-offer") };
        let mut entry = context.number_entry(
            ColumnsForm::PERIOD,
            &label,
            Unit::Second,
            ColumnsForm::PERIOD_RANGE_S,
            Some(period_s),
        );
        if let Block::Entry { hint, .. } = &mut entry {
            *hint = Some(say!(context.locale, "log-no-time"));
        }
        blocks.push(entry);
    }
    let is_read =
        |column: u32| map.time_column == Some(column) || map.columns.iter().any(|mapped| mapped.column == column);
    let columns = (0_u32..).zip(&layout.headers);
    let (read, left): (Vec<_>, Vec<_>) = columns.partition(|(column, _)| is_read(*column));
    blocks.extend(listed(context, card, &map, say!(context.locale, "log-columns-read"), &read));
    blocks.extend(listed(context, card, &map, say!(context.locale, "log-columns-left"), &left));
    let attach = Control::primary(Record::AttachLog(card).into(), say!(context.locale, "log-attach"))
        .icon(Icon::Tick)
        .unless(mend_first(context.locale, is_refused(&blocks)));
    Screen {
        foot: vec![attach],
        ..context.screen("log-offer", picked.name, Some(say!(context.locale, "log-log")), blocks)
    }
}

/// A list of columns under its heading, each said; nothing where there is none.
fn listed(
    context: &Context<'_>,
    card: EntryId,
    map: &ColumnMap,
    title: String,
    columns: &[(u32, &Header)],
) -> Vec<Block> {
    if columns.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading(title, Some(say!(context.locale, "log-columns", count = columns.len())))];
    let (rows, named) = columns.split_at(columns.len().min(LISTED));
    blocks.extend(rows.iter().map(|(column, header)| column_row(context, card, map, *column, header)));
    if !named.is_empty() {
        let names: Vec<String> = named.iter().map(|(_, header)| header_words(header)).collect();
        blocks.push(paragraph(say!(context.locale, "log-columns-too", names = names.join(", ")), Tone::Plain));
    }
    blocks
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
    let map = ColumnsForm::new(context.form, picked.layout).named(&context.ledger.logs, context.plan);
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
    let done = Control::new(Go::Back.into(), say!(context.locale, "log-column-done")).icon(Icon::Tick);
    Screen {
        foot: vec![done.weight(Weight::Primary)],
        ..context.screen("log-column", header_words(header), Some(picked.name.to_owned()), blocks)
    }
}

fn choose(field: String, id: String, label: impl Into<String>, chosen: bool) -> Control {
    Control::new(Edit::set(field, id).into(), label).chosen(chosen)
}

fn what_it_is(context: &Context<'_>, column: u32, mapped: Option<&MappedColumn>, is_time: bool) -> Block {
    let out = say!(context.locale, "log-leave-out");
    let mut options = vec![choose(
        ColumnsForm::quantity_field(column),
        ColumnsForm::LEAVE_OUT.to_owned(),
        out,
        mapped.is_none() && !is_time,
    )];
    options.extend(Quantity::ALL.into_iter().map(|quantity| {
        let chosen = match quantity {
            Quantity::Time => is_time,
            _ => mapped.is_some_and(|mapped| mapped.quantity == quantity),
        };
        choose(
            ColumnsForm::quantity_field(column),
            ColumnsForm::quantity_id(quantity),
            quantity.word(context.locale),
            chosen,
        )
    }));
    Block::Choice { label: say!(context.locale, "log-column", column = column + 1), options }
}

/// Only the forms in which the column can be read.
fn how_time_is_written(context: &Context<'_>, layout: &Layout, map: &ColumnMap, column: u32) -> Block {
    let mut forms = layout.time_forms(column);
    if !forms.contains(&map.time_form) {
        forms.push(map.time_form);
    }
    let options = forms.into_iter().map(|form| {
        choose(
            ColumnsForm::TIME_FORM.to_owned(),
            ColumnsForm::time_form_id(form),
            form.word(context.locale),
            map.time_form == form,
        )
    });
    Block::Choice { label: say!(context.locale, "log-time-written"), options: options.collect() }
}

/// The unit, the turns of a head speed, the place of a temperature.
fn more_of(context: &Context<'_>, mapped: &MappedColumn, blocks: &mut Vec<Block>) {
    let column = mapped.column;
    if mapped.quantity.units().len() > 1 {
        let units = mapped.quantity.units().iter();
        let options = units.map(|u| {
            choose(
                ColumnsForm::unit_field(column),
                ColumnsForm::unit_id(*u),
                u.word(context.locale),
                mapped.unit == *u,
            )
        });
        let label = say!(context.locale, "log-unit-of-column", column = column + 1);
        blocks.push(Block::Choice { label, options: options.collect() });
    }
    if mapped.quantity == Quantity::HeadSpeed {
        blocks.push(turns_entry(context, mapped));
    }
    if mapped.quantity == Quantity::Temperature {
        let places = context.plan.places.iter();
        let options = places.map(|place| {
            choose(
                ColumnsForm::place_field(column),
                place.id.clone(),
                &place.title,
                mapped.place.as_ref() == Some(&place.id),
            )
        });
        let label = say!(context.locale, "log-where-column", column = column + 1);
        blocks.push(Block::Choice { label, options: options.collect() });
    }
}

fn turns_entry(context: &Context<'_>, mapped: &MappedColumn) -> Block {
    let gear = context.ledger.aircraft.figure("gear-ratio");
    let known = Some(1.0 / mapped.ratio).filter(|turns| (turns - 1.0).abs() > 1e-9);
    let label = say!(context.locale, "log-turns");
    let field = ColumnsForm::turns_field(mapped.column);
    let mut entry = context.number_entry(&field, &label, Unit::Ratio, ColumnsForm::TURNS_RANGE, known.or(Some(1.0)));
    if let Block::Entry { hint, .. } = &mut entry {
        let motor = gear.map_or_else(String::new, |turns| {
            say!(context.locale, "log-turns-motor", turns = context.locale.plain(turns))
        });
        *hint = Some(say!(context.locale, "log-turns-hint", motor = motor));
    }
    entry
}
