//! A person's own plan: picked as a file, looked at, and brought into force.

use super::AppError;
use super::command::{After, Result, one};
use super::phone::Shared;
use crate::form::Drafts;
use crate::locale::{Locale, say};
use crate::plan::Plan;
use crate::record::Body;
use crate::view::{self, Place};

/// Longer plan files are refused; the shipped one takes a tenth of this.
const MOST_PLAN_BYTES: u64 = 1 << 20;

/// Refuses what is too long for a plan.
pub(super) fn short_enough(locale: Locale, name: &str, bytes: u64) -> std::result::Result<(), AppError> {
    if bytes > MOST_PLAN_BYTES {
        return Err(AppError::refused(say!(locale, "desk-plan-too-long", name = name)));
    }
    Ok(())
}

/// Keeps the text of a plan file that was picked, and goes to where it is looked at. It is not in force by that.
pub(super) fn pick(shared: &mut Shared, name: &str, bytes: Vec<u8>) -> std::result::Result<(), AppError> {
    let text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        AppError::refused(say!(shared.locale(), "desk-plan-no-text", name = name, at = at))
    })?;
    let fields = [(view::OFFERED_NAME.to_owned(), name.to_owned()), (view::OFFERED_TEXT.to_owned(), text)];
    shared.go_with(Place::PlanOffer, &fields)
}

/// Brings the plan that was looked at into force.
pub(super) fn adopt(shared: &Shared, form: Drafts<'_>) -> Result {
    let name =
        form.text(view::OFFERED_NAME).map_or_else(|| say!(shared.locale(), "desk-plan-nameless"), str::to_owned);
    let Some(text) = form.whole(view::OFFERED_TEXT) else {
        return Err(AppError::refused(say!(shared.locale(), "desk-plan-none")));
    };
    let plan = Plan::parse(&name, text)?;
    if let Some(reason) = view::keeps_out(shared.locale(), &shared.plan, &shared.ledger, &plan) {
        return Err(AppError::refused(reason));
    }
    let said = say!(shared.locale(), "desk-plan-in-force", plan = plan.title, edition = plan.edition);
    let body = Body::PlanAdopted { plan: plan.id, edition: plan.edition, text: text.to_owned() };
    one(body, said, After::To(Place::Board))
}
