//! The charge that a flight should take: a hover by the fit of power, any other by its hover and what was flown.

use super::Facts;
use super::conditions::Conditions;
use super::ladder::{CHARGE_SLACK, predicted_hover};
use super::on_ground::{hover_s, missing_s};
use crate::engineering::forward::{FlownForward, forward_current};
use crate::engineering::prediction::Interval95;
use crate::field::Flight;
use crate::locale::say;
use crate::plan::{Check, Motion};
use crate::record::Prediction;

/// Flights that count, the newest: the aircraft of years ago is another one.
const NEWEST: usize = 20;
/// Flights at another head speed than this share of the one asked about tell of another hover.
const SAME_SPEED: f64 = 0.03;

/// The charge that a flight of this check should take. None for a run that does not leave the ground, and while figures of the aircraft or its
/// time are missing.
pub fn predicted_charge(facts: Facts<'_>, check: &Check, asked: Conditions) -> Option<Prediction> {
    let drawn = match check.fly()?.motion {
        Motion::Hover => hover(facts, asked),
        Motion::Flight => flight(facts, check, asked),
        Motion::Bench | Motion::Run => None,
    };
    let (current_a, from) = drawn?;
    let hover_s = hover_s(asked.run_s.filter(|run_s| *run_s > 0.0)?, missing_s(facts));
    let charge = |ampere: f64| ampere * 1_000.0 * hover_s / 3_600.0;
    Some(Prediction {
        used_mah: charge(current_a.middle),
        low_mah: charge(current_a.low) * (1.0 - CHARGE_SLACK),
        high_mah: charge(current_a.high) * (1.0 + CHARGE_SLACK),
        from,
    })
}

/// The current of a hover, and where it comes from in words.
fn hover(facts: Facts<'_>, asked: Conditions) -> Option<(Interval95, String)> {
    let (predicted, flown) = predicted_hover(facts, asked)?;
    let from = match flown {
        0 => say!(facts.locale, "computed-ladder-from-figures"),
        1 => say!(facts.locale, "computed-ladder-from-one"),
        flown => say!(facts.locale, "computed-ladder-from-several", flown = flown),
    };
    Some((predicted.current_a, from))
}

/// The mean current of a flight that leaves the hover: by its hover in still air, since its own speed is its wind.
fn flight(facts: Facts<'_>, check: &Check, asked: Conditions) -> Option<(Interval95, String)> {
    let (predicted, _) = predicted_hover(facts, asked.in_still_air())?;
    let hover_a = predicted.current_a;
    let flown = flown_forward(facts, asked).filter(|flight| is_charge_fair(flight)).take(NEWEST);
    let missing_s = missing_s(facts);
    let ratio = |flight: &Flight| {
        let run_s = flight.flown_ms()? as f64 / 1_000.0;
        let current_a = flight.mean_current_ma()? / 1_000.0 * run_s / hover_s(run_s, missing_s);
        let over_hover = current_a / hover_a.middle;
        Some(FlownForward { over_hover, is_alike: flight.check == check.id })
    };
    let flown: Vec<FlownForward> = flown.filter_map(ratio).collect();
    let alike = flown.iter().filter(|flight| flight.is_alike).count();
    let from = match flown.len() {
        0 => say!(facts.locale, "computed-forward-from-hovers"),
        count => say!(facts.locale, "computed-forward-from-flights", count = count, alike = alike),
    };
    Some((forward_current(hover_a, &flown).ok()?, from))
}

/// Flights in the air at the head speed that is asked about, the newest first, without those that were called off.
pub(super) fn flown_forward<'a>(facts: Facts<'a>, asked: Conditions) -> impl Iterator<Item = &'a Flight> {
    let plan = facts.plan;
    let is_near = move |flight: &&Flight| (flight.head_speed_rpm / asked.head_rpm - 1.0).abs() <= SAME_SPEED;
    let is_flight = move |flight: &&Flight| {
        let fly = plan.check(&flight.check).and_then(|(_, check)| check.fly());
        fly.is_some_and(|fly| fly.motion == Motion::Flight) && !flight.is_called_off(plan)
    };
    facts.ledger.flights.iter().rev().filter(is_flight).filter(is_near)
}

/// Whether its charge was read and tells of the aircraft.
fn is_charge_fair(flight: &Flight) -> bool {
    flight.mean_current_ma().is_some() && !flight.is_explained()
}
