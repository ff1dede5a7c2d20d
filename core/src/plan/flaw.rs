//! What a plan could do better, in words.

use crate::locale::{Locale, say};

/// Most checks that are read as one group.
pub const CHUNK: usize = 9;
/// Highest reading grade of a check's text, in years of school.
pub const GRADE: f64 = 8.0;

/// What a plan could do better at one place.
#[derive(Debug, Clone, PartialEq)]
pub enum Flaw {
    /// What stops an aircraft stands after what does not.
    StopsLater {
        /// Its title.
        title: String,
    },
    /// A group is longer than people read with care.
    GroupTooLong {
        /// Its length, for the aircraft that has most of it.
        checks: usize,
    },
    /// A rung is not known to lie above the one before it.
    NotAbove,
    /// Nothing is said of where limits come from.
    NoBasis,
    /// The text does not tell a limit.
    LimitNotTold {
        /// The limit, in the check's unit.
        limit: f64,
    },
    /// A lower limit that nothing can pass.
    NothingBelow {
        /// The limit, in the check's unit.
        limit: f64,
    },
    /// An upper limit that nothing can pass.
    NothingAbove {
        /// The limit, in the check's unit.
        limit: f64,
    },
    /// It is said to stop and has no limit that stops.
    NoStop,
    /// It turns a rotor and no caution stands over it.
    TurnsWithoutCaution,
    /// Its words give a hazard away that no caution over it names.
    Unanswered {
        /// Which.
        hazard: Hazard,
    },
    /// One of its texts is hard to read.
    HardPart {
        /// The text's key.
        part: &'static str,
        /// Its reading grade, in years of school.
        grade: f64,
    },
    /// All its texts together are.
    HardText {
        /// Their reading grade, in years of school.
        grade: f64,
    },
    /// It would come due once and never again.
    NeverRunsOut,
    /// Its limit waits for a figure that not every aircraft has.
    NotEveryAircraft {
        /// The figure's title.
        figure: String,
    },
    /// No check has to do with it.
    Unused {
        /// What it is, by its key in the file.
        kind: &'static str,
    },
}

/// What can hurt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hazard {
    /// A turning rotor.
    Rotor,
    /// A drive that turns by hand.
    Drive,
    /// Pack voltage.
    PackVoltage,
    /// Heat.
    Heat,
    /// Lifting the aircraft.
    Lifting,
}

impl Flaw {
    /// What is wrong and what would be right, as a person reads it.
    pub fn words(&self, locale: Locale) -> String {
        let year = |grade: f64| locale.number(grade, 1);
        match self {
            Flaw::StopsLater { title } => say!(locale, "lint-stops-later", title = title),
            Flaw::GroupTooLong { checks } => say!(locale, "lint-group-too-long", checks = checks, most = CHUNK),
            Flaw::NotAbove => say!(locale, "lint-not-above"),
            Flaw::NoBasis => say!(locale, "lint-no-basis"),
            Flaw::LimitNotTold { limit } => say!(locale, "lint-limit-not-told", limit = locale.plain(*limit)),
            Flaw::NothingBelow { limit } => say!(locale, "lint-nothing-below", limit = locale.plain(*limit)),
            Flaw::NothingAbove { limit } => say!(locale, "lint-nothing-above", limit = locale.plain(*limit)),
            Flaw::NoStop => say!(locale, "lint-no-stop"),
            Flaw::TurnsWithoutCaution => say!(locale, "lint-turns-without-caution"),
            Flaw::Unanswered { hazard } => say!(locale, "lint-hazard", hazard = hazard.words(locale)),
            Flaw::HardPart { part, grade } => say!(locale, "lint-hard-part", part = part, grade = year(*grade)),
            Flaw::HardText { grade } => {
                say!(locale, "lint-hard-text", grade = year(*grade), most = locale.number(GRADE, 0))
            }
            Flaw::NeverRunsOut => say!(locale, "lint-never-runs-out"),
            Flaw::NotEveryAircraft { figure } => say!(locale, "lint-not-every-aircraft", figure = figure),
            Flaw::Unused { kind } => say!(locale, "lint-unused", what = kind),
        }
    }
}

impl Hazard {
    fn words(self, locale: Locale) -> String {
        match self {
            Hazard::Rotor => say!(locale, "lint-hazard-rotor"),
            Hazard::Drive => say!(locale, "lint-hazard-drive"),
            Hazard::PackVoltage => say!(locale, "lint-hazard-voltage"),
            Hazard::Heat => say!(locale, "lint-hazard-heat"),
            Hazard::Lifting => say!(locale, "lint-hazard-lifting"),
        }
    }
}
