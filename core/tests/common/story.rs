//! A made-up history over the small plan: entries as a pilot and a spotter would leave them.
#![allow(dead_code, clippy::unwrap_used)]

use chrono::{NaiveDate, TimeDelta};
use liftgate_core::field::{Mark, Unanswered};
use liftgate_core::plan::{Check, CheckKind, Plan};
use liftgate_core::readiness::{Blocker, Finding, FindingState, Gate, Ledger, Report, Standing};
use liftgate_core::record::{
    AircraftId, Author, Basis, Body, CheckResult, Entry, EntryId, FindingGrade, JudgedList, Judgement, Moment,
    OnAircraft, Outcome, Outlier, PackState, Prediction, Reading, Thing, ThingKind, ThingRef, Until,
};
use liftgate_core::unit::Unit;

use super::{at_ms, id};

/// The plan of all these stories.
pub fn small_plan() -> Plan {
    Plan::parse("small_plan.toml", include_str!("small_plan.toml")).unwrap_or_else(|faults| panic!("{faults}"))
}

/// The small plan's other editions: limits and validities that differ, checks that ask for something else, that came or went.
pub fn edition(number: usize) -> String {
    let text = include_str!("small_plan.toml");
    let swapped = |swaps: &[(&str, &str)]| {
        swaps.iter().fold(text.to_owned(), |text, (from, to)| {
            assert!(text.contains(from), "the small plan no longer says: {from}");
            text.replacen(from, to, 1)
        })
    };
    match number % 4 {
        0 => text.to_owned(),
        1 => swapped(&[
            ("edition = \"1\"", "edition = \"2\""),
            ("stop_below = 2.0 # of the gap", "stop_below = 2.6"),
            ("holds = { days = 20 }", "holds = { days = 4 }"),
            ("rests_on = [\"part:motor\"] # look", "rests_on = [\"part:motor\", \"wiring\"]"),
        ]),
        2 => {
            let text = swapped(&[
                ("edition = \"1\"", "edition = \"3\""),
                ("judged = \"By ear.\"", "judged = \"By ear and by hand.\""),
                ("mandatory = false", "mandatory = true"),
            ]);
            let belt = text.find("[[stage.check]]\nid = \"belt\"").unwrap();
            let next = text.find("[[stage.check]]\nid = \"inspect\"").unwrap();
            format!("{}{}", &text[..belt], &text[next..])
        }
        _ => swapped(&[
            ("edition = \"1\"", "edition = \"4\""),
            ("rests_on = [\"part:blades\", \"setting:gain\", \"check:track\"]", "rests_on = [\"part:blades\"]"),
            ("\"figure:speed\", \"mass\", \"packs\",", "\"figure:speed\", \"packs\","),
            ("holds = { hours = 0.2 }", "holds = { hours = 0.1 }"),
            ("rests_on = [\"check:rung-2\"]", "rests_on = [\"check:rung-2\", \"wiring\"]"),
        ]),
    }
}

/// The lists that the small plan's computation judges.
pub const LISTS: [ThingKind; 2] = [ThingKind::Supply, ThingKind::Consumer];

/// A history that grows.
#[derive(Clone)]
pub struct Story {
    /// The plan in force.
    pub plan: Plan,
    /// The plan that was in force before any other was adopted, where one was.
    pub first: Option<Plan>,
    /// Every plan that was adopted, with the entry that says so, so that none is parsed twice.
    pub adopted: Vec<(EntryId, Plan)>,
    pub entries: Vec<Entry>,
    /// What the phone's clocks show.
    pub now: Moment,
}

/// What a flight left behind; the defaults are a good one.
#[derive(Clone, Debug)]
pub struct Flown {
    pub used_mah: Option<f64>,
    pub celsius: f64,
    pub places: Vec<&'static str>,
    pub minutes: i64,
    /// Seconds from touchdown to the readings.
    pub after_s: i64,
    pub spotter: String,
    pub judgement: Judgement,
}

impl Default for Flown {
    fn default() -> Self {
        Flown {
            used_mah: Some(1_000.0),
            celsius: 45.0,
            places: vec!["motor", "battery"],
            minutes: 2,
            after_s: 30,
            spotter: "Sam".to_owned(),
            judgement: Judgement::AsItShouldBe,
        }
    }
}

