use chrono::NaiveDate;

use crate::engineering::heat::{HeatReading, TouchdownFit, touchdown};
use crate::plan::{Plan, Subject};
use crate::record::{Body, Entry, EntryId, Judgement, MarkKind, Moment, Odd, Outcome, Prediction, Reading, Wind};

/// A card and all that came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Flight {
    /// The card: the entry that drew it up.
    pub card: EntryId,
    /// Which fly check it answers.
    pub check: String,
    /// Which pack; the first, where several make a set in series.
    pub pack: String,
    /// The others of the set.
    pub further_packs: Vec<String>,
    /// Why it was flown on what was not known to be full.
    pub not_full: Option<String>,
    /// The least that any of its packs was measured to hold before it was flown, milliampere hours.
    pub measured_mah: Option<f64>,
    /// Head speed, rpm.
    pub head_speed_rpm: f64,
    /// Planned seconds with the motor on.
    pub planned_s: i64,
    /// Air temperature, degrees Celsius.
    pub air_c: f64,
    /// Wind, where it was told.
    pub wind: Option<Wind>,
    /// Expected charge.
    pub prediction: Option<Prediction>,
    /// How long the whole pack flies until its reserve, seconds, where that is known and less than the check's own minutes.
    pub allowed_s: Option<i64>,
    /// Who had the phone.
    pub spotter: Option<String>,
    /// The day on which the phone was handed over.
    pub handed_over: Option<NaiveDate>,
    /// When the motor was started.
    pub started: Option<Moment>,
    /// What was noted in flight.
    pub marks: Vec<Mark>,
    /// Touchdown: when, and milliseconds since the start.
    pub down: Option<(Moment, i64)>,
    /// The day of the last touchdown, as the journal reckons it.
    pub down_on: Option<NaiveDate>,
    /// Who says so.
    pub timed: Timed,
    /// Milliseconds that the phone counted; none where it was not there.
    pub counted_ms: Option<i64>,
    /// Seconds by which the touchdown was touched late, as far as the pilot's own time tells: its clock was left running so long.
    pub touched_late_s: i64,
    /// Milliseconds that count against the aircraft's hours: of a time that is doubted, the longest that nobody doubts.
    pub motor_ms: i64,
    /// What was jotted after landing.
    pub landing: Option<Landing>,
    /// Why nothing will be jotted.
    pub waived: Option<String>,
    /// Findings that it showed.
    pub findings: Vec<ShownFinding>,
    /// Whether a gate was released after what was seen and read: the pilot decided knowing of it.
    pub released_since: bool,
    /// Why it disagreed with its prediction.
    pub explained: Option<Explained>,
    /// What was changed between the motor run before and this one, and so is tested by it.
    pub tests: Vec<Tested>,
}

/// Who says how long the motor was on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Timed {
    /// The phone, from the start to the touchdown.
    ByClock,
    /// The phone, but it was started anew in flight: so long at the least.
    AtLeast,
    /// The phone, but longer than it can have been: its clock was most likely left running.
    Doubtful,
    /// The pilot.
    Told,
}

impl Timed {
    /// Whether it is known, and not to be asked of the pilot.
    pub fn is_known(self) -> bool {
        matches!(self, Timed::ByClock | Timed::Told)
    }
}

/// What the pilot said of a charge that was not as predicted.
#[derive(Debug, Clone, PartialEq)]
pub struct Explained {
    /// Why it was not.
    pub why: String,
    /// The charge that this explains, milliampere hours; whatever was read, where it was recorded before that was kept.
    pub used_mah: Option<f64>,
}

/// One thing that a flight tests, because it is not as it was on the flight before.
#[derive(Debug, Clone, PartialEq)]
pub enum Tested {
    /// A setting, or a figure that is changed on purpose.
    Setting {
        /// Which.
        subject: Subject,
        /// What it was.
        before: Option<String>,
        /// What it is.
        after: String,
    },
    /// Something was worked on.
    Work {
        /// What was done.
        what: String,
    },
    /// The head speed of the card.
    HeadSpeed {
        /// On the flight before, rpm.
        before_rpm: f64,
        /// On this one, rpm.
        after_rpm: f64,
    },
}

/// Something noted in flight.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// What.
    pub kind: MarkKind,
    /// Milliseconds since the start.
    pub elapsed_ms: i64,
    /// The entry.
    pub entry: EntryId,
    /// What the pilot said of it.
    pub answer: Option<MarkAnswer>,
}

/// What the pilot said of a mark.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MarkAnswer {
    /// There is nothing to it: what it was.
    Nothing(String),
    /// It is a finding.
    Finding(EntryId),
}

