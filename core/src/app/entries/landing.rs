//! What was jotted after landing.

use crate::app::AppError;
use crate::app::done::{After, Result, one};
use crate::app::shared::Shared;
use crate::field::{Flight, Landing, LandingLack};
use crate::form::{Drafts, ExplanationForm, LandingForm};
use crate::locale::say;
use crate::record::{Body, EntryId, Reading};
use crate::unit::Unit;
use crate::view::Place;

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

fn landed(shared: &Shared, card: EntryId) -> std::result::Result<&Flight, AppError> {
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
    let whole = lack.is_nothing() && flight.marks.is_empty();
    match stage.gate.is_none() && cool && whole && flight.called_off().is_none() {
        true => After::Through(Place::Board, Place::Card(flight.check.clone())),
        false => After::To(Place::Board),
    }
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
