use std::collections::BTreeMap;
use std::fmt;

use serde::{Deserialize, Serialize};

use crate::locale::{Locale, say};
use crate::record::Outcome;
use crate::unit::Unit;

/// A plan that holds together: every reference leads somewhere and nothing waits for itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its edition, for people.
    pub edition: String,
    /// For whom it is and what it does not do.
    pub notice: String,
    /// What differs between aircraft.
    pub questions: Vec<Question>,
    /// The aircraft's numbers.
    pub figures: Vec<Figure>,
    /// Fitted parts that evidence rests on.
    pub parts: Vec<Part>,
    /// Adjustable things that evidence rests on.
    pub settings: Vec<Setting>,
    /// Where temperatures are taken, in that order.
    pub places: Vec<Place>,
    /// What can hurt.
    pub cautions: Vec<Caution>,
    /// What can happen to an aircraft that ends evidence.
    pub events: Vec<Event>,
    /// The stages in order.
    pub stages: Vec<Stage>,
}

/// A question whose answer decides which checks there are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// Its id.
    pub id: String,
    /// As it is asked.
    pub text: String,
    /// Answers: id and label.
    pub choices: Vec<(String, String)>,
}

/// One number of the aircraft.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Its id.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Its unit.
    pub unit: Unit,
    /// Lowest plausible value, inclusive.
    pub low: f64,
    /// Highest plausible value, inclusive.
    pub high: f64,
    /// Whether the first gate waits for it.
    pub required: bool,
    /// What it is good for.
    pub why: Option<String>,
    /// The aircraft that it is for.
    pub when: When,
    /// Another figure, of the same unit, that it must lie above: the next rung of a ladder.
    pub above: Option<String>,
    /// Changed on purpose from flight to flight, like a head speed: kept in the ledger of settings with its reason.
    pub adjustable: bool,
}

/// The aircraft that something is for: question to the answers that fit; empty for every aircraft.
pub type When = BTreeMap<String, Vec<String>>;

/// Something that can happen to an aircraft, recorded in a touch: a hard landing, a blade strike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    /// Its id.
    pub id: String,
    /// What happened, in a few words.
    pub title: String,
    /// When to record it, and what to do at once.
    pub text: String,
}

/// A fitted part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Its id.
    pub id: String,
    /// Its name.
    pub title: String,
    /// The aircraft that have it.
    pub when: When,
}

/// An adjustable thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// Its id.
    pub id: String,
    /// Its name.
    pub title: String,
    /// Its unit, where it has one.
    pub unit: Option<String>,
    /// The aircraft that have it.
    pub when: When,
}

/// A place where a temperature is taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Its id.
    pub id: String,
    /// Its name.
    pub title: String,
    /// Degrees Celsius above which it is a caution.
    pub caution_above_c: f64,
    /// Degrees Celsius above which it is a stop.
    pub stop_above_c: f64,
    /// Where the limits come from.
    pub basis: String,
    /// The aircraft that have it.
    pub when: When,
}

/// Something that can hurt, and what to do about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// Its id.
    pub id: String,
    /// What to do, in a few words.
    pub title: String,
    /// Why, and what else.
    pub text: String,
}

/// A group of checks that ends in a gate.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it is for.
    pub purpose: String,
    /// Which of the ten parts of the job.
    pub job: u8,
    /// Ids of the stages whose gates must be released before this one's.
    pub after: Vec<String>,
    /// Ids of cautions that stand over the whole stage.
    pub cautions: Vec<String>,
    /// What releasing its gate means. A stage without a gate holds recurring work.
    pub gate: Option<String>,
    /// The checks, most critical first.
    pub checks: Vec<Check>,
}

