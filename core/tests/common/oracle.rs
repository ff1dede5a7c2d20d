//! What the rules of the domain say about a history, worked out a second time and in another way than the core does.
//!
//! The core folds: it carries marks along and looks at them. This asks the whole history anew at every step, in the
//! words of the rules: "is there a change between this evidence and now?". It is slow and knows nothing of the core's
//! ledger; it reads the plan and the entries only.
#![allow(dead_code, clippy::unwrap_used)]

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta};
use liftgate_core::plan::{Check, CheckKind, Limit, OnFile, Plan, Point, Stage, Subject, When};
use liftgate_core::readiness::{Charge, FindingState, Gate, Ledger, PackStand, Standing};
use liftgate_core::record::{
    Body, CheckResult, Entry, EntryId, FindingGrade, Judgement, MarkKind, Moment, OnAircraft, Outcome, PackState,
    Reading, Thing, ThingKind, ThingRef, Until,
};

/// How a check stands, without the reasons.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Is {
    Missing,
    Stale,
    Failed,
    Unexplained,
    /// It holds, past a caution.
    Caution,
    Fresh,
}

impl Is {
    fn holds(self) -> bool {
        matches!(self, Is::Fresh | Is::Caution)
    }
}

/// How a gate stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GateIs {
    None,
    Shut,
    Ready,
    Released,
    Lapsed,
}

/// How a finding stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FindingIs {
    Open,
    Fixed,
    Proven,
    Carried,
}

/// Everything at one moment.
#[derive(Debug, PartialEq, Eq)]
pub struct Truth {
    pub checks: BTreeMap<String, Is>,
    pub gates: BTreeMap<String, GateIs>,
    pub findings: BTreeMap<EntryId, FindingIs>,
    pub may_fly: BTreeMap<String, bool>,
    pub packs: BTreeMap<String, Pack>,
}

/// How a pack stands, without the moments.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pack {
    pub is: PackIs,
    /// What was in it when that was known last, in thousandths of what it holds; none where nobody ever said.
    pub began: Option<i64>,
    /// Milliampere hours that were read to have gone out since.
    pub used_mah: i64,
    /// Milliseconds flown since of which nothing was read.
    pub unread_ms: i64,
}

/// What a pack is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PackIs {
    Full,
    Low,
    Flown,
    Unknown,
    TooHigh,
    Retired,
}

impl Truth {
    /// What the core says, in the same words.
    pub fn of_core(plan: &Plan, ledger: &Ledger, now: &Moment) -> Truth {
        let report = ledger.at(plan, now);
        let is = |standing: &Standing| match standing {
            Standing::Missing { .. } => Is::Missing,
            Standing::Stale { .. } => Is::Stale,
            Standing::Failed { .. } => Is::Failed,
            Standing::Unexplained { .. } => Is::Unexplained,
            Standing::Fresh { outcome: Outcome::Pass } => Is::Fresh,
            Standing::Fresh { .. } => Is::Caution,
        };
        let gate_is = |gate: &Gate| match gate {
            Gate::None => GateIs::None,
            Gate::Shut { .. } => GateIs::Shut,
            Gate::Ready => GateIs::Ready,
            Gate::Released(_) => GateIs::Released,
            Gate::Lapsed { .. } => GateIs::Lapsed,
        };
        let finding_is = |state: &FindingState| match state {
            FindingState::Open => FindingIs::Open,
            FindingState::Fixed { .. } => FindingIs::Fixed,
            FindingState::Proven { .. } => FindingIs::Proven,
            FindingState::Carried { .. } => FindingIs::Carried,
        };
        let flown = plan.checks().filter(|(_, check)| check.fly().is_some());
        Truth {
            checks: report.standings.iter().map(|(id, standing)| (id.clone(), is(standing))).collect(),
            gates: report.gates.iter().map(|(id, gate)| (id.clone(), gate_is(gate))).collect(),
            findings: ledger.findings.iter().map(|f| (f.id, finding_is(&f.state))).collect(),
            may_fly: flown
                .map(|(_, check)| (check.id.clone(), ledger.before_flying(plan, &check.id, now).is_empty()))
                .collect(),
            packs: ledger.packs().into_iter().map(|pack| (pack.name.clone(), Pack::of_core(&pack))).collect(),
        }
    }

    /// What the rules say of a history that began under `plan`.
    pub fn of_rules(plan: &Plan, entries: &[Entry], now: &Moment) -> Truth {
        let live = live(entries);
        let plans = plans(&live);
        let told = Told::of(plan, &plans, live, entries);
        let end = told.live.len();
        let at = told.asked_at(now);
        let plan = told.plan(end);
        let wanted = plan.checks().filter(|(_, check)| told.wanted(check, end));
        let flown = plan.checks().filter(|(_, check)| check.fly().is_some());
        Truth {
            checks: wanted.map(|(_, check)| (check.id.clone(), told.stands(check, at))).collect(),
            gates: plan.stages.iter().map(|stage| (stage.id.clone(), told.gate(stage, at))).collect(),
            findings: told.findings.iter().map(|f| (f.id, f.is)).collect(),
            may_fly: flown.map(|(stage, check)| (check.id.clone(), told.may_fly(stage, check, at))).collect(),
            packs: told.packs(end),
        }
    }
}

impl Pack {
    fn of_core(pack: &PackStand) -> Pack {
        let is = match pack.charge {
            Charge::Charged { .. } | Charge::ReadFull { .. } => PackIs::Full,
            Charge::ReadLow { .. } | Charge::NotAllBack { .. } | Charge::Stored => PackIs::Low,
            Charge::Flown => PackIs::Flown,
            Charge::Unknown => PackIs::Unknown,
            Charge::TooHigh { .. } => PackIs::TooHigh,
            Charge::Retired { .. } => PackIs::Retired,
        };
        assert_eq!(pack.is_full(), is == PackIs::Full);
        assert_eq!(pack.may_fly(), !matches!(is, PackIs::TooHigh | PackIs::Retired));
        let began = pack.spent.is_known.then_some((pack.spent.began_percent * 10.0).round() as i64);
        Pack { is, began, used_mah: pack.spent.used_mah.round() as i64, unread_ms: pack.spent.unread_ms }
    }
}

/// Up to how many entries, and on which day.
#[derive(Clone, Copy)]
struct At {
    upto: usize,
    day: NaiveDate,
    /// Whether the clock shows less than it did at an entry.
    behind: bool,
    /// How many entries were made nobody knows how long ago.
    untold: usize,
}

impl At {
    /// As an entry finds things: what it does is not undone by a clock that lies.
    fn entry(upto: usize, day: NaiveDate) -> At {
        At { upto, day, behind: false, untold: 0 }
    }
}

type Wall = DateTime<FixedOffset>;

/// Milliseconds that the phone ran from one moment to another of the same run.
fn ran_ms(from: &Moment, to: &Moment) -> i64 {
    if from.boot == to.boot { (to.monotonic_ms - from.monotonic_ms).max(0) } else { 0 }
}

/// The latest of what the clock shows, and of what the entry before was reckoned at with what the phone ran since.
fn reckoned_after(before: Option<(&Moment, Wall)>, at: &Moment) -> Wall {
    let least = before.map(|(moment, wall)| wall + TimeDelta::milliseconds(ran_ms(moment, at)));
    least.filter(|least| *least > at.wall).map_or(at.wall, |least| least.with_timezone(at.wall.offset()))
}

/// Whether a clock shows less than at one of these entries, by more than a minute.
fn is_behind(entries: &[&Entry], now: &Moment) -> bool {
    entries.iter().any(|entry| entry.at.wall - now.wall > TimeDelta::minutes(1))
}

/// When each entry was made, and the index of the last one that came after nobody knows how long.
fn reckon(live: &[&Entry]) -> (Vec<Wall>, usize) {
    let mut reckoned: Vec<Wall> = Vec::new();
    let mut lost = 0;
    for (i, entry) in live.iter().enumerate() {
        let before = i.checked_sub(1).map(|k| (&live[k].at, reckoned[k]));
        if before.is_some_and(|(moment, _)| moment.boot != entry.at.boot) && is_behind(&live[..i], &entry.at) {
            lost = i;
        }
        reckoned.push(reckoned_after(before, &entry.at));
    }
    (reckoned, lost)
}

