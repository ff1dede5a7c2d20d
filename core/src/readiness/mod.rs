//! Where the aircraft stands: a pure fold over the entries and the plan.
//!
//! [`Ledger::of`] folds; [`Ledger::at`] says how things stand at a moment, since evidence also goes stale by time. Both
//! are total: any prefix of a journal gives a valid state, and nothing here fails or asks a clock.

mod apply;
mod gate;
mod ledger;
mod next;
mod packs;
mod standing;

pub use gate::{Blocker, Gate};
pub(crate) use ledger::withdrawn;
pub use ledger::{
    Change, Charged, Described, Evidence, Finding, FindingState, Ledger, Recorded, Release, Seat, Source,
};
pub use next::{NextFlight, Report};
pub use packs::{Charge, PackStand};
pub use standing::{Reason, Standing};
