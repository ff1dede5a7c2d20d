//! Supplies: loads, margins, voltage windows, regulator heat and receiver pack endurance.

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::supply::{
    self, Consumer, ConsumerWindow, CurrentMargin, EnduranceReport, Rail, RailLoad, RailReason, RailState,
    ReceiverPack, Regulator, RegulatorKind, RegulatorReport, SagMargin, WindowEdge, WindowPoint,
};

use crate::Result;

/// A consumer and the point of its window that is tightest.
#[derive(Debug, Clone, uniffi::Record)]
pub struct ConsumerPoint {
    pub consumer: String,
    pub point: WindowPoint,
}

#[uniffi::remote(Record)]
pub struct Rail {
    pub name: String,
    pub full_v: f64,
    pub nominal_v: f64,
    pub empty_v: f64,
    pub continuous_a: f64,
    pub burst_a: f64,
    pub ripple_v: f64,
}

#[uniffi::remote(Record)]
pub struct Consumer {
    pub name: String,
    pub low_v: f64,
    pub high_v: f64,
    pub steady_a: f64,
    pub quantity: u32,
    pub fault_a: Option<f64>,
}

#[uniffi::remote(Record)]
pub struct RailLoad {
    pub rail: Rail,
    pub consumers: Vec<Consumer>,
    pub stirring_peak_a: f64,
    pub stirring_low_v: Option<f64>,
}

#[uniffi::remote(Record)]
pub struct CurrentMargin {
    pub load_a: f64,
    pub rated_a: f64,
    pub margin_a: f64,
    pub margin_percent: f64,
    pub grade: Grade,
}

#[uniffi::remote(Enum)]
pub enum RailState {
    RippleCrest,
    Full,
    Nominal,
    Empty,
    RippleTrough,
}

#[uniffi::remote(Enum)]
pub enum WindowEdge {
    Low,
    High,
}

#[uniffi::remote(Record)]
pub struct WindowPoint {
    pub state: RailState,
    pub rail_v: f64,
    pub edge: WindowEdge,
    pub limit_v: f64,
    pub margin_v: f64,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct ConsumerWindow {
    pub consumer: String,
    pub points: Vec<WindowPoint>,
    pub worst: WindowPoint,
}

#[uniffi::remote(Record)]
pub struct SagMargin {
    pub low_v: f64,
    pub limit_v: f64,
    pub consumer: Option<String>,
    pub margin_v: f64,
    pub set_v: f64,
    pub below_set_percent: f64,
    pub grade: Grade,
}

#[uniffi::remote(Enum)]
pub enum RailReason {
    Continuous { margin: CurrentMargin },
    Burst { margin: CurrentMargin },
    Fault { consumer: String, margin: CurrentMargin },
    Window { consumer: String, point: WindowPoint },
    Sag { margin: SagMargin },
}

/// Loads, margins and voltage windows of one rail.
#[derive(Debug, Clone, uniffi::Record)]
pub struct RailReport {
    pub inputs: RailLoad,
    pub steady_a: f64,
    pub average_a: f64,
    pub hard_flight_a: f64,
    pub stirred_peak_a: f64,
    pub stalled_peak_a: Option<f64>,
    pub design_peak_a: f64,
    pub continuous: CurrentMargin,
    pub burst: CurrentMargin,
    pub fault: Option<CurrentMargin>,
    pub windows: Vec<ConsumerWindow>,
    pub worst_window: Option<ConsumerPoint>,
    pub sag: Option<SagMargin>,
    pub grade: Grade,
    pub reasons: Vec<RailReason>,
}

impl From<supply::RailReport> for RailReport {
    fn from(of: supply::RailReport) -> Self {
        RailReport {
            inputs: of.inputs,
            steady_a: of.steady_a,
            average_a: of.average_a,
            hard_flight_a: of.hard_flight_a,
            stirred_peak_a: of.stirred_peak_a,
            stalled_peak_a: of.stalled_peak_a,
            design_peak_a: of.design_peak_a,
            continuous: of.continuous,
            burst: of.burst,
            fault: of.fault,
            windows: of.windows,
            worst_window: of.worst_window.map(|(consumer, point)| ConsumerPoint { consumer, point }),
            sag: of.sag,
            grade: of.grade,
            reasons: of.reasons,
        }
    }
}

#[uniffi::remote(Enum)]
pub enum RegulatorKind {
    Linear { dropout_v: f64 },
    Switching { efficiency: f64 },
}

#[uniffi::remote(Record)]
pub struct Regulator {
    pub kind: RegulatorKind,
    pub input_v: f64,
    pub output_v: f64,
    pub load_a: f64,
    pub ambient_c: f64,
    pub thermal_resistance_k_per_w: f64,
    pub limit_c: f64,
}

#[uniffi::remote(Record)]
pub struct RegulatorReport {
    pub inputs: Regulator,
    pub heat_w: f64,
    pub temperature_c: f64,
    pub margin_k: f64,
    pub margin_percent: f64,
    pub dropout_margin_v: Option<f64>,
    pub grade: Grade,
}

#[uniffi::remote(Record)]
pub struct ReceiverPack {
    pub capacity_mah: f64,
    pub average_a: f64,
    pub planned_min: f64,
    pub usable_fraction: f64,
}

#[uniffi::remote(Record)]
pub struct EnduranceReport {
    pub inputs: ReceiverPack,
    pub used_mah: f64,
    pub used_percent: f64,
    pub usable_mah: f64,
    pub endurance_min: f64,
    pub margin_min: f64,
    pub margin_percent: f64,
    pub grade: Grade,
}

/// Loads, margins and voltage windows of one rail.
#[uniffi::export]
pub fn rail_report(load: RailLoad) -> Result<RailReport> {
    Ok(supply::rail_report(&load)?.into())
}

/// Steady heat and temperature of a regulator.
#[uniffi::export]
pub fn regulator_report(regulator: Regulator) -> Result<RegulatorReport> {
    Ok(supply::regulator_report(&regulator)?)
}

/// Endurance of a receiver pack with its reserve kept.
#[uniffi::export]
pub fn receiver_endurance(pack: ReceiverPack) -> Result<EnduranceReport> {
    Ok(supply::receiver_endurance(&pack)?)
}
