use super::context::{heading, paragraph, row, still_row};
use super::{
    Block, Command, Context, Control, Edge, Icon, Keyboard, Place, Screen, Tone, Weight, author_words, entry_words,
};
use crate::locale::{Locale, say};
use crate::readiness::withdrawn;
use crate::record::{Body, Entry, EntryId, Moment};
use crate::unit::Unit;

/// Entries in sight.
const IN_SIGHT: usize = 60;

/// The journal, newest first.
pub(super) fn journal(context: &Context<'_>) -> Screen {
    let gone = withdrawn(context.entries);
    let mut blocks = vec![paragraph(say!(context.locale, "journal-intro"), Tone::Quiet)];
    let mut day = String::new();
    for entry in context.entries.iter().rev().take(IN_SIGHT) {
        let of = super::day(context.locale, &entry.at.wall, context.now);
        if of != day {
            blocks.push(heading(&of, None));
            day = of;
        }
        blocks.push(entry_row(context, entry, gone.contains_key(&entry.id)));
    }
    if context.entries.len() > IN_SIGHT {
        let rest = context.entries.len() - IN_SIGHT;
        blocks.push(paragraph(say!(context.locale, "journal-rest", rest = rest), Tone::Quiet));
    }
    let note = Some(say!(context.locale, "journal-entries", count = context.entries.len()));
    context.screen("journal", say!(context.locale, "journal-title"), note, blocks)
}

fn entry_row(context: &Context<'_>, entry: &Entry, gone: bool) -> Block {
    let title = entry_words(context.locale, context.plan, context.entries, entry);
    let detail = format!("{}, {}", entry.at.wall.format("%H:%M"), author_words(context.locale, &entry.author));
    let (edge, word) =
        if gone { (Edge::Stale, say!(context.locale, "journal-withdrawn")) } else { (Edge::None, String::new()) };
    row(edge, word, &title, Some(detail), Place::Entry(entry.id))
}

/// One entry.
pub(super) fn entry(context: &Context<'_>, id: EntryId) -> Screen {
    let Some(entry) = context.entries.iter().find(|entry| entry.id == id) else { return context.gone("entry") };
    let gone = withdrawn(context.entries);
    let when =
        format!("{}, {}", context.locale.date(entry.at.wall.date_naive()), entry.at.wall.format("%H:%M:%S %:z"));
    let mut blocks = vec![
        Block::Verdict {
            text: entry_words(context.locale, context.plan, context.entries, entry),
            detail: Some(when),
            edge: Edge::None,
        },
        still_row(
            Edge::None,
            "",
            say!(context.locale, "journal-entry-of", number = entry.seq, count = context.entries.len()),
            Some(author_words(context.locale, &entry.author)),
        ),
    ];
    if let Some(note) = note_of(context.locale, &entry.body) {
        blocks.push(paragraph(note, Tone::Plain));
    }
    if let Body::CardDrawn { .. } = entry.body {
        blocks.push(super::log::log_row(context, id));
    }
    if let Body::LandingRecorded { card, .. } | Body::LogAttached { card, .. } = entry.body {
        blocks.push(super::log::log_row(context, card));
    }
    let mut foot = Vec::new();
    if let (Body::LandingRecorded { card, .. }, false) = (&entry.body, gone.contains_key(&id)) {
        foot.push(
            Control::new(Place::Landing(*card).into(), say!(context.locale, "journal-add-to-landing"))
                .icon(Icon::Thermometer),
        );
    }
    match gone.get(&id) {
        Some(reason) => blocks.push(still_row(Edge::Stale, say!(context.locale, "journal-withdrawn"), reason, None)),
        None if can_be_withdrawn(entry) => {
            blocks.push(context.entry(
                "reason",
                say!(context.locale, "journal-why-withdrawn"),
                Keyboard::Words,
                None,
            ));
            foot.push(
                Control::new(Command::Withdraw(id).into(), say!(context.locale, "journal-withdraw")).icon(Icon::Undo),
            );
        }
        None => {}
    }
    Screen {
        foot,
        ..context.screen(
            "entry",
            say!(context.locale, "journal-entry"),
            Some(say!(context.locale, "journal-title")),
            blocks,
        )
    }
}

