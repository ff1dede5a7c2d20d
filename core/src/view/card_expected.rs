//! What to expect of a flight, with its interval, and at which number it is called off.

use super::context::{heading, paragraph};
use super::{Block, Context, Edge, Tone};
use crate::computed::{Conditions, ExpectedInFlight, expected_hover, is_too_windy, predicted_charge};
use crate::locale::{Locale, say};
use crate::plan::{Check, Fly, Motion};
use crate::record::Prediction;
use crate::unit::Unit;

/// A flight as its card says so far.
pub(super) struct Planned {
    /// In which conditions; none while its head speed is not known.
    pub asked: Option<Conditions>,
    /// What may be used of the packs over their reserve, milliampere hours, where that is known.
    pub usable_mah: Option<f64>,
}

/// Charge, and of a hover current and voltage. Nothing for a run that does not leave the ground, or whose check wants no prediction.
pub(super) fn expected(context: &Context<'_>, check: &Check, fly: &Fly, planned: &Planned) -> Vec<Block> {
    let locale = context.locale;
    let is_hover = fly.motion == Motion::Hover;
    if !fly.predict || !(is_hover || fly.motion == Motion::Flight) {
        return Vec::new();
    }
    let charge = planned.asked.and_then(|asked| predicted_charge(context.facts(), check, asked));
    let Some(charge) = charge else {
        let text = match is_hover && planned.asked.is_some_and(|asked| is_too_windy(asked.wind)) {
            true => say!(locale, "card-too-windy"),
            false => say!(locale, "card-no-prediction"),
        };
        return vec![paragraph(text, Tone::Quiet)];
    };
    let mut blocks = vec![heading(say!(locale, "card-expect"), Some(say!(locale, "card-expect-how")))];
    blocks.push(charge_figure(locale, &charge, planned.usable_mah));
    let hover = planned.asked.filter(|_| is_hover).and_then(|asked| expected_hover(context.facts(), asked));
    if let Some(hover) = hover {
        let above = locale.rounded(hover.current_a.call_off, 0, Unit::Ampere);
        let below = locale.rounded(hover.loaded_v.call_off, 1, Unit::Volt);
        let (current, volts) = (say!(locale, "card-current"), say!(locale, "card-loaded-voltage"));
        let call_off = say!(locale, "card-call-off-above", limit = above);
        blocks.push(in_flight(locale, current, &hover.current_a, Unit::Ampere, call_off));
        let call_off = say!(locale, "card-call-off-below", limit = below);
        blocks.push(in_flight(locale, volts, &hover.loaded_v, Unit::Volt, call_off));
    }
    blocks
}

/// The charge, called off where no more may be used.
fn charge_figure(locale: Locale, charge: &Prediction, usable_mah: Option<f64>) -> Block {
    let mut note = say!(
        locale,
        "card-charge-range",
        low = locale.number(charge.low_mah, 0),
        high = locale.number(charge.high_mah, 0),
        from = charge.from
    );
    if let Some(usable_mah) = usable_mah {
        let usable = locale.rounded(usable_mah, 0, Unit::MilliampereHour);
        note.push_str(". ");
        note.push_str(&say!(locale, "card-call-off-above", limit = usable));
    }
    Block::Figure {
        label: say!(locale, "card-charge"),
        value: locale.number(charge.used_mah, 0),
        unit: locale.shown(Unit::MilliampereHour).sign.to_owned(),
        note: Some(note),
        edge: Edge::None,
    }
}

fn in_flight(locale: Locale, label: String, number: &ExpectedInFlight, unit: Unit, call_off: String) -> Block {
    let show = |value: f64| locale.bare(value, 1, unit);
    let interval = number.expected;
    let range = say!(locale, "card-expected-range", low = show(interval.low), high = show(interval.high));
    Block::Figure {
        label,
        value: show(interval.middle),
        unit: locale.shown(unit).sign.to_owned(),
        note: Some(format!("{range}. {call_off}")),
        edge: Edge::None,
    }
}
