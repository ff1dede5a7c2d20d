//! Works out how the evidence of each check stands at a moment.

use std::collections::BTreeMap;

use super::evidence::{Evidence, Source};
use super::ledger::Ledger;
use super::papers;
use super::reason::Reason;
use super::standing::{Fault, Lack, Standing};
use crate::field::{Flight, LandingLack, ShownFinding, left_percent, reserve_percent};
use crate::plan::{Check, CheckKind, Fly, Place, Plan, Point, Subject};
use crate::record::{CheckResult, EntryId, FindingGrade, Judgement, Moment, Outcome};

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

/// Standings worked out so far at one moment; checks rest on checks, and each is asked for often.
pub(super) struct Standings<'a> {
    pub plan: &'a Plan,
    pub ledger: &'a Ledger,
    pub now: &'a Moment,
    /// Whether a wall clock that is behind keeps anything from being relied on. What an entry did is not undone by it.
    pub wants_clock: bool,
    known: BTreeMap<&'a str, Standing>,
    /// Stages whose gates were asked for, and whether they hold: gates ask the gates before them.
    pub gates: BTreeMap<&'a str, bool>,
}

impl<'a> Standings<'a> {
    pub fn new(plan: &'a Plan, ledger: &'a Ledger, now: &'a Moment) -> Self {
        Standings { plan, ledger, now, wants_clock: true, known: BTreeMap::new(), gates: BTreeMap::new() }
    }

    /// As an entry finds them that is taken in.
    pub fn of_entry(plan: &'a Plan, ledger: &'a Ledger, at: &'a Moment) -> Self {
        Standings { wants_clock: false, ..Standings::new(plan, ledger, at) }
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
        let day = self.ledger.clock.day(self.now);
        let mut reasons = evidence.days_over(check, day);
        reasons.extend(papers::over(&self.ledger.aircraft, check, day));
        let by_papers = papers::dated(&self.ledger.aircraft, check).next().is_some();
        let by_days = holds.session || holds.days.is_some() || by_papers;
        if self.wants_clock && by_days && self.ledger.clock.is_untold(evidence.seq, self.now) {
            reasons.push(Reason::ClockBehind);
        }
        reasons.extend(holds.flights.filter(|limit| runs >= *limit).map(Reason::RunsFlown));
        reasons.extend(holds.hours.filter(|limit| hours >= *limit).map(Reason::HoursFlown));
        reasons.retain(|reason| !evidence.broken.contains(reason));
        reasons
    }

