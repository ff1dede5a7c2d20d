use super::source::Source;
use super::written::{Cell, Sheet};
use crate::field::Flight;
use crate::record::{Judgement, Wind};

const COLUMNS: &[&str] = &[
    "run",
    "entry",
    "started_at",
    "check",
    "check_title",
    "stage",
    "head_speed_rpm",
    "planned_s",
    "flown_s",
    "air_c",
    "wind_beaufort",
    "wind_m_s",
    "packs",
    "spotter",
    "predicted_mah",
    "predicted_low_mah",
    "predicted_high_mah",
    "used_mah",
    "judgement",
    "judgement_words",
    "explanation",
    "marks",
    "log_sha256",
];

/// Flights and runs, a row each. What was predicted is for the time that was flown.
pub(super) fn sheet(source: Source<'_>) -> Sheet {
    let flown = source.ledger.flights.iter().filter(|flight| flight.started.is_some());
    Sheet { columns: COLUMNS, rows: flown.map(|flight| row(source, flight)).collect() }
}

fn row(source: Source<'_>, flight: &Flight) -> Vec<Cell> {
    let found = source.plan.check(&flight.check);
    let landing = flight.landing.as_ref();
    let (beaufort, measured_m_s) = match flight.wind {
        None => (None, None),
        Some(Wind::Beaufort(force)) => (Some(f64::from(force)), None),
        Some(Wind::MetresPerSecond(speed_m_s)) => (None, Some(speed_m_s)),
    };
    let expected = flight.expected();
    let expected = expected.as_ref();
    let (judgement, words) = landing.map_or(("", ""), |landing| judged(&landing.judgement));
    vec![
        source.ledger.run_number(flight.card).into(),
        source.seq(flight.card).into(),
        flight.started.as_ref().map_or(Cell::Empty, Cell::moment),
        flight.check.as_str().into(),
        found.map(|(_, check)| check.title.as_str()).into(),
        found.map(|(stage, _)| stage.id.as_str()).into(),
        flight.head_speed_rpm.into(),
        flight.planned_s.into(),
        flight.flown_ms().map(|ms| ms as f64 / 1_000.0).into(),
        flight.air_c.into(),
        beaufort.into(),
        measured_m_s.into(),
        flight.pack_names().into(),
        flight.spotter.as_deref().into(),
        expected.map(|expected| expected.used_mah).into(),
        expected.map(|expected| expected.low_mah).into(),
        expected.map(|expected| expected.high_mah).into(),
        landing.and_then(|landing| landing.pack_used_mah).into(),
        judgement.into(),
        words.into(),
        flight.explained.as_ref().map(|explained| explained.why.as_str()).into(),
        flight.marks.len().into(),
        source.ledger.logs.of_flight(flight.card).map(|log| log.sha256.as_str()).into(),
    ]
}

/// What the pilot said of a run, and in which words.
fn judged(judgement: &Judgement) -> (&str, &str) {
    match judgement {
        Judgement::NotAsked | Judgement::Open => ("", ""),
        Judgement::AsItShouldBe => ("as-it-should-be", ""),
        Judgement::NotSo { why } => ("not-so", why),
        Judgement::CalledOff { why } => ("called-off", why),
    }
}
