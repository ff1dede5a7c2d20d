//! How far an aircraft that is not in service yet is on its way there, and about how long the rest of the way may take.

use std::ops::Add;

use super::blockers::counts_for_gate;
use super::gate::{Blocker, Gate};
use super::ledger::Ledger;
use super::next::Report;
use crate::plan::{Check, CheckKind, Plan, Stage};

/// Minutes of work at the aircraft, from the quickest to the slowest that is usual.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Span {
    /// The quickest.
    pub low_min: f64,
    /// The slowest.
    pub high_min: f64,
}

/// What one thing takes that is still to do. Common practice, no source. Building, charging and the way to the field are not in it.
impl Span {
    /// A name, an answer, a figure off a paper.
    pub const ENTERED: Span = Span { low_min: 0.5, high_min: 2.0 };
    /// What is looked at or tried.
    pub const LOOKED_AT: Span = Span { low_min: 1.0, high_min: 8.0 };
    /// What is read off an instrument, or computed from what is described first.
    pub const READ: Span = Span { low_min: 2.0, high_min: 15.0 };
    /// What a motor run takes beside its own minutes: the card, the person beside it, the heat, a look.
    pub const AROUND_A_RUN: Span = Span { low_min: 15.0, high_min: 40.0 };

    fn of(check: &Check) -> Span {
        match &check.kind {
            CheckKind::Confirm => Span::LOOKED_AT,
            CheckKind::Measure(_) | CheckKind::Compute(_) => Span::READ,
            CheckKind::Fly(fly) => Span::AROUND_A_RUN + Span { low_min: fly.minutes, high_min: fly.minutes },
        }
    }

    /// So many of the same.
    fn times(self, count: usize) -> Span {
        Span { low_min: self.low_min * count as f64, high_min: self.high_min * count as f64 }
    }
}

impl Add for Span {
    type Output = Span;

    fn add(self, other: Span) -> Span {
        Span { low_min: self.low_min + other.low_min, high_min: self.high_min + other.high_min }
    }
}

/// How far one stage is that has a gate.
#[derive(Debug, Clone, PartialEq)]
pub struct StageAhead {
    /// Its id.
    pub stage: String,
    /// What holds: checks, and in the first stage the names, answers and figures.
    pub done: usize,
    /// Of how many.
    pub wanted: usize,
    /// Whether its gate was released and stands.
    pub is_released: bool,
    /// Whether its gate was released and no longer stands.
    pub is_lapsed: bool,
    /// What the rest of it takes.
    pub left: Span,
}

/// The way into service.
#[derive(Debug, Clone, PartialEq)]
pub struct WayAhead {
    /// Every stage with a gate, in the plan's order.
    pub stages: Vec<StageAhead>,
    /// The place among them of the first whose gate does not stand.
    pub here: usize,
}

impl WayAhead {
    /// The stage that is worked on.
    pub fn stage(&self) -> Option<&StageAhead> {
        self.stages.get(self.here)
    }

    /// What all that is left takes.
    pub fn left(&self) -> Span {
        self.stages.iter().fold(Span::default(), |sum, stage| sum + stage.left)
    }
}

impl Ledger {
    /// The way into service; none for an aircraft of which every gate was released once, or of a plan that has none.
    pub fn way_ahead(&self, plan: &Plan, report: &Report) -> Option<WayAhead> {
        let was_released = |gate: &Gate| matches!(gate, Gate::Released(_) | Gate::Lapsed { .. });
        let gated: Vec<&Stage> = plan.stages.iter().filter(|stage| stage.gate.is_some()).collect();
        if gated.iter().all(|stage| was_released(report.gate(&stage.id))) {
            return None;
        }
        let ahead = gated.iter().enumerate().map(|(index, stage)| self.stage_ahead(plan, report, stage, index == 0));
        let stages: Vec<StageAhead> = ahead.collect();
        let here = stages.iter().position(|stage| !stage.is_released)?;
        Some(WayAhead { stages, here })
    }

    fn stage_ahead(&self, plan: &Plan, report: &Report, stage: &Stage, is_first: bool) -> StageAhead {
        let gate = report.gate(&stage.id);
        let checks: Vec<&Check> = stage.checks.iter().filter(|check| counts_for_gate(self, check)).collect();
        let open: Vec<&&Check> = checks.iter().filter(|check| !report.standing(&check.id).holds()).collect();
        let (entries, to_enter) = if is_first { self.entries_asked(plan, gate) } else { (0, 0) };
        let left = open.iter().fold(Span::ENTERED.times(to_enter), |sum, check| sum + Span::of(check));
        StageAhead {
            stage: stage.id.clone(),
            done: checks.len() - open.len() + entries.saturating_sub(to_enter),
            wanted: checks.len() + entries,
            is_released: matches!(gate, Gate::Released(_)),
            is_lapsed: matches!(gate, Gate::Lapsed { .. }),
            left,
        }
    }

    /// How many names, answers and figures the plan asks of this aircraft, and how many of them are still to be entered.
    fn entries_asked(&self, plan: &Plan, gate: &Gate) -> (usize, usize) {
        let questions = plan.questions.iter().filter(|question| question.from.is_none()).count();
        let figures =
            plan.figures.iter().filter(|figure| figure.required && self.aircraft.fits(&figure.when)).count();
        let blockers = match gate {
            Gate::Shut { blockers } | Gate::Lapsed { blockers, .. } => blockers.as_slice(),
            Gate::Ready | Gate::Released(_) | Gate::None => &[],
        };
        let is_entry = |blocker: &&Blocker| {
            matches!(blocker, Blocker::Unnamed | Blocker::Question(_) | Blocker::Figure(_) | Blocker::Order { .. })
        };
        (1 + questions + figures, blockers.iter().filter(is_entry).count())
    }
}