impl Story {
    pub fn new() -> Story {
        Story { plan: small_plan(), first: None, adopted: Vec::new(), entries: Vec::new(), now: at_ms(0) }
    }

    /// All gates released and the first flights flown.
    pub fn released() -> Story {
        let mut story = Story::new();
        story.walk_until(|report| matches!(report.gate("ladder"), Gate::Released(_)));
        story
    }

    pub fn wait_minutes(&mut self, minutes: i64) {
        self.now.wall += TimeDelta::minutes(minutes);
        self.now.monotonic_ms += minutes.max(0) * 60_000;
    }

    pub fn wait_days(&mut self, days: i64) {
        self.wait_minutes(days * 24 * 60);
    }

    /// The phone is started anew.
    pub fn restart(&mut self) {
        self.now.boot = format!("run after {}", self.entries.len());
        self.now.monotonic_ms = 2_000;
    }

    /// The wall clock is set; the other one goes on.
    pub fn set_clock(&mut self, days: i64) {
        self.now.wall += TimeDelta::days(days);
    }

    pub fn add(&mut self, body: Body) -> EntryId {
        self.add_by(Author::Pilot, body)
    }

    pub fn add_by(&mut self, author: Author, body: Body) -> EntryId {
        self.now.wall += TimeDelta::seconds(1);
        self.now.monotonic_ms += 1_000;
        let seq = self.entries.len() as i64 + 1;
        self.entries.push(Entry {
            seq,
            id: id(seq as u64),
            at: self.now.clone(),
            author,
            aircraft: AircraftId::FIRST,
            body,
        });
        id(seq as u64)
    }

    pub fn check(&self, check: &str) -> Check {
        self.plan.check(check).unwrap().1.clone()
    }

    pub fn answer(&mut self, question: &str, choice: &str) -> EntryId {
        self.add(Body::TraitChosen { question: question.into(), choice: choice.into() })
    }

    pub fn figure(&mut self, figure: &str, value: f64) -> EntryId {
        self.add(Body::FigureSet { figure: figure.into(), value, basis: Basis::Measured, reason: None })
    }

    pub fn change(&mut self, subject: &str) -> EntryId {
        self.add(Body::Changed { subjects: vec![subject.into()], what: "worked on".into() })
    }

    pub fn setting(&mut self, setting: &str, after: &str) -> EntryId {
        let (setting, after) = (setting.to_owned(), after.to_owned());
        self.add(Body::SettingChanged { setting, before: None, after, reason: "better so".into() })
    }

    pub fn pack(&mut self, name: &str, cells: f64) -> EntryId {
        let numbers = [("cells".to_owned(), cells), ("capacity_mah".to_owned(), 1_300.0)].into();
        let thing = Thing { kind: ThingKind::Pack, name: name.into(), of: None, numbers, last_day: None, note: None };
        self.add(Body::ThingSet { thing, on_aircraft: OnAircraft::NotSaid })
    }

    pub fn record(&mut self, check: &str, result: CheckResult, witness: Option<&str>) -> EntryId {
        let witness = witness.map(str::to_owned);
        self.add(Body::CheckRecorded { check: check.into(), result, witness, note: None, alone: None })
    }

    /// Confirms it with nobody there, and says why.
    pub fn confirm_alone(&mut self, check: &str, why: &str) -> EntryId {
        let result = CheckResult::Confirmed { passed: true };
        let alone = Some(why.to_owned());
        self.add(Body::CheckRecorded { check: check.into(), result, witness: None, note: None, alone })
    }

    pub fn happened(&mut self, event: &str) -> EntryId {
        self.add(Body::Happened { event: event.into(), note: None })
    }

    pub fn confirm(&mut self, check: &str, passed: bool) -> EntryId {
        self.record(check, CheckResult::Confirmed { passed }, Some("Sam"))
    }

    pub fn measure(&mut self, check: &str, value: f64) -> EntryId {
        let CheckKind::Measure(measure) = self.check(check).kind else { panic!("{check} measures nothing") };
        self.record(check, CheckResult::Measured { value, unit: measure.unit }, Some("Sam"))
    }

