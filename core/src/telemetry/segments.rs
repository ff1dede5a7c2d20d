//! Where in a log the aircraft flew, and how: flights, and within them hover and manoeuvre.
//!
//! Found on means over quarter seconds, or over the recorder's own steps where those are longer; a column's short empty stretches are
//! filled by straight lines. The motor turns where the head speed is over half of its 90th percentile or, without one, the load is over a
//! tenth of its own.
//!
//! Between the ground and the least load that was held in flight, the aircraft flies from 45 % of the way up, until the load, smoothed
//! over 1.25 s, falls under 25 % of it ([`Level`]). It has landed if it stays there for ten seconds, or the motor stops: a descent is shorter.
//! A gap of up to a minute between flying and flying was flown. It hovers where the load stays within 15 % of the flight's median and
//! scatters by less than 8 % of it over 2.25 s. All of these are common practice without a source; the person sees the segments in the plot.

use serde::{Deserialize, Serialize};

use super::error::{FigureLack, TelemetryError};
use super::grid::{Grid, quantile, scatter, smooth};
use super::quantity::Quantity;
use super::recording::{Recording, Span};
use super::taken::LONGEST_GAP_S;

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

/// Shares of the way from the ground's load to the least that was held in flight.
const FLIES_ABOVE: f64 = 0.45;
const LANDED_BELOW: f64 = 0.25;
const SHORTEST_FLIGHT_S: f64 = 5.0;
/// The motor has stopped, not lost a reading.
const SHORTEST_STOP_S: f64 = 3.0;
/// With the rotor at speed: a descent at no load is over by then.
const SHORTEST_LANDING_S: f64 = 10.0;
/// A load that was held for so long is a hover or a stay on the ground, not a manoeuvre.
const HELD_LEVEL_S: f64 = 10.0;
/// A load under this share of what the motor mostly takes is no hover, however long it was held.
const LEAST_HOVER: f64 = 0.45;
/// At flat pitch a rotor takes between these shares of what it takes in hover.
const ON_GROUND: (f64, f64) = (0.2, 0.5);
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
    let means = |quantity| recording.channel(quantity).map(|channel| grid.bridged(recording, channel));
    let rotor = means(Quantity::HeadSpeed);
    let load = load(recording, &grid);
    if rotor.is_none() && load.is_none() {
        return Err(TelemetryError::figure(FigureLack::NoLoad));
    }
    let known = |values: &Option<Vec<f64>>| values.clone().unwrap_or_default();
    let steps = |seconds: f64| (seconds / grid.step_s).round() as usize;
    let mut turning = turning(rotor.as_deref(), load.as_deref());
    bridge_gaps(&mut turning, &known(if rotor.is_some() { &rotor } else { &load }), steps(LONGEST_GAP_S));
    let motor = runs(&turning, steps(SHORTEST_STOP_S), steps(SHORTEST_STOP_S));
    let motor = motor.into_iter().map(|run| grid.span(run)).collect();
    let Some(load) = load else {
        let flights = runs(&turning, steps(SHORTEST_STOP_S), steps(SHORTEST_FLIGHT_S));
        let flights = flights.into_iter().map(|run| LoggedFlight { span: grid.span(run), segments: Vec::new() });
        return Ok(Flying { motor, flights: flights.collect() });
    };
    let load = hold(&load, steps(HELD_S));
    let flights = flights(&load, &turning, steps);
    let flights = flights
        .into_iter()
        .map(|run| LoggedFlight { segments: segments(&grid, &load, run.clone()), span: grid.span(run) });
    Ok(Flying { motor, flights: flights.collect() })
}

/// The steps of each flight.
fn flights(load: &[f64], turning: &[bool], steps: impl Fn(f64) -> usize) -> Vec<std::ops::Range<usize>> {
    let smoothed = smooth(load, 2);
    let level = Level::of(load, &smoothed, turning, steps(HELD_LEVEL_S));
    let mut up = false;
    let mut flying: Vec<bool> = smoothed
        .iter()
        .zip(turning)
        .map(|(value, turning)| {
            up = *turning && *value >= if up { level.landed_below } else { level.flies_above };
            up
        })
        .collect();
    bridge_gaps(&mut flying, load, steps(LONGEST_GAP_S));
    let mut found: Vec<std::ops::Range<usize>> = Vec::new();
    for run in runs(&flying, 0, 1) {
        match found.last_mut() {
            Some(last) if is_pause(last.end..run.start, turning, &steps) => last.end = run.end,
            _ => found.push(run),
        }
    }
    found.retain(|run| run.len() >= steps(SHORTEST_FLIGHT_S).max(1));
    found.into_iter().map(|run| level.edges(load, run)).collect()
}

