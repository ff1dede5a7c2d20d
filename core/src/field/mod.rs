//! What happens at the field: cards, flights, landings, and the spotter's turn.

mod complete;
mod flight;
mod lock;
mod plausible;

pub use complete::{LandingLack, wanted_places};
pub use flight::{Flight, Landing, Mark, SeenPlace, Tested};
pub use lock::Lock;
pub use plausible::{Band, Slip, charge_range_mah, temperature_band};
