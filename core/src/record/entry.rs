use chrono::{NaiveDate, NaiveDateTime};
use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::{AircraftId, EntryId, Moment, OnAircraft, Thing, ThingKind, ThingRef};
use crate::locale::{Locale, say};
use crate::telemetry::summary::LogFigure;
use crate::telemetry::{ColumnMap, RowCounts};
use crate::unit::Unit;

/// Wind as a person tells it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wind {
    /// By what it moves: a number of the Beaufort scale.
    Beaufort(u8),
    /// By a meter held up where it is flown, metres per second.
    MetresPerSecond(f64),
}

/// Who made an entry.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "role", rename_all = "kebab-case")]
pub enum Author {
    /// The person whose aircraft it is.
    Pilot,
    /// The person the phone was handed to.
    Spotter {
        /// As the pilot named them at hand-over.
        name: String,
    },
}

/// One entry of the journal as the fold reads it.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Place in the journal, from 1, without gaps.
    pub seq: i64,
    /// Its name.
    pub id: EntryId,
    /// When it was made.
    pub at: Moment,
    /// Who made it.
    pub author: Author,
    /// The aircraft that it is of; of what the workshop's entries say, the one that was in view.
    pub aircraft: AircraftId,
    /// What it says.
    pub body: Body,
}

impl Entry {
    /// The entry of that name. The newest are asked for most.
    pub fn by_id(entries: &[Entry], id: EntryId) -> Option<&Entry> {
        entries.iter().rfind(|entry| entry.id == id)
    }
}

/// Where a number comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Read off an instrument.
    Measured,
    /// The maker's rating or drawing.
    Rated,
    /// A guess that waits for something better.
    Estimated,
}

impl Basis {
    /// All, in the order that they are offered.
    pub const ALL: [Basis; 3] = [Basis::Measured, Basis::Rated, Basis::Estimated];

    /// The word for a person.
    pub fn word(self, locale: Locale) -> String {
        match self {
            Basis::Measured => say!(locale, "basis-measured"),
            Basis::Rated => say!(locale, "basis-rated"),
            Basis::Estimated => say!(locale, "basis-estimated"),
        }
    }
}

/// How a recorded result was judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// Within every limit.
    Pass,
    /// Past a caution: goes on, and stays in sight.
    Caution,
    /// Past a stop: nothing is released on it.
    Stop,
}

/// A computed number with its unit, kept with the evidence it belongs to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NamedValue {
    /// What it is.
    pub name: String,
    /// The number.
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
}

/// What a check gave.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum CheckResult {
    /// Seen and done, or seen and not right.
    Confirmed {
        /// Whether it was right.
        passed: bool,
    },
    /// A reading, judged by the plan's limits whenever it is read.
    Measured {
        /// The number.
        value: f64,
        /// Its unit, as the plan asked for it.
        unit: Unit,
    },
    /// A computation, with what it gave at that time.
    Computed {
        /// One sentence.
        summary: String,
        /// The numbers.
        values: Vec<NamedValue>,
        /// How it was judged.
        outcome: Outcome,
        /// The lists that it judged, each with how many were on it; none where it judges no list, and before this was kept.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        judged: Vec<JudgedList>,
    },
}

/// A list of things that a computation judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct JudgedList {
    /// Of what kind they are.
    pub list: ThingKind,
    /// How many there were.
    pub count: u32,
}

/// What the spotter sees or hears in flight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MarkKind {
    /// Shakes.
    Shake,
    /// A new sound.
    Sound,
    /// The tail swings or wags.
    Tail,
    /// Drifts or tilts by itself.
    Drift,
    /// Sags, surges, or head speed wanders.
    Power,
    /// Smells.
    Smell,
    /// The transmitter sounded an alarm.
    Alarm,
    /// Anything else.
    Other,
}

