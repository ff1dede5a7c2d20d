//! What happens at the field: cards, flights, landings, and the spotter's turn.

mod flight;
mod prediction;

pub use flight::{Flight, Landing, Mark, SeenPlace};
pub use prediction::predicted_charge;
