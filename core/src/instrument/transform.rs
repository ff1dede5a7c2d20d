//! The discrete Fourier transform of real samples.

use std::sync::Arc;

use rustfft::num_complex::Complex;
use rustfft::{Fft, FftPlanner};

/// A transform of one length, with the memory that it works in.
pub(super) struct Transform {
    fft: Arc<dyn Fft<f64>>,
    data: Vec<Complex<f64>>,
    scratch: Vec<Complex<f64>>,
}

impl Transform {
    /// Prepares transforms of `length` samples.
    pub(super) fn new(length: usize) -> Transform {
        let fft = FftPlanner::new().plan_fft_forward(length);
        let zero = Complex::new(0.0, 0.0);
        let scratch = vec![zero; fft.get_inplace_scratch_len()];
        Transform { data: vec![zero; length], scratch, fft }
    }

    /// The spectrum of up to `length` samples, zeros behind them: bins from zero to half the sampling rate.
    pub(super) fn of(&mut self, samples: impl Iterator<Item = f64>) -> &[Complex<f64>] {
        self.data.fill(Complex::new(0.0, 0.0));
        for (place, sample) in self.data.iter_mut().zip(samples) {
            place.re = sample;
        }
        self.fft.process_with_scratch(&mut self.data, &mut self.scratch);
        &self.data[..self.data.len() / 2 + 1]
    }
}
