//! An entry as a backup holds it: a line of JSON with every column, so that the chain can be walked anywhere.

use serde::{Deserialize, Serialize};

use crate::journal::Digest;
use crate::journal::logs::hexadecimal;
use crate::journal::store::StoredEntry;
use crate::record::StoredBody;

#[derive(Serialize, Deserialize)]
pub(super) struct EntryLine {
    seq: i64,
    id: String,
    at: String,
    monotonic_ms: i64,
    boot: String,
    /// JSON, as the text that is digested.
    author: String,
    kind: String,
    version: i64,
    /// JSON, as the text that is digested.
    body: String,
    previous: String,
    digest: String,
    /// The entry that it takes back.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    withdraws: Option<String>,
}

impl EntryLine {
    pub fn of(stored: &StoredEntry) -> EntryLine {
        EntryLine {
            seq: stored.seq,
            id: hexadecimal(&stored.id),
            at: stored.at.clone(),
            monotonic_ms: stored.monotonic_ms,
            boot: stored.boot.clone(),
            author: stored.author.clone(),
            kind: stored.body.kind.clone(),
            version: stored.body.version,
            body: stored.body.json.clone(),
            previous: stored.previous.to_string(),
            digest: stored.digest.to_string(),
            withdraws: stored.withdraws.map(|id| hexadecimal(&id)),
        }
    }

    /// The row that it stands for; none where a name or a digest in it is none.
    pub fn into_stored(self) -> Option<StoredEntry> {
        Some(StoredEntry {
            seq: self.seq,
            id: bytes(&self.id)?,
            at: self.at,
            monotonic_ms: self.monotonic_ms,
            boot: self.boot,
            author: self.author,
            body: StoredBody { kind: self.kind, version: self.version, json: self.body },
            previous: Digest(bytes(&self.previous)?),
            digest: Digest(bytes(&self.digest)?),
            withdraws: self.withdraws.as_deref().map(bytes).map_or(Some(None), |id| id.map(Some))?,
        })
    }
}

fn bytes<const COUNT: usize>(hexadecimal: &str) -> Option<[u8; COUNT]> {
    base16ct::lower::decode_vec(hexadecimal).ok()?.try_into().ok()
}
