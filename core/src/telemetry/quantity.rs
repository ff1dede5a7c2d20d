use serde::{Deserialize, Serialize};

use crate::unit::Unit;

/// What a column may hold. Values are kept in the unit of [`Quantity::unit`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Quantity {
    /// When the row was written.
    Time,
    /// Voltage of the flight pack, in V.
    PackVoltage,
    /// Current out of the flight pack, in A.
    PackCurrent,
    /// Power out of the flight pack, in W.
    Power,
    /// Charge taken from the flight pack, in mAh, as the recorder counted it.
    Charge,
    /// Speed of the main rotor, in rpm.
    HeadSpeed,
    /// What the controller or the governor asks of the motor, in percent.
    Throttle,
    /// Ripple on the flight pack, peak to peak, in V.
    Ripple,
    /// Voltage at the receiver, in V.
    ReceiverVoltage,
    /// Current of the receiver's supply, in A.
    ReceiverCurrent,
    /// A temperature, in deg C; the column's place says of what.
    Temperature,
    /// Vibration, in m/s2.
    Vibration,
    /// Height, in m.
    Height,
    /// Speed over ground or through the air, in m/s.
    Speed,
    /// Anything else, as it is written.
    Other,
}

/// The units that a column may be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum LogUnit {
    /// Volt.
    #[serde(rename = "V")]
    Volt,
    /// Millivolt.
    #[serde(rename = "mV")]
    Millivolt,
    /// Ampere.
    #[serde(rename = "A")]
    Ampere,
    /// Milliampere.
    #[serde(rename = "mA")]
    Milliampere,
    /// Watt.
    #[serde(rename = "W")]
    Watt,
    /// Kilowatt.
    #[serde(rename = "kW")]
    Kilowatt,
    /// Milliampere hour.
    #[serde(rename = "mAh")]
    MilliampereHour,
    /// Ampere hour.
    #[serde(rename = "Ah")]
    AmpereHour,
    /// Revolutions a minute.
    #[serde(rename = "rpm")]
    RevolutionsPerMinute,
    /// Revolutions a second.
    #[serde(rename = "1/s")]
    RevolutionsPerSecond,
    /// Percent.
    #[serde(rename = "%")]
    Percent,
    /// A part of one.
    #[serde(rename = "ratio")]
    Ratio,
    /// Degree Celsius.
    #[serde(rename = "C")]
    Celsius,
    /// Degree Fahrenheit.
    #[serde(rename = "F")]
    Fahrenheit,
    /// Kelvin.
    #[serde(rename = "K")]
    Kelvin,
    /// Metre a second squared.
    #[serde(rename = "m/s2")]
    MetrePerSecondSquared,
    /// Standard acceleration of free fall.
    #[serde(rename = "g")]
    StandardGravity,
    /// Metre.
    #[serde(rename = "m")]
    Metre,
    /// Foot.
    #[serde(rename = "ft")]
    Foot,
    /// Metre a second.
    #[serde(rename = "m/s")]
    MetrePerSecond,
    /// Kilometre an hour.
    #[serde(rename = "km/h")]
    KilometrePerHour,
    /// Mile an hour.
    #[serde(rename = "mph")]
    MilePerHour,
    /// Knot.
    #[serde(rename = "kn")]
    Knot,
    /// As it is.
    #[serde(rename = "")]
    Plain,
}

use LogUnit as U;

impl Quantity {
    /// All that a person may choose from, in that order.
    pub const ALL: [Quantity; 15] = [
        Quantity::Time,
        Quantity::PackVoltage,
        Quantity::PackCurrent,
        Quantity::Power,
        Quantity::Charge,
        Quantity::HeadSpeed,
        Quantity::Throttle,
        Quantity::Ripple,
        Quantity::ReceiverVoltage,
        Quantity::ReceiverCurrent,
        Quantity::Temperature,
        Quantity::Vibration,
        Quantity::Height,
        Quantity::Speed,
        Quantity::Other,
    ];