struct FindingTold {
    id: EntryId,
    grade: FindingGrade,
    stage: String,
    proof: String,
    is: FindingIs,
    /// Index of the last fix.
    fixed: usize,
    /// Index of the last carry, and until when.
    carried: Option<(usize, Until)>,
}

/// Plans that were adopted, each with the index of the entry that says so.
type Plans = Vec<(usize, Plan)>;

struct Told<'a> {
    /// The plan in force before any was adopted.
    first: &'a Plan,
    plans: &'a Plans,
    live: Vec<&'a Entry>,
    /// When each of them was made, by whichever clock says more.
    reckoned: Vec<Wall>,
    /// The index of the last one that came after nobody knows how long.
    lost: usize,
    /// Stage to the entry of its last release.
    releases: BTreeMap<String, EntryId>,
    /// Stage to whether its last release still stands.
    released: BTreeMap<String, bool>,
    findings: Vec<FindingTold>,
    /// Answers given before: how a check stands hangs on the entries, the day and what is untold alone.
    known: RefCell<BTreeMap<(String, usize, NaiveDate, usize), Is>>,
}

/// What counts: nothing is erased, but what was withdrawn counts as if it had never been made, and so does the withdrawing.
fn live(entries: &[Entry]) -> Vec<&Entry> {
    let withdrawn: BTreeSet<EntryId> = entries
        .iter()
        .filter_map(|e| match &e.body {
            Body::Withdrawn { entry, .. } => Some(*entry),
            _ => None,
        })
        .collect();
    let counts = |e: &&Entry| !withdrawn.contains(&e.id) && !matches!(e.body, Body::Withdrawn { .. });
    entries.iter().filter(counts).collect()
}

fn plans(live: &[&Entry]) -> Plans {
    let adopted = live.iter().enumerate().filter_map(|(index, entry)| match &entry.body {
        Body::PlanAdopted { text, .. } => Some((index, Plan::parse("adopted.toml", text).unwrap())),
        _ => None,
    });
    adopted.collect()
}

/// Taking back something an hour later brings no gate back: which releases had lapsed before each such withdrawal, with how many of
/// the entries that count came before it. Taken back at once, with nothing in between, it was a slip. A release that is taken back at any
/// time lapsed nothing and kept nothing: the one before it is looked at.
fn stay_lapsed(
    plan: &Plan,
    entries: &[Entry],
    live: &[&Entry],
    never: &BTreeSet<EntryId>,
) -> Vec<(usize, BTreeMap<String, EntryId>)> {
    let mut stay = Vec::new();
    for (index, entry) in entries.iter().enumerate() {
        let Body::Withdrawn { entry: slip, .. } = &entry.body else { continue };
        let just_before = index.checked_sub(1).map(|i| &entries[i]).filter(|before| before.id == *slip);
        let is_slip = just_before
            .is_some_and(|before| before.at.boot == entry.at.boot && ran_ms(&before.at, &entry.at) <= 60_000);
        if is_slip || !entries[..index].iter().any(|earlier| earlier.id == *slip) {
            continue;
        }
        let before = &entries[..index];
        let counted = live.iter().take_while(|e| before.iter().any(|earlier| earlier.id == e.id)).count();
        let lapsed_then = {
            let live: Vec<&Entry> = self::live(before).into_iter().filter(|e| !never.contains(&e.id)).collect();
            let plans = self::plans(&live);
            let told = Told::of_but(plan, &plans, live, before, never);
            let lapsed = told.released.iter().filter(|(_, stands)| !**stands);
            lapsed.map(|(stage, _)| (stage.clone(), told.releases[stage])).collect()
        };
        stay.push((counted, lapsed_then));
    }
    stay
}

/// How long a card's motor was on.
#[derive(Default)]
struct Timing {
    /// Its touchdown, milliseconds.
    down: Option<i64>,
    /// Whether nobody has said so who knows: the phone was started anew in flight, or its clock ran on.
    untimed: bool,
    /// Whether the pilot said so.
    told: bool,
    /// Whether the phone timed both ends of it.
    both_ends: bool,
    /// Milliseconds that count against the aircraft.
    counts: i64,
    /// Seconds by which the touchdown was touched late.
    late_s: i64,
    /// Where the pilot said how long it was, and by how many milliseconds that is more than what counted before.
    more: Vec<(usize, i64)>,
}

/// A check's evidence: the entry's index, and since when it speaks (a flight speaks of the moment it was started).
#[derive(Clone, Copy)]
struct Said {
    entry: usize,
    since: usize,
}

/// What a check asks for, limits and validity aside: a reading is judged by the limits in force.
fn asked(check: &Check) -> String {
    let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let kind = match &check.kind {
        CheckKind::Confirm => "confirm".to_owned(),
        CheckKind::Measure(measure) => format!("measure in {}", measure.unit.sign()),
        CheckKind::Compute(computation) => format!("compute {computation:?}"),
        CheckKind::Fly(fly) => {
            format!("fly {:?} at {:?} for {} predict {}", fly.motion, fly.head_speed_rpm, fly.minutes, fly.predict)
        }
    };
    format!("{kind}: {} / {}", words(&check.instruction), words(&check.judged))
}

fn rests_on_papers(check: &Check) -> bool {
    check.rests_on.contains(&Subject::Papers)
}

/// What is left in a cell at rest that is full at so many volts, percent: read off between the points that `engineering` has.
fn rest_percent(cell_v: f64, full_v: f64) -> f64 {
    let alike_v = 3.3 + (cell_v - 3.3) * 0.9 / (full_v - 3.3);
    let points =
        [(330, 0), (360, 5), (370, 10), (375, 20), (380, 35), (385, 48), (390, 58), (400, 72), (410, 86), (420, 100)];
    let hundredths = alike_v * 100.0;
    let above = points.iter().position(|(v, _)| f64::from(*v) >= hundredths);
    match above {
        None => 100.0,
        Some(0) => 0.0,
        Some(at) => {
            let ((v0, p0), (v1, p1)) = (points[at - 1], points[at]);
            f64::from(p0) + f64::from(p1 - p0) * (hundredths - f64::from(v0)) / f64::from(v1 - v0)
        }
    }
}

/// What an entry only describes, of an aircraft that is as it was.
#[derive(Clone, Copy)]
enum Described {
    Nothing,
    AFigure,
    AThing(ThingKind),
}

impl<'a> Told<'a> {
    /// All that is told by `entries`, of which those in `live` count.
    fn of(first: &'a Plan, plans: &'a Plans, live: Vec<&'a Entry>, entries: &[Entry]) -> Told<'a> {
        let taken_back = |entry: &&Entry| !self::live(entries).iter().any(|e| e.id == entry.id);
        let releases = entries.iter().filter(|entry| matches!(entry.body, Body::GateReleased { .. }));
        let never = releases.filter(taken_back).map(|entry| entry.id).collect();
        Told::of_but(first, plans, live, entries, &never)
    }

    /// The same, where these releases were never made.
    fn of_but(
        first: &'a Plan,
        plans: &'a Plans,
        live: Vec<&'a Entry>,
        entries: &[Entry],
        never: &BTreeSet<EntryId>,
    ) -> Told<'a> {
        let stay = stay_lapsed(first, entries, &live, never);
        let (releases, released, findings, known) =
            (BTreeMap::new(), BTreeMap::new(), Vec::new(), RefCell::default());
        let (reckoned, lost) = reckon(&live);
        let mut told = Told { first, plans, live, reckoned, lost, releases, released, findings, known };
        for step in 0..=told.live.len() {
            for (_, lapsed) in stay.iter().filter(|(counted, _)| *counted == step) {
                let same = lapsed.iter().filter(|(stage, by)| told.releases.get(*stage) == Some(*by));
                let same: Vec<String> = same.map(|(stage, _)| stage.clone()).collect();
                told.released.extend(same.into_iter().map(|stage| (stage, false)));
            }
            if step < told.live.len() {
                told.step(step);
            }
        }
        told
    }

