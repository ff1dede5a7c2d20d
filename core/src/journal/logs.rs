use std::io::{self, Read};

use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use sha2::{Digest as _, Sha256};

use super::error::Doing;
use super::{Journal, JournalError};

/// Bytes in a piece: all but a file's last are as long, so that a byte's piece is found by dividing.
const PIECE: usize = 256 * 1024;

/// Pieces that are written with one sync.
const PIECES_AT_ONCE: usize = 16;

/// Takes away what is not kept.
const GIVE_UP: &str = "DELETE FROM log_part WHERE log IN (SELECT id FROM log WHERE kept = 0);
                       DELETE FROM log WHERE kept = 0;";

/// A digest as a name: in hexadecimal, in small letters.
pub(crate) fn hexadecimal(digest: &[u8]) -> String {
    base16ct::lower::encode_string(digest)
}

/// The digest that a name stands for. What is no such name gives the digest of no log.
fn digest_of(name: &str) -> Vec<u8> {
    base16ct::lower::decode_vec(name).unwrap_or_default()
}

/// A recorder's file on its way into the journal. What is dropped half way leaves pieces that the next one clears away.
pub(crate) struct ArrivingLog {
    id: i64,
    digest: Sha256,
    bytes: u64,
    pieces: i64,
    waiting: Vec<u8>,
}

/// A recorder's file that is here, and waits to be attached to a flight.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct OfferedLog {
    /// Its SHA-256 digest in hexadecimal, its name in the journal.
    pub name: String,
    /// Its length.
    pub bytes: u64,
}

/// A recorder's file that is kept for ever.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct KeptLog {
    /// Its SHA-256 digest in hexadecimal, its name in the journal.
    pub name: String,
    /// Its length.
    pub bytes: u64,
}

impl ArrivingLog {
    /// Bytes that came so far.
    pub fn bytes(&self) -> u64 {
        self.bytes
    }

    /// Takes the next bytes of the file.
    ///
    /// # Errors
    /// [`JournalError::Full`]: drop it, nothing is kept.
    pub fn take(&mut self, journal: &mut Journal, bytes: &[u8]) -> Result<(), JournalError> {
        self.digest.update(bytes);
        self.bytes += bytes.len() as u64;
        self.waiting.extend_from_slice(bytes);
        if self.waiting.len() < PIECE * PIECES_AT_ONCE { Ok(()) } else { self.write(journal, false) }
    }

    /// The file is here as a whole: offers it.
    ///
    /// # Errors
    /// [`JournalError::Full`], as above.
    pub fn end(mut self, journal: &mut Journal) -> Result<OfferedLog, JournalError> {
        self.write(journal, true)?;
        let digest = self.digest.finalize();
        let length = i64::try_from(self.bytes).unwrap_or(i64::MAX);
        journal
            .connection
            .execute(
                "UPDATE log SET digest = ?2, bytes = ?3 WHERE id = ?1",
                params![self.id, digest.as_slice(), length],
            )
            .map_err(JournalError::while_doing(Doing::Writing))?;
        Ok(OfferedLog { name: hexadecimal(&digest), bytes: self.bytes })
    }

    /// Writes whole pieces, at the end also what is left.
    fn write(&mut self, journal: &mut Journal, all: bool) -> Result<(), JournalError> {
        let writing = JournalError::while_doing;
        let whole = if all { self.waiting.len() } else { self.waiting.len() / PIECE * PIECE };
        let transaction = journal
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(writing(Doing::Writing))?;
        for (place, piece) in (self.pieces..).zip(self.waiting[..whole].chunks(PIECE)) {
            transaction
                .prepare_cached("INSERT INTO log_part (log, place, data) VALUES (?1, ?2, ?3)")
                .and_then(|mut insert| insert.execute(params![self.id, place, piece]))
                .map_err(writing(Doing::Writing))?;
            self.pieces = place + 1;
        }
        transaction.commit().map_err(writing(Doing::Writing))?;
        self.waiting.drain(..whole);
        Ok(())
    }
}

impl Journal {
    /// Begins to take a recorder's file in. One that was on its way or offered before is given up: there is only ever one.
    ///
    /// # Errors
    /// The storage's.
    pub(crate) fn begin_log(&mut self) -> Result<ArrivingLog, JournalError> {
        self.discard_log()?;
        let writing = JournalError::while_doing;
        self.connection
            .execute("INSERT INTO log (bytes, kept) VALUES (0, 0)", [])
            .map_err(writing(Doing::Writing))?;
        let id = self.connection.last_insert_rowid();
        Ok(ArrivingLog { id, digest: Sha256::new(), bytes: 0, pieces: 0, waiting: Vec::new() })
    }

