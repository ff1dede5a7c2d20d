//! How well a rise is known from readings whose errors may have a memory.
//!
//! What a fit leaves over is taken as a sum of two parts: one that is new with each reading, and one that forgets with a time constant of its
//! own (an Ornstein-Uhlenbeck process: gusts, a changing load, a sensor's own mass). How much memory there is nobody knows: each of a few
//! memories is weighed by its restricted likelihood (H. D. Patterson and R. Thompson, "Recovery of inter-block information when block sizes
//! are unequal", Biometrika 58 (1971)), no memory at all beforehand as likely as all others together. For each, the least-squares estimate has
//! the variance that its readings then have, and Student's t with the readings less three; the interval holds 95 % of their mixture.
//!
//! Without a memory that is the usual interval of least squares. Readings of ten or fewer are few and taken by hand, one by one: they have none.

use nalgebra::{Matrix3, Vector3};
use statrs::distribution::{ContinuousCDF, StudentsT};

/// So few readings are taken as independent.
const FEW: usize = 10;
/// Memories that are weighed, from the spacing of the readings to a quarter of their span.
const MEMORIES: usize = 9;
/// Shares of the error that are new with each reading.
const NEW: [f64; 3] = [0.0, 0.15, 0.4];

/// Half widths of 95 % intervals.
pub(super) struct RiseInterval {
    pub(super) tau_s: f64,
    pub(super) steady_k: f64,
    /// Mean memory of what is left over, by its weight, in s.
    pub(super) memory_s: f64,
}

/// A reading with its place in the linearised model.
struct Row {
    time_s: f64,
    /// Derivatives by start, rise and time constant.
    by: Vector3<f64>,
    left_k: f64,
}

/// A fitted rise.
#[derive(Clone, Copy)]
pub(super) struct Rise {
    pub(super) start_c: f64,
    pub(super) rise_k: f64,
    pub(super) tau_s: f64,
}

/// The interval of a fit to readings, each its time in s and its temperature in deg C; none where they do not determine it.
pub(super) fn rise_interval(readings: impl Iterator<Item = (f64, f64)>, fit: Rise) -> Option<RiseInterval> {
    let Rise { start_c, rise_k, tau_s } = fit;
    let mut rows: Vec<Row> = readings
        .map(|(time_s, temperature_c)| {
            let decay = (-time_s / tau_s).exp();
            let by = Vector3::new(1.0, 1.0 - decay, -rise_k * decay * time_s / (tau_s * tau_s));
            Row { time_s, by, left_k: temperature_c - start_c - rise_k * (1.0 - decay) }
        })
        .collect();
    rows.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    let normal: Matrix3<f64> = rows.iter().map(|row| row.by * row.by.transpose()).sum();
    let inverse = normal.try_inverse()?;
    let freedom = (rows.len() as f64 - 3.0).max(1.0);
    let weighed: Vec<Weighed> =
        memories(&rows).into_iter().filter_map(|memory| weigh(&rows, memory, &inverse, freedom)).collect();
    let best = weighed.iter().map(|w| w.log).fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = weighed.iter().map(|w| (w.log - best).exp()).collect();
    let total: f64 = weights.iter().sum();
    let student = StudentsT::new(0.0, 1.0, freedom).ok()?;
    let half = |of: fn(&Weighed) -> f64| {
        let sds: Vec<f64> = weighed.iter().map(|w| of(w).max(0.0).sqrt()).collect();
        mixture_half(&student, &weights, &sds)
    };
    let memory_s = weighed.iter().zip(&weights).map(|(w, weight)| w.memory_s * weight).sum::<f64>() / total;
    let (tau_s, steady_k) = (half(|w| w.tau_s2), half(|w| w.steady_k2));
    (total > 0.0 && tau_s.is_finite() && steady_k.is_finite()).then_some(RiseInterval { tau_s, steady_k, memory_s })
}

/// A memory and how the errors are shared out.
#[derive(Clone, Copy)]
struct Memory {
    memory_s: f64,
    new: f64,
    /// What is believed of it beforehand.
    log_prior: f64,
}

