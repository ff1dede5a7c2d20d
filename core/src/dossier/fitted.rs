//! Packs and parts with their lives, and what else is described of the aircraft.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Written, joined};
use crate::locale::{clock, say};
use crate::plan::Part;
use crate::readiness::PackStand;
use crate::record::{Thing, ThingKind};
use crate::tables::part_life;
use crate::view;

#[derive(Template)]
#[template(path = "dossier/parts.html")]
struct Fitted {
    words: Words,
    packs: Vec<PackPart>,
    parts: Vec<PartPart>,
    kinds: Vec<KindPart>,
}

struct PackPart {
    name: String,
    numbers: String,
    life: String,
    state: String,
    readings: Vec<String>,
}

struct PartPart {
    title: String,
    work: String,
    life: String,
}

struct KindPart {
    title: String,
    things: Vec<ThingPart>,
}

struct ThingPart {
    name: String,
    numbers: String,
}

pub(super) fn write(page: &Page<'_>) -> Written {
    let context = page.context;
    let aircraft = &context.ledger.aircraft;
    let parts = context.plan.parts.iter().filter(|part| aircraft.fits(&part.when));
    let kinds = ThingKind::ALL.into_iter().filter(|kind| !matches!(kind, ThingKind::Pack | ThingKind::PackReading));
    let kinds = kinds.map(|kind| KindPart {
        title: kind.words(context.locale),
        things: aircraft.things_of(kind).map(|thing| thing_part(page, thing)).collect(),
    });
    Fitted {
        words: page.words(),
        packs: context.ledger.packs().iter().map(|pack| pack_part(page, pack)).collect(),
        parts: parts.map(|part| part_part(page, part)).collect(),
        kinds: kinds.filter(|kind| !kind.things.is_empty()).collect(),
    }
    .render()
}

fn thing_part(page: &Page<'_>, thing: &Thing) -> ThingPart {
    let of = thing.of.as_ref().map(|of| format!(" ({of})")).unwrap_or_default();
    ThingPart { name: format!("{}{of}", thing.name), numbers: numbers(page, thing) }
}

/// What is written down of a thing, each number with what it is.
fn numbers(page: &Page<'_>, thing: &Thing) -> String {
    let locale = page.locale();
    let fields = thing.kind.fields().iter().filter_map(|field| {
        let value = thing.number(field.number)?;
        Some(format!("{} {}", locale.lower_first(&field.label(locale)), field.shown(value, locale)))
    });
    fields.chain(thing.beside_numbers(locale)).collect::<Vec<_>>().join("; ")
}

fn pack_part(page: &Page<'_>, pack: &PackStand) -> PackPart {
    let context = page.context;
    let aircraft = &context.ledger.aircraft;
    let thing = aircraft.thing(ThingKind::Pack, &pack.name);
    let flown = context.ledger.flights.iter().filter(|flight| flight.is_on(&pack.name));
    let motor_ms: i64 = flown.map(|flight| flight.motor_ms).sum();
    let readings =
        aircraft.things_of(ThingKind::PackReading).filter(|reading| reading.of.as_ref() == Some(&pack.name));
    PackPart {
        name: pack.name.clone(),
        numbers: thing.map(|thing| numbers(page, thing)).unwrap_or_default(),
        life: life(page, pack.runs as usize, motor_ms),
        state: view::charge_word(context.locale, &pack.charge).1,
        readings: readings.map(|reading| format!("{}: {}", reading.name, numbers(page, reading))).collect(),
    }
}

/// So many runs and so much time with the motor on.
fn life(page: &Page<'_>, runs: usize, motor_ms: i64) -> String {
    say!(page.locale(), "dossier-life-line", runs = runs, time = clock(motor_ms / 60_000))
}

/// A part with the last work on it, and what it has run since.
fn part_part(page: &Page<'_>, part: &Part) -> PartPart {
    let context = page.context;
    let life_of = part_life(context.ledger, context.entries, &part.id);
    PartPart {
        title: part.title.clone(),
        work: match life_of.last {
            Some(change) => {
                joined([change.what.clone(), page.when(&change.at), page.entry_number(change.entry)], ", ")
            }
            None => say!(context.locale, "dossier-no-work"),
        },
        life: life(page, life_of.runs as usize, life_of.motor_ms),
    }
}
