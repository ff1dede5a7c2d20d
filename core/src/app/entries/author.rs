//! Who stands under a decision.

use crate::app::shared::Shared;
use crate::locale::say;

/// Who stands under a decision.
pub(super) fn pilots_name(shared: &Shared) -> String {
    match shared.ledger.aircraft.builder.as_str() {
        "" => say!(shared.locale(), "app-the-pilot"),
        name => name.to_owned(),
    }
}
