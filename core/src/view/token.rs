use serde::{Deserialize, Serialize};

use crate::locale::{Language, Measures, TemperatureScale};
use crate::record::{EntryId, ThingKind};

/// Where in the app the pilot is. Kept in the database, so that a killed phone reopens here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Place {
    /// What stands between the aircraft and its next flight.
    Board,
    /// One stage with its checks and its gate.
    Stage(String),
    /// One check.
    Check(String),
    /// The flight packs: charged, flown, and which rests.
    Packs,
    /// The flight card of one fly check, before it is drawn up.
    Card(String),
    /// What is jotted after landing.
    Landing(EntryId),
    /// All findings.
    Findings,
    /// One finding.
    Finding(EntryId),
    /// A finding about to be raised.
    NewFinding {
        /// The entry that showed it.
        shown_by: Option<EntryId>,
        /// The check whose repetition will prove the fix.
        proof: String,
    },
    /// The aircraft's figures, things and settings.
    Aircraft,
    /// The aircraft's and its builder's name.
    Name,
    /// The pilot's code, which the phone wants before it comes back from a spotter.
    Code,
    /// One question of the plan about the aircraft.
    Question(String),
    /// One figure.
    Figure(String),
    /// One thing, or a new one where there is no name.
    Thing {
        /// Its kind.
        kind: ThingKind,
        /// Its name.
        name: Option<String>,
    },
    /// One setting.
    Setting(String),
    /// A change to a part, the wiring or the mass, about to be recorded.
    Change,
    /// The journal, newest first.
    Journal,
    /// One entry of the journal.
    Entry(EntryId),
    /// What happened to the aircraft, and what can be said to have happened.
    Events,
    /// Lapsed gates whose evidence is fresh again, to be released one after another.
    ReleaseAgain,
    /// The ledger of settings.
    Ledger,
    /// The plan in force.
    Plan,
    /// A plan file that was picked and is not in force yet.
    PlanOffer,
    /// The log of a flight.
    Review(EntryId),
    /// One figure of a flight's log, with the stretch of the plot that it comes from.
    LogFigure {
        /// The flight's card.
        card: EntryId,
        /// Its place among the log's figures.
        figure: u32,
    },
    /// A log that was picked for a flight, while its columns are named.
    LogOffer(EntryId),
    /// One column of it.
    LogColumn {
        /// The flight's card.
        card: EntryId,
        /// Its place in the file, counted from nought.
        column: u32,
    },
    /// How figures went over the aircraft's life.
    Trends,
    /// The last hover's heat on a day and a flight that the pilot names.
    HotterDay,
    /// The language and the units of this phone.
    Preference,
}

impl Place {
    /// The text under which a journal remembers this place.
    pub fn key(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// The place that a journal remembers by this text; none where no such place is known.
    pub fn of_key(key: &str) -> Option<Place> {
        serde_json::from_str(key).ok()
    }

    /// The key under which this place keeps its drafts. A column's page is part of the page that lists the columns.
    pub fn draft_key(&self) -> String {
        match self {
            Place::LogColumn { card, .. } => Place::LogOffer(*card).key(),
            _ => self.key(),
        }
    }
}

/// How a person reads and types on this phone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Preference {
    /// The language of the words.
    Language(Language),
    /// The scale of temperatures.
    Temperature(TemperatureScale),
    /// The measures of lengths and masses.
    Measures(Measures),
}

