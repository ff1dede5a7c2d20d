//! Plans: the stages and checks for an aircraft, as data.
//!
//! A plan is a TOML file. [`Plan::parse`] reads one, or says everything that is wrong with it, each fault with its line
//! and column. The shipped plan is [`SHIPPED`].

mod asked;
mod check;
mod circle;
mod difference;
mod fault;
mod flaw;
mod lint;
mod lookup;
mod loosened;
mod model;
mod parse;
mod points;
mod points_of_check;
mod read_check;
mod read_plan;
mod reader;
mod reading_grade;
mod reason;
mod said;
mod shipped;
mod source;
mod subject;
mod translated;
mod when;

pub use check::{
    Agreement, Check, CheckKind, Computation, Fly, Holds, Limit, Limits, Measure, Motion, OnFile, Point,
};
pub use difference::{Became, Difference};
pub use fault::{PlanFault, PlanFaults};
pub use flaw::{CHUNK, Flaw, GRADE, Hazard};
pub use lint::{Remark, Rule, lint};
pub use loosened::{Loosened, Looser};
pub use model::{Caution, Event, Figure, FromFigure, Part, Place, Plan, Question, Setting, Stage};
pub use reading_grade::reading_grade;
pub use reason::{Named, PlanReason};
pub use shipped::SHIPPED;
pub use subject::Subject;
pub use when::When;
