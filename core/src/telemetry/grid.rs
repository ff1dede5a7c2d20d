//! A log at even steps: what segments and fits are found on, so that they cost the same for any recorder.

use super::recording::{Channel, Recording, Span};

/// The finest step: long against a supply's ripple, short against a manoeuvre.
pub(super) const FINEST_S: f64 = 0.25;
/// The most steps; a log of over half a day has longer ones.
const MOST_STEPS: f64 = 200_000.0;

/// Even steps over a recording.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Grid {
    pub(super) start_s: f64,
    pub(super) step_s: f64,
    pub(super) steps: usize,
}

impl Grid {
    pub(super) fn over(recording: &Recording) -> Grid {
        let span = recording.span();
        let cell_s = recording.step_s * f64::from(recording.rows_per_cell);
        let step_s = FINEST_S.max(span.length_s() / MOST_STEPS).max(cell_s);
        Grid { start_s: span.start_s, step_s, steps: (span.length_s() / step_s) as usize + 1 }
    }

    pub(super) fn index(&self, time_s: f64) -> usize {
        (((time_s - self.start_s) / self.step_s).max(0.0) as usize).min(self.steps - 1)
    }

    pub(super) fn time_s(&self, index: usize) -> f64 {
        self.start_s + index as f64 * self.step_s
    }

    pub(super) fn span(&self, steps: std::ops::Range<usize>) -> Span {
        Span { start_s: self.time_s(steps.start), end_s: self.time_s(steps.end) }
    }

    /// The same with steps that have none filled by straight lines, for as long as the column's own gap and not over a break.
    pub(super) fn bridged(&self, recording: &Recording, channel: &Channel) -> Vec<f64> {
        let mut means = self.means(recording, channel);
        let longest = (recording.longest_hold_s(channel) / self.step_s).ceil() as usize;
        let mut before: Option<usize> = None;
        for step in 0..means.len() {
            if means[step].is_nan() {
                continue;
            }
            if let Some(before) = before.replace(step).filter(|before| (2..=longest).contains(&(step - before)))
                && !recording.breaks_between(self.time_s(before), self.time_s(step + 1))
            {
                let (from, to) = (means[before], means[step]);
                let each = (to - from) / (step - before) as f64;
                for (index, mean) in means[before..step].iter_mut().enumerate() {
                    *mean = from + each * index as f64;
                }
            }
        }
        means
    }

    /// Mean of a channel's values in each step; NaN where it has none.
    pub(super) fn means(&self, recording: &Recording, channel: &Channel) -> Vec<f64> {
        let mut sums = vec![(0.0_f64, 0_u32); self.steps];
        for (time_s, value) in recording.time_s.iter().zip(&channel.value) {
            if !value.is_nan() {
                let (sum, count) = &mut sums[self.index(*time_s)];
                *sum += f64::from(*value);
                *count += 1;
            }
        }
        sums.into_iter().map(|(sum, count)| if count == 0 { f64::NAN } else { sum / f64::from(count) }).collect()
    }
}

/// The share `p` (0 to 1) of the values lies below this; by linear interpolation between order statistics. NaN for none.
pub(super) fn quantile(values: impl Iterator<Item = f64>, p: f64) -> f64 {
    let mut values: Vec<f64> = values.filter(|value| !value.is_nan()).collect();
    if values.is_empty() {
        return f64::NAN;
    }
    let place = p * (values.len() - 1) as f64;
    let below = place as usize;
    let (_, low, above) = values.select_nth_unstable_by(below, f64::total_cmp);
    let low = *low;
    let high = above.iter().copied().fold(f64::INFINITY, f64::min);
    if high.is_finite() { low + (place - below as f64) * (high - low) } else { low }
}

/// Mean of the values up to `reach` steps to either side, of those there are; NaN where there are none.
pub(super) fn smooth(values: &[f64], reach: usize) -> Vec<f64> {
    let sums = WindowSums::of(values);
    (0..values.len()).map(|index| sums.shift + sums.about(index, reach, |sum, _, count| sum / count)).collect()
}

/// Standard deviation (with `n - 1`) up to `reach` steps to either side; NaN for fewer than two values.
pub(super) fn scatter(values: &[f64], reach: usize) -> Vec<f64> {
    let sums = WindowSums::of(values);
    let sd = |sum: f64, squares: f64, count: f64| {
        if count < 2.0 { f64::NAN } else { ((squares - sum * sum / count) / (count - 1.0)).max(0.0).sqrt() }
    };
    (0..values.len()).map(|index| sums.about(index, reach, sd)).collect()
}

/// Running sums, squares and counts about the median, which keeps the squares small against each other.
struct WindowSums {
    shift: f64,
    sums: Vec<(f64, f64, f64)>,
}

impl WindowSums {
    fn of(values: &[f64]) -> Self {
        let shift = Some(quantile(values.iter().copied(), 0.5)).filter(|m| m.is_finite()).unwrap_or(0.0);
        let mut total = (0.0, 0.0, 0.0);
        let mut sums = vec![total];
        for value in values {
            if !value.is_nan() {
                let d = value - shift;
                total = (total.0 + d, total.1 + d * d, total.2 + 1.0);
            }
            sums.push(total);
        }
        Self { shift, sums }
    }

    fn about(&self, index: usize, reach: usize, of: impl Fn(f64, f64, f64) -> f64) -> f64 {
        let from = self.sums[index.saturating_sub(reach)];
        let to = self.sums[(index + reach + 1).min(self.sums.len() - 1)];
        let count = to.2 - from.2;
        if count == 0.0 { f64::NAN } else { of(to.0 - from.0, to.1 - from.1, count) }
    }
}
