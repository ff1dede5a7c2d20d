//! The wind: how a card asks for it, by one touch or a meter or not at all, and in words.

use super::stepper::{Stepper, Steps};
use super::{Block, Context, Control, Edit};
use crate::form::CardForm;
use crate::locale::{Locale, say};
use crate::plan::Check;
use crate::record::Wind;
use crate::unit::Unit;

/// What the wind does, a touch each, and what a meter has. Nothing for a run that does not leave the ground.
pub(super) fn told(context: &Context<'_>, check: &Check, wind: Option<Wind>, wrong: Option<&str>) -> Vec<Block> {
    let leaves_ground = check.fly().is_some_and(|fly| fly.motion.leaves_ground());
    if !leaves_ground {
        return Vec::new();
    }
    let locale = context.locale;
    let options = CardForm::FORCES.map(|force| {
        let words = force_words(locale, force);
        let command = Edit::set(CardForm::FORCE, force.to_string());
        let spoken = say!(locale, "card-wind-spoken", words = words);
        Control::new(command.into(), words).spoken(spoken).chosen(wind == Some(Wind::Beaufort(force)))
    });
    let steps = Steps { unit: Unit::MetrePerSecond, step: 0.5, start: CardForm::WIND_START_M_S };
    let meter = Stepper::of(context, CardForm::WIND.to_owned(), say!(locale, "card-wind-measured"), steps);
    let meter = meter.flag(wrong.map(str::to_owned)).hint(say!(locale, "card-wind-measured-how"));
    vec![Block::Choice { label: say!(locale, "card-wind"), options: options.collect() }, meter.block()]
}

/// What a number of the Beaufort scale moves.
fn force_words(locale: Locale, force: u8) -> String {
    match force {
        0 => say!(locale, "wind-calm"),
        1 => say!(locale, "wind-smoke"),
        2 => say!(locale, "wind-face"),
        3 => say!(locale, "wind-twigs"),
        4 => say!(locale, "wind-dust"),
        _ => say!(locale, "wind-trees"),
    }
}

/// A wind in a line: "wind 2 Bft".
pub(crate) fn wind_words(locale: Locale, wind: Wind) -> String {
    match wind {
        Wind::Beaufort(force) => say!(locale, "wind-force", force = locale.number(f64::from(force), 0)),
        Wind::MetresPerSecond(speed_m_s) => {
            say!(locale, "wind-measured", speed = locale.quantity(speed_m_s, Unit::MetrePerSecond))
        }
    }
}
