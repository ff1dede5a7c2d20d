//! Bayesian linear regression with unknown scatter, that one reading far out does not lead astray.
//!
//! `y = x . d + e`, with a normal prior on every coefficient `d`. The errors are fitted as Student's t with `n` degrees of freedom, after
//! K. L. Lange, R. J. A. Little and J. M. G. Taylor, "Robust statistical modeling using the t distribution", Journal of the American
//! Statistical Association 84 (1989): each reading has the weight `(n + 1) / (n + r^2)` of its distance `r` from the fit, found in a few
//! rounds, and their expected information stands for what the readings say. Scatter, degrees of freedom and the prior's width are themselves unknown:
//! the prediction is the sum of normals over a grid of them, each weighted by how well it explains the readings (Laplace's approximation).
//! With many readings this becomes the usual small-sample interval; with none it is the prior.
//!
//! The t is for readings that went wrong. A new one is predicted as an honest one, that scatters normally: the scale of the t is what it
//! comes to for normal errors.

use nalgebra::{SMatrix, SVector};
use statrs::distribution::{Continuous, ContinuousCDF, Normal};

/// Points of the grid in the scatter.
const GRID: usize = 9;
/// The grid reaches this many standard deviations of the scatter's logarithm.
const REACH: f64 = 3.0;
/// Rounds of weights at most, and the step of a coefficient, in spreads of its prior, that ends them.
const ROUNDS: usize = 25;
const SETTLED: f64 = 1e-3;

/// A t for the errors.
#[derive(Clone, Copy)]
struct Tails {
    /// Degrees of freedom `n`.
    freedom: f64,
    /// Scale that fits normal errors of scatter one best: the mean of `(n + 1) z^2 / (n s^2 + z^2)` is one.
    scale: f64,
    /// Logarithm of the density's factor, `gamma((n + 1) / 2) / (gamma(n / 2) sqrt(n pi))`, and of how likely it is beforehand.
    log: f64,
}

/// Errors that are nearly normal, and errors with a slip among them: as likely beforehand.
const TAILS: [Tails; 2] = [
    Tails { freedom: 8.0, scale: 0.900_892, log: -0.950_109 },
    Tails { freedom: 1.0, scale: 0.612, log: -1.144_730 },
];

/// What is believed before any reading.
pub(super) struct Prior<const N: usize> {
    /// Standard deviation of every coefficient about zero.
    pub spread: [f64; N],
    /// So many times as wide it is with this chance: something outside of what is usual.
    pub wider: (f64, f64),
    /// Median of the scatter of a reading.
    pub scatter: f64,
    /// Standard deviation of the scatter's natural logarithm.
    pub scatter_log_sd: f64,
}

/// One width of the prior, and the logarithm of how likely it is.
#[derive(Clone, Copy)]
struct Width<const N: usize> {
    spread: [f64; N],
    log: f64,
}

impl<const N: usize> Prior<N> {
    fn usual(&self) -> Width<N> {
        Width { spread: self.spread, log: (1.0 - self.wider.1).ln() }
    }

    fn widths(&self) -> impl Iterator<Item = Width<N>> {
        let (times, chance) = self.wider;
        let wide = Width { spread: self.spread.map(|spread| times * spread), log: chance.ln() };
        std::iter::once(self.usual()).chain((chance > 0.0).then_some(wide))
    }
}

/// A reading with its place in the model.
pub(super) struct Reading<const N: usize> {
    pub x: SVector<f64, N>,
    pub y: f64,
    /// Standard deviation of what is not known of this one besides its scatter.
    pub own_sd: f64,
}

