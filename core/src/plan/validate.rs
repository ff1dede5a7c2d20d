use std::collections::{BTreeMap, BTreeSet};

use serde_spanned::Spanned;

use super::fault::{PlanFault, PlanFaults};
use super::model::*;
use super::source::*;
use crate::record::{Outcome, Unit};

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
            let reason =
                format!("this Liftgate reads plans of format {FORMAT}: update the app, or take an older plan");
            return Err(fail(vec![PlanFault::at(text, format.span().start, reason)]));
        }
        let source: PlanSource = toml::from_str(text).map_err(|error| {
            let offset = error.span().map_or(0, |span| span.start);
            fail(vec![PlanFault::at(text, offset, error.message())])
        })?;
        let mut reader = Reader { text, faults: Vec::new() };
        let plan = reader.plan(source);
        reader.faults.sort();
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
    fn fault<T>(&mut self, at: &Spanned<T>, reason: impl Into<String>) {
        self.faults.push(PlanFault::at(self.text, at.span().start, reason));
    }

    fn plan(&mut self, source: PlanSource) -> Plan {
        self.id(&source.id);
        if source.stages.is_empty() {
            self.fault(&source.id, "the plan has no stage");
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
            let choices = self.unique("choice", question.choices.iter().map(|choice| &choice.id));
            if choices.len() < 2 {
                self.fault(&question.id, format!("'{}' needs at least two choices", question.id.get_ref()));
            }
            answers.entry(question.id.get_ref().clone()).or_insert(choices);
        }
        self.unique("trait", source.questions.iter().map(|question| &question.id));
        Known {
            figures: self.unique("figure", source.figures.iter().map(|figure| &figure.id)),
            units: source.figures.iter().rev().map(|figure| (figure.id.get_ref().clone(), figure.unit)).collect(),
            parts: self.unique("part", source.parts.iter().map(|part| &part.id)),
            settings: self.unique("setting", source.settings.iter().map(|setting| &setting.id)),
            places: self.unique("place", source.places.iter().map(|place| &place.id)),
            cautions: self.unique("caution", source.cautions.iter().map(|caution| &caution.id)),
            events: self.unique("event", source.events.iter().map(|event| &event.id)),
            stages: self.unique("stage", source.stages.iter().map(|stage| &stage.id)),
            gated: source
                .stages
                .iter()
                .filter(|stage| stage.gate.is_some())
                .map(|stage| stage.id.get_ref().clone())
                .collect(),
            checks: self.unique("check", source.stages.iter().flat_map(|s| s.checks.iter().map(|check| &check.id))),
            answers,
        }
    }

    fn unique<'b>(&mut self, what: &str, ids: impl Iterator<Item = &'b Word>) -> BTreeSet<String> {
        let mut seen = BTreeSet::new();
        for id in ids {
            self.id(id);
            if !seen.insert(id.get_ref().clone()) {
                self.fault(id, format!("there is another {what} '{}' before this one", id.get_ref()));
            }
        }
        seen
    }

    fn id(&mut self, id: &Word) {
        let text = id.get_ref();
        let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
        let words_fit = text.split('-').all(|word| !word.is_empty() && word.chars().all(fits));
        if !words_fit {
            self.fault(id, format!("'{text}' is no id: use lower-case words and digits joined by hyphens"));
        }
    }

    fn leads(&mut self, what: &str, id: &Word, known: &BTreeSet<String>) {
        if !known.contains(id.get_ref()) {
            self.fault(id, format!("there is no {what} '{}' in this plan", id.get_ref()));
        }
    }

    fn range(&mut self, low: &Spanned<f64>, high: &Spanned<f64>) {
        let (bottom, top) = (*low.get_ref(), *high.get_ref());
        if !(bottom.is_finite() && top.is_finite() && bottom < top) {
            self.fault(low, format!("the plausible range runs from {bottom} to {top}: low must lie below high"));
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
            if let Some(circle) = circle_from(figure.id.get_ref(), &waits) {
                self.fault(&figure.id, format!("these figures lie above each other: {circle}"));
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
                None => self.fault(question, format!("there is no trait '{}' in this plan", question.get_ref())),
                Some(choices) => {
                    for answer in named.iter().filter(|answer| !choices.contains(*answer)) {
                        let reason =
                            format!("there is no choice of '{}' '{answer}' in this plan", question.get_ref());
                        self.fault(answers, reason);
                    }
                    if named.is_empty() || choices.iter().all(|choice| named.contains(choice)) {
                        self.fault(answers, "name some of the answers: none and all of them tell nothing apart");
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
            None => self.leads("figure", above, &known.figures),
            Some(unit) if *unit != source.unit => {
                let reason =
                    format!("'{}' is in {}, this is in {}", above.get_ref(), unit.sign(), source.unit.sign());
                self.fault(above, reason);
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
                self.fault(&stage.job, "the job has ten parts: job must be 1 to 10");
            }
            stage.cautions.iter().for_each(|id| self.leads("caution", id, &known.cautions));
            let counts = |check: &CheckSource| check.mandatory && check.before_flights_from.is_none();
            if stage.gate.is_some() && !stage.checks.iter().any(counts) {
                let id = stage.id.get_ref();
                self.fault(&stage.id, format!("'{id}' has a gate and no mandatory check: it would open on nothing"));
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
        self.leads("stage", stage, &known.stages);
        if known.stages.contains(stage.get_ref()) && !known.gated.contains(stage.get_ref()) {
            self.fault(stage, format!("'{}' has no gate that another could wait for", stage.get_ref()));
        }
    }

    fn check(&mut self, source: &CheckSource, known: &Known) -> Check {
        source.cautions.iter().for_each(|id| self.leads("caution", id, &known.cautions));
        if let Some(stage) = &source.before_flights_from {
            self.leads("stage", stage, &known.stages);
            if *source.kind.get_ref() == KindSource::Fly {
                self.fault(stage, "what is due before every flight cannot be flown itself: it would wait for itself");
            }
        }
        source.called_by.iter().for_each(|id| self.leads("event", id, &known.events));
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
                    let reason = "a witness point is a check on the ground with witness = true: who would have come?";
                    self.fault(&source.id, reason);
                }
                Point::Witness
            }
        }
    }

    fn subject(&mut self, source: &Word, known: &Known) -> Option<Subject> {
        let subject = Subject::parse(source.get_ref()).filter(|subject| !matches!(subject, Subject::Event(_)));
        let Some(subject) = subject else {
            let reason = format!(
                "'{}' is nothing that evidence rests on: use mass, wiring, supplies, packs, frequencies, heat, pack-readings, load-readings, \
                 trial-runs, or part:, setting:, figure: or check: with an id",
                source.get_ref()
            );
            self.fault(source, reason);
            return None;
        };
        let (what, id, ids) = match &subject {
            Subject::Part(id) => ("part", id, &known.parts),
            Subject::Setting(id) => ("setting", id, &known.settings),
            Subject::Figure(id) => ("figure", id, &known.figures),
            Subject::Check(id) => ("check", id, &known.checks),
            _ => return Some(subject),
        };
        if !ids.contains(id) {
            self.fault(source, format!("there is no {what} '{id}' in this plan"));
        }
        Some(subject)
    }

    fn holds(&mut self, source: &Spanned<HoldsSource>, known: &Known) -> Holds {
        match source.get_ref() {
            HoldsSource::Word(word) if word == "until-changed" => Holds::default(),
            HoldsSource::Word(word) if word == "session" => Holds { session: true, ..Holds::default() },
            HoldsSource::Word(word) => {
                let reason =
                    format!("'{word}' says not how long: use until-changed, session, or flights, hours, days");
                self.fault(source, reason);
                Holds::default()
            }
            HoldsSource::For(limits) => {
                for event in limits.events.iter().filter(|event| !known.events.contains(*event)) {
                    self.fault(source, format!("there is no event '{event}' in this plan"));
                }
                let none = limits.flights.is_none()
                    && limits.hours.is_none()
                    && limits.days.is_none()
                    && limits.events.is_empty();
                let nothing = limits.flights == Some(0)
                    || limits.days == Some(0)
                    || limits.hours.is_some_and(|hours| !hours.is_finite() || hours <= 0.0);
                if none || nothing {
                    self.fault(
                        source,
                        "evidence must hold for something: flights, hours or days above nought, or until events",
                    );
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
                self.fault(&source.id, format!("'{}' has a '{key}' but is not of that kind", source.id.get_ref()));
            }
        }
        match (kind, &source.measure, source.compute, &source.fly) {
            (KindSource::Confirm, ..) => CheckKind::Confirm,
            (KindSource::Measure, Some(measure), ..) => CheckKind::Measure(self.measure(source, measure, known)),
            (KindSource::Compute, _, Some(computation), _) => CheckKind::Compute(computation),
            (KindSource::Fly, .., Some(fly)) => CheckKind::Fly(self.fly(fly, known)),
            (kind, ..) => {
                let key = given.iter().find(|(of, ..)| *of == kind).map_or("", |(_, key, _)| key);
                self.fault(&source.kind, format!("'{}' says not what to {key}", source.id.get_ref()));
                CheckKind::Confirm
            }
        }
    }

    fn measure(&mut self, check: &CheckSource, source: &MeasureSource, known: &Known) -> Measure {
        self.range(&source.low, &source.high);
        if !(source.step.get_ref().is_finite() && *source.step.get_ref() > 0.0) {
            self.fault(&source.step, "a step must be above nought");
        }
        let range = *source.low.get_ref()..=*source.high.get_ref();
        if !range.contains(source.start.get_ref()) {
            self.fault(&source.start, "the start lies outside the plausible range");
        }
        if check.basis.is_none() {
            self.fault(
                &check.id,
                format!("'{}' measures, and says not where its limits come from: basis", check.id.get_ref()),
            );
        }
        let bounds = [&source.stop_below, &source.caution_below, &source.caution_above, &source.stop_above];
        if bounds.iter().all(|bound| bound.is_none()) {
            self.fault(&check.id, format!("'{}' has no limit: a check that cannot fail is none", check.id.get_ref()));
        }
        // Numbers are held against numbers, and shares of a figure against shares of the same figure.
        let mut highest: BTreeMap<Option<&str>, f64> = BTreeMap::new();
        for bound in bounds.into_iter().flatten() {
            let (of, number) = match bound.get_ref() {
                LimitSource::Number(number) => (None, *number),
                LimitSource::Figure(limit) => (Some(limit.figure.as_str()), limit.times),
            };
            if of.is_none() && !range.contains(&number) {
                self.fault(bound, "the limit lies outside the plausible range, so it could never be passed");
            }
            let highest = highest.entry(of).or_insert(f64::NEG_INFINITY);
            if number < *highest {
                self.fault(bound, "limits rise from stop_below over caution_below and caution_above to stop_above");
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
                    None => self.fault(source, format!("there is no figure '{}' in this plan", limit.figure)),
                    Some(of) if *of != unit => {
                        let reason = format!("'{}' is in {}, this wants {}", limit.figure, of.sign(), unit.sign());
                        self.fault(source, reason);
                    }
                    Some(_) => {}
                }
                if !(limit.times.is_finite() && limit.times > 0.0) {
                    self.fault(source, "times must be above nought");
                }
                Limit::Figure { figure: limit.figure.clone(), times: limit.times }
            }
        }
    }

    fn fly(&mut self, source: &FlySource, known: &Known) -> Fly {
        if !(source.minutes.get_ref().is_finite() && (0.1..=30.0).contains(source.minutes.get_ref())) {
            self.fault(&source.minutes, "planned minutes lie between 0.1 and 30");
        }
        if let LimitSource::Number(rpm) = source.head_speed_rpm.get_ref()
            && !(rpm.is_finite() && *rpm > 0.0)
        {
            self.fault(&source.head_speed_rpm, "a head speed lies above nought");
        }
        source.temperatures.iter().for_each(|id| self.leads("place", id, &known.places));
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
            if let Some(circle) = circle_from(stage.id.get_ref(), &waits) {
                self.fault(&stage.id, format!("these stages wait for each other: {circle}"));
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
            if let Some(circle) = circle_from(check.id.get_ref(), &waits) {
                self.fault(&check.id, format!("these checks rest on each other: {circle}"));
                return;
            }
        }
    }
}

/// A way from `start` back to itself, written out, if there is one.
fn circle_from(start: &str, waits: &BTreeMap<&str, Vec<&str>>) -> Option<String> {
    let mut ways: Vec<Vec<&str>> = vec![vec![start]];
    let mut seen = BTreeSet::new();
    while let Some(way) = ways.pop() {
        let here = way.last().copied().unwrap_or(start);
        for next in waits.get(here).into_iter().flatten() {
            let longer: Vec<&str> = way.iter().copied().chain([*next]).collect();
            if *next == start {
                return Some(longer.join(" > "));
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
