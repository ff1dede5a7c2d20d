//! The language, the units and the marks in which a person reads and types. Nothing recorded depends on it: the journal
//! and the plan keep the units that they name, and a locale only turns them over on the way in and out.

mod date;
mod number;
mod words;

use serde::{Deserialize, Serialize};

pub(crate) use date::{clock, time_left};
pub use number::Shown;
pub(crate) use number::{parse_number, with_sign};
pub use words::{Word, Worded};
pub(crate) use words::{say, sentence};

/// How a person reads and types.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Locale {
    /// The words, the decimal mark and the names of the months.
    pub language: Language,
    /// Temperatures.
    pub temperature: TemperatureScale,
    /// Lengths and masses.
    pub measures: Measures,
}

/// A language that the app speaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Language {
    /// English, which every text falls back to.
    #[default]
    English,
    /// German.
    German,
}

/// A scale for temperatures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TemperatureScale {
    /// Degrees Celsius, as recorded.
    #[default]
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

/// Measures for lengths and masses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Measures {
    /// Metres and kilograms, as recorded.
    #[default]
    Metric,
    /// Feet, inches, pounds and ounces.
    Imperial,
}

impl Language {
    /// Every language, English first.
    pub const ALL: [Language; 2] = [Language::English, Language::German];

    /// The language of a phone's own tag (BCP 47, as `de-AT`); English where the app does not speak that one.
    pub fn of_tag(tag: &str) -> Language {
        let primary = tag.split(['-', '_']).next().unwrap_or_default();
        if primary.eq_ignore_ascii_case("de") { Language::German } else { Language::English }
    }

    /// The tag that a shell, a document or a voice wants.
    pub fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::German => "de",
        }
    }
}

/// What a person chose of it on this phone; what is not chosen follows the phone's own language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Chosen {
    /// The language, or as the phone has it.
    pub language: Option<Language>,
    /// The scale for temperatures.
    pub temperature: TemperatureScale,
    /// The measures.
    pub measures: Measures,
}

impl Chosen {
    /// What comes of it on a phone that speaks `phone` itself.
    pub fn locale(self, phone: Language) -> Locale {
        Locale { language: self.language.unwrap_or(phone), temperature: self.temperature, measures: self.measures }
    }
}
