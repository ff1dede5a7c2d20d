//! What a person reads where something could not be computed.

use std::fmt;

use crate::engineering::supply::{RailReason, RailState, WindowEdge};
use crate::engineering::{Conflict, EngineeringError};
use crate::locale::{Locale, say};
use crate::unit::Unit;

impl EngineeringError {
    /// What is wrong and what to do about it, as a person reads it.
    pub fn words(&self, locale: Locale) -> String {
        match self {
            EngineeringError::OutOfRange { quantity, value, unit, low, high } => say!(
                locale,
                "engineering-out-of-range",
                quantity = named(locale, quantity),
                value = with_unit(locale, *value, unit),
                low = locale.exact(*low),
                high = with_unit(locale, *high, unit)
            ),
            EngineeringError::NotANumber { quantity } => {
                say!(locale, "engineering-not-a-number", quantity = named(locale, quantity))
            }
            EngineeringError::Count { quantity, count, low, high } => say!(
                locale,
                "engineering-count",
                quantity = named(locale, quantity),
                count = count,
                low = low,
                high = high
            ),
            EngineeringError::Contradiction { what } => what.words(locale),
        }
    }
}

impl Conflict {
    fn words(&self, locale: Locale) -> String {
        let plain = |value: &f64| locale.plain(*value);
        let mm = |value: f64| locale.quantity(value, Unit::Millimetre);
        let celsius = |value: f64| locale.quantity(value, Unit::Celsius);
        let rpm = |value: f64| locale.quantity(value, Unit::RevolutionsPerMinute);
        match self {
            Conflict::BandTooNarrow { x_mm, y_mm } => say!(
                locale,
                "conflict-band-too-narrow",
                x = locale.rounded(*x_mm, 1, Unit::Millimetre),
                y = locale.rounded(*y_mm, 1, Unit::Millimetre)
            ),
            Conflict::NoMass => say!(locale, "conflict-no-mass"),
            Conflict::TiltedSum { tilted_g, level_g } => say!(
                locale,
                "conflict-tilted-sum",
                tilted = locale.rounded(*tilted_g, 0, Unit::Gram),
                level = locale.rounded(*level_g, 0, Unit::Gram)
            ),
            Conflict::MoveCannotReach { from_mm, to_mm, now_mm, required_mm } => say!(
                locale,
                "conflict-move-cannot-reach",
                from = mm(*from_mm),
                to = mm(*to_mm),
                now = mm(*now_mm),
                required = mm(*required_mm)
            ),
            Conflict::BallastCannotReach { arm_mm, now_mm, required_mm } => say!(
                locale,
                "conflict-ballast-cannot-reach",
                arm = mm(*arm_mm),
                now = mm(*now_mm),
                required = mm(*required_mm)
            ),
            Conflict::BallastPlacesTogether => say!(locale, "conflict-ballast-places-together"),
            Conflict::ForeAftBand { low_mm, high_mm } => {
                say!(locale, "conflict-fore-aft-band", low = mm(*low_mm), high = mm(*high_mm))
            }
            Conflict::LateralBand { low_mm, high_mm } => {
                say!(locale, "conflict-lateral-band", low = mm(*low_mm), high = mm(*high_mm))
            }
            Conflict::PartTooHeavy { part_g, aircraft_g } => say!(
                locale,
                "conflict-part-too-heavy",
                part = locale.quantity(*part_g, Unit::Gram),
                aircraft = locale.quantity(*aircraft_g, Unit::Gram)
            ),
            Conflict::NoSteadyState => say!(locale, "conflict-no-steady-state"),
            Conflict::ReadingsTooClose => say!(locale, "conflict-readings-too-close"),
            Conflict::NoCooling => say!(locale, "conflict-no-cooling"),
            Conflict::AirflowMixed => say!(locale, "conflict-airflow-mixed"),
            Conflict::AirAtLimit { air_c, limit_c } => {
                say!(locale, "conflict-air-at-limit", air = celsius(*air_c), limit = celsius(*limit_c))
            }
            Conflict::NotHeated { part_c, air_c } => {
                say!(locale, "conflict-not-heated", part = celsius(*part_c), air = celsius(*air_c))
            }
            Conflict::NotHeatedInFlight { rpm: speed_rpm, part_c, air_c } => say!(
                locale,
                "conflict-not-heated-in-flight",
                rpm = rpm(*speed_rpm),
                part = celsius(*part_c),
                air = celsius(*air_c)
            ),
            Conflict::OneCycleCount => say!(locale, "conflict-one-cycle-count"),
            Conflict::StepsDoNotFit => say!(locale, "conflict-steps-do-not-fit"),
            Conflict::DiscTooFull { chord_m, percent, radius_m } => say!(
                locale,
                "conflict-disc-too-full",
                chord = locale.quantity(*chord_m, Unit::Metre),
                percent = locale.number(*percent, 0),
                radius = locale.quantity(*radius_m, Unit::Metre)
            ),
            Conflict::LiftsTooLittle { rpm: speed_rpm, most_kg, mass_kg } => say!(
                locale,
                "conflict-lifts-too-little",
                rpm = rpm(*speed_rpm),
                most = locale.rounded(*most_kg, 1, Unit::Kilogram),
                mass = locale.quantity(*mass_kg, Unit::Kilogram)
            ),
            Conflict::LiftsTooMuch { rpm: speed_rpm, mass_kg } => say!(
                locale,
                "conflict-lifts-too-much",
                rpm = rpm(*speed_rpm),
                mass = locale.quantity(*mass_kg, Unit::Kilogram)
            ),
            Conflict::HeadSpeeds { low_rpm, high_rpm } => {
                say!(locale, "conflict-head-speeds", low = rpm(*low_rpm), high = rpm(*high_rpm))
            }
            Conflict::TrialWeightTooLight => say!(locale, "conflict-trial-weight-too-light"),
            Conflict::Teeth { gear, pinion, by_teeth, entered } => say!(
                locale,
                "conflict-teeth",
                gear = gear,
                pinion = pinion,
                turns = locale.number(*by_teeth, 2),
                entered = locale.plain(*entered)
            ),
            Conflict::MoreUsedThanHeld { used_mah, capacity_mah } => {
                say!(locale, "conflict-more-used-than-held", used = plain(used_mah), capacity = plain(capacity_mah))
            }
            Conflict::VoltageDoesNotFall { low_load_v, low_a, high_load_v, high_a } => say!(
                locale,
                "conflict-voltage-does-not-fall",
                low_v = plain(low_load_v),
                low_a = plain(low_a),
                high_v = plain(high_load_v),
                high_a = plain(high_a)
            ),
            Conflict::NoHeatAllowed { limit_c, ambient_c } => say!(
                locale,
                "conflict-no-heat-allowed",
                limit = locale.quantity(*limit_c, Unit::Celsius),
                air = locale.quantity(*ambient_c, Unit::Celsius)
            ),
            Conflict::LinearCannotRaise { input_v, output_v } => {
                say!(locale, "conflict-linear-cannot-raise", input = plain(input_v), output = plain(output_v))
            }
            Conflict::NoWire { current_a, length_m, source_v } => say!(
                locale,
                "conflict-no-wire",
                current = plain(current_a),
                length = locale.quantity(*length_m, Unit::Metre),
                source = plain(source_v)
            ),
            Conflict::NominalAboveFull { rail, nominal_v, full_v } => {
                say!(
                    locale,
                    "conflict-nominal-above-full",
                    rail = rail,
                    nominal = plain(nominal_v),
                    full = plain(full_v)
                )
            }
            Conflict::EmptyAboveNominal { rail, empty_v, nominal_v } => say!(
                locale,
                "conflict-empty-above-nominal",
                rail = rail,
                empty = plain(empty_v),
                nominal = plain(nominal_v)
            ),
            Conflict::BurstBelowContinuous { rail, burst_a, continuous_a } => say!(
                locale,
                "conflict-burst-below-continuous",
                rail = rail,
                burst = plain(burst_a),
                continuous = plain(continuous_a)
            ),
            Conflict::WindowUpsideDown { consumer, low_v, high_v } => {
                say!(
                    locale,
                    "conflict-window-upside-down",
                    consumer = consumer,
                    low = plain(low_v),
                    high = plain(high_v)
                )
            }
            Conflict::FaultBelowSteady { consumer, fault_a, steady_a } => say!(
                locale,
                "conflict-fault-below-steady",
                consumer = consumer,
                fault = plain(fault_a),
                steady = plain(steady_a)
            ),
        }
    }
}

