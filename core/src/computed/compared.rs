//! One hover's predictions beside what was read of it, the causes that its figures support where they disagree, and the next hover as the
//! fit with this one in it has it.

use super::Facts;
use super::charge::flown_forward;
use super::conditions::Conditions;
use super::ladder::{CHARGE_SLACK, fitted_hovers, fitted_steps, step};
use super::landing_heat::Hovers;
use super::on_ground::{logged_hover_a, logged_hover_w};
use super::packs::last_resistance_mohm;
use crate::engineering::disagreement::{
    Cause, HeadSpeed, Held, Lies, PackResistance, PartHeat, SPEED_TOLERANCE, Shown, likely_causes,
};
use crate::engineering::prediction::{Interval95, LadderPrediction};
use crate::field::Flight;
use crate::plan::{Motion, Place};
use crate::record::{AttachedLog, Thing, ThingKind, ThingNumber};
use crate::telemetry::Quantity;
use crate::telemetry::summary::{FigureKind, LogFigure};
use crate::unit::Unit;

/// A pack's first logs, the best of which stands for the new pack.
const FIRST_LOGS: usize = 3;

/// What was read of a flight, beside what was predicted of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// Each reading with its prediction.
    pub readings: Vec<ComparedReading>,
    /// What the figures support as causes, where something disagrees; a part in them is a place's id.
    pub causes: Vec<Cause>,
    /// The next hover, where there is one.
    pub next: Option<NextHover>,
}

/// A reading with its prediction.
#[derive(Debug, Clone, PartialEq)]
pub struct ComparedReading {
    /// What was read.
    pub what: What,
    /// Both, in this unit.
    pub held: Held,
    /// The unit.
    pub unit: Unit,
}

/// What was read.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// Charge taken.
    Charge,
    /// Mean power in hover, by the log.
    Power,
    /// Mean current in hover, by the log.
    Current,
    /// Mean voltage under load in hover, by the log.
    Voltage,
    /// Head speed in hover, by the log.
    HeadSpeed,
    /// A place's temperature: the place's id.
    Place(String),
}

/// The next hover as it is predicted now.
#[derive(Debug, Clone, PartialEq)]
pub struct NextHover {
    /// Its check.
    pub check: String,
    /// Its head speed, rpm.
    pub head_speed_rpm: f64,
    /// Current, A.
    pub current_a: Interval95,
    /// Hovers that went in.
    pub hovers: usize,
    /// Whether this one did; one that was explained or became a finding does not.
    pub with_this: bool,
}

/// Compares a flight: a hover in all that was read, any other in its charge and its temperatures. None for what did not leave the ground, was
/// called off, or is not down yet.
pub fn compared(facts: Facts<'_>, flight: &Flight) -> Option<Compared> {
    let fly = facts.plan.check(&flight.check).and_then(|(_, check)| check.fly())?;
    let whole = flight.flown_ms().is_some() && !flight.is_called_off(facts.plan);
    if !matches!(fly.motion, Motion::Hover | Motion::Flight) || !whole {
        return None;
    }
    let log = facts.ledger.logs.of_flight(flight.card);
    let looked = Looked { facts, flight, log, earlier: earlier(facts, flight) };
    if fly.motion == Motion::Flight {
        // What it drew and how it warmed on its way tell no causes apart.
        return Some(Compared { readings: looked.readings_of_flight(), causes: Vec::new(), next: None });
    }
    let readings = looked.readings();
    let causes = looked.shown(&readings).and_then(|shown| likely_causes(&shown).ok()).unwrap_or_default();
    Some(Compared { readings, causes, next: next(facts, flight) })
}

impl Compared {
    /// The readings that lie outside of their prediction.
    pub fn disagreeing(&self) -> impl Iterator<Item = &ComparedReading> {
        self.readings.iter().filter(|reading| reading.held.lies() != Lies::Within)
    }
}

/// The hovers before this one.
fn earlier<'a>(facts: Facts<'a>, flight: &Flight) -> Vec<&'a Flight> {
    let before: Vec<_> =
        facts.ledger.flights.iter().map(|f| f.card).take_while(|card| *card != flight.card).collect();
    facts.hovers().filter(|hover| before.contains(&hover.card)).collect()
}

struct Looked<'a> {
    facts: Facts<'a>,
    flight: &'a Flight,
    log: Option<&'a AttachedLog>,
    earlier: Vec<&'a Flight>,
}

