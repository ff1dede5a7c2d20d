use super::{Language, Locale, Measures, TemperatureScale, say};
use crate::unit::Unit;

/// The unit in which a person reads a quantity that is recorded in another one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shown {
    /// The sign beside the number; empty for bare numbers.
    pub sign: &'static str,
    /// Shown units in one recorded unit.
    factor: f64,
    /// What is added after that.
    offset: f64,
    /// Digits that a shown number may have more than a recorded one: pounds are coarser than grams.
    extra_digits: usize,
}

impl Shown {
    /// A quantity that is read in the unit that it is recorded in.
    pub const fn same(sign: &'static str) -> Shown {
        Shown { sign, factor: 1.0, offset: 0.0, extra_digits: 0 }
    }

    /// A recorded value as it is shown.
    pub fn out(self, recorded: f64) -> f64 {
        if self.factor == 1.0 && self.offset == 0.0 { recorded } else { recorded * self.factor + self.offset }
    }

    /// A shown value as it is recorded.
    pub fn back(self, shown: f64) -> f64 {
        if self.factor == 1.0 && self.offset == 0.0 { shown } else { (shown - self.offset) / self.factor }
    }

    /// A recorded difference as it is shown: a scale's zero does not matter to it.
    pub fn difference_out(self, recorded: f64) -> f64 {
        if self.factor == 1.0 { recorded } else { recorded * self.factor }
    }

    /// Whether it is recorded as it is shown.
    pub fn is_as_recorded(self) -> bool {
        self.factor == 1.0 && self.offset == 0.0
    }
}

// The international yard and pound agreement of 1959: 1 in is 25.4 mm, 1 lb is 0.453 592 37 kg, 1 oz a sixteenth of it.
const KILOGRAMS_IN_A_POUND: f64 = 0.453_592_37;
const GRAMS_IN_AN_OUNCE: f64 = 1_000.0 * KILOGRAMS_IN_A_POUND / 16.0;
const MILLIMETRES_IN_AN_INCH: f64 = 25.4;
const METRES_IN_A_FOOT: f64 = 0.3048;

impl Locale {
    /// The unit in which a quantity that is recorded in `unit` is read and typed.
    pub fn shown(self, unit: Unit) -> Shown {
        let imperial = self.measures == Measures::Imperial;
        let fahrenheit = self.temperature == TemperatureScale::Fahrenheit;
        let scaled = |sign, factor, extra_digits| Shown { sign, factor, offset: 0.0, extra_digits };
        match unit {
            Unit::Celsius if fahrenheit => Shown { sign: "°F", factor: 1.8, offset: 32.0, extra_digits: 0 },
            // A difference: 1 K is 1.8 °F, and no zero comes into it.
            Unit::Kelvin if fahrenheit => scaled("°F", 1.8, 0),
            Unit::KelvinPerWatt if fahrenheit => scaled("°F/W", 1.8, 0),
            Unit::Kilogram if imperial => scaled("lb", 1.0 / KILOGRAMS_IN_A_POUND, 0),
            Unit::Gram if imperial => scaled("oz", 1.0 / GRAMS_IN_AN_OUNCE, 2),
            Unit::Metre if imperial => scaled("ft", 1.0 / METRES_IN_A_FOOT, 0),
            Unit::Millimetre if imperial => scaled("in", 1.0 / MILLIMETRES_IN_AN_INCH, 2),
            Unit::MillimetrePerSecond if imperial => scaled("in/s", 1.0 / MILLIMETRES_IN_AN_INCH, 2),
            Unit::MetrePerSecond if imperial => scaled("ft/s", 1.0 / METRES_IN_A_FOOT, 0),
            Unit::GramMillimetre if imperial => {
                scaled("oz in", 1.0 / (GRAMS_IN_AN_OUNCE * MILLIMETRES_IN_AN_INCH), 3)
            }
            Unit::RevolutionsPerMinute if self.language == Language::German => Shown::same("U/min"),
            Unit::RevolutionsPerMinutePerVolt if self.language == Language::German => Shown::same("U/min/V"),
            // Packs and leads have some milliohms: one unit for all, so that two lines of a screen can be held against each other.
            Unit::Ohm => scaled(Unit::Milliohm.sign(), 1_000.0, 0),
            other => Shown::same(other.sign()),
        }
    }

