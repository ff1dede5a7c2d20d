//! Another plan to look at: a person's own, as it comes in from a file, and the newer edition that came with the app.

use super::AppError;
use super::shared::Shared;
use crate::form::PlanOfferForm;
use crate::locale::{Locale, say};
use crate::plan::SHIPPED;
use crate::view::Place;

/// Longer plan files are refused: the shipped one takes a fifth of this, and reading one takes a hundred times its length at the worst.
const MOST_PLAN_BYTES: u64 = 1 << 19;

/// Refuses what is too long for a plan.
pub(super) fn short_enough(locale: Locale, name: &str, bytes: u64) -> std::result::Result<(), AppError> {
    if bytes > MOST_PLAN_BYTES {
        return Err(AppError::refused(say!(locale, "app-plan-too-long", name = name)));
    }
    Ok(())
}

/// Keeps the text of a plan file that was picked, and goes to where it is looked at. It is not in force by that.
pub(super) fn pick(shared: &mut Shared, name: &str, bytes: Vec<u8>) -> std::result::Result<(), AppError> {
    let text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        AppError::refused(say!(shared.locale(), "app-plan-no-text", name = name, at = at))
    })?;
    look_at(shared, name.to_owned(), text)
}

/// Goes to where the newer edition that came with the app is looked at. It is not in force by that.
pub(super) fn offer_shipped(shared: &mut Shared) -> std::result::Result<(), AppError> {
    let Some(edition) = shared.written.newer_edition() else {
        return Err(AppError::refused(say!(shared.locale(), "plan-is-in-force")));
    };
    let name = say!(shared.locale(), "plan-came-with", edition = edition);
    look_at(shared, name, SHIPPED.to_owned())
}

fn look_at(shared: &mut Shared, name: String, text: String) -> std::result::Result<(), AppError> {
    let fields = [(PlanOfferForm::NAME.to_owned(), name), (PlanOfferForm::TEXT.to_owned(), text)];
    shared.go_with(Place::PlanOffer, &fields)
}
