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

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::field::{Landing, Mark, Timed};
    use crate::record::{EntryId, MarkKind, Moment, Prediction};

    /// The tests' small plan, in which only an aircraft with a shrouded tail has a battery to read.
    fn plan() -> Plan {
        let text = include_str!("../../tests/common/small_plan.toml");
        let place = "id = \"battery\"\n";
        let text = text.replacen(place, &format!("{place}when = {{ tail = [\"shrouded\"] }}\n"), 1);
        Plan::parse("small_plan.toml", &text).unwrap()
    }

    fn aircraft(tail: &str) -> Aircraft {
        Aircraft { answers: [("tail".to_owned(), tail.to_owned())].into(), ..Aircraft::default() }
    }

    fn entry() -> EntryId {
        EntryId(uuid::Uuid::nil())
    }

    fn reading(place: &str, after_s: i64) -> Reading {
        Reading { place: place.to_owned(), celsius: 45.0, after_s }
    }

    /// A good flight of a check that is down, by the phone's clock.
    fn flight(check: &str, predicted: bool) -> Flight {
        let wall = chrono::DateTime::parse_from_rfc3339("2026-05-04T08:00:00+02:00").unwrap();
        let at = Moment { wall, monotonic_ms: 0, boot: "one".to_owned() };
        let prediction = predicted.then(|| Prediction {
            used_mah: 1_000.0,
            low_mah: 900.0,
            high_mah: 1_100.0,
            from: String::new(),
        });
        let (planned_s, air_c) = (120, 15.0);
        Flight {
            prediction,
            planned_s,
            air_c,
            down: Some((at, 120_000)),
            timed: Timed::ByClock,
            ..Flight::drawn(entry(), check)
        }
    }

    fn landing(temperatures: Vec<Reading>, pack_used_mah: Option<f64>) -> Landing {
        let judgement = Judgement::AsItShouldBe;
        Landing { entry: entry(), pack_used_mah, temperatures, notes: None, judgement, confirmed: Vec::new() }
    }

    fn lack(tail: &str, flight: &Flight, read: &[Reading], used_mah: Option<f64>) -> (Vec<String>, Vec<i64>, bool) {
        let (plan, aircraft) = (plan(), aircraft(tail));
        let fly = plan.check(&flight.check).unwrap().1.fly().unwrap();
        let lack = LandingLack::of(&plan, &aircraft, fly, flight, read, used_mah);
        let (places, late) = (&lack.places, &lack.late);
        assert_eq!(lack.is_nothing(), places.is_empty() && late.is_empty() && !lack.charge);
        let places = places.iter().map(|place| place.id.clone()).collect();
        (places, late.iter().map(|(_, after_s)| *after_s).collect(), lack.charge)
    }

    #[test]
    fn a_place_that_the_aircraft_does_not_have_is_not_wanted() {
        let of = |tail: &str| lack(tail, &flight("rung-2", false), &[reading("motor", 30)], None).0;
        assert_eq!(of("shrouded"), ["battery"]);
        assert!(of("open").is_empty());
        let unread = lack("shrouded", &flight("rung-2", false), &[], None).0;
        assert_eq!(unread, ["motor", "battery"], "in the check's order");
    }

    #[test]
    fn a_place_that_was_read_too_late_is_wanted_again() {
        let of = |read: &[Reading]| lack("open", &flight("rung-2", false), read, None);
        assert_eq!(of(&[reading("motor", 600)]), (vec![], vec![], false));
        assert_eq!(of(&[reading("motor", 601)]), (vec![], vec![601], false));
        let earlier = of(&[reading("motor", 601), reading("motor", 30)]);
        assert_eq!(earlier, (vec![], vec![], false), "the earliest of a place decides");
        assert_eq!(of(&[reading("battery", 30)]).0, ["motor"], "one place is not another");
    }

    #[test]
    fn a_charge_is_wanted_where_something_is_held_against_it() {
        let of =
            |check: &str, predicted, used| lack("open", &flight(check, predicted), &[reading("motor", 30)], used).2;
        assert!(of("rung-1", true, None));
        assert!(!of("rung-1", true, Some(1_000.0)));
        assert!(!of("rung-1", false, None), "nothing was predicted");
        assert!(!of("run-up", true, None), "a run on the ground is held against nothing");
    }

    #[test]
    fn a_flight_is_without_fault_only_where_nothing_lacks_and_nothing_was_seen() {
        let (plan, aircraft) = (plan(), aircraft("open"));
        let fly = plan.check("rung-1").unwrap().1.fly().unwrap();
        let is_good = |flight: &Flight| flight.is_without_fault(&plan, &aircraft, fly);
        let read = || landing(vec![reading("motor", 30)], Some(1_000.0));
        let good = Flight { landing: Some(read()), ..flight("rung-1", true) };
        assert!(is_good(&good));
        let with = |landing: Landing| Flight { landing: Some(landing), ..good.clone() };
        let mark = Mark { kind: MarkKind::ALL[0], elapsed_ms: 1, entry: entry(), answer: None };
        for (why, flight) in [
            ("nothing was jotted", Flight { landing: None, ..good.clone() }),
            ("a place lacks", with(landing(vec![], Some(1_000.0)))),
            ("the charge lacks", with(landing(vec![reading("motor", 30)], None))),
            ("not as it should be", with(Landing { judgement: Judgement::Open, ..read() })),
            (
                "past its caution",
                with(landing(vec![Reading { celsius: 81.0, ..reading("motor", 30) }], Some(1_000.0))),
            ),
            ("something was noted", Flight { marks: vec![mark], ..good.clone() }),
            ("how long is not known", Flight { timed: Timed::AtLeast, ..good.clone() }),
        ] {
            assert!(!is_good(&flight), "{why}");
        }
    }
}