impl Looked<'_> {
    fn readings(&self) -> Vec<ComparedReading> {
        let reading = |what: What, unit: Unit| move |held: Held| ComparedReading { what: what.clone(), held, unit };
        let mut readings: Vec<ComparedReading> = Vec::new();
        readings.extend(self.charge().map(reading(What::Charge, Unit::MilliampereHour)));
        let expected = self.expected(self.flight.head_speed_rpm);
        if let Some(expected) = &expected {
            let power = self.power_w().map(|w| slack(&expected.power_w, w));
            readings.extend(power.map(reading(What::Power, Unit::Watt)));
            let current = self.current_a().map(|a| slack(&expected.current_a, a));
            readings.extend(current.map(reading(What::Current, Unit::Ampere)));
            let volts = drawn_v(self.log).map(|volts| on(&expected.loaded_v, volts));
            readings.extend(volts.map(reading(What::Voltage, Unit::Volt)));
        }
        readings.extend(self.head_speed().map(reading(What::HeadSpeed, Unit::RevolutionsPerMinute)));
        readings.extend(self.places(|hovers| hovers.after(Conditions::of(self.flight))));
        readings
    }

    /// Of one that left the hover.
    fn readings_of_flight(&self) -> Vec<ComparedReading> {
        let charge =
            self.charge().map(|held| ComparedReading { what: What::Charge, held, unit: Unit::MilliampereHour });
        let asked = Conditions::of(self.flight);
        let before = || flown_forward(self.facts, asked).skip_while(|flown| flown.card != self.flight.card).skip(1);
        let places = self.places(|hovers| hovers.after_flight(&self.flight.check, asked, before()));
        charge.into_iter().chain(places).collect()
    }

    /// Each place's temperature, as it was jotted, against what the flights before this one showed there.
    fn places(&self, expected: impl Fn(&Hovers<'_>) -> Option<Interval95>) -> Vec<ComparedReading> {
        let held = |place: &str| {
            let measured = self.flight.hottest_reading(place)?;
            Some(on(&expected(&Hovers { facts: self.facts, hovers: &self.earlier, place })?, measured))
        };
        let read = |place: &Place| {
            Some(ComparedReading { what: What::Place(place.id.clone()), held: held(&place.id)?, unit: Unit::Celsius })
        };
        self.facts.plan.places.iter().filter_map(read).collect()
    }

    fn charge(&self) -> Option<Held> {
        let expected = self.flight.expected()?;
        let jotted = self.flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
        let measured = jotted.or_else(|| Some(self.figure(FigureKind::Charge, None)?.value))?;
        Some(expected.held(measured))
    }

    /// What the hovers before this one predict at a head speed in this flight's air.
    fn expected(&self, head_rpm: f64) -> Option<LadderPrediction> {
        let steps = fitted_steps(self.facts, self.earlier.iter().copied()).ok()?;
        step(self.facts, steps, Conditions { head_rpm, ..Conditions::of(self.flight) }).ok()
    }

    fn figure(&self, kind: FigureKind, quantity: Option<Quantity>) -> Option<&LogFigure> {
        let log = self.log?;
        let is_of = |figure: &&LogFigure| {
            let of = figure.channel.and_then(|channel| log.map.columns.get(channel as usize));
            figure.kind == kind && (quantity.is_none() || of.map(|column| column.quantity) == quantity)
        };
        log.figures.iter().find(is_of)
    }

    fn current_a(&self) -> Option<f64> {
        logged_hover_a(self.log?)
    }

    fn power_w(&self) -> Option<f64> {
        logged_hover_w(self.log?)
    }

    fn head_speed(&self) -> Option<Held> {
        let read_rpm = self.figure(FigureKind::HoverAverage, Some(Quantity::HeadSpeed))?.value;
        let set_rpm = self.flight.head_speed_rpm;
        let (low, high) = (set_rpm * (1.0 - SPEED_TOLERANCE), set_rpm * (1.0 + SPEED_TOLERANCE));
        Some(Held { predicted: set_rpm, low, high, measured: read_rpm })
    }

    /// The same readings, as the question for the causes.
    fn shown(&self, readings: &[ComparedReading]) -> Option<Shown> {
        let held = |what: &What| readings.iter().find(|reading| reading.what == *what).map(|reading| reading.held);
        let (power, current, voltage) = (held(&What::Power), held(&What::Current), held(&What::Voltage));
        // Without a log the charge tells of the draw: both go alike.
        let draw = power.or(current).or(held(&What::Charge));
        let speed =
            held(&What::HeadSpeed).map(|speed| HeadSpeed { set_rpm: speed.predicted, read_rpm: speed.measured });
        let at_read = speed.and_then(|speed| {
            let expected = self.expected(speed.read_rpm)?;
            let interval = if power.is_some() { expected.power_w } else { expected.current_a };
            // The charge is of a whole flight: it is not predicted again.
            (power.is_some() || current.is_some()).then_some(slack(&interval, draw?.measured))
        });
        let parts = readings.iter().filter_map(|reading| match &reading.what {
            What::Place(id) => Some(PartHeat { part: id.clone(), celsius: reading.held }),
            _ => None,
        });
        Some(Shown {
            draw,
            draw_at_read_speed: at_read,
            current: power.and(current),
            voltage: power.and(voltage),
            head_speed: speed,
            resistance: self.resistance(),
            parts: parts.collect(),
            air_c: self.flight.air_c,
            warmest_before_c: self.earlier.iter().map(|hover| hover.air_c).reduce(f64::max),
        })
    }

    /// By the logs of the same packs alone, or by readings alone: a log's resistance and a meter's are not of one kind (IEC 61960-3 keeps
    /// alternating and direct current apart).
    fn resistance(&self) -> Option<PackResistance> {
        match self.logged_mohm(self.flight) {
            Some((now_mohm, half_mohm)) => {
                let same = |hover: &&&Flight| hover.packs().eq(self.flight.packs());
                let first = self.earlier.iter().filter(same).filter_map(|hover| self.logged_mohm(hover));
                let new_mohm = first.take(FIRST_LOGS).map(|(mohm, _)| mohm).reduce(f64::min)?;
                let least_now_ohm = (now_mohm - half_mohm).max(0.0) / 1_000.0;
                Some(PackResistance { new_ohm: new_mohm / 1_000.0, least_now_ohm })
            }
            None => self.read_resistance(),
        }
    }

    /// Resistance by a flight's log, with its half width, in milliohm.
    fn logged_mohm(&self, flight: &Flight) -> Option<(f64, f64)> {
        let log = self.facts.ledger.logs.of_flight(flight.card)?;
        let figure = log.figures.iter().find(|figure| figure.kind == FigureKind::Resistance)?;
        Some((figure.value, figure.half_width.unwrap_or(0.0))).filter(|(mohm, _)| *mohm > 0.0)
    }

    fn read_resistance(&self) -> Option<PackResistance> {
        let pack = |name| self.facts.ledger.aircraft.thing(ThingKind::Pack, name);
        let packs = self.flight.packs().map(pack).collect::<Option<Vec<&Thing>>>()?;
        // In series they add up.
        let all = |of: &dyn Fn(&Thing) -> Option<f64>| packs.iter().map(|pack| of(pack)).sum::<Option<f64>>();
        let new_ohm = all(&|pack| pack.number(ThingNumber::NewMohm))? / 1_000.0;
        let now_mohm = all(&|pack| last_resistance_mohm(self.facts, pack))?;
        Some(PackResistance { new_ohm, least_now_ohm: now_mohm.max(0.0) / 1_000.0 })
    }
}

