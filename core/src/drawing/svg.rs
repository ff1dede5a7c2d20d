//! A drawing for a page.

use super::picture::{Anchor, Ink, LabelSize, Picture};

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
