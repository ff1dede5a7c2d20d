use super::{Lacking, Result};
use crate::field::Flight;
use crate::locale::Locale;
use crate::plan::{Check, Limit, Motion, Plan};
use crate::readiness::{Ledger, Source};
use crate::record::{CheckResult, Thing, ThingKind, ThingNumber};

/// What a computation may look at: the plan, and everything that the journal says.
#[derive(Debug, Clone, Copy)]
pub struct Facts<'a> {
    /// The plan in force.
    pub plan: &'a Plan,
    /// What the journal says.
    pub ledger: &'a Ledger,
    /// How the person reads; words and shown numbers only, never what is computed.
    pub locale: Locale,
}

impl<'a> Facts<'a> {
    /// A figure of the aircraft.
    pub(super) fn figure(&self, id: &str) -> Result<f64> {
        self.ledger.aircraft.figure(id).ok_or_else(|| Lacking::Figure(id.to_owned()))
    }

    /// A limit in numbers.
    pub(super) fn limit(&self, limit: &Limit) -> Result<f64> {
        self.ledger.aircraft.known_limit(limit).map_err(|figure| Lacking::Figure(figure.to_owned()))
    }

    /// A figure that is a whole number of things. The form takes no other.
    pub(super) fn whole(&self, id: &str) -> Result<u32> {
        self.figure(id).map(|value| value.round().clamp(0.0, f64::from(u32::MAX)) as u32)
    }

    /// All things of a kind.
    pub(super) fn things(&self, kind: ThingKind) -> Vec<&'a Thing> {
        self.ledger.aircraft.things_of(kind).collect()
    }

    /// All things of a kind, of which there must be one.
    pub(super) fn some_things(&self, kind: ThingKind) -> Result<Vec<&'a Thing>> {
        let things = self.things(kind);
        if things.is_empty() { Err(Lacking::Things(kind)) } else { Ok(things) }
    }

    /// Things of a kind, of which there have to be as many as this.
    pub(super) fn so_many_things(&self, kind: ThingKind, wanted: usize) -> Result<Vec<&'a Thing>> {
        let things = self.some_things(kind)?;
        let described = things.len();
        if described == wanted { Ok(things) } else { Err(Lacking::Count { kind, described, wanted }) }
    }

    /// Where in the journal a thing was last described: the newest reading has the highest.
    pub(super) fn described_at(&self, thing: &Thing) -> i64 {
        self.ledger.described.get(&thing.reference()).map_or(0, |described| described.seq)
    }

    /// Motor runs before a thing was last described.
    pub(super) fn runs_before(&self, thing: &Thing) -> u32 {
        self.ledger.described.get(&thing.reference()).map_or(0, |described| described.runs)
    }

    /// Motor runs since a thing was last described.
    pub(super) fn runs_since(&self, thing: &Thing) -> u32 {
        let then = self.ledger.described.get(&thing.reference()).map_or(0, |described| described.runs);
        self.ledger.runs.saturating_sub(then)
    }

    /// Whether a question of the plan was answered like this.
    pub(super) fn answered(&self, question: &str, choice: &str) -> bool {
        self.ledger.aircraft.answers.get(question).is_some_and(|answer| answer == choice)
    }

    /// What a check's evidence in force measured.
    pub(super) fn measured(&self, check: &str) -> Option<f64> {
        match &self.ledger.evidence.get(check)?.of {
            Source::Result(CheckResult::Measured { value, .. }) => Some(*value),
            _ => None,
        }
    }

    /// Hovers that were flown and of which the charge was read, oldest first.
    pub(super) fn hovers(&self) -> impl DoubleEndedIterator<Item = &'a Flight> {
        let (plan, ledger) = (self.plan, self.ledger);
        ledger.flights.iter().filter(move |flight| {
            let fly = plan.check(&flight.check).and_then(|(_, check)| check.fly());
            let hover = fly.is_some_and(|fly| fly.motion == Motion::Hover);
            // A hover that was called off is mostly spool-up: its mean current says nothing.
            hover && flight.mean_current_ma().is_some() && !flight.is_called_off(plan)
        })
    }

    /// The last of them, or the first hover of the plan as what is lacking.
    pub(super) fn last_hover(&self) -> Result<&'a Flight> {
        self.hovers().next_back().ok_or_else(|| {
            let hover = |check: &Check| check.fly().is_some_and(|fly| fly.motion == Motion::Hover);
            let first = self.plan.checks().find(|(_, check)| hover(check));
            Lacking::Flight(first.map_or_else(String::new, |(_, check)| check.id.clone()))
        })
    }
}

/// A thing's number, or that it is lacking.
pub(super) fn number(thing: &Thing, field: ThingNumber) -> Result<f64> {
    thing.number(field).ok_or_else(|| Lacking::Number { kind: thing.kind, name: thing.name.clone(), field })
}
