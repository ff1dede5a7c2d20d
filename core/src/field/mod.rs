//! What happens at the field: cards, flights, landings, and the spotter's turn.

mod charge;
mod complete;
mod doubt;
mod flight;
mod length;
mod lock;
mod plausible;
mod told;

pub use charge::{holds_mah, left_percent, reserve_percent};
pub use complete::{LandingLack, wanted_places};
pub use doubt::{Doubt, doubts};
pub use flight::{
    Explained, Flight, Landing, Mark, MarkAnswer, SeenPlace, ShownFinding, Tested, Timed, Unanswered, is_past_stop,
};
pub use length::{TooShort, is_long_enough, wanted_s};
pub use lock::Lock;
pub use plausible::{Band, Slip, charge_range_mah, temperature_band};
