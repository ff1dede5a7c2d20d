//! Packs in series: which of them together are what the aircraft flies on.

use crate::aircraft::Aircraft;
use crate::record::{ThingKind, ThingNumber};

/// Why some packs are no set for the aircraft.
#[derive(Debug, Clone, PartialEq)]
pub enum WrongSet {
    /// Their cells do not add up.
    Cells {
        /// Their cells, all together.
        cells: u32,
        /// The cells that the aircraft wants.
        wanted: u32,
        /// How many packs like the first of them make a set, where so many do exactly.
        packs: Option<u32>,
    },
    /// Their cells add up, and they are more or fewer than the packs in series that are on file: which checks a string wants goes by that.
    Count {
        /// How many they are.
        packs: u32,
        /// How many are on file.
        on_file: u32,
    },
}

impl WrongSet {
    /// The figure that is mended, where it is not these packs that are wrong: its id. None where one or more packs are missing yet.
    pub fn figure(&self) -> Option<&'static str> {
        match self {
            WrongSet::Cells { packs: Some(_), .. } => None,
            WrongSet::Cells { packs: None, .. } => Some(CELLS),
            WrongSet::Count { .. } => Some(PACKS),
        }
    }
}

/// The figure of the cells in series, all packs together.
const CELLS: &str = "pack-cells";
/// The figure of the packs in series.
const PACKS: &str = "packs-in-series";

/// Cells that the aircraft wants in series, all packs together; none while nobody entered that.
pub fn cells_wanted(aircraft: &Aircraft) -> Option<u32> {
    aircraft.figure(CELLS).map(whole)
}

/// Cells that each pack has, where the aircraft's cells are shared out evenly among its packs in series.
pub fn cells_of_each(aircraft: &Aircraft) -> Option<u32> {
    let packs = aircraft.figure(PACKS).map(whole).filter(|packs| *packs > 0)?;
    cells_wanted(aircraft).filter(|cells| cells % packs == 0).map(|cells| cells / packs)
}

/// Why these packs are no set: their cells do not add up to the aircraft's, or they are not as many as it has in series. None where they
/// are one, and where nobody knows of one of them how many cells it has, or of the aircraft how many it wants.
pub fn wrong_set(aircraft: &Aircraft, packs: &[String]) -> Option<WrongSet> {
    let wanted = cells_wanted(aircraft)?;
    let cells_of = |pack: &String| aircraft.thing(ThingKind::Pack, pack)?.number(ThingNumber::Cells).map(whole);
    let each = packs.iter().map(cells_of).collect::<Option<Vec<u32>>>()?;
    let cells = each.iter().sum();
    if cells != wanted {
        let alike = each.first().copied().filter(|cells| *cells > 0 && wanted % cells == 0);
        return Some(WrongSet::Cells { cells, wanted, packs: alike.map(|cells| wanted / cells) });
    }
    let on_file = aircraft.figure(PACKS).map(whole)?;
    let packs = each.len() as u32;
    (packs != on_file).then_some(WrongSet::Count { packs, on_file })
}

fn whole(number: f64) -> u32 {
    number.round().clamp(0.0, 1_000.0) as u32
}
