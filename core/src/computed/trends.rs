//! Figures over the aircraft's life, each corrected for what is known to move it, with a test that says when one has begun to drift.

use chrono::{DateTime, Datelike, FixedOffset};

use super::Facts;
use super::conditions::Conditions;
use super::ladder::{fitted_steps, step};
use super::on_ground::{hover_current_a, hover_power_w, missing_s};
use super::packs::{pack_readings, resistance_mohm};
use crate::engineering::air::standard_air;
use crate::engineering::wind::RotorWind;
use crate::field::Flight;
use crate::record::{MarkKind, ThingKind, ThingNumber};
use crate::telemetry::drift::Drift;
use crate::telemetry::shift::{self, Read, shift};
use crate::telemetry::summary::FigureKind;
use crate::unit::Unit;

/// Fewer readings than this cannot tell a drift from their scatter; more may not either.
pub const FEWEST: usize = shift::FEWEST;
/// A flight shorter than this says little of marks for each minute, min.
const SHORTEST_MIN: f64 = 0.5;

/// One figure over the aircraft's life.
#[derive(Debug, Clone, PartialEq)]
pub struct Trend {
    /// What it is.
    pub of: TrendOf,
    /// Its unit.
    pub unit: Unit,
    /// Digits that are worth showing.
    pub digits: usize,
    /// The readings, oldest first.
    pub readings: Vec<TrendReading>,
    /// Where it began to drift; none where it did not, or too little was read.
    pub drift: Option<Drift>,
    /// Whether a change worth telling would have shown in so many readings that scatter so much.
    pub can_tell: bool,
}

/// What a trend is of.
#[derive(Debug, Clone, PartialEq)]
pub enum TrendOf {
    /// Resistance of a pack, as it was read at rest or under two loads.
    Resistance {
        /// The pack.
        pack: String,
    },
    /// Resistance of a pack with its leads, by the logs.
    LoggedResistance {
        /// The pack.
        pack: String,
    },
    /// A place's rise above the air after flights of the same check.
    Heat {
        /// The check.
        check: String,
        /// The place.
        place: String,
    },
    /// Power in hovers of the same check, in standard air at sea level.
    HoverPower {
        /// The check.
        check: String,
    },
    /// Marks of shake and sound for each minute of flight.
    Vibration,
}

/// One reading of a trend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrendReading {
    /// The value.
    pub value: f64,
    /// When it was read, where that is known.
    pub at: Option<DateTime<FixedOffset>>,
    /// Motor runs or pack flights before it, where the day is not known.
    pub flights: f64,
}

/// All trends that have a reading, the drifting ones first.
pub fn trends(facts: Facts<'_>) -> Vec<Trend> {
    let mut found: Vec<Trend> = Vec::new();
    for pack in facts.things(ThingKind::Pack) {
        let read = pack_readings(facts, &pack.name).into_iter().filter_map(|thing| {
            let value = resistance_mohm(pack, thing)?;
            Some(TrendReading { value, at: None, flights: thing.number(ThingNumber::Flights).unwrap_or(0.0) })
        });
        let of = TrendOf::Resistance { pack: pack.name.clone() };
        found.extend(trend(of, Unit::Milliohm, 1, read.collect(), 0.1));
        let logged =
            whole_flights(facts).filter(|(_, flight)| flight.is_only_on(&pack.name)).filter_map(|(runs, flight)| {
                let log = facts.ledger.logs.of_flight(flight.card)?;
                let figure = log.figures.iter().find(|f| f.kind == FigureKind::Resistance)?;
                Some(reading(runs, flight, figure.value))
            });
        let of = TrendOf::LoggedResistance { pack: pack.name.clone() };
        found.extend(trend(of, Unit::Milliohm, 1, logged.collect(), 0.1));
    }
    for (_, check) in facts.plan.checks().filter(|(_, check)| check.fly().is_some()) {
        found.extend(hover_power(facts, &check.id));
        for place in &facts.plan.places {
            found.extend(heat(facts, &check.id, &place.id));
        }
    }
    found.extend(vibration(facts));
    // Those that drift first, then by what is known most of.
    found.sort_by_key(|trend| (trend.drift.is_none(), std::cmp::Reverse(trend.readings.len())));
    found
}

