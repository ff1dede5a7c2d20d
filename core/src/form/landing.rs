//! The form of what is jotted after landing.

use super::{Drafts, Refusal, Result};
use crate::aircraft::Aircraft;
use crate::field::{Flight, Landing, charge_range_mah, wanted_places};
use crate::locale::say;
use crate::plan::{Place, Plan};
use crate::record::Reading;
use crate::unit::Unit;

/// Plausible times with the motor on, minutes: from a knock-off at once to twice the longest that a card plans.
const FLOWN_RANGE_MIN: (f64, f64) = (0.0, 60.0);

/// A landing that is jotted down. Once more keeps what was jotted before: a second reading of a place tells how it cools.
#[derive(Clone, Copy)]
pub struct LandingForm<'a> {
    drafts: Drafts<'a>,
    plan: &'a Plan,
    aircraft: &'a Aircraft,
    flight: &'a Flight,
}

impl<'a> LandingForm<'a> {
    /// The field of the charge used.
    pub const USED: &'static str = "used";
    /// The field of how long the motor was on.
    pub const FLOWN: &'static str = "flown";
    /// The field of anything else.
    pub const NOTES: &'static str = "notes";
    /// The field of the place that is read once more.
    pub const READ_AGAIN: &'static str = "again";
    const TEMPERATURE: &'static str = "temp:";

    /// The form of a flight that is down.
    pub fn new(drafts: Drafts<'a>, plan: &'a Plan, aircraft: &'a Aircraft, flight: &'a Flight) -> Self {
        LandingForm { drafts, plan, aircraft, flight }
    }

    /// The field of a place's temperature.
    pub fn temperature_field(place: &str) -> String {
        format!("{}{place}", Self::TEMPERATURE)
    }

    /// Whether a field is a temperature's.
    pub fn is_temperature(field: &str) -> bool {
        field.starts_with(Self::TEMPERATURE)
    }

    /// The field that keeps how long after touchdown, in seconds, a temperature's field was filled.
    pub fn after_field(temperature_field: &str) -> String {
        format!("after:{temperature_field}")
    }

    /// The field of how far the temperatures that are offered for a place are moved.
    pub fn shift_field(place: &str) -> String {
        format!("shift:{place}")
    }

    /// How far they are moved, in whole degrees of the scale that the person reads.
    pub fn shift(&self, place: &str) -> i32 {
        self.drafts.text(&Self::shift_field(place)).and_then(|text| text.parse().ok()).unwrap_or(0)
    }

    /// The place whose temperature is asked for now: one that the pilot wants to read again, else the first that the check wants and
    /// this aircraft has, and that was not read yet.
    pub fn place_to_read(&self) -> Option<&'a Place> {
        if let Some(again) = self.drafts.text(Self::READ_AGAIN) {
            return self.plan.place(again);
        }
        let fly = self.plan.check(&self.flight.check).and_then(|(_, check)| check.fly())?;
        let read = |place: &&Place| {
            let typed = self.drafts.text(&Self::temperature_field(&place.id)).is_some();
            typed || self.flight.readings(&place.id).next().is_some()
        };
        wanted_places(self.plan, self.aircraft, fly).find(|place| !read(place))
    }

    /// A place's temperature as typed, degrees Celsius.
    ///
    /// # Errors
    /// No number, or of no part of an aircraft.
    pub fn temperature_c(&self, place: &Place, label: &str) -> Result<Option<f64>> {
        let field = Self::temperature_field(&place.id);
        self.drafts.number(&field, label, Unit::Celsius, Landing::TEMPERATURE_RANGE_C)
    }

    /// All temperatures, those that were jotted before first.
    ///
    /// # Errors
    /// As [`LandingForm::temperature_c`].
    pub fn temperatures(&self) -> Result<Vec<Reading>> {
        let before = self.flight.landing.as_ref();
        let mut temperatures = before.map(|landing| landing.temperatures.clone()).unwrap_or_default();
        for place in &self.plan.places {
            let label = say!(self.drafts.locale(), "app-label-temperature", place = place.title);
            if let Some(celsius) = self.temperature_c(place, &label)? {
                let after = self.drafts.text(&Self::after_field(&Self::temperature_field(&place.id)));
                let after_s = after.and_then(|text| text.parse().ok()).unwrap_or(0);
                temperatures.push(Reading { place: place.id.clone(), celsius, after_s });
            }
        }
        Ok(temperatures)
    }

    /// The charge used as typed, milliampere hours.
    ///
    /// # Errors
    /// No number, or more than the pack can give.
    pub fn typed_used_mah(&self, label: &str) -> Result<Option<f64>> {
        let range = charge_range_mah(self.aircraft, &self.flight.pack);
        self.drafts.number(Self::USED, label, Unit::MilliampereHour, range)
    }

    /// The charge used, as typed or as jotted before, milliampere hours.
    ///
    /// # Errors
    /// As [`LandingForm::typed_used_mah`].
    pub fn used_mah(&self) -> Result<Option<f64>> {
        let typed = self.typed_used_mah(&say!(self.drafts.locale(), "app-label-used"))?;
        Ok(typed.or(self.flight.landing.as_ref().and_then(|landing| landing.pack_used_mah)))
    }

    /// How long the motor was on as typed, minutes.
    ///
    /// # Errors
    /// No number, or longer than any pack flies.
    pub fn flown_min(&self, label: &str) -> Result<Option<f64>> {
        self.drafts.number(Self::FLOWN, label, Unit::Minute, FLOWN_RANGE_MIN)
    }

    /// How long the motor was on, seconds.
    ///
    /// # Errors
    /// As [`LandingForm::flown_min`], and where nothing was typed.
    pub fn required_flown_s(&self) -> Result<i64> {
        let locale = self.drafts.locale();
        let minutes = self.flown_min(&say!(locale, "landing-time"))?;
        let minutes = minutes.ok_or_else(|| Refusal::of(Self::FLOWN, say!(locale, "landing-time-first")))?;
        Ok((minutes * 60.0).round() as i64)
    }

    /// Anything else, as typed or as jotted before.
    pub fn notes(&self) -> Option<&'a str> {
        let before = self.flight.landing.as_ref().and_then(|landing| landing.notes.as_deref());
        self.drafts.text(Self::NOTES).or(before)
    }
}
