//! Entries as they are stored, each a line of JSON: what anyone needs to walk the chain on another computer.

use rusqlite::OptionalExtension;
use serde::Serialize;

use super::error::Doing;
use super::logs::hexadecimal;
use super::store::{COLUMNS, ILLEGIBLE, StoredEntry};
use super::{Digest, Journal, JournalError};

/// The kind of entry that holds the hash of the pilot's code: four digits are soon guessed from it, so that it does not leave the phone.
const KEPT_BACK: &str = "code-set";

/// An entry as it leaves: every part that is digested, in that order, then the digest itself.
#[derive(Serialize)]
struct Line<'a> {
    seq: i64,
    id: String,
    at: &'a str,
    monotonic_ms: i64,
    boot: &'a str,
    author: &'a str,
    kind: &'a str,
    version: i64,
    /// None of an entry that is kept back: the chain goes on over its digest.
    #[serde(skip_serializing_if = "Option::is_none")]
    body: Option<&'a str>,
    digest: String,
}

impl Journal {
    /// The entries behind `after`, at most so many, each as a line of JSON; and the place of the last of them.
    pub(crate) fn lines(&self, after: i64, most: i64) -> Result<(Vec<String>, i64), JournalError> {
        let reading = JournalError::while_doing;
        let mut statement = self
            .connection
            .prepare_cached(&format!("SELECT {COLUMNS} FROM entry WHERE seq > ?1 ORDER BY seq LIMIT ?2"))
            .map_err(reading(Doing::Reading))?;
        let rows = statement.query_map([after, most], StoredEntry::from_row).map_err(reading(Doing::Reading))?;
        let (mut lines, mut last) = (Vec::new(), after);
        for row in rows {
            let stored = row.map_err(reading(Doing::Reading))?;
            last = stored.seq;
            lines.push(line(&stored));
        }
        Ok((lines, last))
    }

    /// The digest of an entry, which closes over it and all before it.
    pub(crate) fn digest_of(&self, seq: i64) -> Result<Option<Digest>, JournalError> {
        self.connection
            .query_row("SELECT digest FROM entry WHERE seq = ?1", [seq], |row| row.get(0).map(Digest))
            .optional()
            .map_err(JournalError::while_doing(Doing::Reading))
    }
}

fn line(stored: &StoredEntry) -> String {
    // Of what is illegible only the digest is known.
    let is_told = ![KEPT_BACK, ILLEGIBLE].contains(&stored.body.kind.as_str());
    let line = Line {
        seq: stored.seq,
        id: hexadecimal(&stored.id),
        at: &stored.at,
        monotonic_ms: stored.monotonic_ms,
        boot: &stored.boot,
        author: &stored.author,
        kind: &stored.body.kind,
        version: stored.body.version,
        body: is_told.then_some(stored.body.json.as_str()),
        digest: stored.digest.to_string(),
    };
    // Plain data: JSON can always hold it. A line that is missing shows as a gap where the chain is walked.
    serde_json::to_string(&line).unwrap_or_default()
}
