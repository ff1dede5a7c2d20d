//! Integrals over a stretch of a log, by straight lines from row to row. Nothing is assumed over a gap or where a value lacks.

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

/// Integrates what `of` gives for each cell; cells within the span, ends included.
pub(super) fn integrate(recording: &Recording, span: Span, of: impl Fn(usize) -> f64) -> Integral {
    let mut result = Integral::default();
    let mut last: Option<(f64, f64)> = None;
    for cell in recording.cells(span) {
        let (time_s, value) = (recording.time_s[cell], of(cell));
        if value.is_nan() {
            last = None;
            continue;
        }
        if let Some((last_s, last_value)) = last.filter(|_| recording.joined(cell)) {
            let step_s = time_s - last_s;
            result.sum += 0.5 * (value + last_value) * step_s;
            result.covered_s += step_s;
        }
        last = Some((time_s, value));
    }
    result
}

/// Integral of one channel.
pub(super) fn of_channel(recording: &Recording, channel: &Channel, span: Span) -> Integral {
    integrate(recording, span, |cell| f64::from(channel.value[cell]))
}

/// Time past a limit, above or below, straight lines between rows; and the first moment of it.
pub(super) fn time_past(
    recording: &Recording,
    channel: &Channel,
    span: Span,
    limit: f64,
    above: bool,
) -> (f64, Option<Span>) {
    let sign = if above { 1.0 } else { -1.0 };
    let mut total_s = 0.0;
    let mut past: Option<Span> = None;
    let mut last: Option<(f64, f64)> = None;
    let mut note = |from_s: f64, to_s: f64| match &mut past {
        Some(span) => span.end_s = to_s,
        None => past = Some(Span { start_s: from_s, end_s: to_s }),
    };
    for cell in recording.cells(span) {
        let (time_s, over) = (recording.time_s[cell], sign * (f64::from(channel.value[cell]) - limit));
        // A cell of several rows may pass the limit though its mean does not: its time is not known, but that it did.
        let extreme = if above { channel.greatest()[cell] } else { channel.least()[cell] };
        if sign * (f64::from(extreme) - limit) > 0.0 {
            note(time_s, time_s);
        }
        if over.is_nan() {
            last = None;
            continue;
        }
        if let Some((last_s, last_over)) = last.filter(|_| recording.joined(cell)) {
            let step_s = time_s - last_s;
            match (last_over > 0.0, over > 0.0) {
                (true, true) => total_s += step_s,
                (true, false) => total_s += step_s * last_over / (last_over - over),
                (false, true) => total_s += step_s * over / (over - last_over),
                (false, false) => {}
            }
        }
        last = Some((time_s, over));
    }
    (total_s, past)
}

impl Recording {
    /// Integral over a span of what `of` gives for each cell, in its unit times s, by straight lines from row to row; and the seconds that
    /// had values at both ends. Nothing is assumed over a gap.
    pub fn integral(&self, span: Span, of: impl Fn(usize) -> f64) -> (f64, f64) {
        let integral = integrate(self, span, of);
        (integral.sum, integral.covered_s)
    }

    /// Seconds that a channel spends above (or below) a limit within a span, by straight lines from row to row.
    pub fn time_past(&self, channel: &Channel, span: Span, limit: f64, above: bool) -> f64 {
        time_past(self, channel, span, limit, above).0
    }
}
