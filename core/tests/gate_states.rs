//! Every state that the gates of a tiny plan can come to, walked through breadth first: no way leads past a hold.
//!
//! The plan has three gates, seven checks of every kind that holds one, findings, an event, days and motor runs. From
//! each state every act is tried that a person could leave in the journal, also those that the phone would refuse. What
//! the fold says is held against a second book that is kept beside it, act by act, in a few bits: it knows for each check
//! whether its last evidence counts, by the rules of the domain and nothing else.
//!
//! `LIFTGATE_GATE_STATES` sets how many distinct states are explored; the ignored test explores a million.
#![allow(clippy::unwrap_used)]

mod common;

use liftgate_core::unit::Unit;
use std::collections::{HashSet, VecDeque};
use std::hash::{DefaultHasher, Hash, Hasher};

use chrono::TimeDelta;
use common::{at_ms, id};
use liftgate_core::plan::Plan;
use liftgate_core::readiness::{FindingState, Gate, Ledger, Standing};
use liftgate_core::record::{
    AircraftId, Author, Body, CheckResult, Entry, EntryId, FindingGrade, Judgement, Moment, Until,
};

const PLAN: &str = r#"
format = 1
id = "tiny"
title = "Tiny"
edition = "1"
notice = "For a test."

[[part]]
id = "motor"
title = "Motor"

[[part]]
id = "blades"
title = "Blades"

[[event]]
id = "thump"
title = "Hard landing"
text = "It thumped."

[[stage]]
id = "one"
title = "One"
purpose = "First."
job = 1
gate = "Open."

[[stage.check]]
id = "look"
title = "Look"
do = "Look."
why = "So."
judged = "By eye."
kind = "confirm"
witness = true
rests_on = ["part:motor"]

[[stage.check]]
id = "gap"
title = "Gap"
do = "Measure."
why = "So."
judged = "3 mm."
kind = "measure"
basis = "Invented."
rests_on = ["part:blades"]
holds = { events = ["thump"] }
[stage.check.measure]
unit = "mm"
low = 0.0
high = 20.0
step = 1.0
start = 4.0
stop_below = 2.0
caution_below = 3.0

[[stage]]
id = "two"
title = "Two"
purpose = "Second."
job = 2
gate = "Open."

[[stage.check]]
id = "run"
title = "Run"
do = "Run."
why = "So."
judged = "By ear."
kind = "fly"
rests_on = ["part:motor"]
holds = { flights = 2 }
[stage.check.fly]
motion = "run"
head_speed_rpm = 600.0
minutes = 1.0

[[stage.check]]
id = "after"
title = "After"
do = "Look."
why = "So."
judged = "By eye."
kind = "confirm"
rests_on = ["check:run", "part:blades"]

[[stage]]
id = "three"
title = "Three"
purpose = "Third."
job = 3
gate = "Open."

[[stage.check]]
id = "weigh"
title = "Weigh"
do = "Look."
why = "So."
judged = "By eye."
kind = "confirm"
holds = { days = 2 }

[[stage.check]]
id = "seen"
title = "Seen"
do = "Look."
why = "So."
judged = "By eye."
kind = "confirm"
witness = true
point = "witness"
rests_on = ["part:blades"]
"#;

const CHECKS: [&str; 6] = ["look", "gap", "run", "after", "weigh", "seen"];
const STAGES: [&str; 3] = ["one", "two", "three"];
const OF_STAGE: [[usize; 2]; 3] = [[0, 1], [2, 3], [4, 5]];

/// What a person can leave in the journal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Act {
    Look { passed: bool, witnessed: bool },
    Gap { tenths_mm: u8 },
    Run,
    After { passed: bool },
    Weigh,
    Seen { witnessed: bool, reason: bool },
    Motor,
    Blades,
    Thump,
    Day,
    Raise { proof: usize, grade: FindingGrade },
    Fix { blades: bool },
    Carry,
    Release(usize),
}

fn acts() -> Vec<Act> {
    let mut acts = vec![
        Act::Look { passed: true, witnessed: true },
        Act::Look { passed: true, witnessed: false },
        Act::Look { passed: false, witnessed: true },
        Act::Gap { tenths_mm: 50 },
        Act::Gap { tenths_mm: 25 },
        Act::Gap { tenths_mm: 10 },
        Act::Run,
        Act::After { passed: true },
        Act::After { passed: false },
        Act::Weigh,
        Act::Seen { witnessed: true, reason: false },
        Act::Seen { witnessed: false, reason: true },
        Act::Seen { witnessed: false, reason: false },
        Act::Motor,
        Act::Blades,
        Act::Thump,
        Act::Day,
        Act::Raise { proof: 1, grade: FindingGrade::Caution },
        Act::Raise { proof: 4, grade: FindingGrade::Stop },
        Act::Fix { blades: false },
        Act::Fix { blades: true },
        Act::Carry,
    ];
    acts.extend((0..3).map(Act::Release));
    acts
}

