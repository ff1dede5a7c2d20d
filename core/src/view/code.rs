use super::context::{heading, paragraph, row, still_row};
use super::{Block, Context, Control, Edge, Icon, Place, Record, Screen, Tone, day_and_time};
use crate::locale::say;

/// The pilot's code: set, changed or removed. Digits never go through a draft, which is kept as it is typed.
pub(super) fn code(context: &Context<'_>) -> Screen {
    let lock = &context.ledger.lock;
    let mut blocks = Vec::new();
    if let Some(opened) = &lock.opened {
        let detail = say!(context.locale, "code-opened-detail");
        let title =
            say!(context.locale, "code-opened", when = day_and_time(context.locale, &opened.wall, context.now));
        blocks.push(still_row(Edge::Caution, say!(context.locale, "common-look"), &title, Some(detail)));
    }
    blocks.push(Block::CodePad {
        label: if lock.hash.is_some() {
            say!(context.locale, "code-another")
        } else {
            say!(context.locale, "code-new")
        },
        hint: Some(say!(context.locale, "code-hint")),
        done: say!(context.locale, "code-set-this"),
        hidden: false,
        enabled: true,
    });
    blocks.push(heading(say!(context.locale, "code-what-it-does"), None));
    for text in [
        say!(context.locale, "code-what-wanted"),
        say!(context.locale, "code-what-holds-off"),
        say!(context.locale, "code-forgotten"),
    ] {
        blocks.push(paragraph(text, Tone::Quiet));
    }
    let mut foot = Vec::new();
    if lock.hash.is_some() {
        foot.push(Control::new(Record::RemoveCode.into(), say!(context.locale, "code-use-none")).icon(Icon::Remove));
    }
    Screen { foot, ..context.screen("code", say!(context.locale, "code-title"), None, blocks) }
}

/// The row that leads there.
pub(super) fn code_row(context: &Context<'_>) -> Block {
    let (edge, word, detail) = match context.ledger.lock.hash {
        Some(_) => (Edge::Fresh, say!(context.locale, "code-is-set"), say!(context.locale, "code-is-set-detail")),
        None => (Edge::None, say!(context.locale, "code-not-set"), say!(context.locale, "code-not-set-detail")),
    };
    row(edge, word, say!(context.locale, "code-title"), Some(detail.to_owned()), Place::Code)
}

/// What the pilot has to know before anything else: that the phone was opened without the code.
pub(super) fn opened_row(context: &Context<'_>) -> Option<Block> {
    let opened = context.ledger.lock.opened.as_ref()?;
    let title =
        say!(context.locale, "code-opened-board", when = day_and_time(context.locale, &opened.wall, context.now));
    Some(row(
        Edge::Caution,
        say!(context.locale, "common-look"),
        &title,
        Some(say!(context.locale, "code-clear")),
        Place::Code,
    ))
}
