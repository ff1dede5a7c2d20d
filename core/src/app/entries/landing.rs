//! What was jotted after landing.

use crate::app::AppError;
use crate::app::done::{After, Result, one};
use crate::app::shared::Shared;
use crate::field::{Flight, Landing, LandingLack};
use crate::form::{Drafts, ExplanationForm, LandingForm, MarkAnswerForm};
use crate::locale::{clock, say};
use crate::record::{Body, EntryId, Reading};
use crate::unit::Unit;
use crate::view::{Place, UsualAnswer};

pub(super) fn landing(shared: &Shared, card: EntryId, drafts: Drafts<'_>) -> Result {
    let flight = landed(shared, card)?;
    let form = LandingForm::new(drafts, &shared.plan, &shared.ledger.aircraft, flight);
    let (temperatures, pack_used_mah) = (form.temperatures()?, form.used_mah()?);
    let notes = form.notes().map(str::to_owned);
    let after = after_landing(shared, flight, &temperatures, pack_used_mah);
    one(
        Body::LandingRecorded { card, pack_used_mah, temperatures, notes },
        say!(shared.locale(), "app-landing-recorded"),
        after,
    )
}

pub(super) fn landed(shared: &Shared, card: EntryId) -> std::result::Result<&Flight, AppError> {
    let flight = shared.ledger.flight(card).filter(|flight| flight.down.is_some());
    flight.ok_or_else(|| AppError::refused(say!(shared.locale(), "app-not-landed")))
}

/// In service, with nothing wrong and nothing lacking, the next card follows at once; the board otherwise.
fn after_landing(shared: &Shared, flight: &Flight, temperatures: &[Reading], used_mah: Option<f64>) -> After {
    let found = shared.plan.check(&flight.check);
    let Some((stage, fly)) = found.and_then(|(stage, check)| Some((stage, check.fly()?))) else {
        return After::To(Place::Board);
    };
    let cool = temperatures.iter().all(|reading| {
        shared.plan.place(&reading.place).is_none_or(|place| reading.celsius <= place.caution_above_c)
    });
    let lack = LandingLack::of(&shared.plan, &shared.ledger.aircraft, fly, flight, temperatures, used_mah);
    let whole = lack.is_nothing() && flight.marks.is_empty() && !flight.is_untimed;
    match stage.gate.is_none() && cool && whole && flight.called_off().is_none() {
        true => After::Through(Place::Board, Place::Card(flight.check.clone())),
        false if asks(shared, flight, temperatures) => After::Stay,
        false => After::To(Place::Board),
    }
}

/// Whether something was seen or read that has to be answered before the next card: it is answered where the pilot is.
fn asks(shared: &Shared, flight: &Flight, temperatures: &[Reading]) -> bool {
    let past_stop = |reading: &Reading| {
        shared.plan.place(&reading.place).is_some_and(|place| reading.celsius > place.stop_above_c)
    };
    flight.is_untimed || flight.marks.iter().any(|mark| mark.answer.is_none()) || temperatures.iter().any(past_stop)
}

pub(super) fn drop_reading(shared: &Shared, card: EntryId, index: u32) -> Result {
    let flight = landed(shared, card)?;
    let gone = || AppError::refused(say!(shared.locale(), "app-reading-gone"));
    let mut landing = flight.landing.clone().ok_or_else(gone)?;
    let index = usize::try_from(index).unwrap_or(usize::MAX);
    if index >= landing.temperatures.len() {
        return Err(gone());
    }
    let out = landing.temperatures.remove(index);
    let title = shared.plan.place(&out.place).map_or(out.place.as_str(), |place| place.title.as_str());
    let said = say!(
        shared.locale(),
        "app-reading-dropped",
        title = title,
        value = shared.locale().quantity(out.celsius, Unit::Celsius)
    );
    let Landing { pack_used_mah, temperatures, notes, .. } = landing;
    one(Body::LandingRecorded { card, pack_used_mah, temperatures, notes }, said, After::Stay)
}

/// Why a flight was not as predicted.
pub(super) fn explain(shared: &Shared, card: EntryId, drafts: Drafts<'_>) -> Result {
    let why = ExplanationForm(drafts).why()?.to_owned();
    one(Body::DisagreementExplained { card, why }, say!(shared.locale(), "app-explained"), After::Back)
}

/// How long the motor was on, where the phone was started anew in flight.
pub(super) fn tell_flown(shared: &Shared, card: EntryId, drafts: Drafts<'_>) -> Result {
    let flight = landed(shared, card)?;
    if !flight.is_untimed {
        return Err(AppError::refused(say!(shared.locale(), "app-time-known")));
    }
    let form = LandingForm::new(drafts, &shared.plan, &shared.ledger.aircraft, flight);
    let flown_s = form.required_flown_s()?;
    let said = say!(shared.locale(), "entry-flown-told", time = clock(flown_s));
    one(Body::FlownTold { card, flown_s }, said, After::Keep)
}

/// There is nothing to a mark, in words: one of the usual answers, or what was typed.
pub(super) fn answer_mark(
    shared: &Shared,
    card: EntryId,
    mark: EntryId,
    usual: Option<UsualAnswer>,
    drafts: Drafts<'_>,
) -> Result {
    let locale = shared.locale();
    is_asked(shared, card, mark)?;
    let words = match usual {
        Some(usual) => usual.words(locale),
        None => MarkAnswerForm::new(drafts, mark).words()?.to_owned(),
    };
    let said = say!(locale, "app-mark-answered", words = words);
    one(Body::MarkAnswered { card, mark, words }, said, After::Keep)
}

/// A mark is of a finding that its flight showed already.
pub(super) fn mark_is_finding(shared: &Shared, card: EntryId, mark: EntryId, finding: EntryId) -> Result {
    let locale = shared.locale();
    is_asked(shared, card, mark)?;
    let found = shared.ledger.finding(finding);
    let found = found.ok_or_else(|| AppError::refused(say!(locale, "app-finding-gone")))?;
    let words = say!(locale, "answer-finding", number = found.number, title = found.title);
    one(Body::MarkAnswered { card, mark, words: words.clone() }, words, After::Keep)
}

/// Whether a mark is there and nothing was said of it yet.
fn is_asked(shared: &Shared, card: EntryId, mark: EntryId) -> std::result::Result<(), AppError> {
    let is_asked = landed(shared, card)?.marks.iter().any(|noted| noted.entry == mark && noted.answer.is_none());
    is_asked.then_some(()).ok_or_else(|| AppError::refused(say!(shared.locale(), "app-mark-gone")))
}
