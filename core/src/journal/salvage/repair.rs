//! Makes a journal of what can still be read, and lets it take the place of the damaged one, which is set aside byte for byte.

use std::path::Path;

use super::chain::Legible;
use super::found_logs::lay_logs;
use crate::journal::beside::Beside;
use crate::journal::{Journal, JournalError, NewEntry};
use crate::record::{Body, Moment};

/// Entries that are laid down with one commit.
const AT_ONCE: usize = 1_000;

/// Goes on with what is legible, while whoever calls it holds the lock; the number under which the damaged file is set aside. `may_lack_last` says that nobody knows whether
/// entries came behind the last legible one.
///
/// # Errors
/// There is no room: it is there as it was.
pub(crate) fn repair(path: &Path, legible: &Legible, may_lack_last: bool, now: &Moment) -> Result<u32, JournalError> {
    let beside = Beside::of(path);
    beside.clear(&beside.building());
    let mut made = Journal::open_alone(&beside.building())?;
    let rows = legible.rows();
    for rows in rows.chunks(AT_ONCE) {
        made.lay_down(rows.to_vec())?;
    }
    let lost_logs = lay_logs(&legible.pages, &mut made)?;
    // What proves itself and cannot be understood was written by a newer app: it is no damage, and is not passed over.
    made.entries()?;
    made.verify()?;
    let gaps = legible.gaps();
    made.append(now, vec![NewEntry::pilot(Body::Repaired { gaps, may_lack_last, lost_logs })])?;
    made.close_whole()?;
    beside.take_place()
}