impl MarkKind {
    /// All, in the order that they are offered.
    pub const ALL: [MarkKind; 8] = [
        MarkKind::Shake,
        MarkKind::Sound,
        MarkKind::Tail,
        MarkKind::Drift,
        MarkKind::Power,
        MarkKind::Smell,
        MarkKind::Alarm,
        MarkKind::Other,
    ];

    /// The word for a person.
    pub fn word(self, locale: Locale) -> String {
        match self {
            MarkKind::Shake => say!(locale, "mark-shake"),
            MarkKind::Sound => say!(locale, "mark-sound"),
            MarkKind::Tail => say!(locale, "mark-tail"),
            MarkKind::Drift => say!(locale, "mark-drift"),
            MarkKind::Power => say!(locale, "mark-power"),
            MarkKind::Smell => say!(locale, "mark-smell"),
            MarkKind::Alarm => say!(locale, "mark-alarm"),
            MarkKind::Other => say!(locale, "mark-other"),
        }
    }
}

/// A temperature read after landing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Which place of the plan.
    pub place: String,
    /// Degrees Celsius as read.
    pub celsius: f64,
    /// Seconds from touchdown to the reading, by the monotonic clock.
    pub after_s: i64,
}

/// A run that no phone timed: it was dead, or a paper was used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct WithoutPhone {
    /// Seconds from the touchdown to this entry, as the pilot says.
    pub down_ago_s: i64,
    /// Who kept the time and watched.
    pub spotter: String,
}

/// What a flight pack is in, besides charged and flown. All but the first retire it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PackState {
    /// Brought to the charge at which it is stored.
    Storage,
    /// Swollen.
    Swollen,
    /// Dented, cut or punctured.
    Dented,
    /// It was wet.
    Wet,
    /// It was in a crash.
    Crashed,
}

impl PackState {
    /// What retires a pack, in the order that it is offered.
    pub const DAMAGES: [PackState; 4] = [PackState::Swollen, PackState::Dented, PackState::Wet, PackState::Crashed];

    /// The word for a person.
    pub fn word(self, locale: Locale) -> String {
        match self {
            PackState::Storage => say!(locale, "pack-state-storage"),
            PackState::Swollen => say!(locale, "pack-state-swollen"),
            PackState::Dented => say!(locale, "pack-state-dented"),
            PackState::Wet => say!(locale, "pack-state-wet"),
            PackState::Crashed => say!(locale, "pack-state-crashed"),
        }
    }
}

/// What can be odd about what was jotted after a landing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Odd {
    /// More charge than the pack holds.
    ChargeOverPack,
    /// Less charge left than the reserve.
    ChargeUnderReserve,
    /// As good as no charge, with the motor on for a while.
    NoCharge,
    /// A part colder than the air.
    BelowAir,
    /// No part warmer than the air, with the motor on for a while.
    NoWarmerThanAir,
}

/// What a flight was expected to take from its pack.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Prediction {
    /// Most likely charge in milliampere hours.
    pub used_mah: f64,
    /// Lower end of the interval.
    pub low_mah: f64,
    /// Upper end of the interval.
    pub high_mah: f64,
    /// What it was computed from, in words.
    pub from: String,
}

/// How bad a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FindingGrade {
    /// Worth knowing; holds nothing shut.
    Note,
    /// Holds its gate shut until proven, or carried with a restriction.
    Caution,
    /// Holds its gate shut until proven. Cannot be carried.
    Stop,
}

impl FindingGrade {
    /// All, from light to heavy.
    pub const ALL: [FindingGrade; 3] = [FindingGrade::Note, FindingGrade::Caution, FindingGrade::Stop];

    /// As it stands in a form, whatever the language.
    pub fn id(self) -> &'static str {
        match self {
            FindingGrade::Note => "note",
            FindingGrade::Caution => "caution",
            FindingGrade::Stop => "stop",
        }
    }

    /// The word for a person.
    pub fn word(self, locale: Locale) -> String {
        match self {
            FindingGrade::Note => say!(locale, "grade-note"),
            FindingGrade::Caution => say!(locale, "grade-caution"),
            FindingGrade::Stop => say!(locale, "grade-stop"),
        }
    }
}

