//! How warm a place should be as a flight ends: a hover by the hovers before, any other by its hover and what was flown.

use super::Facts;
use super::charge::flown_forward;
use super::conditions::Conditions;
use super::ladder::{temperature_after, warmed_to};
use crate::engineering::forward::{FlownForward, forward_rise};
use crate::engineering::prediction::Interval95;
use crate::field::Flight;
use crate::plan::{Check, Motion};

/// Flights that count, the newest: each is held against its own hover, and more than these move the answer little.
const NEWEST: usize = 6;

/// How warm a place should be after a flight of this check, degrees Celsius.
///
/// None before the place was read after a hover, for a run that does not leave the ground, and while figures of the aircraft or its time are
/// missing.
pub fn predicted_temperature(facts: Facts<'_>, check: &Check, place: &str, asked: Conditions) -> Option<Interval95> {
    let all: Vec<&Flight> = facts.hovers().collect();
    let hovers = Hovers { facts, hovers: &all, place };
    match check.fly()?.motion {
        Motion::Hover => hovers.after(asked),
        Motion::Flight => hovers.after_flight(&check.id, asked, flown_forward(facts, asked)),
        Motion::Bench | Motion::Run => None,
    }
}

/// One place, and the hovers that it is predicted from.
pub(super) struct Hovers<'a> {
    pub facts: Facts<'a>,
    pub hovers: &'a [&'a Flight],
    pub place: &'a str,
}

impl Hovers<'_> {
    /// After a hover.
    pub fn after(&self, asked: Conditions) -> Option<Interval95> {
        temperature_after(self.facts, self.hovers.iter().copied(), self.place, asked)
    }

    /// After a flight of this check that leaves the hover, from such flights, the newest first: by its hover in still air, since its own speed
    /// is its wind.
    pub fn after_flight<'f>(
        &self,
        check: &str,
        asked: Conditions,
        flown: impl Iterator<Item = &'f Flight>,
    ) -> Option<Interval95> {
        let over_hover = |flight: &Flight| {
            let read_c = warmed_to(self.facts, flight, self.place)?;
            let over_hover = (read_c - flight.air_c) / self.rise(Conditions::of(flight))?.middle;
            (0.05..=20.0)
                .contains(&over_hover)
                .then_some(FlownForward { over_hover, is_alike: flight.check == check })
        };
        let flown: Vec<FlownForward> = flown.filter_map(over_hover).take(NEWEST).collect();
        let rise_k = forward_rise(self.rise(asked)?, &flown).ok()?;
        Some(rise_k.map(|kelvin| asked.air_c + kelvin))
    }

    /// Over the air, after a hover in still air, K.
    fn rise(&self, asked: Conditions) -> Option<Interval95> {
        Some(self.after(asked.in_still_air())?.map(|celsius| celsius - asked.air_c))
    }
}
