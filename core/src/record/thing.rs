use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::ThingNumber;
use crate::locale::{Locale, say};
use crate::unit::Unit;

/// The kinds of things that belong to an aircraft besides its figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ThingKind {
    /// A source of voltage for receiver, servos and accessories.
    Supply,
    /// Whatever draws from a supply.
    Consumer,
    /// A flight pack.
    Pack,
    /// One support's scale reading.
    Weighing,
    /// A part that is not fitted yet and will be.
    ToCome,
    /// A place where ballast may sit.
    BallastPlace,
    /// A regulator between a source and what it feeds.
    Regulator,
    /// A run of wire, out and back.
    Wire,
    /// One main blade on the bench.
    Blade,
    /// A natural frequency that was measured.
    Natural,
    /// One reading of a part's temperature in a run on the bench.
    HeatReading,
    /// What was measured on a flight pack at one point of its life.
    PackReading,
    /// What a log or a meter showed on the main pack's leads under one load.
    LoadReading,
    /// Vibration without and with a trial weight on the rotor.
    TrialRun,
    /// What has to be in hand before it flies, good to a last day: a registration, an insurance, a permission, a marking.
    Paper,
}

/// What describing a thing, or taking one off the list, says of the aircraft itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum OnAircraft {
    /// Recorded before it was asked: the aircraft may have been changed.
    #[default]
    NotSaid,
    /// Nothing: it is as it was, and what is written down of it is new or was wrong.
    AsItWas,
    /// Something was fitted, changed or taken off.
    Changed,
}

impl OnAircraft {
    pub(super) fn is_not_said(&self) -> bool {
        *self == OnAircraft::NotSaid
    }
}

/// Names one thing: its kind and its name.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct ThingRef {
    /// What kind of thing.
    pub kind: ThingKind,
    /// Its name, unique within its kind.
    pub name: String,
}

/// A thing with its numbers, in the order and units of [`ThingKind::fields`].
///
/// Kept as named numbers rather than as a type for each kind: a form, a stored form and a journal of years stay
/// readable when a field is added, and [`Thing::number`] names the field that is missing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Thing {
    /// What kind of thing.
    pub kind: ThingKind,
    /// Its name, unique within its kind.
    pub name: String,
    /// Another thing that it hangs on: a consumer's supply.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// Field id to value.
    pub numbers: std::collections::BTreeMap<String, f64>,
    /// Of a paper, the last day on which it is good; none: it has no end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last_day: Option<NaiveDate>,
    /// Of a paper, its number and where it is kept, in the person's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl Thing {
    /// Whether it carries no current at all, though its kind is there to carry some.
    pub fn is_idle(&self) -> bool {
        let field = match self.kind {
            ThingKind::Consumer => ThingNumber::SteadyA,
            ThingKind::Regulator => ThingNumber::LoadA,
            ThingKind::Wire => ThingNumber::CurrentA,
            _ => return false,
        };
        self.number(field).is_some_and(|current_a| current_a <= 0.0)
    }

    /// Its reference.
    pub fn reference(&self) -> ThingRef {
        ThingRef { kind: self.kind, name: self.name.clone() }
    }

    /// Whether it can mean that the aircraft was changed where a thing was one way and is another: what is fitted or flown, and no reading.
    /// A part to come is not on it until it is taken off that list; a place for ballast changes it by what is fitted there.
    pub fn may_change_aircraft(old: Option<&Thing>, new: Option<&Thing>) -> bool {
        let Some(kind) = new.or(old).map(|thing| thing.kind).filter(|_| old != new) else { return false };
        let fitted_g =
            |thing: Option<&Thing>| thing.and_then(|thing| thing.number(ThingNumber::FittedG)).unwrap_or_default();
        match kind {
            ThingKind::Supply
            | ThingKind::Consumer
            | ThingKind::Regulator
            | ThingKind::Wire
            | ThingKind::Blade
            | ThingKind::Pack => true,
            ThingKind::ToCome => new.is_none(),
            ThingKind::BallastPlace => fitted_g(old).total_cmp(&fitted_g(new)).is_ne(),
            ThingKind::Weighing
            | ThingKind::Natural
            | ThingKind::HeatReading
            | ThingKind::PackReading
            | ThingKind::LoadReading
            | ThingKind::TrialRun
            | ThingKind::Paper => false,
        }
    }

    /// What is written down of it besides its numbers: of a paper its last day, or that it has none, and its note.
    pub fn beside_numbers(&self, locale: Locale) -> Vec<String> {
        if self.kind != ThingKind::Paper {
            return Vec::new();
        }
        let good = match self.last_day {
            Some(day) => say!(locale, "thing-good-to", day = locale.date(day)),
            None => say!(locale, "thing-no-end"),
        };
        [good].into_iter().chain(self.note.clone()).collect()
    }

    /// A field's number, `None` where it was not entered.
    pub fn number(&self, number: ThingNumber) -> Option<f64> {
        self.numbers.get(number.as_str()).copied()
    }
}