    fn rests_on_sand(&mut self, check: &'a Check, evidence: &Evidence) -> Vec<Reason> {
        let plan = self.plan;
        let mut reasons = Vec::new();
        for subject in &check.rests_on {
            let Subject::Check(id) = subject else { continue };
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
        if let Some(run) = check.read_on.as_ref().filter(|run| evidence.read_on.as_ref() != Some(run)) {
            let title = self.plan.check(run).map_or_else(|| run.clone(), |(_, check)| check.title.clone());
            return Standing::Missing { lacking: vec![Lack::RunOf(title)] };
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
            Outcome::Stop => return Standing::Failed { why },
            Outcome::Pass | Outcome::Caution => {}
        }
        let mut lacking = self.contradictions(check, result);
        lacking.extend(self.not_declared(result));
        if lacking.is_empty() { Standing::Fresh { outcome } } else { Standing::Missing { lacking } }
    }

    /// Lists that a computation judged and that nobody says are complete: what is not on them was not judged.
    fn not_declared(&self, result: &CheckResult) -> Vec<Lack> {
        let CheckResult::Computed { judged, .. } = result else { return Vec::new() };
        let open = judged.iter().filter(|judged| !self.ledger.is_declared(judged));
        open.map(|judged| Lack::ListDeclared(judged.list)).collect()
    }

    fn contradictions(&self, check: &Check, result: &CheckResult) -> Vec<Lack> {
        let (CheckKind::Measure(measure), CheckResult::Measured { value, unit }) = (&check.kind, result) else {
            return Vec::new();
        };
        let found = self.ledger.aircraft.contradicts(measure, *value);
        found
            .map(|(with, on_file)| Lack::Agreement { with: with.clone(), on_file, read: *value, unit: *unit })
            .collect()
    }

    fn judge_flight(&self, check: &Check, card: EntryId) -> Standing {
        let (Some(flight), Some(fly)) = (self.ledger.flight(card), check.fly()) else {
            return Standing::Missing { lacking: Vec::new() };
        };
        let aircraft = &self.ledger.aircraft;
        let places = flight.places(self.plan);
        if let Some(hot) = places.iter().find(|place| place.outcome == Outcome::Stop) {
            return Standing::Failed { why: Fault::PastStop { place: hot.title.clone(), celsius: hot.celsius } };
        }
        let judgement = flight.landing.as_ref().map(|landing| &landing.judgement);
        if let Some(Judgement::NotSo { why }) = judgement {
            return Standing::Failed { why: Fault::NotSo(why.clone()) };
        }
        let used_mah = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
        let left = used_mah.filter(|_| fly.reserve).map(|used_mah| left_percent(aircraft, flight, used_mah));
        let reserve_percent = reserve_percent(aircraft);
        if let Some(left_percent) = left.flatten().filter(|left_percent| *left_percent < reserve_percent) {
            return Standing::Failed { why: Fault::UnderReserve { left_percent, reserve_percent } };
        }
        let mut lacking = self.lacking_of_flight(fly, flight);
        if left == Some(None) {
            lacking.push(Lack::PackCapacity);
        }
        match judgement {
            Some(Judgement::Open) => lacking.push(Lack::Judgement),
            Some(Judgement::CalledOff { why }) => lacking.push(Lack::NotCalledOff { why: why.clone() }),
            Some(Judgement::NotAsked | Judgement::AsItShouldBe | Judgement::NotSo { .. }) | None => {}
        }
        if !lacking.is_empty() {
            return Standing::Missing { lacking };
        }
        let outcome = places.iter().map(|place| place.outcome).max().unwrap_or(Outcome::Pass);
        if !fly.predict || flight.disagreement().is_none() || flight.is_explained() {
            return Standing::Fresh { outcome };
        }
        match flight.disagrees_widely() && self.has_finding(flight) {
            // The finding holds what it must; what drew so much proves no other fix.
            true => Standing::Fresh { outcome: outcome.max(Outcome::Caution) },
            false => Standing::Unexplained { card },
        }
    }

    /// Whether a flight showed a finding of more than a note, and not of a place that was hot: what it drew is in it.
    fn has_finding(&self, flight: &Flight) -> bool {
        let grade = |shown: &ShownFinding| self.ledger.finding(shown.finding).map(|finding| finding.grade);
        let holds = |shown: &ShownFinding| grade(shown).is_some_and(|grade| grade != FindingGrade::Note);
        flight.findings.iter().any(|shown| shown.place.is_none() && holds(shown))
    }

    /// What a landed run lacks of what its check wants.
    fn lacking_of_flight(&self, fly: &Fly, flight: &Flight) -> Vec<Lack> {
        let landing = flight.landing.as_ref();
        let read = landing.map(|landing| landing.temperatures.as_slice()).unwrap_or_default();
        let used_mah = landing.and_then(|landing| landing.pack_used_mah);
        let lack = LandingLack::of(self.plan, &self.ledger.aircraft, fly, flight, read, used_mah);
        let late =
            |(place, after_s): &(&Place, i64)| Lack::ReadTooLate { title: place.title.clone(), after_s: *after_s };
        let mut lacking: Vec<Lack> = lack.places.iter().map(|place| Lack::Titled(place.title.clone())).collect();
        lacking.extend(lack.late.iter().map(late));
        lacking.extend(lack.charge.then_some(Lack::ChargeUsed));
        lacking.extend((!flight.timed.is_known()).then_some(Lack::FlownTime));
        lacking.extend(flight.too_short(fly).map(Lack::LongerFlight));
        lacking
    }
}
