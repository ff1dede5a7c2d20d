//! Where in a log the aircraft flew, and how: flights, and within them hover and manoeuvre.
//!
//! Found on means over quarter seconds. The motor turns where the head speed is over half of its 90th percentile or, without one,
//! the load is over a tenth of its own. The aircraft flies where the load, smoothed over 1.25 s, is over 0.6 of the 75th percentile of
//! what the motor draws while it turns, until it falls under 0.45 of it. It hovers where the load stays within 15 % of the flight's
//! median and scatters by less than 8 % of it over 2.25 s. All of these are common practice without a source; the person sees the
//! segments in the plot.

use serde::{Deserialize, Serialize};

use super::error::{FigureLack, TelemetryError};
use super::grid::{Grid, quantile, scatter, smooth};
use super::quantity::Quantity;
use super::recording::{Recording, Span};

/// How the aircraft flew in a segment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Manner {
    /// Steady load: a hover or steady flight.
    Hover,
    /// The load changes.
    Manoeuvre,
}

/// A stretch of a flight in one manner.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Segment {
    /// How it was flown.
    pub manner: Manner,
    /// Where in the log.
    pub span: Span,
}

/// A flight in a log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LoggedFlight {
    /// From lift-off to touchdown.
    pub span: Span,
    /// Its segments, in order, without gaps between them.
    pub segments: Vec<Segment>,
}

/// What a log shows of flying.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Flying {
    /// Where the motor turned.
    pub motor: Vec<Span>,
    /// Where the aircraft flew.
    pub flights: Vec<LoggedFlight>,
}

const FLIES_ABOVE: f64 = 0.6;
const LANDED_BELOW: f64 = 0.45;
const SHORTEST_FLIGHT_S: f64 = 5.0;
const SHORTEST_LANDING_S: f64 = 3.0;
const HOVER_BAND: f64 = 0.15;
const HOVER_SCATTER: f64 = 0.08;
const SHORTEST_HOVER_S: f64 = 5.0;
const SHORTEST_MANOEUVRE_S: f64 = 2.0;
/// A signal that is lost for longer than this says nothing of whether the aircraft still flies.
const HELD_S: f64 = 5.0;

/// Finds the flights and their segments.
///
/// # Errors
/// None of current, power and head speed is mapped.
pub fn find(recording: &Recording) -> Result<Flying, TelemetryError> {
    let grid = Grid::over(recording);
    let means = |quantity| recording.channel(quantity).map(|channel| grid.means(recording, channel));
    let rotor = means(Quantity::HeadSpeed);
    let load = load(recording, &grid);
    if rotor.is_none() && load.is_none() {
        return Err(TelemetryError::figure(FigureLack::NoLoad));
    }
    let turning = turning(rotor.as_deref(), load.as_deref());
    let steps = |seconds: f64| (seconds / grid.step_s).round() as usize;
    let motor = runs(&turning, steps(SHORTEST_LANDING_S), steps(SHORTEST_LANDING_S));
    let Some(load) = load else {
        let flights = runs(&turning, steps(SHORTEST_LANDING_S), steps(SHORTEST_FLIGHT_S));
        return Ok(Flying {
            motor: motor.into_iter().map(|run| grid.span(run)).collect(),
            flights: flights
                .into_iter()
                .map(|run| LoggedFlight { span: grid.span(run), segments: Vec::new() })
                .collect(),
        });
    };
    let load = hold(&load, steps(HELD_S));
    let smoothed = smooth(&load, 2);
    let level = quantile(smoothed.iter().zip(&turning).filter(|(_, on)| **on).map(|(value, _)| *value), 0.75);
    let mut up = false;
    let flying: Vec<bool> = smoothed
        .iter()
        .zip(&turning)
        .map(|(value, turning)| {
            up = *turning && *value >= level * if up { LANDED_BELOW } else { FLIES_ABOVE };
            up
        })
        .collect();
    let flights = runs(&flying, steps(SHORTEST_LANDING_S), steps(SHORTEST_FLIGHT_S));
    Ok(Flying {
        motor: motor.into_iter().map(|run| grid.span(run)).collect(),
        flights: flights
            .into_iter()
            .map(|run| LoggedFlight { segments: segments(&grid, &load, run.clone()), span: grid.span(run) })
            .collect(),
    })
}