/// The posterior for one kind of errors.
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
    pub(super) fn new(prior: &Prior<N>, readings: &[Reading<N>]) -> Option<Self> {
        let (mut components, mut logs) = (Vec::new(), Vec::new());
        let kinds = prior.widths().flat_map(|width| TAILS.map(|tails| (width, tails)));
        for (width, tails) in kinds {
            // From the widest scatter, for which no reading is far out, to the narrowest: each begins where the one before ended.
            let mut mean = SVector::zeros();
            for i in (0..GRID).rev() {
                let deviation = REACH * (2.0 * i as f64 / (GRID - 1) as f64 - 1.0);
                let scatter = prior.scatter * (deviation * prior.scatter_log_sd).exp();
                let (component, log_evidence) = component(&width, readings, (tails, scatter), mean)?;
                mean = component.mean;
                components.push(component);
                logs.push(log_evidence - 0.5 * deviation * deviation);
            }
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
    pub(super) fn quick_mean(prior: &Prior<N>, readings: &[Reading<N>]) -> Option<SVector<f64, N>> {
        component(&prior.usual(), readings, (TAILS[0], prior.scatter), SVector::zeros()).map(|(c, _)| c.mean)
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

/// Posterior for one kind of errors, with the logarithm of how likely the readings are under it (up to a constant).
fn component<const N: usize>(
    prior: &Width<N>,
    readings: &[Reading<N>],
    (tails, scatter): (Tails, f64),
    start: SVector<f64, N>,
) -> Option<(Component<N>, f64)> {
    let freedom = tails.freedom;
    let weighed = Weighed { readings, freedom, scale: tails.scale, scatter };
    let mut mean = start;
    for _ in 0..ROUNDS {
        let (information, pull) = weighed.informed(prior, &mean);
        let next = information.cholesky()?.solve(&pull);
        let step = next - mean;
        let moved = step.iter().zip(&prior.spread).map(|(step, spread)| (step / spread).abs());
        let settled = moved.fold(0.0, f64::max) < SETTLED;
        mean = next;
        if settled {
            break;
        }
    }
    // Expected information of a t: (n + 1) / (n + 3) of what its weights say.
    let share = (freedom + 1.0) / (freedom + 3.0);
    let (mut information, _) = weighed.informed(prior, &mean);
    information *= share;
    for (i, spread) in prior.spread.iter().enumerate() {
        information[(i, i)] += (1.0 - share) / (spread * spread);
    }
    let factor = information.cholesky()?;
    let log_det: f64 = 2.0 * factor.l_dirty().diagonal().iter().map(|d| d.ln()).sum::<f64>();
    let misfit = |reading: &Reading<N>| {
        0.5 * (freedom + 1.0) * (weighed.squared(reading, &mean) / freedom).ln_1p()
            - 0.5 * weighed.precision(reading).ln()
            - tails.log
    };
    let apart: f64 = mean.iter().zip(&prior.spread).map(|(d, spread)| (d / spread).powi(2)).sum();
    let log_wide: f64 = prior.spread.iter().map(|spread| spread.ln()).sum();
    let log_evidence = prior.log - log_wide - readings.iter().map(misfit).sum::<f64>() - 0.5 * (apart + log_det);
    Some((Component { weight: 0.0, scatter, mean, covariance: factor.inverse() }, log_evidence))
}

/// Readings with one kind of errors.
struct Weighed<'a, const N: usize> {
    readings: &'a [Reading<N>],
    freedom: f64,
    scale: f64,
    scatter: f64,
}

impl<const N: usize> Weighed<'_, N> {
    /// One over the square of the t's scale for a reading.
    fn precision(&self, reading: &Reading<N>) -> f64 {
        (self.scale * self.scatter.hypot(reading.own_sd)).powi(-2)
    }

    /// Distance of a reading from the fit, squared, in scales of the t.
    fn squared(&self, reading: &Reading<N>, mean: &SVector<f64, N>) -> f64 {
        (reading.y - reading.x.dot(mean)).powi(2) * self.precision(reading)
    }

    /// Normal matrix and right side of prior and readings, each by its weight at this fit. The weights' own scale is the precision's.
    fn informed(&self, prior: &Width<N>, mean: &SVector<f64, N>) -> (SMatrix<f64, N, N>, SVector<f64, N>) {
        let (mut information, mut pull) = (SMatrix::zeros(), SVector::zeros());
        for (i, spread) in prior.spread.iter().enumerate() {
            information[(i, i)] = 1.0 / (spread * spread);
        }
        for reading in self.readings {
            let squared = self.squared(reading, mean);
            let weight = self.precision(reading) * (self.freedom + 1.0) / (self.freedom + squared);
            information += reading.x * reading.x.transpose() * weight;
            pull += reading.x * (reading.y * weight);
        }
        (information, pull)
    }
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
