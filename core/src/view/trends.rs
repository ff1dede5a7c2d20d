//! Trends over the aircraft's life: each as a line of readings, with what the test for drift says of it.

use super::chart::Sheet;
use super::context::{heading, paragraph};
use super::{Anchor, Block, Context, Edge, Ink, LabelSize, Picture, Tone, check_title, counted};
use crate::computed::{FEWEST_FOR_DRIFT, Trend, TrendOf, TrendReading, trends as computed_trends};

/// Trends with fewer readings than this show no line.
const DRAWN: usize = 2;
/// Further ones are listed by their last value alone.
const MOST_DRAWN: usize = 12;

/// How figures went over the aircraft's life.
pub(super) fn trends(context: &Context<'_>) -> super::Screen {
    let trends = computed_trends(context.facts(), |card| super::log_of(context.entries, card));
    let drifting = trends.iter().filter(|trend| trend.drift.is_some()).count();
    let tested = trends.iter().filter(|trend| trend.readings.len() >= FEWEST_FOR_DRIFT).count();
    let (text, edge) = match (drifting, tested) {
        (0, 0) => ("Too little was read so far to see a drift.".to_owned(), Edge::Missing),
        (0, _) => ("Nothing has drifted.".to_owned(), Edge::Fresh),
        _ => (format!("{} drifted.", counted(drifting, "figure has", "figures have")), Edge::Caution),
    };
    let detail = format!("{} with {FEWEST_FOR_DRIFT} readings or more", counted(tested, "figure", "figures"));
    let mut blocks = vec![Block::Verdict { text, detail: Some(detail), edge }];
    let (drawn, single): (Vec<&Trend>, Vec<&Trend>) = trends.iter().partition(|trend| trend.readings.len() >= DRAWN);
    for trend in drawn.iter().take(MOST_DRAWN) {
        blocks.extend(trend_blocks(context, trend));
    }
    let rest: Vec<&Trend> = drawn.into_iter().skip(MOST_DRAWN).chain(single).collect();
    if !rest.is_empty() {
        let note = if trends.len() > MOST_DRAWN { "the last reading of each" } else { "read once so far" };
        blocks.push(heading("Also read", Some(note.to_owned())));
        blocks.extend(rest.into_iter().map(|trend| last_row(context, trend)));
    }
    blocks.push(paragraph(
        "A cumulative sum after Hawkins (1987): five in a hundred that something is told to drift that does not, over a hundred \
         readings. It wants readings taken in the same way: a pack as warm and as full, the same test point. Hover power is \
         brought to standard air at sea level, heat is told above the air of its day.",
        Tone::Quiet,
    ));
    context.screen("trends", "Trends", Some(context.aircraft_name()), blocks)
}

fn title(context: &Context<'_>, of: &TrendOf) -> (String, String) {
    let place = |id: &str| context.plan.place(id).map_or_else(|| id.to_owned(), |place| place.title.clone());
    match of {
        TrendOf::Resistance { pack } => (format!("{pack}, resistance"), "as read".to_owned()),
        TrendOf::LoggedResistance { pack } => (format!("{pack} and leads, resistance"), "by the logs".to_owned()),
        TrendOf::Heat { check, place: id } => {
            (format!("{}, above the air", place(id)), check_title(context.plan, check))
        }
        TrendOf::HoverPower { check } => ("Hover power in standard air".to_owned(), check_title(context.plan, check)),
        TrendOf::Vibration => ("Shakes and sounds noted".to_owned(), "for each minute flown".to_owned()),
    }
}

fn trend_blocks(context: &Context<'_>, trend: &Trend) -> Vec<Block> {
    let (name, note) = title(context, &trend.of);
    let (edge, words) = verdict(context, trend);
    let last = trend.readings.last().map_or(0.0, |reading| reading.value);
    vec![
        heading(&name, Some(note)),
        Block::Figure {
            label: format!("Last of {}", counted(trend.readings.len(), "reading", "readings")),
            value: shown(trend, last),
            unit: trend.unit.sign().to_owned(),
            note: Some(words.clone()),
            edge,
        },
        Block::Drawing { picture: picture(context, trend, format!("{name}: {words}")) },
    ]
}

fn last_row(context: &Context<'_>, trend: &Trend) -> Block {
    let (name, note) = title(context, &trend.of);
    let last = trend.readings.last().map_or(0.0, |reading| reading.value);
    let detail = format!("{} {}, {note}", shown(trend, last), trend.unit.sign());
    super::context::still_row(Edge::None, "", &name, Some(detail))
}