/// Whether the aircraft flew through a stretch of little load: too short for a stop of the motor, or with it on, for a landing.
fn is_pause(little: std::ops::Range<usize>, turning: &[bool], steps: &impl Fn(f64) -> usize) -> bool {
    let stopped = turning[little.clone()].iter().filter(|on| !**on).count();
    stopped < steps(SHORTEST_STOP_S) && little.len() < steps(SHORTEST_LANDING_S)
}

/// Sets what happened in a stretch without values, between true and true, if it is short enough.
fn bridge_gaps(on: &mut [bool], values: &[f64], longest: usize) {
    let mut last: Option<usize> = None;
    for step in 0..on.len().min(values.len()) {
        if values[step].is_nan() {
            continue;
        }
        if let Some(last) = last.filter(|last| step - last > 1 && step - last <= longest + 1 && on[*last] && on[step])
        {
            on[last..step].fill(true);
        }
        last = Some(step);
    }
}

/// Which loads are flying and which are standing on the ground.
#[derive(Debug, Clone, Copy)]
struct Level {
    flies_above: f64,
    landed_below: f64,
}

impl Level {
    /// From the loads that were held for a while with the motor on: the least of them that can be a hover, and the least of them that
    /// cannot; flat pitch takes what [`ON_GROUND`] allows.
    fn of(load: &[f64], smoothed: &[f64], turning: &[bool], held_steps: usize) -> Level {
        let on = || smoothed.iter().zip(turning).filter(|(_, on)| **on).map(|(value, _)| *value);
        let usual = quantile(on(), 0.75);
        let (level, spread) = (smooth(load, 4), scatter(load, 4));
        let steady = |step: usize| turning[step] && spread[step] <= HOVER_SCATTER * level[step];
        let held = |possible: &dyn Fn(f64) -> bool| {
            let fits: Vec<bool> = (0..load.len()).map(|step| steady(step) && possible(level[step])).collect();
            let runs = runs(&fits, 0, held_steps);
            quantile(runs.into_iter().flatten().map(|step| level[step]), 0.05)
        };
        let hover = Some(held(&|value| value >= LEAST_HOVER * usual)).filter(|hover| !hover.is_nan());
        let hover = hover.unwrap_or(usual).min(usual);
        let ground = Some(held(&|value| value < LEAST_HOVER * usual)).filter(|ground| !ground.is_nan());
        let ground = ground.unwrap_or(0.5 * (ON_GROUND.0 + ON_GROUND.1) * hover);
        let ground = ground.max(ON_GROUND.0 * hover).min(ON_GROUND.1 * hover);
        let at = |share: f64| ground + share * (hover - ground);
        Level { flies_above: at(FLIES_ABOVE), landed_below: at(LANDED_BELOW) }
    }

    /// A flight's ends to the step: smoothing put them off by up to two.
    fn edges(&self, load: &[f64], run: std::ops::Range<usize>) -> std::ops::Range<usize> {
        let start = run.start.saturating_sub(2)..(run.start + 3).min(run.end);
        let end = run.end.saturating_sub(3).max(run.start)..(run.end + 2).min(load.len());
        let first = start.into_iter().find(|step| load[*step] >= self.flies_above).unwrap_or(run.start);
        let last = end.rev().find(|step| load[*step] >= self.flies_above).map_or(run.end, |step| step + 1);
        first..last.max(first + 1)
    }
}

/// What the motor takes, at even steps: power, or current where no voltage tells the power.
pub(super) fn load(recording: &Recording, grid: &Grid) -> Option<Vec<f64>> {
    let means = |quantity| recording.channel(quantity).map(|channel| grid.bridged(recording, channel));
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