    /// The plan in force after so many entries.
    fn plan(&self, upto: usize) -> &'a Plan {
        self.plans.iter().rev().find(|(index, _)| *index < upto).map_or(self.first, |(_, plan)| plan)
    }

    /// Every plan that was in force at an entry or at one after it.
    fn plans_from(&self, entry: usize, upto: usize) -> impl Iterator<Item = &'a Plan> {
        let later = self.plans.iter().filter(move |(index, _)| (entry..upto).contains(index)).map(|(_, plan)| plan);
        std::iter::once(self.plan(entry)).chain(later)
    }

    fn body(&self, index: usize) -> &Body {
        &self.live[index].body
    }

    // --- what is known of the aircraft

    fn answered(&self, question: &str, upto: usize) -> Option<&str> {
        (0..upto).rev().find_map(|i| match self.body(i) {
            Body::TraitChosen { question: q, choice } if q == question => Some(choice.as_str()),
            _ => None,
        })
    }

    fn figure(&self, figure: &str, upto: usize) -> Option<f64> {
        (0..upto).rev().find_map(|i| match self.body(i) {
            Body::FigureSet { figure: f, value, .. } if f == figure => Some(*value),
            _ => None,
        })
    }

    /// Whether the last names were names: of the aircraft, who built it and who flies it.
    fn is_named(&self, upto: usize) -> bool {
        let last = (0..upto).rev().find_map(|i| match self.body(i) {
            Body::AircraftNamed { name, builder, pilot } => Some([Some(name), Some(builder), pilot.as_ref()]),
            _ => None,
        });
        last.is_some_and(|names| names.into_iter().flatten().all(|name| !name.trim().is_empty()))
    }

    fn wanted(&self, check: &Check, upto: usize) -> bool {
        let called = check.called_by.is_empty() || (0..upto).any(|i| self.happens(check, i));
        called && self.fits(&check.when, upto)
    }

    /// Whether an entry says that something happened which calls for this check, or ends it.
    fn happens(&self, check: &Check, index: usize) -> bool {
        match self.body(index) {
            Body::Happened { event, .. } => check.called_by.contains(event) || check.holds.events.contains(event),
            _ => false,
        }
    }

    fn fits(&self, when: &When, upto: usize) -> bool {
        when.iter().all(|(question, answers)| {
            self.answered(question, upto).is_some_and(|given| answers.iter().any(|answer| answer == given))
        })
    }

    // --- packs

    /// What the packs of a card held: the least of their labels, and of what each was last measured to hold before it was flown.
    fn held_mah(&self, card: EntryId, upto: usize) -> Option<f64> {
        let packs = self.packs_of(card, upto);
        let mut least = f64::INFINITY;
        for pack in &packs {
            let pack = self.thing(&ThingRef { kind: ThingKind::Pack, name: pack.clone() }, upto)?;
            least = least.min(*pack.numbers.get("capacity_mah")?);
        }
        let flown = self.started(card, upto).unwrap_or(upto);
        Some(packs.iter().filter_map(|pack| self.measured_mah(pack, flown)).fold(least, f64::min))
    }

    /// What a pack was measured to hold after the most flights on it.
    fn measured_mah(&self, pack: &str, upto: usize) -> Option<f64> {
        let readings: BTreeSet<ThingRef> = (0..upto)
            .filter_map(|i| match self.body(i) {
                Body::ThingSet { thing, .. } if thing.kind == ThingKind::PackReading => Some(thing.reference()),
                _ => None,
            })
            .collect();
        let mut best: Option<(f64, f64)> = None;
        for thing in readings.iter().filter_map(|reading| self.thing(reading, upto)) {
            let flights = thing.numbers.get("flights").copied().unwrap_or(0.0);
            let Some(mah) = thing.numbers.get("measured_mah").filter(|_| thing.of.as_deref() == Some(pack)) else {
                continue;
            };
            if best.is_none_or(|(most, least)| flights > most || (flights == most && *mah < least)) {
                best = Some((flights, *mah));
            }
        }
        best.map(|(_, mah)| mah)
    }

    fn packs_of(&self, card: EntryId, upto: usize) -> Vec<String> {
        match self.drawn(card, upto).map(|drawn| self.body(drawn)) {
            Some(Body::CardDrawn { pack, further_packs, .. }) => {
                let mut all = vec![pack.clone()];
                all.extend(further_packs.iter().cloned());
                all
            }
            _ => Vec::new(),
        }
    }

    fn packs(&self, upto: usize) -> BTreeMap<String, Pack> {
        let named = (0..upto).filter_map(|i| match self.body(i) {
            Body::ThingSet { thing, .. } if thing.kind == ThingKind::Pack => Some(thing.name.clone()),
            _ => None,
        });
        let names: BTreeSet<String> = named.collect();
        let is_there =
            |name: &String| self.thing(&ThingRef { kind: ThingKind::Pack, name: name.clone() }, upto).is_some();
        names.into_iter().filter(is_there).map(|name| (name.clone(), self.pack(&name, upto))).collect()
    }

    /// What a full cell has, of the packs that are there; the least of them.
    fn full_cell_v(&self, upto: usize) -> f64 {
        let things = (0..upto).filter_map(|i| match self.body(i) {
            Body::ThingSet { thing, .. } if thing.kind == ThingKind::Pack => self.thing(&thing.reference(), upto),
            _ => None,
        });
        let of_each = things.map(|pack| pack.numbers.get("full_v").copied().unwrap_or(4.2));
        of_each.reduce(f64::min).unwrap_or(4.2)
    }

    /// How a pack stands: damaged ones apart, by the last thing that was done with it or flown on it.
    fn pack(&self, name: &str, upto: usize) -> Pack {
        let pack = self.pack_back_from(name, upto, upto);
        let is_damaged = (0..upto).rev().find_map(|i| match self.body(i) {
            Body::PackNoted { pack, state } if pack == name && *state != PackState::Storage => Some(true),
            Body::ThingRemoved { thing, .. } if thing.kind == ThingKind::Pack && thing.name == name => Some(false),
            _ => None,
        });
        if is_damaged == Some(true) { Pack { is: PackIs::Retired, ..pack } } else { pack }
    }

    /// The same, asked backwards from an entry: what a flight took is read where it was read last, however late.
    fn pack_back_from(&self, name: &str, from: usize, upto: usize) -> Pack {
        let unknown = Pack { is: PackIs::Unknown, began: None, used_mah: 0, unread_ms: 0 };
        let known = |is: PackIs, began: f64| Pack { is, began: Some((began * 10.0).round() as i64), ..unknown };
        let of = ThingRef { kind: ThingKind::Pack, name: name.to_owned() };
        let full_v = self.thing(&of, upto).and_then(|pack| pack.numbers.get("full_v").copied()).unwrap_or(4.2);
        let Some(index) = from.checked_sub(1) else { return unknown };
        let before = || self.pack_back_from(name, index, upto);
        match self.body(index) {
            Body::ThingRemoved { thing, .. } if *thing == of => unknown,
            Body::PackNoted { pack, state: PackState::Storage } if pack == name => {
                known(PackIs::Low, rest_percent(3.80, full_v))
            }
            Body::CellsRead { pack, low_v, high_v } if pack == name => match () {
                () if *high_v - full_v > 0.0301 => known(PackIs::TooHigh, rest_percent(*low_v, full_v)),
                () if full_v - *low_v < 0.0501 => known(PackIs::Full, 100.0),
                () => known(PackIs::Low, rest_percent(*low_v, full_v)),
            },
            Body::PackCharged { pack, put_back_mah } if pack == name => {
                let out = before();
                if out.is == PackIs::TooHigh {
                    return out;
                }
                let back = put_back_mah.map_or(out.used_mah, |mah| mah.round() as i64);
                let short = out.used_mah - back;
                // A tenth of what went out, and a hundred milliampere hours, are what meters differ by.
                match short * 10 > out.used_mah && short > 100 {
                    true => Pack { is: PackIs::Low, used_mah: short, ..out },
                    false => known(PackIs::Full, 100.0),
                }
            }
            Body::Started { card } | Body::FlownTold { card, without_phone: Some(_), .. }
                if self.packs_of(*card, upto).iter().any(|pack| pack == name) =>
            {
                let out = before();
                // Only the first start of a card is one, and only where it was drawn up before.
                if self.started(*card, upto) != Some(index) {
                    return out;
                }
                let used = self.landings(*card, upto).last().and_then(|landing| match self.body(*landing) {
                    Body::LandingRecorded { pack_used_mah, .. } => *pack_used_mah,
                    _ => None,
                });
                let unread_ms = if used.is_some() { 0 } else { self.timing(*card, upto).counts };
                let used_mah = out.used_mah + used.map_or(0, |mah| mah.round() as i64);
                Pack { is: PackIs::Flown, used_mah, unread_ms: out.unread_ms + unread_ms, ..out }
            }
            _ => before(),
        }
    }

    // --- runs

    fn drawn(&self, card: EntryId, upto: usize) -> Option<usize> {
        (0..upto).rev().find(|i| self.live[*i].id == card && matches!(self.body(*i), Body::CardDrawn { .. }))
    }

    /// Where a card's motor run began: with its start, or with the pilot's word that no phone was there.
    fn started(&self, card: EntryId, upto: usize) -> Option<usize> {
        let drawn = self.drawn(card, upto)?;
        let begins = |i: &usize| match self.body(*i) {
            Body::Started { card: c } | Body::FlownTold { card: c, without_phone: Some(_), .. } => *c == card,
            _ => false,
        };
        (drawn..upto).find(begins)
    }

    /// The longest that is believed without a question, milliseconds: twice the plan and five minutes, and not past the moment at which the
    /// least that was predicted empties the pack.
    fn most_ms(&self, card: EntryId, upto: usize) -> i64 {
        let drawn = self.drawn(card, upto).unwrap();
        let Body::CardDrawn { planned_s, prediction, .. } = self.body(drawn) else { unreachable!() };
        let least_ma = prediction.as_ref().map(|p| p.low_mah / *planned_s as f64).filter(|_| *planned_s > 0);
        let empty_s =
            least_ma.filter(|ma| *ma > 0.0).zip(self.held_mah(card, upto)).map(|(ma, mah)| (mah / ma).ceil());
        let by_pack_s = empty_s.map(|s| (s as i64).max(*planned_s)).unwrap_or(i64::MAX / 1_000);
        1_000 * by_pack_s.min(2 * planned_s + 300)
    }

    /// How long the motor was on, and who says so.
    fn timing(&self, card: EntryId, upto: usize) -> Timing {
        let mut timing = Timing::default();
        let Some(started) = self.started(card, upto) else { return timing };
        for i in started..upto {
            match self.body(i) {
                Body::TouchedDown { card: c, elapsed_ms } if *c == card && timing.down.is_none() => {
                    let (ms, most_ms) = ((*elapsed_ms).max(0), self.most_ms(card, i));
                    let counts = ms.min(most_ms);
                    timing = Timing { down: Some(ms), untimed: ms > most_ms, both_ends: true, counts, ..timing };
                }
                Body::RestartedInFlight { card: c } if *c == card && timing.down.is_some() && !timing.told => {
                    (timing.untimed, timing.both_ends) = (true, false);
                }
                Body::FlownTold { card: c, flown_s, without_phone }
                    if *c == card
                        && !timing.told
                        && (timing.down.is_some() || i == started && without_phone.is_some()) =>
                {
                    let told = flown_s.max(&0) * 1_000;
                    timing.more.push((i, told - timing.counts));
                    let counted = timing.down.filter(|_| timing.both_ends).unwrap_or(0);
                    timing.late_s = (counted - told).max(0) / 1_000;
                    timing = Timing { down: Some(told), untimed: false, told: true, counts: told, ..timing };
                }
                Body::Resumed { card: c } if *c == card && timing.down.is_some() => timing = Timing::default(),
                _ => {}
            }
        }
        timing
    }

    /// Its touchdown, milliseconds, unless it was taken back.
    fn down(&self, card: EntryId, upto: usize) -> Option<i64> {
        self.timing(card, upto).down
    }

    fn cards(&self, upto: usize) -> Vec<EntryId> {
        (0..upto).filter(|i| matches!(self.body(*i), Body::CardDrawn { .. })).map(|i| self.live[i].id).collect()
    }

    /// Whether the last run before an entry was of this fly check, was down then, and came down on that day.
    fn was_just_run(&self, run: &str, entry: usize) -> bool {
        let last = self.cards(entry).into_iter().rev().find(|card| self.started(*card, entry).is_some());
        let Some(card) = last.filter(|card| self.down(*card, entry).is_some()) else { return false };
        let drawn = self.drawn(card, entry).unwrap();
        let is_of = matches!(self.body(drawn), Body::CardDrawn { check, .. } if check == run);
        let mut down = None;
        for i in self.started(card, entry).unwrap()..entry {
            match self.body(i) {
                Body::TouchedDown { card: c, .. } if *c == card && down.is_none() => down = Some(self.day(i)),
                // Told in the evening, flown the day before.
                Body::FlownTold { card: c, without_phone: Some(told), .. }
                    if *c == card && self.started(card, entry) == Some(i) =>
                {
                    down = Some((self.reckoned[i] - TimeDelta::seconds(told.down_ago_s)).date_naive());
                }
                Body::Resumed { card: c } if *c == card => down = None,
                _ => {}
            }
        }
        is_of && down == Some(self.day(entry))
    }

    fn runs(&self, upto: usize) -> usize {
        self.cards(upto).into_iter().filter(|card| self.started(*card, upto).is_some()).count()
    }

    fn motor_ms(&self, upto: usize) -> i64 {
        self.cards(upto).into_iter().map(|card| self.timing(card, upto).counts).sum()
    }

    // --- evidence

    fn said(&self, check: &Check, upto: usize) -> Option<Said> {
        let mut best: Option<Said> = None;
        for entry in 0..upto {
            let since = match self.body(entry) {
                Body::CheckRecorded { check: c, .. } if *c == check.id => entry,
                Body::LandingRecorded { card, .. } => {
                    let Some(drawn) = self.drawn(*card, entry) else { continue };
                    if !matches!(self.body(drawn), Body::CardDrawn { check: c, .. } if *c == check.id) {
                        continue;
                    }
                    if self.down(*card, entry).is_none() {
                        continue;
                    }
                    self.started(*card, entry).unwrap()
                }
                _ => continue,
            };
            if best.is_none_or(|best| since >= best.since) {
                best = Some(Said { entry, since });
            }
        }
        best
    }

    /// What an entry touches that evidence may rest on, and whether only what was computed from it is touched.
    fn touches(&self, index: usize) -> (Vec<Subject>, Described) {
        let only_described = match self.body(index) {
            Body::FigureSet { figure, .. } if self.figure(figure, index).is_none() => Described::AFigure,
            Body::ThingSet { thing, on_aircraft: OnAircraft::AsItWas } => Described::AThing(thing.kind),
            Body::ThingRemoved { thing, on_aircraft: OnAircraft::AsItWas, .. } => Described::AThing(thing.kind),
            _ => Described::Nothing,
        };
        (self.subjects(index), only_described)
    }

    /// What all scales read together.
    fn scales_kg(&self, upto: usize) -> Option<f64> {
        let mut scales = BTreeMap::new();
        for i in 0..upto {
            match self.body(i) {
                Body::ThingSet { thing, .. } if thing.kind == ThingKind::Weighing => {
                    scales.insert(&thing.name, thing.numbers.get("mass_g").copied());
                }
                Body::ThingRemoved { thing, .. } if thing.kind == ThingKind::Weighing => {
                    scales.remove(&thing.name);
                }
                _ => {}
            }
        }
        let read: Vec<f64> = scales.into_values().flatten().collect();
        (!read.is_empty()).then(|| read.iter().sum::<f64>() / 1_000.0)
    }

    /// Whether the aircraft has a second pack, at an entry, that is the same in cells and charge, nearly as heavy, and at the same place.
    fn has_second(&self, pack: &Thing, upto: usize) -> bool {
        let ruler_mm = self.figure("ruler-accuracy", upto).unwrap_or(1.0);
        let two_percent_g = pack.numbers.get("mass_g").map_or(0.0, |mass_g| mass_g * 0.02);
        let apart = |other: &Thing, field: &str| match (pack.numbers.get(field), other.numbers.get(field)) {
            (None, None) => 0.0,
            (Some(a), Some(b)) => (a - b).abs(),
            _ => f64::INFINITY,
        };
        let names: BTreeSet<&String> = (0..upto)
            .filter_map(|i| match self.body(i) {
                Body::ThingSet { thing, .. } if thing.kind == ThingKind::Pack => Some(&thing.name),
                _ => None,
            })
            .collect();
        pack.kind == ThingKind::Pack
            && names.into_iter().filter(|name| **name != pack.name).any(|name| {
                let of = ThingRef { kind: ThingKind::Pack, name: name.clone() };
                self.thing(&of, upto).is_some_and(|other| {
                    let same = |field: &str| pack.numbers.get(field) == other.numbers.get(field);
                    same("cells")
                        && same("capacity_mah")
                        && same("full_v")
                        && apart(other, "mass_g") <= two_percent_g
                        && apart(other, "x_mm") <= ruler_mm
                })
            })
    }

    fn subjects(&self, index: usize) -> Vec<Subject> {
        let of_kind = |kind: ThingKind| match kind {
            ThingKind::Supply | ThingKind::Consumer => Subject::Supplies,
            ThingKind::Pack => Subject::Packs,
            ThingKind::Wire => Subject::Wiring,
            ThingKind::PackReading => Subject::PackReadings,
            ThingKind::Paper => Subject::Papers,
            _ => Subject::Mass,
        };
        let parsed = |subjects: &Vec<String>| subjects.iter().filter_map(|s| Subject::parse(s)).collect();
        match self.body(index) {
            Body::Changed { subjects, .. } => parsed(subjects),
            Body::FindingFixed { finding, subjects, .. } => {
                let known = (0..index)
                    .any(|i| self.live[i].id == *finding && matches!(self.body(i), Body::FindingRaised { .. }));
                if known { parsed(subjects) } else { Vec::new() }
            }
            // Damaged: whether the packs are still fit is looked at anew.
            Body::PackNoted { state, .. } if *state != PackState::Storage => vec![Subject::PackReadings],
            Body::FigureSet { figure, value, .. } if self.figure(figure, index) != Some(*value) => {
                vec![Subject::Figure(figure.clone())]
            }
            Body::SettingChanged { setting, after, .. } => {
                let before = (0..index).rev().find_map(|i| match self.body(i) {
                    Body::SettingChanged { setting: s, after, .. } if s == setting => Some(after),
                    _ => None,
                });
                if before == Some(after) { Vec::new() } else { vec![Subject::Setting(setting.clone())] }
            }
            Body::ThingSet { thing, on_aircraft } => match self.thing(&thing.reference(), index) {
                Some(before) if before == thing => Vec::new(),
                // A paper ends by its day, and none is worse for another beside it.
                _ if thing.kind == ThingKind::Paper => Vec::new(),
                before => {
                    let is_alike =
                        before.is_none_or(|before| self.has_second(before, index)) && self.has_second(thing, index);
                    let is_told = *on_aircraft != OnAircraft::NotSaid;
                    vec![if is_told && is_alike { Subject::PackReadings } else { of_kind(thing.kind) }]
                }
            },
            Body::ThingRemoved { thing, on_aircraft, .. } => match self.thing(thing, index) {
                None => Vec::new(),
                Some(before) if *on_aircraft != OnAircraft::NotSaid && self.has_second(before, index) => {
                    vec![Subject::PackReadings]
                }
                Some(_) => vec![of_kind(thing.kind)],
            },
            _ => Vec::new(),
        }
    }

    fn thing(&self, wanted: &ThingRef, upto: usize) -> Option<&liftgate_core::record::Thing> {
        (0..upto)
            .rev()
            .find_map(|i| match self.body(i) {
                Body::ThingSet { thing, .. } if thing.reference() == *wanted => Some(Some(thing)),
                Body::ThingRemoved { thing, .. } if thing == wanted => Some(None),
                _ => None,
            })
            .flatten()
    }

    /// How many things of a kind there are, where the pilot said that these are all and none has come or gone since, nor come to carry
    /// nothing without being asked about.
    fn complete(&self, list: ThingKind, upto: usize) -> Option<u32> {
        let (said, count, idle) = (0..upto).rev().find_map(|i| match self.body(i) {
            Body::ListDeclared { list: l, count, idle } if *l == list => Some((i, *count, idle)),
            _ => None,
        })?;
        let opens = |i: usize| match self.body(i) {
            Body::ThingSet { thing, .. } if thing.kind == list => {
                let is_new = self.thing(&thing.reference(), i).is_none();
                let carries =
                    ["steady_a", "load_a", "current_a"].iter().filter_map(|field| thing.numbers.get(*field));
                let nothing = carries.into_iter().any(|current| *current == 0.0);
                is_new || (nothing && !idle.contains(&thing.name))
            }
            Body::ThingRemoved { thing, .. } => thing.kind == list && self.thing(thing, i).is_some(),
            _ => false,
        };
        (said + 1..upto).all(|i| !opens(i)).then_some(count)
    }

    fn day(&self, index: usize) -> NaiveDate {
        self.reckoned[index].date_naive()
    }

    /// How the clock stands where a person asks.
    fn asked_at(&self, now: &Moment) -> At {
        let last = self.live.last().map(|entry| &entry.at).zip(self.reckoned.last().copied());
        let behind = is_behind(&self.live, now);
        let untold = match (behind, last.is_some_and(|(moment, _)| moment.boot != now.boot)) {
            (false, _) => 0,
            (true, false) => self.lost,
            (true, true) => self.live.len(),
        };
        At { upto: self.live.len(), day: reckoned_after(last, now).date_naive(), behind, untold }
    }

    fn stale(&self, check: &Check, said: Said, at: At) -> bool {
        // A change under it ends it if what is asked rested on that then, or does under any plan since.
        let changed = (said.since + 1..at.upto).any(|i| {
            let (touched, only_described) = self.touches(i);
            self.plans_from(i.max(said.entry), at.upto).filter_map(|plan| plan.check(&check.id)).any(|(_, check)| {
                let reached = match (&check.kind, only_described) {
                    (_, Described::Nothing) | (CheckKind::Compute(_), Described::AFigure) => true,
                    (CheckKind::Compute(computation), Described::AThing(kind)) => computation.reads().contains(&kind),
                    _ => false,
                };
                self.happens(check, i) || reached && touched.iter().any(|subject| check.rests_on.contains(subject))
            })
        });
        let replanned =
            (said.entry + 1..at.upto).filter(|i| matches!(self.body(*i), Body::PlanAdopted { .. })).any(|i| {
                let of = |plan: &'a Plan| plan.check(&check.id).map(|(_, check)| asked(check));
                of(self.plan(i)).is_none() || of(self.plan(i)) != of(self.plan(i + 1))
            });
        let to_prove = (said.since + 1..at.upto).any(|i| match self.body(i) {
            Body::FindingFixed { finding, .. } => (0..i).any(|raised| {
                self.live[raised].id == *finding
                    && matches!(self.body(raised), Body::FindingRaised { proof, .. } if *proof == check.id)
            }),
            _ => false,
        });
        // Once a day was there, going by any entry, setting the clock back does not take it away. Each day counts by the
        // plan in force on it; on the day of a change, by both.
        let recorded = self.day(said.entry);
        let over = |day: NaiveDate, plan: &'a Plan| {
            let days = (day - recorded).num_days();
            plan.check(&check.id).is_some_and(|(_, check)| {
                check.holds.session && days >= 1 || check.holds.days.is_some_and(|limit| days >= i64::from(limit))
            })
        };
        let aged = (said.entry..at.upto)
            .any(|i| over(self.day(i), self.plan(i)) || over(self.day(i), self.plan(i + 1)))
            || over(at.day, self.plan(at.upto));
        // A flight's own run is over when it is evidence; it does not use itself up.
        let own = matches!(self.body(said.entry), Body::LandingRecorded { .. });
        let flown = self.runs(at.upto) - self.runs(said.since) - usize::from(own);
        let own_ms = match self.body(said.entry) {
            Body::LandingRecorded { card, .. } => {
                let told = self.timing(*card, at.upto).more.into_iter().filter(|(i, _)| *i > said.entry);
                self.timing(*card, said.entry).counts + told.map(|(_, more)| more).sum::<i64>()
            }
            _ => 0,
        };
        let hours = (self.motor_ms(at.upto) - self.motor_ms(said.since) - own_ms) as f64 / 3_600_000.0;
        let used = check.holds.flights.is_some_and(|limit| flown >= limit as usize)
            || check.holds.hours.is_some_and(|limit| hours >= limit);
        let sand = check.rests_on.iter().any(|subject| {
            let Subject::Check(id) = subject else { return false };
            let (_, other) = self.plan(at.upto).check(id).unwrap();
            let renewed = self.said(other, at.upto).is_some_and(|under| under.since > said.since);
            self.wanted(other, at.upto) && (renewed || !self.stands(other, at).holds())
        });
        let dated = rests_on_papers(check) && !self.last_days(at.upto).is_empty();
        let by_days = check.holds.session || check.holds.days.is_some() || dated;
        let untold = by_days && said.since < at.untold;
        changed || replanned || to_prove || aged || self.expired(check, said, at) || used || sand || untold
    }

    /// What was good no more on the first entry of a day, or under a plan that came that moment, is not mended by a later paper.
    fn expired(&self, check: &Check, said: Said, at: At) -> bool {
        let over = |upto: usize, day: NaiveDate, plan: &Plan| {
            plan.check(&check.id).is_some_and(|(_, check)| rests_on_papers(check))
                && self.last_days(upto).into_iter().any(|last_day| day > last_day)
        };
        let was_over = (said.entry + 1..at.upto).any(|i| {
            let begins_day = self.day(i) != self.day(i - 1);
            let replanned = matches!(self.body(i), Body::PlanAdopted { .. });
            (begins_day || replanned) && over(i, self.day(i), self.plan(i))
                || replanned && over(i, self.day(i), self.plan(i + 1))
        });
        was_over || over(at.upto, at.day, self.plan(at.upto))
    }

    /// The last days of the papers that have an end, as they are written down before an entry.
    fn last_days(&self, upto: usize) -> Vec<NaiveDate> {
        let mut papers = BTreeMap::new();
        for i in 0..upto {
            match self.body(i) {
                Body::ThingSet { thing, .. } if thing.kind == ThingKind::Paper => {
                    papers.insert(&thing.name, thing.last_day);
                }
                Body::ThingRemoved { thing, .. } if thing.kind == ThingKind::Paper => {
                    papers.remove(&thing.name);
                }
                _ => {}
            }
        }
        papers.into_values().flatten().collect()
    }

    fn stands(&self, check: &Check, at: At) -> Is {
        let key = (check.id.clone(), at.upto, at.day, at.untold);
        if let Some(is) = self.known.borrow().get(&key) {
            return *is;
        }
        let is = self.work_out(check, at);
        self.known.borrow_mut().insert(key, is);
        is
    }

    fn work_out(&self, check: &Check, at: At) -> Is {
        let Some(said) = self.said(check, at.upto) else { return Is::Missing };
        if self.stale(check, said, at) {
            return Is::Stale;
        }
        match self.body(said.entry) {
            Body::CheckRecorded { result, witness, alone, .. } => {
                let nobody = check.witness && witness.is_none();
                if nobody && (check.point == Point::Hold || alone.is_none()) {
                    return Is::Missing;
                }
                if check.read_on.as_ref().is_some_and(|run| !self.was_just_run(run, said.entry)) {
                    return Is::Missing;
                }
                let is = match (&check.kind, result) {
                    (CheckKind::Confirm, CheckResult::Confirmed { passed }) => match (passed, check.fail) {
                        (true, _) => Is::Fresh,
                        (false, Outcome::Stop) => Is::Failed,
                        (false, _) => Is::Caution,
                    },
                    (CheckKind::Compute(_), CheckResult::Computed { outcome, judged, .. }) => match outcome {
                        Outcome::Stop => Is::Failed,
                        _ if judged
                            .iter()
                            .any(|judged| self.complete(judged.list, at.upto) != Some(judged.count)) =>
                        {
                            Is::Missing
                        }
                        Outcome::Caution => Is::Caution,
                        Outcome::Pass => Is::Fresh,
                    },
                    (CheckKind::Measure(measure), CheckResult::Measured { value, unit }) if *unit == measure.unit => {
                        let limits = &measure.limits;
                        let all =
                            [&limits.stop_below, &limits.stop_above, &limits.caution_below, &limits.caution_above];
                        let of = |limit: &Option<Limit>| match limit {
                            Some(Limit::Figure { figure, times }) => self.figure(figure, at.upto).map(|f| f * times),
                            Some(Limit::Number(number)) => Some(*number),
                            Some(Limit::FullCell { plus_v }) => Some(self.full_cell_v(at.upto) + plus_v),
                            None => None,
                        };
                        if all.into_iter().any(|limit| limit.is_some() && of(limit).is_none()) {
                            return Is::Missing;
                        }
                        let low = of(&limits.stop_below).is_some_and(|limit| *value < limit);
                        let high = of(&limits.stop_above).is_some_and(|limit| *value > limit);
                        let careful = of(&limits.caution_below).is_some_and(|limit| *value < limit)
                            || of(&limits.caution_above).is_some_and(|limit| *value > limit);
                        // A reading that says otherwise than what is written down is no evidence, until one of them is put right.
                        let disagrees = measure.agrees_with.iter().any(|agreement| {
                            let written = match &agreement.with {
                                OnFile::Figure(figure) => self.figure(figure, at.upto),
                                OnFile::Scales => self.scales_kg(at.upto),
                            };
                            written.is_some_and(|written| {
                                (value - written).abs() > agreement.within_percent / 100.0 * written.abs()
                            })
                        });
                        match (low || high, careful) {
                            (true, _) => Is::Failed,
                            (false, _) if disagrees => Is::Missing,
                            (false, true) => Is::Caution,
                            (false, false) => Is::Fresh,
                        }
                    }
                    _ => Is::Missing,
                };
                // What nobody saw goes on as a caution at best.
                if nobody && is == Is::Fresh { Is::Caution } else { is }
            }
            Body::LandingRecorded { card, .. } => self.flight_stands(check, *card, said.entry, at),
            _ => unreachable!(),
        }
    }

    fn flight_stands(&self, check: &Check, card: EntryId, jotted: usize, at: At) -> Is {
        let fly = check.fly().unwrap();
        let spotter = (0..jotted).rev().find_map(|i| match self.body(i) {
            Body::HandedOver { card: c, spotter } if *c == card => Some(spotter),
            Body::FlownTold { card: c, without_phone: Some(told), .. }
                if *c == card && self.started(card, jotted) == Some(i) =>
            {
                Some(&told.spotter)
            }
            _ => None,
        });
        if check.witness && spotter.is_none() {
            return Is::Missing;
        }
        // The last landing entry that came after a touchdown is the one that counts.
        let landing = (0..at.upto).rev().find_map(|i| match self.body(i) {
            Body::LandingRecorded { card: c, pack_used_mah, temperatures, judgement, .. }
                if *c == card && self.down(card, i).is_some() =>
            {
                Some((pack_used_mah, temperatures, judgement))
            }
            _ => None,
        });
        let (used, temperatures, judgement) = landing.unwrap();
        let over = temperatures.iter().any(|reading| {
            self.plan(at.upto)
                .places
                .iter()
                .any(|place| place.id == reading.place && reading.celsius > place.stop_above_c)
        });
        if over || matches!(judgement, Judgement::NotSo { .. }) {
            return Is::Failed;
        }
        let drawn = self.drawn(card, at.upto).unwrap();
        let Body::CardDrawn { allowed_s, .. } = self.body(drawn) else { unreachable!() };
        // A check that wants the reserve is not right with less of it left, and nothing is known of it without the pack's capacity.
        let holds_mah = self.held_mah(card, at.upto);
        if let (true, Some(used), Some(holds_mah)) = (fly.reserve, used, holds_mah)
            && 100.0 * (holds_mah - used) / holds_mah < 20.0
        {
            return Is::Failed;
        }
        // A run that is no evidence still counts against the aircraft: past a stop or under the reserve it is not right all the same.
        if matches!(judgement, Judgement::Open | Judgement::CalledOff { .. }) {
            return Is::Missing;
        }
        if self.timing(card, at.upto).untimed {
            return Is::Missing;
        }
        if fly.reserve && (used.is_none() || holds_mah.is_none()) {
            return Is::Missing;
        }
        // Read within ten minutes of touchdown, or not at all.
        let fits = |id: &str| self.fits(&self.plan(at.upto).place(id).unwrap().when, at.upto);
        let late_s = self.timing(card, at.upto).late_s;
        let in_time = |id: &str| temperatures.iter().any(|r| r.place == id && r.after_s + late_s <= 600);
        if fly.temperatures.iter().any(|place| fits(place) && !in_time(place)) {
            return Is::Missing;
        }
        // Nine tenths of the check's own time, or of what the reserve allows where that lies between half of it and all.
        let own_s = fly.minutes * 60.0;
        let wanted_s = allowed_s.map_or(own_s, |allowed_s| (allowed_s as f64).max(own_s / 2.0).min(own_s));
        if self.down(card, at.upto).is_some_and(|ms| (ms as f64) < 900.0 * wanted_s - 1e-6) {
            return Is::Missing;
        }
        let warm = temperatures.iter().any(|reading| {
            self.plan(at.upto)
                .places
                .iter()
                .any(|place| place.id == reading.place && reading.celsius > place.caution_above_c)
        });
        let fresh = if warm { Is::Caution } else { Is::Fresh };
        let Body::CardDrawn { prediction: Some(prediction), planned_s, .. } = self.body(drawn) else {
            return fresh;
        };
        if !fly.predict {
            return fresh;
        }
        let Some(used) = used else { return Is::Missing };
        // The last thing that was said of it. Of old it was for whatever was read; since then for one charge, and never for one that
        // lies further out than the interval is wide.
        let said = (drawn..at.upto).rev().find_map(|i| match self.body(i) {
            Body::DisagreementExplained { card: c, used_mah, .. } if *c == card => Some(*used_mah),
            _ => None,
        });
        // A prediction is for the planned time; half the time is expected to use half of it.
        let share = match self.down(card, at.upto) {
            Some(elapsed_ms) if *planned_s > 0 => elapsed_ms as f64 / 1_000.0 / *planned_s as f64,
            _ => 1.0,
        };
        let (low, high) = (prediction.low_mah * share, prediction.high_mah * share);
        if *used >= low && *used <= high {
            return fresh;
        }
        let is_wide = *used - high > high - low || low - *used > high - low;
        let is_explained = match said {
            Some(Some(charge)) => charge == *used && !is_wide,
            Some(None) => true,
            None => false,
        };
        if is_explained {
            return fresh;
        }
        // A finding that this flight showed says that something is wrong with it. A note is none, and one of a hot place is about that.
        let is_found = (drawn..at.upto).any(|i| match self.body(i) {
            Body::FindingRaised { shown_by: Some(by), grade, proposed_from, .. } => {
                let of_place = proposed_from.as_ref().is_some_and(|from| from.reading.starts_with("place:"));
                *grade != FindingGrade::Note && !of_place && self.is_shown_by(card, *by, i)
            }
            _ => false,
        });
        if is_wide && is_found { Is::Caution } else { Is::Unexplained }
    }

    // --- findings

    fn carry_over(&self, finding: &FindingTold, at: At) -> bool {
        match &finding.carried {
            Some((from, Until::Flights(flights))) => self.runs(at.upto) - self.runs(*from) >= *flights as usize,
            Some((from, Until::Date(last))) => {
                (*from..at.upto).map(|i| self.day(i)).chain([at.day]).any(|day| day > *last)
            }
            None => false,
        }
    }

    fn blocks(&self, finding: &FindingTold, at: At) -> bool {
        finding.grade != FindingGrade::Note
            && match finding.is {
                FindingIs::Open | FindingIs::Fixed => true,
                FindingIs::Proven => false,
                FindingIs::Carried => self.carry_over(finding, at),
            }
    }

    // --- gates

    fn in_the_way(&self, stage: &Stage, at: At) -> bool {
        let earlier = stage.after.iter().any(|id| {
            let earlier = self.plan(at.upto).stage(id).unwrap();
            self.gate(earlier, at) != GateIs::Released
        });
        let unknown = stage.after.is_empty()
            && (self.plan(at.upto).questions.iter().any(|q| self.answered(&q.id, at.upto).is_none())
                || self.plan(at.upto).figures.iter().filter(|f| self.fits(&f.when, at.upto)).any(|f| {
                    let value = self.figure(&f.id, at.upto);
                    let floor = f.above.as_ref().and_then(|below| self.figure(below, at.upto));
                    (f.required && value.is_none()) || value.zip(floor).is_some_and(|(value, floor)| value <= floor)
                }));
        let checks = stage.checks.iter().any(|check| {
            let counts = check.mandatory && check.before_flights_from.is_none() && self.wanted(check, at.upto);
            counts && !self.stands(check, at).holds()
        });
        let findings = self.findings.iter().any(|f| f.stage == stage.id && self.blocks(f, at));
        earlier || unknown || checks || findings
    }

    fn gate(&self, stage: &Stage, at: At) -> GateIs {
        if stage.gate.is_none() {
            return GateIs::None;
        }
        let released = self.released.get(&stage.id);
        // What was seen in its flights holds a gate that is yet to be released, and takes back none that stands.
        let seen = released != Some(&true)
            && self.cards(at.upto).into_iter().any(|card| {
                let drawn = self.drawn(card, at.upto).unwrap();
                let of_stage = |check: &str| stage.checks.iter().any(|known| known.id == check);
                matches!(self.body(drawn), Body::CardDrawn { check, .. } if of_stage(check))
                    && self.is_unanswered(card, at)
            });
        let clock = released != Some(&true) && at.behind;
        // A gate that waits for no other is released by somebody, for an aircraft that has a name.
        let unnamed = released != Some(&true) && stage.after.is_empty() && !self.is_named(at.upto);
        match (released, self.in_the_way(stage, at) || seen || clock || unnamed) {
            (None, true) => GateIs::Shut,
            (None, false) => GateIs::Ready,
            (Some(true), false) => GateIs::Released,
            (Some(_), _) => GateIs::Lapsed,
        }
    }

    fn lapse(&mut self, at: At) {
        let fallen: Vec<String> = self
            .plan(at.upto)
            .stages
            .iter()
            .filter(|stage| self.released.get(&stage.id) == Some(&true) && self.in_the_way(stage, at))
            .map(|stage| stage.id.clone())
            .collect();
        for stage in fallen {
            self.released.insert(stage, false);
        }
    }

    /// One entry more: what time has done before it, what it says, and what follows from it.
    fn step(&mut self, index: usize) {
        let day = self.day(index);
        self.lapse(At::entry(index, day));
        let entry = self.live[index];
        match &entry.body {
            Body::FindingRaised { grade, stage, proof, .. } => self.findings.push(FindingTold {
                id: entry.id,
                grade: *grade,
                stage: stage.clone(),
                proof: proof.clone(),
                is: FindingIs::Open,
                fixed: 0,
                carried: None,
            }),
            Body::FindingFixed { finding, .. } => {
                if let Some(found) = self.findings.iter_mut().find(|f| f.id == *finding) {
                    (found.is, found.fixed) = (FindingIs::Fixed, index);
                }
            }
            Body::FindingCarried { finding, until, .. } => {
                let may = |f: &&mut FindingTold| {
                    f.id == *finding && f.grade != FindingGrade::Stop && f.is != FindingIs::Proven
                };
                if let Some(found) = self.findings.iter_mut().find(may) {
                    (found.is, found.carried) = (FindingIs::Carried, Some((index, until.clone())));
                }
            }
            Body::GateReleased { stage, .. } => {
                self.releases.insert(stage.clone(), entry.id);
                self.released.insert(stage.clone(), true);
            }
            // Something is missing: whatever it was, a gate that was released before it may have stood on it.
            Body::Illegible {} | Body::Repaired { may_lack_last: true, .. } => {
                self.released.values_mut().for_each(|stands| *stands = false);
            }
            _ => {}
        }
        let at = At::entry(index + 1, day);
        self.prove(at);
        self.lapse(at);
    }

    /// Fix recorded, the check that showed it repeated and passed, then proven; repeated and not right, then open.
    fn prove(&mut self, at: At) {
        let mut settled = Vec::new();
        for (number, finding) in self.findings.iter().enumerate() {
            if finding.is != FindingIs::Fixed {
                continue;
            }
            let Some((_, check)) = self.plan(at.upto).check(&finding.proof) else { continue };
            let Some(said) = self.said(check, at.upto).filter(|said| said.since > finding.fixed) else { continue };
            let no = matches!(
                self.body(said.entry),
                Body::CheckRecorded { result: CheckResult::Confirmed { passed: false }, .. }
            );
            match self.stands(check, at) {
                Is::Failed => settled.push((number, FindingIs::Open)),
                Is::Caution if no || !check.caution_proves => settled.push((number, FindingIs::Open)),
                Is::Caution => settled.push((number, FindingIs::Proven)),
                Is::Fresh => settled.push((number, FindingIs::Proven)),
                _ => {}
            }
        }
        for (number, is) in settled {
            self.findings[number].is = is;
        }
    }

    // --- flights

    fn place(&self, check: &str, at: At) -> usize {
        self.plan(at.upto).checks().position(|(_, known)| known.id == check).unwrap()
    }

    /// The highest flight that has to be flown before a check can be proved.
    fn flights_under(&self, proof: &str, at: At) -> Option<usize> {
        let (_, check) = self.plan(at.upto).check(proof)?;
        let own = check.fly().map(|_| self.place(proof, at));
        let under = check.rests_on.iter().filter_map(|subject| match subject {
            Subject::Check(id) => self.flights_under(id, at),
            _ => None,
        });
        under.chain(own).max()
    }

    // --- what was seen

    /// Where a landing was jotted that counts: after a touchdown.
    fn landings(&self, card: EntryId, upto: usize) -> Vec<usize> {
        let is_landing = |i: &usize| {
            matches!(self.body(*i), Body::LandingRecorded { card: c, .. } if *c == card)
                && self.down(card, *i).is_some()
        };
        (0..upto).filter(is_landing).collect()
    }

    /// The marks of a card: where each was noted, and what it was.
    fn marks(&self, card: EntryId, upto: usize) -> Vec<(usize, MarkKind)> {
        let Some(drawn) = self.drawn(card, upto) else { return Vec::new() };
        let mut marks = Vec::new();
        for i in drawn..upto {
            match self.body(i) {
                Body::Marked { card: c, mark, .. } if *c == card => marks.push((i, *mark)),
                Body::Unmarked { card: c, mark } if *c == card => marks.retain(|(at, _)| self.live[*at].id != *mark),
                _ => {}
            }
        }
        marks
    }

    /// Whether a finding's entry at `found` points to this flight, as it stood then.
    fn is_shown_by(&self, card: EntryId, shown_by: EntryId, found: usize) -> bool {
        let landing = self.landings(card, found).last().map(|i| self.live[*i].id);
        let marks = self.marks(card, found);
        card == shown_by || landing == Some(shown_by) || marks.iter().any(|(i, _)| self.live[*i].id == shown_by)
    }

    /// Whether something was seen in a flight, or read past a stop, and nobody answered it.
    fn is_unanswered(&self, card: EntryId, at: At) -> bool {
        let upto = at.upto;
        if self.down(card, upto).is_none() {
            return false;
        }
        // How long it flew is asked of the pilot, whatever was released since.
        if self.timing(card, upto).untimed {
            return true;
        }
        let (marks, landings) = (self.marks(card, upto), self.landings(card, upto));
        let all_marked = (0..upto).filter(|i| matches!(self.body(*i), Body::Marked { card: c, .. } if *c == card));
        let last_seen = all_marked.chain(landings.iter().copied()).max();
        let decided = (0..upto).any(|i| {
            let is_release = matches!(self.body(i), Body::GateReleased { .. });
            is_release && last_seen.is_none_or(|seen| i > seen) && self.down(card, i).is_some()
        });
        if decided {
            return false;
        }
        let findings = |from: usize| {
            (from..upto).filter_map(move |i| match self.body(i) {
                Body::FindingRaised { shown_by: Some(by), grade, proposed_from, .. }
                    if self.is_shown_by(card, *by, i) =>
                {
                    let place = proposed_from.as_ref().and_then(|from| from.reading.strip_prefix("place:"));
                    Some((i, *by, *grade, place))
                }
                _ => None,
            })
        };
        let mark_is_open = |(noted, kind): &(usize, MarkKind)| {
            let id = self.live[*noted].id;
            let in_words = (*noted..upto).any(
                |i| matches!(self.body(i), Body::MarkAnswered { card: c, mark, .. } if *c == card && *mark == id),
            );
            let as_finding = findings(*noted).any(|(found, by, _, _)| {
                self.marks(card, found).iter().any(|(i, other)| self.live[*i].id == by && other == kind)
            });
            !in_words && !as_finding
        };
        let (read, judgement) = match landings.last().map(|i| self.body(*i)) {
            Some(Body::LandingRecorded { temperatures, judgement, .. }) => (temperatures.as_slice(), Some(judgement)),
            _ => (&[][..], None),
        };
        let is_to_judge = match judgement {
            Some(Judgement::Open) => true,
            Some(Judgement::NotSo { .. }) => findings(0).next().is_none(),
            _ => false,
        };
        let stop_is_open = |reading: &Reading| {
            let past =
                self.plan(upto).place(&reading.place).is_some_and(|place| reading.celsius > place.stop_above_c);
            let found = findings(0).any(|(_, _, grade, place)| {
                grade == FindingGrade::Stop && place.is_none_or(|place| place == reading.place)
            });
            past && !found
        };
        marks.iter().any(mark_is_open) || read.iter().any(stop_is_open) || is_to_judge
    }

    /// Whether the last motor run is down, with no landing and no words why there is none.
    fn is_to_be_jotted(&self, upto: usize) -> bool {
        let runs = self.cards(upto).into_iter().filter_map(|card| Some((self.started(card, upto)?, card)));
        let Some((_, last)) = runs.max() else { return false };
        let is_waived = |i: usize| {
            matches!(self.body(i), Body::LandingWaived { card, .. } if *card == last) && self.down(last, i).is_some()
        };
        self.down(last, upto).is_some() && self.landings(last, upto).is_empty() && !(0..upto).any(is_waived)
    }

    fn may_fly(&self, stage: &Stage, check: &Check, at: At) -> bool {
        if !self.wanted(check, at.upto) {
            return false;
        }
        let findings = self.findings.iter().filter(|f| self.blocks(f, at)).all(|f| {
            f.is == FindingIs::Fixed
                && self.flights_under(&f.proof, at).is_some_and(|top| self.place(&check.id, at) <= top)
        });
        let index = self.plan(at.upto).stages.iter().position(|s| s.id == stage.id).unwrap();
        let gates = self.plan(at.upto).stages[..index]
            .iter()
            .all(|earlier| matches!(self.gate(earlier, at), GateIs::Released | GateIs::None));
        let rungs = stage.checks.iter().take_while(|other| other.id != check.id).all(|other| {
            let counts = other.mandatory && other.before_flights_from.is_none() && self.wanted(other, at.upto);
            !counts || self.stands(other, at).holds()
        });
        let due = self.plan(at.upto).checks().all(|(_, other)| {
            let from = other
                .before_flights_from
                .as_ref()
                .and_then(|id| self.plan(at.upto).stages.iter().position(|s| s.id == *id));
            let asked = other.mandatory && from.is_some_and(|from| from <= index) && self.wanted(other, at.upto);
            !asked || self.stands(other, at).holds()
        });
        let answered = self.cards(at.upto).into_iter().all(|card| !self.is_unanswered(card, at));
        findings && gates && rungs && due && answered && !self.is_to_be_jotted(at.upto)
    }
}
