use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::form::{HowLong, Said};
use crate::locale::{Language, Locale, Measures, TemperatureScale, say};
use crate::record::{AircraftId, Basis, EntryId, OnAircraft, PackState, PhotoOf, ThingKind};
use crate::tables::{Form, Table};
use crate::telemetry::SightStep;

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
    /// The days of a month that have entries: `2026-03`.
    JournalMonth(String),
    /// The entries of one day.
    JournalDay(NaiveDate),
    /// One entry of the journal.
    Entry(EntryId),
    /// What happened to the aircraft, and what can be said to have happened.
    Events,
    /// The cautions that a stage's gate would stand on, before its release.
    Cautions(String),
    /// Lapsed gates whose evidence is fresh again, to be released one after another.
    ReleaseAgain,
    /// The ledger of settings.
    #[serde(rename = "ledger")]
    SettingsLedger,
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
        /// Its place in the file, counted from 0.
        column: u32,
    },
    /// A photo, by the entry that attached it.
    Photo(EntryId),
    /// Fire or accident: what to do, whom to call, where.
    Emergency,
    /// What leaves the phone for another person.
    Dossier,
    /// The backup: how old the last one is, and the ways to make one and to bring one in.
    Backup,
    /// A backup that was picked and is not in place.
    BackupOffer,
    /// A journal that another one took the place of.
    SetAside(u32),
    /// How figures went over the aircraft's life.
    Trends,
    /// The last hover's heat on a day and a flight that the pilot names.
    HotterDay,
    /// The language and the units of this phone.
    Preference,
    /// Why the app asks what it asks.
    WhyAsked,
    /// The aircraft of this journal, a line each.
    Hangar,
    /// Another aircraft, about to be begun.
    NewAircraft,
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

/// What a touch means: to go somewhere, to change what is on the screen, to record something, or to put a whole journal in place,
/// aside or away.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Command {
    /// Shows another place.
    Go(Go),
    /// Changes what is typed, chosen or in view here. Nothing is recorded, but for the landing whose last temperature it was.
    Edit(Edit),
    /// Records something.
    Record(Record),
    /// Does something with a journal as a whole: the one that is here, one that was brought in, or one that was set aside.
    Journals(Journals),
}

/// Shows another place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Go {
    /// That one.
    To(Place),
    /// The page of a new thing like one that is there.
    Like {
        /// Its kind.
        kind: ThingKind,
        /// The name of the one that is there.
        name: String,
    },
    /// The one that the pilot came from.
    Back,
    /// Gives up what is being read or taken in, and shows what there is without it.
    StopWork,
    /// The board of another aircraft of this journal.
    Aircraft(AircraftId),
    /// The page of the newer edition of the plan in force that came with the app.
    NewerEdition,
    /// Reads the log in view after all.
    ReadLogAgain,
    /// Goes a step on with what the page in view takes its time for: a search, a backup that is unpacked.
    StepOn,
}

/// Changes what is typed, chosen or in view.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Edit {
    /// Sets a draft's field.
    Set {
        /// Which field.
        field: String,
        /// What stands in it then.
        text: String,
    },
    /// Moves a draft's number by steps, from a start where there is none yet.
    Step {
        /// Which field.
        field: String,
        /// By how much, in the unit that the person reads.
        by: f64,
        /// From where, if the field is empty.
        start: f64,
    },
    /// Puts a temperature into the landing's draft, and records the landing where it is the last that is asked for.
    Read {
        /// Which card.
        card: EntryId,
        /// Which place of the plan.
        place: String,
        /// Whole degrees of the scale that the person reads.
        degrees: i32,
    },
    /// Moves what is in view of a plot, or its cursor.
    MovePlot(SightStep),
    /// Brings a channel of a plot to the top.
    ShowChannel(u32),
    /// Chooses how this phone speaks.
    Prefer(Preference),
}

/// Does something with a journal as a whole.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Journals {
    /// Goes on with what was brought in; what is here is set aside.
    LayIn,
    /// Goes on with what can be read of a damaged journal.
    Repair,
    /// Compares a journal that was set aside with this one.
    Compare(u32),
    /// Lets go, for good, of a journal that was set aside.
    LetGo(u32),
}

impl Edit {
    /// Sets a draft's field.
    pub fn set(field: impl Into<String>, text: impl Into<String>) -> Edit {
        Edit::Set { field: field.into(), text: text.into() }
    }
}

