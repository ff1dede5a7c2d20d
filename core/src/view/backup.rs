//! The backup: how old the last one is, the way to make one and to bring one in, and journals that were set aside.

use super::brought::{BroughtStage, Holds, Offer};
use super::context::{heading, paragraph, row, still_row};
use super::{Block, Context, Control, Document, Edge, Icon, Journals, Offered, Place, Screen, Tone, Wanted};
use crate::journal::SetAside;
use crate::locale::{Locale, say};
use crate::readiness::Unkept;

/// The media type of the container.
const ZIP: &str = "application/zip";

/// The page of the backup.
pub(super) fn backup(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let mut blocks = vec![stands(context), paragraph(say!(locale, "backup-what"), Tone::Plain)];
    blocks.push(Block::Caution {
        title: say!(locale, "backup-holds-code"),
        text: say!(locale, "backup-holds-code-how"),
    });
    if !context.set_aside.is_empty() {
        blocks.push(heading(say!(locale, "backup-set-aside"), Some(context.set_aside.len().to_string())));
        blocks.extend(context.set_aside.iter().map(|aside| {
            row(
                Edge::None,
                "",
                aside_title(locale, *aside),
                Some(size(locale, *aside)),
                Place::SetAside(aside.number),
            )
        }));
    }
    let name = context.dated_file_name(say!(locale, "backup-file-word"), "zip");
    let save = Control::primary(Offered::Backup.into(), say!(locale, "backup-save"))
        .icon(Icon::Book)
        .document(Document::Save { name, media_type: ZIP.to_owned() });
    Screen {
        foot: vec![save, bring_in(locale)],
        ..context.screen("backup", say!(locale, "backup-title"), None, blocks)
    }
}

fn bring_in(locale: Locale) -> Control {
    // What came by mail or from a stick has lost its type on some phones.
    let media_types = [ZIP, "application/octet-stream", "*/*"].map(str::to_owned).to_vec();
    Control::new(Wanted::Backup.into(), say!(locale, "backup-bring-in"))
        .icon(Icon::Add)
        .document(Document::Pick { media_types })
}

/// How old the last backup is, and what is not in it.
fn stands(context: &Context<'_>) -> Block {
    let unkept = context.unkept();
    let edge = match unkept.entries {
        _ if unkept.asks => Edge::Caution,
        0 => Edge::Fresh,
        _ => Edge::Missing,
    };
    let detail = say!(context.locale, "backup-not-in-it", entries = unkept.entries, runs = unkept.runs);
    Block::Verdict { text: last_words(context), detail: Some(detail), edge }
}

fn last_words(context: &Context<'_>) -> String {
    match context.last_backup {
        Some(last) => {
            say!(context.locale, "backup-last", when = super::day_and_time(context.locale, &last.at, context.now))
        }
        None => say!(context.locale, "backup-none"),
    }
}

/// The row that leads there. It asks after a flying day, and only says how things stand otherwise.
pub(super) fn backup_row(context: &Context<'_>, unkept: Unkept) -> Block {
    let locale = context.locale;
    if unkept.asks {
        let title = say!(locale, "backup-asks", runs = unkept.runs);
        return row(Edge::Caution, say!(locale, "common-look"), title, Some(last_words(context)), Place::Backup);
    }
    let detail = match (context.last_backup, unkept.entries) {
        (None, _) => say!(locale, "backup-none-note"),
        (Some(_), 0) => say!(locale, "backup-holds-all", last = last_words(context)),
        (Some(_), entries) => say!(locale, "backup-since", last = last_words(context), entries = entries),
    };
    row(Edge::None, "", say!(locale, "backup-title"), Some(detail), Place::Backup)
}

/// A backup that was picked: what is wrong with it, or what would be gained and lost with it.
pub(super) fn offer(context: &Context<'_>) -> Screen {
    let Some(brought) = context.brought else { return context.gone("backup-offer") };
    let locale = context.locale;
    let above = Some(say!(locale, "backup-file-named", name = brought.name));
    let title = say!(locale, "backup-title");
    match brought.stage {
        // Its place is taken by the page of what is under way.
        BroughtStage::Unpacking => context.screen("backup-offer", title, above, Vec::new()),
        BroughtStage::Refused(why) => {
            let verdict = Block::Verdict {
                text: say!(locale, "backup-refused"),
                detail: Some(why.words(locale)),
                edge: Edge::Stop,
            };
            let nothing = paragraph(say!(locale, "backup-nothing-changed"), Tone::Plain);
            let blocks = vec![verdict, nothing];
            Screen { foot: vec![bring_in(locale)], ..context.screen("backup-offer", title, above, blocks) }
        }
        BroughtStage::Offered(offer) => offered(context, offer, title, above),
    }
}

