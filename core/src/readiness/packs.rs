use chrono::TimeDelta;

use crate::engineering::pack::{FULL_WITHIN_V, OVER_FULL_V, STORAGE_CELL_V, rest_charge};
use crate::field::Flight;
use crate::record::{Moment, PackState, Thing, ThingKind, ThingNumber};

use super::clock::Clock;
use super::history::{DoneToPack, PackDeed};
use super::ledger::Ledger;

/// How a flight pack stands, as far as anybody wrote it down.
#[derive(Debug, Clone, PartialEq)]
pub struct PackStand {
    /// Its name.
    pub name: String,
    /// What was done with it last.
    pub charge: Charge,
    /// What went out of it since it was known what was in it.
    pub spent: Spent,
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
    /// Its cells were read, and they are full. Not flown since.
    ReadFull {
        /// When that was written down.
        at: Moment,
        /// The lowest cell, volts.
        low_v: f64,
    },
    /// Its cells were read, and they are not full. Not flown since.
    ReadLow {
        /// When that was written down.
        at: Moment,
        /// The lowest cell, volts.
        low_v: f64,
    },
    /// Its cells were read, and one of them has more than a full one: it is flown no more until they are read anew, or it is brought to storage.
    TooHigh {
        /// The highest cell, volts.
        high_v: f64,
    },
    /// Less was put back than went out. Not flown since.
    NotAllBack {
        /// When that was written down.
        at: Moment,
        /// What is still out, milliampere hours.
        short_mah: f64,
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

/// What went out of a pack since it was known what was in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spent {
    /// What was in it then, percent of what it holds.
    pub began_percent: f64,
    /// Whether that is known. Of a pack that was never charged or read, nobody has said that it was full.
    pub is_known: bool,
    /// What went out in flights of which the charge was read, milliampere hours.
    pub used_mah: f64,
    /// Milliseconds with the motor on in flights of which it was not.
    pub unread_ms: i64,
}

/// A pack that stands full or empty for longer than this wears (common practice, no source).
const STORED_WITHIN_H: i64 = 24;
/// A charge that puts back less than this share of what went out, and less by this much, did not fill the pack, milliampere hours: what
/// two meters differ by (common practice, no source).
const ALL_BACK: f64 = 0.9;
const METERS_DIFFER_MAH: f64 = 100.0;

impl Spent {
    /// Of a pack of which nobody said anything.
    const UNKNOWN: Spent = Spent { began_percent: 100.0, is_known: false, used_mah: 0.0, unread_ms: 0 };

    fn from(began_percent: f64) -> Spent {
        Spent { began_percent, is_known: true, ..Spent::UNKNOWN }
    }

    /// A flight on it. What nobody has read of it yet, counts by its time.
    fn flown(&mut self, flight: &Flight) {
        match flight.landing.as_ref().and_then(|landing| landing.pack_used_mah) {
            Some(used_mah) => self.used_mah += used_mah,
            None => self.unread_ms += flight.motor_ms,
        }
    }

    /// A charge: what is still out after it, where that is more than two meters differ by.
    fn put_back(&mut self, put_back_mah: Option<f64>) -> Option<f64> {
        let back_mah = put_back_mah
            .filter(|back_mah| *back_mah < ALL_BACK * self.used_mah && self.used_mah - back_mah > METERS_DIFFER_MAH);
        match back_mah {
            Some(back_mah) => self.used_mah -= back_mah,
            None => *self = Spent::from(100.0),
        }
        back_mah.map(|_| self.used_mah)
    }

    /// What is left in a pack that holds so much, milliampere hours, where flights of which nothing was read took so much; none less
    /// than nothing.
    pub fn left_mah(&self, holds_mah: f64, unread_a: f64) -> f64 {
        let unread_mah = unread_a * self.unread_ms as f64 / 3_600.0;
        (holds_mah * self.began_percent / 100.0 - self.used_mah - unread_mah).max(0.0)
    }
}

impl PackStand {
    /// Whether it is full: it was charged, or its cells were read so, and it was not flown since.
    pub fn is_full(&self) -> bool {
        matches!(self.charge, Charge::Charged { .. } | Charge::ReadFull { .. })
    }