fn memories(rows: &[Row]) -> Vec<Memory> {
    let none = Memory { memory_s: 0.0, new: 1.0, log_prior: 0.0 };
    let (Some(first), Some(last)) = (rows.first(), rows.last()) else { return vec![none] };
    let span_s = last.time_s - first.time_s;
    let spacing_s = span_s / (rows.len() as f64 - 1.0);
    if rows.len() <= FEW || spacing_s <= 0.0 {
        return vec![none];
    }
    let each = span_s / 4.0 / spacing_s;
    let log_prior = -((MEMORIES * NEW.len()) as f64).ln();
    let of = |index: usize| spacing_s * each.powf(index as f64 / (MEMORIES - 1) as f64);
    let with = (0..MEMORIES).flat_map(|index| NEW.map(|new| Memory { memory_s: of(index), new, log_prior }));
    std::iter::once(none).chain(with).collect()
}

/// A memory with its weight and what it makes of the estimates.
struct Weighed {
    memory_s: f64,
    log: f64,
    tau_s2: f64,
    steady_k2: f64,
}

fn weigh(rows: &[Row], memory: Memory, inverse: &Matrix3<f64>, freedom: f64) -> Option<Weighed> {
    let (normal, pull, squares, log_det) = whitened(rows, memory);
    let step = normal.try_inverse()? * pull;
    let variance = (squares - pull.dot(&step)).max(f64::MIN_POSITIVE) / freedom;
    let log = memory.log_prior - 0.5 * (log_det + normal.determinant().ln() + freedom * variance.ln());
    let covariance = inverse * spread(rows, memory) * inverse * variance;
    let steady_k2 = covariance[(0, 0)] + covariance[(1, 1)] + 2.0 * covariance[(0, 1)];
    log.is_finite().then_some(Weighed { memory_s: memory.memory_s, log, tau_s2: covariance[(2, 2)], steady_k2 })
}

/// Sums over the readings made independent, one after the other, by what the ones before say of each (R. E. Kalman's filter of a process
/// with one memory, seen with an error of its own): normal matrix, its right side, sum of squares, logarithm of the determinant.
fn whitened(rows: &[Row], memory: Memory) -> (Matrix3<f64>, Vector3<f64>, f64, f64) {
    let kept = 1.0 - memory.new;
    let (mut normal, mut pull, mut squares, mut log_det) = (Matrix3::zeros(), Vector3::zeros(), 0.0, 0.0);
    let (mut by, mut left_k, mut open) = (Vector3::zeros(), 0.0, kept);
    let mut last_s = None;
    for row in rows {
        if let Some(last_s) = last_s.replace(row.time_s) {
            let stays = stays(memory, row.time_s - last_s);
            (by, left_k) = (by * stays, left_k * stays);
            open = stays * stays * open + kept * (1.0 - stays * stays);
        }
        // Two readings at one moment that share all of their error have none left between them.
        let variance = (open + memory.new).max(1e-9);
        let (news, news_k) = (row.by - by, row.left_k - left_k);
        normal += news * news.transpose() / variance;
        pull += news * (news_k / variance);
        squares += news_k * news_k / variance;
        log_det += variance.ln();
        let gain = open / variance;
        by += news * gain;
        left_k += news_k * gain;
        open *= 1.0 - gain;
    }
    (normal, pull, squares, log_det)
}

fn stays(memory: Memory, apart_s: f64) -> f64 {
    if memory.memory_s > 0.0 { (-apart_s / memory.memory_s).exp() } else { 0.0 }
}

/// Sum over all pairs of readings of their places times the correlation of their errors.
fn spread(rows: &[Row], memory: Memory) -> Matrix3<f64> {
    let mut sum = Matrix3::zeros();
    let mut before = Vector3::zeros();
    let mut last_s = None;
    for row in rows {
        if let Some(last_s) = last_s.replace(row.time_s) {
            before *= stays(memory, row.time_s - last_s);
        }
        let cross: Matrix3<f64> = row.by * before.transpose() * (1.0 - memory.new);
        sum += row.by * row.by.transpose() + cross + cross.transpose();
        before += row.by;
    }
    sum
}

/// Where 95 % of a mixture of Student's t about zero lie within, by halving.
fn mixture_half(student: &StudentsT, weights: &[f64], sds: &[f64]) -> f64 {
    let total: f64 = weights.iter().sum();
    let inside = |half: f64| {
        let each = weights.iter().zip(sds);
        let share =
            |(weight, sd): (&f64, &f64)| weight * if *sd > 0.0 { 2.0 * student.cdf(half / sd) - 1.0 } else { 1.0 };
        each.map(share).sum::<f64>() / total
    };
    let (mut low, mut high) = (0.0, 64.0 * sds.iter().copied().fold(0.0, f64::max));
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if inside(middle) < 0.95 {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}