/// How long a finding may be carried.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Until {
    /// For this many more motor runs.
    Flights(u32),
    /// Through this day.
    Date(NaiveDate),
}

/// What was read from a recorder's file, under which columns, and what it said.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct AttachedLog {
    /// The file's name, as the phone called it.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// Its SHA-256 digest in hexadecimal.
    pub sha256: String,
    /// What the person said its columns are.
    pub map: ColumnMap,
    /// What became of its rows.
    pub rows: RowCounts,
    /// How much was wrong in it.
    pub fault_count: u64,
    /// The first of that, each with its row and column.
    pub faults: Vec<String>,
    /// Its figures, held against the limits in force then.
    pub figures: Vec<LogFigure>,
}

/// What a photo is of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PhotoOf {
    /// The aircraft as a whole.
    Aircraft,
    /// What a check looks at.
    Check(String),
    /// What a finding is about.
    Finding(EntryId),
}

/// A photo that is kept as it came.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AttachedPhoto {
    /// The file's name, as the phone called it.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// Its SHA-256 digest in hexadecimal.
    pub sha256: String,
    /// Pixels from left to right, as it is looked at.
    pub width_px: u32,
    /// Pixels from top to bottom, as it is looked at.
    pub height_px: u32,
    /// When it was taken by the camera's own clock, which nobody vouches for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<NaiveDateTime>,
}

/// A reading of a flight that lies outside of its prediction. A finding that was proposed from it is known by this, in any language.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Outlier {
    /// What was read: `charge`, `power`, `current`, `head-speed`, or a place of the plan as `place:controller`.
    pub reading: String,
    /// Whether it lies above its prediction, and not below.
    pub above: bool,
}

impl Outlier {
    const PLACE: &'static str = "place:";

    /// A temperature of this place of the plan that lies too high.
    pub fn hot_place(place: &str) -> Outlier {
        Outlier { reading: format!("{}{place}", Outlier::PLACE), above: true }
    }

    /// The place of the plan, where it is a temperature.
    pub fn place(&self) -> Option<&str> {
        self.reading.strip_prefix(Outlier::PLACE)
    }
}

/// What the pilot says of a run, held against how its check is judged.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(tag = "is", rename_all = "kebab-case")]
pub enum Judgement {
    /// The landing was recorded before a judgement was asked for.
    #[default]
    NotAsked,
    /// Nothing yet: the readings are safe, and the pilot is asked.
    Open,
    /// As it should be.
    AsItShouldBe,
    /// Not so.
    NotSo {
        /// What was not.
        why: String,
    },
    /// Called off: no evidence of anything.
    CalledOff {
        /// Why.
        why: String,
    },
}

impl Judgement {
    fn was_not_asked(&self) -> bool {
        *self == Judgement::NotAsked
    }
}