/// What the motor takes, at even steps: power, or current where no voltage tells the power.
pub(super) fn load(recording: &Recording, grid: &Grid) -> Option<Vec<f64>> {
    let means = |quantity| recording.channel(quantity).map(|channel| grid.means(recording, channel));
    if let Some(power) = means(Quantity::Power) {
        return Some(power);
    }
    let current = means(Quantity::PackCurrent)?;
    Some(match means(Quantity::PackVoltage) {
        Some(voltage) => current.iter().zip(&voltage).map(|(a, v)| a * v).collect(),
        None => current,
    })
}

fn turning(rotor: Option<&[f64]>, load: Option<&[f64]>) -> Vec<bool> {
    let (values, share) = match (rotor, load) {
        (Some(rotor), _) => (rotor, 0.5),
        (None, Some(load)) => (load, 0.1),
        (None, None) => return Vec::new(),
    };
    let level = share * quantile(values.iter().copied().filter(|value| *value > 0.0), 0.9);
    let mut last = false;
    values
        .iter()
        .map(|value| {
            // A step without a value goes on as the one before it.
            last = if value.is_nan() { last } else { *value > level };
            last
        })
        .collect()
}

/// Fills steps without a value from the one before, for so many steps.
fn hold(values: &[f64], steps: usize) -> Vec<f64> {
    let (mut last, mut age) = (f64::NAN, 0);
    values
        .iter()
        .map(|value| {
            if value.is_nan() {
                age += 1;
                if age <= steps { last } else { f64::NAN }
            } else {
                (last, age) = (*value, 0);
                last
            }
        })
        .collect()
}

/// Stretches of true: pauses shorter than `pause` are bridged first, then stretches shorter than `shortest` are dropped.
fn runs(on: &[bool], pause: usize, shortest: usize) -> Vec<std::ops::Range<usize>> {
    let mut found: Vec<std::ops::Range<usize>> = Vec::new();
    let mut start = None;
    for (index, on) in on.iter().copied().chain([false]).enumerate() {
        match (on, start) {
            (true, None) => start = Some(index),
            (false, Some(from)) => {
                start = None;
                match found.last_mut() {
                    Some(last) if from - last.end < pause => last.end = index,
                    _ => found.push(from..index),
                }
            }
            _ => {}
        }
    }
    found.retain(|run| run.len() >= shortest.max(1));
    found
}

fn segments(grid: &Grid, load: &[f64], flight: std::ops::Range<usize>) -> Vec<Segment> {
    let of_flight = &load[flight.clone()];
    let median = quantile(of_flight.iter().copied(), 0.5);
    if median.is_nan() || median <= 0.0 {
        return Vec::new();
    }
    let (level, spread) = (smooth(of_flight, 4), scatter(of_flight, 4));
    let steady: Vec<bool> = level
        .iter()
        .zip(&spread)
        .map(|(level, spread)| (level / median - 1.0).abs() <= HOVER_BAND && *spread <= HOVER_SCATTER * median)
        .collect();
    let steps = |seconds: f64| (seconds / grid.step_s).round() as usize;
    // First what is too short to be a manoeuvre is bridged, then what is too short to be a hover is dropped.
    let hovers = runs(&steady, steps(SHORTEST_MANOEUVRE_S), steps(SHORTEST_HOVER_S));
    let mut segments = Vec::new();
    let mut at = 0;
    let mut push = |manner, from: usize, to: usize| {
        if to > from {
            let span = grid.span(flight.start + from..flight.start + to);
            segments.push(Segment { manner, span });
        }
    };
    for hover in hovers {
        push(Manner::Manoeuvre, at, hover.start);
        push(Manner::Hover, hover.start, hover.end);
        at = hover.end;
    }
    push(Manner::Manoeuvre, at, of_flight.len());
    segments
}