fn reading(runs: usize, flight: &Flight, value: f64) -> TrendReading {
    TrendReading { value, at: flight.started.as_ref().map(|at| at.wall), flights: runs as f64 }
}

/// Flights that were not called off, each with the motor runs before it.
fn whole_flights<'a>(facts: Facts<'a>) -> impl Iterator<Item = (usize, &'a Flight)> {
    let flights = facts.ledger.flights.iter().filter(|flight| flight.down.is_some()).enumerate();
    flights.filter(move |(_, flight)| !flight.is_called_off(facts.plan))
}

fn trend(of: TrendOf, unit: Unit, digits: usize, readings: Vec<TrendReading>, resolution: f64) -> Option<Trend> {
    if readings.is_empty() {
        return None;
    }
    let read = |reading: &TrendReading| Read { value: reading.value, day: reading.at.map(day) };
    let shift = shift(&readings.iter().map(read).collect::<Vec<_>>(), resolution);
    Some(Trend { of, unit, digits, drift: shift.drift, can_tell: shift.can_tell, readings })
}

/// The day of a moment where it was, counted.
fn day(at: DateTime<FixedOffset>) -> i64 {
    i64::from(at.date_naive().num_days_from_ce())
}

/// Same check, same place: what is left is the power, which the head speed fixes, and the cooling.
fn heat(facts: Facts<'_>, check: &str, place: &str) -> Option<Trend> {
    let same = whole_flights(facts).filter(|(_, flight)| flight.check == check);
    let rises =
        same.filter_map(|(runs, flight)| Some(reading(runs, flight, flight.hottest_reading(place)? - flight.air_c)));
    let of = TrendOf::Heat { check: check.to_owned(), place: place.to_owned() };
    trend(of, Unit::Kelvin, 0, rises.collect(), 1.0)
}

/// Power of each hover, brought to standard air by the fitted model: what it would take at sea level at 15 degrees, and where the wind was
/// told, in none. One in more wind than can be fitted is left out.
fn hover_power(facts: Facts<'_>, check: &str) -> Option<Trend> {
    let steps = fitted_steps(facts, facts.hovers()).ok()?;
    let standard = standard_air(0.0).ok()?;
    let same = whole_flights(facts)
        .filter(|(_, flight)| flight.check == check && facts.hovers().any(|hover| hover.card == flight.card));
    let missing_s = missing_s(facts);
    let powers = same.filter_map(|(runs, flight)| {
        let fitted = step(facts, steps.clone(), Conditions::of(flight)).ok()?;
        let mut question = fitted.inputs.clone();
        question.next.density_kg_m3 = standard.density_kg_m3;
        question.next.wind = question.next.wind.map(|_| RotorWind::STILL);
        let in_standard_air = crate::engineering::prediction::predict(&question).ok()?;
        let share = in_standard_air.power_w.middle / fitted.power_w.middle;
        let by_current = || Some(hover_current_a(facts, flight, missing_s)? * question.aircraft.loaded_v);
        let power_w = hover_power_w(facts, flight).or_else(by_current)?;
        Some(reading(runs, flight, power_w * share))
    });
    trend(TrendOf::HoverPower { check: check.to_owned() }, Unit::Watt, 0, powers.collect(), 5.0)
}

fn vibration(facts: Facts<'_>) -> Option<Trend> {
    let counted = facts.ledger.flights.iter().filter(|flight| flight.down.is_some()).enumerate();
    let rates = counted.filter_map(|(runs, flight)| {
        let minutes = flight.flown_ms().map(|ms| ms as f64 / 60_000.0)?;
        let marks = flight.marks.iter().filter(|mark| matches!(mark.kind, MarkKind::Shake | MarkKind::Sound)).count();
        (minutes >= SHORTEST_MIN).then(|| reading(runs, flight, marks as f64 / minutes))
    });
    trend(TrendOf::Vibration, Unit::Ratio, 1, rates.collect(), 0.25)
}
