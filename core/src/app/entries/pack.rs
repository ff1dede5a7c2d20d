//! What was done with a pack, and what was seen of it.

use crate::app::AppError;
use crate::app::done::{After, Result, one};
use crate::app::shared::Shared;
use crate::form::{CellsForm, Drafts, PutBackForm};
use crate::locale::say;
use crate::record::{Body, PackState, ThingKind};
use crate::view::Place;

pub(super) fn charged(shared: &Shared, pack: String, place: &Place, drafts: Drafts<'_>) -> Result {
    is_described(shared, &pack)?;
    if let Some(state) = shared.ledger.damaged.get(&pack) {
        let state = shared.locale().inside(&state.word(shared.locale()));
        return Err(AppError::refused(say!(shared.locale(), "app-pack-retired", pack = pack, state = state)));
    }
    let put_back_mah = PutBackForm::new(drafts, &shared.ledger.aircraft, &pack).put_back_mah()?;
    let said = say!(shared.locale(), "app-pack-charged", pack = pack);
    // On a card that is being drawn up, what else was typed there stays.
    let after = if matches!(place, Place::Card(_)) { After::Keep } else { After::Stay };
    one(Body::PackCharged { pack, put_back_mah }, said, after)
}

/// Read at rest, cell by cell: whether it is full is seen by that.
pub(super) fn cells_read(shared: &Shared, pack: String, drafts: Drafts<'_>) -> Result {
    is_described(shared, &pack)?;
    let (low_v, high_v) = CellsForm::new(drafts, &pack).cells_v()?;
    let said = say!(shared.locale(), "app-cells-read", pack = pack);
    one(Body::CellsRead { pack, low_v, high_v }, said, After::Stay)
}

fn is_described(shared: &Shared, pack: &str) -> std::result::Result<(), AppError> {
    let found = shared.ledger.aircraft.thing(ThingKind::Pack, pack);
    found.map(drop).ok_or_else(|| AppError::refused(say!(shared.locale(), "app-pack-gone")))
}

/// Brought to storage, or damaged and so retired: one touch where it stands.
pub(super) fn noted(shared: &Shared, pack: String, state: PackState) -> Result {
    let locale = shared.locale();
    is_described(shared, &pack)?;
    let word = locale.inside(&state.word(locale));
    let said = match state {
        PackState::Storage => say!(locale, "app-pack-stored", pack = pack),
        _ => say!(locale, "app-pack-damaged", pack = pack, state = word),
    };
    one(Body::PackNoted { pack, state }, said, After::Stay)
}
