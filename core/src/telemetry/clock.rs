use serde::{Deserialize, Serialize};

use super::number;

/// How the time of a row is written.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TimeForm {
    /// Seconds.
    Seconds,
    /// Milliseconds.
    Milliseconds,
    /// Microseconds.
    Microseconds,
    /// Minutes.
    Minutes,
    /// Hours, minutes and seconds apart by colons, hours or fractions of a second may lack; past midnight it begins again.
    Clock,
    /// Year, month, day, then the clock (ISO 8601 and its likes).
    DateYearFirst,
    /// Day, month, year, then the clock.
    DateDayFirst,
    /// Month, day, year, then the clock.
    DateMonthFirst,
    /// No column: rows are that many seconds apart.
    EveryRow {
        /// Seconds from row to row.
        period_s: f64,
    },
}

/// A day.
pub(super) const DAY_S: f64 = 86_400.0;

impl TimeForm {
    /// All that are written in a column.
    pub const WRITTEN: [TimeForm; 8] = [
        TimeForm::Seconds,
        TimeForm::Milliseconds,
        TimeForm::Microseconds,
        TimeForm::Minutes,
        TimeForm::Clock,
        TimeForm::DateYearFirst,
        TimeForm::DateDayFirst,
        TimeForm::DateMonthFirst,
    ];

    /// Seconds for one of a number that is written, `None` for clocks and dates.
    pub(super) fn scale_s(self) -> Option<f64> {
        match self {
            TimeForm::Seconds => Some(1.0),
            TimeForm::Milliseconds => Some(1e-3),
            TimeForm::Microseconds => Some(1e-6),
            TimeForm::Minutes => Some(60.0),
            _ => None,
        }
    }

    /// The time in a field, in s from an origin that the file's rows share; `None` where it holds none.
    pub(super) fn read(self, bytes: &[u8], decimal: u8) -> Option<f64> {
        if let Some(scale_s) = self.scale_s() {
            return match number::field(bytes, decimal) {
                number::Field::Number(value) => Some(value * scale_s),
                _ => None,
            };
        }
        let text = std::str::from_utf8(bytes.trim_ascii()).ok()?;
        match self {
            TimeForm::Clock => clock_s(text),
            TimeForm::DateYearFirst => date_s(text, [0, 1, 2]),
            TimeForm::DateDayFirst => date_s(text, [2, 1, 0]),
            TimeForm::DateMonthFirst => date_s(text, [2, 0, 1]),
            _ => None,
        }
    }
}

/// `14:03:22.125`, `14:03:22,125`, `03:22.1`, with AM or PM behind, or a zone behind, which is left out: all rows share it.
fn clock_s(text: &str) -> Option<f64> {
    let text = text.trim();
    let lower = text.to_ascii_lowercase();
    let (text, afternoon) = match lower.strip_suffix("pm").or_else(|| lower.strip_suffix("am")) {
        Some(rest) => (rest.trim_end(), Some(lower.ends_with("pm"))),
        None => (lower.as_str(), None),
    };
    let text = text.trim_end_matches('z');
    // A zone after the clock, +01:00 or -0500.
    let text = text.split(['+', '-']).next()?;
    let mut parts = text.split(':');
    let (first, second, third) = (parts.next()?, parts.next()?, parts.next());
    // A fourth part, as in 14:03:22:125, is thousandths.
    let fourth = parts.next();
    if parts.next().is_some() {
        return None;
    }
    let (hours, minutes, seconds) = match third {
        Some(third) => (whole(first)?, whole(second)?, fraction(third)?),
        None => (0.0, whole(first)?, fraction(second)?),
    };
    let thousandths = match fourth {
        Some(fourth) => whole(fourth).filter(|_| fourth.len() <= 3)? / 1_000.0,
        None => 0.0,
    };
    let hours = match afternoon {
        Some(true) if hours < 12.0 => hours + 12.0,
        Some(false) if hours == 12.0 => 0.0,
        _ => hours,
    };
    let minutes_fit = minutes < 60.0 || third.is_none();
    (seconds < 61.0 && minutes_fit && hours < 1e4).then_some(hours * 3_600.0 + minutes * 60.0 + seconds + thousandths)
}

fn whole(text: &str) -> Option<f64> {
    let text = text.trim();
    ((1..=6).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit())).then(|| text.parse().ok()).flatten()
}

fn fraction(text: &str) -> Option<f64> {
    let text = text.trim();
    let fits = (1..=12).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit() || b == b'.' || b == b',');
    fits.then(|| text.replace(',', ".").parse().ok()).flatten()
}

/// A date and, behind a blank or a T, a clock. `order` says where year, month and day stand.
fn date_s(text: &str, order: [usize; 3]) -> Option<f64> {
    let text = text.trim();
    let (date, clock) = match text.split_once(['T', 't', ' ']) {
        Some((date, clock)) => (date, Some(clock)),
        None => (text, None),
    };
    let parts: Vec<&str> = date.split(['-', '.', '/']).collect();
    let [a, b, c] = parts[..] else { return None };
    let part = |place: usize| whole([a, b, c][order[place]]);
    let (mut year, month, day) = (part(0)?, part(1)?, part(2)?);
    if year < 100.0 {
        year += 2000.0;
    }
    let date = chrono::NaiveDate::from_ymd_opt(year as i32, month as u32, day as u32)?;
    let days = date.signed_duration_since(chrono::NaiveDate::default()).num_days();
    Some(days as f64 * DAY_S + clock.map_or(Some(0.0), clock_s)?)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn read(form: TimeForm, text: &str) -> Option<f64> {
        form.read(text.as_bytes(), b'.')
    }

    // ISO 8601-1:2019 writes the same moment so; 2026-03-07 is day 20519 after 1970-01-01 (POSIX epoch arithmetic).
    #[test]
    fn ways_to_write_a_moment() {
        let moment = 20_519.0 * DAY_S + 14.0 * 3_600.0 + 3.0 * 60.0 + 22.125;
        for (form, text) in [
            (TimeForm::DateYearFirst, "2026-03-07T14:03:22.125Z"),
            (TimeForm::DateYearFirst, "2026-03-07 14:03:22,125"),
            (TimeForm::DateYearFirst, "2026/03/07 14:03:22.125+01:00"),
            (TimeForm::DateDayFirst, "07.03.2026 14:03:22.125"),
            (TimeForm::DateDayFirst, "7.3.26 14:03:22.125"),
            (TimeForm::DateMonthFirst, "03/07/2026 2:03:22.125 PM"),
        ] {
            assert_eq!(read(form, text), Some(moment), "{text}");
        }
        assert_eq!(read(TimeForm::Clock, "14:03:22.125"), Some(moment - 20_519.0 * DAY_S));
        assert_eq!(read(TimeForm::Clock, "14:03:22:125"), Some(moment - 20_519.0 * DAY_S));
        assert_eq!(read(TimeForm::Clock, "03:22.5"), Some(202.5));
        assert_eq!(read(TimeForm::Clock, "12:00:05 AM"), Some(5.0));
        assert_eq!(read(TimeForm::Milliseconds, "1500"), Some(1.5));
        for wrong in ["", "14", "14:99:00", "2026-13-01 00:00:00", "a:b:c", "1:2:3:4:5", "99999999:00:00", ":", "::"]
        {
            assert_eq!(read(TimeForm::Clock, wrong).or(read(TimeForm::DateYearFirst, wrong)), None, "{wrong}");
        }
    }
}
