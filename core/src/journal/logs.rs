use rusqlite::{OptionalExtension, TransactionBehavior, params};
use sha2::{Digest as _, Sha256};

use super::error::Doing;
use super::{Journal, JournalError};

/// Bytes in a piece.
const PIECE: usize = 256 * 1024;

/// A file's SHA-256 digest in hexadecimal, its name in the journal.
pub(crate) fn log_name(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

fn digest_of(name: &str) -> Vec<u8> {
    (0..name.len() / 2).filter_map(|at| u8::from_str_radix(name.get(2 * at..2 * at + 2)?, 16).ok()).collect()
}

impl Journal {
    /// Keeps a recorder's file, all of it or nothing, and gives back its name. One that is there already is left as it is.
    ///
    /// # Errors
    /// [`JournalError::Full`], and nothing was kept.
    pub fn keep_log(&mut self, bytes: &[u8]) -> Result<String, JournalError> {
        let name = log_name(bytes);
        let digest = digest_of(&name);
        let writing = JournalError::while_doing;
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(writing(Doing::Writing))?;
        let known = transaction
            .query_row("SELECT bytes FROM log_file WHERE digest = ?1", [&digest], |row| row.get::<_, i64>(0))
            .optional()
            .map_err(writing(Doing::Reading))?;
        if known.is_none() {
            let length = i64::try_from(bytes.len()).unwrap_or(i64::MAX);
            transaction
                .execute("INSERT INTO log_file (digest, bytes) VALUES (?1, ?2)", params![digest, length])
                .map_err(writing(Doing::Writing))?;
            for (place, piece) in (0_i64..).zip(bytes.chunks(PIECE)) {
                transaction
                    .execute(
                        "INSERT INTO log_piece (digest, place, data) VALUES (?1, ?2, ?3)",
                        params![digest, place, piece],
                    )
                    .map_err(writing(Doing::Writing))?;
            }
        }
        transaction.commit().map_err(writing(Doing::Writing))?;
        Ok(name)
    }

    /// A recorder's file by its name; `None` if it is not here, or no longer what its name says.
    ///
    /// # Errors
    /// The storage's.
    pub fn log(&self, name: &str) -> Result<Option<Vec<u8>>, JournalError> {
        let reading = JournalError::while_doing;
        let mut statement = self
            .connection
            .prepare_cached("SELECT data FROM log_piece WHERE digest = ?1 ORDER BY place")
            .map_err(reading(Doing::Reading))?;
        let pieces = statement
            .query_map([digest_of(name)], |row| row.get::<_, Vec<u8>>(0))
            .map_err(reading(Doing::Reading))?;
        let mut bytes = Vec::new();
        for piece in pieces {
            bytes.extend(piece.map_err(reading(Doing::Reading))?);
        }
        Ok((!bytes.is_empty() && log_name(&bytes) == name).then_some(bytes))
    }
}