/// One thing to confirm, measure, compute or fly.
#[derive(Debug, Clone, PartialEq)]
pub struct Check {
    /// Its id, unique over the plan.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What to do.
    pub instruction: String,
    /// What it prevents.
    pub why: String,
    /// How it is judged.
    pub judged: String,
    /// Opens a new group within the stage.
    pub chunk: Option<String>,
    /// What is done.
    pub kind: CheckKind,
    /// How bad it is when it is not right.
    pub fail: Outcome,
    /// Whether the gate waits for it.
    pub mandatory: bool,
    /// Ids of the cautions above it.
    pub cautions: Vec<String>,
    /// Whether a second person must have seen it.
    pub witness: bool,
    /// Whether work stops here without that person.
    pub point: Point,
    /// Whether a reading of caution grade proves a fix. Otherwise only a pass does.
    pub caution_proves: bool,
    /// Ids of the events that call for it. It is for no aircraft to which none of them happened.
    pub called_by: Vec<String>,
    /// What its evidence rests on.
    pub rests_on: Vec<Subject>,
    /// How long its evidence holds.
    pub holds: Holds,
    /// The aircraft that it is for.
    pub when: When,
    /// Recurring: due before every flight from this stage on, and part of no gate.
    pub before_flights_from: Option<String>,
    /// Where the judgement comes from.
    pub basis: Option<String>,
}

/// What happens at a check that wants a second person, where nobody comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Point {
    /// Work stops until one has seen it.
    #[default]
    Hold,
    /// Work goes on with the recorded evidence and the reason why nobody came; it stays in sight as a caution.
    Witness,
}

/// What is done at a check.
#[derive(Debug, Clone, PartialEq)]
pub enum CheckKind {
    /// Look, and say whether it is right.
    Confirm,
    /// Read a number.
    Measure(Measure),
    /// Let a number be computed from what was entered.
    Compute(Computation),
    /// Run or fly.
    Fly(Fly),
}

/// A number to be read.
#[derive(Debug, Clone, PartialEq)]
pub struct Measure {
    /// Its unit.
    pub unit: Unit,
    /// Lowest plausible reading, inclusive.
    pub low: f64,
    /// Highest plausible reading, inclusive.
    pub high: f64,
    /// One step of the stepper.
    pub step: f64,
    /// Where the stepper starts the first time.
    pub start: f64,
    /// The limits.
    pub limits: Limits,
}

/// The limits of a reading. Past `stop` nothing is released; past `caution` it stays in sight.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Limits {
    /// Below this: stop.
    pub stop_below: Option<Limit>,
    /// Below this: caution.
    pub caution_below: Option<Limit>,
    /// Above this: caution.
    pub caution_above: Option<Limit>,
    /// Above this: stop.
    pub stop_above: Option<Limit>,
}

/// A limit: a number, or one of the aircraft's figures times a factor.
#[derive(Debug, Clone, PartialEq)]
pub enum Limit {
    /// In the reading's unit.
    Number(f64),
    /// From the aircraft.
    Figure {
        /// Which figure.
        figure: String,
        /// Times this.
        times: f64,
    },
}

/// What can be computed for a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Computation {
    /// Servo and accessory load against each supply's rating.
    SupplyLoad,
    /// Each consumer's voltage window against its supply.
    SupplyWindow,
    /// How long the receiver pack lasts.
    ReceiverEndurance,
    /// Each regulator's heat.
    RegulatorHeat,
    /// Drop and heat of each run of wire, and its fuse.
    WireRuns,
    /// Centre of gravity with parts to come, and the least ballast.
    CentreOfGravity,
    /// The governor's room at the end of the pack; speeds and frequencies of the drive.
    GovernorRoom,
    /// Hover power on the hottest day against what the drive can hold.
    HoverRoom,
    /// Unbalance of the set of main blades.
    BladeBalance,
    /// Orders of the drive against natural frequencies.
    FrequencyPlacement,
    /// The hovers flown against their predictions, and the aircraft that they fit.
    LadderAgreement,
    /// The last hover's temperatures on the hottest day.
    HotDayHeat,
    /// Whether a pack should be retired, and the flight time that keeps the reserve.
    PackLife,
    /// How each pack's resistance grows over its life.
    PackTrend,
    /// Charge left after the last hover against the reserve, and the timer that keeps it.
    LandingCharge,
    /// Ripple on the main pack's leads, and what it does to the pack.
    PackRipple,
    /// The weight that a run with a trial weight asks for.
    TrialWeight,
}

