//! Fewer samples a second: a low-pass filter, and every so-many-th of what it lets through.

use std::f64::consts::PI;

use super::window::Window;

/// Taps for each factor: with the Blackman-Harris window a transition of a quarter of the lower rate, and 90 dB down behind it.
const TAPS_PER_FACTOR: usize = 24;
/// Where the filter is 6 dB down, over the lower rate. What folds back into the band below it is 90 dB down but for its very end.
pub(super) const PASSES: f64 = 0.42;

/// A streaming decimator by a whole factor.
pub(super) struct Decimator {
    factor: usize,
    taps: Vec<f32>,
    /// The last samples, twice over, so that a stretch as long as the taps lies in one piece.
    history: Vec<f32>,
    at: usize,
    until_next: usize,
}

impl Decimator {
    pub(super) fn new(factor: usize) -> Decimator {
        let length = if factor == 1 { 1 } else { TAPS_PER_FACTOR * factor };
        // The taps are even in number: their window's weights lie at half steps.
        let weights = Window::BlackmanHarris.weights(2 * length);
        let cutoff = PASSES / factor as f64;
        let tap = |n: usize| {
            let x = n as f64 - (length as f64 - 1.0) / 2.0;
            let sinc = if x == 0.0 { 2.0 * cutoff } else { (2.0 * PI * cutoff * x).sin() / (PI * x) };
            sinc * weights[2 * n + 1]
        };
        let raw: Vec<f64> = if factor == 1 { vec![1.0] } else { (0..length).map(tap).collect() };
        let sum: f64 = raw.iter().sum();
        let taps: Vec<f32> = raw.iter().map(|tap| (tap / sum) as f32).collect();
        Decimator { factor, history: vec![0.0; 2 * length], taps, at: 0, until_next: factor }
    }

    /// By how much the samples that come out are late, in samples that go in.
    pub(super) fn delay(&self) -> f64 {
        (self.taps.len() as f64 - 1.0) / 2.0
    }

    /// Takes one sample in; gives one out at every so-many-th.
    pub(super) fn push(&mut self, sample: f32) -> Option<f32> {
        let length = self.taps.len();
        self.history[self.at] = sample;
        self.history[self.at + length] = sample;
        self.at = (self.at + 1) % length;
        self.until_next -= 1;
        if self.until_next > 0 {
            return None;
        }
        self.until_next = self.factor;
        let stretch = &self.history[self.at..self.at + length];
        Some(stretch.iter().zip(&self.taps).map(|(sample, tap)| sample * tap).sum())
    }
}
