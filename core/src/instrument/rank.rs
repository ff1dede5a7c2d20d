//! How rare the power of each bin is among its neighbours.
//!
//! A tone is told from noise, music and another drive by where it lies and not by how loud it is: what counts is the share of the bins around
//! that hold as much. A share needs no model of the noise, and one loud foreign tone weighs no more than any other bin at the top.

/// Bins whose middle value stands for the noise at their place, in Hz: some spacings of a comb wide, so that its tones are the fewer.
const BLOCK_HZ: f64 = 100.0;

/// The part of a spectrum that is used.
#[derive(Debug, Clone, Copy)]
pub(super) struct Band {
    pub bin_hz: f64,
    pub low_hz: f64,
    pub high_hz: f64,
}

impl Band {
    /// First bin, and the one behind the last.
    pub(super) fn bins(&self) -> (usize, usize) {
        ((self.low_hz / self.bin_hz).ceil() as usize, (self.high_hz / self.bin_hz).floor() as usize + 1)
    }
}

/// Divides each bin by the noise at its place: the medians of blocks, joined by straight lines.
pub(super) fn whiten(power: &mut [f64], band: &Band) {
    let block = ((BLOCK_HZ / band.bin_hz) as usize).max(4);
    let median = |chunk: &[f64]| {
        let mut sorted = chunk.to_vec();
        let middle = sorted.len() / 2;
        *sorted.select_nth_unstable_by(middle, f64::total_cmp).1
    };
    let medians: Vec<f64> = power.chunks_exact(block).map(median).collect();
    let Some(last) = medians.len().checked_sub(1) else { return };
    for (k, bin) in power.iter_mut().enumerate() {
        let place = ((k as f64 + 0.5) / block as f64 - 0.5).clamp(0.0, last as f64);
        let below = (place as usize).min(last);
        let part = place - below as f64;
        let noise = medians[below] * (1.0 - part) + medians[(below + 1).min(last)] * part;
        *bin = if noise > 0.0 { *bin / noise } else { 0.0 };
    }
}

/// For each bin the share of the bins in its octave that hold at least as much, from near zero to one. One outside of the band.
pub(super) fn exceedance(power: &[f64], band: &Band) -> Vec<f64> {
    let mut shares = vec![1.0; power.len()];
    let (first, end) = band.bins();
    let end = end.min(power.len());
    let mut low = first;
    while low < end {
        // The last octave takes in what is left, rather than that a narrow one stands alone.
        let high = if 3 * low > end { end } else { 2 * low };
        let mut places: Vec<usize> = (low..high).collect();
        places.sort_unstable_by(|a, b| power[*b].total_cmp(&power[*a]));
        let count = places.len() as f64;
        places.iter().enumerate().for_each(|(rank, place)| shares[*place] = (rank as f64 + 0.5) / count);
        low = high;
    }
    shares
}
