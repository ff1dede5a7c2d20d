//! Packs in series: which of them together are what the aircraft flies on.

use crate::aircraft::Aircraft;
use crate::record::ThingKind;

/// Why some packs are no set for the aircraft.
#[derive(Debug, Clone, PartialEq)]
pub struct WrongSet {
    /// Their cells, all together.
    pub cells: u32,
    /// The cells that the aircraft wants.
    pub wanted: u32,
    /// How many packs like the first of them make a set, where so many do exactly.
    pub packs: Option<u32>,
}

/// Cells that the aircraft wants in series, all packs together; none while nobody entered that.
pub fn cells_wanted(aircraft: &Aircraft) -> Option<u32> {
    aircraft.figure("pack-cells").map(whole)
}

/// Why these packs are no set: their cells do not add up to the aircraft's. None where they do, and where nobody knows of one of them
/// how many cells it has, or of the aircraft how many it wants.
pub fn wrong_set(aircraft: &Aircraft, packs: &[String]) -> Option<WrongSet> {
    let wanted = cells_wanted(aircraft)?;
    let cells_of = |pack: &String| aircraft.thing(ThingKind::Pack, pack)?.number("cells").map(whole);
    let each = packs.iter().map(cells_of).collect::<Option<Vec<u32>>>()?;
    let cells = each.iter().sum();
    let alike = each.first().copied().filter(|cells| *cells > 0 && wanted % cells == 0);
    (cells != wanted).then(|| WrongSet { cells, wanted, packs: alike.map(|cells| wanted / cells) })
}

fn whole(number: f64) -> u32 {
    number.round().clamp(0.0, 1_000.0) as u32
}
