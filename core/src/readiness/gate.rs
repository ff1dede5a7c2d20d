use crate::plan::{Check, Plan, Stage};
use crate::record::{EntryId, FindingGrade, Moment, Until};

use super::ledger::{Finding, FindingState, Ledger, Release};
use super::standing::{Standing, Standings};

/// One thing that stands in the way.
#[derive(Debug, Clone, PartialEq)]
pub enum Blocker {
    /// One of the plan's questions is not answered.
    Question(String),
    /// A figure of the aircraft is missing.
    Figure(String),
    /// A figure does not lie above the one that it must lie above: the rungs of a ladder are out of order.
    Order {
        /// The figure that lies too low.
        figure: String,
        /// The figure that it must lie above.
        above: String,
    },
    /// A check's evidence does not hold.
    Check {
        /// Which check.
        check: String,
        /// How it stands.
        standing: Standing,
    },
    /// A finding is not closed.
    Finding(EntryId),
    /// An earlier gate is not released.
    Gate(String),
}

/// How a stage's gate stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Gate {
    /// Something is in the way.
    Shut {
        /// What.
        blockers: Vec<Blocker>,
    },
    /// The pilot may release it.
    Ready,
    /// The pilot released it and nothing has changed since.
    Released(Release),
    /// It was released, and what it stood on no longer holds.
    Lapsed {
        /// The release that lapsed.
        release: Release,
        /// What is in the way now; empty if it may be released anew.
        blockers: Vec<Blocker>,
    },
    /// The stage has no gate.
    None,
}

impl Gate {
    /// Whether the next stage may stand on it.
    pub fn is_released(&self) -> bool {
        matches!(self, Gate::Released(_) | Gate::None)
    }

    /// Whether the pilot may release it now.
    pub fn may_be_released(&self) -> bool {
        match self {
            Gate::Ready => true,
            Gate::Lapsed { blockers, .. } => blockers.is_empty(),
            _ => false,
        }
    }
}

/// Whether a check belongs to its stage's gate.
pub(super) fn counts_for_gate(ledger: &Ledger, check: &Check) -> bool {
    check.mandatory && check.before_flights_from.is_none() && ledger.aircraft.wants(check)
}

impl Finding {
    /// Whether it holds anything shut at that moment.
    pub fn blocks(&self, ledger: &Ledger, now: &Moment) -> bool {
        if self.grade == FindingGrade::Note {
            return false;
        }
        match &self.state {
            FindingState::Open | FindingState::Fixed { .. } => true,
            FindingState::Proven { .. } => false,
            FindingState::Carried { .. } => self.carry_over(ledger, now),
        }
    }

    /// Motor runs for which it may still be carried, where it is carried by runs.
    pub fn runs_left(&self, ledger: &Ledger) -> Option<u32> {
        match &self.state {
            FindingState::Carried { until: Until::Flights(flights), runs, .. } => {
                Some(flights.saturating_sub(ledger.runs.saturating_sub(*runs)))
            }
            _ => None,
        }
    }

    /// Whether it is carried and the time for that is over.
    pub fn carry_over(&self, ledger: &Ledger, now: &Moment) -> bool {
        match &self.state {
            FindingState::Carried { until: Until::Flights(flights), runs, .. } => {
                ledger.runs.saturating_sub(*runs) >= *flights
            }
            FindingState::Carried { until: Until::Date(last), .. } => self.ran_out || now.wall.date_naive() > *last,
            _ => false,
        }
    }
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

    /// How a stage's gate stands.
    pub fn gate(&mut self, stage: &Stage) -> Gate {
        if stage.gate.is_none() {
            return Gate::None;
        }
        let blockers = self.stage_blockers(stage);
        match (self.ledger.releases.get(&stage.id), blockers.is_empty()) {
            (None, true) => Gate::Ready,
            (None, false) => Gate::Shut { blockers },
            (Some(release), true) if release.lapsed.is_none() => Gate::Released(release.clone()),
            (Some(release), _) => Gate::Lapsed { release: release.clone(), blockers },
        }
    }
}

fn unknown_of_aircraft(plan: &Plan, ledger: &Ledger) -> Vec<Blocker> {
    let questions = plan.questions.iter().filter(|q| !ledger.aircraft.answers.contains_key(&q.id));
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
