use super::source::Source;
use super::written::{Cell, Sheet};
use crate::readiness::{Charge, PackStand};
use crate::record::{ThingKind, ThingNumber};

const COLUMNS: &[&str] = &[
    "pack",
    "cells",
    "capacity_mah",
    "mass_g",
    "full_cell_v",
    "new_resistance_mohm",
    "runs",
    "motor_on_s",
    "state",
    "flown_at",
    "last_reading",
    "last_reading_capacity_mah",
    "last_reading_resistance_mohm",
];

/// Flight packs, a row each, with the reading of it that was described last.
pub(super) fn sheet(source: Source<'_>) -> Sheet {
    Sheet { columns: COLUMNS, rows: source.ledger.packs().iter().map(|pack| row(source, pack)).collect() }
}

fn row(source: Source<'_>, pack: &PackStand) -> Vec<Cell> {
    let ledger = source.ledger;
    let thing = ledger.aircraft.thing(ThingKind::Pack, &pack.name);
    let number = |field: ThingNumber| thing.and_then(|thing| thing.number(field));
    let motor_ms = ledger.motor_ms_on(&pack.name);
    let readings = ledger.aircraft.things_of(ThingKind::PackReading);
    let of_it = readings.filter(|reading| reading.of.as_deref() == Some(pack.name.as_str()));
    let last = of_it.max_by_key(|reading| ledger.described.get(&reading.reference()).map(|described| described.seq));
    vec![
        pack.name.as_str().into(),
        number(ThingNumber::Cells).into(),
        number(ThingNumber::CapacityMah).into(),
        number(ThingNumber::MassG).into(),
        ledger.aircraft.full_v(&pack.name).into(),
        number(ThingNumber::NewMohm).into(),
        pack.runs.into(),
        (motor_ms as f64 / 1_000.0).into(),
        state(&pack.charge).into(),
        pack.flown.as_ref().map_or(Cell::Empty, Cell::moment),
        last.map(|reading| reading.name.as_str()).into(),
        last.and_then(|reading| reading.number(ThingNumber::MeasuredMah)).into(),
        last.and_then(|reading| reading.number(ThingNumber::NowMohm)).into(),
    ]
}

fn state(charge: &Charge) -> &'static str {
    match charge {
        Charge::Charged { .. } => "charged",
        Charge::ReadFull { .. } => "read-full",
        Charge::ReadLow { .. } => "read-low",
        Charge::TooHigh { .. } => "too-high",
        Charge::NotAllBack { .. } => "not-all-back",
        Charge::Unknown => "unknown",
        Charge::Flown => "flown",
        Charge::Stored => "storage",
        Charge::Retired { .. } => "retired",
    }
}
