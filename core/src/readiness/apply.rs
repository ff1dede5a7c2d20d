use crate::aircraft::{FigureValue, SettingValue};
use crate::field::{Flight, Landing, Lock, Mark, Tested};
use crate::plan::{Plan, Subject};
use crate::record::{Body, Entry, EntryId, FindingGrade, Moment, Outcome, Until};

use super::ledger::{
    Adjusted, Change, Charged, Described, Evidence, Finding, FindingState, Happened, Ledger, Recorded, Release, Seat,
    Source, Start, Touch, Tried,
};
use super::standing::{Deed, Reason, Standing, Standings, days_over};
use crate::locale::Locale;

/// Whether a gate can lapse or a fix be proven by such an entry. The others only add to what is read.
fn may_move_a_gate(body: &Body) -> bool {
    !matches!(
        body,
        Body::AircraftNamed { .. }
            | Body::PlanAdopted { .. }
            | Body::CardDrawn { .. }
            | Body::HandedOver { .. }
            | Body::HandedBack { .. }
            | Body::Marked { .. }
            | Body::Unmarked { .. }
            | Body::CodeRefused { .. }
            | Body::WaitBegun { .. }
            | Body::OpenedWithoutCode { .. }
            | Body::CodeSet { .. }
            | Body::CodeRemoved {}
            | Body::PackCharged { .. }
            | Body::LogAttached { .. }
            | Body::Withdrawn { .. }
    )
}

fn same_subject(one: &Reason, other: &Reason) -> bool {
    let happened =
        matches!((one, other), (Reason::Happened { event: a, .. }, Reason::Happened { event: b, .. }) if a == b);
    happened
        || matches!((one, other), (Reason::Changed { subject: a, .. }, Reason::Changed { subject: b, .. }) if a == b)
}

impl Ledger {
    /// Takes one entry in. Entries that make no sense here (a mark on no card, say) change nothing.
    pub(super) fn apply(&mut self, plan: &Plan, entry: &Entry) {
        let day = entry.at.wall.date_naive();
        if self.last_day.replace(day) != Some(day) {
            // What ran out by time since the last entry lapses before this entry can renew it. Evidence and carried
            // findings run out by whole days; runs and hours are counted by the entries themselves.
            self.run_out(plan, day);
            self.lapse_gates(plan, &entry.at);
        }
        self.take_in(plan, entry);
        if may_move_a_gate(&entry.body) {
            self.settle_proofs(plan, &entry.at);
            self.lapse_gates(plan, &entry.at);
        }
    }

    /// Another plan comes into force. What was recorded stays; what answers no longer what is asked goes stale, and so
    /// does what rests on something now that was touched since.
    pub(super) fn adopt(&mut self, old: &Plan, new: &Plan, entry: &Entry) {
        let day = entry.at.wall.date_naive();
        self.last_day = Some(day);
        self.run_out(old, day);
        self.lapse_gates(old, &entry.at);
        let reason = Reason::PlanChanged { plan: new.title.clone(), edition: new.edition.clone() };
        for (id, evidence) in &mut self.evidence {
            let before = old.check(id).map(|(_, check)| check);
            let after = new.check(id).map(|(_, check)| check);
            let same = before.zip(after).is_some_and(|(before, after)| after.asks_the_same(before));
            if !same && !evidence.broken.contains(&reason) {
                evidence.broken.push(reason.clone());
            }
            let Some(after) = after else { continue };
            let touched = self.touches.iter().filter(|touch| touch.seq > evidence.seq);
            for touch in touched.filter(|touch| after.ends_with(&touch.subject)) {
                if !evidence.broken.iter().any(|known| same_subject(known, &touch.reason)) {
                    evidence.broken.push(touch.reason.clone());
                }
            }
        }
        self.run_out(new, day);
        self.settle_proofs(new, &entry.at);
        self.lapse_gates(new, &entry.at);
    }

