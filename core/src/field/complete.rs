//! When a landing is complete: the one place that says which temperatures a check wants of this aircraft, and whether they are there.

use super::flight::Flight;
use crate::aircraft::Aircraft;
use crate::plan::{Fly, Place, Plan};
use crate::record::{Judgement, Outcome, Reading};

/// The places whose temperature a check wants after its flight, in the order in which they are asked for. A place that this aircraft does
/// not have is not asked for.
pub fn wanted_places<'a>(plan: &'a Plan, aircraft: &Aircraft, fly: &'a Fly) -> impl Iterator<Item = &'a Place> {
    let places = fly.temperatures.iter().filter_map(|id| plan.place(id));
    places.filter(|place| aircraft.fits(&place.when))
}

impl Flight {
    /// Whether it was as it should be, with nothing seen, everything read that its check wants, and every temperature within its limits,
    /// those that were worked back to touchdown too.
    pub fn is_without_fault(&self, plan: &Plan, aircraft: &Aircraft, fly: &Fly) -> bool {
        let Some(landing) = &self.landing else { return false };
        let lack = LandingLack::of(plan, aircraft, fly, self, &landing.temperatures, landing.pack_used_mah);
        lack.is_nothing()
            && self.marks.is_empty()
            && self.timed.is_known()
            && landing.judgement == Judgement::AsItShouldBe
            && self.places(plan).iter().all(|place| place.outcome == Outcome::Pass)
    }
}

/// What a landing lacks of what its check wants.
#[derive(Debug, Clone, PartialEq)]
pub struct LandingLack<'a> {
    /// Places that were not read.
    pub places: Vec<&'a Place>,
    /// Places that were read too late only, and how many seconds after touchdown.
    pub late: Vec<(&'a Place, i64)>,
    /// Whether the charge used was not read though it is held against something.
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
        let (mut places, mut late) = (Vec::new(), Vec::new());
        for place in wanted_places(plan, aircraft, fly) {
            let read = temperatures.iter().filter(|reading| reading.place == place.id);
            match read.min_by_key(|reading| flight.since_touchdown_s(reading)) {
                None => places.push(place),
                Some(first) if flight.is_too_late(first) => late.push((place, flight.since_touchdown_s(first))),
                Some(_) => {}
            }
        }
        // Without it there is nothing to hold the prediction, or the reserve, against, and the next rung would open unproved.
        let is_held = fly.reserve || (fly.predict && flight.prediction.is_some());
        LandingLack { places, late, charge: is_held && used_mah.is_none() }
    }

    /// Whether it lacks nothing.
    pub fn is_nothing(&self) -> bool {
        self.places.is_empty() && self.late.is_empty() && !self.charge
    }
}