/// How a check's last evidence was, for the second book.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Said {
    Nothing,
    /// It was said, and does not suffice: not right, past a stop, or unseen where someone has to have seen it.
    No,
    /// It suffices. How well does not matter to a gate, and it does to a proof.
    Yes {
        pass: bool,
    },
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Found {
    Open,
    Fixed,
    Proven,
    Carried { runs_left: u8 },
}

/// The second book: a few bits for each thing, kept by the rules alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Book {
    said: [Said; 6],
    /// Touched, ended, or to be proved anew since.
    ended: [bool; 6],
    runs_since_run: u8,
    days_since_weigh: u8,
    /// The one finding: which check proves it, whether it is a stop, where it stands, whether its proof came after its fix.
    finding: Option<(usize, bool, Found)>,
    /// Whether each gate's last release stands; none: never released.
    released: [Option<bool>; 3],
}

impl Book {
    fn new() -> Book {
        Book {
            said: [Said::Nothing; 6],
            ended: [false; 6],
            runs_since_run: 0,
            days_since_weigh: 0,
            finding: None,
            released: [None; 3],
        }
    }

    fn holds(&self, check: usize) -> bool {
        let aged = match check {
            2 => self.runs_since_run >= 2,
            4 => self.days_since_weigh >= 2,
            _ => false,
        };
        let ground = check != 3 || self.holds(2);
        matches!(self.said[check], Said::Yes { .. }) && !self.ended[check] && !aged && ground
    }

    fn free(&self, stage: usize) -> bool {
        let earlier = stage == 0 || self.stands(stage - 1);
        let held = self.finding.is_some_and(|(proof, _, found)| {
            let blocks = match found {
                Found::Open | Found::Fixed => true,
                Found::Carried { runs_left } => runs_left == 0,
                Found::Proven => false,
            };
            blocks && OF_STAGE[stage].contains(&proof)
        });
        earlier && !held && OF_STAGE[stage].iter().all(|check| self.holds(*check))
    }

    fn stands(&self, stage: usize) -> bool {
        self.released[stage] == Some(true) && self.free(stage)
    }

    fn lapse(&mut self) {
        for stage in 0..3 {
            if self.released[stage] == Some(true) && !self.free(stage) {
                self.released[stage] = Some(false);
            }
        }
    }

    fn say(&mut self, check: usize, said: Said) {
        (self.said[check], self.ended[check]) = (said, false);
        if let Some((proof, stop, Found::Fixed)) = self.finding
            && proof == check
        {
            // Only a pass proves; anything else opens it again.
            let passed = said == Said::Yes { pass: true };
            self.finding = Some((proof, stop, if passed { Found::Proven } else { Found::Open }));
        }
    }

    /// False where the act leaves nothing in this state, so that it need not be gone into.
    fn take(&mut self, act: Act) -> bool {
        match act {
            Act::Look { passed, witnessed } => {
                self.say(0, if passed && witnessed { Said::Yes { pass: true } } else { Said::No });
            }
            Act::Gap { tenths_mm } => self.say(
                1,
                match tenths_mm {
                    50 => Said::Yes { pass: true },
                    25 => Said::Yes { pass: false },
                    _ => Said::No,
                },
            ),
            Act::Run => {
                self.runs_since_run = 0;
                if let Some((proof, stop, Found::Carried { runs_left })) = self.finding {
                    self.finding = Some((proof, stop, Found::Carried { runs_left: runs_left.saturating_sub(1) }));
                }
                self.lapse();
                // What was looked at after the run before was looked at after another run.
                self.ended[3] = true;
                self.say(2, Said::Yes { pass: true });
            }
            Act::After { passed } => self.say(3, if passed { Said::Yes { pass: true } } else { Said::No }),
            Act::Weigh => {
                self.days_since_weigh = 0;
                self.say(4, Said::Yes { pass: true });
            }
            Act::Seen { witnessed, reason } => self.say(
                5,
                match (witnessed, reason) {
                    (true, _) => Said::Yes { pass: true },
                    (false, true) => Said::Yes { pass: false },
                    (false, false) => Said::No,
                },
            ),
            Act::Motor => [0, 2].into_iter().for_each(|check| self.ended[check] = true),
            Act::Blades => [1, 3, 5].into_iter().for_each(|check| self.ended[check] = true),
            Act::Thump => self.ended[1] = true,
            Act::Day => self.days_since_weigh = (self.days_since_weigh + 1).min(2),
            Act::Raise { proof, grade } => {
                if self.finding.is_some() {
                    return false;
                }
                self.finding = Some((proof, grade == FindingGrade::Stop, Found::Open));
            }
            Act::Fix { blades } => {
                let Some((proof, stop, _)) = self.finding else { return false };
                self.finding = Some((proof, stop, Found::Fixed));
                self.ended[proof] = true;
                if blades {
                    self.take(Act::Blades);
                }
            }
            Act::Carry => match self.finding {
                Some((proof, false, found)) if found != Found::Proven => {
                    self.finding = Some((proof, false, Found::Carried { runs_left: 1 }));
                }
                Some(_) => {}
                None => return false,
            },
            Act::Release(stage) => self.released[stage] = Some(true),
        }
        self.lapse();
        true
    }
}

