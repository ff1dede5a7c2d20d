//! Where a line lies between the bins of a spectrum.
//!
//! A parabola through the logarithm of the highest bin and its neighbours: exact for a Gaussian window, and within a few hundredths of a bin
//! for the cosine windows, from whose main lobe a Gaussian hardly differs.

/// A peak between bins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Peak {
    /// Its place, in bins.
    pub bin: f64,
    /// Its height, in the spectrum's unit.
    pub height: f64,
}

/// The peak at the local maximum `at` of `power`; none where it is no inner local maximum, or a neighbour is not above zero.
pub fn interpolated_peak(power: &[f64], at: usize) -> Option<Peak> {
    let [left, top, right]: [f64; 3] = power.get(at.checked_sub(1)?..at + 2)?.try_into().ok()?;
    if !(left > 0.0 && right > 0.0 && top >= left && top >= right && top.is_finite()) || left == right && left == top
    {
        return None;
    }
    let (left, top, right) = (left.ln(), top.ln(), right.ln());
    let offset = 0.5 * (left - right) / (left - 2.0 * top + right);
    Some(Peak { bin: at as f64 + offset, height: (top - 0.25 * (left - right) * offset).exp() })
}
