use super::context::{heading, paragraph, row};
use super::{Block, Context, Control, Edge, Icon, Keyboard, Place, Record, Screen, Tone};
use crate::form::EventForm;
use crate::locale::say;
use crate::plan::Event;

/// Events in sight that were recorded before.
const PAST_IN_SIGHT: usize = 8;

/// What can happen to the aircraft, each recorded in one touch, and what did.
pub(super) fn events(context: &Context<'_>) -> Screen {
    let mut blocks = vec![paragraph(say!(context.locale, "events-intro"), Tone::Plain)];
    for event in &context.plan.events {
        blocks.push(paragraph(format!("{}: {}", event.title, event.text.trim()), Tone::Plain));
        blocks.push(event_control(context, event));
    }
    blocks.push(context.entry(EventForm::NOTE, say!(context.locale, "events-remark"), Keyboard::Words, None));
    let past = &context.ledger.happened;
    if !past.is_empty() {
        blocks.push(heading(say!(context.locale, "events-so-far"), Some(past.len().to_string())));
    }
    blocks.extend(past.iter().rev().take(PAST_IN_SIGHT).map(|happened| {
        let title = context.plan.event(&happened.event).map_or(happened.event.as_str(), |event| &event.title);
        let when = super::day_and_time(context.locale, &happened.at.wall, context.now);
        let mut detail =
            say!(context.locale, "events-since", when = when, count = (context.ledger.runs - happened.runs) as usize);
        if let Some(note) = &happened.note {
            detail.push_str(&format!(". {note}"));
        }
        row(Edge::None, "", title, Some(detail), Place::Entry(happened.entry))
    }));
    context.screen("events", say!(context.locale, "events-title"), Some(context.aircraft_name()), blocks)
}

fn event_control(context: &Context<'_>, event: &Event) -> Block {
    let asked_again = context.ledger.aircraft.checks_asked_again_by(context.plan, &event.id);
    let detail = say!(context.locale, "events-asked-again", count = asked_again.count());
    let record = Control::new(Record::Event(event.id.clone()).into(), &event.title);
    Block::Choice { label: String::new(), options: vec![record.icon(Icon::Warning).detail(detail)] }
}

/// The events as choices, for a screen on which one may have to be said at once.
pub(super) fn event_choice(context: &Context<'_>, label: String) -> Option<Block> {
    let record = |event: &Event| Control::new(Record::Event(event.id.clone()).into(), &event.title);
    let options: Vec<Control> = context.plan.events.iter().map(record).collect();
    (!options.is_empty()).then_some(Block::Choice { label, options })
}
