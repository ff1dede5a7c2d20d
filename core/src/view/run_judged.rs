//! How a run was, in the pilot's own judgement: the control that records the landing says it.

use super::context::{heading, paragraph};
use super::mend::mend_first;
use super::{Block, Context, Control, Edit, Icon, Keyboard, Record, Tone, Weight};
use crate::field::Flight;
use crate::form::{LandingForm, Said};
use crate::locale::say;
use crate::plan::Place;
use crate::record::Judgement;

/// Whether the pilot has to say in so many words how it was. What is typed wrong is asked about too, and never passed over.
fn is_asked(context: &Context<'_>, flight: &Flight) -> bool {
    context.landing_form(flight).asks_how_it_was().unwrap_or(true)
}

/// Where the words go, at the top, once they are wanted.
pub(super) fn why(context: &Context<'_>, flight: &Flight) -> Option<Block> {
    let before = flight.landing.as_ref().and_then(|landing| match &landing.judgement {
        Judgement::NotSo { why } | Judgement::CalledOff { why } => Some(why.as_str()),
        Judgement::NotAsked | Judgement::Open | Judgement::AsItShouldBe => None,
    });
    let label = say!(context.locale, "landing-why");
    is_asked(context, flight).then(|| context.entry(LandingForm::WHY, label, Keyboard::Words, before))
}

/// What the check says a run should be.
pub(super) fn judged(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    let Some((_, check)) = context.plan.check(&flight.check) else { return Vec::new() };
    let heading = heading(say!(context.locale, "landing-should-be"), None);
    vec![heading, paragraph(check.judged.clone(), Tone::Plain)]
}

/// Records the landing, and says how the run was: one touch where nothing speaks against it, one of three where something does.
pub(super) fn controls(context: &Context<'_>, flight: &Flight) -> Vec<Control> {
    let locale = context.locale;
    let record = |said| Record::Landing { card: flight.card, said: Some(said) }.into();
    let well =
        |label: String| Control::primary(record(Said::AsItShouldBe), label).icon(Icon::Tick).weight(Weight::Field);
    let wrong = mend_first(locale, context.landing_form(flight).is_refused());
    if !is_asked(context, flight) {
        let open = Edit::set(LandingForm::NOT_SO, "1");
        return vec![
            well(say!(locale, "landing-as-it-should")).detail(say!(locale, "landing-record")).unless(wrong),
            Control::new(open.into(), say!(locale, "landing-not-so-or-off")).icon(Icon::Flag),
        ];
    }
    // Something speaks against it: no answer is larger than another.
    let answers = [
        Control::new(record(Said::AsItShouldBe), say!(locale, "landing-as-it-should")).icon(Icon::Tick),
        Control::new(record(Said::NotSo), say!(locale, "landing-not-so")).icon(Icon::Flag),
        Control::new(record(Said::CalledOff), say!(locale, "landing-called-off")).icon(Icon::Stop),
    ];
    answers.map(|answer| answer.unless(wrong.clone())).to_vec()
}

/// Whether the reading of this place is the last that is asked for, and records the landing as it should be.
pub(super) fn is_recorded_by_last(context: &Context<'_>, flight: &Flight, place: &Place, wanted: &[&str]) -> bool {
    let is_last = wanted.last().is_some_and(|last| *last == place.id);
    is_last && context.landing_form(flight).judgement_by_the_way() == Ok(Judgement::AsItShouldBe)
}
