//! Steps of a way, side by side: what is done of each, and where one stands.

use super::picture::{Anchor, Ink, LabelSize, Picture};
use super::sheet::Sheet;

/// One step of a way.
pub(crate) struct Step {
    /// What is done of it, from 0 to 1.
    pub done: f32,
    /// Whether what was done of it no longer stands.
    pub is_lapsed: bool,
}

/// Steps as boxes in a row, numbered. What is done is filled, what no longer stands is hatched, what is to do is hollow, as the edges of
/// rows are; a point above the row shows where one stands.
pub(crate) fn steps(steps: &[Step], here: usize, spoken: String) -> Picture {
    let mut sheet = Sheet::new();
    let (left, top, bottom) = (3.0, 16.0, 40.0);
    let pitch = (Sheet::WIDTH - 2.0 * left) / steps.len().max(1) as f32;
    for (index, step) in steps.iter().enumerate() {
        let from = left + index as f32 * pitch;
        let to = from + pitch - 5.0;
        if step.is_lapsed {
            hatch(&mut sheet, (from, to), (top, bottom));
        } else if step.done > 0.0 {
            // Whatever is done can be seen, and what is left too.
            let share = if step.done < 1.0 { step.done.clamp(0.1, 0.9) } else { 1.0 };
            sheet.bar(Ink::Strong, from, top, from + (to - from) * share, bottom, true);
        }
        sheet.bar(Ink::Strong, from, top, to, bottom, false);
        let middle = (from + to) / 2.0;
        if index == here {
            let point = [(middle - 7.0, 2.0), (middle + 7.0, 2.0), (middle, 12.0)];
            let stroke = sheet.line(Ink::Strong, 1.5, &point);
            (stroke.closed, stroke.filled) = (true, true);
        }
        let ink = if index == here { Ink::Strong } else { Ink::Quiet };
        sheet.label(middle, bottom + 20.0, (index + 1).to_string(), ink, LabelSize::Small, Anchor::Middle);
    }
    sheet.finish(bottom + 26.0, spoken)
}

/// Slanting lines within a box.
fn hatch(sheet: &mut Sheet, (left, right): (f32, f32), (top, bottom): (f32, f32)) {
    let high = bottom - top;
    let mut foot = left - high;
    while foot < right {
        let start = (foot.max(left), bottom - (left - foot).max(0.0));
        let head = foot + high;
        let end = (head.min(right), top + (head - right).max(0.0));
        if start.0 < end.0 {
            sheet.line(Ink::Strong, 1.5, &[start, end]);
        }
        foot += 7.0;
    }
}