/// One number of a thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThingField {
    /// Which one it is.
    pub number: ThingNumber,
    /// The key of what it is, for a person.
    key: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// The plausible range, inclusive.
    pub range: (f64, f64),
    /// Whether the thing is of no use without it.
    pub required: bool,
    /// The keys of what it may be, where it is one of a few and no quantity: the first is recorded as 1.
    choices: &'static [&'static str],
    /// Whether things of one make share it: what a maker rates, and no reading of this one, no place of its own.
    pub alike: bool,
}

const fn field(
    number: ThingNumber,
    key: &'static str,
    unit: Unit,
    low: f64,
    high: f64,
    required: bool,
) -> ThingField {
    ThingField { number, key, unit, range: (low, high), required, choices: &[], alike: false }
}

const fn choice(number: ThingNumber, key: &'static str, choices: &'static [&'static str]) -> ThingField {
    let range = (1.0, choices.len() as f64);
    ThingField { number, key, unit: Unit::Count, range, required: true, choices, alike: false }
}

impl ThingField {
    const fn alike(self) -> ThingField {
        ThingField { alike: true, ..self }
    }

    /// Its id in [`Thing::numbers`].
    pub const fn id(&self) -> &'static str {
        self.number.as_str()
    }

    /// What it is, for a person.
    pub fn label(&self, locale: Locale) -> String {
        locale.text(self.key, &[])
    }

    /// What it may be, in words, each with the number that is recorded for it; none of a quantity.
    pub fn choices(&self, locale: Locale) -> Vec<(u8, String)> {
        (1..).zip(self.choices).map(|(number, key)| (number, locale.text(key, &[]))).collect()
    }

    /// Its value as a person reads it.
    pub fn shown(&self, value: f64, locale: Locale) -> String {
        let chosen = self.choices(locale).into_iter().find(|(number, _)| f64::from(*number) == value);
        chosen.map_or_else(|| locale.quantity(value, self.unit), |(_, word)| word)
    }
}

