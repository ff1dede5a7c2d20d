use std::fmt;

use crate::locale::{Locale, say};
use crate::unit::Unit;

/// What a plan file names by an id, by the key that it has in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// A question about the aircraft.
    Trait,
    /// An answer to such a question.
    Choice,
    /// A figure of the aircraft.
    Figure,
    /// A part.
    Part,
    /// A setting.
    Setting,
    /// A place where a temperature is taken.
    Place,
    /// A caution.
    Caution,
    /// An event.
    Event,
    /// A stage.
    Stage,
    /// A check.
    Check,
}

/// What is wrong at one place of a plan file, and what would be right.
#[derive(Debug, Clone, PartialEq)]
pub enum PlanReason {
    /// It is of a format that this version does not read.
    OtherFormat {
        /// The one that it reads.
        known: i64,
    },
    /// A key is missing.
    MissingKey {
        /// Which.
        key: String,
    },
    /// A key that the place does not have.
    UnknownKey {
        /// As written.
        key: String,
        /// Those that it has.
        known: Vec<String>,
    },
    /// A word that the key does not take.
    UnknownWord {
        /// As written.
        word: String,
        /// Those that it takes.
        known: Vec<String>,
    },
    /// The key takes one answer or a list of them.
    WantsAnswers,
    /// The key says how long evidence holds.
    WantsHolds,
    /// The key takes a number or a share of a figure.
    WantsLimit,
    /// It is no TOML, or of another type than the key takes.
    Parser {
        /// The parser's own words, in English.
        words: String,
    },
    /// The plan has no stage.
    NoStage,
    /// A question has fewer than two answers.
    FewChoices {
        /// The question's id.
        question: String,
    },
    /// An id is there twice.
    Twice {
        /// Of what.
        of: Named,
        /// The id.
        id: String,
    },
    /// An id has other signs than an id may.
    NoId {
        /// As written.
        text: String,
    },
    /// An id leads to nothing.
    NotThere {
        /// What it should lead to.
        of: Named,
        /// The id.
        id: String,
    },
    /// A question has no such answer.
    NoAnswer {
        /// The question's id.
        question: String,
        /// As written.
        answer: String,
    },
    /// None or all of a question's answers are named.
    TellsNothing,
    /// A range is upside down or none.
    Range {
        /// Its lower end.
        low: f64,
        /// Its upper end.
        high: f64,
    },
    /// Things wait for each other in a circle.
    Circle {
        /// Figures, stages or checks.
        of: Named,
        /// The ids on the way, the first again at the end.
        way: Vec<String>,
    },
    /// A figure is in another unit than what refers to it.
    OtherUnit {
        /// The figure's id.
        figure: String,
        /// Its unit.
        is: Unit,
        /// The unit that is wanted.
        wanted: Unit,
    },
    /// The part of the job is none of the ten.
    Job,
    /// A gate would open on nothing.
    EmptyGate {
        /// The stage's id.
        stage: String,
    },
    /// A stage has no gate to wait for.
    NoGate {
        /// Its id.
        stage: String,
    },
    /// A flown check would be due before itself.
    FlownBeforeFlights,
    /// A witness point where none can come.
    NoWitness,
    /// Evidence cannot rest on that.
    NoSubject {
        /// As written.
        text: String,
    },
    /// A word that says not how long.
    NotHowLong {
        /// As written.
        word: String,
    },
    /// Evidence would hold for nothing.
    HoldsForNothing,
    /// A check has what another kind of check has.
    OtherKind {
        /// Its id.
        check: String,
        /// The key.
        key: &'static str,
    },
    /// A check has not what its kind of check has.
    KindLacks {
        /// Its id.
        check: String,
        /// The key.
        key: &'static str,
    },
    /// A step is not above zero.
    Step,
    /// The start is no plausible reading.
    Start,
    /// Nothing is said of where limits come from.
    NoBasis {
        /// The check's id.
        check: String,
    },
    /// A measure without a limit.
    NoLimit {
        /// The check's id.
        check: String,
    },
    /// A check is read on the run of something that is not run.
    ReadOnNoRun {
        /// The check that it names.
        check: String,
    },
    /// What a reading is to agree with is not on file in its unit.
    NotOnFile {
        /// As it was written.
        text: String,
    },
    /// A figure answers a question, and the values of its choices do not rise to the last, which has none.
    UpTo {
        /// The question.
        question: String,
    },
    /// A rung above one that does not stand before it in its stage, or is not flown.
    NoRung {
        /// The check that it names.
        check: String,
    },
    /// A limit is no plausible reading.
    LimitOutside,
    /// Limits do not rise.
    LimitsFall,
    /// A share of a figure is not above zero.
    Times,
    /// A limit from a full cell is no voltage near it.
    FullCell,
    /// The planned minutes are none that a pack lasts.
    Minutes,
    /// A head speed is not above zero.
    HeadSpeed,
}

impl Named {
    fn word(self) -> &'static str {
        match self {
            Named::Trait => "trait",
            Named::Choice => "choice",
            Named::Figure => "figure",
            Named::Part => "part",
            Named::Setting => "setting",
            Named::Place => "place",
            Named::Caution => "caution",
            Named::Event => "event",
            Named::Stage => "stage",
            Named::Check => "check",
        }
    }
}