/// A finding that a flight showed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShownFinding {
    /// The finding.
    pub finding: EntryId,
    /// Whether it is of stop grade: nothing less answers a stop.
    pub is_stop: bool,
    /// The place of the plan whose temperature it is about; none where a person came upon it.
    pub place: Option<String>,
}

/// Something that was seen or read in a flight and that nobody answered yet: it holds every later card.
#[derive(Debug, Clone, PartialEq)]
pub enum Unanswered {
    /// How long it was: the phone was started anew in flight.
    Time,
    /// How long it was: the phone counted longer than it can have been.
    LongTime {
        /// Seconds that it counted.
        counted_s: i64,
    },
    /// What the spotter noted: of one kind, at least one.
    Marks(Vec<Mark>),
    /// A temperature past a stop.
    Stop {
        /// The place of the plan.
        place: String,
        /// Degrees Celsius.
        celsius: f64,
    },
    /// Not as it should be, in the pilot's words: what it is has to become a finding.
    NotSo(String),
    /// How the run was: the pilot has not said so.
    Judgement,
}

/// What was jotted after landing.
#[derive(Debug, Clone, PartialEq)]
pub struct Landing {
    /// The entry.
    pub entry: EntryId,
    /// Charge used, milliampere hours.
    pub pack_used_mah: Option<f64>,
    /// Temperatures.
    pub temperatures: Vec<Reading>,
    /// Remarks.
    pub notes: Option<String>,
    /// How the run was.
    pub judgement: Judgement,
    /// What was odd about it and is so.
    pub confirmed: Vec<Odd>,
}

/// A temperature held against its place's limits.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenPlace {
    /// The place's title.
    pub title: String,
    /// Degrees Celsius.
    pub celsius: f64,
    /// How it was judged.
    pub outcome: Outcome,
    /// The limit that was passed, degrees Celsius.
    pub limit_c: Option<f64>,
    /// Worked back to touchdown from readings in time, not read: it raises the outcome to a caution, and never to a stop.
    pub worked_back: bool,
}

/// Between the names of packs that fly together, in any language.
pub const PACKS_JOINED: &str = " + ";
/// Readings of one place that span less than this say nothing about how it cools, s.
const LEAST_SPAN_S: f64 = 15.0;
/// Further above the first reading nothing is worked back, K: the readings came too late for it.
const MOST_WORKED_BACK_K: f64 = 30.0;

impl Landing {
    /// Plausible temperatures of anything on the aircraft, degrees Celsius, inclusive: outside is a slip or a fire.
    pub const TEMPERATURE_RANGE_C: (f64, f64) = (-40.0, 200.0);
}

impl Flight {
    /// A card that was just drawn up.
    pub fn drawn(card: EntryId, check: &str) -> Flight {
        Flight {
            card,
            check: check.to_owned(),
            pack: String::new(),
            further_packs: Vec::new(),
            not_full: None,
            measured_mah: None,
            head_speed_rpm: 0.0,
            planned_s: 0,
            air_c: 0.0,
            wind: None,
            prediction: None,
            allowed_s: None,
            spotter: None,
            handed_over: None,
            started: None,
            marks: Vec::new(),
            down: None,
            down_on: None,
            timed: Timed::ByClock,
            counted_ms: None,
            touched_late_s: 0,
            motor_ms: 0,
            landing: None,
            waived: None,
            findings: Vec::new(),
            released_since: false,
            explained: None,
            tests: Vec::new(),
        }
    }

    /// The card that an entry draws up.
    pub(crate) fn of_card(entry: &Entry) -> Option<Flight> {
        let body = &entry.body;
        let Body::CardDrawn { check, pack, further_packs, not_full, head_speed_rpm, planned_s, air_c, .. } = body
        else {
            return None;
        };
        let Body::CardDrawn { wind, prediction, allowed_s, .. } = body else { return None };
        let (pack, further_packs, not_full) = (pack.clone(), further_packs.clone(), not_full.clone());
        let (head_speed_rpm, planned_s, air_c) = (*head_speed_rpm, *planned_s, *air_c);
        let (wind, prediction, allowed_s) = (*wind, prediction.clone(), *allowed_s);
        let drawn = Flight { pack, further_packs, not_full, ..Flight::drawn(entry.id, check) };
        Some(Flight { head_speed_rpm, planned_s, air_c, wind, prediction, allowed_s, ..drawn })
    }

