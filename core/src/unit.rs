//! Units: what a quantity is recorded in, its sign and its name.

use serde::{Deserialize, Serialize};

/// The units that a plan may ask for. Values are stored as entered in the plan's unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Unit {
    /// Kilogram.
    #[serde(rename = "kg")]
    Kilogram,
    /// Gram.
    #[serde(rename = "g")]
    Gram,
    /// Metre.
    #[serde(rename = "m")]
    Metre,
    /// Millimetre.
    #[serde(rename = "mm")]
    Millimetre,
    /// Square millimetre: a wire's cross-section, in all measures.
    #[serde(rename = "mm2")]
    SquareMillimetre,
    /// Volt.
    #[serde(rename = "V")]
    Volt,
    /// Ampere.
    #[serde(rename = "A")]
    Ampere,
    /// Watt.
    #[serde(rename = "W")]
    Watt,
    /// Milliampere hour.
    #[serde(rename = "mAh")]
    MilliampereHour,
    /// Degree Celsius.
    #[serde(rename = "C")]
    Celsius,
    /// Revolutions a minute.
    #[serde(rename = "rpm")]
    RevolutionsPerMinute,
    /// Percent.
    #[serde(rename = "%")]
    Percent,
    /// Degree of angle.
    #[serde(rename = "deg")]
    Degree,
    /// Ohm.
    #[serde(rename = "ohm")]
    Ohm,
    /// Second.
    #[serde(rename = "s")]
    Second,
    /// Minute.
    #[serde(rename = "min")]
    Minute,
    /// Newton.
    #[serde(rename = "N")]
    Newton,
    /// Millimetre a second.
    #[serde(rename = "mm/s")]
    MillimetrePerSecond,
    /// Revolutions a minute for each volt: a motor's constant.
    #[serde(rename = "rpm/V")]
    RevolutionsPerMinutePerVolt,
    /// Hertz.
    #[serde(rename = "Hz")]
    Hertz,
    /// Metre a second.
    #[serde(rename = "m/s")]
    MetrePerSecond,
    /// Gram millimetre.
    #[serde(rename = "g mm")]
    GramMillimetre,
    /// Kelvin, a difference.
    #[serde(rename = "K")]
    Kelvin,
    /// Kelvin for each watt.
    #[serde(rename = "K/W")]
    KelvinPerWatt,
    /// Milliohm.
    #[serde(rename = "mohm")]
    Milliohm,
    /// Hectopascal.
    #[serde(rename = "hPa")]
    Hectopascal,
    /// A bare number of things.
    #[serde(rename = "count")]
    Count,
    /// A bare ratio.
    #[serde(rename = "ratio")]
    Ratio,
}

impl Unit {
    /// The sign that stands beside a number; empty for bare numbers.
    pub fn sign(self) -> &'static str {
        match self {
            Unit::Kilogram => "kg",
            Unit::Gram => "g",
            Unit::Metre => "m",
            Unit::Millimetre => "mm",
            Unit::SquareMillimetre => "mm²",
            Unit::Volt => "V",
            Unit::Ampere => "A",
            Unit::Watt => "W",
            Unit::MilliampereHour => "mAh",
            Unit::Celsius => "°C",
            Unit::RevolutionsPerMinute => "rpm",
            Unit::Percent => "%",
            Unit::Degree => "°",
            Unit::Ohm => "Ω",
            Unit::Second => "s",
            Unit::Minute => "min",
            Unit::Newton => "N",
            Unit::MillimetrePerSecond => "mm/s",
            Unit::RevolutionsPerMinutePerVolt => "rpm/V",
            Unit::Hertz => "Hz",
            Unit::MetrePerSecond => "m/s",
            Unit::GramMillimetre => "g mm",
            Unit::Kelvin => "K",
            Unit::KelvinPerWatt => "K/W",
            Unit::Milliohm => "mΩ",
            Unit::Hectopascal => "hPa",
            Unit::Count | Unit::Ratio => "",
        }
    }

    /// The unit as a screen reader should say it.
    pub fn spoken(self) -> &'static str {
        match self {
            Unit::Kilogram => "kilograms",
            Unit::Gram => "grams",
            Unit::Metre => "metres",
            Unit::Millimetre => "millimetres",
            Unit::SquareMillimetre => "square millimetres",
            Unit::Volt => "volts",
            Unit::Ampere => "amperes",
            Unit::Watt => "watts",
            Unit::MilliampereHour => "milliampere hours",
            Unit::Celsius => "degrees Celsius",
            Unit::RevolutionsPerMinute => "revolutions a minute",
            Unit::Percent => "percent",
            Unit::Degree => "degrees",
            Unit::Ohm => "ohms",
            Unit::Second => "seconds",
            Unit::Minute => "minutes",
            Unit::Newton => "newtons",
            Unit::MillimetrePerSecond => "millimetres a second",
            Unit::RevolutionsPerMinutePerVolt => "revolutions a minute for each volt",
            Unit::Hertz => "hertz",
            Unit::MetrePerSecond => "metres a second",
            Unit::GramMillimetre => "gram millimetres",
            Unit::Kelvin => "kelvin",
            Unit::KelvinPerWatt => "kelvin for each watt",
            Unit::Milliohm => "milliohms",
            Unit::Hectopascal => "hectopascals",
            Unit::Count | Unit::Ratio => "",
        }
    }

    /// A number and its sign as a person reads it: `83.5 °C`, `12`, `40 %`.
    pub fn show(self, value: f64) -> String {
        let number = show_number(value);
        match self.sign() {
            "" => number,
            "°" => format!("{number}°"),
            sign => format!("{number} {sign}"),
        }
    }
}

/// A number without trailing zeros, at most three decimals.
pub(crate) fn show_number(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}