    /// Does a check that is not flown, well within its limits.
    pub fn pass(&mut self, check: &str) -> EntryId {
        match self.check(check).kind {
            CheckKind::Confirm => self.confirm(check, true),
            CheckKind::Measure(_) => self.measure(check, 5.0),
            CheckKind::Compute(_) => {
                let declared = self.ledger().declared;
                for list in LISTS.into_iter().filter(|list| !declared.contains_key(list)) {
                    self.declare(list);
                }
                let judged = self.judged();
                let result =
                    CheckResult::Computed { summary: "well".into(), values: vec![], outcome: Outcome::Pass, judged };
                self.record(check, result, None)
            }
            CheckKind::Fly(_) => self.fly(check),
        }
    }

    /// What a computation over the small plan's lists judges now.
    pub fn judged(&self) -> Vec<JudgedList> {
        let aircraft = self.ledger().aircraft;
        LISTS.map(|list| JudgedList { list, count: aircraft.count_of(list) }).to_vec()
    }

    /// Declares a list complete as it is.
    pub fn declare(&mut self, list: ThingKind) -> EntryId {
        let aircraft = self.ledger().aircraft;
        let idle = aircraft.things_of(list).filter(|thing| thing.is_idle()).map(|thing| thing.name.clone()).collect();
        self.add(Body::ListDeclared { list, count: aircraft.count_of(list), idle })
    }

    /// A consumer that draws so much.
    pub fn consumer(&mut self, name: &str, steady_a: f64) -> EntryId {
        let numbers = [("steady_a".to_owned(), steady_a)].into();
        let thing =
            Thing { kind: ThingKind::Consumer, name: name.into(), of: None, numbers, last_day: None, note: None };
        self.add(Body::ThingSet { thing, on_aircraft: OnAircraft::NotSaid })
    }

    /// A paper that is good for so many more days; none: without an end.
    pub fn paper(&mut self, name: &str, good_days: Option<i64>) -> EntryId {
        let last_day = good_days.map(|days| self.now.wall.date_naive() + TimeDelta::days(days));
        let numbers = [("sort".to_owned(), 2.0)].into();
        let thing = Thing { kind: ThingKind::Paper, name: name.into(), of: None, numbers, last_day, note: None };
        self.add(Body::ThingSet { thing, on_aircraft: OnAircraft::NotSaid })
    }

    pub fn remove(&mut self, kind: ThingKind, name: &str) -> EntryId {
        let thing = ThingRef { kind, name: name.to_owned() };
        self.add(Body::ThingRemoved { thing, instead: None, witness: None, on_aircraft: OnAircraft::NotSaid })
    }

    pub fn draw(&mut self, check: &str) -> EntryId {
        self.draw_allowed(check, None)
    }

    /// A card whose pack's reserve allows so many seconds.
    pub fn draw_allowed(&mut self, check: &str, allowed_s: Option<i64>) -> EntryId {
        self.draw_on(check, allowed_s, &["Pack 1"])
    }

    /// A card of these packs.
    pub fn draw_on(&mut self, check: &str, allowed_s: Option<i64>, packs: &[&str]) -> EntryId {
        let prediction = self.check(check).fly().is_some_and(|fly| fly.predict).then(|| Prediction {
            used_mah: 1_000.0,
            low_mah: 900.0,
            high_mah: 1_100.0,
            from: "invented".into(),
        });
        let mut packs = packs.iter().map(|pack| (*pack).to_owned());
        self.add(Body::CardDrawn {
            check: check.to_owned(),
            pack: packs.next().unwrap(),
            further_packs: packs.collect(),
            not_full: None,
            head_speed_rpm: 900.0,
            planned_s: 120,
            air_c: 15.0,
            wind: None,
            prediction,
            allowed_s,
        })
    }

    pub fn charge(&mut self, pack: &str, put_back_mah: Option<f64>) -> EntryId {
        self.add(Body::PackCharged { pack: pack.to_owned(), put_back_mah })
    }

    pub fn read_cells(&mut self, pack: &str, low_v: f64, high_v: f64) -> EntryId {
        self.add(Body::CellsRead { pack: pack.to_owned(), low_v, high_v })
    }