    fn take_in(&mut self, plan: &Plan, entry: &Entry) {
        match &entry.body {
            Body::AircraftNamed { name, builder } => {
                self.aircraft.name.clone_from(name);
                self.aircraft.builder.clone_from(builder);
            }
            Body::TraitChosen { question, choice } => {
                self.aircraft.answers.insert(question.clone(), choice.clone());
            }
            Body::Happened { event, note } => self.happened(plan, entry, event, note),
            Body::FigureSet { figure, value, basis, reason } => {
                let new = FigureValue { value: *value, basis: *basis, entry: entry.id };
                let old = self.aircraft.figures.insert(figure.clone(), new);
                if old.is_none_or(|old| old.value != *value) {
                    if plan.figure(figure).is_some_and(|figure| figure.adjustable) {
                        let before = old.map(|old| crate::unit::show_number(old.value));
                        let subject = Subject::Figure(figure.clone());
                        self.adjust(entry, subject, before, &crate::unit::show_number(*value), reason.as_deref());
                    }
                    self.touch(plan, entry, &[Subject::Figure(figure.clone())], &Deed::EnteredAs(*value));
                }
            }
            Body::ThingSet { thing } => {
                let old = self.aircraft.things.insert(thing.reference(), thing.clone());
                self.described.insert(thing.reference(), Described { seq: entry.seq, runs: self.runs });
                if old.as_ref() != Some(thing) {
                    let name = thing.name.clone();
                    let deed = if old.is_some() { Deed::Changed(name) } else { Deed::Added(name) };
                    self.touch_thing(plan, entry, thing.kind, &deed);
                }
            }
            Body::ThingRemoved { thing } => {
                self.described.remove(thing);
                if self.aircraft.things.remove(thing).is_some() {
                    self.touch_thing(plan, entry, thing.kind, &Deed::Removed(thing.name.clone()));
                }
            }
            Body::Changed { subjects, what } => self.changed(plan, entry, subjects, what),
            Body::SettingChanged { setting, after, reason, .. } => self.set(plan, entry, setting, after, reason),
            Body::CheckRecorded { check, result, .. } => {
                let now = Start { seq: entry.seq, runs: self.runs, motor_ms: self.motor_ms };
                self.keep_evidence(entry, check, Source::Result(result.clone()), now, Vec::new());
            }
            Body::FindingRaised { .. } | Body::FindingFixed { .. } | Body::FindingCarried { .. } => {
                self.take_in_finding(plan, entry);
            }
            Body::GateReleased { stage, by, evidence } => {
                let release = Release {
                    entry: entry.id,
                    at: entry.at.clone(),
                    by: by.clone(),
                    evidence: evidence.clone(),
                    lapsed: None,
                };
                self.releases.insert(stage.clone(), release);
            }
            // A plan that comes into force is `adopt`ed; a withdrawal was taken into account before it.
            Body::PlanAdopted { .. } | Body::Withdrawn { .. } => {}
            Body::CodeRefused { .. }
            | Body::WaitBegun { .. }
            | Body::OpenedWithoutCode { .. }
            | Body::CodeSet { .. }
            | Body::CodeRemoved {} => self.take_in_lock(entry),
            _ => self.take_in_flight(plan, entry),
        }
    }

    fn take_in_lock(&mut self, entry: &Entry) {
        let lock = &mut self.lock;
        match &entry.body {
            Body::CodeSet { hash } => *lock = Lock { hash: Some(hash.clone()), ..Lock::default() },
            Body::CodeRemoved {} => *lock = Lock::default(),
            Body::CodeRefused { .. } => {
                lock.wrong = lock.wrong.saturating_add(1);
                lock.last_wrong = Some(entry.at.clone());
            }
            Body::WaitBegun { .. } if lock.waits_since.is_none() => lock.waits_since = Some(entry.at.clone()),
            Body::OpenedWithoutCode { .. } => lock.opened = Some(entry.at.clone()),
            _ => {}
        }
    }

