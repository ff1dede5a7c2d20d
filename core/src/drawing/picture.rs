//! What a line drawing is made of: plain values that a shell and a page scale to the width they have.

/// A line drawing in its own units; a shell or a report scales it to the width it has.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Width in drawing units.
    pub width: f32,
    /// Height in drawing units.
    pub height: f32,
    /// Lines, back to front.
    pub strokes: Vec<Stroke>,
    /// Words on the drawing.
    pub labels: Vec<PictureLabel>,
    /// The drawing in words.
    pub spoken: String,
}

/// One line of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// Corner points in order.
    pub points: Vec<Point>,
    /// What the line stands for.
    pub ink: Ink,
    /// Width in drawing units.
    pub width: f32,
    /// Broken, for what is planned or limits.
    pub dashed: bool,
    /// Joined back to its first point.
    pub closed: bool,
    /// Filled inside.
    pub filled: bool,
}

/// A point of a drawing, y downwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f32,
    /// Downwards.
    pub y: f32,
}

/// What a line or a word of a drawing stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// The thing itself.
    Strong,
    /// What helps to read it.
    Quiet,
    /// A limit.
    Limit,
    /// What the person should do.
    Action,
}

/// Words on a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct PictureLabel {
    /// Anchor, to the right.
    pub x: f32,
    /// Base line, downwards.
    pub y: f32,
    /// The words.
    pub text: String,
    /// What they belong to.
    pub ink: Ink,
    /// How large.
    pub size: LabelSize,
    /// Which part of the text stands at the anchor.
    pub anchor: Anchor,
}

/// Size of words on a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LabelSize {
    /// For scales.
    Small,
    /// For what is meant to be read.
    Large,
}

/// Which part of a text stands at its anchor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Anchor {
    Start,
    Middle,
    End,
}