    /// Gives up the file that is on its way or offered.
    ///
    /// # Errors
    /// The storage's; then it is there still.
    pub(crate) fn discard_log(&mut self) -> Result<(), JournalError> {
        self.delete_logs(GIVE_UP)
    }

    /// Clears away what came of a file before the app was killed; one that is here as a whole stays offered.
    ///
    /// # Errors
    /// The storage's; then it is there still.
    pub(crate) fn discard_unfinished_log(&mut self) -> Result<(), JournalError> {
        self.delete_logs(
            "DELETE FROM log_part WHERE log IN (SELECT id FROM log WHERE digest IS NULL);
             DELETE FROM log WHERE digest IS NULL;",
        )
    }

    fn delete_logs(&mut self, sql: &str) -> Result<(), JournalError> {
        self.at_once(|transaction| transaction.execute_batch(sql).map_err(JournalError::while_doing(Doing::Writing)))
    }

    /// The file that is offered, if one is.
    ///
    /// # Errors
    /// The storage's.
    pub(crate) fn offered_log(&self) -> Result<Option<OfferedLog>, JournalError> {
        let offered = |row: &rusqlite::Row<'_>| {
            let (digest, bytes) = (row.get::<_, Vec<u8>>(0)?, row.get::<_, i64>(1)?);
            Ok(OfferedLog { name: hexadecimal(&digest), bytes: bytes.unsigned_abs() })
        };
        self.connection
            .query_row("SELECT digest, bytes FROM log WHERE kept = 0 AND digest IS NOT NULL", [], offered)
            .optional()
            .map_err(JournalError::while_doing(Doing::Reading))
    }

    /// The files that are kept, in the order of their names, which is the same on any phone.
    pub(super) fn kept_logs(&self) -> Result<Vec<KeptLog>, JournalError> {
        let reading = JournalError::while_doing;
        let mut statement = self
            .connection
            .prepare_cached("SELECT digest, bytes FROM log WHERE kept = 1 ORDER BY digest")
            .map_err(reading(Doing::Reading))?;
        let kept = |row: &rusqlite::Row<'_>| {
            let (digest, bytes) = (row.get::<_, Vec<u8>>(0)?, row.get::<_, i64>(1)?);
            Ok(KeptLog { name: hexadecimal(&digest), bytes: bytes.unsigned_abs() })
        };
        let rows = statement.query_map([], kept).map_err(reading(Doing::Reading))?;
        rows.collect::<rusqlite::Result<_>>().map_err(reading(Doing::Reading))
    }

    /// Keeps for ever the file that is offered, in a journal that is being made.
    pub(super) fn keep_offered(&mut self, name: &str) -> Result<(), JournalError> {
        self.at_once(|transaction| keep_log(transaction, name))
    }

    /// Reads a recorder's file by its name from a byte on; nothing comes if it is not here.
    pub(crate) fn read_log(&self, name: &str, from: u64) -> LogReader<'_> {
        LogReader { journal: self, digest: digest_of(name), at: from, piece: Vec::new(), piece_at: None }
    }
}

/// Keeps the file that is offered, for ever. One with the same bytes that is there already stands for both.
pub(super) fn keep_log(connection: &Connection, name: &str) -> Result<(), JournalError> {
    let writing = JournalError::while_doing;
    let known: bool = connection
        .query_row("SELECT EXISTS (SELECT 1 FROM log WHERE digest = ?1 AND kept = 1)", [digest_of(name)], |row| {
            row.get(0)
        })
        .map_err(writing(Doing::Reading))?;
    if known {
        return connection.execute_batch(GIVE_UP).map_err(writing(Doing::Writing));
    }
    connection
        .execute("UPDATE log SET kept = 1 WHERE digest = ?1", [digest_of(name)])
        .map(drop)
        .map_err(writing(Doing::Writing))
}

/// Reads a recorder's file out of the journal, a piece in memory at a time.
pub(crate) struct LogReader<'a> {
    journal: &'a Journal,
    digest: Vec<u8>,
    at: u64,
    piece: Vec<u8>,
    piece_at: Option<u64>,
}

impl LogReader<'_> {
    fn fetch(&mut self, place: u64) -> rusqlite::Result<()> {
        let sql = "SELECT data FROM log_part JOIN log ON log.id = log_part.log
                   WHERE digest = ?1 AND place = ?2 ORDER BY kept DESC LIMIT 1";
        let place_in_file = i64::try_from(place).unwrap_or(i64::MAX);
        let piece = self
            .journal
            .connection
            .prepare_cached(sql)?
            .query_row(params![self.digest, place_in_file], |row| row.get(0))
            .optional()?;
        self.piece = piece.unwrap_or_default();
        self.piece_at = Some(place);
        Ok(())
    }
}

