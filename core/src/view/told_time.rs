//! A time that the pilot tells: where the phone cannot know it, counted what was not flown, or was not there.

use super::context::{heading, paragraph, still_row};
use super::stepper::{Stepper, Steps};
use super::{Block, Context, Control, Edge, Edit, Icon, Record, Tone};
use crate::field::Flight;
use crate::form::{HowLong, LandingForm, WithoutPhoneForm};
use crate::locale::{clock, say};
use crate::plan::Check;
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
    let typed = tell(HowLong::AsTyped, say!(locale, "landing-time-record"));
    vec![
        Stepper::of(context, LandingForm::FLOWN.to_owned(), label, steps).flag(flag).block(),
        Block::Choice { label: String::new(), options: std::iter::once(typed).chain(as_counted).collect() },
    ]
}

/// On the page of a card: it was flown, and no phone was there to time it.
pub(super) fn without_phone(
    context: &Context<'_>,
    check: &Check,
    planned_min: f64,
    why_not: Option<String>,
) -> Vec<Block> {
    let locale = context.locale;
    let form = WithoutPhoneForm(context.form);
    if !form.is_open() {
        let open = Edit::set(WithoutPhoneForm::OPEN, "1");
        let open = Control::new(open.into(), say!(locale, "told-no-phone"));
        return vec![Block::Choice { label: say!(locale, "told-no-phone-when"), options: vec![open] }];
    }
    let (flown, ago) = (say!(locale, "landing-time"), say!(locale, "told-ago"));
    let stepper = |field: &str, label: String, steps: Steps, refused: Option<String>| {
        Stepper::of(context, field.to_owned(), label, steps).flag(refused).block()
    };
    let minutes = |step: f64, start: f64| Steps { unit: Unit::Minute, step, start };
    let refused = [form.flown_min(&flown), form.ago_min(&ago)].map(|typed| Some(typed.err()?.to_string()));
    let [refused_flown, refused_ago] = refused;
    let record = Control::new(Record::FlownWithoutPhone(check.id.clone()).into(), say!(locale, "told-record"));
    vec![
        heading(say!(locale, "told-no-phone"), None),
        paragraph(say!(locale, "told-no-phone-how"), Tone::Quiet),
        stepper(WithoutPhoneForm::FLOWN, flown, minutes(0.5, planned_min), refused_flown),
        stepper(WithoutPhoneForm::AGO, ago, minutes(1.0, 0.0), refused_ago),
        Block::Choice { label: String::new(), options: vec![record.icon(Icon::Tick).unless(why_not)] },
    ]
}
