//! A step or a slope in a figure over its life, and whether what was read could show one at all.
//!
//! Readings of one day share its air and its pilot: their mean counts once. What is left over from day to day remembers; to take it for
//! independent gives false alarms (R. A. Johnson and M. Bagshaw, "The effect of serial correlation on the performance of CUSUM tests",
//! Technometrics 16 (1974)). And what has a date may follow the season. So every step between two days, and a slope, is held against a model
//! of `mean + change + season + error`, where the error is an autoregression of one day's memory and the season a wave of a year of unknown
//! size and place. How much of each there is nobody knows: each of a few is weighed by its restricted likelihood (Patterson and Thompson,
//! Biometrika 58 (1971)), and gives the change's Student's t. The probability of so great a change by chance is the mean over them.
//!
//! It is looked for anew with each day. The threshold is one for all of them, found by simulation: over 100 days, in at most 5 of 100 lives of
//! something that does not change an alarm is ever given, be the memory none or 0.6. `core/tests/telemetry_shift.rs` holds it.

use nalgebra::{Matrix3, Vector3, Vector4};
use statrs::distribution::{ContinuousCDF, StudentsT};

use super::drift::{Drift, changed};

/// The fewest days that can show a step: two on each side.
pub const FEWEST: usize = 4;
/// How unlikely a change must be by chance.
const CHANCE: f64 = 2e-4;
/// A change by this part of the mean is what a person wants to be told of: a pack at half its new resistance again is watched (common
/// practice, no source).
const WORTH_TELLING: f64 = 0.5;
/// And no less than so many of the least steps that a reading can show.
const LEAST_STEPS: f64 = 4.0;
/// Memories of the errors from one day to the next.
const MEMORIES: [f64; 5] = [0.0, 0.2, 0.4, 0.6, 0.8];
/// Sizes of the season's wave, over the errors' own.
const SEASONS: [f64; 3] = [0.0, 1.0, 3.0];
/// Days in a year.
const YEAR_D: f64 = 365.25;

/// A reading of a figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Read {
    /// Its value.
    pub value: f64,
    /// The day that it was read on, counted from any; none where that is not known.
    pub day: Option<i64>,
}

/// What the readings say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shift {
    /// The step or the slope, told by the means before and after the place that divides the readings best.
    pub drift: Option<Drift>,
    /// Whether a change worth telling would have shown: if not, that there is none is not known.
    pub can_tell: bool,
    /// Days that it was looked for in.
    pub days: usize,
}

/// Looks for a step or a slope in readings in the order of time. `resolution` is the least step that a reading can show.
///
/// ```
/// use liftgate_core::telemetry::shift::{Read, shift};
/// let read = |values: &[f64]| shift(&values.iter().map(|value| Read { value: *value, day: None }).collect::<Vec<_>>(), 1.0);
/// // The rise of a pack that doubled: three readings after the change are enough.
/// assert_eq!(read(&[11.0, 12.0, 11.0, 12.0, 23.0, 24.0, 23.0]).drift.map(|drift| drift.since), Some(4));
/// // Three that scatter say nothing, and say so.
/// assert!(!read(&[11.0, 17.0, 9.0]).can_tell);
/// ```
pub fn shift(readings: &[Read], resolution: f64) -> Shift {
    let days = day_means(readings);
    let none = Shift { drift: None, can_tell: false, days: days.len() };
    if days.len() < FEWEST || readings.iter().any(|reading| !reading.value.is_finite()) {
        return none;
    }
    let n = days.len();
    let life = Life::of(&days, resolution);
    let mut best = Found { chance: 1.0, since: 2 };
    for since in 2..=n - 2 {
        best = life.better(&|kind: &Kind| kind.step(since), best, since);
    }
    let step_at = best.since;
    best = life.better(&|kind: &Kind| kind.slope(), best, step_at);
    let (found, since) = (best.chance < CHANCE, step_at);
    let mean = days.iter().map(|day| day.value).sum::<f64>() / n as f64;
    let worth = (WORTH_TELLING * mean.abs()).max(LEAST_STEPS * resolution);
    // Told in readings, not in days.
    let first = days[since].first;
    let values: Vec<f64> = readings.iter().map(|reading| reading.value).collect();
    let drift = found.then(|| changed(&values, values.len() - 1, first));
    Shift { drift, can_tell: found || life.seen(n / 2) <= worth, ..none }
}

/// The mean of a day's readings.
struct DayMean {
    value: f64,
    count: f64,
    day: Option<i64>,
    /// The first reading of it.
    first: usize,
}

