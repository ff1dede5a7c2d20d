//! What a pack holds, and what has to be left in it.

use super::Flight;
use crate::aircraft::Aircraft;
use crate::record::{ThingKind, ThingNumber};

/// Charge to have left at landing where the person set none, percent (common practice, no source).
const USUAL_RESERVE_PERCENT: f64 = 20.0;
/// More than a pack holds goes into it by this share: what a charger and its leads lose (common practice, no source).
const CHARGER_LOSES: f64 = 0.1;
/// Of a pack whose capacity is not known: no larger one is described.
const MOST_CHARGE_MAH: f64 = 36_000.0;

/// What a pack holds, and who says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capacity {
    /// Milliampere hours: what was measured last, and never more than the label.
    pub mah: f64,
    /// On its label, milliampere hours.
    pub label_mah: f64,
    /// Flights on it when it was measured; none where only the label says what it holds.
    pub measured_at: Option<f64>,
}

impl Capacity {
    /// None of a pack that nobody described.
    pub fn of(aircraft: &Aircraft, pack: &str) -> Option<Capacity> {
        let label_mah = label_mah(aircraft, pack)?;
        let measured = measured(aircraft, pack);
        let mah = measured.map_or(f64::INFINITY, |(_, mah)| mah).min(described_mah(aircraft, pack)?);
        Some(Capacity { mah, label_mah, measured_at: measured.map(|(flights, _)| flights) })
    }
}

/// What stands on a pack, milliampere hours.
fn label_mah(aircraft: &Aircraft, pack: &str) -> Option<f64> {
    aircraft.thing(ThingKind::Pack, pack)?.number(ThingNumber::CapacityMah)
}

/// What a pack's own description says that it holds, milliampere hours: before there were readings of a pack, what was measured was a number
/// of the pack itself.
fn described_mah(aircraft: &Aircraft, pack: &str) -> Option<f64> {
    let old_mah = aircraft.thing(ThingKind::Pack, pack)?.number(ThingNumber::MeasuredMah).unwrap_or(f64::INFINITY);
    Some(label_mah(aircraft, pack)?.min(old_mah))
}

/// The newest measurement of what a pack holds: after the most flights, and of two after as many the lower. Flights on it, and
/// milliampere hours.
fn measured(aircraft: &Aircraft, pack: &str) -> Option<(f64, f64)> {
    let readings = aircraft.things_of(ThingKind::PackReading).filter(|reading| reading.of.as_deref() == Some(pack));
    let measured = readings.filter_map(|reading| {
        Some((reading.number(ThingNumber::Flights).unwrap_or(0.0), reading.number(ThingNumber::MeasuredMah)?))
    });
    measured.max_by(|(a, a_mah), (b, b_mah)| a.total_cmp(b).then(b_mah.total_cmp(a_mah)))
}

/// The least that was measured of any of these packs, milliampere hours; none where none of them was measured.
pub fn least_measured_mah<'a>(aircraft: &Aircraft, packs: impl Iterator<Item = &'a str>) -> Option<f64> {
    packs.filter_map(|pack| measured(aircraft, pack)).map(|(_, mah)| mah).min_by(f64::total_cmp)
}

/// What the packs of a flight held, milliampere hours: the weakest decides. Its label, or what it was measured to hold before that
/// flight: what is measured later is no reason to judge an earlier landing anew. None where one of them was never described.
pub fn held_mah(aircraft: &Aircraft, flight: &Flight) -> Option<f64> {
    let described: Option<Vec<f64>> = flight.packs().map(|pack| described_mah(aircraft, pack)).collect();
    described?.into_iter().chain(flight.measured_mah).min_by(f64::total_cmp)
}

/// Charge to have left at landing, percent of what the pack holds.
pub fn reserve_percent(aircraft: &Aircraft) -> f64 {
    aircraft.figure("reserve-percent").unwrap_or(USUAL_RESERVE_PERCENT)
}

/// What is left after a flight that took so much, percent; none where nobody knows what its packs hold.
pub fn left_percent(aircraft: &Aircraft, flight: &Flight, used_mah: f64) -> Option<f64> {
    let held_mah = held_mah(aircraft, flight).or_else(|| aircraft.figure("pack-capacity"))?;
    (held_mah > 0.0).then(|| (1.0 - used_mah / held_mah) * 100.0)
}

/// The charge that can have gone out of a flight's packs, milliampere hours, inclusive: a fifth over the label where that is known. One
/// range for what is flagged and what is refused.
pub fn used_range_mah(aircraft: &Aircraft, flight: &Flight) -> (f64, f64) {
    let least = flight.packs().filter_map(|pack| label_mah(aircraft, pack)).min_by(f64::total_cmp);
    (0.0, least.map_or(MOST_CHARGE_MAH, |capacity| capacity * 1.2))
}

/// The charge that can be put back into a pack, milliampere hours, inclusive: what it holds, and what the charger loses on the way.
pub fn put_back_range_mah(aircraft: &Aircraft, pack: &str) -> (f64, f64) {
    let holds = measured(aircraft, pack).map(|(_, mah)| mah).or_else(|| label_mah(aircraft, pack));
    (0.0, holds.map_or(MOST_CHARGE_MAH, |mah| mah * (1.0 + CHARGER_LOSES)))
}