/// What an entry says. Ids inside are the plan's ids or the names of other entries.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Body {
    /// The aircraft got, or changed, its name.
    AircraftNamed {
        /// Its name.
        name: String,
        /// Whose it is.
        builder: String,
        /// Who flies it; the builder where nobody else was named.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pilot: Option<String>,
    },
    /// Whom to call when somebody is hurt or something burns, and where the site is.
    EmergencyNoted {
        /// The number to call, or several, as a person reads them.
        call: String,
        /// The address, and how help finds the way in.
        address: String,
    },
    /// A plan came into force. Its whole text is kept, so that a journal explains itself.
    PlanAdopted {
        /// The plan's id.
        plan: String,
        /// The plan's edition.
        edition: String,
        /// The plan file as it was.
        text: String,
    },
    /// Another aircraft was begun beside those that are there. The entry's id names it. Its plan comes into force with it.
    AircraftBegun {
        /// The plan's id.
        plan: String,
        /// The plan's edition.
        edition: String,
        /// The plan file as it was.
        text: String,
    },
    /// One of the plan's questions about the aircraft was answered.
    TraitChosen {
        /// Which question.
        question: String,
        /// Which answer.
        choice: String,
    },
    /// A figure of the aircraft was entered.
    FigureSet {
        /// Which figure of the plan.
        figure: String,
        /// Value in the plan's unit.
        value: f64,
        /// Where it comes from.
        basis: Basis,
        /// Why it was changed, for a figure that is changed on purpose.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reason: Option<String>,
    },
    /// Something fitted, weighed or owned was described, or described anew.
    ThingSet {
        /// It.
        thing: Thing,
        /// What that says of the aircraft itself.
        #[serde(default, skip_serializing_if = "OnAircraft::is_not_said")]
        on_aircraft: OnAircraft,
    },
    /// Something described before is no longer there.
    ThingRemoved {
        /// Which.
        thing: ThingRef,
        /// What took its place, where a finding of stop grade was about it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        instead: Option<String>,
        /// The second person who saw that, where the check that proves the fix wants one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        witness: Option<String>,
        /// What that says of the aircraft itself.
        #[serde(default, skip_serializing_if = "OnAircraft::is_not_said")]
        on_aircraft: OnAircraft,
    },
    /// All things of a kind that the aircraft has are described: the pilot says so.
    ListDeclared {
        /// Of which kind.
        list: ThingKind,
        /// How many they are.
        count: u32,
        /// Those that carry no current, which was asked about and is so.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        idle: Vec<String>,
    },
    /// Something about the aircraft changed that evidence may rest on.
    Changed {
        /// What evidence may rest on: `part:…`, `wiring`, `mass` and so on.
        subjects: Vec<String>,
        /// What was done.
        what: String,
    },
    /// Something happened to the aircraft that ends evidence.
    Happened {
        /// Which event of the plan.
        event: String,
        /// What is remarkable about it.
        note: Option<String>,
    },
    /// A setting was changed.
    SettingChanged {
        /// Which setting of the plan.
        setting: String,
        /// What it was, if known.
        before: Option<String>,
        /// What it is now.
        after: String,
        /// Why.
        reason: String,
    },
    /// A check was done.
    CheckRecorded {
        /// Which check of the plan.
        check: String,
        /// What it gave.
        result: CheckResult,
        /// The second person who saw it.
        witness: Option<String>,
        /// A remark.
        note: Option<String>,
        /// At a witness point, why nobody came to see it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        alone: Option<String>,
    },
    /// A flight card was drawn up. The entry's id names the card.
    CardDrawn {
        /// Which fly check it answers.
        check: String,
        /// Which pack; the first, where several make a set in series.
        pack: String,
        /// The others of the set. None on a card that was drawn up before a set was known.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        further_packs: Vec<String>,
        /// Why it is flown on what is not known to be full, in the pilot's words.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        not_full: Option<String>,
        /// Head speed, rpm.
        head_speed_rpm: f64,
        /// Planned time with the motor on, seconds.
        planned_s: i64,
        /// Air temperature, degrees Celsius.
        air_c: f64,
        /// Wind, where the pilot said what it was. Nobody was asked on a card that was drawn up before it was.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wind: Option<Wind>,
        /// What it should take from the pack.
        prediction: Option<Prediction>,
        /// How long the whole pack flies until its reserve, seconds, where that is known and is less than the check's own minutes.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        allowed_s: Option<i64>,
    },
    /// The phone went to the spotter.
    HandedOver {
        /// For which card.
        card: EntryId,
        /// To whom.
        spotter: String,
    },
    /// The motor was started.
    Started {
        /// On which card.
        card: EntryId,
    },
    /// Something was seen or heard.
    Marked {
        /// On which card.
        card: EntryId,
        /// What.
        mark: MarkKind,
        /// Milliseconds since the start.
        elapsed_ms: i64,
    },
    /// The aircraft is down and the motor is off.
    TouchedDown {
        /// On which card.
        card: EntryId,
        /// Milliseconds since the start.
        elapsed_ms: i64,
    },
    /// The phone was started anew between the motor's start and the touchdown: what that touchdown counts is the least that it can be.
    RestartedInFlight {
        /// On which card.
        card: EntryId,
    },
    /// The pilot says how long the motor was on, where the phone cannot know or counted what was not flown. What it counted stays in its
    /// touchdown.
    FlownTold {
        /// On which card.
        card: EntryId,
        /// Seconds with the motor on.
        flown_s: i64,
        /// Where the phone was not there at all: the whole run is told.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        without_phone: Option<WithoutPhone>,
    },
    /// The touchdown was a mistake: the clock goes on as if it had not been.
    Resumed {
        /// On which card.
        card: EntryId,
    },
    /// The phone is back with the pilot.
    HandedBack {
        /// From which card.
        card: EntryId,
    },
    /// A mark was a slip of the finger: it was not seen or heard after all.
    Unmarked {
        /// On which card.
        card: EntryId,
        /// The entry that noted it.
        mark: EntryId,
    },
    /// Whoever has the phone tried a code that is not the pilot's.
    CodeRefused {
        /// During which card's turn.
        card: EntryId,
    },
    /// Whoever has the phone has no code for it, and waits until it opens without.
    WaitBegun {
        /// During which card's turn.
        card: EntryId,
    },
    /// The wait was over and the phone was opened without the pilot's code.
    OpenedWithoutCode {
        /// During which card's turn.
        card: EntryId,
    },
    /// The pilot chose a code, which the phone wants before it comes back from the spotter.
    CodeSet {
        /// Its Argon2id hash as a PHC string: salt and costs are in it, the code is not.
        hash: String,
    },
    /// The pilot's code is no longer wanted.
    CodeRemoved {},
    /// The pilot says of a mark that there is nothing to it. What there is something to becomes a finding.
    MarkAnswered {
        /// On which card.
        card: EntryId,
        /// The entry that noted it.
        mark: EntryId,
        /// What it was.
        words: String,
    },
    /// What was jotted after landing.
    LandingRecorded {
        /// For which card.
        card: EntryId,
        /// Charge put back or counted, milliampere hours.
        pack_used_mah: Option<f64>,
        /// Temperatures by place.
        temperatures: Vec<Reading>,
        /// Anything else.
        notes: Option<String>,
        /// What was odd about it, was asked about, and is so.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        confirmed: Vec<Odd>,
        /// How the run was, held against how its check is judged.
        #[serde(default, skip_serializing_if = "Judgement::was_not_asked")]
        judgement: Judgement,
        /// Why a reading past its stop was left out, which stood in the landing that this one takes the place of.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        slip: Option<String>,
    },
    /// Nothing will be jotted down of a landing, and why. The run is evidence of nothing, and the next card is free.
    LandingWaived {
        /// Of which card.
        card: EntryId,
        /// Why.
        reason: String,
    },
    /// A flight pack was charged.
    PackCharged {
        /// Which.
        pack: String,
        /// What the charger put back, milliampere hours, if it was read.
        put_back_mah: Option<f64>,
    },
    /// What was seen of a flight pack where it stands, or what was done with it besides charging.
    PackNoted {
        /// Which.
        pack: String,
        /// What.
        state: PackState,
    },
    /// The cells of a flight pack were read at rest.
    CellsRead {
        /// Of which pack.
        pack: String,
        /// The lowest, volts.
        low_v: f64,
        /// The highest, volts.
        high_v: f64,
    },
    /// A flight that disagreed with its prediction was explained.
    DisagreementExplained {
        /// Which card.
        card: EntryId,
        /// The explanation.
        why: String,
        /// The charge that it explains, milliampere hours: no other reading of that flight. Whatever was read, where it was recorded
        /// before this was kept.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        used_mah: Option<f64>,
    },
    /// Something is wrong. The entry's id names the finding.
    FindingRaised {
        /// What, in a few words.
        title: String,
        /// How bad.
        grade: FindingGrade,
        /// The stage whose gate it holds shut.
        stage: String,
        /// The check whose repetition will prove the fix.
        proof: String,
        /// The entry that showed it.
        shown_by: Option<EntryId>,
        /// What it was proposed from; none where a person came upon it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        proposed_from: Option<Outlier>,
    },
    /// A finding was fixed, and awaits its proof.
    FindingFixed {
        /// Which.
        finding: EntryId,
        /// What was done.
        what: String,
        /// What evidence may rest on and was touched by the fix.
        subjects: Vec<String>,
    },
    /// A finding is flown with, under a restriction.
    FindingCarried {
        /// Which.
        finding: EntryId,
        /// Shown on every card until then.
        restriction: String,
        /// Why it may be carried.
        reason: String,
        /// Who answers for it.
        by: String,
        /// How long.
        until: Until,
    },
    /// The pilot released a gate.
    GateReleased {
        /// Which stage's.
        stage: String,
        /// Who.
        by: String,
        /// The evidence that it stood on: check and the entry that was its evidence.
        evidence: Vec<(String, EntryId)>,
    },
    /// A recorder's log was attached to a flight. The file itself is kept beside the entries, under its digest.
    LogAttached {
        /// Which card's.
        card: EntryId,
        /// It.
        log: Box<AttachedLog>,
    },
    /// A photo was attached. The file itself is kept beside the entries, under its digest.
    PhotoAttached {
        /// What it is of.
        of: PhotoOf,
        /// It.
        photo: AttachedPhoto,
    },
    /// Nothing legible was left of the entry that stood here. Its digest is the one that the entry behind it names.
    Illegible {},
    /// The file was damaged, and the record goes on with what could still be read of it.
    Repaired {
        /// The places of the entries that could not be read.
        gaps: Vec<Gap>,
        /// Whether nobody knows if there were entries behind the last one that could be read.
        may_lack_last: bool,
        /// The digests of logs that could not be read any more.
        lost_logs: Vec<String>,
    },
    /// An earlier entry was a slip. It stays readable and counts no more.
    Withdrawn {
        /// Which.
        entry: EntryId,
        /// Why.
        reason: String,
    },
}