const SUPPLY: &[ThingField] = &[
    field(ThingNumber::FullV, "field-voltage-when-full", Unit::Volt, 3.0, 60.0, true).alike(),
    field(ThingNumber::NominalV, "field-voltage-nominal", Unit::Volt, 3.0, 60.0, true).alike(),
    field(ThingNumber::EmptyV, "field-voltage-when-empty", Unit::Volt, 2.0, 60.0, true).alike(),
    field(ThingNumber::ContinuousA, "field-continuous-rating", Unit::Ampere, 0.1, 300.0, true).alike(),
    field(ThingNumber::BurstA, "field-burst-rating", Unit::Ampere, 0.1, 500.0, true).alike(),
    field(ThingNumber::StirringPeakA, "field-peak-all-servos-stirred-unloaded", Unit::Ampere, 0.0, 300.0, false),
    field(ThingNumber::RippleV, "field-ripple-peak-to-peak", Unit::Volt, 0.0, 5.0, false),
];
const CONSUMER: &[ThingField] = &[
    field(ThingNumber::LowV, "field-lowest-voltage-rated", Unit::Volt, 0.5, 60.0, true).alike(),
    field(ThingNumber::HighV, "field-highest-voltage-rated", Unit::Volt, 0.5, 60.0, true).alike(),
    field(ThingNumber::SteadyA, "field-steady-current-each", Unit::Ampere, 0.0, 100.0, true).alike(),
    field(ThingNumber::Quantity, "field-how-many", Unit::Count, 1.0, 20.0, true),
    field(ThingNumber::FaultA, "field-current-when-stalled-each", Unit::Ampere, 0.0, 200.0, false).alike(),
];
const PACK: &[ThingField] = &[
    field(ThingNumber::Cells, "field-cells-in-series", Unit::Count, 1.0, 16.0, true).alike(),
    field(ThingNumber::CapacityMah, "field-capacity", Unit::MilliampereHour, 100.0, 30_000.0, true).alike(),
    field(ThingNumber::MassG, "field-mass", Unit::Gram, 10.0, 5_000.0, false),
    field(ThingNumber::XMm, "field-its-middle-ahead-of-the-main-shaft", Unit::Millimetre, -2_500.0, 2_500.0, false),
    field(ThingNumber::NewMohm, "field-resistance-when-new", Unit::Milliohm, 0.5, 500.0, false),
    field(ThingNumber::FullV, "field-full-cell-if-not", Unit::Volt, 3.5, 4.5, false).alike(),
];
const PACK_READING: &[ThingField] = &[
    field(ThingNumber::Flights, "field-flights-on-it-so-far", Unit::Count, 0.0, 5_000.0, true),
    field(ThingNumber::MeasuredMah, "field-capacity-measured", Unit::MilliampereHour, 50.0, 30_000.0, false),
    field(ThingNumber::NowMohm, "field-resistance", Unit::Milliohm, 0.5, 2_000.0, false),
    field(ThingNumber::LightA, "field-or-from-two-loads-lighter-current", Unit::Ampere, 0.0, 200.0, false),
    field(ThingNumber::LightV, "field-voltage-at-it", Unit::Volt, 2.0, 75.0, false),
    field(ThingNumber::HeavyA, "field-heavier-current", Unit::Ampere, 0.1, 300.0, false),
    field(ThingNumber::HeavyV, "field-voltage-at-that", Unit::Volt, 2.0, 75.0, false),
    field(ThingNumber::SpreadV, "field-cells-apart-when-charged", Unit::Volt, 0.0, 1.0, false),
    field(ThingNumber::HotCellK, "field-hottest-cell-above-the-rest", Unit::Kelvin, 0.0, 60.0, false),
    field(ThingNumber::RestLowV, "field-lowest-cell-at-rest-after-the-flight", Unit::Volt, 2.0, 4.5, false),
    field(ThingNumber::RestHighV, "field-highest-cell-at-rest-after-the-flight", Unit::Volt, 2.0, 4.5, false),
];
const LOAD_READING: &[ThingField] = &[
    field(ThingNumber::CurrentA, "field-current", Unit::Ampere, 0.1, 500.0, true),
    field(ThingNumber::VoltageV, "field-voltage-of-the-whole-string", Unit::Volt, 3.0, 120.0, true),
    field(ThingNumber::RippleV, "field-ripple-peak-to-peak", Unit::Volt, 0.0, 20.0, true),
];
const TRIAL_RUN: &[ThingField] = &[
    choice(
        ThingNumber::Turns,
        "field-rotor-seen-from-above",
        &["field-turns-clockwise", "field-turns-anticlockwise"],
    ),
    choice(
        ThingNumber::Counted,
        "field-weights-angle-seen-from-above",
        &["field-grows-clockwise", "field-grows-anticlockwise"],
    ),
    choice(ThingNumber::Later, "field-phase-of-a-later-peak", &["field-more-degrees", "field-fewer-degrees"]),
    field(
        ThingNumber::FirstMmS,
        "field-vibration-without-the-weight-rms",
        Unit::MillimetrePerSecond,
        0.01,
        200.0,
        true,
    ),
    field(ThingNumber::FirstDeg, "field-its-phase", Unit::Degree, -360.0, 360.0, true),
    field(ThingNumber::TrialG, "field-trial-weight", Unit::Gram, 0.05, 200.0, true),
    field(ThingNumber::TrialDeg, "field-angle-where-it-sits", Unit::Degree, -360.0, 360.0, true),
    field(ThingNumber::WithMmS, "field-vibration-with-the-weight-rms", Unit::MillimetrePerSecond, 0.0, 200.0, true),
    field(ThingNumber::WithDeg, "field-its-phase-then", Unit::Degree, -360.0, 360.0, true),
];
const PLACE_X: ThingField =
    field(ThingNumber::XMm, "field-ahead-of-the-main-shaft", Unit::Millimetre, -2_500.0, 2_500.0, true);
