use serde::{Deserialize, Serialize};

use super::columns::{ColumnMap, MappedColumn};
use super::faults::Faults;
use super::pyramid::Pyramid;
use super::quantity::Quantity;
use super::row_counts::RowCounts;
use super::statistics::{ColumnStatistics, Running};

/// A stretch of a log, in s since its first row.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Span {
    /// Its start.
    pub start_s: f64,
    /// Its end.
    pub end_s: f64,
}

impl Span {
    /// Its length, in s.
    pub fn length_s(&self) -> f64 {
        self.end_s - self.start_s
    }
}

/// One kept column.
#[derive(Debug, Clone, PartialEq)]
pub struct Channel {
    /// What the person said it is.
    pub mapped: MappedColumn,
    /// Statistics over every row of the file.
    pub whole: ColumnStatistics,
    /// A value for each cell, in the unit of the quantity; NaN where there is none. The mean of the cell's rows where cells hold several.
    pub value: Vec<f32>,
    /// The usual time from one of its values to the next, in s: longer than the rows' where it comes on some of them only.
    pub step_s: f64,
    /// Least and greatest of each cell's rows; none while a cell is a row.
    pub(super) extremes: Option<(Vec<f32>, Vec<f32>)>,
    /// Their extremes in blocks, for drawing.
    pub(super) pyramid: Pyramid,
}

impl Channel {
    /// Least of each cell's rows.
    pub fn least(&self) -> &[f32] {
        self.extremes.as_ref().map_or(&self.value, |(least, _)| least)
    }

    /// Greatest of each cell's rows.
    pub fn greatest(&self) -> &[f32] {
        self.extremes.as_ref().map_or(&self.value, |(_, greatest)| greatest)
    }
}

/// A log that was read: its kept columns, in cells of one row each or, for a file too large to keep, of several.
#[derive(Debug, Clone, PartialEq)]
pub struct Recording {
    /// The columns as they were mapped.
    pub map: ColumnMap,
    /// Bytes of the file.
    pub bytes: u64,
    /// What became of its rows.
    pub rows: RowCounts,
    /// What was wrong, with places.
    pub faults: Faults,
    /// Rows in one cell.
    pub rows_per_cell: u32,
    /// Time of each cell's first row, in s since the first row of the file; never falls.
    pub time_s: Vec<f64>,
    /// The kept columns, in the map's order.
    pub channels: Vec<Channel>,
    /// Cells before which the recording is not continuous: after a gap or a restart of the recorder. In order.
    pub breaks: Vec<usize>,
    /// The usual time from row to row, in s.
    pub step_s: f64,
    /// When the first row was written: s since 1970-01-01 as the recorder's clock showed it, or since midnight for a bare clock.
    pub first_moment_s: Option<f64>,
}

impl Recording {
    /// The channel of a quantity; the first where there are several.
    pub fn channel(&self, quantity: Quantity) -> Option<&Channel> {
        self.channels.iter().find(|channel| channel.mapped.quantity == quantity)
    }

    /// The whole of it.
    pub fn span(&self) -> Span {
        Span {
            start_s: self.time_s.first().copied().unwrap_or(0.0),
            end_s: self.time_s.last().copied().unwrap_or(0.0),
        }
    }

    /// The cells whose time lies in a span, ends included.
    pub fn cells(&self, span: Span) -> std::ops::Range<usize> {
        let from = self.time_s.partition_point(|time| *time < span.start_s);
        let to = self.time_s.partition_point(|time| *time <= span.end_s);
        from..to.max(from)
    }

    /// Whether the recording goes on from the cell before `cell` to it.
    pub(super) fn joined(&self, cell: usize) -> bool {
        self.breaks.binary_search(&cell).is_err()
    }

    /// Whether the recording breaks off between two moments.
    pub(super) fn breaks_between(&self, from_s: f64, to_s: f64) -> bool {
        let first = self.breaks.partition_point(|cell| self.time_s.get(*cell).is_some_and(|time| *time <= from_s));
        self.breaks.get(first).and_then(|cell| self.time_s.get(*cell)).is_some_and(|time| *time < to_s)
    }

