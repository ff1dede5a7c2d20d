//! The language, the units and the marks in which a person reads and types. Nothing recorded depends on it: the journal
//! and the plan keep the units that they name, and a locale only turns them over on the way in and out.

mod by_key;
mod date;
mod number;
mod preference;

pub use by_key::{Word, Worded};
pub(crate) use by_key::{say, sentence};
pub(crate) use date::{clock, time_left};
pub use number::Shown;
pub(crate) use number::{TYPESET_MINUS, parse_number, with_sign};
pub use preference::{Chosen, Language, Locale, Measures, TemperatureScale};