const PLACE_Y: ThingField =
    field(ThingNumber::YMm, "field-right-of-the-main-shaft", Unit::Millimetre, -1_000.0, 1_000.0, true);
const PLACE_Z: ThingField =
    field(ThingNumber::ZMm, "field-above-the-feet-of-the-scales", Unit::Millimetre, -500.0, 1_500.0, false);
const WEIGHING: &[ThingField] = &[
    field(ThingNumber::MassG, "field-scale-reading", Unit::Gram, 1.0, 20_000.0, true),
    PLACE_X,
    PLACE_Y,
    field(ThingNumber::TiltedG, "field-the-same-with-the-nose-raised", Unit::Gram, 0.0, 20_000.0, false),
];
const TO_COME: &[ThingField] =
    &[field(ThingNumber::MassG, "field-mass", Unit::Gram, 1.0, 5_000.0, true), PLACE_X, PLACE_Y, PLACE_Z];
const BALLAST_PLACE: &[ThingField] = &[
    PLACE_X,
    PLACE_Y,
    field(ThingNumber::LimitG, "field-most-it-may-carry", Unit::Gram, 1.0, 3_000.0, true),
    field(ThingNumber::FittedG, "field-fitted-there-since-the-weighing", Unit::Gram, 0.0, 3_000.0, false),
];

