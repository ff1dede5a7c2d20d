use std::collections::BTreeMap;

use crate::plan::{Check, Plan, Stage, Subject};
use crate::record::{Moment, Outcome};

use super::back::DueSoon;
use super::blockers::{counts_for_gate, unanswered};
use super::finding::FindingState;
use super::gate::{Blocker, Gate};
use super::judge::Standings;
use super::ledger::Ledger;
use super::standing::Standing;

/// How everything stands at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// How each check of this aircraft stands.
    pub standings: BTreeMap<String, Standing>,
    /// How each stage's gate stands, in the plan's order.
    pub gates: Vec<(String, Gate)>,
    /// The next flight and what stands between the aircraft and it; none where the plan flies nothing.
    pub next: Option<NextFlight>,
    /// What holds and will soon run out, soonest first.
    pub due_soon: Vec<DueSoon>,
}

/// The next flight in the plan's order.
#[derive(Debug, Clone, PartialEq)]
pub struct NextFlight {
    /// Its fly check.
    pub check: String,
    /// What stands in between, in the order in which it is best done.
    pub blockers: Vec<Blocker>,
}

impl NextFlight {
    /// Whether what stands in between is done on the flight's card: in service whatever is due, on the way there what was done before and
    /// is due again. What was never done is done on its own page, which says how; so is what failed.
    pub fn is_done_on_card(&self, plan: &Plan) -> bool {
        let in_service = plan.check(&self.check).is_some_and(|(stage, _)| stage.gate.is_none());
        let recurs = |check: &str| plan.check(check).is_some_and(|(_, check)| check.before_flights_from.is_some());
        let is_done_there = |blocker: &Blocker| match blocker {
            Blocker::Check { standing: Standing::Failed { .. }, .. } => false,
            Blocker::Check { check, standing: Standing::Stale { .. } } => in_service || recurs(check),
            Blocker::Check { .. } => in_service,
            _ => false,
        };
        !self.blockers.is_empty() && self.blockers.iter().all(is_done_there)
    }
}

impl Report {
    /// How a check stands; missing for one that is not for this aircraft.
    pub fn standing(&self, check: &str) -> Standing {
        self.standings.get(check).cloned().unwrap_or(Standing::Missing { lacking: Vec::new() })
    }

    /// How a stage's gate stands.
    pub fn gate(&self, stage: &str) -> &Gate {
        self.gates.iter().find(|(id, _)| id == stage).map_or(&Gate::None, |(_, gate)| gate)
    }
}

impl Ledger {
    /// How everything stands at a moment.
    pub fn at(&self, plan: &Plan, now: &Moment) -> Report {
        let mut standings = Standings::new(plan, self, now);
        for (_, check) in plan.checks().filter(|(_, check)| self.aircraft.wants(check)) {
            standings.of(check);
        }
        let gates = plan.stages.iter().map(|stage| (stage.id.clone(), standings.gate(stage))).collect();
        let next = standings.next_flight();
        let due_soon = standings.due_soon();
        Report { standings: standings.into_known(), gates, next, due_soon }
    }

    /// The checks of a stage's gate that hold past a caution, those at a witness point that nobody saw among them: the gate would stand on
    /// them.
    pub fn cautions<'p>(&self, plan: &'p Plan, report: &Report, stage: &str) -> Vec<&'p Check> {
        let checks = plan.stage(stage).map(|stage| stage.checks.as_slice()).unwrap_or_default();
        let is_caution = |check: &&Check| report.standing(&check.id) == Standing::Fresh { outcome: Outcome::Caution };
        checks.iter().filter(|check| counts_for_gate(self, check)).filter(is_caution).collect()
    }
    /// What stands between the aircraft and one fly check at a moment.
    ///
    /// Empty: its card may be drawn up. A check that was flown before may be flown again under the same rule.
    pub fn before_flying(&self, plan: &Plan, check: &str, now: &Moment) -> Vec<Blocker> {
        let mut standings = Standings::new(plan, self, now);
        match plan.check(check).filter(|(_, check)| check.fly().is_some() && self.aircraft.wants(check)) {
            Some((stage, check)) => standings.before_flying(stage, check),
            // What this aircraft does not fly stands in its own way.
            None => {
                vec![Blocker::Check { check: check.to_owned(), standing: Standing::Missing { lacking: Vec::new() } }]
            }
        }
    }
}

impl Ledger {
    /// How one check stands, where no more is asked than that.
    pub fn standing(&self, plan: &Plan, check: &Check, now: &Moment) -> Standing {
        Standings::new(plan, self, now).of(check)
    }
}

impl<'a> Standings<'a> {
    fn next_flight(&mut self) -> Option<NextFlight> {
        let (plan, ledger) = (self.plan, self.ledger);
        let to_fly =
            |(_, check): &(&Stage, &Check)| check.fly().is_some() && check.mandatory && ledger.aircraft.wants(check);
        let ladder = |(stage, _): &(&Stage, &Check)| stage.gate.is_some();
        let mut flights = plan.checks().filter(to_fly).filter(ladder);
        // What was flown and waits for a word is not flown again for it: it stands in the way of the one after it.
        let is_to_fly = |standing: &Standing| !standing.holds() && !matches!(standing, Standing::Unexplained { .. });
        let (stage, check) = flights
            .find(|(_, check)| is_to_fly(&self.of(check)))
            .or_else(|| plan.checks().filter(to_fly).find(|(stage, _)| stage.gate.is_none()))?;
        let mut blockers = self.before_flying(stage, check);
        // The card itself says which packs it wants; without any it is shut, and the board says so before it is drawn up.
        blockers.extend((!ledger.has_pack_to_fly()).then_some(Blocker::NoPack));
        Some(NextFlight { check: check.id.clone(), blockers })
    }

