//! A time that the pilot tells: where the phone cannot know it, counted what was not flown, or was not there.

use super::context::{heading, paragraph, still_row};
use super::mend::mend_first;
use super::stepper::{Stepper, Steps};
use super::{Block, Context, Control, Document, Edge, Edit, Icon, Keyboard, Offered, Record, Tone};
use crate::field::Flight;
use crate::form::{HowLong, LandingForm, Refusal, WithoutPhoneForm};
use crate::locale::{clock, say};
use crate::plan::Check;
use crate::record::MarkKind;
use crate::unit::Unit;

/// The time of a run that nobody has told yet and that is asked for: it holds the next card.
pub(super) fn asked(context: &Context<'_>, flight: &Flight, title: &str, why: String) -> Vec<Block> {
    let locale = context.locale;
    let mut blocks = vec![still_row(Edge::Missing, say!(locale, "board-to-answer"), title, Some(why))];
    blocks.extend(how_long(context, flight));
    blocks
}

/// Where the pilot says that a time which nobody doubts is not right.
pub(super) fn put_right(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    if !context.landing_form(flight).is_time_wrong() || !flight.timed.is_known() || !flight.may_be_told() {
        return Vec::new();
    }
    let locale = context.locale;
    let mut blocks = vec![heading(say!(locale, "told-heading"), Some(say!(locale, "told-both-kept")))];
    blocks.extend(how_long(context, flight));
    blocks
}

/// The way there, out of the way of what is read after every landing.
pub(super) fn not_right(context: &Context<'_>, flight: &Flight) -> Option<Block> {
    let wanted = flight.timed.is_known() && flight.may_be_told() && !context.landing_form(flight).is_time_wrong();
    let open =
        || Control::new(Edit::set(LandingForm::TIME_WRONG, "1").into(), say!(context.locale, "told-not-right"));
    wanted.then(|| Block::Choice { label: String::new(), options: vec![open()] })
}

fn how_long(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    let locale = context.locale;
    let form = context.landing_form(flight);
    let steps = Steps { unit: Unit::Minute, step: 0.5, start: flight.planned_s as f64 / 60.0 };
    let label = say!(locale, "landing-time");
    let flag = form.flown_min(&label).err().map(|refusal| refusal.to_string());
    let tell = |how_long, label: String| {
        let command = Record::TellFlown { card: flight.card, how_long };
        Control::new(command.into(), label).icon(Icon::Tick)
    };
    let as_counted = form
        .may_be_as_counted_s()
        .map(|counted_s| tell(HowLong::AsCounted, say!(locale, "told-as-counted", time = clock(counted_s))));
    let wrong = mend_first(locale, flag.is_some());
    let typed = tell(HowLong::AsTyped, say!(locale, "landing-time-record")).unless(wrong);
    vec![
        Stepper::of(context, LandingForm::FLOWN.to_owned(), label, steps).flag(flag).block(),
        Block::Choice { label: String::new(), options: std::iter::once(typed).chain(as_counted).collect() },
    ]
}

/// On the page of a card: a page of it to print, and that it was flown while no phone was there to time it.
pub(super) fn without_phone(
    context: &Context<'_>,
    check: &Check,
    planned_min: f64,
    why_not: Option<String>,
) -> Vec<Block> {
    let locale = context.locale;
    let form = WithoutPhoneForm(context.form);
    let mut blocks = vec![on_paper(context, check)];
    if !form.is_open() {
        let open = Edit::set(WithoutPhoneForm::OPEN, "1");
        let open = Control::new(open.into(), say!(locale, "told-no-phone"));
        blocks.push(Block::Choice { label: say!(locale, "told-no-phone-when"), options: vec![open] });
        return blocks;
    }
    let flown = say!(locale, "landing-time");
    let refused_flown = form.flown_min(&flown).err();
    let record = Control::new(Record::FlownWithoutPhone(check.id.clone()).into(), say!(locale, "told-record"));
    blocks.extend([
        heading(say!(locale, "told-no-phone"), None),
        paragraph(say!(locale, "told-no-phone-how"), Tone::Quiet),
        minutes(context, WithoutPhoneForm::FLOWN, flown, (0.5, planned_min), refused_flown),
    ]);
    blocks.extend(came_down(context, form));
    blocks.extend(noted(context, form));
    // Of these fields each flag says that what is typed cannot be.
    let is_flagged =
        |block: &Block| matches!(block, Block::Stepper { flag: Some(_), .. } | Block::Entry { flag: Some(_), .. });
    let why_not = why_not.or_else(|| mend_first(locale, blocks.iter().any(is_flagged)));
    blocks.push(Block::Choice { label: String::new(), options: vec![record.icon(Icon::Tick).unless(why_not)] });
    blocks
}