    fn take_in_flight(&mut self, plan: &Plan, entry: &Entry) {
        match &entry.body {
            Body::CardDrawn { check, pack, head_speed_rpm, planned_s, air_c, prediction } => {
                self.flights.push(Flight {
                    pack: pack.clone(),
                    head_speed_rpm: *head_speed_rpm,
                    planned_s: *planned_s,
                    air_c: *air_c,
                    prediction: prediction.clone(),
                    ..Flight::drawn(entry.id, check)
                });
            }
            Body::HandedOver { card, spotter } => {
                if let Some(flight) = self.flight_mut(*card) {
                    flight.spotter = Some(spotter.clone());
                    self.seat = Seat::Spotter { card: *card, name: spotter.clone() };
                    self.lock.begin_turn();
                }
            }
            Body::Started { card } => {
                let drawn = self.flight(*card).filter(|flight| flight.started.is_none());
                let Some(rpm) = drawn.map(|flight| flight.head_speed_rpm) else { return };
                let tests = self.tested_at(rpm);
                self.untested.clear();
                if let Some(flight) = self.flight_mut(*card) {
                    flight.started = Some(entry.at.clone());
                    flight.tests = tests;
                    self.runs += 1;
                    let start = Start { seq: entry.seq, runs: self.runs, motor_ms: self.motor_ms };
                    self.starts.insert(*card, start);
                }
            }
            Body::Marked { card, mark, elapsed_ms } => {
                if let Some(flight) = self.flight_mut(*card) {
                    flight.marks.push(Mark { kind: *mark, elapsed_ms: *elapsed_ms, entry: entry.id });
                }
            }
            Body::TouchedDown { card, elapsed_ms } => {
                let running = |flight: &&mut Flight| flight.started.is_some() && flight.down.is_none();
                if let Some(flight) = self.flight_mut(*card).filter(running) {
                    let elapsed_ms = (*elapsed_ms).max(0);
                    flight.down = Some((entry.at.clone(), elapsed_ms));
                    self.motor_ms = self.motor_ms.saturating_add(elapsed_ms);
                }
            }
            Body::Resumed { card } => {
                if let Some((_, elapsed_ms)) = self.flight_mut(*card).and_then(|flight| flight.down.take()) {
                    self.motor_ms = self.motor_ms.saturating_sub(elapsed_ms);
                }
            }
            Body::Unmarked { card, mark } => {
                if let Some(flight) = self.flight_mut(*card) {
                    flight.marks.retain(|noted| noted.entry != *mark);
                }
            }
            Body::HandedBack { .. } => {
                self.seat = Seat::Pilot;
                self.lock.begin_turn();
            }
            Body::LandingRecorded { card, pack_used_mah, temperatures, notes } => {
                let landing = Landing {
                    entry: entry.id,
                    pack_used_mah: *pack_used_mah,
                    temperatures: temperatures.clone(),
                    notes: notes.clone(),
                };
                self.record_landing(plan, entry, *card, landing);
            }
            Body::PackCharged { pack, .. } => {
                self.charges.insert(pack.clone(), Charged { at: entry.at.clone(), seq: entry.seq });
            }
            Body::DisagreementExplained { card, why } => {
                if let Some(flight) = self.flight_mut(*card) {
                    flight.explained = Some(why.clone());
                }
            }
            _ => {}
        }
    }

    fn take_in_finding(&mut self, plan: &Plan, entry: &Entry) {
        match &entry.body {
            Body::FindingRaised { title, grade, stage, proof, shown_by, proposed_from } => {
                self.findings_raised += 1;
                self.findings.push(Finding {
                    id: entry.id,
                    number: self.findings_raised,
                    at: entry.at.clone(),
                    title: title.clone(),
                    grade: *grade,
                    stage: stage.clone(),
                    proof: proof.clone(),
                    shown_by: *shown_by,
                    proposed_from: proposed_from.clone(),
                    state: FindingState::Open,
                    fixes: Vec::new(),
                    tried: Vec::new(),
                    ran_out: false,
                });
            }
            Body::FindingFixed { finding, what, subjects } => {
                let Some(found) = self.findings.iter_mut().find(|f| f.id == *finding) else { return };
                found.state = FindingState::Fixed { seq: entry.seq };
                found.fixes.push((entry.id, what.clone()));
                self.fixes.push((entry.seq, *finding));
                let (title, proof) = (found.title.clone(), found.proof.clone());
                if let Some(evidence) = self.evidence.get_mut(&proof) {
                    evidence.broken.push(Reason::ToProve { finding: title });
                }
                self.changed(plan, entry, subjects, what);
            }
            Body::FindingCarried { finding, restriction, by, until, .. } => {
                let runs = self.runs;
                let carries = |f: &&mut Finding| {
                    let closed = matches!(f.state, FindingState::Proven { .. });
                    f.id == *finding && f.grade != FindingGrade::Stop && !closed
                };
                if let Some(found) = self.findings.iter_mut().find(carries) {
                    found.ran_out = matches!(until, Until::Date(last) if entry.at.wall.date_naive() > *last);
                    found.state = FindingState::Carried {
                        restriction: restriction.clone(),
                        by: by.clone(),
                        until: until.clone(),
                        runs,
                    };
                }
            }
            _ => {}
        }
    }