    fn before_flying(&mut self, stage: &'a Stage, check: &'a Check) -> Vec<Blocker> {
        let mut blockers: Vec<Blocker> = self.ledger.last_run_to_jot().map(Blocker::Landing).into_iter().collect();
        blockers.extend(unanswered(self.plan, self.ledger.flights.iter()));
        blockers.extend(self.findings_before(check));
        let index = self.plan.stage_index(&stage.id).unwrap_or(0);
        blockers.extend(self.stages_before(stage, index));
        blockers.extend(self.checks_before(stage, check));
        blockers.extend(self.due_before_flights(index));
        let mut seen: Vec<Blocker> = Vec::new();
        blockers.retain(|blocker| {
            let new = !seen.contains(blocker);
            seen.push(blocker.clone());
            new
        });
        blockers
    }

    /// Findings hold every flight, except the one that is to prove the fix and those on the way up to it.
    ///
    /// Before a finding that awaits its proof stands what the proof rests on: repeated on stale ground it proves nothing.
    fn findings_before(&mut self, check: &Check) -> Vec<Blocker> {
        let (plan, ledger, now) = (self.plan, self.ledger, self.now);
        let mut blockers = Vec::new();
        for finding in ledger.findings.iter().filter(|finding| finding.blocks(ledger, now)) {
            let fixed = matches!(finding.state, FindingState::Fixed { .. });
            if fixed && self.is_on_the_way(check, &finding.proof) {
                continue;
            }
            if let Some((_, proof)) = plan.check(&finding.proof).filter(|_| fixed) {
                let mut way = Vec::new();
                self.rests_on_checks(proof).into_iter().for_each(|under| self.way_to(under, &mut way));
                let ground = way.iter().filter_map(|id| plan.check(id)).filter(|(_, under)| under.fly().is_none());
                for (_, under) in ground {
                    blockers.push(Blocker::Check { check: under.id.clone(), standing: self.of(under) });
                }
            }
            blockers.push(Blocker::Finding(finding.id));
        }
        blockers
    }

    /// Whether a check has to be flown, or flown anew, before another can be proved: a fix touches parts, and what was
    /// flown with them must be flown again from the lowest rung up.
    fn is_on_the_way(&self, check: &Check, proof: &str) -> bool {
        let plan = self.plan;
        let place = |id: &str| plan.checks().position(|(_, known)| known.id == id);
        let mut wanted = vec![proof];
        let mut seen: Vec<&str> = Vec::new();
        while let Some(id) = wanted.pop() {
            let Some((_, known)) = plan.check(id).filter(|_| !seen.contains(&id)) else { continue };
            seen.push(id);
            wanted.extend(known.rests_on.iter().filter_map(|subject| match subject {
                Subject::Check(on) => Some(on.as_str()),
                _ => None,
            }));
        }
        let flown = seen.iter().filter(|id| plan.check(id).is_some_and(|(_, known)| known.fly().is_some()));
        let highest = flown.filter_map(|id| place(id)).max();
        place(&check.id).is_some_and(|here| highest.is_some_and(|highest| here <= highest))
    }

    /// What keeps the earlier gates shut, then the gates themselves, stage by stage.
    fn stages_before(&mut self, stage: &Stage, index: usize) -> Vec<Blocker> {
        let plan = self.plan;
        let mut blockers = Vec::new();
        // Those that stand before it in the plan, and those that it waits for wherever they stand.
        let named = plan.stages.iter().skip(index).filter(|other| stage.after.contains(&other.id));
        for earlier in plan.stages.iter().take(index).chain(named) {
            if self.gate(earlier).is_released() {
                continue;
            }
            blockers.extend(self.unnamed(earlier));
            blockers.extend(self.stage_blockers(earlier).into_iter().filter(|b| !matches!(b, Blocker::Gate(_))));
            blockers.push(Blocker::Gate(earlier.id.clone()));
        }
        blockers
    }

    /// The checks of the same stage that come first: one rung at a time.
    fn checks_before(&mut self, stage: &'a Stage, check: &'a Check) -> Vec<Blocker> {
        let earlier = stage.checks.iter().take_while(|other| other.id != check.id);
        let ledger = self.ledger;
        earlier
            .filter(|other| counts_for_gate(ledger, other))
            .map(|other| Blocker::Check { check: other.id.clone(), standing: self.of(other) })
            .filter(|blocker| !matches!(blocker, Blocker::Check { standing: Standing::Fresh { .. }, .. }))
            .collect()
    }

    /// Recurring checks that are due.
    fn due_before_flights(&mut self, index: usize) -> Vec<Blocker> {
        let (plan, ledger) = (self.plan, self.ledger);
        let due = plan.checks().filter(|(_, check)| {
            let from = check.before_flights_from.as_ref().and_then(|stage| plan.stage_index(stage));
            check.mandatory && from.is_some_and(|from| from <= index) && ledger.aircraft.wants(check)
        });
        due.map(|(_, check)| Blocker::Check { check: check.id.clone(), standing: self.of(check) })
            .filter(|blocker| !matches!(blocker, Blocker::Check { standing: Standing::Fresh { .. }, .. }))
            .collect()
    }
}
