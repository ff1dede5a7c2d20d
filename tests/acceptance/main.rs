//! Stories of a person at the phone, each in a file of its own, told by what they see and touch.
#![allow(missing_docs, clippy::unwrap_used)]

mod ballast;
mod blades_off_run;
mod carried_finding;
mod clocks;
mod compared;
mod computed_checks;
mod first_gate;
mod handles;
mod heat_finding;
mod hotter_day;
mod landing_taps;
mod languages;
mod log;
mod long_log;
mod one_change;
mod own_plan;
mod pilots_code;
mod process_death;
mod recurring;
mod routine_day;
mod slip;
mod spotter_monkey;
mod supply_load;
mod whole_plan;
mod wrong_input;