impl PlanReason {
    /// Sorts what the parser says by what a person can do about it. `serde` says the same of every format:
    /// `serde::de::Error` gives the texts of what is missing or unknown, `expecting` in the source those of a wrong form.
    pub(super) fn of_parser(words: &str) -> PlanReason {
        let quoted: Vec<String> = words.split('`').skip(1).step_by(2).map(str::to_owned).collect();
        let (first, others) = match quoted.split_first() {
            Some((first, others)) => (first.clone(), others.to_vec()),
            None => (String::new(), Vec::new()),
        };
        match words {
            _ if words.starts_with("missing field `") => PlanReason::MissingKey { key: first },
            _ if words.starts_with("unknown field `") => PlanReason::UnknownKey { key: first, known: others },
            _ if words.starts_with("unknown variant `") => PlanReason::UnknownWord { word: first, known: others },
            super::source::ANSWERS => PlanReason::WantsAnswers,
            super::source::HOLDS => PlanReason::WantsHolds,
            super::source::LIMIT => PlanReason::WantsLimit,
            _ => PlanReason::Parser { words: words.to_owned() },
        }
    }

    /// What is wrong and what would be right, as a person reads it. Keys stand in the file in English.
    pub fn words(&self, locale: Locale) -> String {
        match self {
            PlanReason::OtherFormat { known } => say!(locale, "plan-reason-format", known = known),
            PlanReason::MissingKey { key } => say!(locale, "plan-reason-missing-key", key = key),
            PlanReason::UnknownKey { key, known } => {
                say!(locale, "plan-reason-unknown-key", key = key, known = known.join(", "))
            }
            PlanReason::UnknownWord { word, known } => {
                say!(locale, "plan-reason-unknown-word", word = word, known = known.join(", "))
            }
            PlanReason::WantsAnswers => say!(locale, "plan-reason-wants-answers"),
            PlanReason::WantsHolds => say!(locale, "plan-reason-wants-holds"),
            PlanReason::WantsLimit => say!(locale, "plan-reason-wants-limit"),
            PlanReason::Parser { words } => say!(locale, "plan-reason-parser", words = words),
            PlanReason::NoStage => say!(locale, "plan-reason-no-stage"),
            PlanReason::FewChoices { question } => say!(locale, "plan-reason-few-choices", question = question),
            PlanReason::Twice { of, id } => say!(locale, "plan-reason-twice", what = of.word(), id = id),
            PlanReason::NoId { text } => say!(locale, "plan-reason-no-id", text = text),
            PlanReason::NotThere { of, id } => say!(locale, "plan-reason-not-there", what = of.word(), id = id),
            PlanReason::NoAnswer { question, answer } => {
                say!(locale, "plan-reason-no-answer", question = question, answer = answer)
            }
            PlanReason::TellsNothing => say!(locale, "plan-reason-tells-nothing"),
            PlanReason::Range { low, high } => {
                say!(locale, "plan-reason-range", low = locale.exact(*low), high = locale.exact(*high))
            }
            PlanReason::Circle { of, way } => {
                say!(locale, "plan-reason-circle", what = of.word(), way = way.join(" > "))
            }
            PlanReason::OtherUnit { figure, is, wanted } => {
                say!(locale, "plan-reason-other-unit", figure = figure, is = is.sign(), wanted = wanted.sign())
            }
            PlanReason::Job => say!(locale, "plan-reason-job"),
            PlanReason::EmptyGate { stage } => say!(locale, "plan-reason-empty-gate", stage = stage),
            PlanReason::NoGate { stage } => say!(locale, "plan-reason-no-gate", stage = stage),
            PlanReason::FlownBeforeFlights => say!(locale, "plan-reason-flown-before-flights"),
            PlanReason::NoWitness => say!(locale, "plan-reason-no-witness"),
            PlanReason::NoSubject { text } => say!(locale, "plan-reason-no-subject", text = text),
            PlanReason::NotHowLong { word } => say!(locale, "plan-reason-not-how-long", word = word),
            PlanReason::HoldsForNothing => say!(locale, "plan-reason-holds-for-nothing"),
            PlanReason::OtherKind { check, key } => say!(locale, "plan-reason-other-kind", check = check, key = key),
            PlanReason::KindLacks { check, key } => say!(locale, "plan-reason-kind-lacks", check = check, key = key),
            PlanReason::Step => say!(locale, "plan-reason-step"),
            PlanReason::Start => say!(locale, "plan-reason-start"),
            PlanReason::NoBasis { check } => say!(locale, "plan-reason-no-basis", check = check),
            PlanReason::NoLimit { check } => say!(locale, "plan-reason-no-limit", check = check),
            PlanReason::ReadOnNoRun { check } => say!(locale, "plan-reason-read-on-no-run", check = check),
            PlanReason::NotOnFile { text } => say!(locale, "plan-reason-not-on-file", text = text),
            PlanReason::UpTo { question } => say!(locale, "plan-reason-up-to", question = question),
            PlanReason::NoRung { check } => say!(locale, "plan-reason-no-rung", check = check),
            PlanReason::LimitOutside => say!(locale, "plan-reason-limit-outside"),
            PlanReason::LimitsFall => say!(locale, "plan-reason-limits-fall"),
            PlanReason::Times => say!(locale, "plan-reason-times"),
            PlanReason::FullCell => say!(locale, "plan-reason-full-cell"),
            PlanReason::Minutes => say!(locale, "plan-reason-minutes"),
            PlanReason::HeadSpeed => say!(locale, "plan-reason-head-speed"),
        }
    }
}

/// For logs and developers, in English; a person reads [`PlanReason::words`].
impl fmt::Display for PlanReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}
