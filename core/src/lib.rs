//! The rules, the records and the arithmetic of Liftgate.
//!
//! Data flows one way: a touch becomes a command, a command becomes an entry in the journal, a pure fold over the
//! entries and the plan says where the aircraft stands, and a screen is made from that. Nothing here knows what kind
//! of phone it runs on.

pub mod aircraft;
pub mod app;
pub mod computed;
pub mod dossier;
pub mod drawing;
pub mod engineering;
pub mod field;
pub mod form;
pub mod instrument;
pub mod journal;
pub mod locale;
pub mod paper;
pub mod photo;
pub mod plan;
pub mod readiness;
pub mod record;
pub mod tables;
pub mod telemetry;
pub mod unit;
pub mod view;
