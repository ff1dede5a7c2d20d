//! Trends over the aircraft's life: each as a line of readings, with what the test for drift says of it.

use super::context::{heading, paragraph};
use super::{Block, Context, Edge, Tone, check_title};
use crate::computed::{FEWEST_FOR_DRIFT, Trend, TrendOf, TrendReading, trends as computed_trends};
use crate::drawing::Sheet;
use crate::drawing::{Anchor, Ink, LabelSize, Picture};
use crate::locale::{Locale, say};

/// Trends with fewer readings than this show no line.
const DRAWN: usize = 2;
/// Further ones are listed by their last value alone.
const MOST_DRAWN: usize = 12;

/// How figures went over the aircraft's life.
pub(super) fn trends(context: &Context<'_>) -> super::Screen {
    let trends = computed_trends(context.facts());
    let drifting = trends.iter().filter(|trend| trend.drift.is_some()).count();
    let tested = trends.iter().filter(|trend| trend.can_tell).count();
    let few = trends.len() - tested;
    let (text, edge) = match (drifting, tested) {
        (0, 0) => (say!(context.locale, "log-too-little"), Edge::Missing),
        (0, _) if few > 0 => {
            (say!(context.locale, "log-nothing-drifted-of", tested = tested, few = few), Edge::Missing)
        }
        (0, _) => (say!(context.locale, "log-nothing-drifted"), Edge::Fresh),
        _ => (say!(context.locale, "log-drifted", count = drifting), Edge::Caution),
    };
    let often = trends.iter().filter(|trend| trend.readings.len() >= FEWEST_FOR_DRIFT).count();
    let detail = say!(context.locale, "log-tested", count = often, fewest = FEWEST_FOR_DRIFT);
    let mut blocks = vec![Block::Verdict { text, detail: Some(detail), edge }];
    let (drawn, single): (Vec<&Trend>, Vec<&Trend>) = trends.iter().partition(|trend| trend.readings.len() >= DRAWN);
    for trend in drawn.iter().take(MOST_DRAWN) {
        blocks.extend(trend_blocks(context, trend));
    }
    let rest: Vec<&Trend> = drawn.into_iter().skip(MOST_DRAWN).chain(single).collect();
    if !rest.is_empty() {
        let note = if trends.len() > MOST_DRAWN {
            say!(context.locale, "log-last-of-each")
        } else {
            say!(context.locale, "log-read-once")
        };
        blocks.push(heading(say!(context.locale, "log-also-read"), Some(note.to_owned())));
        blocks.extend(rest.into_iter().map(|trend| last_row(context, trend)));
    }
    blocks.push(paragraph(say!(context.locale, "log-drift-method"), Tone::Quiet));
    context.screen("trends", say!(context.locale, "log-trends"), Some(context.aircraft_name()), blocks)
}

fn title(context: &Context<'_>, of: &TrendOf) -> (String, String) {
    let place = |id: &str| context.plan.place(id).map_or_else(|| id.to_owned(), |place| place.title.clone());
    match of {
        TrendOf::Resistance { pack } => {
            (say!(context.locale, "log-pack-resistance", pack = pack), say!(context.locale, "log-as-read"))
        }
        TrendOf::LoggedResistance { pack } => {
            (say!(context.locale, "log-leads-resistance", pack = pack), say!(context.locale, "log-by-the-logs"))
        }
        TrendOf::Heat { check, place: id } => {
            (say!(context.locale, "log-above-air", place = place(id)), check_title(context.plan, check))
        }
        TrendOf::HoverPower { check } => (say!(context.locale, "log-hover-power"), check_title(context.plan, check)),
        TrendOf::Vibration => (say!(context.locale, "log-shakes"), say!(context.locale, "log-each-minute")),
    }
}

