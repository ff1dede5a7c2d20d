//! A person at the phone, for stories: looks for words on the screen and touches what carries them.

pub mod example;
mod person;
mod spread;
pub mod walk;

pub use person::{Person, controls};
pub use spread::Spread;
