//! What a pack holds, and what has to be left in it.

use crate::aircraft::Aircraft;
use crate::record::ThingKind;

/// Charge to have left at landing where the person set none, percent (common practice, no source).
const USUAL_RESERVE_PERCENT: f64 = 20.0;

/// What a pack holds, milliampere hours: its label, or what it was measured to hold where that is less. None of a pack that nobody
/// described.
pub fn holds_mah(aircraft: &Aircraft, pack: &str) -> Option<f64> {
    let pack = aircraft.thing(ThingKind::Pack, pack)?;
    let label = pack.number("capacity_mah")?;
    Some(pack.number("measured_mah").map_or(label, |measured| measured.min(label)))
}

/// Charge to have left at landing, percent of what the pack holds.
pub fn reserve_percent(aircraft: &Aircraft) -> f64 {
    aircraft.figure("reserve-percent").unwrap_or(USUAL_RESERVE_PERCENT)
}

/// What is left in a pack of which so much was used, percent; none where nobody knows what it holds.
pub fn left_percent(aircraft: &Aircraft, pack: &str, used_mah: f64) -> Option<f64> {
    let holds_mah = holds_mah(aircraft, pack).or_else(|| aircraft.figure("pack-capacity"))?;
    (holds_mah > 0.0).then(|| (1.0 - used_mah / holds_mah) * 100.0)
}
