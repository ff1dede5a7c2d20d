//! The ways back and ahead: what to do for a lapsed gate, which gates may be released again, what runs out next.

use crate::plan::{Check, Plan, Stage, Subject};
use crate::record::Moment;

use super::blockers::counts_for_gate;
use super::evidence::Evidence;
use super::gate::{Blocker, Gate};
use super::judge::Standings;
use super::ledger::Ledger;

/// How much of its validity evidence has left; none where it has no such limit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Left {
    /// Motor runs.
    pub flights: Option<u32>,
    /// Hours with the motor on.
    pub hours: Option<f64>,
    /// Days, today not among them.
    pub days: Option<i64>,
}

/// A check whose evidence holds and will soon run out.
#[derive(Debug, Clone, PartialEq)]
pub struct DueSoon {
    /// Which check.
    pub check: String,
    /// What is left.
    pub left: Left,
}

/// The last part of a validity in which it counts as running out: a fifth, and no more than this much.
const SOON: f64 = 0.2;
const SOON_FLIGHTS: f64 = 5.0;
const SOON_HOURS: f64 = 2.0;
const SOON_DAYS: f64 = 30.0;

impl Left {
    fn of(check: &Check, evidence: &Evidence, ledger: &Ledger, now: &Moment) -> Left {
        let runs = ledger.runs.saturating_sub(evidence.runs);
        let hours = ledger.motor_ms.saturating_sub(evidence.motor_ms) as f64 / 3_600_000.0;
        let days = (ledger.clock.day(now) - evidence.day).num_days().max(0);
        Left {
            flights: check.holds.flights.map(|limit| limit.saturating_sub(runs)),
            hours: check.holds.hours.map(|limit| (limit - hours).max(0.0)),
            days: check.holds.days.map(|limit| (i64::from(limit) - days).max(0)),
        }
    }

    /// The share of its limit that is left where it is least, if that counts as soon.
    fn soon(&self, check: &Check) -> Option<f64> {
        let share = |left: Option<f64>, limit: Option<f64>, most: f64| {
            let (left, limit) = (left?, limit?);
            // What holds for one or two flights is done before each of them: nobody has to be told ahead.
            (limit > 2.0 && left <= (limit * SOON).max(1.0).min(most)).then(|| left / limit)
        };
        let flights = share(self.flights.map(f64::from), check.holds.flights.map(f64::from), SOON_FLIGHTS);
        let hours = share(self.hours, check.holds.hours, SOON_HOURS);
        let days = share(self.days.map(|days| days as f64), check.holds.days.map(f64::from), SOON_DAYS);
        [flights, hours, days].into_iter().flatten().min_by(f64::total_cmp)
    }
}

impl Ledger {
    /// How much of its validity a check's evidence has left; none where there is no evidence.
    pub fn left(&self, check: &Check, now: &Moment) -> Option<Left> {
        self.evidence.get(&check.id).map(|evidence| Left::of(check, evidence, self, now))
    }

    /// The shortest list of checks that brings a stage's gate back, in an order in which none has to be done twice: those
    /// that do not hold, of the stage and of all that it waits for, each after what it rests on.
    pub fn way_back(&self, plan: &Plan, stage: &str, now: &Moment) -> Vec<String> {
        let mut standings = Standings::new(plan, self, now);
        let mut stages = Vec::new();
        stages_up_to(plan, stage, &mut stages);
        let mut way = Vec::new();
        for stage in plan.stages.iter().filter(|known| stages.contains(&known.id.as_str())) {
            for check in stage.checks.iter().filter(|check| counts_for_gate(self, check)) {
                standings.way_to(check, &mut way);
            }
        }
        way
    }

    /// Lapsed gates that may be released again one after another, in that order: their evidence is fresh once more, and
    /// nothing is in the way of any but the gates before it in the list.
    pub fn releasable_again(&self, plan: &Plan, now: &Moment) -> Vec<String> {
        let mut standings = Standings::new(plan, self, now);
        let mut again: Vec<String> = Vec::new();
        loop {
            let before = again.len();
            for stage in &plan.stages {
                let Gate::Lapsed { blockers, .. } = standings.gate(stage) else { continue };
                let waits_only = blockers.iter().all(|b| matches!(b, Blocker::Gate(id) if again.contains(id)));
                if waits_only && !again.contains(&stage.id) {
                    again.push(stage.id.clone());
                }
            }
            if again.len() == before {
                return again;
            }
        }
    }
}

fn stages_up_to<'a>(plan: &'a Plan, stage: &str, found: &mut Vec<&'a str>) {
    let Some(stage) = plan.stage(stage).filter(|stage| !found.contains(&stage.id.as_str())) else { return };
    found.push(&stage.id);
    stage.after.iter().for_each(|id| stages_up_to(plan, id, found));
}

impl<'a> Standings<'a> {
    /// Adds a check that does not hold, after those that it rests on and that do not hold either.
    pub(super) fn way_to(&mut self, check: &'a Check, way: &mut Vec<String>) {
        if way.contains(&check.id) || self.of(check).holds() {
            return;
        }
        for under in self.rests_on_checks(check) {
            self.way_to(under, way);
        }
        way.push(check.id.clone());
    }

    /// The checks that one rests on, as far as this aircraft has them.
    pub(super) fn rests_on_checks(&self, check: &'a Check) -> Vec<&'a Check> {
        let (plan, ledger) = (self.plan, self.ledger);
        let on = check.rests_on.iter().filter_map(|subject| match subject {
            Subject::Check(id) => plan.check(id).map(|(_, check)| check),
            _ => None,
        });
        on.filter(|check| ledger.aircraft.wants(check)).collect()
    }

    /// What holds and will soon run out, the shortest share first.
    pub(super) fn due_soon(&mut self) -> Vec<DueSoon> {
        let (plan, ledger, now) = (self.plan, self.ledger, self.now);
        let asked = |stage: &Stage, check: &Check| {
            let counts = check.before_flights_from.is_some() || stage.gate.is_some();
            check.mandatory && counts && ledger.aircraft.wants(check)
        };
        let mut soon = Vec::new();
        for (stage, check) in plan.checks() {
            let Some(left) = ledger.left(check, now).filter(|_| asked(stage, check)) else { continue };
            let Some(share) = left.soon(check) else { continue };
            if self.of(check).holds() {
                soon.push((share, DueSoon { check: check.id.clone(), left }));
            }
        }
        soon.sort_by(|(one, _), (other, _)| one.total_cmp(other));
        soon.into_iter().map(|(_, due)| due).collect()
    }
}
