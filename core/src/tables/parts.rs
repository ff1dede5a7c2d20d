use super::source::Source;
use super::written::{Cell, Sheet};
use crate::plan::Part;
use crate::readiness::{Change, Ledger};
use crate::record::{Entry, EntryId};

const COLUMNS: &[&str] =
    &["part", "title", "last_work", "last_work_at", "last_work_entry", "runs_since", "motor_on_since_s"];

/// Fitted parts, a row each, with the last work on it and what it has run since.
pub(super) fn sheet(source: Source<'_>) -> Sheet {
    let parts = source.plan.parts.iter().filter(|part| source.ledger.aircraft.fits(&part.when));
    Sheet { columns: COLUMNS, rows: parts.map(|part| row(source, part)).collect() }
}

fn row(source: Source<'_>, part: &Part) -> Vec<Cell> {
    let life = part_life(source.ledger, source.entries, &part.id);
    vec![
        part.id.as_str().into(),
        part.title.as_str().into(),
        life.last.map(|change| change.what.as_str()).into(),
        life.last.map_or(Cell::Empty, |change| Cell::moment(&change.at)),
        life.last.and_then(|change| source.seq(change.entry)).into(),
        life.runs.into(),
        (life.motor_ms as f64 / 1_000.0).into(),
    ]
}

/// What a part has run since the last work on it, or since the aircraft was built.
pub(crate) struct PartLife<'a> {
    pub last: Option<&'a Change>,
    pub runs: u32,
    pub motor_ms: i64,
}

/// The life of a part, by the recorded changes that name it.
pub(crate) fn part_life<'a>(ledger: &'a Ledger, entries: &[Entry], part: &str) -> PartLife<'a> {
    let subject = format!("part:{part}");
    let last = ledger.changes.iter().rev().find(|change| change.subjects.contains(&subject));
    let seq = |id: EntryId| Entry::by_id(entries, id).map_or(0, |entry| entry.seq);
    let since = last.map_or(0, |change| seq(change.entry));
    let run = ledger.flights.iter().filter(|flight| flight.started.is_some() && seq(flight.card) > since);
    let (runs, motor_ms) = run.fold((0, 0), |(runs, ms), flight| (runs + 1, ms + flight.motor_ms));
    PartLife { last, runs, motor_ms }
}
