use std::collections::{BTreeMap, BTreeSet};

use serde_spanned::Spanned;

use super::fault::{PlanFault, PlanFaults};
use super::model::*;
use super::reason::{Named, PlanReason};
use super::source::*;
use crate::record::Outcome;
use crate::unit::Unit;

/// The only form of plan file that this Liftgate reads.
const FORMAT: i64 = 1;

impl Plan {
    /// Reads a plan file. `file` is its name for the messages.
    ///
    /// # Errors
    /// All faults that can be told apart in one reading, each with line and column. A file whose TOML or whose keys do
    /// not fit stops at the first.
    pub fn parse(file: &str, text: &str) -> Result<Plan, PlanFaults> {
        let fail = |faults| PlanFaults { file: file.to_owned(), faults };
        // First of all, as a later format has keys that this one would call unknown.
        if let Ok(FormatSource { format }) = toml::from_str(text)
            && *format.get_ref() != FORMAT
        {
            let reason = PlanReason::OtherFormat { known: FORMAT };
            return Err(fail(vec![PlanFault::at(text, format.span().start, reason)]));
        }
        let source: PlanSource = toml::from_str(text).map_err(|error| {
            let offset = error.span().map_or(0, |span| span.start);
            fail(vec![PlanFault::at(text, offset, PlanReason::of_parser(error.message()))])
        })?;
        let mut reader = Reader { text, faults: Vec::new() };
        let plan = reader.plan(source);
        reader.faults.sort_by_cached_key(|fault| (fault.line, fault.column, fault.reason.to_string()));
        reader.faults.dedup();
        if reader.faults.is_empty() { Ok(plan) } else { Err(fail(reader.faults)) }
    }
}

/// Turns the source into the model and notes every fault on the way.
struct Reader<'a> {
    text: &'a str,
    faults: Vec<PlanFault>,
}

/// What references in the plan may lead to.
struct Known {
    figures: BTreeSet<String>,
    units: BTreeMap<String, Unit>,
    parts: BTreeSet<String>,
    settings: BTreeSet<String>,
    places: BTreeSet<String>,
    cautions: BTreeSet<String>,
    events: BTreeSet<String>,
    stages: BTreeSet<String>,
    gated: BTreeSet<String>,
    checks: BTreeSet<String>,
    answers: BTreeMap<String, BTreeSet<String>>,
}

