//! Turns a plan file's stages, figures and other items into the model.

use std::collections::BTreeMap;

use super::check::Check;
use super::circle::circle_from;
use super::model::{Caution, Event, Figure, FromFigure, Part, Place, Plan, Question, Setting, Stage};
use super::reader::{Known, Reader};
use super::reason::{Named, PlanReason};
use super::source::{CheckSource, FigureSource, NamedSource, PlaceSource, PlanSource, QuestionSource, Word, words};
use super::subject::Subject;

impl Reader<'_> {
    pub(super) fn plan(&mut self, source: PlanSource) -> Plan {
        self.id(&source.id);
        if source.stages.is_empty() {
            self.fault(&source.id, PlanReason::NoStage);
        }
        let known = self.known(&source);
        let stages = self.stages(&source, &known);
        Plan {
            id: source.id.into_inner(),
            title: source.title,
            edition: source.edition,
            notice: source.notice,
            questions: source.questions.into_iter().map(|question| self.question(question, &known)).collect(),
            figures: self.figures(source.figures, &known),
            parts: source.parts.into_iter().map(|part| self.part(part, &known)).collect(),
            settings: source.settings.into_iter().map(|setting| self.setting(setting, &known)).collect(),
            places: source.places.into_iter().map(|place| self.place(place, &known)).collect(),
            cautions: source
                .cautions
                .into_iter()
                .map(|c| Caution { id: c.id.into_inner(), title: c.title, text: c.text })
                .collect(),
            events: source
                .events
                .into_iter()
                .map(|e| Event { id: e.id.into_inner(), title: e.title, text: e.text })
                .collect(),
            stages,
        }
    }

    fn question(&mut self, source: QuestionSource, known: &Known) -> Question {
        let bounds: Vec<Option<f64>> =
            source.choices.iter().map(|choice| choice.up_to.as_ref().map(|b| *b.get_ref())).collect();
        let up_to: Vec<f64> = bounds.iter().copied().flatten().collect();
        let is_right = match (&source.from, bounds.split_last()) {
            (Some(_), Some((None, before))) => {
                let rises = up_to.windows(2).all(|pair| pair[0] < pair[1]);
                before.iter().all(|bound| bound.is_some_and(f64::is_finite)) && rises
            }
            (Some(_), _) => false,
            (None, _) => up_to.is_empty(),
        };
        if !is_right {
            self.fault(&source.id, PlanReason::UpTo { question: source.id.get_ref().clone() });
        }
        let from = source.from.as_ref().map(|figure| {
            self.leads(Named::Figure, figure, &known.figures);
            FromFigure { figure: figure.get_ref().clone(), up_to }
        });
        Question {
            id: source.id.into_inner(),
            text: source.question,
            choices: source.choices.into_iter().map(|choice| (choice.id.into_inner(), choice.label)).collect(),
            from,
        }
    }

    fn figures(&mut self, sources: Vec<FigureSource>, known: &Known) -> Vec<Figure> {
        let owned: BTreeMap<String, Vec<String>> = sources
            .iter()
            .map(|f| (f.id.get_ref().clone(), f.above.iter().map(|above| above.get_ref().clone()).collect()))
            .collect();
        let waits: BTreeMap<&str, Vec<&str>> =
            owned.iter().map(|(id, on)| (id.as_str(), on.iter().map(String::as_str).collect())).collect();
        for figure in &sources {
            if let Some(way) = circle_from(figure.id.get_ref(), &waits) {
                self.fault(&figure.id, PlanReason::Circle { of: Named::Figure, way });
                break;
            }
        }
        sources.into_iter().map(|figure| self.figure(figure, known)).collect()
    }

    fn figure(&mut self, source: FigureSource, known: &Known) -> Figure {
        self.range(&source.low, &source.high);
        let when = self.when(&source.when, known);
        let above = self.above(&source, known);
        Figure {
            when,
            above,
            adjustable: source.adjustable,
            id: source.id.into_inner(),
            title: source.title,
            unit: source.unit,
            low: source.low.into_inner(),
            high: source.high.into_inner(),
            required: source.required,
            why: source.why,
        }
    }

    fn above(&mut self, source: &FigureSource, known: &Known) -> Option<String> {
        let above = source.above.as_ref()?;
        self.figure_in(above, above.get_ref(), source.unit, known);
        Some(above.get_ref().clone())
    }

    fn part(&mut self, source: NamedSource, known: &Known) -> Part {
        let when = self.when(&source.when, known);
        Part { id: source.id.into_inner(), title: source.title, when }
    }

    fn setting(&mut self, source: NamedSource, known: &Known) -> Setting {
        let when = self.when(&source.when, known);
        Setting { id: source.id.into_inner(), title: source.title, unit: source.unit, when }
    }

    fn place(&mut self, source: PlaceSource, known: &Known) -> Place {
        self.range(&source.caution_above_c, &source.stop_above_c);
        let when = self.when(&source.when, known);
        Place {
            when,
            id: source.id.into_inner(),
            title: source.title,
            caution_above_c: source.caution_above_c.into_inner(),
            stop_above_c: source.stop_above_c.into_inner(),
            is_winding: source.winding,
            basis: source.basis,
        }
    }

    fn stages(&mut self, source: &PlanSource, known: &Known) -> Vec<Stage> {
        let mut stages: Vec<Stage> = Vec::new();
        for stage in &source.stages {
            let after = match &stage.after {
                Some(named) => {
                    named.iter().for_each(|id| self.leads_to_gate(id, known));
                    named.iter().map(|id| id.get_ref().clone()).collect()
                }
                None => stages.iter().rev().find(|s| s.gate.is_some()).map(|s| s.id.clone()).into_iter().collect(),
            };
            if !(1..=10).contains(stage.job.get_ref()) {
                self.fault(&stage.job, PlanReason::Job);
            }
            stage.cautions.iter().for_each(|id| self.leads(Named::Caution, id, &known.cautions));
            let counts = |check: &CheckSource| check.mandatory && check.before_flights_from.is_none();
            if stage.gate.is_some() && !stage.checks.iter().any(counts) {
                self.fault(&stage.id, PlanReason::EmptyGate { stage: stage.id.get_ref().clone() });
            }
            stages.push(Stage {
                id: stage.id.get_ref().clone(),
                title: stage.title.clone(),
                purpose: stage.purpose.clone(),
                job: *stage.job.get_ref(),
                after,
                cautions: words(&stage.cautions),
                gate: stage.gate.clone(),
                checks: self.checks(&stage.checks, known),
            });
        }
        self.no_cycle_of_stages(source, &stages);
        self.no_cycle_of_checks(source, &stages);
        stages
    }

    /// The checks of a stage. What a rung rests on, the rungs above it rest on too: a change sends the ladder back to the lowest rung that
    /// it touched.
    fn checks(&mut self, sources: &[CheckSource], known: &Known) -> Vec<Check> {
        let mut checks: Vec<Check> = Vec::new();
        for source in sources {
            let mut check = self.check(source, known);
            if let Some(below) = &source.rung_above {
                let rung = checks.iter().find(|earlier| earlier.id == *below.get_ref() && earlier.fly().is_some());
                match rung.filter(|_| check.fly().is_some()) {
                    Some(rung) => {
                        let more = rung.rests_on.iter().filter(|on| !check.rests_on.contains(on)).cloned();
                        let more: Vec<Subject> = more.collect();
                        check.rests_on.extend(more);
                    }
                    None => self.fault(below, PlanReason::NoRung { check: below.get_ref().clone() }),
                }
            }
            checks.push(check);
        }
        checks
    }

    fn leads_to_gate(&mut self, stage: &Word, known: &Known) {
        self.leads(Named::Stage, stage, &known.stages);
        if known.stages.contains(stage.get_ref()) && !known.gated.contains(stage.get_ref()) {
            self.fault(stage, PlanReason::NoGate { stage: stage.get_ref().clone() });
        }
    }

    fn no_cycle_of_stages(&mut self, source: &PlanSource, stages: &[Stage]) {
        let waits: BTreeMap<&str, Vec<&str>> =
            stages.iter().map(|s| (s.id.as_str(), s.after.iter().map(String::as_str).collect())).collect();
        for stage in &source.stages {
            if let Some(way) = circle_from(stage.id.get_ref(), &waits) {
                self.fault(&stage.id, PlanReason::Circle { of: Named::Stage, way });
                return;
            }
        }
    }

    fn no_cycle_of_checks(&mut self, source: &PlanSource, stages: &[Stage]) {
        let rests = |check: &Check| -> Vec<String> {
            let on = |subject: &Subject| match subject {
                Subject::Check(id) => Some(id.clone()),
                _ => None,
            };
            check.rests_on.iter().filter_map(on).collect()
        };
        let owned: BTreeMap<String, Vec<String>> =
            stages.iter().flat_map(|s| &s.checks).map(|check| (check.id.clone(), rests(check))).collect();
        let waits: BTreeMap<&str, Vec<&str>> =
            owned.iter().map(|(id, on)| (id.as_str(), on.iter().map(String::as_str).collect())).collect();
        for check in source.stages.iter().flat_map(|stage| &stage.checks) {
            if let Some(way) = circle_from(check.id.get_ref(), &waits) {
                self.fault(&check.id, PlanReason::Circle { of: Named::Check, way });
                return;
            }
        }
    }
}
