use std::collections::BTreeMap;

use crate::plan::{Check, CheckKind, Plan, Point, Subject};
use crate::record::{CheckResult, EntryId, Moment, Outcome};
use crate::unit::Unit;

use super::ledger::{Evidence, Ledger, Source};

/// How a check's evidence stands.
#[derive(Debug, Clone, PartialEq)]
pub enum Standing {
    /// Nothing was recorded, or what was recorded does not suffice; then `lacking` says what it wants.
    Missing {
        /// What a recorded landing still wants, empty if nothing was recorded.
        lacking: Vec<Lack>,
    },
    /// Recorded, passed, and nothing has changed under it.
    Fresh {
        /// [`Outcome::Pass`] or [`Outcome::Caution`].
        outcome: Outcome,
    },
    /// Recorded, and no longer to be relied on.
    Stale {
        /// Why, at least one.
        reasons: Vec<Reason>,
    },
    /// Recorded, and not right.
    Failed {
        /// What was not right.
        why: Fault,
    },
    /// Flown, and not as predicted, and nobody has said why.
    Unexplained {
        /// The card.
        card: EntryId,
    },
}

impl Standing {
    /// Whether a gate may stand on it.
    pub fn holds(&self) -> bool {
        matches!(self, Standing::Fresh { .. })
    }
}

/// What was recorded and does not suffice still wants this.
#[derive(Debug, Clone, PartialEq)]
pub enum Lack {
    /// The second person's name.
    Witness,
    /// The second person's name, or why nobody came.
    WitnessOrWhy,
    /// A figure of the aircraft or a temperature, by its title in the plan.
    Titled(String),
    /// The charge that was used.
    ChargeUsed,
    /// A flight that was not called off before half of its time.
    LongerFlight {
        /// Seconds flown.
        flown_s: i64,
        /// Seconds planned.
        planned_s: i64,
    },
}

/// What was not right.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// A person looked and found it so.
    FoundNotRight,
    /// What was computed, as it was said then.
    Computed(String),
    /// A reading past its limit.
    PastLimit {
        /// The reading.
        value: f64,
        /// Its unit.
        unit: Unit,
    },
    /// A place hotter than its stop.
    PastStop {
        /// The place's title.
        place: String,
        /// How hot.
        celsius: f64,
    },
}

/// What was done to something that evidence rests on.
#[derive(Debug, Clone, PartialEq)]
pub enum Deed {
    /// A figure was entered as this.
    EnteredAs(f64),
    /// A setting was set to this.
    SetTo(String),
    /// A thing of this name was described.
    Added(String),
    /// A thing of this name was described anew.
    Changed(String),
    /// A thing of this name was removed.
    Removed(String),
    /// Work, in the words of whoever did it.
    Work(String),
}

/// Why evidence is stale.
#[derive(Debug, Clone, PartialEq)]
pub enum Reason {
    /// Something that it rests on was changed.
    Changed {
        /// What it rests on.
        of: Subject,
        /// Its title in the plan, where it has one there.
        subject: String,
        /// What was done.
        what: Deed,
        /// The entry that says so.
        by: EntryId,
    },
    /// Something happened that ends it.
    Happened {
        /// The event's id.
        of: String,
        /// Its title in the plan as it was written.
        event: String,
        /// The entry that says so.
        by: EntryId,
    },
    /// It was recorded on an earlier day and holds for a day.
    DayOver,
    /// It holds for so many motor runs, and they are flown.
    RunsFlown(u32),
    /// It holds for so many hours with the motor on, and they are flown.
    HoursFlown(f64),
    /// It holds for so many days, and they are over.
    DaysOver(u32),
    /// It rests on another check whose evidence does not hold, or was recorded anew.
    RestsOn {
        /// That check's title.
        check: String,
    },
    /// Another plan came into force, and asks for something else here.
    PlanChanged {
        /// That plan's title.
        plan: String,
        /// Its edition.
        edition: String,
    },
    /// A finding was fixed, and this check is to prove the fix.
    ToProve {
        /// The finding's title.
        finding: String,
    },
}

