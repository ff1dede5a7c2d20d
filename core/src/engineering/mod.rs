//! What the trade computes, as pure functions: plain data in, plain data out, no input or output besides.
//!
//! Every number carries its unit at the end of its name. Every function checks its inputs and answers a bad one with
//! [`EngineeringError`]; none panics. Each subject's documentation names its source and its limits of validity. Figures that
//! are only habit are marked "common practice, no source"; a maker's rating always goes before them.

pub mod air;
pub mod balance;
pub mod ballast;
mod bounded_lp;
pub mod conflict;
pub mod disagreement;
pub mod drive;
pub mod drive_load;
pub mod error;
pub mod forward;
pub mod grade;
pub mod heat;
pub mod pack;
pub mod placement;
pub mod prediction;
mod regression;
mod require;
mod rise_interval;
pub mod rotor;
pub mod supply;
pub mod unbalance;
pub mod wind;
pub mod wire;
mod wire_heat;

pub use conflict::Conflict;
pub use error::EngineeringError;
pub use grade::Grade;
