use chrono::{DateTime, FixedOffset, SecondsFormat};
use rusqlite::{OptionalExtension, Row, Transaction, TransactionBehavior, params};
use uuid::{ContextV7, Timestamp, Uuid};

use super::chain::Link;
use super::error::{Doing, Misfit, NoWithdrawal};
use super::file::Journal;
use super::logs::keep_log;
use super::{Digest, JournalError, Verified, bookmark, draft};
use crate::record::{AircraftId, Author, Body, Entry, EntryId, Moment, StoredBody, StoredFormError};

/// An entry before it is written.
#[derive(Debug, Clone, PartialEq)]
pub struct NewEntry {
    /// Its name, from [`Journal::name`], where another entry of the same transaction has to name it.
    pub id: Option<EntryId>,
    /// Who makes it.
    pub author: Author,
    /// The aircraft that it is of.
    pub aircraft: AircraftId,
    /// What it says.
    pub body: Body,
}

impl NewEntry {
    /// An entry of the pilot's.
    pub fn pilot(body: Body) -> NewEntry {
        NewEntry { id: None, author: Author::Pilot, aircraft: AircraftId::FIRST, body }
    }

    /// An entry of the spotter's.
    pub fn spotter(name: &str, body: Body) -> NewEntry {
        let author = Author::Spotter { name: name.to_owned() };
        NewEntry { id: None, author, aircraft: AircraftId::FIRST, body }
    }

    /// Says which aircraft it is of.
    pub fn of(self, aircraft: AircraftId) -> NewEntry {
        NewEntry { aircraft, ..self }
    }

    /// Gives it a name that was made before.
    pub fn named(self, id: EntryId) -> NewEntry {
        NewEntry { id: Some(id), ..self }
    }
}

/// Rows that are in memory at a time while a chain is walked.
const ROWS_AT_ONCE: i64 = 1_000;

/// The kind of the entries that stand where nothing legible was left.
pub(super) const ILLEGIBLE: &str = "illegible";

pub(super) const COLUMNS: &str =
    "seq, id, at, monotonic_ms, boot, author, kind, version, body, previous, digest, withdraws";

impl Journal {
    /// Makes a name for an entry that is about to be appended.
    pub fn name(&self, at: &Moment) -> EntryId {
        new_id(&self.ids, at)
    }

    /// Appends entries, all or none, and returns them as they were recorded.
    ///
    /// # Errors
    /// [`JournalError::Full`], and nothing was recorded. [`JournalError::CannotWithdraw`] for an entry that is not
    /// there, is itself a withdrawal, or was withdrawn before.
    pub fn append(&mut self, at: &Moment, new: Vec<NewEntry>) -> Result<Vec<Entry>, JournalError> {
        self.append_and_go(at, new, &[], None)
    }