/// A stretch of the record, from its first place to its last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Gap {
    /// The first place.
    pub first: i64,
    /// The last place.
    pub last: i64,
}

impl Gap {
    /// How many entries that are.
    pub fn count(self) -> i64 {
        self.last - self.first + 1
    }
}

impl Body {
    /// The version of the stored form of every kind of entry. Raise it for a kind when its form changes and teach
    /// [`StoredBody::read`] the step from the old form.
    pub const VERSION: i64 = 1;

    /// The card of the flight that it is about. A new kind of entry does not compile until it is answered for here.
    pub fn card(&self) -> Option<EntryId> {
        match self {
            Body::HandedOver { card, .. }
            | Body::Started { card }
            | Body::Marked { card, .. }
            | Body::MarkAnswered { card, .. }
            | Body::TouchedDown { card, .. }
            | Body::RestartedInFlight { card }
            | Body::FlownTold { card, .. }
            | Body::Resumed { card }
            | Body::HandedBack { card }
            | Body::Unmarked { card, .. }
            | Body::CodeRefused { card }
            | Body::WaitBegun { card }
            | Body::OpenedWithoutCode { card }
            | Body::LandingRecorded { card, .. }
            | Body::LandingWaived { card, .. }
            | Body::DisagreementExplained { card, .. }
            | Body::LogAttached { card, .. } => Some(*card),
            Body::AircraftNamed { .. }
            | Body::AircraftBegun { .. }
            | Body::EmergencyNoted { .. }
            | Body::PlanAdopted { .. }
            | Body::TraitChosen { .. }
            | Body::FigureSet { .. }
            | Body::ThingSet { .. }
            | Body::ThingRemoved { .. }
            | Body::ListDeclared { .. }
            | Body::Changed { .. }
            | Body::Happened { .. }
            | Body::SettingChanged { .. }
            | Body::CheckRecorded { .. }
            | Body::CardDrawn { .. }
            | Body::CodeSet { .. }
            | Body::CodeRemoved {}
            | Body::PackNoted { .. }
            | Body::PackCharged { .. }
            | Body::CellsRead { .. }
            | Body::FindingRaised { .. }
            | Body::FindingFixed { .. }
            | Body::FindingCarried { .. }
            | Body::GateReleased { .. }
            | Body::PhotoAttached { .. }
            | Body::Illegible {}
            | Body::Repaired { .. }
            | Body::Withdrawn { .. } => None,
        }
    }
}

