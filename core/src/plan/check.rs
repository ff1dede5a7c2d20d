//! A check: what is done, how it is judged, and how long that holds.

use crate::unit::Unit;
use serde::{Deserialize, Serialize};

use super::subject::Subject;
use super::when::When;
use crate::record::{Outcome, ThingKind};

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
    /// The fly check on whose run it is read: nothing that turns the motor does so without a card. None: the motor stands still.
    pub read_on: Option<String>,
    /// A rung of a ladder: the fly check one rung below it. It rests on all that that one rests on.
    pub rung_above: Option<String>,
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
    /// What else is on file of the same thing. A reading that does not agree with it is no pass.
    pub agrees_with: Vec<Agreement>,
}

/// What a reading has to agree with.
#[derive(Debug, Clone, PartialEq)]
pub struct Agreement {
    /// What is on file.
    pub with: OnFile,
    /// How far apart the two may be, percent of what is on file.
    pub within_percent: f64,
}

/// Something on file that says the same as a reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum OnFile {
    /// A figure of the aircraft, by its id.
    Figure(String),
    /// All scale readings together, kilograms.
    Scales,
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

/// A limit: a number, one of the aircraft's figures times a factor, or what a full cell of its packs has and so much more.
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
    /// From the aircraft's packs: the voltage of a full cell, of the lowest kind there is.
    FullCell {
        /// Plus this, volts; less where it is below nought.
        plus_v: f64,
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
    /// The highest head speed that the plan runs against what the blades allow.
    BladeSpeed,
    /// The steps between the head speeds of the hovers.
    HeadSpeedSteps,
    /// The highest current that is planned against what motor, pack and controller can hold.
    DriveLoad,
}

impl Computation {
    /// The kinds of things whose descriptions it works with: what is described of another kind leaves what it came to.
    pub fn reads(self) -> &'static [ThingKind] {
        match self {
            Computation::SupplyLoad | Computation::SupplyWindow | Computation::ReceiverEndurance => {
                &[ThingKind::Supply, ThingKind::Consumer]
            }
            Computation::RegulatorHeat => &[ThingKind::Regulator],
            Computation::WireRuns => &[ThingKind::Wire],
            Computation::CentreOfGravity => {
                &[ThingKind::Weighing, ThingKind::ToCome, ThingKind::BallastPlace, ThingKind::Pack]
            }
            Computation::BladeBalance => &[ThingKind::Blade],
            Computation::FrequencyPlacement => &[ThingKind::Natural],
            Computation::HotDayHeat => &[ThingKind::HeatReading],
            Computation::PackLife | Computation::PackTrend | Computation::LandingCharge => {
                &[ThingKind::Pack, ThingKind::PackReading]
            }
            Computation::LadderAgreement => &[ThingKind::Pack],
            Computation::PackRipple => &[ThingKind::LoadReading, ThingKind::Pack],
            Computation::TrialWeight => &[ThingKind::TrialRun],
            Computation::GovernorRoom
            | Computation::HoverRoom
            | Computation::BladeSpeed
            | Computation::HeadSpeedSteps
            | Computation::DriveLoad => &[],
        }
    }

    /// The lists of things of which it judges every one: it says something of the aircraft only where they are complete.
    pub fn lists(self) -> &'static [ThingKind] {
        match self {
            Computation::SupplyLoad | Computation::SupplyWindow => &[ThingKind::Supply, ThingKind::Consumer],
            Computation::ReceiverEndurance => &[ThingKind::Consumer],
            Computation::RegulatorHeat => &[ThingKind::Regulator],
            Computation::WireRuns => &[ThingKind::Wire],
            Computation::CentreOfGravity => &[ThingKind::Weighing, ThingKind::ToCome],
            Computation::GovernorRoom
            | Computation::HoverRoom
            | Computation::BladeBalance
            | Computation::FrequencyPlacement
            | Computation::LadderAgreement
            | Computation::HotDayHeat
            | Computation::PackLife
            | Computation::PackTrend
            | Computation::LandingCharge
            | Computation::PackRipple
            | Computation::TrialWeight
            | Computation::BladeSpeed
            | Computation::HeadSpeedSteps
            | Computation::DriveLoad => &[],
        }
    }
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
    /// Whether it has to land with the reserve left: less is a stop.
    pub reserve: bool,
}

/// How far from the bench a fly check goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Motion {
    /// On the bench, no blades on.
    Bench,
    /// On the ground.
    Run,
    /// In the hover.
    Hover,
    /// About the field.
    Flight,
}

impl Motion {
    /// Whether it flies: then it touches down.
    pub fn leaves_ground(self) -> bool {
        match self {
            Motion::Bench | Motion::Run => false,
            Motion::Hover | Motion::Flight => true,
        }
    }
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