/// Records something.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Record {
    /// A check's result from its draft.
    Check {
        /// Which check.
        check: String,
        /// For confirm checks: whether it was right.
        passed: bool,
    },
    /// The result of a check that is due, as it was touched on the card.
    Tick {
        /// Which check.
        check: String,
        /// The reading, for measure checks.
        value: Option<f64>,
    },
    /// Whom to call, and where, as the draft says.
    Emergency,
    /// That a pack was charged, with what the draft says was put back.
    Charged(String),
    /// That all packs of a set were charged.
    ChargedAll(Vec<String>),
    /// The cells of a pack, as the draft says.
    CellsRead(String),
    /// What was seen of a pack, or that it was brought to storage.
    PackNoted {
        /// Which pack.
        pack: String,
        /// What.
        state: PackState,
    },
    /// A gate's release.
    Release(String),
    /// The release of these lapsed gates, each by an entry of its own.
    ReleaseAgain(Vec<String>),
    /// The card as it is drawn up, and that the phone goes to the spotter.
    HandOver(String),
    /// The card as it is drawn up, with a run on it that no phone timed.
    FlownWithoutPhone(String),
    /// The landing from its draft.
    Landing {
        /// Which card.
        card: EntryId,
        /// How the run was; none where the last reading records it, which says that all was well if nothing speaks against it.
        said: Option<Said>,
    },
    /// That nothing will be jotted down of a landing, and the draft's reason.
    WaiveLanding(EntryId),
    /// Says how long the motor was on.
    TellFlown {
        /// Which card.
        card: EntryId,
        /// As typed, or as it was counted.
        how_long: HowLong,
    },
    /// The landing without one of its readings, which was a slip.
    DropReading {
        /// Which card.
        card: EntryId,
        /// Which of its readings, from 0.
        index: u32,
    },
    /// That there is nothing to a mark: one of the usual answers.
    AnswerMark {
        /// Which card.
        card: EntryId,
        /// The entry that noted it.
        mark: EntryId,
        /// What it was; none for what the draft says.
        usual: Option<UsualAnswer>,
    },
    /// That a mark is of a finding that this flight showed already.
    MarkIsFinding {
        /// Which card.
        card: EntryId,
        /// The entry that noted it.
        mark: EntryId,
        /// Which finding.
        finding: EntryId,
    },
    /// The finding that a mark becomes.
    RaiseMark {
        /// Which card.
        card: EntryId,
        /// The entry that noted it.
        mark: EntryId,
    },
    /// The finding, of stop grade, that a temperature past its stop becomes.
    RaiseStop {
        /// Which card.
        card: EntryId,
        /// Which place of the plan.
        place: String,
    },
    /// The finding that a run becomes which was not as it should be.
    RaiseNotSo(EntryId),
    /// Why a flight was not as predicted.
    Explain(EntryId),
    /// The finding that a flight becomes which drew far more or far less than was predicted.
    RaiseCharge(EntryId),
    /// The finding in the draft.
    RaiseFinding,
    /// The finding that a flight's disagreement with its prediction proposes.
    RaiseProposed(EntryId),
    /// A finding's fix from its draft.
    FixFinding(EntryId),
    /// That a finding is carried under the draft's restriction.
    CarryFinding(EntryId),
    /// The names in the draft.
    Name,
    /// Another aircraft, under the names in the draft.
    BeginAircraft,
    /// The answer to one of the plan's questions.
    Answer {
        /// Which question.
        question: String,
        /// Which of its choices.
        choice: String,
    },
    /// The figure in the draft.
    Figure {
        /// Which.
        id: String,
        /// Where its value comes from; none for what the form says.
        basis: Option<Basis>,
    },
    /// The thing in the draft.
    Thing {
        /// Its kind.
        kind: ThingKind,
        /// Its name; none for a new one.
        name: Option<String>,
        /// What that says of the aircraft.
        on_aircraft: OnAircraft,
    },
    /// That a thing is gone.
    RemoveThing {
        /// Its kind.
        kind: ThingKind,
        /// Its name.
        name: String,
        /// What that says of the aircraft.
        on_aircraft: OnAircraft,
    },
    /// That all things of a kind are described.
    DeclareList(ThingKind),
    /// The setting in the draft.
    Setting(String),
    /// The change in the draft.
    Change,
    /// That no code is wanted any more.
    RemoveCode,
    /// Anew, what was taken back a moment ago: the taking back was the slip.
    PutBack(EntryId),
    /// An entry's withdrawal.
    Withdraw(EntryId),
    /// The withdrawal of the releases that were made with one touch, this one the last of them.
    WithdrawReleases(EntryId),
    /// That something of the plan's events happened.
    Event(String),
    /// That the plan that was picked comes into force.
    AdoptPlan,
    /// The log that was picked, once it is read under the columns as they are named.
    AttachLog(EntryId),
    /// The log that is being read, on by a step: it is recorded with the last one.
    ImportOn,
}