/// The card as a page to print.
fn on_paper(context: &Context<'_>, check: &Check) -> Block {
    let locale = context.locale;
    let word = say!(locale, "paper-file-word");
    let document = Document::Save { name: context.dated_file_name(word, "html"), media_type: "text/html".to_owned() };
    let save = Control::new(Offered::Card(check.id.clone()).into(), say!(locale, "paper-save"));
    Block::Choice { label: say!(locale, "paper-save-when"), options: vec![save.icon(Icon::Book).document(document)] }
}

/// When it came down: so many minutes ago, or at a time of day, which says how long ago that was.
fn came_down(context: &Context<'_>, form: WithoutPhoneForm<'_>) -> Vec<Block> {
    let locale = context.locale;
    let mut at = context.entry(WithoutPhoneForm::AT, say!(locale, "told-down-at"), Keyboard::Words, None);
    let Some(_) = context.form.text(WithoutPhoneForm::AT) else {
        let label = say!(locale, "told-ago");
        let refused = form.ago_min(&label).err();
        return vec![minutes(context, WithoutPhoneForm::AGO, label, (1.0, 0.0), refused), at];
    };
    match form.down_ago_s(context.now) {
        Ok(ago_s) => vec![at, paragraph(say!(locale, "told-that-is", ago = clock(ago_s / 60)), Tone::Plain)],
        Err(refusal) => {
            if let Block::Entry { flag, .. } = &mut at {
                *flag = Some(refusal.to_string());
            }
            vec![at]
        }
    }
}

/// What was noted on the paper: a touch each, and when it was.
fn noted(context: &Context<'_>, form: WithoutPhoneForm<'_>) -> Vec<Block> {
    let locale = context.locale;
    let option = |kind: MarkKind| {
        let is_noted = form.is_noted(kind);
        let to = if is_noted { "" } else { "1" };
        Control::new(Edit::set(WithoutPhoneForm::noted_field(kind), to).into(), kind.word(locale)).chosen(is_noted)
    };
    let label = say!(locale, "told-noted");
    let mut blocks = vec![Block::Choice { label, options: MarkKind::ALL.map(option).to_vec() }];
    for kind in MarkKind::ALL.into_iter().filter(|kind| form.is_noted(*kind)) {
        let label = say!(locale, "told-noted-at", what = kind.word(locale));
        let refused = form.noted_min(kind, &label).err();
        blocks.push(minutes(context, &WithoutPhoneForm::noted_at_field(kind), label, (0.5, 0.0), refused));
    }
    blocks
}

/// Of a run that no phone timed: how long after touchdown a paper says that its readings were taken.
pub(super) fn read_after(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    if !flight.is_without_phone() {
        return Vec::new();
    }
    let label = say!(context.locale, "told-read-after");
    let refused = context.landing_form(flight).read_after_min(&label).err();
    vec![
        minutes(context, LandingForm::READ_AFTER, label, (0.5, 1.0), refused),
        paragraph(say!(context.locale, "told-read-after-how"), Tone::Quiet),
    ]
}

/// A field of minutes, with its step and where it starts.
fn minutes(
    context: &Context<'_>,
    field: &str,
    label: String,
    (step, start): (f64, f64),
    refused: Option<Refusal>,
) -> Block {
    let steps = Steps { unit: Unit::Minute, step, start };
    Stepper::of(context, field.to_owned(), label, steps).flag(refused.map(|refused| refused.to_string())).block()
}
