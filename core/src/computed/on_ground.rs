//! Time on the ground within a run: the clock and the charge of a card count from the motor's start to its stop, a hover's current does not.

use super::Facts;
use crate::field::Flight;
use crate::record::AttachedLog;
use crate::telemetry::Quantity;
use crate::telemetry::summary::{FigureKind, LogFigure};

/// Running up, standing at flat pitch and running down take some 20 s of a run, at a third of what a hover takes: so many seconds of hover
/// are missing in its charge (common practice, no source). An aircraft with logs has its own.
const USUAL_MISSING_S: f64 = 13.0;
/// No more of a run than this is made out to have been on the ground.
const MOST_OF_RUN: f64 = 0.25;

/// The seconds of hover that are missing in the charge of this aircraft's runs: the median of those that have a log, or what is usual.
pub(super) fn missing_s(facts: Facts<'_>) -> f64 {
    let mut seen: Vec<f64> = facts.hovers().filter_map(|hover| missing_by_log(facts, hover)).collect();
    seen.sort_by(f64::total_cmp);
    seen.get(seen.len() / 2).copied().unwrap_or(USUAL_MISSING_S)
}

/// Seconds of hover in the charge of a run that lasts so long.
pub(super) fn hover_s(run_s: f64, missing_s: f64) -> f64 {
    run_s - missing_s.clamp(0.0, MOST_OF_RUN * run_s)
}

/// Current of a hover, A: as its log has it, or from its charge without what it stood on the ground. None where neither was read.
pub(super) fn hover_current_a(facts: Facts<'_>, flight: &Flight, missing_s: f64) -> Option<f64> {
    let logged = facts.ledger.logs.of_flight(flight.card).and_then(logged_hover_a);
    logged.or_else(|| {
        let run_s = flight.flown_ms()? as f64 / 1_000.0;
        Some(flight.mean_current_ma()? / 1_000.0 * run_s / hover_s(run_s, missing_s))
    })
}

/// Power of a hover, W, where its log has it; a charge alone says nothing of the voltage.
pub(super) fn hover_power_w(facts: Facts<'_>, flight: &Flight) -> Option<f64> {
    facts.ledger.logs.of_flight(flight.card).and_then(logged_hover_w)
}

/// By the log, which has both the charge of the whole run and the current of the hover.
fn missing_by_log(facts: Facts<'_>, flight: &Flight) -> Option<f64> {
    let log = facts.ledger.logs.of_flight(flight.card)?;
    let run_s = flight.flown_ms()? as f64 / 1_000.0;
    let find = |kind| log.figures.iter().find(|figure| figure.kind == kind);
    let (charge, time) = (find(FigureKind::Charge)?, find(FigureKind::FlightTime)?);
    // A log that was attached before December 2026 has the charge of the flight alone.
    let is_whole = charge.span.length_s() > time.span.length_s();
    let missing_s = run_s - charge.value * 3.6 / logged_hover_a(log)?;
    (is_whole && run_s > 0.0).then(|| missing_s.clamp(0.0, MOST_OF_RUN * run_s))
}

/// Mean current in hover by a log, A.
pub(super) fn logged_hover_a(log: &AttachedLog) -> Option<f64> {
    logged_hover(log, Quantity::PackCurrent)
}

/// Mean power in hover by a log, W: its own, or voltage under load times current. In a hover both hardly move, so that the mean of the
/// product is the product of the means.
pub(super) fn logged_hover_w(log: &AttachedLog) -> Option<f64> {
    let by_voltage = || Some(logged_hover_a(log)? * logged_hover(log, Quantity::PackVoltage)?);
    logged_hover(log, Quantity::Power).or_else(by_voltage)
}

fn logged_hover(log: &AttachedLog, quantity: Quantity) -> Option<f64> {
    let is_of = |figure: &&LogFigure| {
        let column = figure.channel.and_then(|channel| log.map.columns.get(channel as usize));
        figure.kind == FigureKind::HoverAverage && column.is_some_and(|column| column.quantity == quantity)
    };
    log.figures.iter().find(is_of).map(|figure| figure.value).filter(|value| *value > 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Closed form: 20 s on the ground at a third of the hover's current leave out 20 x 2/3 s of it.
    #[test]
    fn ground_time_is_left_out_of_a_run_and_never_more_than_a_quarter_of_it() {
        let (run_s, ground_s, hover_a) = (240.0, 20.0, 45.0);
        let charge_as = hover_a * (run_s - ground_s) + hover_a / 3.0 * ground_s;
        let missing_s = run_s - charge_as / hover_a;
        assert!((missing_s - USUAL_MISSING_S).abs() < 0.5, "{missing_s}");
        assert!((charge_as / hover_s(run_s, missing_s) - hover_a).abs() < 1e-9);
        assert!((hover_s(20.0, USUAL_MISSING_S) - 15.0).abs() < 1e-9);
    }
}
