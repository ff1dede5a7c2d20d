//! The surface of the core for other languages.
uniffi::setup_scaffolding!();
