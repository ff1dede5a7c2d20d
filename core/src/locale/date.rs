use chrono::{DateTime, FixedOffset, NaiveDate};

use super::{Language, Locale, say};

impl Locale {
    fn calendar(self) -> chrono::Locale {
        match self.language {
            Language::English => chrono::Locale::POSIX,
            Language::German => chrono::Locale::de_DE,
        }
    }

    /// A day in full: `3 March 2026`, `3. März 2026`.
    pub(crate) fn date(self, date: NaiveDate) -> String {
        let format = match self.language {
            Language::English => "%-d %B %Y",
            Language::German => "%-d. %B %Y",
        };
        date.format_localized(format, self.calendar()).to_string()
    }

    /// A day in short, with its year where that is wanted: `3 Mar`, `3. Mär`.
    pub(crate) fn short_day(self, at: &DateTime<FixedOffset>, with_year: bool) -> String {
        let format = match (self.language, with_year) {
            (Language::English, false) => "%-d %b",
            (Language::English, true) => "%-d %b %Y",
            (Language::German, false) => "%-d. %b",
            (Language::German, true) => "%-d. %b %Y",
        };
        at.format_localized(format, self.calendar()).to_string()
    }
}

/// Minutes and seconds: `7:05`.
pub(crate) fn clock(seconds: i64) -> String {
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// What is left of a wait, rounded up: `25 s`, `12 min`.
pub(crate) fn time_left(locale: Locale, left_ms: i64) -> String {
    let seconds = (left_ms + 999) / 1_000;
    if seconds < 120 {
        say!(locale, "time-seconds", seconds = seconds)
    } else {
        say!(locale, "time-minutes", minutes = (seconds + 59) / 60)
    }
}
