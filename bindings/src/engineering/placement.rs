//! Natural frequencies against what turns.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::drive::DriveTrain;
use liftgate_core::engineering::placement::{
    self, Exciter, NaturalFrequency, PlacementQuestion, SeparationMargin, SpeedBand,
};

use crate::Result;

#[uniffi::remote(Record)]
pub struct Exciter {
    pub name: String,
    pub order: f64,
}

#[uniffi::remote(Record)]
pub struct NaturalFrequency {
    pub name: String,
    pub frequency_hz: f64,
    pub half_width_hz: f64,
}

#[uniffi::remote(Record)]
pub struct PlacementQuestion {
    pub exciters: Vec<Exciter>,
    pub naturals: Vec<NaturalFrequency>,
    pub low_rpm: f64,
    pub high_rpm: f64,
    pub margin_percent: f64,
}

/// An order that meets a natural frequency; both by their place in the question.
#[derive(Debug, Clone, Copy, uniffi::Record)]
pub struct Crossing {
    pub exciter: u32,
    pub natural: u32,
    pub rpm: f64,
    pub blocked_low_rpm: f64,
    pub blocked_high_rpm: f64,
}

impl From<placement::Crossing> for Crossing {
    fn from(of: placement::Crossing) -> Self {
        Crossing {
            exciter: super::index(of.exciter),
            natural: super::index(of.natural),
            rpm: of.rpm,
            blocked_low_rpm: of.blocked_low_rpm,
            blocked_high_rpm: of.blocked_high_rpm,
        }
    }
}

#[uniffi::remote(Record)]
pub struct SpeedBand {
    pub low_rpm: f64,
    pub high_rpm: f64,
}

/// Crossings, and the head speeds that keep clear of them.
#[derive(Debug, Clone, uniffi::Record)]
pub struct PlacementReport {
    pub inputs: PlacementQuestion,
    pub crossings: Vec<Crossing>,
    pub clear: Vec<SpeedBand>,
}

impl From<placement::PlacementReport> for PlacementReport {
    fn from(of: placement::PlacementReport) -> Self {
        PlacementReport {
            inputs: of.inputs,
            crossings: of.crossings.into_iter().map(Into::into).collect(),
            clear: of.clear,
        }
    }
}

/// The tightest pair of order and natural frequency; both by their place in the question.
#[derive(Debug, Clone, Copy, uniffi::Record)]
pub struct NearestOrder {
    pub head_rpm: f64,
    pub exciter: u32,
    pub natural: u32,
    pub exciter_hz: f64,
    pub natural_hz: f64,
    pub margin_percent: f64,
    pub wanted_percent: f64,
    pub grade: Grade,
}

impl From<placement::NearestOrder> for NearestOrder {
    fn from(of: placement::NearestOrder) -> Self {
        NearestOrder {
            head_rpm: of.head_rpm,
            exciter: super::index(of.exciter),
            natural: super::index(of.natural),
            exciter_hz: of.exciter_hz,
            natural_hz: of.natural_hz,
            margin_percent: of.margin_percent,
            wanted_percent: of.wanted_percent,
            grade: of.grade,
        }
    }
}

#[uniffi::remote(Record)]
pub struct SeparationMargin {
    pub below_percent: f64,
    pub above_percent: f64,
}

/// The exciters that a drive brings, as orders of the head speed.
#[uniffi::export]
pub fn drive_exciters(train: DriveTrain) -> Result<Vec<Exciter>> {
    Ok(placement::drive_exciters(&train)?)
}

/// Crossings of orders and natural frequencies, and the bands of head speed that keep clear of all of them.
#[uniffi::export]
pub fn frequency_placement(question: PlacementQuestion) -> Result<PlacementReport> {
    Ok(placement::placement(&question)?.into())
}

/// The tightest pair of order and natural frequency at a head speed (10 to 10000 rpm).
#[uniffi::export]
pub fn nearest_order(question: PlacementQuestion, head_rpm: f64) -> Result<NearestOrder> {
    Ok(placement::nearest_order(&question, head_rpm)?.into())
}

/// API 684 separation margins for an amplification factor of 1 to 1000; none are asked for below 2.5.
#[uniffi::export]
pub fn separation_margin(amplification_factor: f64) -> Result<SeparationMargin> {
    Ok(placement::separation_margin(amplification_factor)?)
}

/// Magnification of a single mode at a frequency ratio (0 to 100) with a damping ratio (0.0001 to 2): `1 / sqrt((1 - r2)2 + (2 z r)2)`.
#[uniffi::export]
pub fn magnification(frequency_ratio: f64, damping_ratio: f64) -> Result<f64> {
    Ok(placement::magnification(frequency_ratio, damping_ratio)?)
}
