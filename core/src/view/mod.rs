//! Screens as values: made here from what the fold says, laid out by a shell that decides nothing.

mod model;
mod token;

pub use model::*;
pub use token::{Command, Place, Token};
