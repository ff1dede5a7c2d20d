//! What a computation gives, or why it could not.

use crate::drawing::Picture;
use crate::engineering::{EngineeringError, Grade};
use crate::locale::{Locale, say};
use crate::record::{NamedValue, Outcome, ThingKind, ThingNumber};
use crate::unit::Unit;

/// What a computation gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Computed {
    /// How it is judged.
    pub outcome: Outcome,
    /// The answer in one sentence.
    pub summary: String,
    /// The numbers, each with what qualifies it.
    pub figures: Vec<Figure>,
    /// What is judged by word rather than by number.
    pub rows: Vec<Row>,
    /// The drawing.
    pub picture: Option<Picture>,
    /// What it was computed from and how far it can be trusted.
    pub remarks: Vec<String>,
}

/// One number of an answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is.
    pub label: String,
    /// The number.
    pub value: f64,
    /// Digits behind the point when it is shown.
    pub digits: usize,
    /// Its unit.
    pub unit: Unit,
    /// Limit, margin, interval.
    pub note: Option<String>,
    /// The limit that it was held against, in the same unit, where it is one number.
    pub limit: Option<f64>,
    /// How it is judged; none for a number that only explains.
    pub outcome: Option<Outcome>,
}

/// One judgement of an answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What is judged.
    pub title: String,
    /// The judgement.
    pub word: String,
    /// Why.
    pub detail: String,
    /// Its grade.
    pub outcome: Outcome,
}

/// Why nothing could be computed.
#[derive(Debug, Clone, PartialEq)]
pub enum Lacking {
    /// No thing of this kind was described yet.
    Things(ThingKind),
    /// Not as many things of a kind are described as there are on the aircraft.
    Count {
        /// Their kind.
        kind: ThingKind,
        /// How many are described.
        described: usize,
        /// How many there are.
        wanted: usize,
    },
    /// A thing lacks a number.
    Number {
        /// Its kind.
        kind: ThingKind,
        /// Its name.
        name: String,
        /// Which of them it is.
        field: ThingNumber,
    },
    /// A figure of the aircraft is missing: its id in the plan.
    Figure(String),
    /// A flight of this check has to be flown and jotted down first.
    Flight(String),
    /// Two readings under load are wanted, one light and one heavy, and all that were read lie near this current, A.
    OtherLoad(f64),
    /// A pack has to be read at rest after its flight, lowest and highest cell: its name.
    RestingPack(String),
    /// The numbers do not go together.
    Refused(EngineeringError),
}

impl From<EngineeringError> for Lacking {
    fn from(error: EngineeringError) -> Lacking {
        Lacking::Refused(error)
    }
}

pub(super) type Result<T> = std::result::Result<T, Lacking>;

impl Computed {
    /// The numbers that are kept with the evidence.
    pub fn values(&self, locale: Locale) -> Vec<NamedValue> {
        let value = |name: String, value: f64, unit: Unit| NamedValue { name, value, unit };
        let both = self.figures.iter().flat_map(|figure| {
            let limit = figure
                .limit
                .map(|limit| value(say!(locale, "computed-limit-of", label = figure.label), limit, figure.unit));
            [value(figure.label.clone(), figure.value, figure.unit)].into_iter().chain(limit)
        });
        both.collect()
    }
}

impl Figure {
    /// A number that is judged.
    pub(super) fn judged(
        label: impl Into<String>,
        value: f64,
        digits: usize,
        unit: Unit,
        note: String,
        grade: Grade,
    ) -> Figure {
        Figure { note: Some(note), outcome: Some(outcome(grade)), ..Figure::told(label, value, digits, unit) }
    }

    /// A number that only explains.
    pub(super) fn told(label: impl Into<String>, value: f64, digits: usize, unit: Unit) -> Figure {
        Figure { label: label.into(), value, digits, unit, note: None, limit: None, outcome: None }
    }

    /// Keeps the limit beside it.
    pub(super) fn against(self, limit: f64) -> Figure {
        Figure { limit: Some(limit), ..self }
    }

    /// Says more about it.
    pub(super) fn noted(self, note: impl Into<String>) -> Figure {
        Figure { note: Some(note.into()), ..self }
    }

    /// The number as it is shown.
    pub fn shown(&self) -> String {
        format!("{:.*}", self.digits, self.value)
    }
}

/// A grade of the engineering functions as an outcome of a check.
pub(super) fn outcome(grade: Grade) -> Outcome {
    match grade {
        Grade::Ok => Outcome::Pass,
        Grade::Caution => Outcome::Caution,
        Grade::Stop => Outcome::Stop,
    }
}

/// The one of several things that a headline names: the worst by its grade, and of those the one with the least room.
pub(super) fn worst_first<T>(things: &[T], grade: impl Fn(&T) -> Grade, room: impl Fn(&T) -> f64) -> Option<&T> {
    let by_grade = |a: &&T, b: &&T| grade(b).cmp(&grade(a)).then(room(a).total_cmp(&room(b)));
    things.iter().min_by(by_grade)
}

pub(super) fn worst(grades: impl IntoIterator<Item = Grade>) -> Grade {
    grades.into_iter().max().unwrap_or(Grade::Ok)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_worst_grade_is_named_and_of_one_grade_the_least_room() {
        let things = [("roomy stop", Grade::Stop, 5.0), ("tight", Grade::Ok, -1.0), ("tight stop", Grade::Stop, 2.0)];
        let named = |things: &[(&'static str, Grade, f64)]| worst_first(things, |t| t.1, |t| t.2).map(|t| t.0);
        assert_eq!(named(&things), Some("tight stop"));
        assert_eq!(named(&things[..2]), Some("roomy stop"), "its grade goes before its room");
        assert_eq!(named(&[]), None);
    }
}
