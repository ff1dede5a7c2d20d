//! Windows for spectra, in their periodic form, as a discrete Fourier transform wants them.
//!
//! Coefficients: F. J. Harris, "On the use of windows for harmonic analysis with the discrete Fourier transform", Proceedings of the IEEE
//! 66 (1978), for Hann and the four-term Blackman-Harris window; the flat top is the five-term one of ISO 18431-2, from memory.

use std::f64::consts::TAU;

/// The shape that a stretch of samples is weighted with before it is transformed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Window {
    /// No weighting: the sharpest line, and the most leakage.
    Rectangular,
    /// Raised cosine: the usual choice for noise and lines together.
    Hann,
    /// Four cosine terms: leakage below -92 dB, for a weak line beside a strong one.
    BlackmanHarris,
    /// Five cosine terms: a line's height is read to 0.01 dB wherever it lies between two bins.
    FlatTop,
}

impl Window {
    /// Terms of the sum `a0 - a1 cos(x) + a2 cos(2x) - ...`.
    fn terms(self) -> &'static [f64] {
        match self {
            Window::Rectangular => &[1.0],
            Window::Hann => &[0.5, 0.5],
            Window::BlackmanHarris => &[0.35875, 0.48829, 0.14128, 0.01168],
            Window::FlatTop => &[0.215_578_95, 0.416_631_58, 0.277_263_158, 0.083_578_947, 0.006_947_368],
        }
    }

    /// The window's weights over `length` samples.
    pub fn weights(self, length: usize) -> Vec<f64> {
        let terms = self.terms();
        let weight = |n: usize| {
            let x = TAU * n as f64 / length as f64;
            let signed = |(k, a): (usize, &f64)| if k.is_multiple_of(2) { *a } else { -a } * (k as f64 * x).cos();
            terms.iter().enumerate().map(signed).sum()
        };
        (0..length).map(weight).collect()
    }
}
