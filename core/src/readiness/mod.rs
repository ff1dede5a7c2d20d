//! Where the aircraft stands: a pure fold over the entries and the plan.
//!
//! [`Ledger::of`] folds; [`Ledger::at`] says how things stand at a moment, since evidence also goes stale by time. Both
//! are total: any prefix of a journal gives a valid state, and nothing here fails or asks a clock.

mod back;
mod blockers;
mod carry;
mod clock;
mod evidence;
mod finding;
mod fix;
mod fold;
mod gate;
mod gone;
mod history;
mod judge;
mod kind;
mod ledger;
mod logs;
mod next;
mod packs;
mod papers;
mod photos;
mod plan_text;
mod reached;
mod reason;
mod seat;
mod standing;
mod touch;
mod unkept;
mod way_ahead;
mod withdrawal;

pub use back::{DueSoon, Left};
pub use carry::NotCarried;
pub use clock::Clock;
pub use evidence::{Evidence, Recorded, Source};
pub use finding::{Finding, FindingState, Tried};
pub use gate::{Blocker, Gate, Release};
pub use gone::{Gone, GoneOf};
pub use history::{Adjusted, Change, Declared, Described, DoneToPack, Emergency, Happened, PackDeed};
pub use kind::may_be_withdrawn;
pub(crate) use kind::{is_told, may_change_plan, reaches_back};
pub use ledger::Ledger;
pub use logs::Logs;
pub use next::{NextFlight, Report};
pub use packs::{Charge, PackStand, Spent};
pub use papers::PaperIs;
pub use photos::{Photo, Photos};
pub(crate) use plan_text::{PlanText, loosened, plan_text_in_force};
pub use reason::{Deed, Reason};
pub use seat::Seat;
pub use standing::{Fault, Lack, Standing};
pub use unkept::Unkept;
pub use way_ahead::{Span, StageAhead, WayAhead};
pub use withdrawal::{Withdrawal, Withdrawals, is_offered};
pub(crate) use withdrawal::{is_bare, withdrawn_among};