/// The fold beside its book.
#[derive(Clone)]
struct State {
    ledger: Ledger,
    book: Book,
    now: Moment,
    seq: i64,
    finding: Option<EntryId>,
}

impl State {
    fn new(plan: &Plan) -> State {
        let (ledger, book) = (Ledger::default(), Book::new());
        let mut state = State { ledger, book, now: at_ms(0), seq: 0, finding: None };
        state.add(plan, Body::AircraftNamed { name: "Plover".into(), builder: "Jo".into(), pilot: None });
        state
    }

    fn add(&mut self, plan: &Plan, body: Body) -> EntryId {
        self.seq += 1;
        let entry = Entry {
            seq: self.seq,
            id: id(self.seq as u64),
            at: self.now.clone(),
            author: Author::Pilot,
            aircraft: AircraftId::FIRST,
            body,
        };
        self.ledger.take(plan, std::slice::from_ref(&entry));
        entry.id
    }

    fn record(&mut self, plan: &Plan, check: &str, result: CheckResult, seen: bool, alone: bool) {
        let (check, witness) = (check.to_owned(), seen.then(|| "Sam".to_owned()));
        let alone = alone.then(|| "Snow".to_owned());
        self.add(plan, Body::CheckRecorded { check, result, witness, note: None, alone });
    }

    /// Does it; false where it is nothing in this state.
    fn act(&mut self, plan: &Plan, act: Act) -> bool {
        if !self.book.take(act) {
            return false;
        }
        let confirmed = |passed| CheckResult::Confirmed { passed };
        match act {
            Act::Look { passed, witnessed } => self.record(plan, "look", confirmed(passed), witnessed, true),
            Act::Gap { tenths_mm } => {
                let value = f64::from(tenths_mm) / 10.0;
                self.record(plan, "gap", CheckResult::Measured { value, unit: Unit::Millimetre }, false, false);
            }
            Act::Run => {
                let card = self.add(
                    plan,
                    Body::CardDrawn {
                        check: "run".into(),
                        pack: "P".into(),
                        further_packs: Vec::new(),
                        not_full: None,
                        head_speed_rpm: 600.0,
                        planned_s: 60,
                        air_c: 15.0,
                        wind: None,
                        prediction: None,
                        allowed_s: None,
                    },
                );
                self.add(plan, Body::Started { card });
                self.add(plan, Body::TouchedDown { card, elapsed_ms: 60_000 });
                let (pack_used_mah, temperatures, notes, confirmed) = (None, vec![], None, vec![]);
                let (judgement, slip) = (Judgement::AsItShouldBe, None);
                let landing =
                    Body::LandingRecorded { card, pack_used_mah, temperatures, notes, confirmed, judgement, slip };
                self.add(plan, landing);
            }
            Act::After { passed } => self.record(plan, "after", confirmed(passed), false, false),
            Act::Weigh => self.record(plan, "weigh", confirmed(true), false, false),
            Act::Seen { witnessed, reason } => self.record(plan, "seen", confirmed(true), witnessed, reason),
            Act::Motor | Act::Blades => {
                let part = if act == Act::Motor { "part:motor" } else { "part:blades" };
                self.add(plan, Body::Changed { subjects: vec![part.into()], what: "worked on".into() });
            }
            Act::Thump => {
                self.add(plan, Body::Happened { event: "thump".into(), note: None });
            }
            Act::Day => {
                self.now.wall += TimeDelta::days(1);
                self.add(plan, Body::Changed { subjects: vec!["wiring".into()], what: "nothing rests on it".into() });
            }
            Act::Raise { proof, grade } => {
                let stage = STAGES[OF_STAGE.iter().position(|of| of.contains(&proof)).unwrap()].to_owned();
                let (title, proof) = ("Odd".to_owned(), CHECKS[proof].to_owned());
                self.finding = Some(self.add(
                    plan,
                    Body::FindingRaised { title, grade, stage, proof, shown_by: None, proposed_from: None },
                ));
            }
            Act::Fix { blades } => {
                let subjects = if blades { vec!["part:blades".to_owned()] } else { vec![] };
                let finding = self.finding.unwrap();
                self.add(plan, Body::FindingFixed { finding, what: "mended".into(), subjects });
            }
            Act::Carry => {
                let (restriction, reason, by) = ("Calm".into(), "Later".into(), "Jo".into());
                let (finding, until) = (self.finding.unwrap(), Until::Flights(1));
                self.add(plan, Body::FindingCarried { finding, restriction, reason, by, until });
            }
            Act::Release(stage) => {
                let (stage, by) = (STAGES[stage].to_owned(), "Jo".to_owned());
                self.add(plan, Body::GateReleased { stage, by, evidence: vec![] });
            }
        }
        true
    }

