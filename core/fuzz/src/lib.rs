//! What holds of any bytes that come in, one function for each way in. The fuzz targets call them, and so does
//! `core/tests/hostile_input.rs`, which changes what is valid in a few thousand ways with each run of the tests.
//!
//! Bytes are read as [`arbitrary`] reads them: which form of the input it is, then the input itself. What is valid to begin with is made
//! here, by the core or from its tests' own samples.
#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used)]

mod backup;
mod chained;
mod changed;
#[path = "../../tests/common/mod.rs"]
mod common;
mod damaged;
mod entry;
mod pages;
mod photo;
mod plan;
mod sample;

pub use backup::{backup, refusal_with_last};
pub use damaged::{damaged, entries_with_a_row_at, is_gone_on_with_up_to};
pub use entry::entry;
pub use photo::photo;
pub use plan::plan;