    /// Appends entries, keeps for ever the file that one of them attaches, drops the drafts of the forms that they came
    /// from, and keeps where the person is then: all or none, so that nobody is told "not recorded" of something that was.
    ///
    /// # Errors
    /// As [`Journal::append`].
    pub fn append_and_go(
        &mut self,
        at: &Moment,
        new: Vec<NewEntry>,
        from: &[String],
        to: Option<&[String]>,
    ) -> Result<Vec<Entry>, JournalError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(JournalError::while_doing(Doing::Writing))?;
        let mut recorded = Vec::with_capacity(new.len());
        for entry in new {
            match &entry.body {
                Body::LogAttached { log, .. } => keep_log(&transaction, &log.sha256)?,
                Body::PhotoAttached { photo, .. } => keep_log(&transaction, &photo.sha256)?,
                _ => {}
            }
            recorded.push(append_one(&transaction, &self.ids, at, entry)?);
        }
        from.iter().try_for_each(|form| draft::drop_drafts(&transaction, form))?;
        to.map_or(Ok(()), |way| bookmark::keep_bookmark(&transaction, way))?;
        transaction.commit().map_err(JournalError::while_doing(Doing::Writing))?;
        Ok(recorded)
    }

    /// All entries, oldest first.
    pub fn entries(&self) -> Result<Vec<Entry>, JournalError> {
        let reading = JournalError::while_doing;
        let mut statement = self
            .connection
            .prepare_cached(&format!("SELECT {COLUMNS} FROM entry ORDER BY seq"))
            .map_err(reading(Doing::Reading))?;
        let rows = statement.query_map([], StoredEntry::from_row).map_err(reading(Doing::Reading))?;
        rows.map(|row| row.map_err(reading(Doing::Reading)).and_then(StoredEntry::into_entry)).collect()
    }

    /// All entries, oldest first, each held against its digest and against the one before it.
    ///
    /// # Errors
    /// [`JournalError::Broken`] with the first entry that does not fit.
    pub(crate) fn proved_entries(&self) -> Result<Vec<Entry>, JournalError> {
        let mut walked = Verified { count: 0, head: Digest::NONE };
        let mut entries = Vec::new();
        loop {
            let rows = self.stored_behind(walked, ROWS_AT_ONCE)?;
            if rows.is_empty() {
                return Ok(entries);
            }
            for row in rows {
                walked = row.follows(&walked)?;
                entries.push(row.into_entry()?);
            }
        }
    }

    /// Walks the whole chain: every digest is computed anew and held against the stored one and its successor's.
    ///
    /// # Errors
    /// [`JournalError::Broken`] with the first entry that does not fit.
    pub fn verify(&self) -> Result<Verified, JournalError> {
        let mut walked = Verified { count: 0, head: Digest::NONE };
        loop {
            let on = self.verify_on(walked, ROWS_AT_ONCE)?;
            if on == walked {
                return Ok(walked);
            }
            walked = on;
        }
    }

    /// Walks the chain on from where it was walked to, by so many entries at most: a long one takes longer than a touch may.
    ///
    /// # Errors
    /// As [`Journal::verify`].
    pub(crate) fn verify_on(&self, walked: Verified, most: i64) -> Result<Verified, JournalError> {
        let mut on = walked;
        self.each_behind(walked, most, |row| {
            on = row.follows(&on)?;
            Ok(())
        })?;
        Ok(on)
    }

    /// The rows behind where the chain was walked to, so many at most.
    pub(super) fn stored_behind(&self, walked: Verified, most: i64) -> Result<Vec<StoredEntry>, JournalError> {
        let mut rows = Vec::new();
        self.each_behind(walked, most, |row| {
            rows.push(row);
            Ok(())
        })?;
        Ok(rows)
    }

    /// Shows them, one in memory at a time: those of a backup that comes from anywhere may be long.
    fn each_behind(
        &self,
        walked: Verified,
        most: i64,
        mut show: impl FnMut(StoredEntry) -> Result<(), JournalError>,
    ) -> Result<(), JournalError> {
        let reading = JournalError::while_doing;
        let mut statement = self
            .connection
            .prepare_cached(&format!("SELECT {COLUMNS} FROM entry WHERE seq > ?1 ORDER BY seq LIMIT ?2"))
            .map_err(reading(Doing::Reading))?;
        // From before the first: a row whose place was altered to one below 1 must not be passed over.
        let after = if walked.count == 0 { i64::MIN } else { walked.count };
        let rows = statement.query_map([after, most], StoredEntry::from_row).map_err(reading(Doing::Reading))?;
        for (seq, row) in (walked.count + 1..).zip(rows) {
            show(row.map_err(|error| misshapen(seq, error))?)?;
        }
        Ok(())
    }

    /// Lays rows down as they are, each behind the one before it: they were recorded elsewhere, and their chain was walked.
    ///
    /// # Errors
    /// [`JournalError::Broken`] with the first row that no journal takes: its name is another one's, say, or what it withdraws is not there.
    pub(super) fn lay_down(&mut self, rows: Vec<StoredEntry>) -> Result<(), JournalError> {
        self.at_once(|transaction| {
            rows.iter().try_for_each(|row| row.insert(transaction).map_err(|error| not_taken(row.seq, error)))
        })
    }

    /// How many entries there are.
    pub(super) fn count(&self) -> Result<i64, JournalError> {
        self.connection
            .query_row("SELECT count(*) FROM entry", [], |row| row.get(0))
            .map_err(JournalError::while_doing(Doing::Reading))
    }
}

