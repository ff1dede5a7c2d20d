//! What was done with a pack, and what was seen of it.

use crate::app::AppError;
use crate::app::done::{After, Done, Result, one};
use crate::app::shared::Shared;
use crate::field::PACKS_JOINED;
use crate::form::{CellsForm, Drafts, PutBackForm};
use crate::journal::NewEntry;
use crate::locale::say;
use crate::record::{Body, PackState, ThingKind};
use crate::view::Place;

pub(super) fn charged(shared: &Shared, pack: String, place: &Place, drafts: Drafts<'_>) -> Result {
    may_be_charged(shared, &pack)?;
    let put_back_mah = PutBackForm::new(drafts, &shared.ledger.aircraft, &pack).put_back_mah()?;
    let said = say!(shared.locale(), "app-pack-charged", pack = pack);
    // On a card that is being drawn up, what else was typed there stays.
    let after = if matches!(place, Place::Card(_)) { After::Keep } else { After::Stay };
    one(Body::PackCharged { pack, put_back_mah }, said, after)
}

/// A set that comes off the charger together, on the card that it is flown on: one touch, an entry of each pack.
pub(super) fn charged_all(shared: &Shared, packs: Vec<String>) -> Result {
    packs.iter().try_for_each(|pack| may_be_charged(shared, pack))?;
    let said = say!(shared.locale(), "app-pack-charged", pack = packs.join(PACKS_JOINED));
    let entry = |pack| NewEntry::pilot(Body::PackCharged { pack, put_back_mah: None });
    Ok(Done { entries: packs.into_iter().map(entry).collect(), said, after: After::Keep })
}

fn may_be_charged(shared: &Shared, pack: &str) -> std::result::Result<(), AppError> {
    is_described(shared, pack)?;
    let Some(state) = shared.ledger.damaged.get(pack) else { return Ok(()) };
    let state = shared.locale().inside(&state.word(shared.locale()));
    Err(AppError::refused(say!(shared.locale(), "app-pack-retired", pack = pack, state = state)))
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
