//! Who stands under a decision.

use crate::app::shared::Shared;
use crate::locale::say;

/// Who stands under a decision.
pub(super) fn pilots_name(shared: &Shared) -> String {
    match shared.ledger.aircraft.pilot.as_str() {
        "" => say!(shared.locale(), "app-the-pilot"),
        name => name.to_owned(),
    }
}
