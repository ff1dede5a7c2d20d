//! A drawing under way, stroke by stroke.

use super::picture::{Anchor, Ink, LabelSize, Picture, PictureLabel, Point, Stroke};

/// A drawing under way, in drawing units with y downwards.
pub(crate) struct Sheet {
    strokes: Vec<Stroke>,
    labels: Vec<PictureLabel>,
}

impl Sheet {
    /// Every drawing is this wide, so that words on them are of one size.
    pub const WIDTH: f32 = 360.0;

    pub fn new() -> Sheet {
        Sheet { strokes: Vec::new(), labels: Vec::new() }
    }

    /// A line through the points; the answer can be dashed or closed.
    pub fn line(&mut self, ink: Ink, width: f32, points: &[(f32, f32)]) -> &mut Stroke {
        self.strokes.push(Stroke {
            points: points.iter().map(|(x, y)| Point { x: *x, y: *y }).collect(),
            ink,
            width,
            dashed: false,
            closed: false,
            filled: false,
        });
        let last = self.strokes.len() - 1;
        &mut self.strokes[last]
    }

    /// A box.
    pub fn bar(&mut self, ink: Ink, left: f32, top: f32, right: f32, bottom: f32, filled: bool) {
        let stroke = self.line(ink, 1.5, &[(left, top), (right, top), (right, bottom), (left, bottom)]);
        stroke.closed = true;
        stroke.filled = filled;
    }

    /// A circle.
    pub fn ring(&mut self, ink: Ink, x: f32, y: f32, radius: f32, filled: bool) {
        let turn = |step: i32| std::f32::consts::TAU * step as f32 / 24.0;
        let points: Vec<(f32, f32)> =
            (0..24).map(|step| (x + radius * turn(step).cos(), y + radius * turn(step).sin())).collect();
        let stroke = self.line(ink, 2.0, &points);
        stroke.closed = true;
        stroke.filled = filled;
    }

    /// Words.
    pub fn label(&mut self, x: f32, y: f32, text: impl Into<String>, ink: Ink, size: LabelSize, anchor: Anchor) {
        self.labels.push(PictureLabel { x, y, text: text.into(), ink, size, anchor });
    }

    /// The drawing, with its text alternative for a screen reader.
    pub fn finish(self, height: f32, spoken: String) -> Picture {
        Picture { width: Sheet::WIDTH, height, strokes: self.strokes, labels: self.labels, spoken }
    }
}