    fn happened(&mut self, plan: &Plan, entry: &Entry, event: &str, note: &Option<String>) {
        self.aircraft.happened.insert(event.to_owned(), entry.id);
        self.happened.push(Happened {
            entry: entry.id,
            at: entry.at.clone(),
            event: event.to_owned(),
            note: note.clone(),
            runs: self.runs,
        });
        let subject = Subject::Event(event.to_owned());
        let title = plan.subject_words(Locale::default(), &subject);
        let reason = Reason::Happened { of: event.to_owned(), event: title, by: entry.id };
        self.touches.push(Touch { seq: entry.seq, subject, reason });
        self.break_by_last(plan, 1);
    }

    /// Keeps a line of the ledger of settings.
    fn adjust(&mut self, entry: &Entry, subject: Subject, before: Option<String>, after: &str, reason: Option<&str>) {
        self.adjusted.push(Adjusted {
            entry: entry.id,
            at: entry.at.clone(),
            subject: subject.clone(),
            before: before.clone(),
            after: after.to_owned(),
            reason: reason.unwrap_or_default().to_owned(),
            runs: self.runs,
        });
        let same = |tested: &&mut Tested| matches!(tested, Tested::Setting { subject: s, .. } if *s == subject);
        match self.untested.iter_mut().find(same) {
            // Changed twice between two flights, it is one change, from what was flown before.
            Some(Tested::Setting { after: last, .. }) => after.clone_into(last),
            _ => self.untested.push(Tested::Setting { subject, before, after: after.to_owned() }),
        }
        self.untested.retain(
            |tested| !matches!(tested, Tested::Setting { before: Some(before), after, .. } if before == after),
        );
    }

    /// What a motor run at this head speed tests that the one before did not; nothing on the very first one, before
    /// which everything was set for the first time.
    pub fn tested_at(&self, head_speed_rpm: f64) -> Vec<Tested> {
        let Some(before) = self.flights.iter().rev().find(|flight| flight.started.is_some()) else {
            return Vec::new();
        };
        let before_rpm = before.head_speed_rpm;
        let speed =
            (before_rpm != head_speed_rpm).then_some(Tested::HeadSpeed { before_rpm, after_rpm: head_speed_rpm });
        // A head speed is changed by its figure and flown by its card: one change.
        let others =
            self.untested.iter().filter(|t| !matches!(t, Tested::Setting { subject: Subject::Figure(_), .. }));
        speed.into_iter().chain(others.cloned()).collect()
    }

    fn record_landing(&mut self, plan: &Plan, entry: &Entry, card: EntryId, landing: Landing) {
        let Some(start) = self.starts.get(&card).copied() else { return };
        let Some(flight) = self.flight_mut(card).filter(|flight| flight.down.is_some()) else { return };
        let check = flight.check.clone();
        let flown_ms = flight.down.as_ref().map_or(0, |(_, elapsed_ms)| *elapsed_ms);
        flight.landing = Some(landing);
        let flown = Start { motor_ms: start.motor_ms.saturating_add(flown_ms), ..start };
        let broken = self.broken_since(plan, &check, start.seq);
        self.keep_evidence(entry, &check, Source::Flight(card), flown, broken);
    }

