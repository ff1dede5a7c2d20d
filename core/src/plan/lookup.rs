//! The way from an id to what a plan has under it.

use super::check::{Check, OnFile};
use super::model::{Caution, Event, Figure, Part, Place, Plan, Question, Setting, Stage};
use super::subject::Subject;
use crate::locale::Locale;
use crate::record::ThingKind;

impl Plan {
    /// A stage by its id.
    pub fn stage(&self, id: &str) -> Option<&Stage> {
        self.stages.iter().find(|stage| stage.id == id)
    }

    /// Place of a stage in the order of the plan.
    pub fn stage_index(&self, id: &str) -> Option<usize> {
        self.stages.iter().position(|stage| stage.id == id)
    }

    /// A check by its id, with its stage.
    pub fn check(&self, id: &str) -> Option<(&Stage, &Check)> {
        self.checks().find(|(_, check)| check.id == id)
    }

    /// All checks with their stages, in order.
    pub fn checks(&self) -> impl Iterator<Item = (&Stage, &Check)> {
        self.stages.iter().flat_map(|stage| stage.checks.iter().map(move |check| (stage, check)))
    }

    /// Whether what this check asks for leaves the ground and so touches down; a check that the plan no longer has counts as flown.
    pub fn leaves_ground(&self, check: &str) -> bool {
        self.check(check).and_then(|(_, check)| check.fly()).is_none_or(|fly| fly.motion.leaves_ground())
    }

    /// A figure by its id.
    pub fn figure(&self, id: &str) -> Option<&Figure> {
        self.figures.iter().find(|figure| figure.id == id)
    }

    /// A part by its id.
    pub fn part(&self, id: &str) -> Option<&Part> {
        self.parts.iter().find(|part| part.id == id)
    }

    /// A setting by its id.
    pub fn setting(&self, id: &str) -> Option<&Setting> {
        self.settings.iter().find(|setting| setting.id == id)
    }

    /// A place by its id.
    pub fn place(&self, id: &str) -> Option<&Place> {
        self.places.iter().find(|place| place.id == id)
    }

    /// A caution by its id.
    pub fn caution(&self, id: &str) -> Option<&Caution> {
        self.cautions.iter().find(|caution| caution.id == id)
    }

    /// An event by its id.
    pub fn event(&self, id: &str) -> Option<&Event> {
        self.events.iter().find(|event| event.id == id)
    }

    /// A question by its id.
    pub fn question(&self, id: &str) -> Option<&Question> {
        self.questions.iter().find(|question| question.id == id)
    }

    /// What a subject is called, for a person.
    pub fn subject_words(&self, locale: Locale, subject: &Subject) -> String {
        match subject {
            Subject::Part(id)
            | Subject::Setting(id)
            | Subject::Figure(id)
            | Subject::Check(id)
            | Subject::Event(id) => self.subject_title(subject).unwrap_or(id).to_owned(),
            untitled => untitled.words(locale).unwrap_or_default(),
        }
    }

    /// What is on file of the same thing as a reading.
    pub fn on_file_words(&self, locale: Locale, with: &OnFile) -> String {
        match with {
            OnFile::Figure(id) => self.subject_words(locale, &Subject::Figure(id.clone())),
            OnFile::Scales => ThingKind::Weighing.words(locale),
        }
    }

    /// The same whatever the language: the plan's title, or the name as a plan has it.
    pub fn subject_name(&self, subject: &Subject) -> String {
        match subject {
            Subject::Part(id)
            | Subject::Setting(id)
            | Subject::Figure(id)
            | Subject::Check(id)
            | Subject::Event(id) => self.subject_title(subject).unwrap_or(id).to_owned(),
            untitled => untitled.to_string(),
        }
    }

    /// The title that this plan gives to what evidence rests on; none where it gives none or no longer has it.
    pub fn subject_title(&self, subject: &Subject) -> Option<&str> {
        match subject {
            Subject::Part(id) => self.part(id).map(|p| p.title.as_str()),
            Subject::Setting(id) => self.setting(id).map(|s| s.title.as_str()),
            Subject::Figure(id) => self.figure(id).map(|f| f.title.as_str()),
            Subject::Check(id) => self.check(id).map(|(_, c)| c.title.as_str()),
            Subject::Event(id) => self.event(id).map(|e| e.title.as_str()),
            _ => None,
        }
    }
}
