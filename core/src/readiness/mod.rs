//! Where the aircraft stands: a pure fold over the entries and the plan.
//!
//! [`Ledger::of`] folds; [`Ledger::at`] says how things stand at a moment, since evidence also goes stale by time. Both
//! are total: any prefix of a journal gives a valid state, and nothing here fails or asks a clock.

mod apply;
mod back;
mod gate;
mod ledger;
mod next;
mod packs;
mod standing;

pub use back::{DueSoon, Left};
pub use gate::{Blocker, Gate};
pub(crate) use ledger::withdrawn;
pub use ledger::{
    Adjusted, Change, Charged, Described, Evidence, Finding, FindingState, Happened, Ledger, Recorded, Release, Seat,
    Source, Tried,
};
pub use next::{NextFlight, Report};
pub use packs::{Charge, PackStand};
pub use standing::{Deed, Fault, Lack, Reason, Standing};
