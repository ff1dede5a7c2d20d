//! The surface of the core for other languages.

mod screen;

uniffi::setup_scaffolding!();
