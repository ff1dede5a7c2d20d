//! The form of a run that no phone timed: how long it was, and how long ago it came down.

use super::drafts::in_seconds;
use super::{Drafts, Result};
use crate::locale::say;
use crate::unit::Unit;

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
    /// Plausible times with the motor on, minutes: of a run that was none, nothing is told.
    const FLOWN_RANGE_MIN: (f64, f64) = (0.1, 60.0);
    /// How long ago, minutes: what is older is of another day, and its conditions are not known any more.
    const AGO_RANGE_MIN: (f64, f64) = (0.0, 720.0);

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
}
