use serde::{Deserialize, Serialize};

/// A column over the whole file, from every row of it, also where the kept columns are thinned.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct ColumnStatistics {
    /// Rows with a value.
    pub count: u64,
    /// Imported rows without one.
    pub missing: u64,
    /// Mean of the values, each row counting the same.
    pub mean: f64,
    /// Standard deviation with `count - 1`; nought for fewer than two.
    pub sd: f64,
    /// Least value.
    pub least: f64,
    /// When it was first reached, in s since the first row.
    pub least_at_s: f64,
    /// Greatest value.
    pub greatest: f64,
    /// When it was first reached, in s since the first row.
    pub greatest_at_s: f64,
}

/// Sums about the first value, so that a small scatter on a large mean survives.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Running {
    count: u64,
    missing: u64,
    shift: f64,
    sum: f64,
    squares: f64,
    least: f64,
    least_at_s: f64,
    greatest: f64,
    greatest_at_s: f64,
}

impl Running {
    #[inline]
    pub(super) fn add(&mut self, value: f64, time_s: f64) {
        if value.is_nan() {
            self.missing += 1;
            return;
        }
        if self.count == 0 {
            (self.shift, self.least, self.greatest) = (value, value, value);
            (self.least_at_s, self.greatest_at_s) = (time_s, time_s);
        }
        self.count += 1;
        let d = value - self.shift;
        self.sum += d;
        self.squares += d * d;
        if value < self.least {
            (self.least, self.least_at_s) = (value, time_s);
        } else if value > self.greatest {
            (self.greatest, self.greatest_at_s) = (value, time_s);
        }
    }

    pub(super) fn statistics(&self) -> ColumnStatistics {
        let n = self.count as f64;
        let mean = if self.count == 0 { f64::NAN } else { self.shift + self.sum / n };
        let variance = if self.count < 2 { 0.0 } else { (self.squares - self.sum * self.sum / n) / (n - 1.0) };
        ColumnStatistics {
            count: self.count,
            missing: self.missing,
            mean,
            sd: variance.max(0.0).sqrt(),
            least: if self.count == 0 { f64::NAN } else { self.least },
            least_at_s: self.least_at_s,
            greatest: if self.count == 0 { f64::NAN } else { self.greatest },
            greatest_at_s: self.greatest_at_s,
        }
    }
}
