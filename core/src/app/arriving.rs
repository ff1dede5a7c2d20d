//! A document on its way in from the phone's picker.

use crate::journal::{ArrivingBackup, ArrivingLog};
use crate::record::{EntryId, PhotoOf};

/// A document on its way in, piece by piece.
pub(super) struct Arriving {
    /// What the phone calls it.
    pub name: String,
    /// Its length, where the phone knows it.
    pub length: Option<u64>,
    pub into: Into,
}

/// Where the pieces go.
pub(super) enum Into {
    /// A plan, which is short.
    Plan(Vec<u8>),
    /// A log for this card's flight, which may be longer than memory.
    Log(EntryId, ArrivingLog),
    /// A photo of this, which may be longer than is taken in.
    Photo(PhotoOf, ArrivingLog),
    /// A backup, which is laid beside the journal.
    Backup(ArrivingBackup),
}

impl Arriving {
    /// Bytes that came so far.
    pub fn bytes(&self) -> u64 {
        match &self.into {
            Into::Plan(bytes) => bytes.len() as u64,
            Into::Log(_, arriving) | Into::Photo(_, arriving) => arriving.bytes(),
            Into::Backup(arriving) => arriving.bytes(),
        }
    }
}
