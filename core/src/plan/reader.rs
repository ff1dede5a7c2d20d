//! Notes what is wrong with a plan file while it is read: ids, references, ranges, and what something is for.

use std::collections::{BTreeMap, BTreeSet};

use serde_spanned::Spanned;

use super::fault::PlanFault;
use super::reason::{Named, PlanReason};
use super::source::{AnswersSource, CheckSource, KindSource, PlanSource, WhenSource, Word};
use super::when::When;
use crate::unit::Unit;

/// Turns the source into the model and notes every fault on the way.
pub(super) struct Reader<'a> {
    pub text: &'a str,
    pub faults: Vec<PlanFault>,
}

/// What references in the plan may lead to.
pub(super) struct Known {
    pub figures: BTreeSet<String>,
    pub units: BTreeMap<String, Unit>,
    pub parts: BTreeSet<String>,
    pub settings: BTreeSet<String>,
    pub places: BTreeSet<String>,
    pub cautions: BTreeSet<String>,
    pub events: BTreeSet<String>,
    pub stages: BTreeSet<String>,
    pub gated: BTreeSet<String>,
    pub checks: BTreeSet<String>,
    pub flown: BTreeSet<String>,
    pub answers: BTreeMap<String, BTreeSet<String>>,
}

impl Reader<'_> {
    pub(super) fn fault<T>(&mut self, at: &Spanned<T>, reason: PlanReason) {
        self.faults.push(PlanFault::at(self.text, at.span().start, reason));
    }

    pub(super) fn known(&mut self, source: &PlanSource) -> Known {
        let mut answers = BTreeMap::new();
        for question in &source.questions {
            let choices = self.unique(Named::Choice, question.choices.iter().map(|choice| &choice.id));
            if choices.len() < 2 {
                self.fault(&question.id, PlanReason::FewChoices { question: question.id.get_ref().clone() });
            }
            answers.entry(question.id.get_ref().clone()).or_insert(choices);
        }
        self.unique(Named::Trait, source.questions.iter().map(|question| &question.id));
        Known {
            figures: self.unique(Named::Figure, source.figures.iter().map(|figure| &figure.id)),
            units: source.figures.iter().rev().map(|figure| (figure.id.get_ref().clone(), figure.unit)).collect(),
            parts: self.unique(Named::Part, source.parts.iter().map(|part| &part.id)),
            settings: self.unique(Named::Setting, source.settings.iter().map(|setting| &setting.id)),
            places: self.unique(Named::Place, source.places.iter().map(|place| &place.id)),
            cautions: self.unique(Named::Caution, source.cautions.iter().map(|caution| &caution.id)),
            events: self.unique(Named::Event, source.events.iter().map(|event| &event.id)),
            stages: self.unique(Named::Stage, source.stages.iter().map(|stage| &stage.id)),
            gated: source
                .stages
                .iter()
                .filter(|stage| stage.gate.is_some())
                .map(|stage| stage.id.get_ref().clone())
                .collect(),
            checks: self
                .unique(Named::Check, source.stages.iter().flat_map(|s| s.checks.iter().map(|check| &check.id))),
            flown: source.stages.iter().flat_map(|stage| &stage.checks).filter_map(flown).collect(),
            answers,
        }
    }

    pub(super) fn unique<'b>(&mut self, of: Named, ids: impl Iterator<Item = &'b Word>) -> BTreeSet<String> {
        let mut seen = BTreeSet::new();
        for id in ids {
            self.id(id);
            if !seen.insert(id.get_ref().clone()) {
                self.fault(id, PlanReason::Twice { of, id: id.get_ref().clone() });
            }
        }
        seen
    }

    pub(super) fn id(&mut self, id: &Word) {
        let text = id.get_ref();
        let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
        let words_fit = text.split('-').all(|word| !word.is_empty() && word.chars().all(fits));
        if !words_fit {
            self.fault(id, PlanReason::NoId { text: text.clone() });
        }
    }

    pub(super) fn leads(&mut self, of: Named, id: &Word, known: &BTreeSet<String>) {
        if !known.contains(id.get_ref()) {
            self.fault(id, PlanReason::NotThere { of, id: id.get_ref().clone() });
        }
    }

    /// A figure that has to be there, and in this unit.
    pub(super) fn figure_in<T>(&mut self, at: &Spanned<T>, figure: &str, wanted: Unit, known: &Known) {
        let figure = figure.to_owned();
        match known.units.get(&figure) {
            None => self.fault(at, PlanReason::NotThere { of: Named::Figure, id: figure }),
            Some(is) if *is != wanted => self.fault(at, PlanReason::OtherUnit { figure, is: *is, wanted }),
            Some(_) => {}
        }
    }

    pub(super) fn range(&mut self, low: &Spanned<f64>, high: &Spanned<f64>) {
        let (bottom, top) = (*low.get_ref(), *high.get_ref());
        if !(bottom.is_finite() && top.is_finite() && bottom < top) {
            self.fault(low, PlanReason::Range { low: bottom, high: top });
        }
    }

    pub(super) fn when(&mut self, source: &WhenSource, known: &Known) -> When {
        let mut when = When::new();
        for (question, answers) in source {
            let named = match answers.get_ref() {
                AnswersSource::One(answer) => vec![answer.clone()],
                AnswersSource::Several(several) => several.clone(),
            };
            match known.answers.get(question.get_ref()) {
                None => {
                    self.fault(question, PlanReason::NotThere { of: Named::Trait, id: question.get_ref().clone() })
                }
                Some(choices) => {
                    for answer in named.iter().filter(|answer| !choices.contains(*answer)) {
                        let question = question.get_ref().clone();
                        self.fault(answers, PlanReason::NoAnswer { question, answer: answer.clone() });
                    }
                    if named.is_empty() || choices.iter().all(|choice| named.contains(choice)) {
                        self.fault(answers, PlanReason::TellsNothing);
                    }
                }
            }
            when.insert(question.get_ref().clone(), named);
        }
        when
    }
}

fn flown(check: &CheckSource) -> Option<String> {
    // What has a run and says another kind is told as that.
    (*check.kind.get_ref() == KindSource::Fly || check.fly.is_some()).then(|| check.id.get_ref().clone())
}