/// Whether a result is of the kind, and in the unit, that a check asks for.
fn answers(kind: &CheckKind, result: &CheckResult) -> bool {
    match (kind, result) {
        (CheckKind::Confirm, CheckResult::Confirmed { .. })
        | (CheckKind::Compute(_), CheckResult::Computed { .. }) => true,
        (CheckKind::Measure(measure), CheckResult::Measured { value, unit }) => {
            *unit == measure.unit && !value.is_nan()
        }
        _ => false,
    }
}

/// What ran out by the calendar on a day.
pub(super) fn days_over(check: &Check, evidence: &Evidence, day: chrono::NaiveDate) -> Vec<Reason> {
    let days = (day - evidence.at.wall.date_naive()).num_days();
    let limit = check.holds.days.filter(|limit| days >= i64::from(*limit));
    // A date before the evidence's own is a clock set back; it neither ages nor renews anything.
    let session = (check.holds.session && days > 0).then_some(Reason::DayOver);
    session.into_iter().chain(limit.map(Reason::DaysOver)).collect()
}

/// Standings worked out so far at one moment; checks rest on checks, and each is asked for often.
pub(super) struct Standings<'a> {
    pub plan: &'a Plan,
    pub ledger: &'a Ledger,
    pub now: &'a Moment,
    known: BTreeMap<&'a str, Standing>,
    /// Stages whose gates were asked for, and whether they hold: gates ask the gates before them.
    pub gates: BTreeMap<&'a str, bool>,
}

impl<'a> Standings<'a> {
    pub fn new(plan: &'a Plan, ledger: &'a Ledger, now: &'a Moment) -> Self {
        Standings { plan, ledger, now, known: BTreeMap::new(), gates: BTreeMap::new() }
    }

    /// How a check stands.
    pub fn of(&mut self, check: &'a Check) -> Standing {
        if let Some(known) = self.known.get(check.id.as_str()) {
            return known.clone();
        }
        let standing = self.work_out(check);
        self.known.insert(&check.id, standing.clone());
        standing
    }

    /// All that were worked out.
    pub fn into_known(self) -> BTreeMap<String, Standing> {
        self.known.into_iter().map(|(id, standing)| (id.to_owned(), standing)).collect()
    }

    fn work_out(&mut self, check: &'a Check) -> Standing {
        let Some(evidence) = self.ledger.evidence.get(&check.id) else {
            return Standing::Missing { lacking: Vec::new() };
        };
        let mut reasons = evidence.broken.clone();
        reasons.extend(self.run_out(check, evidence));
        reasons.extend(self.rests_on_sand(check, evidence));
        if !reasons.is_empty() {
            return Standing::Stale { reasons };
        }
        self.judged(check, evidence)
    }

    fn run_out(&self, check: &Check, evidence: &Evidence) -> Vec<Reason> {
        let holds = &check.holds;
        let runs = self.ledger.runs.saturating_sub(evidence.runs);
        let hours = self.ledger.motor_ms.saturating_sub(evidence.motor_ms) as f64 / 3_600_000.0;
        let mut reasons = days_over(check, evidence, self.now.wall.date_naive());
        reasons.extend(holds.flights.filter(|limit| runs >= *limit).map(Reason::RunsFlown));
        reasons.extend(holds.hours.filter(|limit| hours >= *limit).map(Reason::HoursFlown));
        reasons.retain(|reason| !evidence.broken.contains(reason));
        reasons
    }

    fn rests_on_sand(&mut self, check: &'a Check, evidence: &Evidence) -> Vec<Reason> {
        let plan = self.plan;
        let mut reasons = Vec::new();
        for subject in &check.rests_on {
            let crate::plan::Subject::Check(id) = subject else { continue };
            let Some((_, other)) = plan.check(id) else { continue };
            if !self.ledger.aircraft.wants(other) {
                continue;
            }
            let renewed = self.ledger.evidence.get(id).is_some_and(|under| under.seq > evidence.seq);
            if renewed || !self.of(other).holds() {
                reasons.push(Reason::RestsOn { check: other.title.clone() });
            }
        }
        reasons
    }

