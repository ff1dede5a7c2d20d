//! How loud it is, and how much of it was cut off.

/// A sample this near to full scale is taken as cut off: 32767 of 32768, less one step of rounding.
const FULL_SCALE: f32 = 0.9999;

/// Loudness over a stretch of samples.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level {
    /// Root mean square over that of a full-scale sine, in dB (AES17, from memory); minus infinity in digital silence.
    pub dbfs: f64,
    /// Share of the samples at full scale, 0 to 1. A recorder that cuts off lower, before a gain, is not seen by this.
    pub clipped_share: f64,
}

/// The sums that a level is made of.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sums {
    samples: u64,
    squares: f64,
    clipped: u64,
}

impl Sums {
    pub(super) fn push(&mut self, sample: f32) {
        self.samples += 1;
        self.squares += f64::from(sample) * f64::from(sample);
        self.clipped += u64::from(sample.abs() >= FULL_SCALE);
    }

    pub(super) fn samples(&self) -> u64 {
        self.samples
    }

    pub(super) fn and(self, other: Sums) -> Sums {
        Sums {
            samples: self.samples + other.samples,
            squares: self.squares + other.squares,
            clipped: self.clipped + other.clipped,
        }
    }

    pub(super) fn level(&self) -> Level {
        let samples = self.samples.max(1) as f64;
        Level { dbfs: 10.0 * (2.0 * self.squares / samples).log10(), clipped_share: self.clipped as f64 / samples }
    }
}
