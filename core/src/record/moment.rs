use chrono::{DateTime, FixedOffset, TimeDelta};
use serde::{Deserialize, Serialize};

/// A moment as a phone knows it: what the wall clock shows, and what cannot be set back.
///
/// The wall clock may lie: it is set by hand, by a network, by a dead battery. Durations therefore come from
/// [`Moment::elapsed_ms_since`], which trusts the monotonic clock as long as the phone was not restarted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Moment {
    /// The wall clock with its offset from UTC.
    pub wall: DateTime<FixedOffset>,
    /// Milliseconds since the phone was started, sleep included. Never goes back while it runs.
    pub monotonic_ms: i64,
    /// Names the run of the phone that `monotonic_ms` counts in; another after every restart.
    pub boot: String,
}

impl Moment {
    /// Milliseconds from `earlier` to this moment, never negative.
    ///
    /// By the monotonic clock within one run of the phone. Across a restart the wall clock is all there is, and the time
    /// since the restart is the least that it can be: a flight that outlived a dead battery is as right as the clock on
    /// the wall, and never shorter than the phone has been on again.
    pub fn elapsed_ms_since(&self, earlier: &Moment) -> i64 {
        let sure = self.surely_elapsed_ms_since(earlier);
        if self.boot == earlier.boot { sure } else { sure.max((self.wall - earlier.wall).num_milliseconds()) }
    }

    /// The moment so many seconds before, in the same run of the phone; of negative monotonic time where the phone was not on yet.
    pub fn earlier_by_s(&self, seconds: i64) -> Moment {
        let ms = seconds.saturating_mul(1_000);
        let wall =
            TimeDelta::try_milliseconds(ms).and_then(|by| self.wall.checked_sub_signed(by)).unwrap_or(self.wall);
        Moment { wall, monotonic_ms: self.monotonic_ms.saturating_sub(ms), boot: self.boot.clone() }
    }

    /// Milliseconds that have gone by since `earlier` at the least, whatever the wall clock says.
    ///
    /// Within one run of the phone that is all of them. Across a restart it is the time since the restart: what went by
    /// before that is known to nobody who cannot trust the wall clock. What a person has to wait for goes by this, so that
    /// setting the clock forward shortens no wait.
    pub fn surely_elapsed_ms_since(&self, earlier: &Moment) -> i64 {
        let same_run = self.boot == earlier.boot;
        let elapsed =
            if same_run { self.monotonic_ms.saturating_sub(earlier.monotonic_ms) } else { self.monotonic_ms };
        elapsed.max(0)
    }
}