    fn judged(&self, check: &Check, evidence: &Evidence) -> Standing {
        let said = |text: &Option<String>| text.as_deref().is_some_and(|text| !text.trim().is_empty());
        let seen = !check.witness || said(&evidence.witness);
        let goes_on = check.point == Point::Witness && said(&evidence.alone);
        if !seen && !goes_on {
            let lacking = match check.point {
                Point::Hold => Lack::Witness,
                Point::Witness => Lack::WitnessOrWhy,
            };
            return Standing::Missing { lacking: vec![lacking] };
        }
        let standing = match &evidence.of {
            Source::Result(result) => self.judge_result(check, result),
            Source::Flight(card) => self.judge_flight(check, *card),
        };
        match standing {
            // What nobody saw goes on, and stays in sight.
            Standing::Fresh { outcome } if !seen => Standing::Fresh { outcome: outcome.max(Outcome::Caution) },
            standing => standing,
        }
    }

    fn judge_result(&self, check: &Check, result: &CheckResult) -> Standing {
        let (outcome, why) = match result {
            // A plan of another edition may ask for another thing under the same id; what answers that is no evidence.
            _ if !answers(&check.kind, result) => return Standing::Missing { lacking: Vec::new() },
            CheckResult::Confirmed { passed: true } => (Outcome::Pass, Fault::FoundNotRight),
            CheckResult::Confirmed { passed: false } => (check.fail, Fault::FoundNotRight),
            CheckResult::Computed { outcome, summary, .. } => (*outcome, Fault::Computed(summary.clone())),
            CheckResult::Measured { value, unit } => match &check.kind {
                CheckKind::Measure(measure) => match self.ledger.aircraft.judge(&measure.limits, *value) {
                    // A limit without its figure judges nothing: the reading has to wait for it.
                    Err(figure) => {
                        let title = self.plan.figure(figure).map_or(figure, |figure| figure.title.as_str());
                        return Standing::Missing { lacking: vec![Lack::Titled(title.to_owned())] };
                    }
                    Ok(outcome) => (outcome, Fault::PastLimit { value: *value, unit: *unit }),
                },
                _ => (Outcome::Pass, Fault::FoundNotRight),
            },
        };
        match outcome {
            Outcome::Stop => Standing::Failed { why },
            outcome => Standing::Fresh { outcome },
        }
    }

    fn judge_flight(&self, check: &Check, card: EntryId) -> Standing {
        let (Some(flight), Some(fly)) = (self.ledger.flight(card), check.fly()) else {
            return Standing::Missing { lacking: Vec::new() };
        };
        let places = flight.places(self.plan);
        if let Some(hot) = places.iter().find(|place| place.outcome == Outcome::Stop) {
            return Standing::Failed { why: Fault::PastStop { place: hot.title.clone(), celsius: hot.celsius } };
        }
        let places_missing = flight.places_missing(self.plan, &self.ledger.aircraft, fly);
        let mut lacking: Vec<Lack> = places_missing.into_iter().map(Lack::Titled).collect();
        let used = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
        if fly.predict && flight.prediction.is_some() && used.is_none() {
            // Without it there is nothing to hold the prediction against, and the next rung would open unproved.
            lacking.push(Lack::ChargeUsed);
        }
        if let Some((flown_s, planned_s)) = flight.called_off() {
            lacking.push(Lack::LongerFlight { flown_s, planned_s });
        }
        if !lacking.is_empty() {
            return Standing::Missing { lacking };
        }
        if fly.predict && flight.explained.is_none() && flight.disagreement().is_some() {
            return Standing::Unexplained { card };
        }
        let outcome = places.iter().map(|place| place.outcome).max().unwrap_or(Outcome::Pass);
        Standing::Fresh { outcome }
    }
}
