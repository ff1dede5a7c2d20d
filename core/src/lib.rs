//! Liftgate's core.
pub mod engineering;