/// What a mark usually was where there was nothing to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum UsualAnswer {
    /// Wind.
    Gust,
    /// What the pilot did on purpose.
    PilotsInput,
    /// Looked at on the ground, and all was right.
    LookedAt,
}

impl UsualAnswer {
    /// All, in the order that they are offered.
    pub const ALL: [UsualAnswer; 3] = [UsualAnswer::Gust, UsualAnswer::PilotsInput, UsualAnswer::LookedAt];

    /// The words that are recorded.
    pub fn words(self, locale: Locale) -> String {
        match self {
            UsualAnswer::Gust => say!(locale, "answer-gust"),
            UsualAnswer::PilotsInput => say!(locale, "answer-pilots-input"),
            UsualAnswer::LookedAt => say!(locale, "answer-looked-at"),
        }
    }
}

/// A document that a control takes in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wanted {
    /// A plan.
    Plan,
    /// A recorder's log of this card's flight.
    Log(EntryId),
    /// A backup.
    Backup,
    /// A photo of this.
    Photo(PhotoOf),
}

/// A document that a control gives.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Offered {
    /// The plan in force.
    Plan,
    /// The page that shows another person what was proved.
    Dossier,
    /// The card of a check that is flown, as a page to print.
    Card(String),
    /// The photo that this entry attached, as it came.
    Photo(EntryId),
    /// The whole record.
    Backup,
    /// A journal that was set aside, as it is.
    SetAside(u32),
    /// The log that was beside it.
    SetAsideLog(u32),
    /// A table for a spreadsheet or a program.
    Table {
        /// Which.
        table: Table,
        /// How it is written.
        form: Form,
    },
}

/// What a token stands for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Meaning {
    Do(Command),
    Take(Wanted),
    Give(Offered),
    Fingers,
}

/// What a touch means, as a shell carries it without looking inside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Token(String);

impl Token {
    fn of(meaning: &Meaning) -> Token {
        // Plain data: JSON can always hold it. An empty token is refused when it comes back.
        Token(serde_json::to_string(meaning).unwrap_or_default())
    }

    /// The token of a plot, which takes what fingers do on it.
    pub(crate) fn fingers() -> Token {
        Token::of(&Meaning::Fingers)
    }

    /// A token as a shell gave it back.
    pub fn from_shell(text: String) -> Token {
        Token(text)
    }

    /// The text that a shell carries.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    fn meaning(&self) -> Option<Meaning> {
        serde_json::from_str(&self.0).ok()
    }

    /// The command, where it is one.
    pub(crate) fn command(&self) -> Option<Command> {
        match self.meaning()? {
            Meaning::Do(command) => Some(command),
            Meaning::Take(_) | Meaning::Give(_) | Meaning::Fingers => None,
        }
    }

    /// Which document it takes in, where it takes one.
    pub(crate) fn wanted(&self) -> Option<Wanted> {
        match self.meaning()? {
            Meaning::Take(wanted) => Some(wanted),
            Meaning::Do(_) | Meaning::Give(_) | Meaning::Fingers => None,
        }
    }

    /// Which document it gives, where it gives one.
    pub(crate) fn offered(&self) -> Option<Offered> {
        match self.meaning()? {
            Meaning::Give(offered) => Some(offered),
            Meaning::Do(_) | Meaning::Take(_) | Meaning::Fingers => None,
        }
    }

    /// Whether it is a plot's.
    pub(crate) fn is_fingers(&self) -> bool {
        self.meaning() == Some(Meaning::Fingers)
    }
}

impl From<Command> for Token {
    fn from(command: Command) -> Token {
        Token::of(&Meaning::Do(command))
    }
}

impl From<Go> for Token {
    fn from(go: Go) -> Token {
        Command::Go(go).into()
    }
}

impl From<Place> for Token {
    fn from(place: Place) -> Token {
        Go::To(place).into()
    }
}

impl From<Edit> for Token {
    fn from(edit: Edit) -> Token {
        Command::Edit(edit).into()
    }
}

impl From<Record> for Token {
    fn from(record: Record) -> Token {
        Command::Record(record).into()
    }
}

impl From<Journals> for Token {
    fn from(journals: Journals) -> Token {
        Command::Journals(journals).into()
    }
}

impl From<Wanted> for Token {
    fn from(wanted: Wanted) -> Token {
        Token::of(&Meaning::Take(wanted))
    }
}

impl From<Offered> for Token {
    fn from(offered: Offered) -> Token {
        Token::of(&Meaning::Give(offered))
    }
}
