//! The aircraft that something of a plan is for.

use std::collections::BTreeMap;

/// The aircraft that something is for: question to the answers that fit; empty for every aircraft.
pub type When = BTreeMap<String, Vec<String>>;
