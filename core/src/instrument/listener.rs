//! Sound as it comes in: its level now, and the last seconds of it kept for a head speed.

use super::decimate::{Decimator, PASSES};
use super::ear::{CannotTell, HeadSpeed, Hearing, Stretch, listen};
use super::error::Result;
use super::level::{Level, Sums};
use super::orders::Drive;
use super::require::within;

/// Longest stretch that a head speed is told from, in seconds.
pub(super) const LONGEST_S: f64 = 4.0;
/// Parts of a second over which the level is told anew, and how many of them a level is of.
const PARTS: usize = 10;

/// Listens: takes samples in, and tells level and head speed of the last seconds at any time.
///
/// It holds at most [`Listener::HELD_BYTES`], whatever is pushed; what [`Listener::head_speed`] works in goes again with its answer and
/// takes at most [`Listener::WORKING_BYTES`].
pub struct Listener {
    rate_hz: f64,
    decimator: Decimator,
    /// Samples a second behind the decimator.
    kept_rate_hz: f64,
    ring: Vec<f32>,
    at: usize,
    filled: usize,
    part: Sums,
    parts: [Sums; PARTS],
    part_at: usize,
    /// Level sums of the ring's stretch, one a part of a second.
    history: Vec<Sums>,
}

impl Listener {
    /// Most that a listener holds between calls, in bytes.
    pub const HELD_BYTES: usize = 448 << 10;
    /// Most that a head speed takes beside that while it is told, in bytes.
    pub const WORKING_BYTES: usize = 16 << 20;

    /// Listens to sound sampled `rate_hz` times a second, 8000 to 96000.
    ///
    /// # Errors
    /// Another rate.
    pub fn new(rate_hz: f64) -> Result<Listener> {
        within("sampling rate", rate_hz, "Hz", (8_000.0, 96_000.0))?;
        let factor = ((rate_hz / 12_000.0) as usize).max(1);
        let kept_rate_hz = rate_hz / factor as f64;
        Ok(Listener {
            rate_hz,
            decimator: Decimator::new(factor),
            kept_rate_hz,
            ring: vec![0.0; (LONGEST_S * kept_rate_hz) as usize],
            at: 0,
            filled: 0,
            part: Sums::default(),
            parts: [Sums::default(); PARTS],
            part_at: 0,
            history: Vec::new(),
        })
    }

    /// Takes samples in, full scale from -1 to 1. A sample that is no number counts as silence.
    pub fn push(&mut self, samples: &[f32]) {
        let part_samples = (self.rate_hz / PARTS as f64) as u64;
        for sample in samples {
            let sample = if sample.is_finite() { *sample } else { 0.0 };
            self.part.push(sample);
            if self.part.samples() >= part_samples {
                self.end_part();
            }
            if let Some(kept) = self.decimator.push(sample) {
                self.ring[self.at] = kept;
                self.at = (self.at + 1) % self.ring.len();
                self.filled = (self.filled + 1).min(self.ring.len());
            }
        }
    }

    /// Takes 16-bit samples in.
    pub fn push_i16(&mut self, samples: &[i16]) {
        let mut some = [0.0; 256];
        for chunk in samples.chunks(some.len()) {
            some.iter_mut().zip(chunk).for_each(|(to, from)| *to = f32::from(*from) / 32_768.0);
            self.push(&some[..chunk.len()]);
        }
    }

    fn end_part(&mut self) {
        self.parts[self.part_at] = self.part;
        self.part_at = (self.part_at + 1) % PARTS;
        if self.history.len() == (LONGEST_S as usize) * PARTS {
            self.history.remove(0);
        }
        self.history.push(self.part);
        self.part = Sums::default();
    }

    /// Level of the last second or so.
    pub fn level(&self) -> Level {
        self.parts.iter().fold(self.part, |sum, part| sum.and(*part)).level()
    }

    /// Level of the whole stretch that a head speed is told from.
    fn stretch_level(&self) -> Level {
        self.history.iter().fold(self.part, |sum, part| sum.and(*part)).level()
    }

    /// The head speed over the last seconds, at most four.
    ///
    /// # Errors
    /// A drive, a range of speeds or a drift that cannot be. That nothing can be told of good inputs is no error but an answer.
    pub fn head_speed(&self, drive: &Drive, hearing: &Hearing) -> Result<std::result::Result<HeadSpeed, CannotTell>> {
        let split = if self.filled < self.ring.len() { 0 } else { self.at };
        let mut sound = self.ring[split..self.filled].to_vec();
        sound.extend_from_slice(&self.ring[..split]);
        let high_hz = self.kept_rate_hz * PASSES;
        let late_s = self.decimator.delay() / self.rate_hz;
        let stretch =
            Stretch { sound: &sound, rate_hz: self.kept_rate_hz, high_hz, late_s, level: self.stretch_level() };
        listen(&stretch, drive, hearing)
    }
}

/// The head speed in a recording of two seconds or more, of which the last four are used.
///
/// # Errors
/// As [`Listener::new`] and [`Listener::head_speed`].
pub fn hear(
    samples: &[f32],
    rate_hz: f64,
    drive: &Drive,
    hearing: &Hearing,
) -> Result<std::result::Result<HeadSpeed, CannotTell>> {
    let mut listener = Listener::new(rate_hz)?;
    listener.push(samples);
    listener.head_speed(drive, hearing)
}
