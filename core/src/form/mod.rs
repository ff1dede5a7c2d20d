//! What can be typed where. Each form is a type that names its fields once, reads the drafts, knows its defaults and ranges, and
//! refuses what cannot be.

mod drafts;
mod refusal;

pub use drafts::Drafts;
pub use refusal::Refusal;