fn offered(context: &Context<'_>, offer: &Offer, title: String, above: Option<String>) -> Screen {
    let locale = context.locale;
    let compared = offer.compared;
    let gained = compared.brought - compared.common + compared.mended;
    let lost = compared.here - compared.common;
    let lost = if offer.here_is_new { 0 } else { lost };
    let is_same = gained == 0 && lost == 0;
    let mut blocks = vec![compared_verdict(locale, offer, gained, lost)];
    blocks.push(holds_row(context, say!(locale, "backup-in-file"), &offer.brought));
    blocks.push(holds_row(context, say!(locale, "backup-on-phone"), &offer.here));
    if gained > 0 {
        blocks.push(still_row(Edge::Fresh, say!(locale, "backup-gained"), gained_words(locale, gained), None));
    }
    if lost > 0 {
        let from = offer.lost_from.map(|at| super::day_and_time(locale, &at, context.now));
        let detail = from.map(|from| say!(locale, "backup-lost-from", from = from));
        blocks.push(still_row(Edge::Stop, say!(locale, "backup-lost"), lost_words(locale, lost), detail));
    }
    if offer.logs_left_out > 0 {
        let words = say!(locale, "backup-logs-left-out", logs = offer.logs_left_out);
        let why = say!(locale, "backup-logs-left-out-why");
        blocks.push(still_row(Edge::Caution, say!(locale, "backup-left-out"), words, Some(why)));
    }
    if !is_same {
        blocks.push(paragraph(say!(locale, "backup-old-is-kept"), Tone::Plain));
    }
    let take = Control::primary(Journals::LayIn.into(), say!(locale, "backup-lay-in"))
        .icon(Icon::Tick)
        .unless(is_same.then(|| say!(locale, "backup-is-same")));
    Screen { foot: vec![take, bring_in(locale)], ..context.screen("backup-offer", title, above, blocks) }
}

fn compared_verdict(locale: Locale, offer: &Offer, gained: i64, lost: i64) -> Block {
    let (text, edge) = match (gained, lost) {
        _ if offer.here_is_new => (say!(locale, "backup-compared-new"), Edge::Fresh),
        (0, 0) => (say!(locale, "backup-compared-same"), Edge::Fresh),
        (_, 0) => (say!(locale, "backup-compared-ahead"), Edge::Fresh),
        (0, _) => (say!(locale, "backup-compared-behind"), Edge::Caution),
        _ if offer.compared.common == 0 => (say!(locale, "backup-compared-other"), Edge::Stop),
        _ => (say!(locale, "backup-compared-forked", common = offer.compared.common), Edge::Stop),
    };
    Block::Verdict { text, detail: Some(say!(locale, "backup-was-checked")), edge }
}

fn holds_row(context: &Context<'_>, word: String, holds: &Holds) -> Block {
    let locale = context.locale;
    let name = match holds.aircraft.as_str() {
        "" => say!(locale, "aircraft-unnamed"),
        name => name.to_owned(),
    };
    let detail = match &holds.last {
        Some(last) => {
            let last = super::day_and_time(locale, last, context.now);
            say!(locale, "backup-holds-until", entries = holds.entries, last = last)
        }
        None => say!(locale, "backup-holds", entries = holds.entries),
    };
    still_row(Edge::None, word, name, Some(detail))
}

fn gained_words(locale: Locale, entries: i64) -> String {
    say!(locale, "backup-entries-gained", entries = entries)
}

fn lost_words(locale: Locale, entries: i64) -> String {
    say!(locale, "backup-entries-lost", entries = entries)
}

/// A journal that another one took the place of.
pub(super) fn set_aside(context: &Context<'_>, number: u32) -> Screen {
    let locale = context.locale;
    let Some(aside) = context.set_aside.iter().find(|aside| aside.number == number) else {
        return context.gone("set-aside");
    };
    let blocks = vec![
        Block::Verdict { text: aside_title(locale, *aside), detail: Some(size(locale, *aside)), edge: Edge::None },
        paragraph(say!(locale, "backup-aside-what"), Tone::Plain),
        still_row(Edge::Stop, "", say!(locale, "backup-let-go-caution"), None),
    ];
    let name = context.dated_file_name(say!(locale, "backup-aside-file-word", number = number), "db");
    let save = Control::primary(Offered::SetAside(number).into(), say!(locale, "backup-save-aside"))
        .icon(Icon::Book)
        .document(Document::Save { name, media_type: "application/vnd.sqlite3".to_owned() });
    let log = aside.log_bytes.map(|_| {
        let name = context.dated_file_name(say!(locale, "backup-aside-file-word", number = number), "db-wal");
        let media_type = "application/octet-stream".to_owned();
        Control::new(Offered::SetAsideLog(number).into(), say!(locale, "backup-save-aside-log"))
            .icon(Icon::List)
            .document(Document::Save { name, media_type })
    });
    let compare = Control::new(Journals::Compare(number).into(), say!(locale, "backup-compare")).icon(Icon::Undo);
    let go = Control::new(Journals::LetGo(number).into(), say!(locale, "backup-let-go")).icon(Icon::Remove);
    let title = say!(locale, "backup-aside-title");
    let foot = std::iter::once(save).chain(log).chain([compare, go]).collect();
    Screen { foot, ..context.screen("set-aside", title, None, blocks) }
}

fn aside_title(locale: Locale, aside: SetAside) -> String {
    say!(locale, "backup-aside-named", number = aside.number)
}

fn size(locale: Locale, aside: SetAside) -> String {
    say!(locale, "backup-megabytes", megabytes = locale.megabytes(aside.bytes))
}