/// Readings of one day as one; what has no date is a day of its own.
fn day_means(readings: &[Read]) -> Vec<DayMean> {
    let mut days: Vec<DayMean> = Vec::new();
    for (first, Read { value, day }) in readings.iter().copied().enumerate() {
        match days.last_mut().filter(|last| day.is_some() && last.day == day) {
            Some(last) => {
                last.count += 1.0;
                last.value += (value - last.value) / last.count;
            }
            None => days.push(DayMean { value, count: 1.0, day, first }),
        }
    }
    days
}

/// The change that is least likely by chance, and where.
#[derive(Clone, Copy)]
struct Found {
    chance: f64,
    since: usize,
}

/// What is held against every change.
struct Life {
    kinds: Vec<Kind>,
    student: Option<StudentsT>,
}

/// A change under one kind of errors.
struct Weighed {
    log: f64,
    size: f64,
    error: f64,
}

impl Life {
    fn of(days: &[DayMean], resolution: f64) -> Life {
        let angle = |day: &DayMean| day.day.map(|day| std::f64::consts::TAU * day as f64 / YEAR_D);
        let year: Option<Vec<f64>> = days.iter().map(angle).collect();
        let seasons = if year.is_some() { &SEASONS[..] } else { &SEASONS[..1] };
        let year = year.unwrap_or_else(|| vec![0.0; days.len()]);
        let kinds = MEMORIES.iter().flat_map(|memory| seasons.iter().map(|season| (*memory, *season)));
        let floor = resolution * resolution / 12.0;
        let kinds = kinds.filter_map(|(memory, season)| Kind::of(days, &year, memory, season, floor)).collect();
        Life { kinds, student: StudentsT::new(0.0, 1.0, days.len() as f64 - 2.0).ok() }
    }

    /// A change under every kind of errors with its weight, the weightiest first.
    fn weighed(&self, change: &impl Fn(&Kind) -> Whitened) -> Vec<(f64, Weighed)> {
        let mut weighed: Vec<Weighed> = self.kinds.iter().filter_map(|kind| kind.weigh(&change(kind))).collect();
        weighed.sort_by(|a, b| b.log.total_cmp(&a.log));
        let top = weighed.first().map_or(0.0, |of| of.log);
        let total: f64 = weighed.iter().map(|of| (of.log - top).exp()).sum();
        weighed.into_iter().map(|of| ((of.log - top).exp() / total, of)).collect()
    }

    /// The better of a change and the best so far.
    fn better(&self, change: &impl Fn(&Kind) -> Whitened, best: Found, since: usize) -> Found {
        let Some(student) = &self.student else { return best };
        let mut chance = 0.0;
        for (weight, of) in self.weighed(change) {
            chance += weight * 2.0 * student.cdf(-(of.size / of.error).abs());
            if chance >= best.chance {
                return best;
            }
        }
        Found { chance, since }
    }

    /// How great a step at a day would have to be to be seen.
    fn seen(&self, since: usize) -> f64 {
        let weighed = self.weighed(&|kind: &Kind| kind.step(since));
        let error = weighed.iter().map(|(weight, of)| weight * of.error * of.error).sum::<f64>().sqrt();
        self.student.as_ref().map_or(f64::INFINITY, |student| -student.inverse_cdf(CHANCE / 2.0) * error)
    }
}

/// Errors of one memory with a season of one size: the days made independent by it.
struct Kind {
    memory: f64,
    /// Scatter of what is new on a day.
    new: f64,
    /// Each day's mean, sine, cosine and reading, whitened.
    rows: Vec<Vector4<f64>>,
    /// Their sums from each day on.
    from: Vec<Vector4<f64>>,
    /// Inverse of the normal matrix of mean and season, and the logarithm of its determinant with the memory's.
    inverse: Matrix3<f64>,
    log_det: f64,
    /// Their products with the reading, and the reading's with itself.
    right: Vector3<f64>,
    squares: f64,
    floor: f64,
}

/// A change's products with itself, with mean and season, and with the reading.
struct Whitened {
    own: f64,
    with: Vector3<f64>,
    reading: f64,
}

