//! The parts of the instrument that an outside library computes too: windows, spectra, peaks, and balance by vectors.

use liftgate_core::instrument::{
    self, Correction, InstrumentError, Peak, Scaling, TrialRun, Vector, VelocitySpectrum, Welch, Window,
};

use crate::{LiftgateError, Result};

#[uniffi::remote(Enum)]
pub enum Window {
    Rectangular,
    Hann,
    BlackmanHarris,
    FlatTop,
}

#[uniffi::remote(Enum)]
pub enum Scaling {
    Density,
    Power,
}

#[uniffi::remote(Record)]
pub struct Welch {
    pub bin_hz: f64,
    pub power: Vec<f64>,
    pub segments: u32,
}

#[uniffi::remote(Record)]
pub struct Peak {
    pub bin: f64,
    pub height: f64,
}

#[uniffi::remote(Record)]
pub struct VelocitySpectrum {
    pub low_hz: f64,
    pub step_hz: f64,
    pub mm_s: Vec<f64>,
}

#[uniffi::remote(Record)]
pub struct Vector {
    pub length: f64,
    pub angle_deg: f64,
}

#[uniffi::remote(Record)]
pub struct TrialRun {
    pub mass: Vector,
    pub vibration: Vec<Vector>,
}

#[uniffi::remote(Record)]
pub struct Correction {
    pub masses: Vec<Vector>,
    pub left: Vec<Vector>,
    pub condition: f64,
    pub smallest_effect: f64,
}

/// The arithmetic is put out for other programs and knows of no person: its errors are in English.
impl From<InstrumentError> for LiftgateError {
    fn from(error: InstrumentError) -> Self {
        LiftgateError::Refused { field: None, reason: error.to_string() }
    }
}

/// A window's weights over so many samples, in its periodic form.
#[uniffi::export]
pub fn window_weights(window: Window, length: u32) -> Vec<f64> {
    window.weights(length as usize)
}

/// Welch's averaged periodogram, one-sided, in segments that overlap by half.
#[uniffi::export]
pub fn welch_spectrum(
    samples: Vec<f64>,
    rate_hz: f64,
    segment: u32,
    window: Window,
    scaling: Scaling,
) -> Result<Welch> {
    Ok(instrument::welch(&samples, rate_hz, segment as usize, window, scaling)?)
}

/// The peak at a local maximum of a spectrum, by a parabola through the logarithms of three bins.
#[uniffi::export]
pub fn interpolated_peak(power: Vec<f64>, at: u32) -> Option<Peak> {
    instrument::interpolated_peak(&power, at as usize)
}

/// The velocity spectrum of unevenly read accelerations.
#[uniffi::export]
pub fn velocity_spectrum(
    t_ns: Vec<i64>,
    m_s2: Vec<f64>,
    low_hz: f64,
    high_hz: f64,
    piece_s: f64,
) -> Result<VelocitySpectrum> {
    Ok(instrument::velocity_spectrum(&t_ns, &m_s2, (low_hz, high_hz), piece_s)?)
}

/// The masses that balance in one or two planes, by influence coefficients.
#[uniffi::export]
pub fn vector_correction(first: Vec<Vector>, trials: Vec<TrialRun>) -> Result<Correction> {
    Ok(instrument::correction(&first, &trials)?)
}
