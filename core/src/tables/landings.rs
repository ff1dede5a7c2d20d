use super::source::Source;
use super::written::{Cell, Sheet};
use crate::field::Flight;
use crate::record::Reading;

const COLUMNS: &[&str] = &[
    "run",
    "entry",
    "started_at",
    "used_mah",
    "place",
    "place_title",
    "temperature_c",
    "after_touchdown_s",
    "caution_above_c",
    "stop_above_c",
    "notes",
];

/// What was read after each landing: a row for each temperature, and one for a landing without any.
pub(super) fn sheet(source: Source<'_>) -> Sheet {
    let rows = source.ledger.flights.iter().flat_map(|flight| rows(source, flight));
    Sheet { columns: COLUMNS, rows: rows.collect() }
}

fn rows(source: Source<'_>, flight: &Flight) -> Vec<Vec<Cell>> {
    let Some(landing) = &flight.landing else { return Vec::new() };
    let begins = || -> Vec<Cell> {
        vec![
            source.ledger.run_number(flight.card).into(),
            source.seq(landing.entry).into(),
            flight.started.as_ref().map_or(Cell::Empty, Cell::moment),
            landing.pack_used_mah.into(),
        ]
    };
    let ends = || -> Cell { landing.notes.as_deref().into() };
    let row = |reading: &Reading| {
        let place = source.plan.place(&reading.place);
        let mut row = begins();
        row.extend([
            reading.place.as_str().into(),
            place.map(|place| place.title.as_str()).into(),
            reading.celsius.into(),
            reading.after_s.into(),
            place.map(|place| place.caution_above_c).into(),
            place.map(|place| place.stop_above_c).into(),
            ends(),
        ]);
        row
    };
    if landing.temperatures.is_empty() {
        let mut row = begins();
        row.extend(std::iter::repeat_n(Cell::Empty, 6));
        row.push(ends());
        return vec![row];
    }
    landing.temperatures.iter().map(row).collect()
}
