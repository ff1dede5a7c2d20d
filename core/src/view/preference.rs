use super::context::paragraph;
use super::{Block, Context, Control, Edge, Edit, Place, Preference, Screen, Tone};
use crate::locale::{Language, Measures, TemperatureScale, say};
use crate::unit::Unit;

/// In what language and in which units this phone speaks. Each choice holds at once, on every screen.
pub(super) fn preference(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let chip = |preference: Preference, label: String, chosen: bool| {
        Control::new(Edit::Prefer(preference).into(), label).chosen(chosen)
    };
    // A language is written in itself: whoever strayed into the other one finds the way back.
    let languages = [(Language::English, "English"), (Language::German, "Deutsch")]
        .map(|(language, name)| chip(Preference::Language(language), name.to_owned(), locale.language == language));
    let scales = [
        (TemperatureScale::Celsius, say!(locale, "preference-celsius")),
        (TemperatureScale::Fahrenheit, say!(locale, "preference-fahrenheit")),
    ]
    .map(|(scale, name)| chip(Preference::Temperature(scale), name, locale.temperature == scale));
    let measures = [
        (Measures::Metric, say!(locale, "preference-metric")),
        (Measures::Imperial, say!(locale, "preference-imperial")),
    ]
    .map(|(measures, name)| chip(Preference::Measures(measures), name, locale.measures == measures));
    let choice = |label: String, options: [Control; 2]| Block::Choice { label, options: options.to_vec() };
    let blocks = vec![
        choice(say!(locale, "preference-language"), languages),
        choice(say!(locale, "preference-temperatures"), scales),
        choice(say!(locale, "preference-measures"), measures),
        paragraph(say!(locale, "preference-recorded-as-ever"), Tone::Quiet),
        paragraph(say!(locale, "preference-half-typed"), Tone::Quiet),
    ];
    context.screen("preference", say!(locale, "preference-title"), None, blocks)
}

/// The row that leads there, with what is chosen now.
pub(super) fn preference_row(context: &Context<'_>) -> Block {
    let locale = context.locale;
    let language = match locale.language {
        Language::English => "English",
        Language::German => "Deutsch",
    };
    let signs = [Unit::Celsius, Unit::Kilogram, Unit::Millimetre].map(|unit| locale.shown(unit).sign).join(", ");
    let now = format!("{language}, {signs}");
    super::context::row(Edge::None, "", say!(locale, "preference-title"), Some(now), Place::Preference)
}