/// What is run or flown.
#[derive(Debug, Clone, PartialEq)]
pub struct Fly {
    /// On the ground, in the hover, or about the field.
    pub motion: Motion,
    /// Head speed, rpm.
    pub head_speed_rpm: Limit,
    /// Planned minutes with the motor on.
    pub minutes: f64,
    /// When to call it off.
    pub knock_off: Vec<String>,
    /// Ids of the places that must be read for the landing to count.
    pub temperatures: Vec<String>,
    /// Whether the charge used is held against a prediction.
    pub predict: bool,
}

/// How far from the bench a fly check goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Motion {
    /// On the ground.
    Run,
    /// In the hover.
    Hover,
    /// About the field.
    Flight,
}

/// How long evidence holds; whichever comes first. Nothing set: until something it rests on changes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Holds {
    /// To the end of the day it was recorded on.
    pub session: bool,
    /// For this many motor runs.
    pub flights: Option<u32>,
    /// For this many hours with the motor on.
    pub hours: Option<f64>,
    /// For this many days.
    pub days: Option<u32>,
    /// Until one of these happens: ids of events.
    pub events: Vec<String>,
}

/// What evidence can rest on.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Subject {
    /// A fitted part.
    Part(String),
    /// A setting.
    Setting(String),
    /// A figure of the aircraft.
    Figure(String),
    /// Another check's evidence.
    Check(String),
    /// That something has not happened since. Written in `holds` or `called_by`, not in `rests_on`.
    Event(String),
    /// What the aircraft weighs and where.
    Mass,
    /// The wiring.
    Wiring,
    /// Supplies and what draws from them.
    Supplies,
    /// The flight packs.
    Packs,
    /// The natural frequencies.
    Frequencies,
    /// The readings of a heat run on the bench.
    Heat,
    /// What was measured on the flight packs over their life.
    PackReadings,
    /// What was measured on the main pack's leads under load.
    LoadReadings,
    /// Runs with a trial weight on the rotor.
    TrialRuns,
}

impl Subject {
    /// Reads a subject as plans and entries write it.
    pub fn parse(text: &str) -> Option<Subject> {
        if let Some((kind, id)) = text.split_once(':') {
            let id = id.to_owned();
            return match kind {
                "part" => Some(Subject::Part(id)),
                "setting" => Some(Subject::Setting(id)),
                "figure" => Some(Subject::Figure(id)),
                "check" => Some(Subject::Check(id)),
                "event" => Some(Subject::Event(id)),
                _ => None,
            };
        }
        match text {
            "mass" => Some(Subject::Mass),
            "wiring" => Some(Subject::Wiring),
            "supplies" => Some(Subject::Supplies),
            "packs" => Some(Subject::Packs),
            "frequencies" => Some(Subject::Frequencies),
            "heat" => Some(Subject::Heat),
            "pack-readings" => Some(Subject::PackReadings),
            "load-readings" => Some(Subject::LoadReadings),
            "trial-runs" => Some(Subject::TrialRuns),
            _ => None,
        }
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Subject::Part(id) => write!(f, "part:{id}"),
            Subject::Setting(id) => write!(f, "setting:{id}"),
            Subject::Figure(id) => write!(f, "figure:{id}"),
            Subject::Check(id) => write!(f, "check:{id}"),
            Subject::Event(id) => write!(f, "event:{id}"),
            Subject::Mass => f.write_str("mass"),
            Subject::Wiring => f.write_str("wiring"),
            Subject::Supplies => f.write_str("supplies"),
            Subject::Packs => f.write_str("packs"),
            Subject::Frequencies => f.write_str("frequencies"),
            Subject::Heat => f.write_str("heat"),
            Subject::PackReadings => f.write_str("pack-readings"),
            Subject::LoadReadings => f.write_str("load-readings"),
            Subject::TrialRuns => f.write_str("trial-runs"),
        }
    }
}

impl Plan {
    /// A stage by its id.
    pub fn stage(&self, id: &str) -> Option<&Stage> {
        self.stages.iter().find(|stage| stage.id == id)
    }

    /// Place of a stage in the order of the plan.
    pub fn stage_index(&self, id: &str) -> Option<usize> {
        self.stages.iter().position(|stage| stage.id == id)
    }

