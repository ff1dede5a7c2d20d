//! What would be lost with the phone: what is in no backup.

use chrono::TimeDelta;

use super::ledger::Ledger;
use crate::record::Moment;

/// So long after the last touchdown a flying day counts as over, if its date is not (common practice, no source): longer than a pack takes
/// to be changed, shorter than the way home.
const FLYING_IS_OVER: TimeDelta = TimeDelta::hours(1);

/// What is in no backup.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unkept {
    /// Entries.
    pub entries: i64,
    /// Motor runs.
    pub runs: usize,
    /// Whether to ask for a backup: there are runs, and flying is over for the day.
    pub asks: bool,
}

impl Ledger {
    /// What of so many entries is in no backup, where the last one holds the first `kept`.
    pub fn unkept(&self, entries: i64, kept: i64, now: &Moment) -> Unkept {
        let is_unkept = |card| self.starts.get(&card).is_some_and(|start| start.seq > kept);
        let runs = self.flights.iter().filter(|flight| is_unkept(flight.card));
        let is_in_the_air = self.flights.iter().any(|flight| flight.started.is_some() && flight.down.is_none());
        let last_down =
            runs.clone().filter_map(|flight| flight.down.as_ref()).map(|(at, _)| self.clock.wall(at)).max();
        let is_over = last_down.is_some_and(|down| {
            let wall = self.clock.wall(now);
            wall.date_naive() > down.date_naive() || wall.signed_duration_since(down) >= FLYING_IS_OVER
        });
        Unkept { entries: (entries - kept).max(0), runs: runs.count(), asks: is_over && !is_in_the_air }
    }
}
