//! Columns whose values come on other rows than their neighbours': an empty field keeps the value before it, and goes over to the next one
//! by a straight line, for as long as that column's own gap.

use super::recording::{Channel, Recording, gap_after_s};

impl Recording {
    /// What a column may be empty for without having been lost, in s: the gap of its own usual step, which may be longer than the rows'.
    pub(super) fn longest_hold_s(&self, channel: &Channel) -> f64 {
        gap_after_s(channel.step_s.max(self.step_s * f64::from(self.rows_per_cell)))
    }
}

/// A channel read cell by cell, upwards and without leaving one out, with its short empty stretches filled by straight lines.
pub(super) struct Bridge<'a> {
    recording: &'a Recording,
    channel: &'a Channel,
    longest_s: f64,
    /// The last cell with a value, while what follows may still be bridged from it.
    before: Option<usize>,
    /// The first cell with a value after it.
    after: Option<usize>,
}

impl<'a> Bridge<'a> {
    /// Starts at a cell: what came before it within the longest hold is known.
    pub(super) fn from(recording: &'a Recording, channel: &'a Channel, cell: usize) -> Self {
        let longest_s = recording.longest_hold_s(channel);
        let mut bridge = Self { recording, channel, longest_s, before: None, after: None };
        let start_s = recording.time_s.get(cell).copied().unwrap_or(f64::INFINITY);
        for earlier in (0..cell).rev() {
            if !recording.joined(earlier + 1) || start_s - recording.time_s[earlier] > longest_s {
                break;
            }
            if !channel.value[earlier].is_nan() {
                bridge.before = Some(earlier);
                break;
            }
        }
        bridge
    }

    /// The value at a cell; NaN where it was lost.
    pub(super) fn at(&mut self, cell: usize) -> f64 {
        if !self.recording.joined(cell) {
            (self.before, self.after) = (None, None);
        }
        let value = f64::from(self.channel.value[cell]);
        if !value.is_nan() {
            (self.before, self.after) = (Some(cell), None);
            return value;
        }
        let Some(before) = self.before else { return f64::NAN };
        if self.after.is_none() {
            self.after = self.next_after(before, cell);
        }
        let Some(after) = self.after else {
            self.before = None;
            return f64::NAN;
        };
        let time = |cell: usize| self.recording.time_s[cell];
        let (from, to) = (f64::from(self.channel.value[before]), f64::from(self.channel.value[after]));
        let length_s = time(after) - time(before);
        if length_s > 0.0 { from + (to - from) * (time(cell) - time(before)) / length_s } else { from }
    }

    /// The next cell with a value, if it comes in time and nothing broke off before it.
    fn next_after(&self, before: usize, cell: usize) -> Option<usize> {
        let last_s = self.recording.time_s[before] + self.longest_s;
        for next in cell + 1..self.channel.value.len() {
            if self.recording.time_s[next] > last_s || !self.recording.joined(next) {
                return None;
            }
            if !self.channel.value[next].is_nan() {
                return Some(next);
            }
        }
        None
    }
}
