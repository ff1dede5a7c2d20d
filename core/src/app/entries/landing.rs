//! What was jotted after landing.

use crate::app::AppError;
use crate::app::done::{After, Done, Result, one};
use crate::app::shared::Shared;
use crate::field::{Flight, Landing, Mark, is_past_stop};
use crate::form::{Drafts, ExplanationForm, HowLong, LandingForm, MarkAnswerForm, Said, WaiverForm};
use crate::journal::NewEntry;
use crate::locale::{clock, say};
use crate::record::{Body, EntryId};
use crate::unit::Unit;
use crate::view::{self, Place, UsualAnswer};

pub(super) fn landing(shared: &Shared, card: EntryId, said: Option<Said>, drafts: Drafts<'_>) -> Result {
    let flight = landed(shared, card)?;
    let form = form(shared, flight, drafts);
    let (temperatures, pack_used_mah) = (form.temperatures()?, form.used_mah()?);
    let notes = form.notes().map(str::to_owned);
    if temperatures.is_empty() && pack_used_mah.is_none() && notes.is_none() {
        return Err(AppError::refused(say!(shared.locale(), "app-landing-empty")));
    }
    let confirmed = form.confirmed(|doubt| view::doubt_words(shared.locale(), &shared.plan, flight, doubt))?;
    let judgement = match said {
        Some(said) => form.judgement(said)?,
        None => form.judgement_by_the_way()?,
    };
    let landing = Landing { entry: card, pack_used_mah, temperatures, notes, confirmed, judgement };
    let after = after_landing(shared, flight, &landing);
    one(recorded(card, landing, None), say!(shared.locale(), "app-landing-recorded"), after)
}

fn form<'a>(shared: &'a Shared, flight: &'a Flight, drafts: Drafts<'a>) -> LandingForm<'a> {
    LandingForm::new(drafts, &shared.plan, &shared.ledger.aircraft, flight)
}

fn recorded(card: EntryId, landing: Landing, slip: Option<String>) -> Body {
    let Landing { pack_used_mah, temperatures, notes, confirmed, judgement, .. } = landing;
    Body::LandingRecorded { card, pack_used_mah, temperatures, notes, confirmed, judgement, slip }
}

/// Nothing will be jotted down, and why.
pub(super) fn waive(shared: &Shared, card: EntryId, drafts: Drafts<'_>) -> Result {
    let locale = shared.locale();
    if !landed(shared, card)?.awaits_landing() {
        return Err(AppError::refused(say!(locale, "app-landing-there")));
    }
    let reason = WaiverForm(drafts).reason()?.to_owned();
    one(Body::LandingWaived { card, reason }, say!(locale, "app-landing-waived"), After::To(Place::Board))
}

pub(super) fn landed(shared: &Shared, card: EntryId) -> std::result::Result<&Flight, AppError> {
    let flight = shared.ledger.flight(card).filter(|flight| flight.down.is_some());
    flight.ok_or_else(|| AppError::refused(say!(shared.locale(), "app-not-landed")))
}

/// In service, with nothing wrong and nothing lacking, the next card follows at once; the board otherwise.
fn after_landing(shared: &Shared, flight: &Flight, landing: &Landing) -> After {
    let found = shared.plan.check(&flight.check);
    let Some((stage, fly)) = found.and_then(|(stage, check)| Some((stage, check.fly()?))) else {
        return After::To(Place::Board);
    };
    let flown = Flight { landing: Some(landing.clone()), released_since: false, ..flight.clone() };
    let is_whole = flown.is_without_fault(&shared.plan, &shared.ledger.aircraft, fly);
    match stage.gate.is_none() && is_whole && !flight.is_called_off(&shared.plan) {
        true => After::Through(Place::Board, Place::Card(flight.check.clone())),
        // What was seen or read and has to be answered before the next card is answered where the pilot is.
        false if !flown.unanswered(&shared.plan).is_empty() => After::Stay,
        false => After::To(Place::Board),
    }
}

