//! The least ballast.

use liftgate_core::engineering::balance::{Band, Centre};
use liftgate_core::engineering::ballast::{
    self, BallastAnswer, BallastPlace, BallastPlan, BallastQuestion, BallastReport, BallastShortfall, WholeGrams,
};

use crate::Result;

#[uniffi::remote(Record)]
pub struct BallastPlace {
    pub name: String,
    pub x_mm: f64,
    pub y_mm: f64,
    pub z_mm: f64,
    pub limit_g: f64,
}

#[uniffi::remote(Record)]
pub struct BallastQuestion {
    pub centre: Centre,
    pub band: Band,
    pub places: Vec<BallastPlace>,
}

#[uniffi::remote(Record)]
pub struct WholeGrams {
    pub grams: Vec<u32>,
    pub total_g: u32,
    pub centre: Centre,
    pub proven_least: bool,
}

#[uniffi::remote(Record)]
pub struct BallastPlan {
    pub exact_g: Vec<f64>,
    pub exact_total_g: f64,
    pub exact_centre: Centre,
    pub whole: Option<WholeGrams>,
}

#[uniffi::remote(Record)]
pub struct BallastShortfall {
    pub nearest_g: Vec<f64>,
    pub centre: Centre,
    pub x_missing_mm: f64,
    pub y_missing_mm: f64,
    pub x_missing_gmm: f64,
    pub y_missing_gmm: f64,
    pub without_limits_g: Option<f64>,
}

#[uniffi::remote(Enum)]
pub enum BallastAnswer {
    NotNeeded,
    Found { best: BallastPlan, second: Option<BallastPlan> },
    Impossible { shortfall: BallastShortfall },
}

#[uniffi::remote(Record)]
pub struct BallastReport {
    pub inputs: BallastQuestion,
    pub answer: BallastAnswer,
}

/// The least ballast that brings the centre of gravity into both bands, exact, with the next best set of places beside it.
#[uniffi::export]
pub fn least_ballast(question: BallastQuestion) -> Result<BallastReport> {
    Ok(ballast::least_ballast(&question)?)
}