    /// Its packs: the one, or all that make the set.
    pub fn packs(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.pack).chain(&self.further_packs).map(String::as_str)
    }

    /// Their names as one.
    pub fn pack_names(&self) -> String {
        self.packs().collect::<Vec<_>>().join(PACKS_JOINED)
    }

    /// Whether a pack was on it.
    pub fn is_on(&self, pack: &str) -> bool {
        self.packs().any(|name| name == pack)
    }

    /// Whether a pack was on it, and no other: what was read of the whole string was read of it.
    pub fn is_only_on(&self, pack: &str) -> bool {
        self.pack == pack && self.further_packs.is_empty()
    }

    /// Milliseconds with the motor on, once it is down and as far as anyone knows.
    pub fn flown_ms(&self) -> Option<i64> {
        self.down.as_ref().filter(|_| self.timed.is_known()).map(|(_, elapsed_ms)| *elapsed_ms)
    }

    /// Whether the motor was on and it is down, with nothing jotted yet, and nobody said why nothing will be.
    pub fn awaits_landing(&self) -> bool {
        self.down.is_some() && self.landing.is_none() && self.waived.is_none()
    }

    /// What was jotted for a place, in the order of reading.
    pub fn readings<'a>(&'a self, place: &'a str) -> impl DoubleEndedIterator<Item = &'a Reading> {
        let readings = self.landing.iter().flat_map(|landing| &landing.temperatures);
        readings.filter(move |reading| reading.place == place)
    }

    /// The hottest that was jotted for a place, degrees Celsius.
    pub fn hottest_reading(&self, place: &str) -> Option<f64> {
        self.readings(place).map(|reading| reading.celsius).max_by(f64::total_cmp)
    }

    /// A place's temperature at touchdown, worked back from two or more readings in time.
    pub fn at_touchdown(&self, place: &str) -> Option<TouchdownFit> {
        let reading = |reading: &Reading| HeatReading {
            time_s: self.since_touchdown_s(reading) as f64,
            temperature_c: reading.celsius,
        };
        let readings: Vec<HeatReading> = self.readings(place).map(reading).collect();
        let times = || readings.iter().map(|reading| reading.time_s);
        let span_s = times().fold(f64::NEG_INFINITY, f64::max) - times().fold(f64::INFINITY, f64::min);
        if readings.len() < 2 || span_s < LEAST_SPAN_S {
            return None;
        }
        touchdown(&readings, self.air_c).ok().filter(|fit| (0.0..=MOST_WORKED_BACK_K).contains(&fit.above_first_k))
    }

    /// The temperatures against their limits: each reading, then what was worked back to touchdown where that passes a limit
    /// that no reading passed.
    pub fn places(&self, plan: &Plan) -> Vec<SeenPlace> {
        let readings = self.landing.iter().flat_map(|landing| &landing.temperatures);
        let read: Vec<SeenPlace> =
            readings.map(|reading| judge(plan, &reading.place, reading.celsius, false)).collect();
        let worked_back = plan.places.iter().filter_map(|place| {
            let fit = self.at_touchdown(&place.id)?;
            let seen = judge(plan, &place.id, fit.touchdown_c, true);
            let worse = read.iter().filter(|read| read.title == seen.title).all(|read| read.outcome < seen.outcome);
            (seen.outcome > Outcome::Pass && worse).then_some(seen)
        });
        let worked_back: Vec<SeenPlace> = worked_back.collect();
        read.into_iter().chain(worked_back).collect()
    }

    /// What was seen or read past a stop and is answered by nothing: by no words, no finding, no later release of a gate.
    ///
    /// While it runs, nothing is asked: the spotter has the phone.
    pub fn unanswered(&self, plan: &Plan) -> Vec<Unanswered> {
        let time = match (self.timed, &self.down) {
            (Timed::AtLeast, Some(_)) => Some(Unanswered::Time),
            (Timed::Doubtful, Some((_, counted_ms))) => Some(Unanswered::LongTime { counted_s: counted_ms / 1_000 }),
            _ => None,
        };
        if self.down.is_none() || self.released_since {
            return time.into_iter().collect();
        }
        let marks = MarkKind::ALL.into_iter().map(|kind| self.marks_alike(kind)).filter(|alike| !alike.is_empty());
        let mut stops: Vec<Unanswered> = Vec::new();
        for reading in self.landing.iter().flat_map(|landing| &landing.temperatures) {
            let is_about = |shown: &&ShownFinding| shown.place.as_ref().is_none_or(|place| *place == reading.place);
            let is_found = self.findings.iter().filter(is_about).any(|shown| shown.is_stop);
            let stop = Unanswered::Stop { place: reading.place.clone(), celsius: reading.celsius };
            if is_past_stop(plan, reading) && !is_found && !stops.contains(&stop) {
                stops.push(stop);
            }
        }
        let judgement = self.landing.as_ref().and_then(|landing| match &landing.judgement {
            Judgement::Open => Some(Unanswered::Judgement),
            Judgement::NotSo { why } => self.findings.is_empty().then(|| Unanswered::NotSo(why.clone())),
            Judgement::NotAsked | Judgement::AsItShouldBe | Judgement::CalledOff { .. } => None,
        });
        time.into_iter().chain(marks.map(Unanswered::Marks)).chain(stops).chain(judgement).collect()
    }

    /// What was noted of a kind and not answered yet: one answer is for all of it.
    pub fn marks_alike(&self, kind: MarkKind) -> Vec<Mark> {
        self.marks.iter().filter(|mark| mark.kind == kind && mark.answer.is_none()).cloned().collect()
    }

    /// Whether something speaks against a run with these readings, so that its pilot has to say in so many words how it was: something was
    /// noted and is not answered as nothing, a reading lies past a stop, it was too short for its check, or longer than planned by more than a tenth.
    pub fn has_against_it(&self, plan: &Plan, temperatures: &[Reading]) -> bool {
        let is_past = |reading: &Reading| is_past_stop(plan, reading);
        let fly = plan.check(&self.check).and_then(|(_, check)| check.fly());
        let is_short = fly.is_some_and(|fly| self.too_short(fly).is_some());
        let is_marked = |mark: &Mark| !matches!(mark.answer, Some(MarkAnswer::Nothing(_)));
        self.marks.iter().any(is_marked) || temperatures.iter().any(is_past) || is_short || self.overrun_s().is_some()
    }

    /// Seconds flown over the plan, where they are more than a tenth of it.
    pub fn overrun_s(&self) -> Option<i64> {
        let elapsed_ms = self.flown_ms()?;
        let over_ms = elapsed_ms.saturating_sub(self.planned_s.saturating_mul(1_000));
        (over_ms > self.planned_s.saturating_mul(100)).then_some(over_ms / 1_000)
    }

    /// The prediction for the time that was flown: a hover called off early uses less, and that is no disagreement.
    ///
    /// The card's own while it is not down yet.
    pub fn expected(&self) -> Option<Prediction> {
        let planned = self.prediction.clone()?;
        let share = match self.flown_ms() {
            Some(elapsed_ms) if self.planned_s > 0 => elapsed_ms as f64 / 1_000.0 / self.planned_s as f64,
            _ => 1.0,
        };
        Some(Prediction {
            used_mah: planned.used_mah * share,
            low_mah: planned.low_mah * share,
            high_mah: planned.high_mah * share,
            from: planned.from,
        })
    }

    /// Charge used and what was expected, where the one lies outside the other's interval.
    pub fn disagreement(&self) -> Option<(f64, Prediction)> {
        let used = self.landing.as_ref()?.pack_used_mah?;
        let expected = self.expected()?;
        (!expected.holds(used)).then_some((used, expected))
    }

    /// Whether the charge lies far from what was expected. That is no gust and no slow hand on the stick: it wants a finding, and no
    /// explanation does for it.
    pub fn disagrees_widely(&self) -> bool {
        self.disagreement().is_some_and(|(used_mah, expected)| expected.is_far_from(used_mah))
    }

    /// Whether what was said of the charge counts for the charge that stands.
    pub fn is_explained(&self) -> bool {
        let Some(explained) = &self.explained else { return false };
        let used_mah = self.landing.as_ref().and_then(|landing| landing.pack_used_mah);
        explained.used_mah.is_none() || (explained.used_mah == used_mah && !self.disagrees_widely())
    }

    /// Charge used in the mean, milliamperes, if it was read.
    pub fn mean_current_ma(&self) -> Option<f64> {
        let used = self.landing.as_ref()?.pack_used_mah?;
        let elapsed_ms = self.flown_ms()?;
        (elapsed_ms > 0).then(|| used * 3_600_000.0 / elapsed_ms as f64)
    }
}

/// Whether a reading lies past the stop of its place.
pub fn is_past_stop(plan: &Plan, reading: &Reading) -> bool {
    plan.place(&reading.place).is_some_and(|place| reading.celsius > place.stop_above_c)
}

fn judge(plan: &Plan, id: &str, celsius: f64, worked_back: bool) -> SeenPlace {
    let place = plan.place(id);
    let over = |limit: f64| celsius > limit;
    let stop = place.map(|p| p.stop_above_c).filter(|limit| over(*limit));
    let caution = place.map(|p| p.caution_above_c).filter(|limit| over(*limit));
    SeenPlace {
        title: place.map_or_else(|| id.to_owned(), |p| p.title.clone()),
        celsius,
        outcome: match (stop, caution) {
            (Some(_), _) if !worked_back => Outcome::Stop,
            (Some(_), _) | (None, Some(_)) => Outcome::Caution,
            (None, None) => Outcome::Pass,
        },
        limit_c: stop.or(caution),
        worked_back,
    }
}