const REGULATOR: &[ThingField] = &[
    field(ThingNumber::InputV, "field-voltage-in", Unit::Volt, 1.0, 75.0, true).alike(),
    field(ThingNumber::OutputV, "field-voltage-out", Unit::Volt, 1.0, 60.0, true).alike(),
    field(ThingNumber::LoadA, "field-current-out", Unit::Ampere, 0.0, 100.0, true),
    field(ThingNumber::Efficiency, "field-efficiency-if-it-switches", Unit::Percent, 30.0, 100.0, false).alike(),
    field(ThingNumber::DropoutV, "field-least-difference-if-it-is-linear", Unit::Volt, 0.0, 10.0, false).alike(),
    field(ThingNumber::RiseKPerW, "field-rise-for-each-watt-from-the-maker", Unit::KelvinPerWatt, 0.1, 500.0, true)
        .alike(),
    field(ThingNumber::LimitC, "field-its-limit-temperature", Unit::Celsius, 40.0, 180.0, true).alike(),
];
const WIRE: &[ThingField] = &[
    // One of the two is wanted.
    field(ThingNumber::Gauge, "field-gauge-awg", Unit::Count, 0.0, 40.0, false).alike(),
    field(ThingNumber::AreaMm2, "field-or-cross-section", Unit::SquareMillimetre, 0.01, 120.0, false).alike(),
    field(ThingNumber::LengthM, "field-length-one-way", Unit::Metre, 0.01, 10.0, true).alike(),
    field(ThingNumber::CurrentA, "field-continuous-current", Unit::Ampere, 0.0, 300.0, true),
    field(ThingNumber::SourceV, "field-voltage-of-its-source", Unit::Volt, 1.0, 75.0, true).alike(),
    field(ThingNumber::InsulationC, "field-insulation-rated-for", Unit::Celsius, 60.0, 300.0, false).alike(),
    field(ThingNumber::OutsideMm, "field-outside-diameter", Unit::Millimetre, 0.2, 40.0, false).alike(),
];
const BLADE: &[ThingField] = &[
    field(ThingNumber::MassG, "field-mass", Unit::Gram, 1.0, 5_000.0, true),
    field(
        ThingNumber::BalancePointMm,
        "field-balance-point-from-the-bolt-hole",
        Unit::Millimetre,
        1.0,
        2_000.0,
        true,
    ),
];
const NATURAL: &[ThingField] = &[
    field(ThingNumber::FrequencyHz, "field-frequency", Unit::Hertz, 0.2, 2_000.0, true),
    field(ThingNumber::HalfWidthHz, "field-known-to-plus-or-minus", Unit::Hertz, 0.0, 100.0, false),
    field(ThingNumber::Amplification, "field-swing-at-resonance-over-the-still-push", Unit::Ratio, 1.0, 500.0, false),
];
const PAPER: &[ThingField] = &[choice(
    ThingNumber::Sort,
    "field-what-paper-it-is",
    &["field-registration", "field-insurance", "field-permission", "field-marking"],
)];
const HEAT_READING: &[ThingField] = &[
    field(ThingNumber::TimeS, "field-time-since-the-start", Unit::Second, 0.0, 7_200.0, true),
    field(ThingNumber::TemperatureC, "field-temperature", Unit::Celsius, -40.0, 200.0, true),
];

impl ThingKind {
    /// All kinds in the order that they are shown.
    pub const ALL: [ThingKind; 15] = [
        ThingKind::Supply,
        ThingKind::Consumer,
        ThingKind::Pack,
        ThingKind::Weighing,
        ThingKind::ToCome,
        ThingKind::BallastPlace,
        ThingKind::Regulator,
        ThingKind::Wire,
        ThingKind::Blade,
        ThingKind::Natural,
        ThingKind::HeatReading,
        ThingKind::PackReading,
        ThingKind::LoadReading,
        ThingKind::TrialRun,
        ThingKind::Paper,
    ];

