use crate::record::Moment;

/// Wrong codes that cost nothing: gloves slip.
const FREE_TRIES: u32 = 2;
/// Seconds to wait after the third wrong code in a row and each one after it; the last for all that follow. That a wait grows
/// with the wrong tries, from 30 s, is NIST SP 800-63B (2017), 5.2.2.
const WAITS_S: [i64; 4] = [30, 60, 300, 900];

/// What keeps the pilot's side shut while the spotter has the phone.
///
/// Every wait goes by [`Moment::surely_elapsed_ms_since`]: a wall clock set forward, a killed process and a restart shorten
/// none. After a restart a wait counts from the restart, so at worst it begins anew.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Lock {
    /// The hash of the pilot's code, if there is one.
    pub hash: Option<String>,
    /// Wrong codes since the phone was handed over.
    pub wrong: u32,
    /// When the last wrong code was tried.
    pub last_wrong: Option<Moment>,
    /// Since when whoever has the phone waits for it to open without the code.
    pub waits_since: Option<Moment>,
    /// When it was last opened without the code, while the code of that time is still in force.
    pub opened: Option<Moment>,
}

impl Lock {
    /// How long it takes until the phone opens without the code: longer than a flight and its landing, and short enough to
    /// wait for at the field. In milliseconds.
    pub const WAY_BACK_MS: i64 = 30 * 60 * 1_000;

    /// Milliseconds until the next code may be tried; 0 if it may be now.
    pub fn next_try_in_ms(&self, now: &Moment) -> i64 {
        let Some(last) = &self.last_wrong else { return 0 };
        let Some(beyond) = self.wrong.checked_sub(FREE_TRIES + 1) else { return 0 };
        let index = usize::try_from(beyond).unwrap_or(usize::MAX).min(WAITS_S.len() - 1);
        (WAITS_S[index] * 1_000 - now.surely_elapsed_ms_since(last)).max(0)
    }

    /// Milliseconds until it opens without the code, `None` where nobody waits for that.
    pub fn opens_in_ms(&self, now: &Moment) -> Option<i64> {
        let since = self.waits_since.as_ref()?;
        Some((Lock::WAY_BACK_MS - now.surely_elapsed_ms_since(since)).max(0))
    }

    /// The next turn begins with no wrong code and nobody waiting.
    pub(crate) fn begin_turn(&mut self) {
        self.wrong = 0;
        self.last_wrong = None;
        self.waits_since = None;
    }
}
