//! When a landing is complete: the one place that says which temperatures a check wants of this aircraft, and whether they are there.

use super::flight::Flight;
use crate::aircraft::Aircraft;
use crate::plan::{Fly, Place, Plan};
use crate::record::Reading;

/// The places whose temperature a check wants after its flight, in the order in which they are asked for. A place that this aircraft does
/// not have is not asked for.
pub fn wanted_places<'a>(plan: &'a Plan, aircraft: &Aircraft, fly: &'a Fly) -> impl Iterator<Item = &'a Place> {
    let places = fly.temperatures.iter().filter_map(|id| plan.place(id));
    places.filter(|place| aircraft.fits(&place.when))
}

/// What a landing lacks of what its check wants.
#[derive(Debug, Clone, PartialEq)]
pub struct LandingLack<'a> {
    /// Places that were not read.
    pub places: Vec<&'a Place>,
    /// Whether the charge used was not read though the flight was predicted.
    pub charge: bool,
}

impl<'a> LandingLack<'a> {
    /// What these readings of a flight lack.
    pub fn of(
        plan: &'a Plan,
        aircraft: &Aircraft,
        fly: &'a Fly,
        flight: &Flight,
        temperatures: &[Reading],
        used_mah: Option<f64>,
    ) -> LandingLack<'a> {
        let is_read = |place: &&Place| temperatures.iter().any(|reading| reading.place == place.id);
        LandingLack {
            places: wanted_places(plan, aircraft, fly).filter(|place| !is_read(place)).collect(),
            // Without it there is nothing to hold the prediction against, and the next rung would open unproved.
            charge: fly.predict && flight.prediction.is_some() && used_mah.is_none(),
        }
    }

    /// Whether it lacks nothing.
    pub fn is_nothing(&self) -> bool {
        self.places.is_empty() && !self.charge
    }
}