impl RailState {
    /// The state of a source as a person reads it.
    pub fn words(self, locale: Locale) -> String {
        match self {
            RailState::RippleCrest => say!(locale, "rail-ripple-crest"),
            RailState::Full => say!(locale, "rail-full"),
            RailState::Nominal => say!(locale, "rail-nominal"),
            RailState::Empty => say!(locale, "rail-empty"),
            RailState::RippleTrough => say!(locale, "rail-ripple-trough"),
        }
    }
}

impl RailReason {
    /// What brought the grade, as a person reads it.
    pub fn words(&self, locale: Locale) -> String {
        match self {
            RailReason::Continuous { margin } => say!(
                locale,
                "rail-continuous",
                load = locale.number(margin.load_a, 1),
                rated = locale.number(margin.rated_a, 1)
            ),
            RailReason::Burst { margin } => {
                say!(
                    locale,
                    "rail-burst",
                    load = locale.number(margin.load_a, 1),
                    rated = locale.number(margin.rated_a, 1)
                )
            }
            RailReason::Fault { consumer, margin } => say!(
                locale,
                "rail-fault",
                consumer = consumer,
                load = locale.number(margin.load_a, 1),
                rated = locale.number(margin.rated_a, 1)
            ),
            RailReason::Window { consumer, point } => {
                let (limit, rail) = (locale.number(point.limit_v, 2), locale.number(point.rail_v, 2));
                let state = point.state.words(locale);
                match point.edge {
                    WindowEdge::Low => {
                        say!(locale, "rail-needs", consumer = consumer, limit = limit, rail = rail, state = state)
                    }
                    WindowEdge::High => {
                        say!(locale, "rail-stands", consumer = consumer, limit = limit, rail = rail, state = state)
                    }
                }
            }
            RailReason::Sag { margin } => {
                say!(
                    locale,
                    "rail-sag",
                    low = locale.number(margin.low_v, 2),
                    limit = locale.number(margin.limit_v, 2)
                )
            }
        }
    }
}

/// A quantity's name: the engineering functions know it in English, the files have it under a key made of that.
fn named(locale: Locale, quantity: &str) -> String {
    locale.text(&quantity_key(quantity), &[])
}

/// The key of a quantity's name: its letters and digits, all else as single hyphens.
pub(crate) fn quantity_key(quantity: &str) -> String {
    let words = quantity.split(|letter: char| !letter.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    words.fold("quantity".to_owned(), |key, word| format!("{key}-{}", word.to_ascii_lowercase()))
}

/// A number and its unit, without a stray space where there is no unit.
fn with_unit(locale: Locale, value: f64, unit: &str) -> String {
    format!("{} {unit}", locale.exact(value)).trim_end().to_owned()
}

/// For logs and developers, in English; a person reads [`EngineeringError::words`].
impl fmt::Display for EngineeringError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}

impl fmt::Display for RailState {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}

impl fmt::Display for RailReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}