fn shown(trend: &Trend, value: f64) -> String {
    format!("{value:.*}", trend.digits)
}

fn verdict(context: &Context<'_>, trend: &Trend) -> (Edge, String) {
    let count = trend.readings.len();
    let Some(drift) = &trend.drift else {
        return match FEWEST_FOR_DRIFT.saturating_sub(count) {
            0 => (Edge::Fresh, "no drift".to_owned()),
            more => (
                Edge::Missing,
                format!("{} before a drift can be told", counted(more, "reading more", "readings more")),
            ),
        };
    };
    let change = format!("{:+.*}", trend.digits, drift.change).replace('-', "\u{2212}");
    let width = drift.half_width.map_or_else(String::new, |width| format!(" ± {}", shown(trend, width)));
    let since = trend.readings.get(drift.since as usize).map_or_else(String::new, |reading| when(context, reading));
    (Edge::Caution, format!("drifted: {change}{width} {} since {since}", trend.unit.sign()))
}

fn when(context: &Context<'_>, reading: &TrendReading) -> String {
    match &reading.at {
        Some(at) => super::day(context.locale, at, context.now),
        None => format!("{:.0} flights", reading.flights),
    }
}

/// The readings as points, with the means before and after a drift.
fn picture(context: &Context<'_>, trend: &Trend, spoken: String) -> Picture {
    let mut sheet = Sheet::new();
    let (left, right, top, bottom) = (12.0_f32, Sheet::WIDTH - 12.0, 24.0_f32, 120.0_f32);
    let values: Vec<f64> = trend.readings.iter().map(|reading| reading.value).collect();
    let (least, greatest) =
        values.iter().fold((f64::MAX, f64::MIN), |(low, high), value| (low.min(*value), high.max(*value)));
    // Scatter of a few hundredths is not blown up to hills.
    let range = (greatest - least).max(0.1 * greatest.abs()).max(1e-6);
    let low = 0.5 * (least + greatest) - range / 2.0;
    let last = (values.len() - 1).max(1) as f32;
    let x = |index: usize| left + (right - left) * index as f32 / last;
    let y = |value: f64| bottom - (bottom - top) * ((value - low) / range) as f32;
    let points: Vec<(f32, f32)> = values.iter().enumerate().map(|(index, value)| (x(index), y(*value))).collect();
    sheet.line(Ink::Quiet, 1.0, &[(left, bottom + 8.0), (right, bottom + 8.0)]);
    if let Some(drift) = &trend.drift {
        let since = drift.since as usize;
        let mean = |part: &[f64]| part.iter().sum::<f64>() / part.len().max(1) as f64;
        let (before, after) = values.split_at(since.min(values.len()));
        if !before.is_empty() && !after.is_empty() {
            let edge = 0.5 * (x(since.saturating_sub(1)) + x(since));
            sheet.line(Ink::Quiet, 2.0, &[(left, y(mean(before))), (edge, y(mean(before)))]).dashed = true;
            sheet.line(Ink::Action, 3.0, &[(edge, y(mean(after))), (right, y(mean(after)))]);
            sheet.line(Ink::Limit, 2.0, &[(edge, top - 8.0), (edge, bottom + 8.0)]).dashed = true;
        }
    }
    sheet.line(Ink::Strong, 2.5, &points);
    for (x, y) in &points {
        sheet.ring(Ink::Strong, *x, *y, 4.0, true);
    }
    let of = |reading: Option<&TrendReading>| reading.map_or_else(String::new, |reading| when(context, reading));
    let unit = trend.unit.sign();
    let first_words = format!("{} {unit}", shown(trend, values[0]));
    sheet.label(left, 14.0, first_words, Ink::Quiet, LabelSize::Small, Anchor::Start);
    let last_words = format!("{} {unit}", shown(trend, values[values.len() - 1]));
    sheet.label(right, 14.0, last_words, Ink::Strong, LabelSize::Small, Anchor::End);
    sheet.label(left, bottom + 24.0, of(trend.readings.first()), Ink::Quiet, LabelSize::Small, Anchor::Start);
    sheet.label(right, bottom + 24.0, of(trend.readings.last()), Ink::Quiet, LabelSize::Small, Anchor::End);
    sheet.finish(bottom + 30.0, spoken)
}

/// The row that leads there.
pub(super) fn trends_row() -> Block {
    let detail = Some("what drifts, flight by flight".to_owned());
    super::context::row(Edge::None, "", "Trends over its life", detail, super::Place::Trends)
}