    /// How many days ago it was charged or flown, where that is more than one and it was not brought to storage since. By the journal's own
    /// clock: one that is set back makes no pack fresh.
    pub fn days_unstored(&self, clock: &Clock, now: &Moment) -> Option<i64> {
        let since = match &self.charge {
            Charge::Charged { at } | Charge::ReadFull { at, .. } | Charge::NotAllBack { at, .. } => Some(at),
            Charge::Flown => self.flown.as_ref(),
            Charge::Unknown
            | Charge::Stored
            | Charge::ReadLow { .. }
            | Charge::TooHigh { .. }
            | Charge::Retired { .. } => None,
        };
        let stood = clock.wall(now) - since?.wall;
        (stood > TimeDelta::hours(STORED_WITHIN_H)).then(|| stood.num_days())
    }

    /// Whether it may be flown.
    pub fn may_fly(&self) -> bool {
        !matches!(self.charge, Charge::Retired { .. } | Charge::TooHigh { .. })
    }
}

/// A pack's life, step by step.
enum Step<'a> {
    Run(&'a Flight),
    Done(&'a PackDeed),
}

impl Ledger {
    /// The aircraft's packs in the order in which they are best flown: the full ones first, and of these the one that has rested
    /// longest since it was flown.
    pub fn packs(&self) -> Vec<PackStand> {
        let mut packs: Vec<(PackStand, i64)> =
            self.aircraft.things_of(ThingKind::Pack).map(|pack| self.stand(&pack.name)).collect();
        packs.sort_by_key(|(pack, flown_seq)| {
            let rank = match pack.charge {
                Charge::Charged { .. } | Charge::ReadFull { .. } => 0,
                Charge::Unknown => 1,
                Charge::Flown | Charge::Stored | Charge::ReadLow { .. } | Charge::NotAllBack { .. } => 2,
                Charge::TooHigh { .. } | Charge::Retired { .. } => 3,
            };
            (rank, *flown_seq, pack.name.clone())
        });
        packs.into_iter().map(|(pack, _)| pack).collect()
    }

    /// Whether there is a pack that may be flown. This is asked for every screen: the first one answers it.
    pub(super) fn has_pack_to_fly(&self) -> bool {
        self.aircraft.things_of(ThingKind::Pack).any(|pack| self.may_fly(&pack.name))
    }

    /// Whether a pack may be flown, without going through its life where nothing in it could forbid that.
    fn may_fly(&self, name: &str) -> bool {
        let full_v = self.aircraft.full_v(name);
        let was_too_high = |deed: &PackDeed| match deed.what {
            DoneToPack::CellsRead { high_v, .. } => is_too_high(high_v, full_v),
            DoneToPack::Charged { .. } | DoneToPack::Stored | DoneToPack::Gone => false,
        };
        let may_be_too_high = self.pack_deeds.get(name).into_iter().flatten().any(was_too_high);
        !self.damaged.contains_key(name) && (!may_be_too_high || self.pack(name).may_fly())
    }

    /// How a pack of this name stands.
    pub fn pack(&self, name: &str) -> PackStand {
        self.stand(name).0
    }

    /// A pack, and the place in the journal of its last motor run.
    fn stand(&self, name: &str) -> (PackStand, i64) {
        let full_v = self.aircraft.full_v(name);
        let runs_on: Vec<(i64, &Flight)> = self.runs_on(name).collect();
        let mut steps: Vec<(i64, Step<'_>)> = runs_on.iter().map(|(seq, flight)| (*seq, Step::Run(flight))).collect();
        let deeds = self.pack_deeds.get(name).into_iter().flatten();
        steps.extend(deeds.map(|deed| (deed.seq, Step::Done(deed))));
        steps.sort_by_key(|(seq, _)| *seq);
        let (mut charge, mut spent) = (Charge::Unknown, Spent::UNKNOWN);
        for (_, step) in &steps {
            match step {
                Step::Run(flight) => {
                    spent.flown(flight);
                    charge = Charge::Flown;
                }
                Step::Done(deed) => (charge, spent) = done(deed, charge, spent, full_v),
            }
        }
        if let Some(state) = self.damaged.get(name) {
            charge = Charge::Retired { state: *state };
        }
        let last = runs_on.iter().max_by_key(|(seq, _)| *seq);
        let flown = last.and_then(|(_, flight)| flight.started.clone());
        let runs = u32::try_from(runs_on.len()).unwrap_or(u32::MAX);
        (PackStand { name: name.to_owned(), charge, spent, flown, runs }, last.map_or(0, |(seq, _)| *seq))
    }

    /// How many flights a pack has on it: as its last reading says, and those that came after. None of a pack of which no reading says so:
    /// it may have been flown before.
    pub fn flights_on(&self, pack: &str) -> Option<u32> {
        let of_pack = |thing: &&Thing| thing.of.as_deref() == Some(pack);
        let read =
            |thing: &Thing| Some((self.described.get(&thing.reference())?.seq, thing.number(ThingNumber::Flights)?));
        let readings = self.aircraft.things_of(ThingKind::PackReading).filter(of_pack).filter_map(read);
        let (at, flights) = readings.max_by_key(|(seq, _)| *seq)?;
        let since = self.runs_on(pack).filter(|(seq, _)| *seq > at).count();
        Some(flights.max(0.0) as u32 + u32::try_from(since).unwrap_or(u32::MAX))
    }

    /// The motor runs on a pack, whichever aircraft flew, each with its place in the journal.
    fn runs_on<'a>(&'a self, name: &'a str) -> impl Iterator<Item = (i64, &'a Flight)> {
        let elsewhere = self.elsewhere.iter().flat_map(|other| other.own_runs_on(name));
        self.own_runs_on(name).chain(elsewhere)
    }

    fn own_runs_on<'a>(&'a self, name: &'a str) -> impl Iterator<Item = (i64, &'a Flight)> {
        let run = |flight: &'a Flight| Some((self.starts.get(&flight.card)?.seq, flight));
        self.flights.iter().filter(|flight| flight.is_on(name)).filter_map(run)
    }

    /// Milliseconds with the motor on that a pack has flown, whichever aircraft flew.
    pub fn motor_ms_on(&self, pack: &str) -> i64 {
        self.runs_on(pack).map(|(_, flight)| flight.motor_ms).sum()
    }

    /// A pack of another aircraft of this journal, or what was read off one; none where none has one of this name.
    pub fn thing_elsewhere(&self, kind: ThingKind, name: &str) -> Option<&Thing> {
        self.elsewhere.as_ref()?.aircraft.thing(kind, name)
    }

    /// A pack of another aircraft of this journal; none where none has one of this name.
    pub fn pack_elsewhere(&self, name: &str) -> Option<&Thing> {
        self.thing_elsewhere(ThingKind::Pack, name)
    }

    /// The flights of the journal's other aircraft.
    pub fn flights_elsewhere(&self) -> impl Iterator<Item = &Flight> {
        self.elsewhere.iter().flat_map(|other| &other.flights)
    }

    /// The packs of the journal's other aircraft that are not this one's.
    pub fn packs_to_share(&self) -> impl Iterator<Item = &Thing> {
        let others = self.elsewhere.iter().flat_map(|other| other.aircraft.things_of(ThingKind::Pack));
        others.filter(|pack| self.aircraft.thing(ThingKind::Pack, &pack.name).is_none())
    }
}

/// How a pack stands after something was done with it on the ground.
fn done(deed: &PackDeed, before: Charge, mut spent: Spent, full_v: f64) -> (Charge, Spent) {
    let at = deed.at.clone();
    match deed.what {
        // No charge makes it better: its cells have to be read anew.
        DoneToPack::Charged { .. } if matches!(before, Charge::TooHigh { .. }) => (before, spent),
        DoneToPack::Charged { put_back_mah } => match spent.put_back(put_back_mah) {
            Some(short_mah) => (Charge::NotAllBack { at, short_mah }, spent),
            None => (Charge::Charged { at }, spent),
        },
        DoneToPack::CellsRead { low_v, high_v } => {
            let left = Spent::from(rest_charge(low_v, full_v).unwrap_or(0.0));
            match () {
                () if is_too_high(high_v, full_v) => (Charge::TooHigh { high_v }, left),
                () if low_v >= full_v - FULL_WITHIN_V - METER_V => {
                    (Charge::ReadFull { at, low_v }, Spent::from(100.0))
                }
                () => (Charge::ReadLow { at, low_v }, left),
            }
        }
        DoneToPack::Stored => (Charge::Stored, Spent::from(rest_charge(STORAGE_CELL_V, full_v).unwrap_or(0.0))),
        DoneToPack::Gone => (Charge::Unknown, Spent::UNKNOWN),
    }
}

/// Whether a cell was read above a full one.
fn is_too_high(high_v: f64, full_v: f64) -> bool {
    high_v > full_v + OVER_FULL_V + METER_V
}

/// Far less than a meter shows: 4.15 is within 0.05 of 4.20.
const METER_V: f64 = 1e-6;