fn note_of(locale: Locale, body: &Body) -> Option<String> {
    match body {
        Body::CheckRecorded { note, witness, .. } => {
            let seen = witness.as_ref().map(|name| say!(locale, "journal-seen-by", name = name));
            let parts: Vec<String> = seen.into_iter().chain(note.clone()).collect();
            (!parts.is_empty()).then(|| parts.join(" "))
        }
        Body::LandingRecorded { temperatures, notes, .. } => {
            let read =
                temperatures.iter().map(|r| format!("{} {}", r.place, locale.rounded(r.celsius, 0, Unit::Celsius)));
            let parts: Vec<String> = read.chain(notes.clone()).collect();
            (!parts.is_empty()).then(|| parts.join(", "))
        }
        Body::SettingChanged { reason, .. } => Some(reason.clone()),
        Body::FindingCarried { reason, by, .. } => Some(format!("{reason} ({by})")),
        _ => None,
    }
}

/// What a person may take back. What happened in flight, the first plan and a withdrawal itself stand.
pub(crate) fn can_be_withdrawn(entry: &Entry) -> bool {
    if matches!(entry.body, Body::PlanAdopted { .. }) {
        return entry.seq > 1;
    }
    !matches!(
        entry.body,
        Body::Withdrawn { .. }
            | Body::CardDrawn { .. }
            | Body::HandedOver { .. }
            | Body::Started { .. }
            | Body::Marked { .. }
            | Body::TouchedDown { .. }
            | Body::Resumed { .. }
            | Body::HandedBack { .. }
            | Body::Unmarked { .. }
            | Body::CodeRefused { .. }
            | Body::WaitBegun { .. }
            | Body::OpenedWithoutCode { .. }
    )
}

/// Takes the last entry back in one touch, where it is one that can be; and puts it back where that was the slip.
pub(super) fn undo(context: &Context<'_>) -> Option<Control> {
    let last = context.entries.last()?;
    let together = released_together(context.entries);
    let (entry, command, label) = match taken_back_just_now(context.entries, context.now) {
        Some(entry) => (entry, Command::PutBack(entry.id), say!(context.locale, "journal-put-back")),
        None if together.len() > 1 => {
            (last, Command::WithdrawReleases(last.id), say!(context.locale, "journal-take-back"))
        }
        None => (last, Command::Withdraw(last.id), say!(context.locale, "journal-take-back")),
    };
    if !can_be_withdrawn(entry) {
        return None;
    }
    let words = match together.len() {
        0 | 1 => entry_words(context.locale, context.plan, context.entries, entry),
        count => say!(context.locale, "desk-gates-released", count = count),
    };
    let spoken = format!("{label}: {words}");
    let control = Control::new(command.into(), label).detail(shortened(&words)).icon(Icon::Undo);
    Some(control.weight(Weight::Quiet).spoken(spoken))
}

/// The releases at the journal's end that one touch made: they are of one moment.
pub(crate) fn released_together(entries: &[Entry]) -> &[Entry] {
    let at = entries.last().map(|last| &last.at);
    let released = |entry: &&Entry| matches!(entry.body, Body::GateReleased { .. }) && Some(&entry.at) == at;
    let count = entries.iter().rev().take_while(released).count();
    &entries[entries.len() - count..]
}

/// Minutes in which what was taken back can be put back. Later it would look fresher than it is: it is made anew then.
const PUT_BACK_MIN: i64 = 10;

/// The entry that the last one took back, with nothing in between and a moment ago.
pub(crate) fn taken_back_just_now<'a>(entries: &'a [Entry], now: &Moment) -> Option<&'a Entry> {
    let [.., before, last] = entries else { return None };
    let Body::Withdrawn { entry, .. } = &last.body else { return None };
    let fresh = now.elapsed_ms_since(&before.at) < PUT_BACK_MIN * 60_000;
    let same_day = now.wall.date_naive() == before.at.wall.date_naive();
    (*entry == before.id && fresh && same_day).then_some(before)
}

/// The beginning of a text, cut at a word, for a line that has room for few.
fn shortened(text: &str) -> String {
    const ROOM: usize = 44;
    if text.chars().count() <= ROOM {
        return text.to_owned();
    }
    let cut: String = text.chars().take(ROOM).collect();
    let whole = cut.rfind(' ').map_or(cut.as_str(), |end| &cut[..end]);
    format!("{}…", whole.trim_end_matches([',', ':', '.', ';']))
}
