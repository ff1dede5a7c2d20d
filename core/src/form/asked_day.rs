//! The form of a day that is asked about: its air, and the flight on it.

use super::Drafts;
use crate::unit::Unit;

/// A number of the day: its field, its unit, its step, its least and its most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AskedNumber {
    /// Its field.
    pub field: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// How far one touch moves it.
    pub step: f64,
    /// What it can be, inclusive.
    pub range: (f64, f64),
}

/// A day and a flight on it.
#[derive(Clone, Copy)]
pub struct AskedDayForm<'a>(pub Drafts<'a>);

impl AskedDayForm<'_> {
    /// The air's temperature.
    pub const AIR: AskedNumber = AskedNumber { field: "air", unit: Unit::Celsius, step: 1.0, range: (-20.0, 50.0) };
    /// The airflow over the part, of what it was.
    pub const AIRFLOW: AskedNumber =
        AskedNumber { field: "airflow", unit: Unit::Percent, step: 25.0, range: (0.0, 400.0) };
    /// The power, of what it was.
    pub const POWER: AskedNumber =
        AskedNumber { field: "power", unit: Unit::Percent, step: 5.0, range: (10.0, 300.0) };
    /// The flight's minutes.
    pub const MINUTES: AskedNumber =
        AskedNumber { field: "minutes", unit: Unit::Minute, step: 0.5, range: (0.5, 60.0) };

    /// A number as typed, or where it starts; what cannot be is taken as the nearest that can.
    pub fn value(&self, number: AskedNumber, start: f64) -> f64 {
        let typed = self.0.text(number.field).and_then(|text| self.0.locale().read(text, number.unit));
        typed.unwrap_or(start).clamp(number.range.0, number.range.1)
    }
}
