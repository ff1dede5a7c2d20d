//! The spectrum of unevenly read accelerations, as velocity.
//!
//! At each frequency a sine, a cosine and a constant are fitted by weighted least squares at the moments of reading (the floating-mean
//! periodogram of M. Zechmeister and M. Kürster, Astronomy and Astrophysics 496 (2009), from memory), in pieces with a Hann weight that overlap by half.

use std::f64::consts::{PI, SQRT_2, TAU};

use nalgebra::{Matrix3, Vector3};

use super::error::Result;
use super::require::{count, rising, within};

/// A spectrum of velocity.
#[derive(Debug, Clone, PartialEq)]
pub struct VelocitySpectrum {
    /// Lowest frequency and step, in Hz.
    pub low_hz: f64,
    /// Step between the ordinates, in Hz: one over the length of a piece.
    pub step_hz: f64,
    /// Velocity of a line at each frequency, in mm/s rms.
    pub mm_s: Vec<f64>,
}

/// The velocity spectrum of one axis from `low_hz` to `high_hz`, in pieces of `piece_s` seconds.
///
/// # Errors
/// Lists of unequal length, moments that do not rise, pieces longer than the readings, frequencies that are none.
pub fn velocity_spectrum(
    t_ns: &[i64],
    m_s2: &[f64],
    (low_hz, high_hz): (f64, f64),
    piece_s: f64,
) -> Result<VelocitySpectrum> {
    count("moments", t_ns.len(), (16, 10_000_000))?;
    count("readings", m_s2.len(), (t_ns.len(), t_ns.len()))?;
    rising(t_ns)?;
    let seconds = (t_ns[t_ns.len() - 1] - t_ns[0]) as f64 * 1e-9;
    within("length of a piece", piece_s, "s", (0.1, seconds))?;
    within("lowest frequency", low_hz, "Hz", (1.0 / piece_s, 1e4))?;
    within("highest frequency", high_hz, "Hz", (low_hz, 1e4))?;
    let frequencies = ((high_hz - low_hz) * piece_s) as usize + 1;
    let mut squares = vec![0.0; frequencies];
    let hops = ((seconds - piece_s) / (0.5 * piece_s)) as usize + 1;
    let mut used = 0.0;
    for hop in 0..hops {
        let start = t_ns[0] + (hop as f64 * 0.5 * piece_s * 1e9) as i64;
        let end = start + (piece_s * 1e9) as i64;
        let (from, to) = (t_ns.partition_point(|t| *t < start), t_ns.partition_point(|t| *t < end));
        let piece: Vec<[f64; 3]> = t_ns[from..to]
            .iter()
            .zip(&m_s2[from..to])
            .map(|(t, value)| {
                let x = (t - start) as f64 * 1e-9;
                [x, *value, (PI * x / piece_s).sin().powi(2)]
            })
            .collect();
        if piece.len() < 8 {
            continue;
        }
        used += 1.0;
        for (k, square) in squares.iter_mut().enumerate() {
            *square += amplitude_squared(&piece, low_hz + k as f64 / piece_s);
        }
    }
    let velocity = |(k, square): (usize, &f64)| {
        let hz = low_hz + k as f64 / piece_s;
        (square / f64::max(used, 1.0)).sqrt() * 1e3 / (SQRT_2 * TAU * hz)
    };
    Ok(VelocitySpectrum { low_hz, step_hz: 1.0 / piece_s, mm_s: squares.iter().enumerate().map(velocity).collect() })
}

/// Squared amplitude of the sine of this frequency that fits readings of `[moment, value, weight]` best.
fn amplitude_squared(piece: &[[f64; 3]], hz: f64) -> f64 {
    let (mut normal, mut right) = (Matrix3::zeros(), Vector3::zeros());
    for [t, value, weight] in piece {
        let (sin, cos) = (TAU * hz * t).sin_cos();
        let row = Vector3::new(1.0, cos, sin);
        normal += row * row.transpose() * *weight;
        right += row * (weight * value);
    }
    normal.cholesky().map_or(0.0, |cholesky| {
        let solved = cholesky.solve(&right);
        solved[1].powi(2) + solved[2].powi(2)
    })
}
