//! The form of a run that no phone timed: how long it was, when it came down, and what was noted on paper.

use chrono::NaiveTime;

use super::drafts::in_seconds;
use super::{Drafts, Refusal, Result};
use crate::locale::say;
use crate::record::{MarkKind, Moment};
use crate::unit::Unit;

/// Seconds of a day.
const DAY_S: i64 = 24 * 60 * 60;

/// A run that no phone timed, on the page of its card.
#[derive(Clone, Copy)]
pub struct WithoutPhoneForm<'a>(pub Drafts<'a>);

impl WithoutPhoneForm<'_> {
    /// The field that is filled once the pilot says that no phone was there.
    pub const OPEN: &'static str = "no-phone";
    /// The field of how long the motor was on.
    pub const FLOWN: &'static str = "flown";
    /// The field of how long ago it came down.
    pub const AGO: &'static str = "ago";
    /// The field of the time of day at which it came down.
    pub const AT: &'static str = "down-at";
    /// The fields of what was noted in flight, each filled once it was; behind it stands its place in [`MarkKind::ALL`].
    const NOTED: &'static str = "noted:";
    /// The fields of when that was.
    const NOTED_AT: &'static str = "noted-at:";
    /// Plausible times with the motor on, minutes: of a run that was none, nothing is told.
    const FLOWN_RANGE_MIN: (f64, f64) = (0.1, 60.0);
    /// How long ago, minutes: a paper keeps the conditions of a day, and a time of day names one moment of the last day.
    const AGO_RANGE_MIN: (f64, f64) = (0.0, 1_440.0);

    /// Whether the pilot says that no phone was there.
    pub fn is_open(&self) -> bool {
        self.0.text(Self::OPEN).is_some()
    }

    /// How long the motor was on as typed, minutes.
    ///
    /// # Errors
    /// No number, nothing at all, or longer than any pack flies.
    pub fn flown_min(&self, label: &str) -> Result<Option<f64>> {
        self.0.number(Self::FLOWN, label, Unit::Minute, Self::FLOWN_RANGE_MIN)
    }

    /// How long ago it came down as typed, minutes.
    ///
    /// # Errors
    /// No number, or of another day.
    pub fn ago_min(&self, label: &str) -> Result<Option<f64>> {
        self.0.number(Self::AGO, label, Unit::Minute, Self::AGO_RANGE_MIN)
    }

    /// How long the motor was on, seconds.
    ///
    /// # Errors
    /// As [`WithoutPhoneForm::flown_min`], and where nothing was typed.
    pub fn flown_s(&self) -> Result<i64> {
        let locale = self.0.locale();
        let minutes = self.flown_min(&say!(locale, "landing-time"))?;
        in_seconds(minutes, Self::FLOWN, say!(locale, "landing-time-first"))
    }

    /// How long ago it came down, seconds.
    ///
    /// # Errors
    /// As [`WithoutPhoneForm::ago_min`], and where nothing was typed: a reading counts by its time after touchdown.
    pub fn ago_s(&self) -> Result<i64> {
        let locale = self.0.locale();
        let minutes = self.ago_min(&say!(locale, "told-ago"))?;
        in_seconds(minutes, Self::AGO, say!(locale, "told-ago-first"))
    }

    /// Seconds since it came down: by the time of day where one was typed, else by the minutes.
    ///
    /// # Errors
    /// No time of day; else as [`WithoutPhoneForm::ago_s`].
    pub fn down_ago_s(&self, now: &Moment) -> Result<i64> {
        let Some(text) = self.0.text(Self::AT) else { return self.ago_s() };
        let unread = || Refusal::of(Self::AT, say!(self.0.locale(), "told-no-time-of-day", text = text));
        let at = time_of_day(text).ok_or_else(unread)?;
        Ok((now.wall.time() - at).num_seconds().rem_euclid(DAY_S))
    }

    /// The field of what was noted.
    pub fn noted_field(kind: MarkKind) -> String {
        format!("{}{}", Self::NOTED, place_of(kind))
    }

    /// The field of when it was noted.
    pub fn noted_at_field(kind: MarkKind) -> String {
        format!("{}{}", Self::NOTED_AT, place_of(kind))
    }

    /// Whether it was noted.
    pub fn is_noted(&self, kind: MarkKind) -> bool {
        self.0.text(&Self::noted_field(kind)).is_some()
    }

    /// How long after the motor came on it was noted, minutes.
    ///
    /// # Errors
    /// No number, or longer than any pack flies.
    pub fn noted_min(&self, kind: MarkKind, label: &str) -> Result<Option<f64>> {
        self.0.number(&Self::noted_at_field(kind), label, Unit::Minute, (0.0, Self::FLOWN_RANGE_MIN.1))
    }

    /// What was noted, each with the seconds since the motor came on, earliest first.
    ///
    /// # Errors
    /// As [`WithoutPhoneForm::noted_min`]; nothing was typed for one of them, or it was noted after the touchdown.
    pub fn noted(&self, flown_s: i64) -> Result<Vec<(i64, MarkKind)>> {
        let locale = self.0.locale();
        let mut noted = Vec::new();
        for kind in MarkKind::ALL.into_iter().filter(|kind| self.is_noted(*kind)) {
            let (field, label) =
                (Self::noted_at_field(kind), say!(locale, "told-noted-at", what = kind.word(locale)));
            let unsaid = say!(locale, "told-noted-when", what = kind.word(locale));
            let at_s = in_seconds(self.noted_min(kind, &label)?, &field, unsaid)?;
            if at_s > flown_s {
                return Err(Refusal::of(&field, say!(locale, "told-noted-late", what = kind.word(locale))));
            }
            noted.push((at_s, kind));
        }
        noted.sort_by_key(|(at_s, _)| *at_s);
        Ok(noted)
    }
}