    pub fn note_pack(&mut self, pack: &str, state: PackState) -> EntryId {
        self.add(Body::PackNoted { pack: pack.to_owned(), state })
    }

    /// What a pack was measured to hold, after so many flights.
    pub fn measure_pack(&mut self, name: &str, pack: &str, flights: f64, measured_mah: f64) -> EntryId {
        let numbers = [("flights".to_owned(), flights), ("measured_mah".to_owned(), measured_mah)].into();
        let thing = Thing {
            kind: ThingKind::PackReading,
            name: name.into(),
            of: Some(pack.into()),
            numbers,
            last_day: None,
            note: None,
        };
        self.add(Body::ThingSet { thing, on_aircraft: OnAircraft::NotSaid })
    }

    /// From the card to the touchdown, phone back with the pilot.
    pub fn up_and_down(&mut self, check: &str, flown: &Flown) -> EntryId {
        let card = self.draw(check);
        let sam = Author::Spotter { name: flown.spotter.clone() };
        self.add(Body::HandedOver { card, spotter: flown.spotter.clone() });
        self.add_by(sam.clone(), Body::Started { card });
        self.wait_minutes(flown.minutes);
        self.add_by(sam.clone(), Body::TouchedDown { card, elapsed_ms: flown.minutes * 60_000 });
        self.add_by(sam, Body::HandedBack { card });
        card
    }

    pub fn land(&mut self, card: EntryId, flown: &Flown) -> EntryId {
        let read =
            |place: &&str| Reading { place: (*place).to_owned(), celsius: flown.celsius, after_s: flown.after_s };
        let (temperatures, confirmed) = (flown.places.iter().map(read).collect(), Vec::new());
        let (pack_used_mah, judgement) = (flown.used_mah, flown.judgement.clone());
        let (notes, slip) = (None, None);
        self.add(Body::LandingRecorded { card, pack_used_mah, temperatures, notes, confirmed, judgement, slip })
    }

    pub fn waive(&mut self, card: EntryId) -> EntryId {
        self.add(Body::LandingWaived { card, reason: "The thermometer broke".into() })
    }

    pub fn fly_as(&mut self, check: &str, flown: &Flown) -> EntryId {
        let card = self.up_and_down(check, flown);
        self.land(card, flown)
    }

    pub fn fly(&mut self, check: &str) -> EntryId {
        self.fly_as(check, &Flown::default())
    }

    pub fn explain(&mut self, card: EntryId) -> EntryId {
        let used_mah = self.ledger().flight(card).and_then(|flight| flight.landing.as_ref()?.pack_used_mah);
        self.explain_charge(card, used_mah)
    }

    /// Explains a charge; none as it was stored before an explanation said which.
    pub fn explain_charge(&mut self, card: EntryId, used_mah: Option<f64>) -> EntryId {
        self.add(Body::DisagreementExplained { card, why: "gusts all along".into(), used_mah })
    }

    pub fn named(&mut self) -> EntryId {
        self.add(Body::AircraftNamed { name: "Plover".into(), builder: "Jo".into(), pilot: Some("Kim".into()) })
    }

    pub fn release(&mut self, stage: &str) -> EntryId {
        self.add(Body::GateReleased { stage: stage.into(), by: "Jo".into(), evidence: vec![] })
    }

    pub fn raise(&mut self, grade: FindingGrade, proof: &str) -> EntryId {
        self.raise_shown(grade, proof, None)
    }

    pub fn raise_shown(&mut self, grade: FindingGrade, proof: &str, shown_by: Option<EntryId>) -> EntryId {
        let stage = self.plan.check(proof).unwrap().0.id.clone();
        let (title, proof) = (format!("{proof} is odd"), proof.to_owned());
        self.add(Body::FindingRaised { title, grade, stage, proof, shown_by, proposed_from: None })
    }

    pub fn fix(&mut self, finding: EntryId, subjects: &[&str]) -> EntryId {
        let subjects = subjects.iter().map(|s| (*s).to_owned()).collect();
        self.add(Body::FindingFixed { finding, what: "mended".into(), subjects })
    }

