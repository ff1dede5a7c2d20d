//! Turns a check of a plan file into the model.

use crate::unit::Unit;
use std::collections::BTreeMap;

use serde_spanned::Spanned;

use super::check::{Agreement, Check, CheckKind, Fly, Holds, Limit, Limits, Measure, OnFile, Point};
use super::reader::{Known, Reader};
use super::reason::{Named, PlanReason};
use super::source::{
    AgreementSource, CheckSource, FailSource, FlySource, HoldsSource, KindSource, LimitSource, MeasureSource,
    PointSource, Word, words,
};
use super::subject::Subject;
use crate::record::Outcome;

/// Further from a full cell than this, a limit is none of a cell, volts.
const FULL_CELL_PLUS_V: f64 = 1.0;

/// What a limit is a number of: only those of one kind can be held against each other.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum LimitOf<'a> {
    Number,
    Figure(&'a str),
    FullCell,
}

impl Reader<'_> {
    pub(super) fn check(&mut self, source: &CheckSource, known: &Known) -> Check {
        source.cautions.iter().for_each(|id| self.leads(Named::Caution, id, &known.cautions));
        if let Some(stage) = &source.before_flights_from {
            self.leads(Named::Stage, stage, &known.stages);
            if *source.kind.get_ref() == KindSource::Fly {
                self.fault(stage, PlanReason::FlownBeforeFlights);
            }
        }
        if let Some(run) = &source.read_on {
            self.leads(Named::Check, run, &known.checks);
            let is_flown = *source.kind.get_ref() == KindSource::Fly;
            if is_flown || (known.checks.contains(run.get_ref()) && !known.flown.contains(run.get_ref())) {
                self.fault(run, PlanReason::ReadOnNoRun { check: run.get_ref().clone() });
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
            read_on: source.read_on.as_ref().map(|id| id.get_ref().clone()),
            rung_above: source.rung_above.as_ref().map(|id| id.get_ref().clone()),
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
        // Numbers are held against numbers, shares of a figure against shares of the same figure, and a full cell against a full cell.
        let mut highest: BTreeMap<LimitOf<'_>, f64> = BTreeMap::new();
        for bound in bounds.into_iter().flatten() {
            let (of, number) = match bound.get_ref() {
                LimitSource::Number(number) => (LimitOf::Number, *number),
                LimitSource::Figure(limit) => (LimitOf::Figure(&limit.figure), limit.times),
                LimitSource::FullCell(limit) => (LimitOf::FullCell, limit.full_cell_plus),
            };
            if of == LimitOf::Number && !range.contains(&number) {
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
            agrees_with: source.agrees_with.iter().filter_map(|with| self.agreement(with, unit, known)).collect(),
        }
    }

    fn agreement(&mut self, source: &AgreementSource, unit: Unit, known: &Known) -> Option<Agreement> {
        let within_percent = *source.within_percent.get_ref();
        if !(within_percent.is_finite() && within_percent > 0.0) {
            self.fault(&source.within_percent, PlanReason::Times);
        }
        let with = match source.on_file.get_ref().split_once(':') {
            Some(("figure", figure)) => {
                self.figure_in(&source.on_file, figure, unit, known);
                OnFile::Figure(figure.to_owned())
            }
            None if source.on_file.get_ref() == "scales" && unit == Unit::Kilogram => OnFile::Scales,
            _ => {
                self.fault(&source.on_file, PlanReason::NotOnFile { text: source.on_file.get_ref().clone() });
                return None;
            }
        };
        Some(Agreement { with, within_percent })
    }

    fn limit(&mut self, source: &Spanned<LimitSource>, unit: Unit, known: &Known) -> Limit {
        match source.get_ref() {
            LimitSource::Number(number) => Limit::Number(*number),
            LimitSource::Figure(limit) => {
                self.figure_in(source, &limit.figure, unit, known);
                if !(limit.times.is_finite() && limit.times > 0.0) {
                    self.fault(source, PlanReason::Times);
                }
                Limit::Figure { figure: limit.figure.clone(), times: limit.times }
            }
            LimitSource::FullCell(limit) => {
                if unit != Unit::Volt || !(-FULL_CELL_PLUS_V..=FULL_CELL_PLUS_V).contains(&limit.full_cell_plus) {
                    self.fault(source, PlanReason::FullCell);
                }
                Limit::FullCell { plus_v: limit.full_cell_plus }
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
            reserve: source.reserve,
        }
    }
}
