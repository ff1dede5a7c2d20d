use super::context::{heading, paragraph, row};
use super::{Block, Command, Context, Control, Edge, Icon, Keyboard, Place, Screen, Tone, counted};
use crate::plan::{Event, Subject};

/// Events in sight that were recorded before.
const PAST_IN_SIGHT: usize = 8;

/// What can happen to the aircraft, each recorded in one touch, and what did.
pub(super) fn events(context: &Context<'_>) -> Screen {
    let mut blocks = vec![paragraph(
        "Touch what happened. The checks that it ends are asked for again, and no others.",
        Tone::Plain,
    )];
    for event in &context.plan.events {
        blocks.push(paragraph(format!("{}: {}", event.title, event.text.trim()), Tone::Plain));
        blocks.push(event_control(context, event));
    }
    blocks.push(context.entry("note", "Remark, before you touch it", Keyboard::Words, None));
    let past = &context.ledger.happened;
    if !past.is_empty() {
        blocks.push(heading("So far", Some(past.len().to_string())));
    }
    blocks.extend(past.iter().rev().take(PAST_IN_SIGHT).map(|happened| {
        let title = context.plan.event(&happened.event).map_or(happened.event.as_str(), |event| &event.title);
        let since = counted((context.ledger.runs - happened.runs) as usize, "motor run since", "motor runs since");
        let mut detail = format!("{}, {since}", super::day_and_time(context.locale, &happened.at.wall, context.now));
        if let Some(note) = &happened.note {
            detail.push_str(&format!(". {note}"));
        }
        row(Edge::None, "", title, Some(detail), Place::Entry(happened.entry))
    }));
    context.screen("events", "Something happened", Some(context.aircraft_name()), blocks)
}

fn event_control(context: &Context<'_>, event: &Event) -> Block {
    let ends = context.plan.checks().filter(|(_, check)| {
        check.ends_with(&Subject::Event(event.id.clone())) && context.ledger.aircraft.fits(&check.when)
    });
    let detail = format!("{} asked for again", counted(ends.count(), "check is", "checks are"));
    let record = Control::new(Command::RecordEvent(event.id.clone()).into(), &event.title);
    Block::Choice { label: String::new(), options: vec![record.icon(Icon::Warning).detail(detail)] }
}

/// The events as choices, for a screen on which one may have to be said at once.
pub(super) fn event_choice(context: &Context<'_>, label: &str) -> Option<Block> {
    let record = |event: &Event| Control::new(Command::RecordEvent(event.id.clone()).into(), &event.title);
    let options: Vec<Control> = context.plan.events.iter().map(record).collect();
    (!options.is_empty()).then(|| Block::Choice { label: label.to_owned(), options })
}
