//! Rows of a journal whose chain closes, whatever stands in them: `core/docs/backup.md` says how they are digested and written.

use chrono::SecondsFormat;
use liftgate_core::record::{Body, Entry, StoredBody};
use rusqlite::{Connection, params};
use serde_json::json;
use sha2::{Digest, Sha256};

/// A row, with what closes the chain over it.
#[derive(Clone)]
pub struct Row {
    pub seq: i64,
    pub id: [u8; 16],
    pub at: String,
    pub monotonic_ms: i64,
    pub boot: String,
    pub author: String,
    pub kind: String,
    pub version: i64,
    pub body: String,
    pub withdraws: Option<[u8; 16]>,
    pub previous: [u8; 32],
    pub digest: [u8; 32],
}

impl Row {
    /// The row of an entry, outside of any chain.
    pub fn of(entry: &Entry) -> Row {
        let stored = StoredBody::write_of(entry.aircraft, &entry.body).unwrap();
        let withdraws = match &entry.body {
            Body::Withdrawn { entry, .. } => Some(*entry.0.as_bytes()),
            _ => None,
        };
        Row {
            seq: entry.seq,
            id: *entry.id.0.as_bytes(),
            at: entry.at.wall.to_rfc3339_opts(SecondsFormat::Millis, false),
            monotonic_ms: entry.at.monotonic_ms,
            boot: entry.at.boot.clone(),
            author: serde_json::to_string(&entry.author).unwrap(),
            kind: stored.kind,
            version: stored.version,
            body: stored.json,
            withdraws,
            previous: [0; 32],
            digest: [0; 32],
        }
    }

    fn line(&self) -> String {
        let mut line = json!({
            "seq": self.seq, "id": hexadecimal(&self.id), "at": self.at, "monotonic_ms": self.monotonic_ms, "boot": self.boot,
            "author": self.author, "kind": self.kind, "version": self.version, "body": self.body,
            "previous": hexadecimal(&self.previous), "digest": hexadecimal(&self.digest),
        });
        if let Some(id) = self.withdraws {
            line["withdraws"] = hexadecimal(&id).into();
        }
        format!("{line}\n")
    }

    /// Lays it into a journal's table.
    pub fn insert(&self, into: &Connection) -> rusqlite::Result<()> {
        into.execute(
            "INSERT INTO entry VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            params![
                self.seq,
                self.id,
                self.at,
                self.monotonic_ms,
                self.boot,
                self.author,
                self.kind,
                self.version,
                self.body,
                self.previous,
                self.digest,
                self.withdraws
            ],
        )
        .map(drop)
    }

    fn digest(&self) -> [u8; 32] {
        let mut hasher = Sha256::new();
        let (seq, monotonic_ms, version) =
            (self.seq.to_le_bytes(), self.monotonic_ms.to_le_bytes(), self.version.to_le_bytes());
        let parts: [&[u8]; 10] = [
            &self.previous,
            &seq,
            &self.id,
            self.at.as_bytes(),
            &monotonic_ms,
            self.boot.as_bytes(),
            self.author.as_bytes(),
            self.kind.as_bytes(),
            &version,
            self.body.as_bytes(),
        ];
        for part in parts {
            hasher.update((part.len() as u64).to_le_bytes());
            hasher.update(part);
        }
        hasher.finalize().into()
    }
}

/// Closes the chain over the rows in their order.
pub fn close(rows: &mut [Row]) {
    let mut previous = [0; 32];
    for row in rows {
        row.previous = previous;
        row.digest = row.digest();
        previous = row.digest;
    }
}

/// The rows as a backup holds them.
pub fn lines(rows: &[Row]) -> String {
    rows.iter().map(Row::line).collect()
}

/// What a manifest says of these lines.
pub fn manifest(rows: &[Row], lines: &[u8]) -> String {
    let head = rows.last().map_or([0; 32], |row| row.digest);
    json!({
        "what": "liftgate-backup", "form": 1, "logs": [],
        "entries": {
            "file": "entries.jsonl", "count": rows.len(), "head": hexadecimal(&head), "bytes": lines.len(),
            "sha256": hexadecimal(&Sha256::digest(lines)),
        },
    })
    .to_string()
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
