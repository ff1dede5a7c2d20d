//! The geometry of a plot, made for so many columns of pixels: no peak is lost, and nothing is drawn over a gap.
//!
//! For each column of pixels the first, least, greatest and last value of the samples in it are kept, in the order of time. Drawn as a
//! line, that covers the same pixels as all samples would: within a column a line through all samples reaches from the least to the
//! greatest, and between columns it goes from a column's last to the next one's first.

use serde::{Deserialize, Serialize};

use super::recording::{Channel, Recording, Span};

/// A point of a plot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PlotPoint {
    /// Time, in s since the first row.
    pub time_s: f64,
    /// Value, in the unit that the quantity is kept in.
    pub value: f64,
}

/// A line of a plot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PlotLine {
    /// The channel, by its place in the recording.
    pub channel: u32,
    /// Its strokes; between them there is nothing recorded.
    pub strokes: Vec<Vec<PlotPoint>>,
    /// Least value in the window.
    pub least: f64,
    /// Greatest value in the window.
    pub greatest: f64,
}

/// The most columns of pixels.
pub const MOST_COLUMNS: u32 = 8_192;

/// A channel in a window, for `columns` columns of pixels (1 to [`MOST_COLUMNS`]); `None` if it has no value there.
///
/// The samples next to the window on either side are in, so that the line runs on to its edges.
pub fn line(recording: &Recording, channel: u32, window: Span, columns: u32) -> Option<PlotLine> {
    let of = recording.channels.get(channel as usize)?;
    let columns = columns.clamp(1, MOST_COLUMNS);
    if !(window.length_s() > 0.0 && window.length_s().is_finite()) {
        return None;
    }
    let inside = recording.cells(window);
    let cells = inside.start.saturating_sub(1)..(inside.end + 1).min(recording.time_s.len());
    let per_s = f64::from(columns) / window.length_s();
    let column = |cell: usize| ((recording.time_s[cell] - window.start_s) * per_s).floor() as i64;
    let mut drawing = Drawing::new(of);
    let mut from = cells.start;
    while from < cells.end {
        let here = column(from);
        // The column's cells end where the next column's begin; the next break ends them as well.
        let end_s = window.start_s + (here + 1) as f64 / per_s;
        let guess = recording.time_s[from..cells.end].partition_point(|time| *time < end_s);
        let to = next_break(recording, from, from + guess.max(1));
        drawing.column(recording, from..to);
        if to < cells.end && !recording.joined(to) {
            drawing.lift();
        }
        from = to;
    }
    drawing.finish(channel)
}

fn next_break(recording: &Recording, from: usize, to: usize) -> usize {
    let next = recording.breaks.partition_point(|cell| *cell <= from);
    recording.breaks.get(next).map_or(to, |cell| to.min(*cell))
}

struct Drawing<'a> {
    channel: &'a Channel,
    strokes: Vec<Vec<PlotPoint>>,
    stroke: Vec<PlotPoint>,
    least: f32,
    greatest: f32,
}

impl<'a> Drawing<'a> {
    fn new(channel: &'a Channel) -> Self {
        Self { channel, strokes: Vec::new(), stroke: Vec::new(), least: f32::NAN, greatest: f32::NAN }
    }

    fn lift(&mut self) {
        if !self.stroke.is_empty() {
            self.strokes.push(std::mem::take(&mut self.stroke));
        }
    }

    /// Adds a column's first, least, greatest and last.
    fn column(&mut self, recording: &Recording, cells: std::ops::Range<usize>) {
        let (least, greatest) = (self.channel.least(), self.channel.greatest());
        let pyramid = &self.channel.pyramid;
        let Some(low) = pyramid.least(least, cells.clone()) else { return };
        let high = pyramid.greatest(greatest, cells.clone()).unwrap_or(low) - cells.start;
        let low = low - cells.start;
        let (least, greatest) = (&least[cells.clone()], &greatest[cells.clone()]);
        let value = &self.channel.value[cells.clone()];
        let first = value.iter().position(|v| !v.is_nan()).unwrap_or(low);
        let last = value.iter().rposition(|v| !v.is_nan()).unwrap_or(first);
        self.least = self.least.min(least[low]);
        self.greatest = self.greatest.max(greatest[high]);
        let mut points = [(first, value[first]), (low, least[low]), (high, greatest[high]), (last, value[last])];
        points[1..3].sort_by_key(|(at, _)| *at);
        for (at, value) in points {
            let point = PlotPoint { time_s: recording.time_s[cells.start + at], value: f64::from(value) };
            if self.stroke.last() != Some(&point) {
                self.stroke.push(point);
            }
        }
    }

    fn finish(mut self, channel: u32) -> Option<PlotLine> {
        self.lift();
        let (least, greatest) = (f64::from(self.least), f64::from(self.greatest));
        (!self.strokes.is_empty()).then_some(PlotLine { channel, strokes: self.strokes, least, greatest })
    }
}

/// What a cursor shows: the cell nearest to a time, and each channel's value there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Cursor {
    /// The row's time, in s since the first row.
    pub time_s: f64,
    /// Each channel's value, none where it has none within the usual gap about that time.
    pub values: Vec<Option<f64>>,
}

/// The values at a time; `None` for an empty recording.
pub fn cursor(recording: &Recording, time_s: f64) -> Option<Cursor> {
    let after = recording.time_s.partition_point(|time| *time < time_s);
    let before = after.saturating_sub(1);
    let distance = |cell: usize| (recording.time_s[cell] - time_s).abs();
    let last = recording.time_s.len().checked_sub(1)?;
    let nearest = if after > last || distance(before) <= distance(after) { before.min(last) } else { after };
    // A column that is written every few rows shows its last value.
    let value = |channel: &Channel| {
        let oldest_s = recording.time_s[nearest] - recording.longest_hold_s(channel);
        let cells = (0..=nearest).rev().take_while(|cell| recording.time_s[*cell] >= oldest_s);
        let mut cells = cells.take_while(|cell| *cell == nearest || recording.joined(*cell + 1));
        cells.find(|cell| !channel.value[*cell].is_nan()).map(|cell| f64::from(channel.value[cell]))
    };
    Some(Cursor { time_s: recording.time_s[nearest], values: recording.channels.iter().map(value).collect() })
}