    /// What was done under a flight between its start and its landing entry: jotted late, it proves what was, not
    /// what is.
    fn broken_since(&self, plan: &Plan, check: &str, seq: i64) -> Vec<Reason> {
        let found = plan.check(check).map(|(_, check)| check);
        let ends = |touch: &&Touch| touch.seq > seq && found.is_some_and(|check| check.ends_with(&touch.subject));
        let mut reasons: Vec<Reason> = Vec::new();
        for touch in self.touches.iter().filter(ends) {
            if !reasons.iter().any(|known| same_subject(known, &touch.reason)) {
                reasons.push(touch.reason.clone());
            }
        }
        let fixed_since = self.fixes.iter().filter(|(fixed, _)| *fixed > seq);
        let to_prove = fixed_since.filter_map(|(_, id)| self.finding(*id)).filter(|finding| finding.proof == check);
        reasons.extend(to_prove.map(|finding| Reason::ToProve { finding: finding.title.clone() }));
        reasons
    }

    fn keep_evidence(&mut self, entry: &Entry, check: &str, of: Source, made: Start, broken: Vec<Reason>) {
        let (witness, note, alone) = match (&entry.body, &of) {
            (Body::CheckRecorded { witness, note, alone, .. }, _) => (witness.clone(), note.clone(), alone.clone()),
            (Body::LandingRecorded { notes, .. }, Source::Flight(card)) => {
                (self.flight(*card).and_then(|flight| flight.spotter.clone()), notes.clone(), None)
            }
            _ => (None, None, None),
        };
        let recorded = Recorded {
            entry: entry.id,
            at: entry.at.clone(),
            of: of.clone(),
            witness: witness.clone(),
            note,
            alone: alone.clone(),
        };
        self.results.entry(check.to_owned()).or_default().push(recorded);
        // The landing of an older flight, jotted after a newer one, takes nothing from the newer one.
        if self.evidence.get(check).is_some_and(|newer| newer.seq > made.seq) {
            return;
        }
        let evidence = Evidence {
            entry: entry.id,
            seq: made.seq,
            at: entry.at.clone(),
            of,
            witness,
            alone,
            runs: made.runs,
            motor_ms: made.motor_ms,
            broken,
        };
        self.evidence.insert(check.to_owned(), evidence);
    }

    fn changed(&mut self, plan: &Plan, entry: &Entry, subjects: &[String], what: &str) {
        if subjects.is_empty() {
            return;
        }
        let parsed: Vec<Subject> = subjects.iter().filter_map(|subject| Subject::parse(subject)).collect();
        self.touch(plan, entry, &parsed, &Deed::Work(what.to_owned()));
        self.untested.push(Tested::Work { what: what.to_owned() });
        self.changes.push(Change {
            entry: entry.id,
            at: entry.at.clone(),
            subjects: subjects.to_vec(),
            what: what.to_owned(),
        });
    }

    fn set(&mut self, plan: &Plan, entry: &Entry, setting: &str, after: &str, reason: &str) {
        let runs = self.runs;
        let value = self
            .aircraft
            .settings
            .entry(setting.to_owned())
            .or_insert_with(|| SettingValue { now: String::new(), past: Vec::new() });
        let differs = value.now != after;
        let before = value.past.last().map(|(_, now, ..)| now.clone());
        value.now = after.to_owned();
        value.past.push((entry.id, after.to_owned(), reason.to_owned(), runs));
        if differs {
            self.adjust(entry, Subject::Setting(setting.to_owned()), before, after, Some(reason));
            self.touch(plan, entry, &[Subject::Setting(setting.to_owned())], &Deed::SetTo(after.to_owned()));
        }
    }

    fn touch_thing(&mut self, plan: &Plan, entry: &Entry, kind: crate::record::ThingKind, what: &Deed) {
        if let Some(subject) = Subject::parse(kind.subject()) {
            self.touch(plan, entry, &[subject], what);
        }
    }

    /// Marks the evidence that rests on any of the subjects.
    fn touch(&mut self, plan: &Plan, entry: &Entry, subjects: &[Subject], what: &Deed) {
        for subject in subjects {
            let title = plan.subject_words(Locale::default(), subject);
            let reason = Reason::Changed { of: subject.clone(), subject: title, what: what.clone(), by: entry.id };
            self.touches.push(Touch { seq: entry.seq, subject: subject.clone(), reason });
        }
        self.break_by_last(plan, subjects.len());
    }

