//! Computed checks: what the aircraft's own figures and things give when the engineering functions read them.

mod balance;
mod supply;

use crate::aircraft::Aircraft;
use crate::engineering::balance::BalanceReport;
use crate::engineering::ballast::BallastReport;
use crate::engineering::supply::RailReport;
use crate::engineering::{EngineeringError, Grade};
use crate::plan::Computation;
use crate::record::{NamedValue, Outcome, ThingKind};

/// What a computation gave.
#[derive(Debug, Clone, PartialEq)]
pub enum Computed {
    /// Load of each supply.
    SupplyLoad(Vec<RailReport>),
    /// Windows of each supply's consumers.
    SupplyWindow(Vec<RailReport>),
    /// Centre of gravity, and the least ballast where it lies outside its band.
    Balance {
        /// The centre against its bands.
        report: BalanceReport,
        /// The least ballast, if any is needed and there are places for it.
        ballast: Option<BallastReport>,
    },
}

/// Why nothing could be computed.
#[derive(Debug, Clone, PartialEq)]
pub enum Lacking {
    /// No thing of this kind was described yet.
    Things(ThingKind),
    /// A thing lacks a number.
    Number {
        /// Its kind.
        kind: ThingKind,
        /// Its name.
        name: String,
        /// What it lacks.
        label: &'static str,
    },
    /// A figure of the aircraft is missing: its id in the plan.
    Figure(String),
    /// The numbers do not go together.
    Refused(EngineeringError),
}

impl Computed {
    /// Computes a check's answer from what is known of the aircraft.
    ///
    /// # Errors
    /// What is lacking, so that a person can be led to it.
    pub fn of(computation: Computation, aircraft: &Aircraft) -> Result<Computed, Lacking> {
        match computation {
            Computation::SupplyLoad => supply::load(aircraft).map(Computed::SupplyLoad),
            Computation::SupplyWindow => supply::windows(aircraft).map(Computed::SupplyWindow),
            Computation::CentreOfGravity => balance::centre(aircraft),
        }
    }

    /// How it is judged.
    pub fn outcome(&self) -> Outcome {
        match self {
            Computed::SupplyLoad(rails) => worst(rails.iter().map(supply::load_grade)),
            Computed::SupplyWindow(rails) => worst(rails.iter().map(supply::window_grade)),
            Computed::Balance { report, .. } => outcome(report.grade),
        }
    }

    /// The answer in one sentence.
    pub fn summary(&self) -> String {
        match self {
            Computed::SupplyLoad(rails) => supply::load_summary(rails),
            Computed::SupplyWindow(rails) => supply::window_summary(rails),
            Computed::Balance { report, ballast } => balance::summary(report, ballast.as_ref()),
        }
    }

    /// The numbers that are kept with the evidence.
    pub fn values(&self) -> Vec<NamedValue> {
        match self {
            Computed::SupplyLoad(rails) => supply::load_values(rails),
            Computed::SupplyWindow(rails) => supply::window_values(rails),
            Computed::Balance { report, ballast } => balance::values(report, ballast.as_ref()),
        }
    }
}

/// A grade of the engineering functions as an outcome of a check.
pub fn outcome(grade: Grade) -> Outcome {
    match grade {
        Grade::Ok => Outcome::Pass,
        Grade::Caution => Outcome::Caution,
        Grade::Stop => Outcome::Stop,
    }
}

fn worst(grades: impl Iterator<Item = Grade>) -> Outcome {
    outcome(grades.max().unwrap_or(Grade::Ok))
}

/// A thing's number, or that it is lacking.
fn number(thing: &crate::record::Thing, field: &'static str) -> Result<f64, Lacking> {
    let label = thing.kind.fields().iter().find(|f| f.id == field).map_or(field, |f| f.label);
    thing.number(field).ok_or_else(|| Lacking::Number { kind: thing.kind, name: thing.name.clone(), label })
}
