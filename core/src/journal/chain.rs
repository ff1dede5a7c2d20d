use std::fmt;

use sha2::{Digest as _, Sha256};

/// A SHA-256 digest of an entry and of all before it.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Digest(pub [u8; 32]);

impl Digest {
    /// What the first entry names as the one before it.
    pub const NONE: Digest = Digest([0; 32]);
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:x}", base16ct::HexDisplay(&self.0))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

/// An entry's columns as they are stored, in the order in which they are digested.
pub(super) struct Link<'a> {
    pub previous: Digest,
    pub seq: i64,
    pub id: &'a [u8],
    pub at: &'a str,
    pub monotonic_ms: i64,
    pub boot: &'a str,
    pub author: &'a str,
    pub kind: &'a str,
    pub version: i64,
    pub body: &'a str,
}

impl Link<'_> {
    /// The entry's digest. Every part goes in behind its length, so that no two entries share a byte string.
    pub fn digest(&self) -> Digest {
        let mut hasher = Sha256::new();
        let mut part = |bytes: &[u8]| {
            hasher.update((bytes.len() as u64).to_le_bytes());
            hasher.update(bytes);
        };
        part(&self.previous.0);
        part(&self.seq.to_le_bytes());
        part(self.id);
        part(self.at.as_bytes());
        part(&self.monotonic_ms.to_le_bytes());
        part(self.boot.as_bytes());
        part(self.author.as_bytes());
        part(self.kind.as_bytes());
        part(&self.version.to_le_bytes());
        part(self.body.as_bytes());
        Digest(hasher.finalize().into())
    }
}

/// A chain that closes: how many entries it has, and the digest of the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Verified {
    /// Number of entries.
    pub count: i64,
    /// Digest of the last entry, [`Digest::NONE`] for an empty journal.
    pub head: Digest,
}