    /// The gaps: from the last row before to the first after each.
    pub fn gaps(&self) -> impl Iterator<Item = Span> + '_ {
        self.breaks
            .iter()
            .filter(|cell| **cell > 0 && **cell < self.time_s.len())
            .map(|cell| Span { start_s: self.time_s[cell - 1], end_s: self.time_s[*cell] })
    }

    /// Bytes that the kept columns take.
    pub fn kept_bytes(&self) -> usize {
        let of_channel =
            |c: &Channel| 4 * (c.value.len() + c.extremes.as_ref().map_or(0, |(l, g)| l.len() + g.len()));
        8 * self.time_s.len() + self.channels.iter().map(of_channel).sum::<usize>()
    }
}

/// The columns while they grow.
pub(super) struct Keep {
    time_s: Vec<f64>,
    value: Vec<Vec<f32>>,
    extremes: Vec<(Vec<f32>, Vec<f32>)>,
    running: Vec<Running>,
    breaks: Vec<usize>,
    rows_per_cell: u32,
    most_cells: usize,
    kept_bytes: usize,
    partial: Partial,
    /// Whether some rows share a time, so that they are to be spread.
    same_time: bool,
}

/// The cell that is being filled.
#[derive(Default)]
struct Partial {
    rows: u32,
    time_s: f64,
    sum: Vec<f64>,
    count: Vec<u32>,
    least: Vec<f32>,
    greatest: Vec<f32>,
}

/// The first time that a file turns out too large, so many rows become a cell; after that cells are joined by twos.
const FIRST_JOIN: usize = 4;
/// More breaks than this are a recorder that is not worth following; further ones are only counted.
const MOST_BREAKS: usize = 20_000;

impl Keep {
    pub(super) fn new(channels: usize, kept_bytes: usize) -> Self {
        let most_cells = (kept_bytes / (8 + 4 * channels)).max(64);
        Self {
            time_s: Vec::new(),
            value: vec![Vec::new(); channels],
            extremes: Vec::new(),
            running: vec![Running::default(); channels],
            breaks: Vec::new(),
            rows_per_cell: 1,
            most_cells,
            kept_bytes,
            partial: Partial::default(),
            same_time: false,
        }
    }

    /// Makes room at once, so that growing columns are not copied about.
    pub(super) fn expect(&mut self, rows: usize) {
        let rows = rows.min(self.most_cells);
        self.time_s.reserve_exact(rows);
        for column in &mut self.value {
            column.reserve_exact(rows);
        }
    }

    /// The next row is not continuous with the last.
    pub(super) fn break_here(&mut self) {
        self.close_cell();
        let cell = self.time_s.len();
        if self.breaks.len() < MOST_BREAKS && self.breaks.last() != Some(&cell) {
            self.breaks.push(cell);
        }
    }

    #[inline]
    pub(super) fn add(&mut self, time_s: f64, row: &[f64]) {
        for (running, value) in self.running.iter_mut().zip(row) {
            running.add(*value, time_s);
        }
        if self.rows_per_cell > 1 {
            self.add_to_cell(time_s, row);
            return;
        }
        self.same_time |= self.time_s.last() == Some(&time_s);
        self.time_s.push(time_s);
        for (column, value) in self.value.iter_mut().zip(row) {
            column.push(*value as f32);
        }
        if self.time_s.len() >= self.most_cells {
            self.thin();
        }
    }