    /// What the fold says, held against the book; and the state in one number.
    fn held(&self, plan: &Plan, way: &[u8]) -> u64 {
        let report = self.ledger.at(plan, &self.now);
        let mut state = DefaultHasher::new();
        for (index, check) in CHECKS.iter().enumerate() {
            let standing = report.standing(check);
            assert_eq!(standing.holds(), self.book.holds(index), "{check} {standing:?}: {:?}", self.told(way));
            match &standing {
                Standing::Stale { reasons } => reasons.iter().for_each(|reason| {
                    std::mem::discriminant(reason).hash(&mut state);
                    format!("{reason:?}").split("by:").next().unwrap().hash(&mut state);
                }),
                Standing::Fresh { outcome } => (*outcome as u8).hash(&mut state),
                other => std::mem::discriminant(other).hash(&mut state),
            }
            2u8.hash(&mut state);
        }
        for (index, stage) in STAGES.iter().enumerate() {
            let gate = report.gate(stage);
            let free = self.book.free(index);
            let expected = match self.book.released[index] {
                None if free => matches!(gate, Gate::Ready),
                None => matches!(gate, Gate::Shut { .. }),
                Some(true) if free => matches!(gate, Gate::Released(_)),
                Some(_) => matches!(gate, Gate::Lapsed { blockers, .. } if blockers.is_empty() == free),
            };
            assert!(expected, "{stage} {gate:?}, {:?}: {:?}", self.book, self.told(way));
            if matches!(gate, Gate::Released(_)) || gate.may_be_released() {
                let all = OF_STAGE[index].iter().all(|check| self.book.holds(*check));
                assert!(all && (index == 0 || self.book.stands(index - 1)), "past a hold: {:?}", self.told(way));
            }
            std::mem::discriminant(gate).hash(&mut state);
        }
        let found = self.ledger.findings.first().map(|finding| match &finding.state {
            FindingState::Open => 0u8,
            FindingState::Fixed { .. } => 1,
            FindingState::Proven { .. } => 2,
            FindingState::Carried { .. } => 3,
        });
        let book = self.book.finding.map(|(_, _, found)| match found {
            Found::Open => 0u8,
            Found::Fixed => 1,
            Found::Proven => 2,
            Found::Carried { .. } => 3,
        });
        assert_eq!(found, book, "the finding: {:?}", self.told(way));
        (found, self.book).hash(&mut state);
        state.finish()
    }

    fn told(&self, way: &[u8]) -> Vec<Act> {
        let acts = acts();
        way.iter().map(|act| acts[usize::from(*act)]).collect()
    }
}

/// Goes through that many distinct states, or all there are.
fn explore(most: usize) -> usize {
    let plan = Plan::parse("tiny.toml", PLAN).unwrap();
    let acts = acts();
    let mut seen: HashSet<u64> = HashSet::new();
    let mut waiting: VecDeque<Vec<u8>> = VecDeque::new();
    seen.insert(State::new(&plan).held(&plan, &[]));
    waiting.push_back(Vec::new());
    while let Some(way) = waiting.pop_front() {
        // The way is kept and not the state: a million ledgers would not fit.
        let mut here = State::new(&plan);
        for act in &way {
            here.act(&plan, acts[usize::from(*act)]);
        }
        for (number, act) in acts.iter().enumerate() {
            let mut next = here.clone();
            if !next.act(&plan, *act) {
                continue;
            }
            let mut longer = way.clone();
            longer.push(number as u8);
            if seen.insert(next.held(&plan, &longer)) {
                if seen.len() >= most {
                    return seen.len();
                }
                waiting.push_back(longer);
            }
        }
    }
    seen.len()
}

#[test]
fn no_way_leads_past_a_hold() {
    let most = std::env::var("LIFTGATE_GATE_STATES").ok().and_then(|most| most.parse().ok()).unwrap_or(30_000);
    let seen = explore(most);
    assert!(seen >= most.min(30_000), "only {seen} distinct states: the plan is too small for what it is to show");
}

#[test]
#[ignore = "some minutes: cargo test -p liftgate-core --test gate_states -- --ignored"]
fn no_way_of_a_million_leads_past_a_hold() {
    let seen = explore(1_000_000);
    assert!(seen >= 1_000_000, "only {seen} distinct states");
}