    /// Marks the evidence that ends with any of the last touches.
    fn break_by_last(&mut self, plan: &Plan, count: usize) {
        for (_, check) in plan.checks() {
            let Some(evidence) = self.evidence.get_mut(&check.id) else { continue };
            let touched = self.touches.iter().rev().take(count);
            for touch in touched.filter(|touch| check.ends_with(&touch.subject)) {
                // The first change under it made it stale; the hundredth adds nothing that a person would read.
                if !evidence.broken.iter().any(|known| same_subject(known, &touch.reason)) {
                    evidence.broken.push(touch.reason.clone());
                }
            }
        }
    }

    /// What ran out by the calendar stays run out: a clock that is set back afterwards renews nothing.
    fn run_out(&mut self, plan: &Plan, day: chrono::NaiveDate) {
        for (_, check) in plan.checks() {
            let Some(evidence) = self.evidence.get_mut(&check.id) else { continue };
            for reason in days_over(check, evidence, day) {
                if !evidence.broken.contains(&reason) {
                    evidence.broken.push(reason);
                }
            }
        }
        for finding in &mut self.findings {
            if let FindingState::Carried { until: Until::Date(last), .. } = &finding.state {
                finding.ran_out |= day > *last;
            }
        }
    }

    fn flight_mut(&mut self, card: EntryId) -> Option<&mut Flight> {
        self.flights.iter_mut().rev().find(|flight| flight.card == card)
    }

    /// A fix is proven when its check was repeated after it and passed; it is undone when the check failed again.
    fn settle_proofs(&mut self, plan: &Plan, at: &Moment) {
        if !self.findings.iter().any(|finding| matches!(finding.state, FindingState::Fixed { .. })) {
            return;
        }
        let mut settled = Vec::new();
        let mut standings = Standings::new(plan, self, at);
        for (index, finding) in self.findings.iter().enumerate() {
            let FindingState::Fixed { seq } = finding.state else { continue };
            let Some(evidence) = self.evidence.get(&finding.proof).filter(|evidence| evidence.seq > seq) else {
                continue;
            };
            let Some((_, check)) = plan.check(&finding.proof) else { continue };
            let outcome = match standings.of(check) {
                Standing::Fresh { outcome } => outcome,
                Standing::Failed { .. } => Outcome::Stop,
                _ => continue,
            };
            // A caution lets a gate open; it does not show that a fix holds, unless the plan says so of this check. What
            // the person looked at and called not right never does.
            let proved = match outcome {
                Outcome::Pass => true,
                Outcome::Caution => check.caution_proves && !evidence.says_not_right(),
                Outcome::Stop => false,
            };
            settled.push((index, evidence.entry, outcome, proved));
        }
        for (index, evidence, outcome, proved) in settled {
            let finding = &mut self.findings[index];
            let fix = finding.fixes.last().map_or(finding.id, |(fix, _)| *fix);
            finding.tried.push(Tried { fix, evidence, outcome, proved });
            finding.state = if proved { FindingState::Proven { by: evidence } } else { FindingState::Open };
        }
    }

    /// Lapses every released gate whose ground is gone. Once lapsed, only a new release opens it.
    fn lapse_gates(&mut self, plan: &Plan, at: &Moment) {
        if self.releases.values().all(|release| release.lapsed.is_some()) {
            return;
        }
        let mut lapsed = Vec::new();
        let mut standings = Standings::new(plan, self, at);
        for stage in &plan.stages {
            let stood = self.releases.get(&stage.id).is_some_and(|release| release.lapsed.is_none());
            if stood {
                let blockers = standings.stage_blockers(stage);
                if !blockers.is_empty() {
                    lapsed.push((stage.id.clone(), blockers));
                }
            }
        }
        for (stage, blockers) in lapsed {
            if let Some(release) = self.releases.get_mut(&stage) {
                release.lapsed = Some((blockers, at.clone()));
            }
        }
    }
}