    pub fn carry(&mut self, finding: EntryId, until: Until) -> EntryId {
        let (restriction, reason, by) = ("Calm air only".into(), "Parts on order".into(), "Jo".into());
        self.add(Body::FindingCarried { finding, restriction, reason, by, until })
    }

    pub fn withdraw(&mut self, entry: EntryId) -> EntryId {
        let withdrawn = self.add(Body::Withdrawn { entry, reason: "slip".into() });
        if self.first.is_some() {
            self.plan = self.plan_at(self.entries.len());
        }
        withdrawn
    }

    /// Another edition of the small plan comes into force.
    pub fn adopt(&mut self, number: usize) -> EntryId {
        self.first.get_or_insert_with(|| self.plan.clone());
        let text = edition(number);
        self.plan = Plan::parse("edition.toml", &text).unwrap_or_else(|faults| panic!("{faults}"));
        let entry = self.add(Body::PlanAdopted { plan: "small".into(), edition: self.plan.edition.clone(), text });
        self.adopted.push((entry, self.plan.clone()));
        entry
    }

    /// The plan that the history began under.
    pub fn first(&self) -> &Plan {
        self.first.as_ref().unwrap_or(&self.plan)
    }

    /// The plan in force after so many entries.
    pub fn plan_at(&self, upto: usize) -> Plan {
        let entries = &self.entries[..upto];
        let gone =
            |id: EntryId| entries.iter().any(|e| matches!(e.body, Body::Withdrawn { entry, .. } if entry == id));
        let says_so = |e: &Entry| matches!(e.body, Body::PlanAdopted { .. });
        let stands = |id: &EntryId| entries.iter().any(|e| e.id == *id && says_so(e)) && !gone(*id);
        let last = self.adopted.iter().rev().find(|(id, _)| stands(id));
        last.map_or_else(|| self.first().clone(), |(_, plan)| plan.clone())
    }

    pub fn today(&self) -> NaiveDate {
        self.now.wall.date_naive()
    }

    pub fn ledger(&self) -> Ledger {
        Ledger::of(self.first(), &self.entries)
    }

    pub fn report(&self) -> Report {
        self.ledger().at(&self.plan, &self.now)
    }

    pub fn gate(&self, stage: &str) -> Gate {
        self.report().gate(stage).clone()
    }

    pub fn standing(&self, check: &str) -> Standing {
        self.report().standing(check)
    }

    pub fn before(&self, check: &str) -> Vec<Blocker> {
        self.ledger().before_flying(&self.plan, check, &self.now)
    }

    pub fn finding(&self, id: EntryId) -> Finding {
        self.ledger().finding(id).unwrap().clone()
    }

    pub fn state(&self, id: EntryId) -> FindingState {
        self.finding(id).state
    }

    /// Says how long a run was.
    pub fn tell(&mut self, card: EntryId, flown_s: i64) -> EntryId {
        self.add(Body::FlownTold { card, flown_s, without_phone: None })
    }

    /// Says that there is nothing to a mark or how a run was, or raises what was read past its stop or was not so.
    pub fn answer_seen(&mut self, card: EntryId, what: &Unanswered) -> EntryId {
        match what {
            Unanswered::Time | Unanswered::LongTime { .. } => self.tell(card, 120),
            Unanswered::Marks(alike) => {
                let answer = |mark: &Mark| Body::MarkAnswered { card, mark: mark.entry, words: "A gust".to_owned() };
                let answers: Vec<Body> = alike.iter().map(answer).collect();
                answers.into_iter().map(|answer| self.add(answer)).last().unwrap()
            }
            Unanswered::Judgement => {
                let landing = self.ledger().flight(card).and_then(|flight| flight.landing.clone()).unwrap();
                let (pack_used_mah, temperatures, notes) =
                    (landing.pack_used_mah, landing.temperatures, landing.notes);
                let (judgement, confirmed, slip) = (Judgement::AsItShouldBe, landing.confirmed, None);
                self.add(Body::LandingRecorded {
                    card,
                    pack_used_mah,
                    temperatures,
                    notes,
                    confirmed,
                    judgement,
                    slip,
                })
            }
            Unanswered::Stop { .. } | Unanswered::NotSo(_) => {
                let ledger = self.ledger();
                let flight = ledger.flight(card).unwrap();
                let (proof, shown_by) = (flight.check.clone(), flight.landing.as_ref().map(|l| l.entry));
                let stage = self.plan.check(&proof).map_or("hover", |(stage, _)| stage.id.as_str()).to_owned();
                let proposed_from = match what {
                    Unanswered::Stop { place, .. } => Some(Outlier::hot_place(place)),
                    _ => None,
                };
                let (title, grade) = ("Too hot".to_owned(), FindingGrade::Stop);
                self.add(Body::FindingRaised { title, grade, stage, proof, shown_by, proposed_from })
            }
        }
    }

