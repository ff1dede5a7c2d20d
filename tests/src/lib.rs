//! A person at the phone, for stories: looks for words on the screen and touches what carries them.

pub mod example;
mod person;
pub mod walk;

pub use person::{Person, controls};
