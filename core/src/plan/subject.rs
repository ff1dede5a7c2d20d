//! What evidence can rest on.

use std::fmt;

use crate::locale::{Locale, say};

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
    /// The papers that have to be in hand, each good to its last day.
    Papers,
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
            "papers" => Some(Subject::Papers),
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
            Subject::Papers => f.write_str("papers"),
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
            Subject::Papers => Some(say!(locale, "subject-papers")),
            Subject::Part(_) | Subject::Setting(_) | Subject::Figure(_) | Subject::Check(_) | Subject::Event(_) => {
                None
            }
        }
    }
}