    /// Does what stands first in the way of the next flight, or flies it.
    pub fn advance(&mut self) {
        let Some(next) = self.report().next else { return };
        // The small plan's flights are of packs that nobody described, unless a story does.
        match next.blockers.iter().find(|blocker| **blocker != Blocker::NoPack) {
            None => self.fly(&next.check),
            Some(Blocker::Question(question)) if question == "wheels" => self.answer("wheels", "no"),
            Some(Blocker::Question(question)) => self.answer(question, "open"),
            Some(Blocker::Figure(figure)) if figure == "dash" => self.figure("dash", 17.0),
            Some(Blocker::Figure(figure)) => self.figure(figure, 15.0),
            Some(Blocker::Order { above, .. }) => self.figure(above, 15.0),
            Some(Blocker::Check { check, standing: Standing::Unexplained { card } }) => {
                let ledger = self.ledger();
                let flight = ledger.flight(*card).unwrap();
                let landing = flight.landing.as_ref().map(|landing| landing.entry);
                match flight.disagrees_widely() {
                    true => self.raise_shown(FindingGrade::Caution, check, landing),
                    false => self.explain(*card),
                }
            }
            Some(Blocker::Check { check, .. }) => self.pass(check),
            Some(Blocker::Landing(card)) => self.land(*card, &Flown::default()),
            Some(Blocker::Unanswered { card, what }) => self.answer_seen(*card, what),
            Some(Blocker::Gate(stage)) => self.release(stage),
            Some(Blocker::Unnamed) => self.named(),
            Some(Blocker::Clock | Blocker::NoPack | Blocker::RecordDamaged) => {
                unreachable!("gates wait for it, and no flight")
            }
            Some(Blocker::Finding(finding)) => match self.state(*finding) {
                // An edition without the proof proves nothing; the first one has them all.
                FindingState::Fixed { .. } if self.plan.check(&self.finding(*finding).proof).is_none() => {
                    self.adopt(0)
                }
                FindingState::Fixed { .. } => self.pass(&self.finding(*finding).proof),
                _ => self.fix(*finding, &[]),
            },
        };
    }

    /// Releases the last gate as well, which no flight waits for.
    pub fn walk_until(&mut self, done: impl Fn(&Report) -> bool) {
        for _ in 0..200 {
            let report = self.report();
            if done(&report) {
                return;
            }
            let ready = report.gates.iter().find(|(_, gate)| gate.may_be_released()).map(|(stage, _)| stage.clone());
            let ladder = report.gate("ladder");
            let open = match ladder {
                Gate::Shut { blockers } | Gate::Lapsed { blockers, .. } => blockers.clone(),
                _ => Vec::new(),
            };
            match (ready, open.first()) {
                (Some(stage), _) => {
                    self.release(&stage);
                }
                // What the last gate waits for and no flight does.
                (None, Some(Blocker::Check { check, .. })) if check == "review" => {
                    self.pass("review");
                }
                _ => self.advance(),
            }
        }
        panic!("never came there; {:?}", self.report().next);
    }
}

/// A reading in degrees that some place of the small plan calls a caution (1) or a stop (2), or none (0).
pub fn celsius(grade: u8) -> f64 {
    match grade % 3 {
        0 => 45.0,
        1 => 55.0 + 30.0,
        _ => 95.0,
    }
}

/// A unit that no check of the small plan measures in.
pub const OTHER_UNIT: Unit = Unit::Newton;
