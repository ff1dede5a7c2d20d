use super::context::{heading, paragraph, row, still_row};
use super::journal_rows::{by_day, more_row};
use super::{
    Block, Context, Control, Edge, Found, Go, Icon, Keyboard, Place, Record, Screen, Token, Tone, Weight, Work,
    author_words, check_title, entry_words, stage_title,
};
use crate::form::{JournalForm, WithdrawalForm};
use crate::locale::{Locale, say};
use crate::plan::{Plan, Subject};
use crate::readiness::{is_offered, may_be_withdrawn};
use crate::record::{Body, Entry, EntryId};
use crate::unit::Unit;

/// The journal: what is searched for in it, or its newest entries and the months in which all of them are.
pub(super) fn journal(context: &Context<'_>) -> Screen {
    let locale = context.locale;
    let form = JournalForm::new(context.form);
    let mut blocks = vec![context.entry(JournalForm::SEARCH, say!(locale, "journal-search"), Keyboard::Words, None)];
    if let Block::Entry { hint, .. } = &mut blocks[0] {
        *hint = Some(say!(locale, "journal-search-hint"));
    }
    let mut work = None;
    match &context.found {
        Some(found) => {
            blocks.extend(found_blocks(context, found, &form));
            let is_done = found.searched == found.of;
            work = (!is_done).then(|| Work::Touch { token: Go::StepOn.into() });
        }
        None => {
            blocks.push(paragraph(say!(locale, "journal-intro"), Tone::Quiet));
            blocks.push(super::dossier::dossier_row(context));
            let newest = context.entries.iter().rev().take(form.shown());
            blocks.extend(by_day(context, newest));
            blocks.extend(super::journal_days::months(context));
        }
    }
    let own = context.entries.len();
    let note = match context.journal_count == own {
        true => say!(locale, "journal-entries", count = own),
        false => say!(locale, "journal-entries-of", own = own, count = context.journal_count),
    };
    let note = Some(note);
    Screen { work, ..context.screen("journal", say!(locale, "journal-title"), note, blocks) }
}

/// What a search found, newest first, and how far it is.
fn found_blocks(context: &Context<'_>, found: &Found<'_>, form: &JournalForm<'_>) -> Vec<Block> {
    let locale = context.locale;
    let note = match found.searched == found.of {
        true => None,
        false => Some(say!(locale, "journal-searched", searched = found.searched, of = found.of)),
    };
    let mut blocks = vec![heading(say!(locale, "journal-found", count = found.hits.len()), note)];
    let hits = found.hits.iter().take(form.shown()).filter_map(|place| context.entries.get(*place));
    blocks.extend(by_day(context, hits));
    blocks.extend(more_row(context, form, found.hits.len()));
    blocks
}

/// One entry.
pub(super) fn entry(context: &Context<'_>, id: EntryId) -> Screen {
    let Some(entry) = context.recorded(id) else { return context.gone("entry") };
    let mut blocks = what_it_says(context, entry);
    let mut foot = Vec::new();
    let withdrawal = context.ledger.withdrawals.of(id);
    if let (Body::LandingRecorded { card, .. }, false) = (&entry.body, withdrawal.is_some()) {
        foot.push(
            Control::new(Place::Landing(*card).into(), say!(context.locale, "journal-add-to-landing"))
                .icon(Icon::Thermometer),
        );
    }
    match withdrawal {
        Some(withdrawal) => {
            let word = say!(context.locale, "journal-withdrawn");
            blocks.push(still_row(Edge::Stale, word, &withdrawal.reason, None));
        }
        None if may_be_withdrawn(entry) => {
            blocks.push(context.entry(
                WithdrawalForm::REASON,
                say!(context.locale, "journal-why-withdrawn"),
                Keyboard::Words,
                None,
            ));
            foot.push(
                Control::new(Record::Withdraw(id).into(), say!(context.locale, "journal-withdraw")).icon(Icon::Undo),
            );
        }
        None => {}
    }
    let (name, title) = (say!(context.locale, "journal-entry"), say!(context.locale, "journal-title"));
    Screen { foot, ..context.screen("entry", name, Some(title), blocks) }
}