/// Leaves out a reading that was a slip. One past its stop goes with its reason.
pub(super) fn drop_reading(shared: &Shared, card: EntryId, index: u32, drafts: Drafts<'_>) -> Result {
    let flight = landed(shared, card)?;
    let gone = || AppError::refused(say!(shared.locale(), "app-reading-gone"));
    let mut landing = flight.landing.clone().ok_or_else(gone)?;
    let index = usize::try_from(index).unwrap_or(usize::MAX);
    if index >= landing.temperatures.len() {
        return Err(gone());
    }
    let out = landing.temperatures.remove(index);
    let form = form(shared, flight, drafts);
    let slip = is_past_stop(&shared.plan, &out).then(|| form.slip()).transpose()?;
    let title = shared.plan.place(&out.place).map_or(out.place.as_str(), |place| place.title.as_str());
    let said = say!(
        shared.locale(),
        "app-reading-dropped",
        title = title,
        value = shared.locale().quantity(out.celsius, Unit::Celsius)
    );
    one(recorded(card, landing, slip), said, After::Stay)
}

/// Why a flight was not as predicted.
pub(super) fn explain(shared: &Shared, card: EntryId, drafts: Drafts<'_>) -> Result {
    let flight = landed(shared, card)?;
    if flight.disagrees_widely() {
        return Err(AppError::refused(say!(shared.locale(), "app-wants-finding")));
    }
    let why = ExplanationForm(drafts).why()?.to_owned();
    let used_mah = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
    one(Body::DisagreementExplained { card, why, used_mah }, say!(shared.locale(), "app-explained"), After::Back)
}

/// How long the motor was on: as the pilot says, or as it was counted.
pub(super) fn tell_flown(shared: &Shared, card: EntryId, how_long: HowLong, drafts: Drafts<'_>) -> Result {
    let flight = landed(shared, card)?;
    if !flight.may_be_told() {
        return Err(AppError::refused(say!(shared.locale(), "app-time-known")));
    }
    let form = form(shared, flight, drafts);
    let flown_s = match how_long {
        HowLong::AsTyped => form.required_flown_s()?,
        HowLong::AsCounted => form.counted_s()?,
    };
    let said = say!(shared.locale(), "entry-flown-told", time = clock(flown_s));
    one(Body::FlownTold { card, flown_s, without_phone: None }, said, After::Keep)
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
    let alike = asked(shared, card, mark)?;
    let words = match usual {
        Some(usual) => usual.words(locale),
        None => MarkAnswerForm::new(drafts, mark).words()?.to_owned(),
    };
    let said = say!(locale, "app-mark-answered", words = words);
    Ok(answered(card, &alike, &words, said))
}

/// A mark is of a finding that its flight showed already.
pub(super) fn mark_is_finding(shared: &Shared, card: EntryId, mark: EntryId, finding: EntryId) -> Result {
    let locale = shared.locale();
    let alike = asked(shared, card, mark)?;
    let found = shared.ledger.finding(finding);
    let found = found.ok_or_else(|| AppError::refused(say!(locale, "app-finding-gone")))?;
    let words = say!(locale, "answer-finding", number = found.number, title = found.title);
    Ok(answered(card, &alike, &words, words.clone()))
}

/// One answer for all that is alike, an entry for each.
fn answered(card: EntryId, alike: &[Mark], words: &str, said: String) -> Done {
    let answer = |mark: &Mark| Body::MarkAnswered { card, mark: mark.entry, words: words.to_owned() };
    let entries = alike.iter().map(answer).map(NewEntry::pilot).collect();
    Done { entries, said, after: After::Keep }
}

/// A mark and all others of its kind of which nothing was said yet.
pub(super) fn asked(shared: &Shared, card: EntryId, mark: EntryId) -> std::result::Result<Vec<Mark>, AppError> {
    let flight = landed(shared, card)?;
    let noted = flight.marks.iter().find(|noted| noted.entry == mark && noted.answer.is_none());
    let alike = noted.map(|noted| flight.marks_alike(noted.kind));
    alike.ok_or_else(|| AppError::refused(say!(shared.locale(), "app-mark-gone")))
}