    /// The units it may be written in, the one that it is kept in first.
    pub fn units(self) -> &'static [LogUnit] {
        match self {
            Quantity::Time | Quantity::Other => &[U::Plain],
            Quantity::PackVoltage | Quantity::Ripple | Quantity::ReceiverVoltage => &[U::Volt, U::Millivolt],
            Quantity::PackCurrent | Quantity::ReceiverCurrent => &[U::Ampere, U::Milliampere],
            Quantity::Power => &[U::Watt, U::Kilowatt],
            Quantity::Charge => &[U::MilliampereHour, U::AmpereHour],
            Quantity::HeadSpeed => &[U::RevolutionsPerMinute, U::RevolutionsPerSecond],
            Quantity::Throttle => &[U::Percent, U::Ratio],
            Quantity::Temperature => &[U::Celsius, U::Fahrenheit, U::Kelvin],
            Quantity::Vibration => &[U::MetrePerSecondSquared, U::StandardGravity],
            Quantity::Height => &[U::Metre, U::Foot],
            Quantity::Speed => &[U::MetrePerSecond, U::KilometrePerHour, U::MilePerHour, U::Knot],
        }
    }

    /// The unit that its values are kept in.
    pub fn unit(self) -> LogUnit {
        self.units()[0]
    }
}

impl LogUnit {
    /// The sign beside a number; empty for a bare one.
    pub fn sign(self) -> &'static str {
        match self {
            U::Volt => "V",
            U::Millivolt => "mV",
            U::Ampere => "A",
            U::Milliampere => "mA",
            U::Watt => "W",
            U::Kilowatt => "kW",
            U::MilliampereHour => "mAh",
            U::AmpereHour => "Ah",
            U::RevolutionsPerMinute => "rpm",
            U::RevolutionsPerSecond => "1/s",
            U::Percent => "%",
            U::Ratio | U::Plain => "",
            U::Celsius => "°C",
            U::Fahrenheit => "°F",
            U::Kelvin => "K",
            U::MetrePerSecondSquared => "m/s²",
            U::StandardGravity => "g",
            U::Metre => "m",
            U::Foot => "ft",
            U::MetrePerSecond => "m/s",
            U::KilometrePerHour => "km/h",
            U::MilePerHour => "mph",
            U::Knot => "kn",
        }
    }

    /// The same unit among those of the journal, in which a person's choice of units is made; none where it has none.
    pub fn recorded(self) -> Option<Unit> {
        Some(match self {
            U::Volt => Unit::Volt,
            U::Ampere => Unit::Ampere,
            U::Watt => Unit::Watt,
            U::MilliampereHour => Unit::MilliampereHour,
            U::RevolutionsPerMinute => Unit::RevolutionsPerMinute,
            U::Percent => Unit::Percent,
            U::Celsius => Unit::Celsius,
            U::Metre => Unit::Metre,
            U::MetrePerSecond => Unit::MetrePerSecond,
            _ => return None,
        })
    }

    /// Factor and offset to the unit that the quantity is kept in: `kept = factor x written + offset`.
    ///
    /// Exact by definition: the foot, the mile and the knot (international), the standard acceleration (ISO 80000-3),
    /// 0 deg C = 273.15 K.
    pub fn to_kept(self) -> (f64, f64) {
        match self {
            U::Millivolt | U::Milliampere => (1e-3, 0.0),
            U::Kilowatt | U::AmpereHour => (1e3, 0.0),
            U::RevolutionsPerSecond => (60.0, 0.0),
            U::Ratio => (100.0, 0.0),
            U::Fahrenheit => (5.0 / 9.0, -160.0 / 9.0),
            U::Kelvin => (1.0, -273.15),
            U::StandardGravity => (9.806_65, 0.0),
            U::Foot => (0.3048, 0.0),
            U::KilometrePerHour => (1.0 / 3.6, 0.0),
            U::MilePerHour => (0.447_04, 0.0),
            U::Knot => (1852.0 / 3600.0, 0.0),
            _ => (1.0, 0.0),
        }
    }

    /// The unit that a header's text means, `None` where it means none of these.
    pub fn of_text(text: &str) -> Option<LogUnit> {
        // Volt and ampere hour by their case would be read wrongly from headers in capitals: case counts for none of them.
        Some(match text.trim().trim_end_matches('.').to_lowercase().as_str() {
            "v" | "volt" | "volts" => U::Volt,
            "mv" => U::Millivolt,
            "a" | "amp" | "amps" | "ampere" => U::Ampere,
            "ma" => U::Milliampere,
            "w" | "watt" | "watts" => U::Watt,
            "kw" => U::Kilowatt,
            "mah" => U::MilliampereHour,
            "ah" => U::AmpereHour,
            "rpm" | "1/min" | "u/min" | "min-1" | "/min" | "r/min" => U::RevolutionsPerMinute,
            "1/s" | "hz" | "rps" | "s-1" => U::RevolutionsPerSecond,
            "%" | "percent" | "pct" => U::Percent,
            "°c" | "c" | "degc" | "deg c" | "celsius" | "\u{2103}" | "ºc" => U::Celsius,
            "°f" | "f" | "degf" | "deg f" | "fahrenheit" | "ºf" => U::Fahrenheit,
            "k" | "kelvin" => U::Kelvin,
            "m/s2" | "m/s²" | "m/s^2" => U::MetrePerSecondSquared,
            "g" => U::StandardGravity,
            "m" | "metre" | "meter" => U::Metre,
            "ft" | "feet" => U::Foot,
            "m/s" | "mps" => U::MetrePerSecond,
            "km/h" | "kmh" | "kph" => U::KilometrePerHour,
            "mph" => U::MilePerHour,
            "kn" | "kt" | "kts" | "knots" => U::Knot,
            _ => return None,
        })
    }
}

