//! Which head speeds, and which even changes of speed, a stretch of sound is evidence for.
//!
//! Coarse: the sound is cut into overlapping pieces; for each the evidence is laid out over the logarithm of the head speed, where a change of
//! speed is a shift. A speed that changes evenly is a straight line through the pieces: all lines are added up, for each speed the best is kept.
//! Fine: along each of the best lines the pieces' spectra are averaged on the scale of orders, which keeps what turns with the rotor sharp
//! and smears what does not; the evidence is taken once more from that one spectrum.

use super::comb::{Comb, Evidence};
use super::rank::{Band, exceedance, whiten};
use super::transform::Transform;
use super::window::Window;

/// Length of a piece, in seconds: long enough to part the tones of a slow rotor, short enough to hold a changing one still.
const PIECE_S: f64 = 0.5;
/// Lowest frequency that a phone's microphone is trusted with, in Hz.
const LOW_HZ: f64 = 45.0;
/// Largest change of speed over the stretch that is looked for, as a share.
const SWEEP_SHARE: f64 = 0.03;
/// Two speeds nearer than this share are one.
const ONE_SHARE: f64 = 4e-3;
/// How many of the best lines are looked at finely.
const LOOKED_AT: usize = 8;

/// A head speed that the sound is evidence for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Candidate {
    /// The main rotor's turns a second at the middle of the stretch.
    pub turns_hz: f64,
    /// Change of speed over the whole stretch, as a share of it.
    pub sweep: f64,
    /// Evidence, in nats.
    pub evidence: f64,
}

/// The whitened spectra of a stretch's pieces.
pub(super) struct Pieces {
    band: Band,
    powers: Vec<Vec<f64>>,
    /// Middle of each piece, from -1/2 at the stretch's beginning to 1/2 at its end.
    places: Vec<f64>,
}

impl Pieces {
    /// Cuts a stretch of sound, sampled `rate_hz` times a second, into pieces.
    pub(super) fn new(sound: &[f32], rate_hz: f64, high_hz: f64) -> Pieces {
        let length = (PIECE_S * rate_hz) as usize;
        let padded = (2 * length).next_power_of_two();
        let band = Band { bin_hz: rate_hz / padded as f64, low_hz: LOW_HZ, high_hz };
        let weights = Window::Hann.weights(length);
        let mut transform = Transform::new(padded);
        let (mut powers, mut places) = (Vec::new(), Vec::new());
        for (at, piece) in sound.windows(length).step_by(length / 2).enumerate() {
            let weighted = piece.iter().zip(&weights).map(|(sample, weight)| f64::from(*sample) * weight);
            let mut power: Vec<f64> = transform.of(weighted).iter().map(|bin| bin.norm_sqr()).collect();
            whiten(&mut power, &band);
            powers.push(power);
            places.push((at * (length / 2) + length / 2) as f64 / sound.len() as f64 - 0.5);
        }
        Pieces { band, powers, places }
    }

    /// Step of the search in the logarithm of the speed: it moves the highest tone by half of what a piece parts.
    fn step(&self) -> f64 {
        0.5 / PIECE_S / self.band.high_hz
    }

    /// How many speeds are looked at in a range.
    pub(super) fn speeds(&self, (slowest_hz, fastest_hz): (f64, f64)) -> usize {
        ((fastest_hz / slowest_hz).ln() / self.step()).ceil() as usize + 1
    }

    /// The best speeds from `slowest_hz` to `fastest_hz`, the best first, each apart from the others.
    pub(super) fn candidates(&self, comb: &Comb, (slowest_hz, fastest_hz): (f64, f64)) -> Vec<Candidate> {
        let step = self.step();
        let margin = (0.5 * SWEEP_SHARE / step).ceil() as usize;
        let count = self.speeds((slowest_hz, fastest_hz));
        let turns = |i: usize| slowest_hz * ((i as f64 - margin as f64) * step).exp();
        let laid_out = |power: &Vec<f64>| -> Vec<f32> {
            let evidence = Evidence::new(&exceedance(power, &self.band), self.band);
            (0..count + 2 * margin).map(|i| evidence.of(comb, turns(i))).collect()
        };
        let layers: Vec<Vec<f32>> = self.powers.iter().map(laid_out).collect();
        let best = self.best_lines(&layers, count, margin);
        let coarse = apart(best.iter().enumerate().map(|(i, (evidence, shift))| Candidate {
            turns_hz: turns(i + margin),
            sweep: *shift as f64 * step,
            evidence: f64::from(*evidence),
        }));
        let fine = coarse.into_iter().take(LOOKED_AT).map(|candidate| self.looked_at(comb, &candidate));
        apart(fine.filter(|found| (slowest_hz..=fastest_hz).contains(&found.turns_hz)))
    }

    /// For each speed the most evidence along a straight line, and that line's shift over the stretch, in steps.
    fn best_lines(&self, layers: &[Vec<f32>], count: usize, margin: usize) -> Vec<(f32, i64)> {
        let mut best = vec![(f32::NEG_INFINITY, 0); count];
        let mut sums = vec![0.0f32; count];
        let widest = 2 * margin as i64;
        for shift in (-widest..=widest).step_by(2) {
            sums.fill(0.0);
            for (layer, place) in layers.iter().zip(&self.places) {
                let from = margin as i64 + (shift as f64 * place).round() as i64;
                let layer = &layer[usize::try_from(from).unwrap_or(0)..];
                sums.iter_mut().zip(layer).for_each(|(sum, evidence)| *sum += evidence);
            }
            for (best, sum) in best.iter_mut().zip(&sums) {
                let mean = sum / layers.len() as f32;
                if mean > best.0 {
                    *best = (mean, shift);
                }
            }
        }
        best
    }

    /// The same line looked at finely: the evidence of the spectrum averaged along it, at the best speed near it.
    fn looked_at(&self, comb: &Comb, coarse: &Candidate) -> Candidate {
        let mut average = vec![0.0; self.powers[0].len()];
        for (power, place) in self.powers.iter().zip(&self.places) {
            let stretch = (coarse.sweep * place).exp();
            for (k, sum) in average.iter_mut().enumerate() {
                let at = k as f64 * stretch;
                let (below, part) = (at as usize, at.fract());
                if let [left, right] = power.get(below..below + 2).unwrap_or_default() {
                    *sum += left * (1.0 - part) + right * part;
                }
            }
        }
        let evidence = Evidence::new(&exceedance(&average, &self.band), self.band);
        let step = 0.25 * self.band.bin_hz / self.band.high_hz;
        let reach = (0.5 * ONE_SHARE / step) as i64;
        let near = (-reach..=reach).map(|i| coarse.turns_hz * (i as f64 * step).exp());
        let valued = near.map(|turns_hz| Candidate {
            turns_hz,
            sweep: coarse.sweep,
            evidence: f64::from(evidence.of(comb, turns_hz)),
        });
        valued.max_by(|a, b| a.evidence.total_cmp(&b.evidence)).unwrap_or(*coarse)
    }
}

/// The best first, none nearer to a better one than [`ONE_SHARE`].
fn apart(all: impl Iterator<Item = Candidate>) -> Vec<Candidate> {
    let mut all: Vec<Candidate> = all.collect();
    all.sort_by(|a, b| b.evidence.total_cmp(&a.evidence));
    let mut kept: Vec<Candidate> = Vec::new();
    for candidate in all {
        if kept.len() == 4 * LOOKED_AT {
            break;
        }
        if kept.iter().all(|better| (better.turns_hz / candidate.turns_hz).ln().abs() > ONE_SHARE) {
            kept.push(candidate);
        }
    }
    kept
}
