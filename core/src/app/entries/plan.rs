//! Another plan that comes into force.

use crate::app::AppError;
use crate::app::done::{After, Result, one};
use crate::app::shared::Shared;
use crate::form::{Drafts, PlanOfferForm, keeps_out};
use crate::locale::say;
use crate::plan::Plan;
use crate::record::Body;
use crate::view::{self, Place};

/// Brings the plan that was looked at into force.
pub(super) fn adopt(shared: &Shared, drafts: Drafts<'_>) -> Result {
    let form = PlanOfferForm(drafts);
    let name = form.name().map_or_else(|| say!(shared.locale(), "app-plan-nameless"), str::to_owned);
    let Some(text) = form.text() else {
        return Err(AppError::refused(say!(shared.locale(), "app-plan-none")));
    };
    let plan = Plan::parse(&name, text)?;
    if let Some(why) = keeps_out(&shared.ledger, &shared.written, &plan) {
        return Err(AppError::refused(view::keeps_out_words(shared.locale(), &shared.plan, &why)));
    }
    let said = say!(shared.locale(), "app-plan-in-force", plan = plan.title, edition = plan.edition);
    let body = Body::PlanAdopted { plan: plan.id, edition: plan.edition, text: text.to_owned() };
    one(body, said, After::To(Place::Board))
}
