use chrono::{DateTime, FixedOffset, TimeZone, Utc};
use liftgate_core::{journal, record};

use crate::LiftgateError;

/// A moment as the phone's own clocks give it.
#[derive(Debug, Clone, uniffi::Record)]
pub struct Moment {
    /// Milliseconds since 1970, UTC.
    pub wall_ms: i64,
    /// Offset of the local time from UTC, minutes, positive east.
    pub offset_min: i32,
    /// Milliseconds since the phone was started, sleep included.
    pub monotonic_ms: i64,
    /// Names the run of the phone that `monotonic_ms` counts in.
    pub boot: String,
}

impl Moment {
    pub(crate) fn into_core(self) -> Result<record::Moment, LiftgateError> {
        let refused = |reason: &str| LiftgateError::Refused { field: None, reason: reason.to_owned() };
        let utc: DateTime<Utc> = Utc
            .timestamp_millis_opt(self.wall_ms)
            .single()
            .ok_or_else(|| refused("the phone's date is out of range"))?;
        let offset = self
            .offset_min
            .checked_mul(60)
            .and_then(FixedOffset::east_opt)
            .ok_or_else(|| refused("the phone's time zone is out of range"))?;
        Ok(record::Moment { wall: utc.with_timezone(&offset), monotonic_ms: self.monotonic_ms, boot: self.boot })
    }
}

/// A journal whose chain closes.
#[derive(Debug, Clone, uniffi::Record)]
pub struct Verified {
    /// Number of entries.
    pub count: i64,
    /// Digest of the last entry, hexadecimal.
    pub head: String,
}

impl From<journal::Verified> for Verified {
    fn from(verified: journal::Verified) -> Self {
        Verified { count: verified.count, head: verified.head.to_string() }
    }
}
