//! The manifest: what is in a backup, and the digests that it is held against.

use serde::{Deserialize, Serialize};

/// What a manifest says that it is.
pub(super) const WHAT: &str = "liftgate-backup";
/// The newest form of a backup that is known here.
pub(super) const NEWEST_FORM: u32 = 1;

pub(super) const MANIFEST: &str = "manifest.json";
pub(super) const READ_ME: &str = "read-me.txt";
pub(super) const ENTRIES: &str = "entries.jsonl";
/// The folder of the logs: each is named by its digest.
pub(super) const LOGS: &str = "logs/";

/// Longer than any manifest of a lifetime's logs.
pub(super) const LONGEST_MANIFEST: u64 = 4 << 20;

/// More bytes of entries than a lifetime has: a season's are half a megabyte. They are in memory when they are compared.
pub(super) const MOST_ENTRY_BYTES: u64 = 128 << 20;

/// What a manifest says of itself. What a newer one holds besides is its own matter, and takes no memory here.
#[derive(Deserialize)]
pub(super) struct Said {
    #[serde(default)]
    pub what: String,
    #[serde(default)]
    pub form: u64,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Manifest {
    pub what: String,
    pub form: u32,
    pub entries: EntriesFile,
    pub logs: Vec<LogFile>,
}

#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub(super) struct EntriesFile {
    pub file: String,
    /// How many there are.
    pub count: i64,
    /// The digest of the last one, which closes over all of them.
    pub head: String,
    pub bytes: u64,
    pub sha256: String,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct LogFile {
    pub file: String,
    pub bytes: u64,
    /// Of the bytes that are in it. Its name is the digest that the record has: where they differ, the log was damaged before.
    pub sha256: String,
}
