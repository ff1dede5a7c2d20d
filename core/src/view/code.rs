use super::context::{heading, paragraph, row, still_row};
use super::{Block, Command, Context, Control, Edge, Icon, Place, Screen, Tone, day_and_time};

/// The pilot's code: set, changed or removed. Digits never go through a draft, which is kept as it is typed.
pub(super) fn code(context: &Context<'_>) -> Screen {
    let lock = &context.ledger.lock;
    let mut blocks = Vec::new();
    if let Some(opened) = &lock.opened {
        let detail = "If that was not you, set another code and look through the journal.".to_owned();
        let title = format!("Opened without the code, {}", day_and_time(context.locale, &opened.wall, context.now));
        blocks.push(still_row(Edge::Caution, "Look", &title, Some(detail)));
    }
    blocks.push(Block::CodePad {
        label: if lock.hash.is_some() { "Another code" } else { "A new code" }.to_owned(),
        hint: Some("4 to 8 digits, shown while you type them".to_owned()),
        done: "Set this code".to_owned(),
        hidden: false,
        enabled: true,
    });
    blocks.push(heading("What it does", None));
    for text in [
        "The phone wants it when the spotter gives the phone back. The spotter needs no code to start, mark and land.",
        "It holds off a slip or a look around during a flight. It does not encrypt anything: who keeps the phone can get in.",
        "Forgotten: half an hour after “No code at hand” was touched on the spotter's side the phone opens without it. Nothing \
         is lost, the journal keeps it, and the board tells you.",
    ] {
        blocks.push(paragraph(text, Tone::Quiet));
    }
    let mut foot = Vec::new();
    if lock.hash.is_some() {
        foot.push(Control::new(Command::RemoveCode.into(), "Use no code").icon(Icon::Remove));
    }
    Screen { foot, ..context.screen("code", "Pilot's code", None, blocks) }
}

/// The row that leads there.
pub(super) fn code_row(context: &Context<'_>) -> Block {
    let (edge, word, detail) = match context.ledger.lock.hash {
        Some(_) => (Edge::Fresh, "Set", "Wanted when the spotter gives the phone back"),
        None => (Edge::None, "Not set", "Whoever has the phone can give it back to the pilot's side"),
    };
    row(edge, word, "Pilot's code", Some(detail.to_owned()), Place::Code)
}

/// What the pilot has to know before anything else: that the phone was opened without the code.
pub(super) fn opened_row(context: &Context<'_>) -> Option<Block> {
    let opened = context.ledger.lock.opened.as_ref()?;
    let title = format!("Opened without your code, {}", day_and_time(context.locale, &opened.wall, context.now));
    Some(row(Edge::Caution, "Look", &title, Some("Set another code to clear this".to_owned()), Place::Code))
}
