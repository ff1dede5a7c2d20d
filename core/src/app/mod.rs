//! The phone in someone's hands: what the pilot can do, and the little that a spotter can.
//!
//! [`Phone`] owns the journal. [`Phone::pilot`] and [`Phone::spotter`] give the handle of whoever's turn it is; the other
//! one's is refused, also a handle that was fetched before. What a spotter can reach is what [`SpotterDesk`] has methods
//! for.

mod arriving;
mod bringing_in;
mod brought;
mod code;
mod damaged;
mod document;
mod done;
mod dossier;
mod entries;
mod error;
mod hangar;
mod in_view;
mod leaving;
mod log;
mod log_import;
mod open_log;
mod opened;
mod pace;
mod phone;
mod photo;
mod pilot;
mod plan;
mod plot;
mod saving;
mod search;
mod shared;
mod spotter;
mod way;
mod worded;

pub use error::AppError;
pub use phone::Phone;
pub use pilot::PilotDesk;
pub use spotter::SpotterDesk;
