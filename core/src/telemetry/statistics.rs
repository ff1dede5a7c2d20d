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
    /// Standard deviation with `count - 1`; zero for fewer than two.
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

/// Sums in blocks about the mean so far, so that a small scatter on a large mean survives millions of rows; blocks are joined after T. F. Chan,
/// G. H. Golub and R. J. LeVeque, "Algorithms for computing the sample variance", The American Statistician 37 (1983).
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Running {
    missing: u64,
    /// Values in the blocks that were joined, their mean, and the sum of squares about it.
    count: u64,
    mean: f64,
    squares: f64,
    block: Block,
    least: f64,
    least_at_s: f64,
    greatest: f64,
    greatest_at_s: f64,
}

#[derive(Debug, Clone, Copy, Default)]
struct Block {
    count: u32,
    shift: f64,
    sum: f64,
    squares: f64,
}

/// Values in a block.
const BLOCK: u32 = 1_024;

impl Running {
    #[inline]
    pub(super) fn add(&mut self, value: f64, time_s: f64) {
        if value.is_nan() {
            self.missing += 1;
            return;
        }
        if self.count == 0 && self.block.count == 0 {
            (self.block.shift, self.least, self.greatest) = (value, value, value);
            (self.least_at_s, self.greatest_at_s) = (time_s, time_s);
        }
        let block = &mut self.block;
        block.count += 1;
        let d = value - block.shift;
        block.sum += d;
        block.squares += d * d;
        if value < self.least {
            (self.least, self.least_at_s) = (value, time_s);
        } else if value > self.greatest {
            (self.greatest, self.greatest_at_s) = (value, time_s);
        }
        if self.block.count == BLOCK {
            self.join();
        }
    }

    fn join(&mut self) {
        let block = self.block;
        if block.count == 0 {
            return;
        }
        let (n, joined) = (f64::from(block.count), self.count as f64);
        let mean = block.shift + block.sum / n;
        let squares = (block.squares - block.sum * block.sum / n).max(0.0);
        let step = mean - self.mean;
        let all = n + joined;
        self.squares += squares + step * step * (n * joined / all);
        self.mean += step * (n / all);
        self.count += u64::from(block.count);
        self.block = Block { shift: self.mean, ..Block::default() };
    }

    pub(super) fn statistics(mut self) -> ColumnStatistics {
        self.join();
        let none = self.count == 0;
        let variance = if self.count < 2 { 0.0 } else { self.squares / (self.count - 1) as f64 };
        ColumnStatistics {
            count: self.count,
            missing: self.missing,
            mean: if none { f64::NAN } else { self.mean },
            sd: variance.max(0.0).sqrt(),
            least: if none { f64::NAN } else { self.least },
            least_at_s: self.least_at_s,
            greatest: if none { f64::NAN } else { self.greatest },
            greatest_at_s: self.greatest_at_s,
        }
    }
}
