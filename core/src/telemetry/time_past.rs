//! How long a channel spends past a limit.

use super::integrals::{Line, bridge, lines};
use super::recording::{Channel, Recording, Span};

/// Time past a limit.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Past {
    /// Seconds past it.
    pub(super) total_s: f64,
    /// What the seconds may be off by: nothing where each cell is a row.
    pub(super) half_width_s: f64,
    /// From the first moment past it to the last.
    pub(super) span: Option<Span>,
}

impl Past {
    fn note(&mut self, from_s: f64, to_s: f64) {
        match &mut self.span {
            Some(span) => span.end_s = span.end_s.max(to_s),
            None => self.span = Some(Span { start_s: from_s, end_s: to_s }),
        }
    }
}

/// Time past a limit, above or below, by straight lines from value to value; of joined rows by what their least, mean and greatest allow.
pub(super) fn time_past(recording: &Recording, channel: &Channel, span: Span, limit: f64, above: bool) -> Past {
    let sign = if above { 1.0 } else { -1.0 };
    let mut past = Past::default();
    // A single row past the limit between two that are not has a moment if not a length.
    for cell in recording.cells(span) {
        let extreme = if above { channel.greatest()[cell] } else { channel.least()[cell] };
        if sign * (f64::from(extreme) - limit) > 0.0 {
            past.note(recording.time_s[cell], recording.time_s[cell]);
        }
    }
    if recording.rows_per_cell > 1 {
        of_joined_rows(recording, channel, span, |value| sign * (value - limit), &mut past);
    } else {
        let mut bridge = bridge(recording, channel, span);
        lines(recording, span, |cell| sign * (bridge.at(cell) - limit), |line| past.total_s += over(&line));
    }
    past
}

/// Seconds of a line above zero.
fn over(line: &Line) -> f64 {
    let share = match (line.from > 0.0, line.to > 0.0) {
        (true, true) => 1.0,
        (true, false) => line.from / (line.from - line.to),
        (false, true) => line.to / (line.to - line.from),
        (false, false) => 0.0,
    };
    if line.recorded { share * line.length_s() } else { 0.0 }
}

fn of_joined_rows(recording: &Recording, channel: &Channel, span: Span, over: impl Fn(f64) -> f64, past: &mut Past) {
    let one_row = 1.0 / f64::from(recording.rows_per_cell);
    let cells = recording.cells(span);
    for cell in cells.clone().filter(|cell| !channel.value[*cell].is_nan()) {
        let [mean, a, b] =
            [channel.value[cell], channel.least()[cell], channel.greatest()[cell]].map(|v| over(f64::from(v)));
        let share = Share::of(a.min(b), mean, a.max(b), one_row);
        let length_s = length_s(recording, channel, cell, cells.end);
        past.total_s += share.likely * length_s;
        past.half_width_s += (share.high - share.likely).max(share.likely - share.low) * length_s;
    }
}

/// A cell's time: until the column's next value; the last before a gap, and the last of all, for as long as a cell.
fn length_s(recording: &Recording, channel: &Channel, cell: usize, end: usize) -> f64 {
    let latest_s = recording.time_s[cell] + recording.longest_hold_s(channel);
    let mut next = (cell + 1..end).take_while(|next| recording.joined(*next) && recording.time_s[*next] <= latest_s);
    let next = next.find(|next| !channel.value[*next].is_nan());
    next.map_or(recording.step_s * f64::from(recording.rows_per_cell), |next| {
        recording.time_s[next] - recording.time_s[cell]
    })
}

/// The share of a cell's rows that lie past a limit.
struct Share {
    low: f64,
    likely: f64,
    high: f64,
}

impl Share {
    /// Of least, mean and greatest less the limit. Nobody knows how many rows were past it, but these leave little room: the share is
    /// greatest where those past it lie at the limit and the others at the least, and least where those lie at the greatest and the others
    /// at the limit. Likely is what rows at the least and at the greatest alone would give: a spike is that.
    fn of(least: f64, mean: f64, greatest: f64, one_row: f64) -> Share {
        let all_or_none = |share| Share { low: share, likely: share, high: share };
        if greatest <= 0.0 {
            return all_or_none(0.0);
        }
        if least >= 0.0 {
            return all_or_none(1.0);
        }
        let low = (mean / greatest).max(one_row).min(1.0);
        let high = ((mean - least) / -least).clamp(low, 1.0);
        let likely = (mean - least) / (greatest - least);
        Share { low, likely: likely.clamp(low, high), high }
    }
}

impl Recording {
    /// Seconds that a channel spends above (or below) a limit within a span, by straight lines from value to value.
    pub fn time_past(&self, channel: &Channel, span: Span, limit: f64, above: bool) -> f64 {
        time_past(self, channel, span, limit, above).total_s
    }
}