/// An entry's body as it is stored: a kind, a version and JSON.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredBody {
    /// The kind, for queries and for people who open the file.
    pub kind: String,
    /// The version of the form.
    pub version: i64,
    /// The body as JSON.
    pub json: String,
}

/// A stored body that this version cannot read.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum StoredFormError {
    /// Written by a newer Liftgate.
    Newer {
        /// The kind.
        kind: String,
        /// Its version.
        version: i64,
    },
    /// Not readable at all.
    Unreadable {
        /// The kind.
        kind: String,
        /// Why.
        reason: String,
    },
}

impl StoredBody {
    /// The stored form of a body of the aircraft that the journal began with, or of the workshop while there is no other.
    pub fn write(body: &Body) -> Result<StoredBody, StoredFormError> {
        StoredBody::write_of(AircraftId::FIRST, body)
    }

    /// The stored form of a body of an aircraft. The first one's says nothing of it: so it was written before there could be others.
    pub fn write_of(aircraft: AircraftId, body: &Body) -> Result<StoredBody, StoredFormError> {
        let unreadable = |reason: String| StoredFormError::Unreadable { kind: "entry".into(), reason };
        let mut value = serde_json::to_value(body).map_err(|e| unreadable(e.to_string()))?;
        let kind = value["kind"].as_str().ok_or_else(|| unreadable("it has no kind".into()))?.to_owned();
        if !aircraft.is_first() {
            value[StoredBody::AIRCRAFT] = serde_json::to_value(aircraft).map_err(|e| unreadable(e.to_string()))?;
        }
        Ok(StoredBody { kind, version: Body::VERSION, json: value.to_string() })
    }