impl Read for LogReader<'_> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let (place, within) = (self.at / PIECE as u64, (self.at % PIECE as u64) as usize);
        if self.piece_at != Some(place) {
            self.fetch(place).map_err(io::Error::other)?;
        }
        let rest = self.piece.get(within..).unwrap_or_default();
        let length = rest.len().min(into.len());
        into[..length].copy_from_slice(&rest[..length]);
        self.at += length as u64;
        Ok(length)
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::journal::NewEntry;
    use crate::record::{AttachedLog, Body, EntryId, Moment};
    use crate::telemetry::{ColumnMap, RowCounts, TimeForm};

    fn journal() -> (tempfile::TempDir, Journal) {
        let folder = tempfile::tempdir().unwrap();
        let journal = Journal::open(&folder.path().join("journal.db")).unwrap();
        (folder, journal)
    }

    fn some_bytes(length: usize) -> Vec<u8> {
        (0..length).map(|at| (at * 31 % 251) as u8).collect()
    }

    fn offer(journal: &mut Journal, bytes: &[u8], at_once: usize) -> OfferedLog {
        let mut arriving = journal.begin_log().unwrap();
        bytes.chunks(at_once).for_each(|chunk| arriving.take(journal, chunk).unwrap());
        assert_eq!(arriving.bytes(), bytes.len() as u64);
        arriving.end(journal).unwrap()
    }

    fn read(journal: &Journal, name: &str, from: u64) -> Vec<u8> {
        let mut all = Vec::new();
        journal.read_log(name, from).read_to_end(&mut all).unwrap();
        all
    }

    #[test]
    fn what_is_no_name_of_a_log_reads_none() {
        let (_folder, mut journal) = journal();
        let name = offer(&mut journal, b"time,volts\n0,50\n", 16).name;
        assert!(!read(&journal, &name, 0).is_empty());
        for other in [name.to_uppercase(), format!("zz{name}"), name[2..].to_owned(), String::new()] {
            assert!(read(&journal, &other, 0).is_empty(), "{other}");
        }
    }

    #[test]
    fn a_file_comes_back_as_it_came_whatever_pieces_it_came_in() {
        let (_folder, mut journal) = journal();
        for (length, at_once) in [(1, 1), (PIECE, PIECE), (PIECE * 18 + 5, 70_001), (PIECE * 2 + 1, PIECE * 3)] {
            let bytes = some_bytes(length);
            let offered = offer(&mut journal, &bytes, at_once);
            assert_eq!(offered.name, hexadecimal(&Sha256::digest(&bytes)));
            assert_eq!(journal.offered_log().unwrap(), Some(offered.clone()));
            assert_eq!(read(&journal, &offered.name, 0), bytes);
            for from in [1, length as u64 / 2, length as u64 - 1, length as u64, length as u64 + 9] {
                assert_eq!(read(&journal, &offered.name, from), bytes.get(from as usize..).unwrap_or_default());
            }
        }
    }

    #[test]
    fn one_that_is_kept_stays_and_one_that_is_given_up_goes() {
        let (_folder, mut journal) = journal();
        let (first, second) = (some_bytes(600_000), some_bytes(300));
        let kept = offer(&mut journal, &first, 1 << 20);
        keep_log(&journal.connection, &kept.name).unwrap();
        let gone = offer(&mut journal, &second, 100);
        journal.discard_log().unwrap();
        assert_eq!(read(&journal, &gone.name, 0), b"");
        assert_eq!(journal.offered_log().unwrap(), None);
        // The same file again stands for itself.
        let again = offer(&mut journal, &first, 1 << 20);
        keep_log(&journal.connection, &again.name).unwrap();
        assert_eq!(journal.offered_log().unwrap(), None);
        assert_eq!(read(&journal, &kept.name, 0), first);
        let parts: i64 = journal.connection.query_row("SELECT count(*) FROM log_part", [], |row| row.get(0)).unwrap();
        assert_eq!(parts, 3);
        for forbidden in [
            "DELETE FROM log",
            "DELETE FROM log_part",
            "UPDATE log SET bytes = 1",
            "UPDATE log_part SET data = x'00'",
        ] {
            let refused = journal.connection.execute(forbidden, []).unwrap_err().to_string();
            assert!(refused.contains("never"), "{forbidden}: {refused}");
        }
        let more = "INSERT INTO log_part (log, place, data) SELECT id, 99, x'00' FROM log";
        assert!(journal.connection.execute(more, []).unwrap_err().to_string().contains("takes no more"));
    }

    fn attachment(offered: &OfferedLog) -> NewEntry {
        let log = AttachedLog {
            name: "hover.csv".into(),
            bytes: offered.bytes,
            sha256: offered.name.clone(),
            map: ColumnMap {
                fingerprint: String::new(),
                time_column: Some(0),
                time_form: TimeForm::Seconds,
                columns: Vec::new(),
            },
            rows: RowCounts::default(),
            fault_count: 0,
            faults: Vec::new(),
            figures: Vec::new(),
        };
        NewEntry::pilot(Body::LogAttached { card: EntryId(uuid::Uuid::nil()), log: Box::new(log) })
    }

    #[test]
    fn a_file_is_kept_with_the_entry_that_attaches_it_or_not_at_all() {
        let (_folder, mut journal) = journal();
        let bytes = some_bytes(700);
        let offered = offer(&mut journal, &bytes, 100);
        let now = Moment { wall: "2026-06-01T10:00:00+02:00".parse().unwrap(), monotonic_ms: 1, boot: "b".into() };
        let way = ["\"board\"".to_owned()];
        // The storage fails at the entry, and then at what is written last.
        for (table, event) in [("entry", "INSERT"), ("bookmark", "DELETE")] {
            let failure =
                format!("CREATE TEMP TRIGGER fails BEFORE {event} ON {table} BEGIN SELECT RAISE(ABORT, 'no'); END");
            journal.keep_bookmark(&way).unwrap();
            journal.connection.execute_batch(&failure).unwrap();
            journal.append_and_go(&now, vec![attachment(&offered)], &[], Some(&way)).unwrap_err();
            journal.connection.execute_batch("DROP TRIGGER fails").unwrap();
            assert_eq!(
                journal.offered_log().unwrap(),
                Some(offered.clone()),
                "{table}: offered still, so it can be given up"
            );
            assert_eq!(journal.entries().unwrap().len(), 0);
        }
        journal.append(&now, vec![attachment(&offered)]).unwrap();
        assert_eq!(journal.offered_log().unwrap(), None);
        journal.discard_log().unwrap();
        assert_eq!(read(&journal, &offered.name, 0), bytes);
    }

    #[test]
    fn one_that_finds_no_room_is_told_so_and_makes_room_again() {
        let (_folder, mut journal) = journal();
        let pages: i64 = journal.connection.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap();
        let limit = |journal: &Journal, pages: i64| {
            journal.connection.pragma_update_and_check(None, "max_page_count", pages, |_| Ok(())).unwrap();
        };
        limit(&journal, pages + 1_500);
        let mut arriving = journal.begin_log().unwrap();
        let piece = some_bytes(PIECE * PIECES_AT_ONCE);
        arriving.take(&mut journal, &piece).unwrap();
        let full = arriving.take(&mut journal, &piece).unwrap_err();
        assert!(matches!(full, JournalError::Full), "{full:?}");
        journal.discard_log().unwrap();
        let small = offer(&mut journal, &piece, PIECE);
        assert_eq!(read(&journal, &small.name, 0), piece);
    }

    #[test]
    fn of_one_that_came_half_nothing_is_left_and_one_that_is_offered_stays() {
        let (_folder, mut journal) = journal();
        let offered = offer(&mut journal, &some_bytes(70_000), 9_999);
        journal.discard_unfinished_log().unwrap();
        assert_eq!(journal.offered_log().unwrap(), Some(offered));
        let mut arriving = journal.begin_log().unwrap();
        arriving.take(&mut journal, &some_bytes(PIECE * (PIECES_AT_ONCE + 1))).unwrap();
        let parts = |journal: &Journal| -> i64 {
            journal.connection.query_row("SELECT count(*) FROM log_part", [], |row| row.get(0)).unwrap()
        };
        assert_eq!(parts(&journal), PIECES_AT_ONCE as i64 + 1);
        journal.discard_unfinished_log().unwrap();
        assert_eq!(parts(&journal), 0);
    }

    #[test]
    fn files_of_the_earlier_form_are_brought_along() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("journal.db");
        let bytes = some_bytes(PIECE + 7);
        let digest = Sha256::digest(&bytes);
        {
            let journal = Journal::open(&path).unwrap();
            let back = "DROP TABLE log_part; DROP TABLE log; PRAGMA user_version = 3;";
            journal.connection.execute_batch(back).unwrap();
            journal.connection.execute_batch(include_str!("../../sql/002_logs.sql")).unwrap();
            let file = "INSERT INTO log_file (digest, bytes) VALUES (?1, ?2)";
            journal.connection.execute(file, params![digest.as_slice(), bytes.len() as i64]).unwrap();
            for (place, piece) in bytes.chunks(PIECE).enumerate() {
                let piece_of = "INSERT INTO log_piece (digest, place, data) VALUES (?1, ?2, ?3)";
                journal.connection.execute(piece_of, params![digest.as_slice(), place as i64, piece]).unwrap();
            }
        }
        let journal = Journal::open(&path).unwrap();
        assert_eq!(read(&journal, &hexadecimal(&digest), 0), bytes);
        assert!(journal.connection.execute("DELETE FROM log", []).is_err());
    }
}
