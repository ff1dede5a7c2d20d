//! What of a plot is in view, and how fingers and buttons move it. Places along the plot are shares of its width, so that whoever
//! draws it needs to know nothing of time.

use serde::{Deserialize, Serialize};

use super::recording::{Recording, Span};

/// The window in view, and where the cursor stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Sight {
    /// The stretch of the log in view.
    pub window: Span,
    /// The cursor's time, in s since the first row.
    pub cursor_s: Option<f64>,
}

/// One move that a button makes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SightStep {
    /// Half the time, about the cursor where it is in view, else about the middle.
    Closer,
    /// Twice the time.
    Wider,
    /// Half a window back.
    Earlier,
    /// Half a window on.
    Later,
    /// The whole log.
    Whole,
    /// The cursor a step back; where there is none it comes to the middle.
    CursorBack,
    /// The cursor a step on.
    CursorOn,
    /// No cursor.
    CursorOff,
}

/// Fewer samples than this across a window show nothing more.
const FEWEST_SAMPLES: f64 = 8.0;
/// No window is shorter, s.
const SHORTEST_S: f64 = 0.02;
/// Steps of the cursor across a window.
const CURSOR_STEPS: f64 = 40.0;

impl Sight {
    /// All of a recording.
    pub fn whole(recording: &Recording) -> Sight {
        Sight { window: all_of(recording), cursor_s: None }
    }

    /// A stretch of it; what lies outside of the recording is left out.
    pub fn of(recording: &Recording, window: Span) -> Sight {
        Sight { window: held(recording, window.start_s, window.length_s()), cursor_s: None }
    }

    /// The time at a share of the plot's width, 0 to 1.
    pub fn time_s(&self, share: f64) -> f64 {
        self.window.start_s + share * self.window.length_s()
    }

    /// Where a time lies, as a share of the plot's width.
    pub fn share(&self, time_s: f64) -> f64 {
        (time_s - self.window.start_s) / self.window.length_s()
    }

    /// Shows `factor` times as much detail; what lies at `share` stays there. A factor or a share out of all range changes nothing.
    pub fn zoomed(self, recording: &Recording, share: f64, factor: f64) -> Sight {
        if !(factor > 0.0 && factor.is_finite() && share.is_finite()) {
            return self;
        }
        let length_s = shortened(recording, self.window.length_s() / factor);
        let start_s = self.time_s(share) - share * length_s;
        // The difference of two numbers that are each past the greatest is none.
        if start_s.is_nan() {
            return self;
        }
        Sight { window: held(recording, start_s, length_s), ..self }
    }

    /// The drawing goes to the right by a share of its width: what was earlier comes into view.
    pub fn moved(self, recording: &Recording, share: f64) -> Sight {
        if !share.is_finite() {
            return self;
        }
        let length_s = self.window.length_s();
        Sight { window: held(recording, self.window.start_s - share * length_s, length_s), ..self }
    }

    /// The cursor at a share of the plot's width.
    pub fn pointed(self, share: f64) -> Sight {
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.5 };
        Sight { cursor_s: Some(self.time_s(share)), ..self }
    }

    /// After one move by a button.
    pub fn stepped(self, recording: &Recording, step: SightStep) -> Sight {
        let about = self.cursor_s.map(|s| self.share(s)).filter(|share| (0.0..=1.0).contains(share)).unwrap_or(0.5);
        match step {
            SightStep::Closer => self.zoomed(recording, about, 2.0),
            SightStep::Wider => self.zoomed(recording, about, 0.5),
            SightStep::Earlier => self.moved(recording, 0.5),
            SightStep::Later => self.moved(recording, -0.5),
            SightStep::Whole => Sight { window: all_of(recording), ..self },
            SightStep::CursorOff => Sight { cursor_s: None, ..self },
            SightStep::CursorBack => self.cursor_by(recording, -1.0),
            SightStep::CursorOn => self.cursor_by(recording, 1.0),
        }
    }

    /// The cursor a fortieth of the window on, at least to the next sample; the window follows it.
    fn cursor_by(self, recording: &Recording, way: f64) -> Sight {
        let Some(now_s) = self.cursor_s else { return self.pointed(0.5) };
        let step_s = (self.window.length_s() / CURSOR_STEPS).max(recording.step_s);
        let whole = all_of(recording);
        let cursor_s = (now_s + way * step_s).clamp(whole.start_s, whole.end_s);
        let next = Sight { cursor_s: Some(cursor_s), ..self };
        match self.share(cursor_s) {
            share if share < 0.0 => next.moved(recording, -share + 0.25),
            share if share > 1.0 => next.moved(recording, 1.0 - share - 0.25),
            _ => next,
        }
    }
}

fn all_of(recording: &Recording) -> Span {
    let span = recording.span();
    // A log of a single row has a moment, and a window has a length.
    Span { start_s: span.start_s, end_s: span.end_s.max(span.start_s + SHORTEST_S) }
}

fn shortened(recording: &Recording, length_s: f64) -> f64 {
    let longest_s = all_of(recording).length_s();
    length_s.clamp((FEWEST_SAMPLES * recording.step_s).clamp(SHORTEST_S, longest_s), longest_s)
}

/// A window of about this length within the recording.
fn held(recording: &Recording, start_s: f64, length_s: f64) -> Span {
    let whole = all_of(recording);
    let length_s = shortened(recording, length_s);
    let start_s = start_s.clamp(whole.start_s, (whole.end_s - length_s).max(whole.start_s));
    Span { start_s, end_s: start_s + length_s }
}
