//! The backup: one open file that holds the whole record and brings it back. `core/docs/backup.md` says how it is written.
//!
//! Nothing in it depends on when or where it was made, so that the same record gives the same bytes.

mod container;
mod entry_line;
mod error;
mod error_words;
#[cfg(test)]
mod hostile;
mod lines_of;
mod manifest;
mod packing;
mod unpacking;

pub use error::BackupError;
pub(crate) use packing::Packing;
pub(crate) use unpacking::{ArrivingBackup, Unpacking};