    /// A number with `digits` behind the language's decimal mark, in the unit that it is in.
    pub fn number(self, value: f64, digits: usize) -> String {
        self.mark(format!("{value:.digits$}"))
    }

    /// So many bytes in what people call megabytes, with two digits that count at the least.
    pub fn megabytes(self, bytes: u64) -> String {
        const MEGABYTE: f64 = 1e6;
        let megabytes = bytes as f64 / MEGABYTE;
        let digits = match megabytes {
            m if m < 1.0 => 2,
            m if m < 10.0 => 1,
            _ => 0,
        };
        self.number(megabytes, digits)
    }

    /// A number without trailing zeros, at most three decimals, in the unit that it is in.
    pub fn plain(self, value: f64) -> String {
        self.mark(crate::unit::show_number(value))
    }

    /// A number with all its digits, in the unit that it is in: a limit of a ten thousandth must not read as zero.
    pub fn exact(self, value: f64) -> String {
        self.mark(value.to_string())
    }

    /// A recorded value in the unit that the person reads, with as many digits as `digits` of the recorded unit mean.
    /// Without the sign: where a screen shows it beside the number.
    pub fn bare(self, value: f64, digits: usize, unit: Unit) -> String {
        let shown = self.shown(unit);
        self.number(shown.out(value), digits + shown.extra_digits)
    }

    /// The same with its sign: `83.5 °C`, `182.3 °F`, `83,5 °C`.
    pub fn rounded(self, value: f64, digits: usize, unit: Unit) -> String {
        with_sign(self.bare(value, digits, unit), self.shown(unit).sign)
    }

    /// A recorded value and its sign as a person reads it, without trailing zeros: `83.5 °C`, `12`, `40 %`.
    pub fn quantity(self, value: f64, unit: Unit) -> String {
        with_sign(self.quantity_bare(value, unit), self.shown(unit).sign)
    }

    /// The same without its sign: what stands in a field beside its unit.
    pub fn quantity_bare(self, value: f64, unit: Unit) -> String {
        self.plain(self.shown(unit).out(value))
    }

    /// What was typed in the unit that the person reads, as it is recorded; `None` if it is no number. Point and comma
    /// both are the decimal mark, whatever the language: a keypad has the one or the other.
    pub fn read(self, text: &str, unit: Unit) -> Option<f64> {
        let shown = self.shown(unit);
        let value = shown.back(parse_number(text)?);
        // Far finer than any instrument here: takes away what the conversion left behind, so that 70 °F is 21.111111 °C.
        Some(if shown.is_as_recorded() { value } else { (value * 1e6).round() / 1e6 })
    }

    /// How far one touch moves a number in the unit that the person reads, where it moves a recorded one by `step`: the next
    /// lower of 1, 2 or 5 times a power of ten, as an instrument is marked.
    pub fn step(self, step: f64, unit: Unit) -> f64 {
        let shown = self.shown(unit);
        if shown.is_as_recorded() {
            return step;
        }
        let wanted = shown.difference_out(step);
        let decade = 10_f64.powf(wanted.log10().floor());
        let marked = [5.0, 2.0, 1.0].into_iter().find(|mark| mark * decade <= wanted * (1.0 + 1e-9)).unwrap_or(1.0);
        marked * decade
    }

    /// Where a number starts that is moved by such steps: the recorded start, on the nearest mark.
    pub fn start(self, start: f64, step: f64, unit: Unit) -> f64 {
        let shown = self.shown(unit);
        if shown.is_as_recorded() {
            return start;
        }
        let step = self.step(step, unit);
        (shown.out(start) / step).round() * step
    }