fn on(interval: &Interval95, measured: f64) -> Held {
    Held { predicted: interval.middle, low: interval.low, high: interval.high, measured }
}

/// Voltage under load, by a log that has power and current of the hover.
fn drawn_v(log: Option<&AttachedLog>) -> Option<f64> {
    Some(logged_hover_w(log?)? / logged_hover_a(log?)?)
}

/// A logged mean against a prediction, with the room for the meters that a charge has as well.
fn slack(interval: &Interval95, measured: f64) -> Held {
    let (low, high) = (interval.low * (1.0 - CHARGE_SLACK), interval.high * (1.0 + CHARGE_SLACK));
    Held { predicted: interval.middle, low, high, measured }
}

/// The hover after this one in the plan, from all that were flown.
fn next(facts: Facts<'_>, flight: &Flight) -> Option<NextHover> {
    let after = facts.plan.checks().skip_while(|(_, check)| check.id != flight.check).skip(1);
    let hover =
        |check: &crate::plan::Check| check.fly().is_some_and(|fly| fly.motion == Motion::Hover && fly.predict);
    let (_, check) = after.into_iter().find(|(_, check)| hover(check) && facts.ledger.aircraft.wants(check))?;
    let head_speed_rpm = facts.ledger.aircraft.limit(&check.fly()?.head_speed_rpm)?;
    let last = Conditions::to_fit(facts.hovers().next_back()?);
    let hovers = fitted_hovers(facts, facts.hovers());
    let steps = fitted_steps(facts, facts.hovers()).ok()?;
    let predicted = step(facts, steps, Conditions { head_rpm: head_speed_rpm, ..last }).ok()?;
    let with_this = hovers.iter().any(|hover| hover.card == flight.card);
    let current_a = predicted.current_a;
    Some(NextHover { check: check.id.clone(), head_speed_rpm, current_a, hovers: hovers.len(), with_this })
}
