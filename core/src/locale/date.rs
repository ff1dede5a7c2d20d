use chrono::{DateTime, Datelike as _, FixedOffset, NaiveDate};

use super::{Language, Locale, say};

impl Locale {
    /// A day in full: `3 March 2026`, `3. März 2026`.
    pub(crate) fn date(self, date: NaiveDate) -> String {
        format!("{} {} {}", self.day_of_month(date), say!(self, "common-month", month = date.month()), date.year())
    }

    /// A day in short, with its year where that is wanted: `3 Mar`, `3. Mär`.
    pub(crate) fn short_day(self, at: &DateTime<FixedOffset>, with_year: bool) -> String {
        let date = at.date_naive();
        let day = format!("{} {}", self.day_of_month(date), say!(self, "common-month-short", month = date.month()));
        if with_year { format!("{day} {}", date.year()) } else { day }
    }

    fn day_of_month(self, date: NaiveDate) -> String {
        match self.language {
            Language::English => date.day().to_string(),
            Language::German => format!("{}.", date.day()),
        }
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

#[cfg(test)]
mod tests {
    use chrono::NaiveDate;

    use crate::locale::{Language, Locale};

    /// The names in full and in short as `chrono`'s own tables for `POSIX` and `de_DE` have them, which were compared month by month.
    #[test]
    fn every_month_reads_as_the_calendar_of_its_language_has_it() {
        let english = "January February March April May June July August September October November December";
        let german = "Januar Februar März April Mai Juni Juli August September Oktober November Dezember";
        for (language, names, point) in [(Language::English, english, ""), (Language::German, german, ".")] {
            let locale = Locale { language, ..Locale::default() };
            for (month, name) in (1..).zip(names.split(' ')) {
                let day = NaiveDate::from_ymd_opt(2026, month, 3).unwrap_or_default();
                let at = day.and_time(chrono::NaiveTime::MIN).and_utc().fixed_offset();
                let short: String = name.chars().take(3).collect();
                assert_eq!(locale.date(day), format!("3{point} {name} 2026"));
                assert_eq!(locale.short_day(&at, false), format!("3{point} {short}"));
                assert_eq!(locale.short_day(&at, true), format!("3{point} {short} 2026"));
            }
        }
    }
}
