//! Fire or accident: what to do first, whom to call, where the site is, and what is written down later. One touch from the board, and
//! readable without a touch more.

use super::context::{heading, paragraph, row};
use super::{Block, Context, Control, Edge, Icon, Keyboard, Place, Record, Screen, Tone};
use crate::form::EmergencyForm;
use crate::locale::{Locale, say};

/// The page of an emergency.
pub(super) fn emergency(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let mut blocks = vec![whom_to_call(context)];
    blocks.extend(steps(locale));
    blocks.push(heading(say!(locale, "emergency-later"), None));
    blocks.push(paragraph(say!(locale, "emergency-write-down"), Tone::Plain));
    blocks.push(row(
        Edge::None,
        "",
        say!(locale, "events-title"),
        Some(say!(locale, "emergency-events")),
        Place::Events,
    ));
    blocks.push(heading(say!(locale, "emergency-beforehand"), None));
    blocks.extend(fields(context));
    let save = Control::new(Record::Emergency.into(), say!(locale, "emergency-record")).icon(Icon::Tick);
    Screen { foot: vec![save], ..context.screen("emergency", say!(locale, "emergency-title"), None, blocks) }
}

/// The number and the address in the largest letters there are, or that the person has to know them.
fn whom_to_call(context: &Context<'_>) -> Block {
    let locale = context.locale;
    match &context.ledger.emergency {
        Some(known) => Block::Verdict {
            text: say!(locale, "emergency-call-now", call = known.call),
            detail: Some(known.address.clone()),
            edge: Edge::Stop,
        },
        None => Block::Verdict {
            text: say!(locale, "emergency-call-unknown"),
            detail: Some(say!(locale, "emergency-not-entered")),
            edge: Edge::Stop,
        },
    }
}

/// What is done first, in its order (common practice, no source): those who came to help decide from then on.
fn steps(locale: Locale) -> [Block; 4] {
    let caution = |title: String, text: String| Block::Caution { title, text };
    [
        caution(say!(locale, "emergency-hold"), say!(locale, "emergency-hold-how")),
        caution(say!(locale, "emergency-people"), say!(locale, "emergency-people-how")),
        caution(say!(locale, "emergency-pack"), say!(locale, "emergency-pack-how")),
        caution(say!(locale, "emergency-leave"), say!(locale, "emergency-leave-how")),
    ]
}

fn fields(context: &Context<'_>) -> [Block; 2] {
    let form = EmergencyForm::new(context.form, context.ledger);
    let known = |text: &str| Some(text.to_owned()).filter(|text| !text.is_empty());
    let entry =
        |field: &str, label: String, now: &str| context.entry(field, label, Keyboard::Words, known(now).as_deref());
    [
        entry(EmergencyForm::CALL, say!(context.locale, "emergency-call"), form.known_call()),
        entry(EmergencyForm::ADDRESS, say!(context.locale, "emergency-address"), form.known_address()),
    ]
}