    /// A check by its id, with its stage.
    pub fn check(&self, id: &str) -> Option<(&Stage, &Check)> {
        self.checks().find(|(_, check)| check.id == id)
    }

    /// All checks with their stages, in order.
    pub fn checks(&self) -> impl Iterator<Item = (&Stage, &Check)> {
        self.stages.iter().flat_map(|stage| stage.checks.iter().map(move |check| (stage, check)))
    }

    /// A figure by its id.
    pub fn figure(&self, id: &str) -> Option<&Figure> {
        self.figures.iter().find(|figure| figure.id == id)
    }

    /// A part by its id.
    pub fn part(&self, id: &str) -> Option<&Part> {
        self.parts.iter().find(|part| part.id == id)
    }

    /// A setting by its id.
    pub fn setting(&self, id: &str) -> Option<&Setting> {
        self.settings.iter().find(|setting| setting.id == id)
    }

    /// A place by its id.
    pub fn place(&self, id: &str) -> Option<&Place> {
        self.places.iter().find(|place| place.id == id)
    }

    /// A caution by its id.
    pub fn caution(&self, id: &str) -> Option<&Caution> {
        self.cautions.iter().find(|caution| caution.id == id)
    }

    /// An event by its id.
    pub fn event(&self, id: &str) -> Option<&Event> {
        self.events.iter().find(|event| event.id == id)
    }

    /// A question by its id.
    pub fn question(&self, id: &str) -> Option<&Question> {
        self.questions.iter().find(|question| question.id == id)
    }

    /// What a subject is called, for a person.
    pub fn subject_words(&self, locale: Locale, subject: &Subject) -> String {
        match subject {
            Subject::Part(id)
            | Subject::Setting(id)
            | Subject::Figure(id)
            | Subject::Check(id)
            | Subject::Event(id) => self.subject_title(subject).unwrap_or(id).to_owned(),
            untitled => untitled.words(locale).unwrap_or_default(),
        }
    }

    /// The title that this plan gives to what evidence rests on; none where it gives none or no longer has it.
    pub fn subject_title(&self, subject: &Subject) -> Option<&str> {
        match subject {
            Subject::Part(id) => self.part(id).map(|p| p.title.as_str()),
            Subject::Setting(id) => self.setting(id).map(|s| s.title.as_str()),
            Subject::Figure(id) => self.figure(id).map(|f| f.title.as_str()),
            Subject::Check(id) => self.check(id).map(|(_, c)| c.title.as_str()),
            Subject::Event(id) => self.event(id).map(|e| e.title.as_str()),
            _ => None,
        }
    }
}

impl Subject {
    /// What it is, where no plan gives it a title.
    pub fn words(&self, locale: Locale) -> Option<String> {
        match self {
            Subject::Mass => Some(say!(locale, "subject-mass")),
            Subject::Wiring => Some(say!(locale, "subject-wiring")),
            Subject::Supplies => Some(say!(locale, "subject-supplies")),
            Subject::Packs => Some(say!(locale, "subject-packs")),
            Subject::Frequencies => Some(say!(locale, "subject-frequencies")),
            Subject::Heat => Some(say!(locale, "subject-heat")),
            Subject::PackReadings => Some(say!(locale, "subject-pack-readings")),
            Subject::LoadReadings => Some(say!(locale, "subject-load-readings")),
            Subject::TrialRuns => Some(say!(locale, "subject-trial-runs")),
            Subject::Part(_) | Subject::Setting(_) | Subject::Figure(_) | Subject::Check(_) | Subject::Event(_) => {
                None
            }
        }
    }
}

impl Check {
    /// Whether evidence of it ends when this was touched or has happened.
    pub fn ends_with(&self, subject: &Subject) -> bool {
        match subject {
            Subject::Event(id) => self.holds.events.contains(id) || self.called_by.contains(id),
            _ => self.rests_on.contains(subject),
        }
    }

    /// What a fly check flies.
    pub fn fly(&self) -> Option<&Fly> {
        match &self.kind {
            CheckKind::Fly(fly) => Some(fly),
            _ => None,
        }
    }
}
