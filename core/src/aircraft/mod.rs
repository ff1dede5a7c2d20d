//! What is known of the aircraft: its figures, what is fitted to it, its settings and its packs.

use std::collections::BTreeMap;

use crate::plan::{Check, Limit, Limits};
use crate::record::{Basis, EntryId, Outcome, Thing, ThingKind, ThingRef};

/// The aircraft as the journal describes it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Aircraft {
    /// Its name, empty until it has one.
    pub name: String,
    /// Whose it is.
    pub builder: String,
    /// Answers to the plan's questions.
    pub answers: BTreeMap<String, String>,
    /// Figures by the plan's id.
    pub figures: BTreeMap<String, FigureValue>,
    /// Things by kind and name.
    pub things: BTreeMap<ThingRef, Thing>,
    /// Settings by the plan's id.
    pub settings: BTreeMap<String, SettingValue>,
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

    /// A thing by kind and name.
    pub fn thing(&self, kind: ThingKind, name: &str) -> Option<&Thing> {
        self.things.get(&ThingRef { kind, name: name.to_owned() })
    }

    /// Whether a check is for this aircraft. A question that is not answered yet keeps its checks away: the first gate
    /// waits for the answer.
    pub fn wants(&self, check: &Check) -> bool {
        check.when.iter().all(|(question, answer)| self.answers.get(question) == Some(answer))
    }
}
