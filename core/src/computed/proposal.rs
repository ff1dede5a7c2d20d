//! The finding that a flight proposes, where a reading lies outside of its prediction: which reading, and the cause that explains most of it.

use super::compared::{Compared, ComparedReading, What, compared};
use super::facts::Facts;
use crate::engineering::disagreement::{Cause, Lies};
use crate::field::Flight;
use crate::record::{EntryId, Outlier};

/// A finding that a disagreement proposes.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// What was read and is furthest out.
    pub what: What,
    /// Where it lies: above its prediction or below.
    pub lies: Lies,
    /// The cause that explains most, of those that can have moved this reading.
    pub cause: Option<Cause>,
    /// The entry that shows it.
    pub shown_by: EntryId,
}

/// What a flight proposes, where something disagrees.
pub fn proposal(facts: Facts<'_>, flight: &Flight) -> Option<Proposal> {
    compared(facts, flight)?.proposal(flight)
}

impl Compared {
    /// What is proposed of the flight that was compared.
    pub fn proposal(&self, flight: &Flight) -> Option<Proposal> {
        // What is furthest out, in widths of its own interval.
        let beyond = |reading: &&ComparedReading| {
            let held = reading.held;
            let out = (held.measured - held.high).max(held.low - held.measured);
            out / (held.high - held.low).max(1e-9)
        };
        let worst = self.disagreeing().max_by(|a, b| beyond(a).total_cmp(&beyond(b)))?;
        let lies = worst.held.lies();
        let cause = self.causes.iter().find(|cause| can_have_moved(cause, &worst.what, lies)).cloned();
        let shown_by = flight.landing.as_ref().map_or(flight.card, |landing| landing.entry);
        Some(Proposal { what: worst.what.clone(), lies, cause, shown_by })
    }
}

impl Proposal {
    /// The reading that it is about, as it is stored: the same in every language.
    pub fn outlier(&self) -> Outlier {
        let reading = match &self.what {
            What::Charge => "charge".to_owned(),
            What::Power => "power".to_owned(),
            What::Current => "current".to_owned(),
            What::Voltage => "voltage".to_owned(),
            What::HeadSpeed => "head-speed".to_owned(),
            What::Place(id) => format!("place:{id}"),
        };
        Outlier { reading, above: self.lies == Lies::Above }
    }
}

/// Whether a cause can have put a reading where it lies: drag takes no power away, and too little air cools nothing.
fn can_have_moved(cause: &Cause, what: &What, lies: Lies) -> bool {
    let above = lies == Lies::Above;
    match cause {
        Cause::DriveDrag { .. } => above && !matches!(what, What::HeadSpeed | What::Voltage),
        Cause::HeadSpeedOff { off, .. } => *what != What::Voltage && above == (*off > 0.0),
        Cause::TiredPack { .. } if *what == What::Voltage => !above,
        Cause::TiredPack { .. } => above && matches!(what, What::Charge | What::Power | What::Current),
        Cause::LittleAir { part, .. } => above && matches!(what, What::Place(id) if id == part),
        Cause::HotAir { .. } => above && matches!(what, What::Place(_)),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use uuid::Uuid;

    use super::*;
    use crate::engineering::disagreement::Held;
    use crate::unit::Unit;

    fn hover(card: EntryId) -> Flight {
        Flight {
            pack: "A".to_owned(),
            head_speed_rpm: 1_100.0,
            planned_s: 240,
            air_c: 20.0,
            ..Flight::drawn(card, "hover-low")
        }
    }

    fn place(id: &str) -> What {
        What::Place(id.to_owned())
    }

    #[test]
    fn a_cause_is_named_only_with_a_reading_that_it_can_have_moved() {
        let drag = Cause::DriveDrag { extra: 0.3 };
        let air = Cause::LittleAir { part: "esc".to_owned(), rise_ratio: 1.4 };
        let slow = Cause::HeadSpeedOff { off: -0.04, explains: None };
        let tired = Cause::TiredPack { ratio: None, extra_current: Some(0.2) };
        let (controller, motor) = (place("esc"), place("motor"));
        let can = can_have_moved;
        assert!(can(&drag, &What::Charge, Lies::Above) && can(&drag, &motor, Lies::Above));
        assert!(!can(&drag, &controller, Lies::Below) && !can(&drag, &What::HeadSpeed, Lies::Above));
        assert!(can(&air, &controller, Lies::Above));
        assert!(!can(&air, &controller, Lies::Below) && !can(&air, &motor, Lies::Above));
        assert!(can(&slow, &What::HeadSpeed, Lies::Below) && !can(&slow, &What::Current, Lies::Above));
        assert!(can(&tired, &What::Current, Lies::Above) && !can(&tired, &motor, Lies::Above));
        assert!(can(&tired, &What::Voltage, Lies::Below) && !can(&drag, &What::Voltage, Lies::Above));
        assert!(!can(&Cause::HotAir { above_k: 7.0 }, &What::Charge, Lies::Above));
    }

    #[test]
    fn the_reading_furthest_out_is_proposed_with_the_first_cause_that_can_have_moved_it() {
        let card = EntryId(Uuid::from_u128(7));
        let flight = hover(card);
        let reading = |what: What, measured: f64| {
            let held = Held { predicted: 100.0, low: 90.0, high: 110.0, measured };
            ComparedReading { what, held, unit: Unit::Watt }
        };
        let causes = vec![
            Cause::TiredPack { ratio: None, extra_current: Some(0.2) },
            Cause::LittleAir { part: "motor".to_owned(), rise_ratio: 1.2 },
            Cause::LittleAir { part: "esc".to_owned(), rise_ratio: 1.4 },
        ];
        let readings = vec![reading(What::Power, 112.0), reading(place("esc"), 130.0), reading(What::Current, 100.0)];
        let compared = Compared { readings, causes: causes.clone(), next: None };
        let proposed = compared.proposal(&flight).unwrap();
        let expected =
            Proposal { what: place("esc"), lies: Lies::Above, cause: causes.last().cloned(), shown_by: card };
        assert_eq!(proposed, expected);
        assert_eq!(proposed.outlier(), Outlier { reading: "place:esc".to_owned(), above: true });

        let too_little = Compared { readings: vec![reading(What::Power, 70.0)], ..compared.clone() };
        assert_eq!(too_little.proposal(&flight).unwrap().cause, None, "none of them takes power away");
        let as_predicted = Compared { readings: vec![reading(What::Power, 100.0)], ..compared };
        assert_eq!(as_predicted.proposal(&flight), None);
    }
}
