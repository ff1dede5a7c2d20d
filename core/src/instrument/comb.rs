//! How likely a spectrum is for each head speed: the evidence of every tone of the drive, added up.
//!
//! For a tone at a place whose power is exceeded by the share `u` of its neighbours, the likelihood ratio of "it is there" against "it is by
//! chance" is taken as `A u^(A - 1)`, a beta density: chance makes `u` uniform. With the chance `p` that the tone stands out at all, the
//! evidence is `ln(1 - p + p A u^(A - 1))`. So a missing tone counts against a speed, a foreign one on the comb counts once, and no single tone decides.

use super::lines::Line;
use super::rank::Band;

/// Exponent of the beta density: the median share of a tone that is there is then 6 %.
const SHAPE: f64 = 0.25;
/// Presences are rounded to one of these, so that logarithms are taken once for each bin and not once for each candidate.
const PRESENCES: [f64; 5] = [0.9, 0.75, 0.55, 0.35, 0.15];

/// Evidence of a tone at each bin, for each presence.
pub(super) struct Evidence {
    band: Band,
    tables: [Vec<f32>; PRESENCES.len()],
}

impl Evidence {
    /// From the shares of [`super::rank::exceedance`].
    pub(super) fn new(shares: &[f64], band: Band) -> Evidence {
        let density: Vec<f64> = shares.iter().map(|u| SHAPE * u.powf(SHAPE - 1.0)).collect();
        let table = |p: f64| density.iter().map(|density| (1.0 - p + p * density).ln() as f32).collect();
        Evidence { band, tables: PRESENCES.map(table) }
    }

    /// Evidence of all tones for a main rotor of `turns_hz`, in nats. A tone outside of the band says nothing.
    pub(super) fn of(&self, comb: &Comb, turns_hz: f64) -> f32 {
        let per_bin = turns_hz / self.band.bin_hz;
        let (first, end) = self.band.bins();
        let at = |(per_main, class): &(f64, usize)| {
            let bin = (per_main * per_bin).round() as usize;
            if (first..end).contains(&bin) { self.tables[*class].get(bin).copied().unwrap_or(0.0) } else { 0.0 }
        };
        comb.teeth.iter().map(at).sum()
    }
}

/// The tones as [`Evidence`] looks them up: frequency over the main rotor's turns, and the class of its presence.
pub(super) struct Comb {
    teeth: Vec<(f64, usize)>,
}

impl Comb {
    pub(super) fn new(lines: &[Line]) -> Comb {
        let class = |presence: f64| {
            let off = |class: &usize| (PRESENCES[*class] - presence).abs();
            (0..PRESENCES.len()).min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(0)
        };
        Comb { teeth: lines.iter().map(|line| (line.per_main, class(line.presence))).collect() }
    }
}