    /// A unit as a screen reader should say it; empty for bare numbers.
    pub fn spoken(self, unit: Unit) -> String {
        match self.shown(unit).sign {
            "°F" if unit == Unit::Celsius => say!(self, "unit-degrees-fahrenheit"),
            "°F" => say!(self, "unit-degrees-fahrenheit-difference"),
            "°F/W" => say!(self, "unit-degrees-fahrenheit-per-watt"),
            "lb" => say!(self, "unit-pounds"),
            "oz" => say!(self, "unit-ounces"),
            "ft" => say!(self, "unit-feet"),
            "in" => say!(self, "unit-inches"),
            "in/s" => say!(self, "unit-inches-a-second"),
            "ft/s" => say!(self, "unit-feet-a-second"),
            "oz in" => say!(self, "unit-ounce-inches"),
            _ => self.spoken_as_recorded(unit),
        }
    }

    fn spoken_as_recorded(self, unit: Unit) -> String {
        match unit {
            Unit::Kilogram => say!(self, "unit-kilograms"),
            Unit::Gram => say!(self, "unit-grams"),
            Unit::Metre => say!(self, "unit-metres"),
            Unit::Millimetre => say!(self, "unit-millimetres"),
            Unit::SquareMillimetre => say!(self, "unit-square-millimetres"),
            Unit::Volt => say!(self, "unit-volts"),
            Unit::Ampere => say!(self, "unit-amperes"),
            Unit::Watt => say!(self, "unit-watts"),
            Unit::MilliampereHour => say!(self, "unit-milliampere-hours"),
            Unit::Celsius => say!(self, "unit-degrees-celsius"),
            Unit::RevolutionsPerMinute => say!(self, "unit-revolutions-a-minute"),
            Unit::Percent => say!(self, "unit-percent"),
            Unit::Degree => say!(self, "unit-degrees"),
            Unit::Second => say!(self, "unit-seconds"),
            Unit::Minute => say!(self, "unit-minutes"),
            Unit::Newton => say!(self, "unit-newtons"),
            Unit::MillimetrePerSecond => say!(self, "unit-millimetres-a-second"),
            Unit::RevolutionsPerMinutePerVolt => say!(self, "unit-revolutions-a-minute-per-volt"),
            Unit::Hertz => say!(self, "unit-hertz"),
            Unit::MetrePerSecond => say!(self, "unit-metres-a-second"),
            Unit::GramMillimetre => say!(self, "unit-gram-millimetres"),
            Unit::Kelvin => say!(self, "unit-kelvin"),
            Unit::KelvinPerWatt => say!(self, "unit-kelvin-per-watt"),
            Unit::Ohm | Unit::Milliohm => say!(self, "unit-milliohms"),
            Unit::Hectopascal => say!(self, "unit-hectopascals"),
            Unit::Count | Unit::Ratio => String::new(),
        }
    }

    fn mark(self, number: String) -> String {
        match self.language {
            Language::English => number,
            Language::German => number.replace('.', ","),
        }
    }
}

/// A number with its sign: a degree of angle stands close, the others a blank apart.
pub(crate) fn with_sign(number: String, sign: &str) -> String {
    match sign {
        "" => number,
        "°" => format!("{number}°"),
        sign => format!("{number} {sign}"),
    }
}

/// The signs that a keyboard or a typesetter puts for a minus, besides the plain one: the minus sign itself and the en dash.
pub(crate) const TYPESET_MINUS: [char; 2] = ['\u{2212}', '\u{2013}'];

/// Reads a finite number with point or comma, and with any of the signs that a keyboard or a typesetter has for minus.
pub(crate) fn parse_number(text: &str) -> Option<f64> {
    let text = text.trim().replace(',', ".").replace(TYPESET_MINUS, "-");
    text.parse::<f64>().ok().filter(|number| number.is_finite())
}
