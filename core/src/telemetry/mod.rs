//! Logs: reading any table of text that a recorder may write, and finding in it what a flight did to the aircraft.
//!
//! ```
//! use liftgate_core::telemetry::{Import, Layout, Limits, Settings};
//! let text = "Time (ms);Strom [A];Spannung [V]\n0;1,5;50,2\n20;61,0;48,1\n40;60,5;48,2\n";
//! let layout = Layout::of(text.as_bytes())?;
//! let map = layout.suggest();
//! let log = Import::new(&layout, &map, Settings::default())?.read(&mut text.as_bytes(), &mut |_| true)?;
//! assert_eq!(log.rows.imported, 3);
//! let current = log.channels.iter().find(|c| c.mapped.label == "Strom").unwrap();
//! assert!((current.whole.mean - 41.0).abs() < 1e-12);
//! # let _ = Limits::default();
//! # Ok::<(), liftgate_core::telemetry::TelemetryError>(())
//! ```
//!
//! Data flows one way: bytes, [`Layout`] (how the file is written), [`ColumnMap`] (what the person says is in it), [`Import`] (one
//! pass, in bounded memory), [`Recording`] (kept columns), [`summary::summarise`] (figures, each with where it comes from),
//! [`plot`] (geometry). No format of any product is known here: a separator is found by counting, a unit is read in the header, and the
//! person says what a column is.

mod bridge;
mod clock;
mod columns;
pub mod drift;
mod error;
mod faults;
mod fit;
mod grid;
mod import;
mod integrals;
mod layout;
mod log_words;
mod number;
pub mod plot;
mod pyramid;
mod quantity;
mod recording;
mod row_counts;
mod rows;
pub mod sag;
pub mod segments;
pub mod shift;
mod sight;
mod signs;
mod statistics;
pub mod summary;
mod taken;
mod text;
mod time_past;

pub use clock::TimeForm;
pub use columns::{ColumnMap, MappedColumn};
pub use error::{FigureLack, MapMisfit, NoTable, TelemetryError};
pub use faults::{Fault, FaultKind, Faults};
pub use import::{Import, Importing, Progress, Settings};
pub use layout::{Header, Layout};
pub use quantity::{LogUnit, Quantity};
pub use recording::{Channel, Recording, Span};
pub use row_counts::RowCounts;
pub use sight::{Sight, SightStep};
pub use statistics::ColumnStatistics;
pub use summary::{Limits, Summary};
pub use text::Encoding;
