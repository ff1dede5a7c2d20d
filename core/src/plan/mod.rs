//! Plans: the stages and checks for an aircraft, as data.
//!
//! A plan is a TOML file. [`Plan::parse`] reads one, or says everything that is wrong with it, each fault with its line
//! and column. The shipped plan is [`SHIPPED`].

mod difference;
mod fault;
mod flaw;
mod lint;
mod model;
mod reason;
mod source;
mod translated;
mod validate;

pub use difference::{Became, Difference};
pub use fault::{PlanFault, PlanFaults};
pub use flaw::{Flaw, Hazard};
pub use lint::{CHUNK, GRADE, Remark, Rule, lint, reading_grade};
pub use model::{
    Caution, Check, CheckKind, Computation, Event, Figure, Fly, Holds, Limit, Limits, Measure, Motion, Part, Place,
    Plan, Point, Question, Setting, Stage, Subject, When,
};
pub use reason::{Named, PlanReason};

/// The plan that comes with Liftgate.
pub const SHIPPED: &str = include_str!("../../plans/large-electric-helicopter.toml");