fn trend_blocks(context: &Context<'_>, trend: &Trend) -> Vec<Block> {
    let (name, note) = title(context, &trend.of);
    let (edge, words) = verdict(context, trend);
    let last = trend.readings.last().map_or(0.0, |reading| reading.value);
    let (least, greatest) = range(trend.readings.iter().map(|reading| reading.value));
    vec![
        heading(&name, Some(note)),
        Block::Figure {
            label: say!(
                context.locale,
                "log-last-of",
                count = trend.readings.len(),
                least = shown(context.locale, trend, least),
                greatest = shown(context.locale, trend, greatest)
            ),
            value: shown(context.locale, trend, last),
            unit: context.locale.shown(trend.unit).sign.to_owned(),
            note: Some(words.clone()),
            edge,
        },
        Block::Drawing { picture: picture(context, trend, format!("{name}: {words}")) },
    ]
}

fn last_row(context: &Context<'_>, trend: &Trend) -> Block {
    let (name, note) = title(context, &trend.of);
    let last = trend.readings.last().map_or(0.0, |reading| reading.value);
    let detail = format!("{} {}, {note}", shown(context.locale, trend, last), context.locale.shown(trend.unit).sign);
    super::context::still_row(Edge::None, "", &name, Some(detail))
}

/// Least and greatest of some readings; there is at least one.
fn range(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::MAX, f64::MIN), |(low, high), value| (low.min(value), high.max(value)))
}

fn shown(locale: Locale, trend: &Trend, value: f64) -> String {
    locale.bare(value, trend.digits, trend.unit)
}

fn verdict(context: &Context<'_>, trend: &Trend) -> (Edge, String) {
    let count = trend.readings.len();
    let Some(drift) = &trend.drift else {
        return match FEWEST_FOR_DRIFT.saturating_sub(count) {
            0 if trend.can_tell => (Edge::Fresh, say!(context.locale, "log-no-drift")),
            0 => (Edge::Missing, say!(context.locale, "log-cannot-tell")),
            more => (Edge::Missing, say!(context.locale, "log-before-drift", count = more)),
        };
    };
    let change = context.locale.bare(drift.change, trend.digits, trend.unit);
    let change = if drift.change < 0.0 { change.replace('-', "\u{2212}") } else { format!("+{change}") };
    let width =
        drift.half_width.map_or_else(String::new, |width| format!(" ± {}", shown(context.locale, trend, width)));
    let since = trend.readings.get(drift.since as usize).map_or_else(String::new, |reading| when(context, reading));
    (
        Edge::Caution,
        say!(
            context.locale,
            "log-drifted-by",
            change = change,
            width = width,
            unit = context.locale.shown(trend.unit).sign,
            since = since
        ),
    )
}

fn when(context: &Context<'_>, reading: &TrendReading) -> String {
    match &reading.at {
        Some(at) => super::day(context.locale, at, context.now),
        None => say!(context.locale, "log-flights", flights = context.locale.number(reading.flights, 0)),
    }
}

/// The readings as points, with the means before and after a drift.
fn picture(context: &Context<'_>, trend: &Trend, spoken: String) -> Picture {
    let mut sheet = Sheet::new();
    let (left, right, top, bottom) = (12.0_f32, Sheet::WIDTH - 12.0, 24.0_f32, 120.0_f32);
    let values: Vec<f64> = trend.readings.iter().map(|reading| reading.value).collect();
    let (least, greatest) = range(values.iter().copied());
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
    let unit = context.locale.shown(trend.unit).sign;
    let first_words = format!("{} {unit}", shown(context.locale, trend, values[0]));
    sheet.label(left, 14.0, first_words, Ink::Quiet, LabelSize::Small, Anchor::Start);
    let last_words = format!("{} {unit}", shown(context.locale, trend, values[values.len() - 1]));
    sheet.label(right, 14.0, last_words, Ink::Strong, LabelSize::Small, Anchor::End);
    sheet.label(left, bottom + 24.0, of(trend.readings.first()), Ink::Quiet, LabelSize::Small, Anchor::Start);
    sheet.label(right, bottom + 24.0, of(trend.readings.last()), Ink::Quiet, LabelSize::Small, Anchor::End);
    sheet.finish(bottom + 30.0, spoken)
}

/// The row that leads there.
pub(super) fn trends_row(locale: Locale) -> Block {
    let detail = Some(say!(locale, "log-trends-note"));
    super::context::row(Edge::None, "", say!(locale, "log-trends-row"), detail, super::Place::Trends)
}