/// What a touch means.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Command {
    /// Goes to a place.
    Go(Place),
    /// Chooses how this phone speaks; nothing is recorded.
    Prefer(Preference),
    /// Goes back to where the pilot came from.
    Back,
    /// Sets a draft's field.
    Set(String, String),
    /// Moves a draft's number by steps, from a start where there is none yet.
    Step {
        /// Which field.
        field: String,
        /// By how much, in the unit that the person reads.
        by: f64,
        /// From where, if the field is empty.
        start: f64,
    },
    /// Records a check's result from its draft.
    Record {
        /// Which check.
        check: String,
        /// For confirm checks: whether it was right.
        passed: bool,
    },
    /// Records the result of a check that is due, as it was touched on the card.
    Tick {
        /// Which check.
        check: String,
        /// The reading, for measure checks.
        value: Option<f64>,
    },
    /// Records that a pack was charged, with what the draft says was put back.
    Charged(String),
    /// Releases a stage's gate.
    Release(String),
    /// Draws up the card and hands the phone over.
    HandOver(String),
    /// Puts a temperature into the landing's draft, and records the landing where it is the last that is asked for.
    Read {
        /// Which card.
        card: EntryId,
        /// Which place of the plan.
        place: String,
        /// Whole degrees of the scale that the person reads.
        degrees: i32,
    },
    /// Records the landing without one of its readings, which was a slip.
    DropReading {
        /// Which card.
        card: EntryId,
        /// Which of its readings, from 0.
        index: u32,
    },
    /// Records the landing from its draft.
    SaveLanding(EntryId),
    /// Explains a flight that disagreed with its prediction.
    Explain(EntryId),
    /// Raises the finding in the draft.
    RaiseFinding,
    /// Raises the finding that a flight's disagreement with its prediction proposes.
    RaiseProposed(EntryId),
    /// Records a finding's fix from its draft.
    FixFinding(EntryId),
    /// Carries a finding under the draft's restriction.
    CarryFinding(EntryId),
    /// Records the names in the draft.
    SaveName,
    /// Answers one of the plan's questions.
    Answer(String, String),
    /// Records the figure in the draft.
    SaveFigure(String),
    /// Records the thing in the draft.
    SaveThing,
    /// Records that a thing is gone.
    RemoveThing {
        /// Its kind.
        kind: ThingKind,
        /// Its name.
        name: String,
    },
    /// Records the setting in the draft.
    SaveSetting(String),
    /// Records the change in the draft.
    SaveChange,
    /// No code is wanted any more.
    RemoveCode,
    /// Records anew what was taken back a moment ago: the taking back was the slip.
    PutBack(EntryId),
    /// Withdraws an entry.
    Withdraw(EntryId),
    /// Withdraws the releases that were made with one touch, this one the last of them.
    WithdrawReleases(EntryId),
    /// Records that something of the plan's events happened.
    RecordEvent(String),
    /// Releases these lapsed gates again, each by an entry of its own.
    ReleaseAgain(Vec<String>),
    /// Reads the plan file that was picked.
    PickPlan,
    /// Gives the plan in force as a file.
    SavePlan,
    /// Brings the plan that was picked into force.
    AdoptPlan,
    /// Moves what is in view of a plot, or its cursor.
    MovePlot(crate::telemetry::SightStep),
    /// Brings a channel of a plot to the top.
    ShowChannel(u32),
    /// Takes what fingers do on a plot.
    Fingers,
    /// Takes a recorder's file for a flight.
    PickLog(EntryId),
    /// Reads the file that was picked under the columns as they are named, and attaches it to the flight.
    AttachLog(EntryId),
    /// Reads a log on by a step.
    ReadOn,
    /// Gives up what is being read or taken in.
    StopReading,
    /// Reads the log in view after all.
    ReadAgain,
}

/// A command that a shell carries without looking inside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Token(String);

impl Token {
    /// Seals a command.
    pub fn of(command: &Command) -> Token {
        // A command is plain data: JSON can always hold it. An empty token is refused when it comes back.
        Token(serde_json::to_string(command).unwrap_or_default())
    }

    /// A token as a shell gave it back.
    pub fn from_shell(text: String) -> Token {
        Token(text)
    }

    /// The text that a shell carries.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Opens it.
    pub(crate) fn command(&self) -> Option<Command> {
        serde_json::from_str(&self.0).ok()
    }
}

impl From<Command> for Token {
    fn from(command: Command) -> Token {
        Token::of(&command)
    }
}

impl From<Place> for Token {
    fn from(place: Place) -> Token {
        Token::of(&Command::Go(place))
    }
}
