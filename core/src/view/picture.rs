//! Line drawings with the limit drawn in and the margin written on it, for the phone and for the dossier alike.

use super::{Anchor, Ink, LabelSize, Picture, PictureLabel, Point, Stroke};
use crate::computed::Computed;
use crate::engineering::balance::BalanceReport;
use crate::engineering::ballast::{BallastAnswer, BallastReport};
use crate::engineering::supply::RailReport;

const WIDTH: f32 = 360.0;

/// A drawing under way.
struct Sheet {
    strokes: Vec<Stroke>,
    labels: Vec<PictureLabel>,
}

impl Sheet {
    fn new() -> Sheet {
        Sheet { strokes: Vec::new(), labels: Vec::new() }
    }

    fn line(&mut self, ink: Ink, width: f32, points: &[(f32, f32)]) -> &mut Stroke {
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

    fn bar(&mut self, ink: Ink, left: f32, top: f32, right: f32, bottom: f32, filled: bool) {
        let stroke = self.line(ink, 1.5, &[(left, top), (right, top), (right, bottom), (left, bottom)]);
        stroke.closed = true;
        stroke.filled = filled;
    }

    fn ring(&mut self, ink: Ink, x: f32, y: f32, radius: f32, filled: bool) {
        let turn = |step: i32| std::f32::consts::TAU * step as f32 / 24.0;
        let points: Vec<(f32, f32)> =
            (0..24).map(|step| (x + radius * turn(step).cos(), y + radius * turn(step).sin())).collect();
        let stroke = self.line(ink, 2.0, &points);
        stroke.closed = true;
        stroke.filled = filled;
    }

    fn label(&mut self, x: f32, y: f32, text: impl Into<String>, ink: Ink, size: LabelSize, anchor: Anchor) {
        self.labels.push(PictureLabel { x, y, text: text.into(), ink, size, anchor });
    }

    fn finish(self, height: f32, spoken: String) -> Picture {
        Picture { width: WIDTH, height, strokes: self.strokes, labels: self.labels, spoken }
    }
}

/// The drawing of a computation, where a person would rather look.
pub(crate) fn computed_picture(computed: &Computed) -> Option<Picture> {
    match computed {
        Computed::SupplyLoad(rails) => Some(supply_load(rails)),
        Computed::SupplyWindow(_) => None,
        Computed::Balance { report, ballast } => Some(balance(report, ballast.as_ref())),
    }
}

/// Each supply's loads as bars, its ratings as lines across them.
pub(super) fn supply_load(rails: &[RailReport]) -> Picture {
    let mut sheet = Sheet::new();
    let mut spoken = Vec::new();
    let (left, right) = (8.0, WIDTH - 8.0);
    let row = 92.0;
    for (index, rail) in rails.iter().enumerate() {
        let top = index as f32 * row;
        let most = rail.burst.load_a.max(rail.burst.rated_a).max(rail.continuous.rated_a) * 1.12;
        let x = |ampere: f64| left + (right - left) * (ampere / most) as f32;
        sheet.label(left, top + 16.0, rail.inputs.rail.name.clone(), Ink::Strong, LabelSize::Large, Anchor::Start);
        for (offset, margin, what) in [(26.0, &rail.continuous, "hard flight"), (54.0, &rail.burst, "design peak")] {
            let (bar_top, bar_bottom) = (top + offset, top + offset + 14.0);
            sheet.bar(Ink::Quiet, left, bar_top, x(margin.load_a), bar_bottom, true);
            let limit = x(margin.rated_a);
            sheet.line(Ink::Limit, 3.0, &[(limit, bar_top - 3.0), (limit, bar_bottom + 3.0)]);
            let text = format!("{what} {:.1} A of {:.1} A", margin.load_a, margin.rated_a);
            sheet.label(left, bar_bottom + 10.0, text.clone(), Ink::Strong, LabelSize::Small, Anchor::Start);
            spoken.push(format!("{}: {text}", rail.inputs.rail.name));
        }
    }
    sheet.finish(rails.len() as f32 * row + 4.0, spoken.join(". "))
}

/// The aircraft from above, nose to the left: the allowed band, the balance point, and where ballast would go.
pub(super) fn balance(report: &BalanceReport, ballast: Option<&BallastReport>) -> Picture {
    let mut sheet = Sheet::new();
    let height = 190.0;
    let (middle_x, middle_y) = (WIDTH / 2.0, 84.0);
    let complete = &report.complete;
    let band = report.fore_aft.as_ref().zip(report.lateral.as_ref());
    let reach = band.map_or(20.0, |(fore, side)| {
        let furthest = [fore.low_mm, fore.high_mm, complete.x_mm, side.high_mm * 2.0, complete.y_mm * 2.0];
        furthest.iter().map(|mm| mm.abs()).fold(5.0, f64::max)
    });
    let scale = 140.0 / reach as f32;
    // Forward is to the left, right is up: the aircraft seen from above with its nose to the left.
    let at = |x_mm: f64, y_mm: f64| (middle_x - x_mm as f32 * scale, middle_y - y_mm as f32 * scale);
    sheet.line(Ink::Quiet, 1.0, &[(10.0, middle_y), (WIDTH - 10.0, middle_y)]).dashed = true;
    sheet.line(Ink::Quiet, 1.0, &[(middle_x, 20.0), (middle_x, 148.0)]).dashed = true;
    sheet.label(10.0, middle_y - 6.0, "nose", Ink::Quiet, LabelSize::Small, Anchor::Start);
    sheet.label(WIDTH - 10.0, middle_y - 6.0, "tail", Ink::Quiet, LabelSize::Small, Anchor::End);
    sheet.label(middle_x + 4.0, 146.0, "main shaft", Ink::Quiet, LabelSize::Small, Anchor::Start);
    if let Some((fore, side)) = band {
        let (left, top) = at(fore.high_mm, side.high_mm);
        let (right, bottom) = at(fore.low_mm, side.low_mm);
        sheet.bar(Ink::Limit, left, top, right, bottom, false);
        let text = format!("room {:.1} mm fore and aft, {:.1} mm sideways", fore.margin_mm, side.margin_mm);
        sheet.label(middle_x, 14.0, text, Ink::Strong, LabelSize::Large, Anchor::Middle);
    }
    if let Some(fitted) = &report.fitted {
        let (x, y) = at(fitted.x_mm, fitted.y_mm);
        sheet.ring(Ink::Quiet, x, y, 5.0, false);
    }
    let (x, y) = at(complete.x_mm, complete.y_mm);
    sheet.ring(Ink::Strong, x, y, 6.0, true);
    sheet.line(Ink::Strong, 2.0, &[(x - 12.0, y), (x + 12.0, y)]);
    sheet.line(Ink::Strong, 2.0, &[(x, y - 12.0), (x, y + 12.0)]);
    let mut spoken = format!(
        "Balance point {:.1} millimetres ahead of the main shaft, {:.1} to the right",
        complete.x_mm, complete.y_mm
    );
    if let Some((ballast, BallastAnswer::Found { best, .. })) = ballast.map(|ballast| (ballast, &ballast.answer)) {
        let grams = best.whole.as_ref().map(|whole| whole.grams.clone()).unwrap_or_default();
        let used = ballast.inputs.places.iter().zip(grams).filter(|(_, grams)| *grams > 0);
        let words: Vec<String> = used.map(|(place, grams)| format!("{grams} g at {}", place.name)).collect();
        let text = format!("add {}", words.join(", "));
        sheet.label(middle_x, 178.0, text.clone(), Ink::Action, LabelSize::Large, Anchor::Middle);
        spoken.push_str(&format!(", {text}"));
    }
    sheet.finish(height, spoken)
}

/// The drawing as SVG for a report, with the same geometry as on the phone.
pub(crate) fn svg(picture: &Picture) -> String {
    let class = |ink: Ink| match ink {
        Ink::Strong => "strong",
        Ink::Quiet => "quiet",
        Ink::Limit => "limit",
        Ink::Action => "action",
    };
    let escape = |text: &str| text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;");
    let mut out = format!(
        "<svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\">",
        picture.width,
        picture.height,
        escape(&picture.spoken)
    );
    for stroke in &picture.strokes {
        let points: Vec<String> = stroke.points.iter().map(|p| format!("{:.1},{:.1}", p.x, p.y)).collect();
        let tag = if stroke.closed { "polygon" } else { "polyline" };
        let fill = if stroke.filled { " filled" } else { "" };
        let dash = if stroke.dashed { " stroke-dasharray=\"4 4\"" } else { "" };
        out.push_str(&format!(
            "<{tag} class=\"{}{fill}\" stroke-width=\"{}\"{dash} points=\"{}\"/>",
            class(stroke.ink),
            stroke.width,
            points.join(" ")
        ));
    }
    for label in &picture.labels {
        let anchor = match label.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let size = match label.size {
            LabelSize::Small => 10,
            LabelSize::Large => 13,
        };
        out.push_str(&format!(
            "<text class=\"{}\" x=\"{:.1}\" y=\"{:.1}\" font-size=\"{size}\" text-anchor=\"{anchor}\">{}</text>",
            class(label.ink),
            label.x,
            label.y,
            escape(&label.text)
        ));
    }
    out.push_str("</svg>");
    out
}