impl Kind {
    /// Generalised least squares; the season is an effect of chance, of a variance that the errors' is the unit of.
    fn of(days: &[DayMean], year: &[f64], memory: f64, season: f64, floor: f64) -> Option<Kind> {
        let new = (1.0 - memory * memory).sqrt();
        let row = |at: usize| Vector4::new(1.0, season * year[at].sin(), season * year[at].cos(), days[at].value);
        let whitened = |at: usize| if at == 0 { row(0) } else { (row(at) - row(at - 1) * memory) / new };
        let rows: Vec<Vector4<f64>> = (0..days.len()).map(whitened).collect();
        let mut from = rows.clone();
        for at in (0..from.len() - 1).rev() {
            from[at] = rows[at] + from[at + 1];
        }
        let sums: nalgebra::Matrix4<f64> = rows.iter().map(|row| row * row.transpose()).sum();
        let normal = sums.fixed_view::<3, 3>(0, 0) + Matrix3::from_diagonal(&Vector3::new(0.0, 1.0, 1.0));
        let log_det = 2.0 * (days.len() as f64 - 1.0) * new.ln() + normal.determinant().ln();
        let right = sums.fixed_view::<3, 1>(0, 3).into_owned();
        let inverse = normal.try_inverse()?;
        Some(Kind { memory, new, rows, from, inverse, log_det, right, squares: sums[(3, 3)], floor })
    }

    /// A step at a day: nothing before it, one on it, and from then on what the day before does not foretell.
    fn step(&self, since: usize) -> Whitened {
        let (at, after) = (1.0 / self.new, (1.0 - self.memory) / self.new);
        let later = (self.rows.len() - since - 1) as f64;
        let with = self.rows[since] * at + self.from[since + 1] * after;
        Whitened { own: at * at + later * after * after, with: with.xyz(), reading: with.w }
    }

    fn slope(&self) -> Whitened {
        let shape = |at: usize| at as f64 / self.rows.len() as f64;
        let mut of = Whitened { own: 0.0, with: Vector3::zeros(), reading: 0.0 };
        for (at, row) in self.rows.iter().enumerate().skip(1) {
            let value = (shape(at) - self.memory * shape(at - 1)) / self.new;
            of.own += value * value;
            of.with += row.xyz() * value;
            of.reading += row.w * value;
        }
        of
    }

    fn weigh(&self, change: &Whitened) -> Option<Weighed> {
        let freedom = self.rows.len() as f64 - 2.0;
        let left = change.own - change.with.dot(&(self.inverse * change.with));
        let size = (change.reading - change.with.dot(&(self.inverse * self.right))) / left;
        let errors = self.squares - self.right.dot(&(self.inverse * self.right)) - size * size * left;
        let variance = errors.max(freedom * self.floor) / freedom;
        let log = -0.5 * (self.log_det + left.ln() + freedom * variance.ln());
        let error = (variance / left).sqrt();
        (log.is_finite() && error > 0.0).then_some(Weighed { log, size, error })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(values: &[f64]) -> Vec<Read> {
        values.iter().map(|value| Read { value: *value, day: None }).collect()
    }

    #[test]
    fn a_step_and_a_slope_are_found_and_one_odd_reading_is_neither() {
        let step = shift(&read(&[20.1, 19.8, 20.3, 20.0, 40.2, 39.8, 40.1]), 0.1).drift;
        assert_eq!(step.map(|drift| drift.since), Some(4));
        assert!(step.is_some_and(|drift| (drift.change - 20.0).abs() < 0.3));
        let slope: Vec<f64> = (0..12).map(|i| 20.0 + f64::from(i) + 0.2 * f64::from(i % 3)).collect();
        assert!(shift(&read(&slope), 0.1).drift.is_some_and(|drift| drift.change > 0.0));
        assert_eq!(shift(&read(&[20.1, 19.8, 20.3, 20.0, 19.9, 40.0]), 0.1).drift, None);
    }

    #[test]
    fn readings_of_one_day_count_once_and_are_told_by_their_own_places() {
        let day = |day: i64, value: f64| [0.0, 0.1, -0.1].map(|more| Read { value: value + more, day: Some(day) });
        let life: Vec<Read> = [20.0, 20.2, 19.9, 20.1, 40.0, 40.1, 39.8, 40.2]
            .into_iter()
            .zip(0..)
            .flat_map(|(v, d)| day(d, v))
            .collect();
        let found = shift(&life, 0.1);
        assert_eq!((found.days, found.drift.map(|drift| drift.since)), (8, Some(12)));
        assert_eq!(shift(&life[..9], 0.1), Shift { drift: None, can_tell: false, days: 3 });
    }

    #[test]
    fn what_scatters_too_much_for_its_number_cannot_tell() {
        let steady: Vec<f64> = (0..10).map(|i| 20.0 + 0.3 * f64::from(i * 7 % 5 - 2)).collect();
        let found = shift(&read(&steady), 0.1);
        assert_eq!((found.drift, found.can_tell), (None, true));
        let loose = shift(&read(&[20.0, 28.0, 14.0, 24.0, 13.0, 22.0]), 0.1);
        assert_eq!((loose.drift, loose.can_tell), (None, false));
    }
}