/// A first guess at where a temperature was taken, for the person to correct: the id that a plan gives such a place.
pub(super) fn guess_place(name: &str) -> Option<&'static str> {
    let name = name.to_lowercase();
    let has = |words: &[&str]| words.iter().any(|word| name.contains(word));
    let parts = || name.split(|c: char| !c.is_alphanumeric());
    // Short words stand alone or at the end or the beginning of another: a word that merely holds them is none.
    let is =
        |words: &[&str]| parts().any(|part| words.iter().any(|word| part.starts_with(word) || part.ends_with(word)));
    // The special before the general: a servo's motor is the servo, a voltage regulator no motor controller.
    if has(&["servo"]) {
        has(&["tail", "heck"]).then_some("tail-servo")
    } else if is(&["bec"]) || has(&["regulator", "spannungsregler"]) {
        Some("regulator")
    } else if is(&["esc"]) || has(&["controller", "regler", "steller"]) {
        Some("controller")
    } else if has(&["motor"]) {
        Some("motor")
    } else if is(&["bat", "lipo"]) || has(&["akku", "batt", "pack"]) {
        Some("pack")
    } else {
        None
    }
}

/// A first guess at what a header means, for the person to correct: words of the trade in English and German, and the unit.
pub(super) fn guess(name: &str, unit: Option<LogUnit>) -> Option<Quantity> {
    let name = name.to_lowercase();
    let has = |words: &[&str]| words.iter().any(|word| name.contains(word));
    let receiver = has(&["rx", "receiver", "bec", "empf", "servo"]);
    let found = if has(&["ripple", "welligkeit"]) {
        Quantity::Ripple
    } else if has(&["temp"]) || matches!(unit, Some(U::Celsius | U::Fahrenheit)) {
        Quantity::Temperature
    } else if has(&["mah", "charge", "capacity", "kapaz", "consum", "verbrauch"])
        || matches!(unit, Some(U::MilliampereHour | U::AmpereHour))
    {
        Quantity::Charge
    } else if has(&["volt", "spannung"]) || matches!(unit, Some(U::Volt)) {
        if receiver { Quantity::ReceiverVoltage } else { Quantity::PackVoltage }
    } else if has(&["current", "strom", "amp"]) || matches!(unit, Some(U::Ampere | U::Milliampere)) {
        if receiver { Quantity::ReceiverCurrent } else { Quantity::PackCurrent }
    } else if has(&["power", "leistung"]) || matches!(unit, Some(U::Watt | U::Kilowatt)) {
        Quantity::Power
    } else if has(&["rpm", "rotor", "head speed", "headspeed", "drehzahl"])
        || matches!(unit, Some(U::RevolutionsPerMinute))
    {
        Quantity::HeadSpeed
    } else if has(&["throttle", "pwm", "gas"]) {
        Quantity::Throttle
    } else if has(&["vib", "accel"]) || matches!(unit, Some(U::MetrePerSecondSquared)) {
        Quantity::Vibration
    } else if has(&["alt", "height", "höhe"]) {
        Quantity::Height
    } else if has(&["speed", "geschw"]) || matches!(unit, Some(U::KilometrePerHour | U::MetrePerSecond)) {
        Quantity::Speed
    } else {
        return None;
    };
    // A guess whose unit contradicts it is none.
    match unit {
        Some(unit) if unit != U::Plain && !found.units().contains(&unit) => None,
        _ => Some(found),
    }
}
