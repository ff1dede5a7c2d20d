//! The averaged periodogram: P. D. Welch, "The use of fast Fourier transform for the estimation of power spectra", IEEE Transactions on
//! Audio and Electroacoustics 15 (1967). Segments overlap by half, each without its mean, one-sided.

use super::error::Result;
use super::require::{count, within};
use super::transform::Transform;
use super::window::Window;

/// What a spectrum's ordinate means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scaling {
    /// Power for each hertz: for noise. Its sum times the bin's width is the signal's power.
    Density,
    /// Mean square of a line at the bin: for tones.
    Power,
}

/// A one-sided averaged spectrum.
#[derive(Debug, Clone, PartialEq)]
pub struct Welch {
    /// Width of a bin, in Hz: the ordinate at place `k` belongs to `k` times this.
    pub bin_hz: f64,
    /// The ordinates, from zero to half the sampling rate, in the samples' unit squared (for each hertz with [`Scaling::Density`]).
    pub power: Vec<f64>,
    /// How many segments were averaged.
    pub segments: u32,
}

/// Welch's averaged periodogram of `samples` at `rate_hz`, in segments of `segment` samples that overlap by half of it (rounded down).
///
/// # Errors
/// A rate that is no rate, a segment under 8 samples, and fewer samples than one segment.
pub fn welch(samples: &[f64], rate_hz: f64, segment: usize, window: Window, scaling: Scaling) -> Result<Welch> {
    within("sampling rate", rate_hz, "Hz", (1e-3, 1e9))?;
    count("samples of a segment", segment, (8, 1 << 24))?;
    count("samples", samples.len(), (segment, usize::MAX))?;
    let weights = window.weights(segment);
    let norm = match scaling {
        Scaling::Density => rate_hz * weights.iter().map(|w| w * w).sum::<f64>(),
        Scaling::Power => weights.iter().sum::<f64>().powi(2),
    };
    let mut transform = Transform::new(segment);
    let mut power = vec![0.0; segment / 2 + 1];
    let mut segments = 0u32;
    for stretch in samples.windows(segment).step_by(segment - segment / 2) {
        let mean = stretch.iter().sum::<f64>() / segment as f64;
        let spectrum = transform.of(stretch.iter().zip(&weights).map(|(sample, weight)| (sample - mean) * weight));
        power.iter_mut().zip(spectrum).for_each(|(sum, bin)| *sum += bin.norm_sqr());
        segments += 1;
    }
    // What lies at negative frequencies counts too; zero and half the sampling rate have no such twin.
    let last = if segment.is_multiple_of(2) { power.len() - 1 } else { power.len() };
    for (k, ordinate) in power.iter_mut().enumerate() {
        let twin = if k == 0 || k == last { 1.0 } else { 2.0 };
        *ordinate *= twin / (norm * f64::from(segments));
    }
    Ok(Welch { bin_hz: rate_hz / segment as f64, power, segments })
}
