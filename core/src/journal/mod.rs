//! The append-only journal on SQLite, with its drafts and its bookmark.
//!
//! One connection owns the file. Every commit is synced (write-ahead log, `synchronous = FULL`), so what the person saw
//! recorded is on the flash when the call returns. Entries are chained by digest; [`Journal::verify`] walks the chain.
//! The chain shows that an entry was altered. It cannot show that the last ones were cut off, so whatever leaves the
//! phone prints the count and the head digest beside it.

mod bookmark;
mod chain;
mod draft;
mod error;
mod error_words;
mod file;
mod lines;
mod lock;
mod logs;
mod open;
mod preference;
mod store;

pub use chain::{Digest, Verified};
pub use error::{Doing, JournalError, Misfit, NoWithdrawal, NotOurs};
pub use file::Journal;
pub(crate) use logs::{ArrivingLog, OfferedLog, hexadecimal};
pub use open::APPLICATION_ID;
pub use store::NewEntry;