    fn add_to_cell(&mut self, time_s: f64, row: &[f64]) {
        let cell = &mut self.partial;
        if cell.rows == 0 {
            cell.time_s = time_s;
            cell.sum = vec![0.0; row.len()];
            cell.count = vec![0; row.len()];
            cell.least = vec![f32::NAN; row.len()];
            cell.greatest = vec![f32::NAN; row.len()];
        }
        cell.rows += 1;
        for (index, value) in row.iter().enumerate().filter(|(_, value)| !value.is_nan()) {
            cell.sum[index] += value;
            cell.count[index] += 1;
            cell.least[index] = cell.least[index].min(*value as f32);
            cell.greatest[index] = cell.greatest[index].max(*value as f32);
        }
        if cell.rows >= self.rows_per_cell {
            self.close_cell();
        }
    }

    fn close_cell(&mut self) {
        if self.partial.rows == 0 {
            return;
        }
        self.partial.rows = 0;
        self.time_s.push(self.partial.time_s);
        for (index, column) in self.value.iter_mut().enumerate() {
            let count = self.partial.count[index];
            column.push(if count == 0 { f32::NAN } else { (self.partial.sum[index] / f64::from(count)) as f32 });
            self.extremes[index].0.push(self.partial.least[index]);
            self.extremes[index].1.push(self.partial.greatest[index]);
        }
        if self.time_s.len() >= self.most_cells {
            self.thin();
        }
    }

    /// Joins cells, so that there is room again. Least and greatest live on; the mean weighs cells alike.
    fn thin(&mut self) {
        let join = if self.rows_per_cell == 1 { FIRST_JOIN } else { 2 };
        if self.rows_per_cell == 1 {
            self.extremes = vec![(Vec::new(), Vec::new()); self.value.len()];
            for (values, (least, greatest)) in self.value.iter().zip(&mut self.extremes) {
                least.extend(values.chunks(join).map(|chunk| chunk.iter().copied().fold(f32::NAN, f32::min)));
                greatest.extend(values.chunks(join).map(|chunk| chunk.iter().copied().fold(f32::NAN, f32::max)));
            }
            self.most_cells = (self.kept_bytes / (8 + 12 * self.value.len())).max(64);
        } else {
            for (least, greatest) in &mut self.extremes {
                join_in_place(least, join, |chunk| chunk.iter().copied().fold(f32::NAN, f32::min));
                join_in_place(greatest, join, |chunk| chunk.iter().copied().fold(f32::NAN, f32::max));
            }
        }
        for values in &mut self.value {
            join_in_place(values, join, mean);
        }
        join_in_place(&mut self.time_s, join, |chunk| chunk[0]);
        // What single rows took beyond the cells' share is given back.
        self.time_s.shrink_to(self.most_cells);
        self.value.iter_mut().for_each(|values| values.shrink_to(self.most_cells));
        self.rows_per_cell = self.rows_per_cell.saturating_mul(join as u32);
        // A break inside a joined cell moves to that cell's end.
        self.breaks.iter_mut().for_each(|cell| *cell = cell.div_ceil(join));
        self.breaks.dedup();
    }

    pub(super) fn is_empty(&self) -> bool {
        self.time_s.is_empty() && self.partial.rows == 0
    }

    pub(super) fn finish(mut self, map: ColumnMap) -> Recording {
        self.close_cell();
        let step_s = usual_step(&self.time_s) / f64::from(self.rows_per_cell);
        if self.same_time {
            spread_same_times(&mut self.time_s, &self.breaks);
        }
        let cell_s = if self.same_time { usual_step(&self.time_s) } else { step_s * f64::from(self.rows_per_cell) };
        self.find_gaps(cell_s);
        let extremes = self.extremes.into_iter().map(Some).chain(std::iter::repeat(None));
        let channels = map
            .columns
            .iter()
            .zip(self.value)
            .zip(&self.running)
            .zip(extremes)
            .map(|(((mapped, value), running), extremes)| Channel {
                mapped: mapped.clone(),
                whole: running.statistics(),
                step_s: step_between_values(&self.time_s, &value),
                pyramid: match &extremes {
                    Some((least, greatest)) => Pyramid::of(least, greatest),
                    None => Pyramid::of(&value, &value),
                },
                value,
                extremes,
            })
            .collect();
        Recording {
            map,
            bytes: 0,
            rows: RowCounts::default(),
            faults: Faults::default(),
            rows_per_cell: self.rows_per_cell,
            time_s: self.time_s,
            channels,
            breaks: self.breaks,
            step_s: if self.same_time { cell_s / f64::from(self.rows_per_cell) } else { step_s },
            first_moment_s: None,
        }
    }

