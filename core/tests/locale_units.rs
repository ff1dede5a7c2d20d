//! Units by choice: shown and read back without loss, by the published factors.
//!
//! NIST SP 811 (2008), Appendix B: 1 lb = 0.453 592 37 kg, 1 ft = 0.3048 m, 1 in = 25.4 mm, all exact; t/°F = 1.8 t/°C + 32.
//! The ounce is a sixteenth of the pound. From memory; the fixed points below are the well-known ones.

#![allow(clippy::unwrap_used)]

use liftgate_core::locale::{Language, Locale, Measures, TemperatureScale};
use liftgate_core::telemetry::Quantity;
use liftgate_core::unit::Unit;
use proptest::prelude::*;

const CHANGED: [Unit; 10] = [
    Unit::Celsius,
    Unit::Kelvin,
    Unit::KelvinPerWatt,
    Unit::Kilogram,
    Unit::Gram,
    Unit::Metre,
    Unit::Millimetre,
    Unit::MillimetrePerSecond,
    Unit::MetrePerSecond,
    Unit::GramMillimetre,
];

fn foreign(language: Language) -> Locale {
    Locale { language, temperature: TemperatureScale::Fahrenheit, measures: Measures::Imperial }
}

#[test]
fn fixed_points_are_shown_as_published() {
    let locale = foreign(Language::English);
    assert_eq!(locale.quantity(0.0, Unit::Celsius), "32 °F");
    assert_eq!(locale.quantity(100.0, Unit::Celsius), "212 °F");
    assert_eq!(locale.quantity(-40.0, Unit::Celsius), "-40 °F");
    assert_eq!(locale.quantity(10.0, Unit::Kelvin), "18 °F", "a difference has no zero");
    assert_eq!(locale.quantity(0.453_592_37, Unit::Kilogram), "1 lb");
    assert_eq!(locale.quantity(28.349_523_125, Unit::Gram), "1 oz");
    assert_eq!(locale.quantity(0.3048, Unit::Metre), "1 ft");
    assert_eq!(locale.quantity(25.4, Unit::Millimetre), "1 in");
    assert_eq!(locale.quantity(83.5, Unit::Volt), "83.5 V", "the rest stays as it is");
    let german = Locale { language: Language::German, ..Locale::default() };
    assert_eq!(german.quantity(83.5, Unit::Celsius), "83,5 °C");
    assert_eq!(german.quantity(1_450.0, Unit::RevolutionsPerMinute), "1450 U/min");
}

#[test]
fn what_a_log_keeps_is_shown_by_the_same_choice() {
    let of = |locale: Locale, quantity: Quantity| quantity.unit().shown_in(locale);
    for quantity in Quantity::ALL {
        let shown = of(Locale::default(), quantity);
        assert_eq!((shown.sign, shown.out(12.5)), (quantity.unit().sign(), 12.5), "as kept: {quantity:?}");
    }
    let locale = foreign(Language::English);
    assert_eq!((of(locale, Quantity::Temperature).sign, of(locale, Quantity::Temperature).out(100.0)), ("°F", 212.0));
    assert!((of(locale, Quantity::Height).out(0.3048) - 1.0).abs() < 1e-12);
    assert_eq!(of(locale, Quantity::Speed).sign, "ft/s");
    assert_eq!(of(foreign(Language::German), Quantity::HeadSpeed).sign, "U/min");
    assert_eq!(of(locale, Quantity::Vibration).sign, "m/s²", "what has no choice stays as it is kept");
}

proptest! {
    #[test]
    fn what_is_shown_reads_back_as_what_is_recorded(value in -20_000.0_f64..20_000.0, german: bool) {
        let language = if german { Language::German } else { Language::English };
        for locale in [foreign(language), Locale { language, ..Locale::default() }] {
            for unit in CHANGED {
                let shown = locale.shown(unit);
                let again = locale.read(&locale.quantity_bare(value, unit), unit).unwrap();
                // Three decimals are shown, and what is read back is rounded far below that.
                let finest = (shown.back(0.0005) - shown.back(0.0)).abs() + 1e-6;
                prop_assert!((again - value).abs() <= finest * 1.001, "{value} {unit:?}: {again}");
            }
        }
    }

    #[test]
    fn what_a_person_types_is_shown_again_as_typed(tenths in -9_999_i32..9_999, german: bool) {
        let language = if german { Language::German } else { Language::English };
        let mark = if german { ',' } else { '.' };
        let sign = if tenths < 0 { "-" } else { "" };
        let text = match tenths.abs() % 10 {
            0 => format!("{sign}{}", tenths.abs() / 10),
            digit => format!("{sign}{}{mark}{digit}", tenths.abs() / 10),
        };
        for locale in [foreign(language), Locale { language, ..Locale::default() }] {
            for unit in CHANGED {
                let recorded = locale.read(&text, unit).unwrap();
                prop_assert_eq!(locale.quantity_bare(recorded, unit), text.clone(), "{:?} by way of {}", unit, recorded);
            }
        }
    }

    #[test]
    fn a_touch_moves_by_a_marked_step_that_is_no_coarser(step in 0.01_f64..100.0) {
        for unit in CHANGED {
            let locale = foreign(Language::English);
            let shown = locale.step(step, unit);
            let wanted = locale.shown(unit).difference_out(step);
            prop_assert!(shown <= wanted * 1.000_001 && shown > wanted / 2.6, "{step} {unit:?}: {shown} for {wanted}");
            let leading = shown / 10_f64.powf(shown.log10().floor());
            prop_assert!([1.0, 2.0, 5.0, 10.0].iter().any(|mark| (leading - mark).abs() < 1e-6), "{shown}");
        }
    }
}
