//! What the entries tell of the time. The wall clock may have been set back, or begin anew at a start of the phone.

use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta};

use crate::record::{Entry, Moment};

/// The time as the journal reckons it: by whichever clock says more, and never back.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Clock {
    /// The last entry's moment, dated no earlier than the entry before it.
    last: Option<Moment>,
    /// The latest that the wall clock showed at an entry.
    shown: Option<DateTime<FixedOffset>>,
    /// The place in the journal of the last entry that came after nobody knows how long: the phone had been started anew, and its wall
    /// clock was behind.
    lost_at: i64,
}

impl Clock {
    /// Takes the moment of an entry in.
    pub(super) fn take(&mut self, entry: &Entry) {
        if self.is_lost(&entry.at) {
            self.lost_at = entry.seq;
        }
        let wall = self.wall(&entry.at);
        match &mut self.last {
            // The name of the phone's run is written where the last one's stands: this is done for every entry.
            Some(last) => {
                last.wall = wall;
                last.monotonic_ms = entry.at.monotonic_ms;
                last.boot.clone_from(&entry.at.boot);
            }
            None => self.last = Some(entry.at.clone()),
        }
        self.shown = self.shown.max(Some(entry.at.wall));
    }

    /// The wall clock at a moment, as the entries have it: not before the last of them, and not before as much later as the phone has
    /// run since.
    pub(super) fn wall(&self, at: &Moment) -> DateTime<FixedOffset> {
        let Some(last) = &self.last else { return at.wall };
        let since = if last.boot == at.boot { at.surely_elapsed_ms_since(last) } else { 0 };
        let later = TimeDelta::try_milliseconds(since).and_then(|since| last.wall.checked_add_signed(since));
        let least = later.unwrap_or(last.wall);
        if least > at.wall { least.with_timezone(at.wall.offset()) } else { at.wall }
    }

    /// The day that it is at a moment at the least.
    pub fn day(&self, at: &Moment) -> NaiveDate {
        self.wall(at).date_naive()
    }

    /// The day that it was so many seconds before a moment, by the same reckoning.
    pub(super) fn day_before(&self, at: &Moment, seconds: i64) -> NaiveDate {
        let wall = self.wall(at);
        let earlier = TimeDelta::try_seconds(seconds.max(0)).and_then(|by| wall.checked_sub_signed(by));
        earlier.unwrap_or(wall).date_naive()
    }

    /// What the wall clock showed at an entry already, where it shows less now by more than a phone corrects by itself.
    pub fn behind(&self, now: &Moment) -> Option<DateTime<FixedOffset>> {
        let shown = self.shown?;
        (shown.signed_duration_since(now.wall) > SET_BY_ITSELF).then_some(shown)
    }

    /// Whether nobody knows how long ago the last entry was made.
    fn is_lost(&self, now: &Moment) -> bool {
        let other_run = self.last.as_ref().is_some_and(|last| last.boot != now.boot);
        other_run && self.behind(now).is_some()
    }

    /// Whether nobody knows how old is what was recorded at a place of the journal.
    pub(super) fn is_untold(&self, seq: i64, now: &Moment) -> bool {
        self.behind(now).is_some() && (seq < self.lost_at || self.is_lost(now))
    }
}

/// A phone sets its clock by seconds of itself, when it meets a mast or a satellite (common practice, no source).
const SET_BY_ITSELF: TimeDelta = TimeDelta::minutes(1);