    fn find_gaps(&mut self, cell_s: f64) {
        let longest_s = gap_after_s(cell_s);
        let mut breaks = Vec::new();
        let mut known = self.breaks.iter().copied().peekable();
        for (cell, pair) in self.time_s.windows(2).enumerate() {
            let here = cell + 1;
            while known.next_if(|known| *known < here).is_some() {}
            let restarted = known.next_if(|known| *known == here).is_some();
            if (restarted || pair[1] - pair[0] > longest_s) && breaks.len() < MOST_BREAKS {
                breaks.push(here);
            }
        }
        self.breaks = breaks;
    }
}

/// A step longer than this is a gap: five usual steps, half a second at the least (common practice, no source).
pub(super) fn gap_after_s(usual_step_s: f64) -> f64 {
    (5.0 * usual_step_s).max(0.5)
}

fn mean(chunk: &[f32]) -> f32 {
    let (mut sum, mut count) = (0.0_f64, 0.0_f64);
    for value in chunk.iter().filter(|value| !value.is_nan()) {
        sum += f64::from(*value);
        count += 1.0;
    }
    if count == 0.0 { f32::NAN } else { (sum / count) as f32 }
}

fn join_in_place<T: Copy>(values: &mut Vec<T>, join: usize, of: impl Fn(&[T]) -> T) {
    let cells = values.len().div_ceil(join);
    for cell in 0..cells {
        let end = values.len().min((cell + 1) * join);
        values[cell] = of(&values[cell * join..end]);
    }
    values.truncate(cells);
}

/// Median of the steps that go ahead, from at most 20 001 of them, evenly chosen.
fn usual_step(time_s: &[f64]) -> f64 {
    let stride = (time_s.len() / 20_000).max(1);
    median_ahead(time_s.windows(2).step_by(stride).map(|pair| pair[1] - pair[0]))
}

/// Median of the steps from value to value of a column that may be empty in some cells; from at most some 20 000 of them.
fn step_between_values(time_s: &[f64], values: &[f32]) -> f64 {
    let held = || time_s.iter().zip(values).filter(|(_, value)| !value.is_nan()).map(|(time_s, _)| *time_s);
    let stride = (held().count() / 20_000).max(1);
    let steps = held().zip(held().skip(1)).step_by(stride).map(|(from_s, to_s)| to_s - from_s);
    median_ahead(steps)
}

fn median_ahead(steps: impl Iterator<Item = f64>) -> f64 {
    let mut steps: Vec<f64> = steps.filter(|step| *step > 0.0).collect();
    if steps.is_empty() {
        return 0.0;
    }
    let middle = steps.len() / 2;
    *steps.select_nth_unstable_by(middle, f64::total_cmp).1
}

/// A clock that shows whole seconds stands still for several rows: they are spread evenly up to its next step.
fn spread_same_times(time_s: &mut [f64], breaks: &[usize]) {
    let usual_s = usual_step(time_s);
    let mut start = 0;
    while start < time_s.len() {
        let time = time_s[start];
        let length = time_s[start..].iter().take_while(|t| **t == time).count();
        let next = start + length;
        if length > 1 {
            let to_next = time_s.get(next).map(|next| next - time).filter(|_| breaks.binary_search(&next).is_err());
            // Over a gap nothing is known of the rows' times but that they are no further apart than usual.
            let step_s = to_next.map_or(usual_s, |s| s.min(gap_after_s(usual_s).min(2.0 * usual_s))) / length as f64;
            for (place, time_s) in time_s[start..next].iter_mut().enumerate() {
                *time_s = time + place as f64 * step_s;
            }
        }
        start = next;
    }
}