    /// The key beside a body's own under which its aircraft stands. No kind of entry has a part of this name.
    const AIRCRAFT: &'static str = "aircraft";

    /// The aircraft that it is of.
    pub fn aircraft(&self) -> Result<AircraftId, StoredFormError> {
        #[derive(Deserialize)]
        struct Of {
            #[serde(default)]
            aircraft: AircraftId,
        }
        // Nearly every entry of nearly every journal is of the first aircraft: those are not read twice.
        if !self.json.contains("\"aircraft\"") {
            return Ok(AircraftId::FIRST);
        }
        let of: Of = serde_json::from_str(&self.json)
            .map_err(|e| StoredFormError::Unreadable { kind: self.kind.clone(), reason: e.to_string() })?;
        Ok(of.aircraft)
    }

    /// Reads it back.
    pub fn read(&self) -> Result<Body, StoredFormError> {
        if self.version > Body::VERSION {
            return Err(StoredFormError::Newer { kind: self.kind.clone(), version: self.version });
        }
        serde_json::from_str(&self.json).map_err(|error| {
            let mut reason = error.to_string();
            // The list of all kinds that serde answers with helps nobody.
            if reason.starts_with(&format!("unknown variant `{}`", self.kind)) {
                reason = "this Liftgate knows no such entry; one that does wrote it: update the app".to_owned();
            }
            StoredFormError::Unreadable { kind: self.kind.clone(), reason }
        })
    }
}
