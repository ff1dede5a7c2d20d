//! The entries that are still legible, each at its place in the chain, and the places between them.

use std::collections::BTreeMap;
use std::path::Path;

use rusqlite::{Connection, OpenFlags};
use sha2::{Digest as _, Sha256};

use super::cell::{Cell, Form, each_cell, whole};
use super::pages::Pages;
use crate::journal::backup::BackupError;
use crate::journal::error::Doing;
use crate::journal::open::immutable_uri;
use crate::journal::store::StoredEntry;
use crate::journal::{Digest, JournalError};
use crate::record::{Author, Body, Gap, StoredBody};

/// Entries that may lack at the end where the file says that there are more.
const MOST_LACKING: i64 = 100;

/// Fewer bytes than any entry takes: its name and its two digests are 80.
const LEAST_BYTES: u64 = 100;

/// What can still be read of a damaged journal.
pub(crate) struct Legible {
    pub(super) pages: Pages,
    /// By their places.
    pub(super) entries: BTreeMap<i64, StoredEntry>,
    /// The last place that is known of.
    pub(super) last: i64,
}

impl Legible {
    /// Searches a file, and the log beside it, for entries. `known` is how many there are, where that could still be read.
    pub fn search(path: &Path, known: Option<i64>) -> Result<Legible, BackupError> {
        let pages = Pages::open(path)?;
        let mut found: BTreeMap<i64, Vec<StoredEntry>> = BTreeMap::new();
        each_cell(&pages, |_, cell| {
            let Some(row) = entry_of(cell, &pages) else { return };
            let same = found.entry(row.seq).or_default();
            if same.iter().all(|known| known.digest != row.digest) {
                same.push(row);
            }
        });
        pages.failure()?;
        let entries = joined(found);
        let found = entries.last_key_value().map_or(0, |(seq, _)| *seq);
        // A number that was damaged itself is believed by no more than what fits on a page or two.
        let last = known.filter(|known| (found..found + MOST_LACKING).contains(known)).unwrap_or(found);
        Ok(Legible { pages, entries, last })
    }

    /// How many entries there are, as far as the file itself still tells. The log beside it is left alone.
    ///
    /// # Errors
    /// The storage does not give it: that is no damage.
    pub fn last_known(path: &Path) -> Result<Option<i64>, JournalError> {
        let Some(path) = path.to_str() else { return Ok(None) };
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let last = Connection::open_with_flags(immutable_uri(path), flags).and_then(|connection| {
            connection.query_row("SELECT coalesce(max(seq), 0) FROM entry", [], |row| row.get(0))
        });
        match last.map_err(JournalError::while_doing(Doing::Reading)) {
            Ok(last) => Ok(Some(last)),
            Err(damage) if damage.may_be_damage() => Ok(None),
            Err(failure) => Err(failure),
        }
    }

    /// Whether this version can read what the entries say.
    pub fn is_understood(&self) -> bool {
        self.entries.values().all(|row| row.clone().into_entry().is_ok())
    }

    /// How many entries can be read.
    pub fn count(&self) -> usize {
        self.entries.len()
    }

    /// The stretches that cannot be read.
    pub fn gaps(&self) -> Vec<Gap> {
        let mut gaps = Vec::new();
        let mut next = 1;
        for seq in self.entries.keys().copied().chain([self.last + 1]) {
            if seq > next {
                gaps.push(Gap { first: next, last: seq - 1 });
            }
            next = seq + 1;
        }
        gaps
    }

    /// Every place of the chain: a row that was found, or one that says that nothing legible is there. Its digest is the one that the entry
    /// behind it names, so that the chain goes on over it; of several in a row only the last one's is known, and the others get one made up.
    pub(super) fn rows(&self) -> Vec<StoredEntry> {
        let mut rows: Vec<StoredEntry> = Vec::with_capacity(self.last as usize);
        let ids = self.dangling();
        for seq in 1..=self.last {
            if let Some(row) = self.entries.get(&seq) {
                rows.push(row.clone());
                continue;
            }
            let previous = rows.last().map_or(Digest::NONE, |row| row.digest);
            let digest = self.entries.get(&(seq + 1)).map_or_else(|| made_up(seq, &previous), |next| next.previous);
            let near = rows.last().or_else(|| self.entries.values().next());
            rows.push(illegible(seq, previous, digest, near, ids.get(&seq).copied()));
        }
        rows
    }