    /// The numbers that describe a thing of this kind.
    pub fn fields(self) -> &'static [ThingField] {
        match self {
            ThingKind::Supply => SUPPLY,
            ThingKind::Consumer => CONSUMER,
            ThingKind::Pack => PACK,
            ThingKind::Weighing => WEIGHING,
            ThingKind::ToCome => TO_COME,
            ThingKind::BallastPlace => BALLAST_PLACE,
            ThingKind::Regulator => REGULATOR,
            ThingKind::Wire => WIRE,
            ThingKind::Blade => BLADE,
            ThingKind::Natural => NATURAL,
            ThingKind::HeatReading => HEAT_READING,
            ThingKind::PackReading => PACK_READING,
            ThingKind::LoadReading => LOAD_READING,
            ThingKind::TrialRun => TRIAL_RUN,
            ThingKind::Paper => PAPER,
        }
    }

    /// Pairs of its numbers of which the first never lies above the second.
    pub fn rising(self) -> &'static [(ThingNumber, ThingNumber)] {
        match self {
            ThingKind::Supply => {
                &[(ThingNumber::NominalV, ThingNumber::FullV), (ThingNumber::EmptyV, ThingNumber::NominalV)]
            }
            ThingKind::Consumer => &[(ThingNumber::LowV, ThingNumber::HighV)],
            _ => &[],
        }
    }

    /// How this number of it is entered; none where its kind has none such.
    pub fn field(self, number: ThingNumber) -> Option<&'static ThingField> {
        self.fields().iter().find(|field| field.number == number)
    }

    /// Whether things of this kind share any of their numbers.
    pub fn may_be_alike(self) -> bool {
        self.fields().iter().any(|field| field.alike)
    }

    /// The words for one of them.
    pub fn word(self, locale: Locale) -> String {
        match self {
            ThingKind::Supply => say!(locale, "thing-supply"),
            ThingKind::Consumer => say!(locale, "thing-consumer"),
            ThingKind::Pack => say!(locale, "thing-pack"),
            ThingKind::Weighing => say!(locale, "thing-weighing"),
            ThingKind::ToCome => say!(locale, "thing-to-come"),
            ThingKind::BallastPlace => say!(locale, "thing-ballast-place"),
            ThingKind::Regulator => say!(locale, "thing-regulator"),
            ThingKind::Wire => say!(locale, "thing-wire"),
            ThingKind::Blade => say!(locale, "thing-blade"),
            ThingKind::Natural => say!(locale, "thing-natural"),
            ThingKind::HeatReading => say!(locale, "thing-heat-reading"),
            ThingKind::PackReading => say!(locale, "thing-pack-reading"),
            ThingKind::LoadReading => say!(locale, "thing-load-reading"),
            ThingKind::TrialRun => say!(locale, "thing-trial-run"),
            ThingKind::Paper => say!(locale, "thing-paper"),
        }
    }

    /// The words for several of them.
    pub fn words(self, locale: Locale) -> String {
        match self {
            ThingKind::Supply => say!(locale, "things-supply"),
            ThingKind::Consumer => say!(locale, "things-consumer"),
            ThingKind::Pack => say!(locale, "things-pack"),
            ThingKind::Weighing => say!(locale, "things-weighing"),
            ThingKind::ToCome => say!(locale, "things-to-come"),
            ThingKind::BallastPlace => say!(locale, "things-ballast-place"),
            ThingKind::Regulator => say!(locale, "things-regulator"),
            ThingKind::Wire => say!(locale, "things-wire"),
            ThingKind::Blade => say!(locale, "things-blade"),
            ThingKind::Natural => say!(locale, "things-natural"),
            ThingKind::HeatReading => say!(locale, "things-heat-reading"),
            ThingKind::PackReading => say!(locale, "things-pack-reading"),
            ThingKind::LoadReading => say!(locale, "things-load-reading"),
            ThingKind::TrialRun => say!(locale, "things-trial-run"),
            ThingKind::Paper => say!(locale, "things-paper"),
        }
    }

    /// What evidence rests on when it rests on things of this kind.
    pub fn subject(self) -> &'static str {
        match self {
            ThingKind::Supply | ThingKind::Consumer | ThingKind::Regulator => "supplies",
            ThingKind::Wire => "wiring",
            ThingKind::Blade => "part:main-blades",
            ThingKind::Natural => "frequencies",
            ThingKind::HeatReading => "heat",
            ThingKind::PackReading => "pack-readings",
            ThingKind::LoadReading => "load-readings",
            ThingKind::TrialRun => "trial-runs",
            ThingKind::Paper => "papers",
            ThingKind::Pack => "packs",
            ThingKind::Weighing | ThingKind::ToCome | ThingKind::BallastPlace => "mass",
        }
    }

    /// What a thing of this kind hangs on, and how that is asked: a consumer is fed by a supply.
    pub fn hangs_on(self, locale: Locale) -> Option<(ThingKind, String)> {
        match self {
            ThingKind::Consumer => Some((ThingKind::Supply, say!(locale, "thing-fed-by"))),
            ThingKind::PackReading => Some((ThingKind::Pack, say!(locale, "thing-of-pack"))),
            _ => None,
        }
    }
}
