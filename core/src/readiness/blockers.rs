//! Works out how each gate stands at a moment, and what keeps it shut.

use super::gate::{Blocker, Gate};
use super::judge::Standings;
use super::ledger::Ledger;
use crate::field::Flight;
use crate::plan::{Check, Plan, Stage};

/// Whether a check belongs to its stage's gate.
pub(super) fn counts_for_gate(ledger: &Ledger, check: &Check) -> bool {
    check.mandatory && check.before_flights_from.is_none() && ledger.aircraft.wants(check)
}

impl Standings<'_> {
    /// What stands between a stage and its gate, apart from the pilot's own decision.
    pub fn stage_blockers(&mut self, stage: &Stage) -> Vec<Blocker> {
        let (plan, ledger) = (self.plan, self.ledger);
        let mut blockers: Vec<Blocker> =
            stage.after.iter().filter(|id| !self.gate_holds(id)).map(|id| Blocker::Gate(id.clone())).collect();
        // Every gate that waits for no other: what is not known keeps checks away, and must not open anything.
        if stage.after.is_empty() {
            blockers.extend(unknown_of_aircraft(plan, ledger));
        }
        // By id, so that the borrow is the plan's and not the argument's.
        let checks = plan.stage(&stage.id).map(|stage| stage.checks.as_slice()).unwrap_or_default();
        for check in checks.iter().filter(|check| counts_for_gate(ledger, check)) {
            let standing = self.of(check);
            if !standing.holds() {
                blockers.push(Blocker::Check { check: check.id.clone(), standing });
            }
        }
        let findings = ledger.findings.iter().filter(|f| f.stage == stage.id && f.blocks(ledger, self.now));
        blockers.extend(findings.map(|finding| Blocker::Finding(finding.id)));
        blockers
    }

    /// Whether a stage's gate was released and everything that it stood on still holds.
    fn gate_holds(&mut self, id: &str) -> bool {
        let plan = self.plan;
        let Some(stage) = plan.stage(id) else { return false };
        if let Some(holds) = self.gates.get(id) {
            return *holds;
        }
        let holds = self.gate(stage).is_released();
        self.gates.insert(&stage.id, holds);
        holds
    }

    /// Every gate that waits for no other waits for the names. One that was released before they were asked for stands.
    pub(super) fn unnamed(&self, stage: &Stage) -> Option<Blocker> {
        (stage.after.is_empty() && !self.ledger.aircraft.is_named()).then_some(Blocker::Unnamed)
    }

    /// How a stage's gate stands.
    pub fn gate(&mut self, stage: &Stage) -> Gate {
        if stage.gate.is_none() {
            return Gate::None;
        }
        let mut blockers = self.stage_blockers(stage);
        let release = self.ledger.releases.get(&stage.id);
        // A gate that stands is not taken back by what a later flight showed: that holds the next card.
        if release.is_none_or(|release| release.lapsed.is_some()) {
            blockers.extend(self.unnamed(stage));
            let of_stage = |flight: &&Flight| stage.checks.iter().any(|check| check.id == flight.check);
            blockers.extend(unanswered(self.plan, self.ledger.flights.iter().filter(of_stage)));
            let is_behind = self.wants_clock && self.ledger.clock.behind(self.now).is_some();
            blockers.extend(is_behind.then_some(Blocker::Clock));
        }
        match (release, blockers.is_empty()) {
            (None, true) => Gate::Ready,
            (None, false) => Gate::Shut { blockers },
            (Some(release), true) if release.lapsed.is_none() => Gate::Released(release.clone()),
            (Some(release), _) => Gate::Lapsed { release: release.clone(), blockers },
        }
    }
}

/// What of these flights nobody answered.
pub(super) fn unanswered<'a>(plan: &'a Plan, flights: impl Iterator<Item = &'a Flight>) -> Vec<Blocker> {
    let of = |flight: &'a Flight| {
        flight.unanswered(plan).into_iter().map(|what| Blocker::Unanswered { card: flight.card, what })
    };
    flights.flat_map(of).collect()
}

fn unknown_of_aircraft(plan: &Plan, ledger: &Ledger) -> Vec<Blocker> {
    let questions =
        plan.questions.iter().filter(|q| q.from.is_none() && !ledger.aircraft.answers.contains_key(&q.id));
    let aircraft = &ledger.aircraft;
    let wanted = plan.figures.iter().filter(|f| aircraft.fits(&f.when));
    let missing = wanted.clone().filter(|f| f.required && !aircraft.figures.contains_key(&f.id));
    let low = wanted.filter_map(|f| Some((f, aircraft.out_of_order(plan, f)?)));
    questions
        .map(|question| Blocker::Question(question.id.clone()))
        .chain(missing.map(|figure| Blocker::Figure(figure.id.clone())))
        .chain(low.map(|(f, below)| Blocker::Order { figure: f.id.clone(), above: below.id.clone() }))
        .collect()
}
