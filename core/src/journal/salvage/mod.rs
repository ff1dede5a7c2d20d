//! What can still be read of a damaged journal, whatever SQLite says of it.
//!
//! Every entry carries its own digest, so that a row proves itself wherever it is found: the pages are searched byte by byte for what has
//! the form of a row, and what closes over its own digest is one. The form of pages, cells and records is in SQLite's own documentation,
//! "Database File Format". The search writes nothing.

mod cell;
mod chain;
mod found_logs;
mod pages;
mod repair;

pub(crate) use chain::Legible;
pub(crate) use repair::repair;
