//! Integrals over a stretch of a log, by straight lines from value to value. Nothing is assumed over a gap or where a column was lost.

use super::bridge::Bridge;
use super::recording::{Channel, Recording, Span};

/// Integral of a channel over a span, and the time that it covers.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Integral {
    /// In the channel's unit times s.
    pub(super) sum: f64,
    /// Seconds that had values at both ends.
    pub(super) covered_s: f64,
}

impl Integral {
    /// Mean over time, where any was covered.
    pub(super) fn mean(self) -> Option<f64> {
        (self.covered_s > 0.0).then(|| self.sum / self.covered_s)
    }
}

/// A straight line between two values of a log, one after the other.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    /// When it starts, in s.
    pub(super) from_s: f64,
    /// When it ends, in s.
    pub(super) to_s: f64,
    /// The value at its start.
    pub(super) from: f64,
    /// The value at its end.
    pub(super) to: f64,
    /// Whether it was recorded: false over a gap and where the column was lost.
    pub(super) recorded: bool,
}

impl Line {
    pub(super) fn length_s(&self) -> f64 {
        self.to_s - self.from_s
    }

    pub(super) fn integral(&self) -> f64 {
        0.5 * (self.from + self.to) * self.length_s()
    }

    /// The part of it within a span.
    fn within(self, span: Span) -> Option<Line> {
        let (from_s, to_s) = (self.from_s.max(span.start_s), self.to_s.min(span.end_s));
        let at = |time_s: f64| self.from + (self.to - self.from) * (time_s - self.from_s) / self.length_s();
        (to_s > from_s).then(|| Line { from_s, to_s, from: at(from_s), to: at(to_s), recorded: self.recorded })
    }
}

/// The cells that have to do with a span: those in it and the next ones on either side, so that its ends lie on lines.
pub(super) fn cells_about(recording: &Recording, span: Span) -> std::ops::Range<usize> {
    let cells = recording.cells(span);
    cells.start.saturating_sub(1)..(cells.end + 1).min(recording.time_s.len())
}

/// Calls `take` for each line within a span between the values that `of` gives for each cell, which is asked upwards.
pub(super) fn lines(recording: &Recording, span: Span, mut of: impl FnMut(usize) -> f64, mut take: impl FnMut(Line)) {
    let mut last: Option<(f64, f64)> = None;
    let mut recorded = true;
    for cell in cells_about(recording, span) {
        let (to_s, to) = (recording.time_s[cell], of(cell));
        recorded &= recording.joined(cell) && !to.is_nan();
        if to.is_nan() {
            continue;
        }
        if let Some((from_s, from)) = last.filter(|(from_s, _)| to_s > *from_s)
            && let Some(line) = (Line { from_s, to_s, from, to, recorded }).within(span)
        {
            take(line);
        }
        last = Some((to_s, to));
        recorded = true;
    }
}

/// Integrates what `of` gives for each cell over a span, where it was recorded. `of` is asked upwards from the first of [`cells_about`].
pub(super) fn integrate(recording: &Recording, span: Span, of: impl FnMut(usize) -> f64) -> Integral {
    let mut result = Integral::default();
    lines(recording, span, of, |line| {
        if line.recorded {
            result.sum += line.integral();
            result.covered_s += line.length_s();
        }
    });
    result
}

/// Integral of one channel.
pub(super) fn of_channel(recording: &Recording, channel: &Channel, span: Span) -> Integral {
    let mut bridge = bridge(recording, channel, span);
    integrate(recording, span, |cell| bridge.at(cell))
}

/// A channel to be read over a span.
pub(super) fn bridge<'a>(recording: &'a Recording, channel: &'a Channel, span: Span) -> Bridge<'a> {
    Bridge::from(recording, channel, cells_about(recording, span).start)
}

impl Recording {
    /// Integral of a channel over a span, in its unit times s, by straight lines from value to value; and the seconds that were recorded.
    /// Nothing is assumed over a gap.
    pub fn integral(&self, channel: &Channel, span: Span) -> (f64, f64) {
        let integral = of_channel(self, channel, span);
        (integral.sum, integral.covered_s)
    }

    /// The same of the product of two channels, which may come on different rows: voltage times current is energy.
    pub fn integral_of_product(&self, one: &Channel, other: &Channel, span: Span) -> (f64, f64) {
        let (mut one, mut other) = (bridge(self, one, span), bridge(self, other, span));
        let integral = integrate(self, span, |cell| one.at(cell) * other.at(cell));
        (integral.sum, integral.covered_s)
    }
}
