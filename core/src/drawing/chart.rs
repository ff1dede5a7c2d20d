//! Charts that more than one page uses: values as bars against their limits, a curve over an axis.

use super::picture::{Anchor, Ink, LabelSize, Picture};
use super::sheet::Sheet;

/// A value against its limit.
pub(crate) struct Bar {
    /// What it is.
    pub title: String,
    /// The value, not negative.
    pub value: f64,
    /// Its limit.
    pub limit: f64,
    /// Both in words.
    pub text: String,
}

/// Values as bars, each with its limit as a line across it. Every bar has its own scale: its limit stands at the same place.
pub(crate) fn bars(bars: &[Bar]) -> Picture {
    let mut sheet = Sheet::new();
    let (left, right, row) = (8.0, Sheet::WIDTH - 8.0, 66.0);
    let limit_x = left + (right - left) * 0.72;
    for (index, bar) in bars.iter().enumerate() {
        let top = index as f32 * row;
        let share = if bar.limit > 0.0 { (bar.value / bar.limit).clamp(0.0, 1.38) } else { 1.38 };
        let end = left + (limit_x - left) * share as f32;
        // A line for what it is and one for how much: a long name never runs into a number.
        sheet.label(left, top + 14.0, bar.title.clone(), Ink::Strong, LabelSize::Small, Anchor::Start);
        sheet.label(left, top + 32.0, bar.text.clone(), Ink::Quiet, LabelSize::Small, Anchor::Start);
        sheet.bar(Ink::Quiet, left, top + 40.0, end.max(left + 1.0), top + 54.0, true);
        sheet.line(Ink::Limit, 3.0, &[(limit_x, top + 36.0), (limit_x, top + 58.0)]);
    }
    let spoken: Vec<String> = bars.iter().map(|bar| format!("{}: {}", bar.title, bar.text)).collect();
    sheet.finish(bars.len() as f32 * row + 2.0, spoken.join(". "))
}

/// A curve over an axis, with a limit across it and points on it.
pub(crate) struct Curve<'a> {
    /// Points of the curve, x rising.
    pub points: &'a [(f64, f64)],
    /// Points that were read, or stand out.
    pub marks: &'a [(f64, f64, String)],
    /// A limit in y, with its words.
    pub limit: Option<(f64, String)>,
    /// Words under the ends of the x axis.
    pub ends: (String, String),
    /// Text alternative for a screen reader.
    pub spoken: String,
}

/// Draws a curve.
pub(crate) fn curve(curve: &Curve<'_>) -> Picture {
    let mut sheet = Sheet::new();
    let (left, right, top, bottom) = (12.0, Sheet::WIDTH - 12.0, 26.0, 150.0);
    let xs = || curve.points.iter().map(|p| p.0).chain(curve.marks.iter().map(|m| m.0));
    let limit_y = curve.limit.as_ref().map(|(y, _)| *y);
    let ys = || curve.points.iter().map(|p| p.1).chain(curve.marks.iter().map(|m| m.1)).chain(limit_y);
    let (x_low, x_high) = span(xs());
    let (y_low, y_high) = span(ys());
    let at = |x: f64, y: f64| {
        let across = ((x - x_low) / (x_high - x_low)) as f32;
        let up = ((y - y_low) / (y_high - y_low)) as f32;
        (left + (right - left) * across, bottom - (bottom - top) * up)
    };
    sheet.line(Ink::Quiet, 1.0, &[(left, bottom + 6.0), (right, bottom + 6.0)]);
    sheet.label(left, bottom + 20.0, curve.ends.0.clone(), Ink::Quiet, LabelSize::Small, Anchor::Start);
    sheet.label(right, bottom + 20.0, curve.ends.1.clone(), Ink::Quiet, LabelSize::Small, Anchor::End);
    if let Some((y, words)) = &curve.limit {
        let (_, y) = at(x_low, *y);
        sheet.line(Ink::Limit, 2.0, &[(left, y), (right, y)]).dashed = true;
        sheet.label(right, y - 5.0, words.clone(), Ink::Limit, LabelSize::Small, Anchor::End);
    }
    let line: Vec<(f32, f32)> = curve.points.iter().map(|(x, y)| at(*x, *y)).collect();
    sheet.line(Ink::Strong, 2.5, &line);
    let mut worded: Vec<(f32, f32)> = Vec::new();
    for (x, y, words) in curve.marks.iter().rev() {
        let (x, y) = at(*x, *y);
        sheet.ring(Ink::Strong, x, y, 5.0, true);
        // Where points crowd, the last one is named: words over words help nobody.
        if worded.iter().any(|(other_x, other_y)| (x - other_x).abs() < 70.0 && (y - other_y).abs() < 16.0) {
            continue;
        }
        worded.push((x, y));
        let (anchor, x) = if x > Sheet::WIDTH / 2.0 { (Anchor::End, x - 8.0) } else { (Anchor::Start, x + 8.0) };
        // Above the point where the axis and its words lie below it.
        let beside = if y > bottom - 26.0 { y - 10.0 } else { y + 16.0 };
        sheet.label(x, beside, words.clone(), Ink::Strong, LabelSize::Small, anchor);
    }
    sheet.finish(176.0, curve.spoken.clone())
}

fn span(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let (low, high) =
        values.filter(|v| v.is_finite()).fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)));
    if low > high {
        (0.0, 1.0)
    } else if high - low < 1e-9 {
        (low - 0.5, high + 0.5)
    } else {
        (low, high)
    }
}