impl Reader<'_> {
    fn fault<T>(&mut self, at: &Spanned<T>, reason: PlanReason) {
        self.faults.push(PlanFault::at(self.text, at.span().start, reason));
    }

    fn plan(&mut self, source: PlanSource) -> Plan {
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
            questions: source.questions.into_iter().map(question).collect(),
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

    fn known(&mut self, source: &PlanSource) -> Known {
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
            answers,
        }
    }

    fn unique<'b>(&mut self, of: Named, ids: impl Iterator<Item = &'b Word>) -> BTreeSet<String> {
        let mut seen = BTreeSet::new();
        for id in ids {
            self.id(id);
            if !seen.insert(id.get_ref().clone()) {
                self.fault(id, PlanReason::Twice { of, id: id.get_ref().clone() });
            }
        }
        seen
    }

    fn id(&mut self, id: &Word) {
        let text = id.get_ref();
        let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
        let words_fit = text.split('-').all(|word| !word.is_empty() && word.chars().all(fits));
        if !words_fit {
            self.fault(id, PlanReason::NoId { text: text.clone() });
        }
    }

    fn leads(&mut self, of: Named, id: &Word, known: &BTreeSet<String>) {
        if !known.contains(id.get_ref()) {
            self.fault(id, PlanReason::NotThere { of, id: id.get_ref().clone() });
        }
    }

    fn range(&mut self, low: &Spanned<f64>, high: &Spanned<f64>) {
        let (bottom, top) = (*low.get_ref(), *high.get_ref());
        if !(bottom.is_finite() && top.is_finite() && bottom < top) {
            self.fault(low, PlanReason::Range { low: bottom, high: top });
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

    fn when(&mut self, source: &WhenSource, known: &Known) -> When {
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

    fn part(&mut self, source: NamedSource, known: &Known) -> Part {
        let when = self.when(&source.when, known);
        Part { id: source.id.into_inner(), title: source.title, when }
    }

    fn setting(&mut self, source: NamedSource, known: &Known) -> Setting {
        let when = self.when(&source.when, known);
        Setting { id: source.id.into_inner(), title: source.title, unit: source.unit, when }
    }

    fn above(&mut self, source: &FigureSource, known: &Known) -> Option<String> {
        let above = source.above.as_ref()?;
        match known.units.get(above.get_ref()) {
            None => self.leads(Named::Figure, above, &known.figures),
            Some(unit) if *unit != source.unit => {
                let figure = above.get_ref().clone();
                self.fault(above, PlanReason::OtherUnit { figure, is: *unit, wanted: source.unit });
            }
            Some(_) => {}
        }
        Some(above.get_ref().clone())
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

    fn place(&mut self, source: PlaceSource, known: &Known) -> Place {
        self.range(&source.caution_above_c, &source.stop_above_c);
        let when = self.when(&source.when, known);
        Place {
            when,
            id: source.id.into_inner(),
            title: source.title,
            caution_above_c: source.caution_above_c.into_inner(),
            stop_above_c: source.stop_above_c.into_inner(),
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
                checks: stage.checks.iter().map(|check| self.check(check, known)).collect(),
            });
        }
        self.no_cycle_of_stages(source, &stages);
        self.no_cycle_of_checks(source, &stages);
        stages
    }

    fn leads_to_gate(&mut self, stage: &Word, known: &Known) {
        self.leads(Named::Stage, stage, &known.stages);
        if known.stages.contains(stage.get_ref()) && !known.gated.contains(stage.get_ref()) {
            self.fault(stage, PlanReason::NoGate { stage: stage.get_ref().clone() });
        }
    }

    fn check(&mut self, source: &CheckSource, known: &Known) -> Check {
        source.cautions.iter().for_each(|id| self.leads(Named::Caution, id, &known.cautions));
        if let Some(stage) = &source.before_flights_from {
            self.leads(Named::Stage, stage, &known.stages);
            if *source.kind.get_ref() == KindSource::Fly {
                self.fault(stage, PlanReason::FlownBeforeFlights);
            }
        }
        source.called_by.iter().for_each(|id| self.leads(Named::Event, id, &known.events));
        let point = self.point(source);
        let when = self.when(&source.when, known);
        Check {
            id: source.id.get_ref().clone(),
            title: source.title.clone(),
            instruction: source.instruction.clone(),
            why: source.why.clone(),
            judged: source.judged.clone(),
            chunk: source.chunk.clone(),
            kind: self.kind(source, known),
            fail: match source.grade {
                FailSource::Caution => Outcome::Caution,
                FailSource::Stop => Outcome::Stop,
            },
            mandatory: source.mandatory,
            cautions: words(&source.cautions),
            witness: source.witness,
            point,
            caution_proves: source.caution_proves,
            called_by: words(&source.called_by),
            rests_on: source.rests_on.iter().filter_map(|subject| self.subject(subject, known)).collect(),
            holds: source.holds.as_ref().map_or_else(Holds::default, |holds| self.holds(holds, known)),
            when,
            before_flights_from: source.before_flights_from.as_ref().map(|id| id.get_ref().clone()),
            basis: source.basis.clone(),
        }
    }

    fn point(&mut self, source: &CheckSource) -> Point {
        match source.point {
            PointSource::Hold => Point::Hold,
            PointSource::Witness => {
                let flown = *source.kind.get_ref() == KindSource::Fly;
                if !source.witness || flown {
                    self.fault(&source.id, PlanReason::NoWitness);
                }
                Point::Witness
            }
        }
    }

    fn subject(&mut self, source: &Word, known: &Known) -> Option<Subject> {
        let subject = Subject::parse(source.get_ref()).filter(|subject| !matches!(subject, Subject::Event(_)));
        let Some(subject) = subject else {
            self.fault(source, PlanReason::NoSubject { text: source.get_ref().clone() });
            return None;
        };
        let (of, id, ids) = match &subject {
            Subject::Part(id) => (Named::Part, id, &known.parts),
            Subject::Setting(id) => (Named::Setting, id, &known.settings),
            Subject::Figure(id) => (Named::Figure, id, &known.figures),
            Subject::Check(id) => (Named::Check, id, &known.checks),
            _ => return Some(subject),
        };
        if !ids.contains(id) {
            self.fault(source, PlanReason::NotThere { of, id: id.clone() });
        }
        Some(subject)
    }

    fn holds(&mut self, source: &Spanned<HoldsSource>, known: &Known) -> Holds {
        match source.get_ref() {
            HoldsSource::Word(word) if word == "until-changed" => Holds::default(),
            HoldsSource::Word(word) if word == "session" => Holds { session: true, ..Holds::default() },
            HoldsSource::Word(word) => {
                self.fault(source, PlanReason::NotHowLong { word: word.clone() });
                Holds::default()
            }
            HoldsSource::For(limits) => {
                for event in limits.events.iter().filter(|event| !known.events.contains(*event)) {
                    self.fault(source, PlanReason::NotThere { of: Named::Event, id: event.clone() });
                }
                let none = limits.flights.is_none()
                    && limits.hours.is_none()
                    && limits.days.is_none()
                    && limits.events.is_empty();
                let nothing = limits.flights == Some(0)
                    || limits.days == Some(0)
                    || limits.hours.is_some_and(|hours| !hours.is_finite() || hours <= 0.0);
                if none || nothing {
                    self.fault(source, PlanReason::HoldsForNothing);
                }
                Holds {
                    session: false,
                    flights: limits.flights,
                    hours: limits.hours,
                    days: limits.days,
                    events: limits.events.clone(),
                }
            }
        }
    }

    fn kind(&mut self, source: &CheckSource, known: &Known) -> CheckKind {
        let kind = *source.kind.get_ref();
        let given = [
            (KindSource::Measure, "measure", source.measure.is_some()),
            (KindSource::Compute, "compute", source.compute.is_some()),
            (KindSource::Fly, "fly", source.fly.is_some()),
        ];
        for (of, key, present) in given {
            if of != kind && present {
                self.fault(&source.id, PlanReason::OtherKind { check: source.id.get_ref().clone(), key });
            }
        }
        match (kind, &source.measure, source.compute, &source.fly) {
            (KindSource::Confirm, ..) => CheckKind::Confirm,
            (KindSource::Measure, Some(measure), ..) => CheckKind::Measure(self.measure(source, measure, known)),
            (KindSource::Compute, _, Some(computation), _) => CheckKind::Compute(computation),
            (KindSource::Fly, .., Some(fly)) => CheckKind::Fly(self.fly(fly, known)),
            (kind, ..) => {
                let key = given.iter().find(|(of, ..)| *of == kind).map_or("", |(_, key, _)| key);
                self.fault(&source.kind, PlanReason::KindLacks { check: source.id.get_ref().clone(), key });
                CheckKind::Confirm
            }
        }
    }

    fn measure(&mut self, check: &CheckSource, source: &MeasureSource, known: &Known) -> Measure {
        self.range(&source.low, &source.high);
        if !(source.step.get_ref().is_finite() && *source.step.get_ref() > 0.0) {
            self.fault(&source.step, PlanReason::Step);
        }
        let range = *source.low.get_ref()..=*source.high.get_ref();
        if !range.contains(source.start.get_ref()) {
            self.fault(&source.start, PlanReason::Start);
        }
        if check.basis.is_none() {
            self.fault(&check.id, PlanReason::NoBasis { check: check.id.get_ref().clone() });
        }
        let bounds = [&source.stop_below, &source.caution_below, &source.caution_above, &source.stop_above];
        if bounds.iter().all(|bound| bound.is_none()) {
            self.fault(&check.id, PlanReason::NoLimit { check: check.id.get_ref().clone() });
        }
        // Numbers are held against numbers, and shares of a figure against shares of the same figure.
        let mut highest: BTreeMap<Option<&str>, f64> = BTreeMap::new();
        for bound in bounds.into_iter().flatten() {
            let (of, number) = match bound.get_ref() {
                LimitSource::Number(number) => (None, *number),
                LimitSource::Figure(limit) => (Some(limit.figure.as_str()), limit.times),
            };
            if of.is_none() && !range.contains(&number) {
                self.fault(bound, PlanReason::LimitOutside);
            }
            let highest = highest.entry(of).or_insert(f64::NEG_INFINITY);
            if number < *highest {
                self.fault(bound, PlanReason::LimitsFall);
            }
            *highest = highest.max(number);
        }
        let unit = source.unit;
        let mut limit = |bound: &Option<Spanned<LimitSource>>| bound.as_ref().map(|b| self.limit(b, unit, known));
        Measure {
            unit: source.unit,
            low: *source.low.get_ref(),
            high: *source.high.get_ref(),
            step: *source.step.get_ref(),
            start: *source.start.get_ref(),
            limits: Limits {
                stop_below: limit(&source.stop_below),
                caution_below: limit(&source.caution_below),
                caution_above: limit(&source.caution_above),
                stop_above: limit(&source.stop_above),
            },
        }
    }

    fn limit(&mut self, source: &Spanned<LimitSource>, unit: Unit, known: &Known) -> Limit {
        match source.get_ref() {
            LimitSource::Number(number) => Limit::Number(*number),
            LimitSource::Figure(limit) => {
                match known.units.get(&limit.figure) {
                    None => self.fault(source, PlanReason::NotThere { of: Named::Figure, id: limit.figure.clone() }),
                    Some(of) if *of != unit => {
                        let figure = limit.figure.clone();
                        self.fault(source, PlanReason::OtherUnit { figure, is: *of, wanted: unit });
                    }
                    Some(_) => {}
                }
                if !(limit.times.is_finite() && limit.times > 0.0) {
                    self.fault(source, PlanReason::Times);
                }
                Limit::Figure { figure: limit.figure.clone(), times: limit.times }
            }
        }
    }

    fn fly(&mut self, source: &FlySource, known: &Known) -> Fly {
        if !(source.minutes.get_ref().is_finite() && (0.1..=30.0).contains(source.minutes.get_ref())) {
            self.fault(&source.minutes, PlanReason::Minutes);
        }
        if let LimitSource::Number(rpm) = source.head_speed_rpm.get_ref()
            && !(rpm.is_finite() && *rpm > 0.0)
        {
            self.fault(&source.head_speed_rpm, PlanReason::HeadSpeed);
        }
        source.temperatures.iter().for_each(|id| self.leads(Named::Place, id, &known.places));
        Fly {
            motion: source.motion,
            head_speed_rpm: self.limit(&source.head_speed_rpm, Unit::RevolutionsPerMinute, known),
            minutes: *source.minutes.get_ref(),
            knock_off: source.knock_off.clone(),
            temperatures: words(&source.temperatures),
            predict: source.predict,
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

/// A way from `start` back to itself, if there is one.
fn circle_from(start: &str, waits: &BTreeMap<&str, Vec<&str>>) -> Option<Vec<String>> {
    let mut ways: Vec<Vec<&str>> = vec![vec![start]];
    let mut seen = BTreeSet::new();
    while let Some(way) = ways.pop() {
        let here = way.last().copied().unwrap_or(start);
        for next in waits.get(here).into_iter().flatten() {
            let longer: Vec<&str> = way.iter().copied().chain([*next]).collect();
            if *next == start {
                return Some(longer.into_iter().map(str::to_owned).collect());
            }
            if seen.insert(*next) {
                ways.push(longer);
            }
        }
    }
    None
}

fn question(source: QuestionSource) -> Question {
    Question {
        id: source.id.into_inner(),
        text: source.question,
        choices: source.choices.into_iter().map(|choice| (choice.id.into_inner(), choice.label)).collect(),
    }
}

fn words(ids: &[Word]) -> Vec<String> {
    ids.iter().map(|id| id.get_ref().clone()).collect()
}
