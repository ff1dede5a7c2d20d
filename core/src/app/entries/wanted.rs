//! The check that a command names, where this aircraft wants it.

use crate::app::AppError;
use crate::app::shared::Shared;
use crate::locale::say;
use crate::plan::Check;

/// The stage and the check, where the aircraft wants it.
pub(super) fn wanted<'a>(shared: &'a Shared, id: &str) -> std::result::Result<(&'a str, &'a Check), AppError> {
    let found = shared.plan.check(id).filter(|(_, check)| shared.ledger.aircraft.wants(check));
    found
        .map(|(stage, check)| (stage.id.as_str(), check))
        .ok_or_else(|| AppError::refused(say!(shared.locale(), "app-check-not-wanted")))
}
