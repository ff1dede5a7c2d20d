//! A pack that was charged.

use crate::app::AppError;
use crate::app::done::{After, Result, one};
use crate::app::shared::Shared;
use crate::form::{Drafts, PutBackForm};
use crate::locale::say;
use crate::record::{Body, ThingKind};

pub(super) fn charged(shared: &Shared, pack: String, drafts: Drafts<'_>) -> Result {
    if shared.ledger.aircraft.thing(ThingKind::Pack, &pack).is_none() {
        return Err(AppError::refused(say!(shared.locale(), "app-pack-gone")));
    }
    let put_back_mah = PutBackForm::new(drafts, &shared.ledger.aircraft, &pack).put_back_mah()?;
    let said = say!(shared.locale(), "app-pack-charged", pack = pack);
    one(Body::PackCharged { pack, put_back_mah }, said, After::Stay)
}
