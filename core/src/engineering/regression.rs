//! Bayesian linear regression with unknown scatter, in exact form but for one small sum.
//!
//! `y = x . d + e`, with a normal prior on every coefficient `d` and normal errors whose scatter `s` is itself unknown. For one `s` the
//! posterior is normal in closed form; the prediction is the sum of those normals over a grid of `s`, each weighted by how well it
//! explains the readings. With many readings this becomes the usual small-sample interval; with none it is the prior.

use nalgebra::{SMatrix, SVector};
use statrs::distribution::{Continuous, ContinuousCDF, Normal};

/// Points of the grid in the scatter.
const GRID: usize = 15;
/// The grid reaches this many standard deviations of the scatter's logarithm.
const REACH: f64 = 3.0;

/// What is believed before any reading.
pub(super) struct Prior<const N: usize> {
    /// Standard deviation of every coefficient about zero.
    pub spread: [f64; N],
    /// Median of the scatter of a reading.
    pub scatter: f64,
    /// Standard deviation of the scatter's natural logarithm.
    pub scatter_log_sd: f64,
}

/// Sums over the readings; more can be added at any time.
pub(super) struct Sums<const N: usize> {
    xx: SMatrix<f64, N, N>,
    xy: SVector<f64, N>,
    yy: f64,
    count: f64,
}

impl<const N: usize> Sums<N> {
    pub(super) fn new() -> Self {
        Self { xx: SMatrix::zeros(), xy: SVector::zeros(), yy: 0.0, count: 0.0 }
    }

    pub(super) fn add(&mut self, x: &SVector<f64, N>, y: f64) {
        self.xx += x * x.transpose();
        self.xy += x * y;
        self.yy += y * y;
        self.count += 1.0;
    }
}

/// The posterior for one scatter.
struct Component<const N: usize> {
    weight: f64,
    scatter: f64,
    mean: SVector<f64, N>,
    covariance: SMatrix<f64, N, N>,
}

/// The posterior: a few normals with weights that sum to one.
pub(super) struct Posterior<const N: usize> {
    components: Vec<Component<N>>,
}

impl<const N: usize> Posterior<N> {
    /// The posterior of prior and readings; none if rounding defeats it.
    pub(super) fn new(prior: &Prior<N>, sums: &Sums<N>) -> Option<Self> {
        let mut components = Vec::with_capacity(GRID);
        let mut logs = Vec::with_capacity(GRID);
        for i in 0..GRID {
            let deviation = REACH * (2.0 * i as f64 / (GRID - 1) as f64 - 1.0);
            let scatter = prior.scatter * (deviation * prior.scatter_log_sd).exp();
            let (component, log_evidence) = component(prior, sums, scatter)?;
            components.push(component);
            logs.push(log_evidence - 0.5 * deviation * deviation);
        }
        let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let total: f64 = logs.iter().map(|l| (l - top).exp()).sum();
        if !total.is_finite() {
            return None;
        }
        for (component, log) in components.iter_mut().zip(&logs) {
            component.weight = (log - top).exp() / total;
        }
        Some(Self { components })
    }

    /// Mean of the coefficients for the prior's middle scatter alone: a quick first look.
    pub(super) fn quick_mean(prior: &Prior<N>, sums: &Sums<N>) -> Option<SVector<f64, N>> {
        component(prior, sums, prior.scatter).map(|(c, _)| c.mean)
    }

    /// Mean of the coefficients.
    pub(super) fn mean(&self) -> SVector<f64, N> {
        self.components.iter().map(|c| c.mean * c.weight).sum()
    }

    /// Mean of the scatter.
    pub(super) fn scatter(&self) -> f64 {
        self.components.iter().map(|c| c.scatter * c.weight).sum()
    }

    /// Distribution of `x . d`, with the scatter of one reading times `reading_weight` and a further standard deviation in squares.
    pub(super) fn along(&self, x: &SVector<f64, N>, reading_weight: f64, further_sd: f64) -> Mixture {
        let parts = self
            .components
            .iter()
            .map(|c| {
                let variance = (x.transpose() * c.covariance * x)[(0, 0)].max(0.0)
                    + (reading_weight * c.scatter).powi(2)
                    + further_sd * further_sd;
                (c.weight, (x.transpose() * c.mean)[(0, 0)], variance.sqrt())
            })
            .collect();
        Mixture { parts }
    }
}

/// Posterior for one scatter, with the logarithm of how likely the readings are under it (up to a constant).
fn component<const N: usize>(prior: &Prior<N>, sums: &Sums<N>, scatter: f64) -> Option<(Component<N>, f64)> {
    let precision = 1.0 / (scatter * scatter);
    let mut information = sums.xx * precision;
    for (i, spread) in prior.spread.iter().enumerate() {
        information[(i, i)] += 1.0 / (spread * spread);
    }
    let factor = information.cholesky()?;
    let pull = sums.xy * precision;
    let mean = factor.solve(&pull);
    let log_det: f64 = 2.0 * factor.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>();
    let misfit = sums.yy * precision - pull.dot(&mean);
    let log_evidence = -sums.count * scatter.ln() - 0.5 * (misfit + log_det);
    let component = Component { weight: 0.0, scatter, mean, covariance: factor.inverse() };
    Some((component, log_evidence))
}

/// A weighted sum of normal distributions: weight, mean, standard deviation.
pub(super) struct Mixture {
    parts: Vec<(f64, f64, f64)>,
}

impl Mixture {
    pub(super) fn mean(&self) -> f64 {
        self.parts.iter().map(|(w, m, _)| w * m).sum()
    }

    pub(super) fn sd(&self) -> f64 {
        let mean = self.mean();
        self.parts.iter().map(|(w, m, sd)| w * (sd * sd + (m - mean).powi(2))).sum::<f64>().sqrt()
    }

    /// Share below `value`, and the density there.
    fn below(&self, value: f64) -> (f64, f64) {
        let normal = Normal::standard();
        let (mut share, mut density) = (0.0, 0.0);
        for (weight, mean, sd) in self.parts.iter().filter(|(w, _, _)| *w > 1e-10) {
            let z = (value - mean) / sd.max(1e-300);
            share += weight * normal.cdf(z);
            density += weight * normal.pdf(z) / sd.max(1e-300);
        }
        (share, density)
    }

    /// The value below which the share `p` (0 to 1, ends excluded) lies: Newton's steps, halved where they leave the bracket.
    pub(super) fn quantile(&self, p: f64) -> f64 {
        let (mean, sd) = (self.mean(), self.sd());
        let (mut low, mut high) = (mean - 12.0 * sd, mean + 12.0 * sd);
        let mut value = mean;
        for _ in 0..60 {
            let (share, density) = self.below(value);
            if share < p {
                low = value;
            } else {
                high = value;
            }
            let newton = value - (share - p) / density;
            let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
            if (next - value).abs() <= 1e-9 * sd {
                return next;
            }
            value = next;
        }
        value
    }
}