/// An entry's words, who made it and when, and where its flight's log is.
fn what_it_says(context: &Context<'_>, entry: &Entry) -> Vec<Block> {
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
            say!(context.locale, "journal-entry-of", number = entry.seq, count = context.journal_count),
            Some(author_words(context.locale, &entry.author)),
        ),
    ];
    if let Some(note) = note_of(context.locale, &entry.body) {
        blocks.push(paragraph(note, Tone::Plain));
    }
    if let Body::PhotoAttached { .. } = entry.body {
        blocks.push(row(Edge::None, "", say!(context.locale, "photo-look"), None, Place::Photo(entry.id)));
    }
    if let Body::CardDrawn { .. } = entry.body {
        blocks.push(super::log::log_row(context, entry.id));
    }
    if let Body::LandingRecorded { card, .. } | Body::LogAttached { card, .. } = entry.body {
        blocks.push(super::log::log_row(context, card));
    }
    blocks
}

/// What belongs to an entry and its row does not say: remarks, the parts that it touched, the stage and the check that it is about.
pub(crate) fn more_words(locale: Locale, plan: &Plan, body: &Body) -> String {
    let subjects = |subjects: &[String]| -> Vec<String> {
        let known = subjects.iter().filter_map(|subject| Subject::parse(subject));
        known.map(|subject| plan.subject_words(locale, &subject)).collect()
    };
    let about = match body {
        Body::Changed { subjects: touched, .. } | Body::FindingFixed { subjects: touched, .. } => subjects(touched),
        Body::FindingRaised { stage, proof, .. } => vec![stage_title(plan, stage), check_title(plan, proof)],
        Body::FigureSet { reason: Some(reason), .. } => vec![reason.clone()],
        _ => Vec::new(),
    };
    note_of(locale, body).into_iter().chain(about).collect::<Vec<_>>().join(" ")
}

fn note_of(locale: Locale, body: &Body) -> Option<String> {
    match body {
        Body::CheckRecorded { note, witness, .. } => {
            let seen = witness.as_ref().map(|name| say!(locale, "journal-seen-by", name = name));
            let parts: Vec<String> = seen.into_iter().chain(note.clone()).collect();
            (!parts.is_empty()).then(|| parts.join(" "))
        }
        Body::LandingRecorded { temperatures, notes, slip, .. } => {
            let read =
                temperatures.iter().map(|r| format!("{} {}", r.place, locale.rounded(r.celsius, 0, Unit::Celsius)));
            let slip = slip.as_ref().map(|why| say!(locale, "landing-left-out-as-slip", why = why));
            let parts: Vec<String> = read.chain(notes.clone()).chain(slip).collect();
            (!parts.is_empty()).then(|| parts.join(", "))
        }
        Body::SettingChanged { reason, .. } => Some(reason.clone()),
        Body::CardDrawn { not_full: Some(why), .. } => Some(say!(locale, "journal-not-full", why = why)),
        Body::FindingCarried { reason, by, .. } => Some(format!("{reason} ({by})")),
        _ => None,
    }
}

/// Takes the last entry back in one touch, where it is one that can be; and puts it back where that was the slip. Some minutes later neither.
pub(super) fn undo(context: &Context<'_>) -> Option<Control> {
    let last = context.entries.last()?;
    let withdrawals = &context.ledger.withdrawals;
    let together = withdrawals.released_together();
    let taken_back = withdrawals.taken_back_just_now(context.now).and_then(|id| context.recorded(id));
    let (entry, command, label) = match taken_back {
        Some(entry) => (entry, Record::PutBack(entry.id), say!(context.locale, "journal-put-back")),
        None if together.len() > 1 => {
            (last, Record::WithdrawReleases(last.id), say!(context.locale, "journal-take-back"))
        }
        None => (last, Record::Withdraw(last.id), say!(context.locale, "journal-take-back")),
    };
    if !may_be_withdrawn(entry) || (taken_back.is_none() && !is_offered(&entry.at, context.now)) {
        return None;
    }
    // Later than a moment it wants its reason, which is entered on the entry's own page.
    let is_slip = taken_back.is_some() || withdrawals.would_be_slip(entry.id, context.now);
    let command: Token = match is_slip {
        true => command.into(),
        false if together.len() > 1 => Place::Journal.into(),
        false => Place::Entry(entry.id).into(),
    };
    let words = match together.len() {
        0 | 1 => entry_words(context.locale, context.plan, context.entries, entry),
        count => say!(context.locale, "app-gates-released", count = count),
    };
    let spoken = format!("{label}: {words}");
    let control = Control::new(command, label).detail(shortened(&words)).icon(Icon::Undo);
    Some(control.weight(Weight::Quiet).spoken(spoken))
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
