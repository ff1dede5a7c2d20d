//! The language, the units and the marks in which a person reads and types. Nothing recorded depends on it: the journal
//! and the plan keep the units that they name, and a locale only turns them over on the way in and out.

mod date;
mod number;
mod preference;
mod words;

pub(crate) use date::{clock, time_left};
pub use number::Shown;
pub(crate) use number::{parse_number, with_sign};
pub use preference::{Chosen, Language, Locale, Measures, TemperatureScale};
pub use words::{Word, Worded};
pub(crate) use words::{say, sentence};