fn append_one(
    transaction: &Transaction<'_>,
    ids: &ContextV7,
    at: &Moment,
    new: NewEntry,
) -> Result<Entry, JournalError> {
    let writing = JournalError::while_doing;
    let head: Option<(i64, [u8; 32])> = transaction
        .query_row("SELECT seq, digest FROM entry ORDER BY seq DESC LIMIT 1", [], |row| {
            Ok((row.get(0)?, row.get(1)?))
        })
        .optional()
        .map_err(writing(Doing::Reading))?;
    let (last, previous) = head.map_or((0, Digest::NONE), |(seq, digest)| (seq, Digest(digest)));
    let seq = last + 1;
    let withdraws = withdrawn_id(transaction, &new.body)?;
    let unreadable = |source| JournalError::Unreadable { seq, source };
    let stored = StoredBody::write_of(new.aircraft, &new.body).map_err(unreadable)?;
    let author = serde_json::to_string(&new.author)
        .map_err(|e| unreadable(StoredFormError::Unreadable { kind: "author".into(), reason: e.to_string() }))?;
    let EntryId(id) = new.id.unwrap_or_else(|| new_id(ids, at));
    let mut row = StoredEntry {
        seq,
        id: *id.as_bytes(),
        at: at.wall.to_rfc3339_opts(SecondsFormat::Millis, false),
        monotonic_ms: at.monotonic_ms,
        boot: at.boot.clone(),
        author,
        body: stored,
        previous,
        digest: Digest::NONE,
        withdraws: withdraws.map(|entry| *entry.0.as_bytes()),
    };
    row.digest = row.link().digest();
    row.insert(transaction).map_err(writing(Doing::Writing))?;
    // Read back before it is committed: an entry that the next start cannot read would shut the whole journal.
    row.into_entry()
}

/// The entry that a withdrawal names, after making sure that it can be withdrawn.
fn withdrawn_id(transaction: &Transaction<'_>, body: &Body) -> Result<Option<EntryId>, JournalError> {
    let Body::Withdrawn { entry, .. } = body else { return Ok(None) };
    let refuse = |reason: NoWithdrawal| Err(JournalError::CannotWithdraw { reason });
    let found: Option<(String, bool)> = transaction
        .query_row(
            "SELECT kind, EXISTS (SELECT 1 FROM entry AS later WHERE later.withdraws = entry.id)
             FROM entry WHERE id = ?1",
            [entry.0.as_bytes().to_vec()],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )
        .optional()
        .map_err(JournalError::while_doing(Doing::Reading))?;
    match found {
        None => refuse(NoWithdrawal::NotThere),
        Some((_, true)) => refuse(NoWithdrawal::Withdrawn),
        Some((kind, _)) if kind == "withdrawn" => refuse(NoWithdrawal::IsWithdrawal),
        Some(_) => Ok(Some(*entry)),
    }
}

/// A UUIDv7 from the entry's own moment. A clock before 1970 counts as 1970: the order is kept by `seq`.
fn new_id(ids: &ContextV7, at: &Moment) -> EntryId {
    let millis = u64::try_from(at.wall.timestamp_millis()).unwrap_or(0);
    let nanos = u32::try_from((millis % 1_000) * 1_000_000).unwrap_or(0);
    EntryId(Uuid::new_v7(Timestamp::from_unix(ids, millis / 1_000, nanos)))
}

/// An entry's row, before its body is understood.
#[derive(Clone)]
pub(super) struct StoredEntry {
    pub seq: i64,
    pub id: [u8; 16],
    pub at: String,
    pub monotonic_ms: i64,
    pub boot: String,
    pub author: String,
    pub body: StoredBody,
    pub previous: Digest,
    pub digest: Digest,
    pub withdraws: Option<[u8; 16]>,
}

/// Why a row could not be laid down: what the table does not take is the row's own fault, and not the storage's.
fn not_taken(seq: i64, error: rusqlite::Error) -> JournalError {
    match error.sqlite_error_code() {
        Some(rusqlite::ErrorCode::ConstraintViolation) => JournalError::Broken { seq, reason: Misfit::ColumnAltered },
        _ => JournalError::while_doing(Doing::Writing)(error),
    }
}

