//! What happens at the field: cards, flights, landings, and the spotter's turn.

mod flight;

pub use flight::{Flight, Landing, Mark, SeenPlace, Tested};
