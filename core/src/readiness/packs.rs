use chrono::TimeDelta;

use crate::record::{Moment, PackState, ThingKind};

use super::ledger::Ledger;

/// How a flight pack stands, as far as anybody wrote it down.
#[derive(Debug, Clone, PartialEq)]
pub struct PackStand {
    /// Its name.
    pub name: String,
    /// Charged, flown, or neither.
    pub charge: Charge,
    /// When it was flown last.
    pub flown: Option<Moment>,
    /// Motor runs on it.
    pub runs: u32,
}

/// What was done with a pack last.
#[derive(Debug, Clone, PartialEq)]
pub enum Charge {
    /// Charged, and not flown since.
    Charged {
        /// When that was written down.
        at: Moment,
    },
    /// Neither charged nor flown yet, as far as is known.
    Unknown,
    /// Flown, and no charge was written down since.
    Flown,
    /// Brought to storage, and neither charged nor flown since.
    Stored,
    /// Damaged, and so retired: it is flown no more.
    Retired {
        /// What was seen of it.
        state: PackState,
    },
}

/// A pack that stands full or empty for longer than this wears (common practice, no source).
const STORED_WITHIN_H: i64 = 24;

impl PackStand {
    /// Whether it was charged or flown more than a day ago and not brought to storage since.
    pub fn wants_storage(&self, now: &Moment) -> bool {
        let since = match &self.charge {
            Charge::Charged { at } => Some(at),
            Charge::Flown => self.flown.as_ref(),
            Charge::Unknown | Charge::Stored | Charge::Retired { .. } => None,
        };
        since.is_some_and(|since| now.wall - since.wall > TimeDelta::hours(STORED_WITHIN_H))
    }

    /// Whether it may be flown.
    pub fn may_fly(&self) -> bool {
        !matches!(self.charge, Charge::Retired { .. })
    }
}

impl Ledger {
    /// The aircraft's packs in the order in which they are best flown: the charged ones first, and of these the one that has
    /// rested longest since it was flown.
    pub fn packs(&self) -> Vec<PackStand> {
        let mut packs: Vec<(PackStand, i64)> =
            self.aircraft.things_of(ThingKind::Pack).map(|pack| self.pack(&pack.name)).collect();
        packs.sort_by_key(|(pack, flown_seq)| {
            let rank = match pack.charge {
                Charge::Charged { .. } => 0,
                Charge::Unknown => 1,
                Charge::Flown | Charge::Stored => 2,
                Charge::Retired { .. } => 3,
            };
            (rank, *flown_seq, pack.name.clone())
        });
        packs.into_iter().map(|(pack, _)| pack).collect()
    }

    /// A pack, and the place in the journal of its last motor run.
    fn pack(&self, name: &str) -> (PackStand, i64) {
        let flights = || self.flights.iter().filter(|flight| flight.pack == name && flight.started.is_some());
        let last =
            flights().filter_map(|flight| Some((self.starts.get(&flight.card)?.seq, flight))).max_by_key(|f| f.0);
        let flown_seq = last.map_or(0, |(seq, _)| seq);
        let stored_seq = self.stored.get(name).map_or(0, |stored| stored.seq);
        let charge = match (self.charges.get(name), self.damaged.get(name)) {
            (_, Some(state)) => Charge::Retired { state: *state },
            (Some(charged), _) if charged.seq > flown_seq.max(stored_seq) => {
                Charge::Charged { at: charged.at.clone() }
            }
            _ if stored_seq > flown_seq => Charge::Stored,
            _ if flown_seq > 0 => Charge::Flown,
            _ => Charge::Unknown,
        };
        let flown = last.and_then(|(_, flight)| flight.started.clone());
        let runs = u32::try_from(flights().count()).unwrap_or(u32::MAX);
        (PackStand { name: name.to_owned(), charge, flown, runs }, flown_seq)
    }
}
