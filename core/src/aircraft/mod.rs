//! What is known of the aircraft: its figures, what is fitted to it, its settings and its packs.

use std::collections::BTreeMap;

use crate::plan::{Check, Figure, Limit, Limits, Plan, When};
use crate::record::{Basis, EntryId, Outcome, Thing, ThingKind, ThingRef};

/// The aircraft as the journal describes it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Aircraft {
    /// Its name, empty until it has one.
    pub name: String,
    /// Whose it is.
    pub builder: String,
    /// Who flies it.
    pub pilot: String,
    /// Answers to the plan's questions.
    pub answers: BTreeMap<String, String>,
    /// Figures by the plan's id.
    pub figures: BTreeMap<String, FigureValue>,
    /// Things by kind and name.
    pub things: BTreeMap<ThingRef, Thing>,
    /// Settings by the plan's id.
    pub settings: BTreeMap<String, SettingValue>,
    /// Events that happened to it: the plan's id, and the last entry that says so.
    pub happened: BTreeMap<String, EntryId>,
}

/// A figure with its basis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FigureValue {
    /// In the plan's unit.
    pub value: f64,
    /// Where it comes from.
    pub basis: Basis,
    /// The entry that set it.
    pub entry: EntryId,
}

/// A setting with its past.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SettingValue {
    /// As it is now.
    pub now: String,
    /// Every change: the entry, the value it brought, the reason, and how many motor runs came before.
    pub past: Vec<(EntryId, String, String, u32)>,
}

impl Aircraft {
    /// Whether it, its builder and its pilot have names.
    pub fn is_named(&self) -> bool {
        [&self.name, &self.builder, &self.pilot].into_iter().all(|name| !name.trim().is_empty())
    }

    /// A figure's value.
    pub fn figure(&self, id: &str) -> Option<f64> {
        self.figures.get(id).map(|figure| figure.value)
    }

    /// A limit in numbers; `None` while its figure is missing.
    pub fn limit(&self, limit: &Limit) -> Option<f64> {
        match limit {
            Limit::Number(number) => Some(*number),
            Limit::Figure { figure, times } => self.figure(figure).map(|value| value * times),
        }
    }

    /// Holds a reading against limits.
    ///
    /// # Errors
    /// The id of a figure that a limit waits for: such a reading is judged by nothing yet.
    pub fn judge<'a>(&self, limits: &'a Limits, value: f64) -> Result<Outcome, &'a str> {
        let number = |limit: &'a Option<Limit>| -> Result<Option<f64>, &'a str> {
            match limit {
                None => Ok(None),
                Some(limit @ Limit::Figure { figure, .. }) => self.limit(limit).map(Some).ok_or(figure.as_str()),
                Some(Limit::Number(number)) => Ok(Some(*number)),
            }
        };
        let below = |limit: Option<f64>| limit.is_some_and(|limit| value < limit);
        let above = |limit: Option<f64>| limit.is_some_and(|limit| value > limit);
        if below(number(&limits.stop_below)?) || above(number(&limits.stop_above)?) {
            Ok(Outcome::Stop)
        } else if below(number(&limits.caution_below)?) || above(number(&limits.caution_above)?) {
            Ok(Outcome::Caution)
        } else {
            Ok(Outcome::Pass)
        }
    }

    /// All things of a kind, by name.
    pub fn things_of(&self, kind: ThingKind) -> impl Iterator<Item = &Thing> {
        self.things.values().filter(move |thing| thing.kind == kind)
    }

    /// How many things of a kind there are.
    pub fn count_of(&self, kind: ThingKind) -> u32 {
        u32::try_from(self.things_of(kind).count()).unwrap_or(u32::MAX)
    }

    /// A thing by kind and name.
    pub fn thing(&self, kind: ThingKind, name: &str) -> Option<&Thing> {
        self.things.get(&ThingRef { kind, name: name.to_owned() })
    }

    /// Whether a check is for this aircraft. A question that is not answered yet keeps its checks away: the first gate
    /// waits for the answer. So does a check that an event calls for, until that happened.
    pub fn wants(&self, check: &Check) -> bool {
        let called = check.called_by.is_empty() || check.called_by.iter().any(|id| self.happened.contains_key(id));
        called && self.fits(&check.when)
    }

    /// Whether something of the plan is for this aircraft.
    pub fn fits(&self, when: &When) -> bool {
        when.iter().all(|(question, answers)| self.answers.get(question).is_some_and(|given| answers.contains(given)))
    }

    /// The figure that this one must lie above, where both are known and it does not.
    pub fn out_of_order<'a>(&self, plan: &'a Plan, figure: &Figure) -> Option<&'a Figure> {
        let below = plan.figure(figure.above.as_deref()?)?;
        let (value, floor) = (self.figure(&figure.id)?, self.figure(&below.id)?);
        // Written so that a figure that is no number counts as out of order.
        let rises = value > floor;
        (!rises).then_some(below)
    }
}