    /// Entries that were taken back and cannot be read: the withdrawal names them, and each has a place among the gaps before it.
    fn dangling(&self) -> BTreeMap<i64, [u8; 16]> {
        let known: Vec<[u8; 16]> = self.entries.values().map(|row| row.id).collect();
        let mut given = BTreeMap::new();
        for (seq, row) in &self.entries {
            let Some(id) = row.withdraws.filter(|id| !known.contains(id)) else { continue };
            let free = (1..*seq).rev().find(|place| !self.entries.contains_key(place) && !given.contains_key(place));
            given.extend(free.map(|place| (place, id)));
        }
        given
    }
}

/// Of rows that claim the same place the one that the chain behind it names; the last of them has nothing behind it.
fn joined(found: BTreeMap<i64, Vec<StoredEntry>>) -> BTreeMap<i64, StoredEntry> {
    let mut joined: BTreeMap<i64, StoredEntry> = BTreeMap::new();
    for (seq, rows) in found.into_iter().rev() {
        let named = joined.get(&(seq + 1)).map(|next| next.previous);
        let fits = rows.into_iter().rfind(|row| named.is_none_or(|digest| digest == row.digest));
        joined.extend(fits.map(|row| (seq, row)));
    }
    joined
}

fn made_up(seq: i64, previous: &Digest) -> Digest {
    let mut hasher = Sha256::new();
    hasher.update(b"illegible");
    hasher.update(previous.0);
    hasher.update(seq.to_le_bytes());
    Digest(hasher.finalize().into())
}

fn illegible(
    seq: i64,
    previous: Digest,
    digest: Digest,
    near: Option<&StoredEntry>,
    id: Option<[u8; 16]>,
) -> StoredEntry {
    let mut own = [0; 16];
    own.copy_from_slice(&made_up(seq, &digest).0[..16]);
    StoredEntry {
        seq,
        id: id.unwrap_or(own),
        at: near.map_or_else(|| "1970-01-01T00:00:00.000+00:00".to_owned(), |near| near.at.clone()),
        monotonic_ms: near.map_or(0, |near| near.monotonic_ms),
        boot: near.map_or_else(String::new, |near| near.boot.clone()),
        // Plain data: JSON can always hold it.
        author: serde_json::to_string(&Author::Pilot).unwrap_or_default(),
        body: StoredBody::write(&Body::Illegible {}).unwrap_or(StoredBody {
            kind: String::new(),
            version: 1,
            json: "{}".to_owned(),
        }),
        previous,
        digest,
        withdraws: None,
    }
}

/// The entry that a cell holds, if it has the form of one, a place that the file has room for, and a digest that closes over it: anyone can
/// make a digest, and each place up to the last one becomes a row.
fn entry_of(cell: &Cell<'_>, pages: &Pages) -> Option<StoredEntry> {
    let is_text = |place: usize| matches!(cell.forms[place], Form::Text(_));
    let is_entry = cell.forms.len() == 12
        && cell.forms[0] == Form::Null
        && cell.forms[1] == Form::Bytes(16)
        && [2, 4, 5, 6, 8].into_iter().all(is_text)
        && cell.forms[3].is_whole()
        && cell.forms[7].is_whole()
        && cell.forms[9] == Form::Bytes(32)
        && cell.forms[10] == Form::Bytes(32)
        && matches!(cell.forms[11], Form::Null | Form::Bytes(16));
    let has_place = cell.rowid > 0 && cell.rowid.unsigned_abs() <= pages.bytes() / LEAST_BYTES;
    if !is_entry || !has_place {
        return None;
    }
    let columns = cell.columns(pages)?;
    let text = |place: usize| String::from_utf8(columns[place].clone()).ok();
    let bytes = |place: usize| columns[place].clone();
    let row = StoredEntry {
        seq: cell.rowid,
        id: bytes(1).try_into().ok()?,
        at: text(2)?,
        monotonic_ms: whole(cell.forms[3], &columns[3])?,
        boot: text(4)?,
        author: text(5)?,
        body: StoredBody { kind: text(6)?, version: whole(cell.forms[7], &columns[7])?, json: text(8)? },
        previous: Digest(bytes(9).try_into().ok()?),
        digest: Digest(bytes(10).try_into().ok()?),
        withdraws: bytes(11).try_into().ok(),
    };
    row.proves_itself().then_some(row)
}