/// A row whose columns are not even of the form that they were written in.
fn misshapen(seq: i64, error: rusqlite::Error) -> JournalError {
    use rusqlite::Error::{FromSqlConversionFailure, IntegralValueOutOfRange, InvalidColumnType, Utf8Error};
    match error {
        FromSqlConversionFailure(..) | IntegralValueOutOfRange(..) | InvalidColumnType(..) | Utf8Error(..) => {
            JournalError::Broken { seq, reason: Misfit::ColumnAltered }
        }
        other => JournalError::while_doing(Doing::Reading)(other),
    }
}

impl StoredEntry {
    pub fn from_row(row: &Row<'_>) -> rusqlite::Result<StoredEntry> {
        Ok(StoredEntry {
            seq: row.get(0)?,
            id: row.get(1)?,
            at: row.get(2)?,
            monotonic_ms: row.get(3)?,
            boot: row.get(4)?,
            author: row.get(5)?,
            body: StoredBody { kind: row.get(6)?, version: row.get(7)?, json: row.get(8)? },
            previous: Digest(row.get(9)?),
            digest: Digest(row.get(10)?),
            withdraws: row.get(11)?,
        })
    }

    pub fn insert(&self, transaction: &Transaction<'_>) -> rusqlite::Result<()> {
        transaction
            .prepare_cached(&format!("INSERT INTO entry ({COLUMNS}) VALUES (?,?,?,?,?,?,?,?,?,?,?,?)"))?
            .execute(params![
                self.seq,
                self.id,
                self.at,
                self.monotonic_ms,
                self.boot,
                self.author,
                self.body.kind,
                self.body.version,
                self.body.json,
                self.previous.0,
                self.digest.0,
                self.withdraws,
            ])
            .map(drop)
    }

    fn link(&self) -> Link<'_> {
        Link {
            previous: self.previous,
            seq: self.seq,
            id: &self.id,
            at: &self.at,
            monotonic_ms: self.monotonic_ms,
            boot: &self.boot,
            author: &self.author,
            kind: &self.body.kind,
            version: self.body.version,
            body: &self.body.json,
        }
    }

    /// Whether its digest closes over what it says.
    pub fn proves_itself(&self) -> bool {
        self.link().digest() == self.digest
    }

    /// Where the chain is walked to with it, if it closes behind what was walked.
    pub fn follows(&self, before: &Verified) -> Result<Verified, JournalError> {
        let broken = |reason: Misfit| Err(JournalError::Broken { seq: self.seq, reason });
        if self.seq != before.count + 1 {
            return broken(Misfit::Missing);
        }
        if self.previous != before.head {
            return broken(Misfit::OtherBefore);
        }
        // Of one that could not be read any more only the digest is known: the chain goes on over it.
        if self.body.kind != ILLEGIBLE && !self.proves_itself() {
            return broken(Misfit::Altered);
        }
        // Not digested itself, as it repeats what the body says; SQLite needs the column to allow it only once.
        let names = match (self.body.kind == "withdrawn").then(|| self.body.read()) {
            None => None,
            Some(Ok(Body::Withdrawn { entry, .. })) => Some(*entry.0.as_bytes()),
            // A newer form closes the chain all the same; what it withdraws is not for this version to judge.
            Some(_) => self.withdraws,
        };
        if names != self.withdraws {
            return broken(Misfit::WithdrawsAltered);
        }
        Ok(Verified { count: self.seq, head: self.digest })
    }

    pub fn into_entry(self) -> Result<Entry, JournalError> {
        let seq = self.seq;
        let unreadable = |kind: &str, reason: String| StoredFormError::Unreadable { kind: kind.to_owned(), reason };
        let understand = || -> Result<Entry, StoredFormError> {
            let wall: DateTime<FixedOffset> =
                DateTime::parse_from_rfc3339(&self.at).map_err(|e| unreadable("time", e.to_string()))?;
            let author: Author =
                serde_json::from_str(&self.author).map_err(|e| unreadable("author", e.to_string()))?;
            let at = Moment { wall, monotonic_ms: self.monotonic_ms, boot: self.boot.clone() };
            let (aircraft, body) = (self.body.aircraft()?, self.body.read()?);
            Ok(Entry { seq, id: EntryId(Uuid::from_bytes(self.id)), at, author, aircraft, body })
        };
        understand().map_err(|source| JournalError::Unreadable { seq, source })
    }
}
