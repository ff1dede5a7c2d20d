//! What happens at the field: cards, flights, landings, and the spotter's turn.

mod charge;
mod complete;
mod doubt;
mod flight;
mod length;
mod lifting;
mod lock;
mod plausible;
mod prediction;
mod series;
mod told;

pub use charge::{
    Capacity, held_mah, least_measured_mah, left_percent, put_back_range_mah, reserve_percent, used_range_mah,
};
pub use complete::{LandingLack, wanted_places};
pub use doubt::{Doubt, doubts};
pub use flight::{
    Explained, Flight, Landing, Mark, MarkAnswer, PACKS_JOINED, SeenPlace, ShownFinding, Tested, Timed, Unanswered,
    is_past_stop,
};
pub use length::{TooShort, is_long_enough, wanted_s};
pub use lifting::least_lifting_a;
pub use lock::Lock;
pub use plausible::{Band, Slip, temperature_band};
pub use series::{WrongSet, cells_of_each, cells_wanted, wrong_set};
