//! Which packs a card is drawn up for: one, or as many as make the set in series.

use super::{Drafts, Refusal, Result};
use crate::field::{WrongSet, cells_wanted, wrong_set};
use crate::locale::say;
use crate::readiness::{Charge, Ledger, PackStand};
use crate::record::{ThingKind, ThingNumber};

/// The packs of a card.
#[derive(Clone, Copy)]
pub struct SetForm<'a> {
    drafts: Drafts<'a>,
    ledger: &'a Ledger,
}

/// Between the names in the field. No name has it: a name is one line.
const BETWEEN: char = '\n';

impl<'a> SetForm<'a> {
    /// Its field: the packs in the order in which they were touched.
    pub const FIELD: &'static str = "pack";

    /// The form of a card's packs.
    pub fn new(drafts: Drafts<'a>, ledger: &'a Ledger) -> Self {
        SetForm { drafts, ledger }
    }

    /// The packs: those that were touched, else the full ones that have rested longest and make a set, else the only ones there are.
    pub fn packs(&self) -> Vec<String> {
        match self.drafts.text(Self::FIELD) {
            Some(chosen) => chosen.split(BETWEEN).map(str::to_owned).collect(),
            None => self.suggested(),
        }
    }

    fn suggested(&self) -> Vec<String> {
        let may_fly: Vec<PackStand> = self.ledger.packs().into_iter().filter(PackStand::may_fly).collect();
        let full: Vec<&PackStand> = may_fly.iter().filter(|pack| pack.is_full()).collect();
        let names = |packs: &[&PackStand]| packs.iter().map(|pack| pack.name.clone()).collect::<Vec<_>>();
        // Each in turn with those after it that are like it, until they make a set.
        let of_full = (0..full.len()).find_map(|first| {
            let (first, later) = full[first..].split_first()?;
            let alike = later.iter().filter(|other| self.is_alike(first, other));
            let set: Vec<&PackStand> =
                std::iter::once(first).chain(alike).take(self.packs_of(&first.name)).copied().collect();
            Some(names(&set)).filter(|set| self.is_set(set))
        });
        let all = names(&may_fly.iter().collect::<Vec<_>>());
        let are_all = all.len() == 1 || (!all.is_empty() && all.len() == self.packs_of(&all[0]) && self.is_set(&all));
        of_full.or(are_all.then_some(all)).unwrap_or_default()
    }

    fn is_alike(&self, one: &PackStand, other: &PackStand) -> bool {
        let number = |pack: &PackStand, field| self.ledger.aircraft.thing(ThingKind::Pack, &pack.name)?.number(field);
        [ThingNumber::Cells, ThingNumber::CapacityMah, ThingNumber::FullV]
            .into_iter()
            .all(|field| number(one, field) == number(other, field))
    }

    fn is_set(&self, packs: &[String]) -> bool {
        wrong_set(&self.ledger.aircraft, packs).is_none()
    }

    fn cells(&self, pack: &str) -> Option<f64> {
        self.ledger.aircraft.thing(ThingKind::Pack, pack)?.number(ThingNumber::Cells)
    }

    /// How many packs like this one make a set.
    fn packs_of(&self, pack: &str) -> usize {
        let (Some(cells), Some(wanted)) = (self.cells(pack), cells_wanted(&self.ledger.aircraft)) else { return 1 };
        if cells < 1.0 { 1 } else { ((f64::from(wanted) / cells).round() as usize).max(1) }
    }

    /// What the field says once this pack is touched: it is on the card, and those that were touched first are off it as far as they make
    /// more cells with it than the aircraft wants. Of several that are on it, one that is touched again is taken off.
    pub fn packs_with(&self, pack: &str) -> String {
        let mut packs = self.packs();
        match packs.iter().position(|name| name == pack) {
            Some(_) if packs.len() == 1 => {}
            Some(at) => drop(packs.remove(at)),
            None => {
                packs.push(pack.to_owned());
                while packs.len() > 1 && self.is_more_than_wanted(&packs) {
                    packs.remove(0);
                }
            }
        }
        packs.join(&BETWEEN.to_string())
    }

    fn is_more_than_wanted(&self, packs: &[String]) -> bool {
        let all = packs.iter().map(|pack| self.cells(pack)).sum::<Option<f64>>();
        let wanted = cells_wanted(&self.ledger.aircraft).map(f64::from);
        // Of what nobody knows the cells, one is flown.
        all.zip(wanted).is_none_or(|(all, wanted)| all > wanted)
    }

    /// The packs, which have to be there and to make a set.
    ///
    /// # Errors
    /// None is chosen, one is no longer known or may not be flown, or their cells do not add up to the aircraft's.
    pub fn required_packs(&self) -> Result<Vec<String>> {
        let locale = self.drafts.locale();
        let packs = self.packs();
        if packs.is_empty() {
            return Err(Refusal::of(Self::FIELD, say!(locale, "app-pack-empty")));
        }
        packs.iter().try_for_each(|pack| self.may_fly(pack))?;
        match wrong_set(&self.ledger.aircraft, &packs) {
            None => Ok(packs),
            Some(wrong) => Err(self.refused(&packs, &wrong)),
        }
    }

    fn may_fly(&self, pack: &str) -> Result<()> {
        let locale = self.drafts.locale();
        if self.ledger.aircraft.thing(ThingKind::Pack, pack).is_none() {
            return Err(Refusal::of(Self::FIELD, say!(locale, "app-pack-unknown", pack = pack)));
        }
        let words = match self.ledger.pack(pack).charge {
            Charge::Retired { state } => {
                let state = locale.inside(&state.word(locale));
                say!(locale, "app-pack-retired", pack = pack, state = state)
            }
            Charge::TooHigh { high_v } => {
                let full = locale.number(self.ledger.aircraft.full_v(pack), 2);
                say!(locale, "app-pack-too-high", pack = pack, high = locale.number(high_v, 2), full = full)
            }
            _ => return Ok(()),
        };
        Err(Refusal::of(Self::FIELD, words))
    }

    fn refused(&self, packs: &[String], wrong: &WrongSet) -> Refusal {
        let locale = self.drafts.locale();
        let words = match *wrong {
            WrongSet::Cells { cells, wanted, packs: Some(count) } => say!(
                locale,
                "app-pack-set-of",
                cells = cells as usize,
                wanted = wanted as usize,
                count = count as usize,
                chosen = packs.len()
            ),
            WrongSet::Cells { cells, wanted, packs: None } => {
                say!(locale, "app-pack-set-cells", cells = cells as usize, wanted = wanted as usize)
            }
            WrongSet::Count { packs, on_file } => {
                say!(locale, "app-pack-set-count", packs = packs as usize, wanted = on_file as usize)
            }
        };
        Refusal::of(Self::FIELD, words)
    }
}