/// The place of a kind among those that are offered.
fn place_of(kind: MarkKind) -> usize {
    MarkKind::ALL.iter().position(|one| *one == kind).unwrap_or(MarkKind::ALL.len())
}

/// A time of day as people write it: 14:32, 14.32, 9 05, or 1432.
fn time_of_day(text: &str) -> Option<NaiveTime> {
    let parts: Vec<&str> = text.split([':', '.', ' ', 'h']).filter(|part| !part.is_empty()).collect();
    let (hour, minute) = match parts.as_slice() {
        [hour, minute] => (*hour, *minute),
        [both] if (3..=4).contains(&both.len()) => both.split_at_checked(both.len() - 2)?,
        _ => return None,
    };
    NaiveTime::from_hms_opt(hour.parse().ok()?, minute.parse().ok()?, 0)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use std::collections::BTreeMap;

    use chrono::DateTime;

    use super::*;
    use crate::locale::Locale;

    fn at(wall: &str) -> Moment {
        Moment { wall: DateTime::parse_from_rfc3339(wall).unwrap(), monotonic_ms: 0, boot: "one".to_owned() }
    }

    fn ago_s(text: &str) -> Result<i64> {
        let drafts = BTreeMap::from([(WithoutPhoneForm::AT.to_owned(), text.to_owned())]);
        let form = WithoutPhoneForm(Drafts::new(&drafts, Locale::default()));
        form.down_ago_s(&at("2026-05-09T19:02:00+02:00"))
    }

    #[test]
    fn a_time_of_day_is_the_last_such_time() {
        for text in ["14:32", "14.32", "14 32", "1432", "14h32"] {
            assert_eq!(ago_s(text).unwrap(), 4 * 3_600 + 30 * 60, "{text}");
        }
        assert_eq!(ago_s("19:02").unwrap(), 0);
        assert_eq!(ago_s("19:03").unwrap(), DAY_S - 60);
        assert_eq!(ago_s("905").unwrap(), 9 * 3_600 + 57 * 60);
    }

    #[test]
    fn what_is_no_time_of_day_is_refused_at_its_field() {
        for text in ["25:00", "14:60", "soon", "14", "14:3:2", "::"] {
            assert_eq!(ago_s(text).unwrap_err().field.as_deref(), Some(WithoutPhoneForm::AT), "{text}");
        }
    }
}
