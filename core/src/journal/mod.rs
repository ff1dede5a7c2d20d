//! The append-only journal on SQLite, with its drafts and its bookmark.
//!
//! One connection owns the file. Every commit is synced (write-ahead log, `synchronous = FULL`), so what the person saw
//! recorded is on the flash when the call returns. Entries are chained by digest; [`Journal::verify`] walks the chain.
//! The chain shows that an entry was altered. It cannot show that the last ones were cut off, so whatever leaves the
//! phone prints the count and the head digest beside it.

mod backup;
mod beside;
mod bookmark;
mod chain;
mod draft;
mod error;
mod error_words;
mod file;
mod kept_copy;
mod lay_in;
mod lines;
mod lock;
mod logs;
mod open;
mod preference;
mod salvage;
mod store;

pub use backup::BackupError;
pub(crate) use backup::{ArrivingBackup, Packing, Unpacking};
pub(crate) use beside::Beside;
pub use beside::SetAside;
pub use chain::{Digest, Verified};
pub use error::{Doing, JournalError, Misfit, NoWithdrawal, NotOurs};
pub use file::Journal;
pub use kept_copy::LastBackup;
pub use lay_in::Compared;
pub(crate) use lock::Lock;
pub(crate) use logs::{ArrivingLog, OfferedLog, hexadecimal};
pub use open::APPLICATION_ID;
pub(crate) use salvage::{Legible, repair};
pub use store::NewEntry;
