//! Stories of a person at the phone, each in a file of its own, told by what they see and touch.
#![allow(missing_docs, clippy::unwrap_used)]

mod first_flight;
mod whole_plan;
