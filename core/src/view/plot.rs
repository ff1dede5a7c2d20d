//! A log drawn over time: one pane for each channel, its limits as lines, the cursor through all of them. The geometry keeps the least
//! and the greatest of every column, so no spike is lost however much time a column stands for.

use super::{Block, Control, Edit, Icon, PlotReading, Token};
use crate::drawing::Sheet;
use crate::drawing::{Anchor, Ink, LabelSize, Picture};
use crate::engineering::Grade;
use crate::engineering::pack::ripple;
use crate::form::Drafts;
use crate::locale::{Locale, Shown, say};
use crate::telemetry::plot::{PlotLine, cursor, line};
use crate::telemetry::{Limits, Quantity, Recording, Sight, SightStep, Span};

/// The field of the window in view: its start and end in s.
const WINDOW: &str = "window";
/// The field of the channel on top.
const CHANNEL: &str = "channel";
/// The field of the cursor's time in s.
const CURSOR: &str = "cursor";
/// Channels in view at once: more would each be too low to read.
const PANES: usize = 3;
/// Columns of the geometry: one for each unit of the drawing's width. The line is more than two of them thick, so finer ones would
/// fall on each other.
const COLUMNS: u32 = 360;
/// The drawing's edges.
const LEFT: f32 = 6.0;
const RIGHT: f32 = Sheet::WIDTH - 6.0;
/// A pane's words, and its lines below them.
const HEAD: f32 = 38.0;
const PANE: f32 = 76.0;
/// The time axis below a pane, with its times.
const AXIS: f32 = 34.0;
/// Lines of a pane's scale that are at least in it; the lowest and the highest of them bear their numbers.
const LEAST_LEVELS: usize = 2;
/// From a line's height to the base of small letters that stand in its middle.
const HALF_LETTER: f32 = 5.0;
const BETWEEN: f32 = 8.0;
/// The base of a pane's words below its top: type of twice the size neither reaches the pane above nor its own lines.
const BASE: f32 = 21.0;
/// Above the first pane, for the letters of its words.
const ABOVE: f32 = 8.0;
/// A limit this far outside of what was logged, as a share of its range, is told in words and not drawn: it would flatten the line.
const FAR: f64 = 1.0;
/// Limits told at a pane's head.
const WORDED: usize = 2;
/// A pane shows at least this share of its values as its range.
const LEAST_RANGE: f64 = 0.02;
/// A finger that comes down this near to the cursor, as a share of the drawing's width, takes it along.
const GRASP: f64 = 0.07;

/// What of a plot is in view, as its place keeps it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PlotView {
    /// The window and the cursor.
    pub sight: Sight,
    /// The channel on top.
    pub channel: Option<u32>,
    /// Whether a finger took hold of the cursor.
    pub grasped: bool,
}

impl PlotView {
    /// As the form has it, else a stretch of the log, else all of it.
    pub fn of(form: Drafts<'_>, recording: &Recording, begin: Option<(Span, Option<u32>)>) -> PlotView {
        let begin_channel = begin.and_then(|(_, channel)| channel);
        let kept = form.text(WINDOW).and_then(|text| {
            let (start, end) = text.split_once(' ')?;
            Some(Span { start_s: start.parse().ok()?, end_s: end.parse().ok()? })
        });
        let window = kept.or(begin.map(|(span, _)| span)).filter(|span| span.length_s() > 0.0);
        let sight = window.map_or_else(|| Sight::whole(recording), |window| Sight::of(recording, window));
        let cursor_s = form.text(CURSOR).and_then(|text| text.parse().ok());
        let channel = form.text(CHANNEL).and_then(|text| text.parse().ok()).or(begin_channel);
        PlotView { sight: Sight { cursor_s, ..sight }, channel, grasped: false }
    }

    /// Fields and texts that keep it.
    pub fn fields(&self) -> [(&'static str, String); 3] {
        let Sight { window, cursor_s } = self.sight;
        [
            (WINDOW, format!("{:.4} {:.4}", window.start_s, window.end_s)),
            (CURSOR, cursor_s.map_or_else(String::new, |s| format!("{s:.4}"))),
            (CHANNEL, self.channel.map_or_else(String::new, |channel| channel.to_string())),
        ]
    }

    /// After a move by a button.
    pub fn stepped(self, recording: &Recording, step: SightStep) -> PlotView {
        PlotView { sight: self.sight.stepped(recording, step), ..self }
    }

    /// After a report of fingers.
    pub fn touched(self, recording: &Recording, fingers: &super::PlotFingers) -> PlotView {
        let share = along(fingers.middle);
        let shift = f64::from(fingers.shift) * f64::from(Sheet::WIDTH) / f64::from(RIGHT - LEFT);
        let spread = f64::from(fingers.spread);
        match fingers.phase {
            super::PlotPhase::Tap => PlotView { sight: self.sight.pointed(share), grasped: false, ..self },
            super::PlotPhase::Down => {
                let near = |s: f64| (self.sight.share(s) - share).abs() <= GRASP;
                PlotView { grasped: self.sight.cursor_s.is_some_and(near), ..self }
            }
            // Two fingers stretch the plot, whatever the first of them took hold of.
            super::PlotPhase::Move if self.grasped && spread == 1.0 => {
                PlotView { sight: self.sight.pointed(share), ..self }
            }
            super::PlotPhase::Move => {
                let moved = self.sight.moved(recording, shift);
                PlotView { sight: moved.zoomed(recording, share, spread), grasped: false, ..self }
            }
            super::PlotPhase::Up => PlotView { grasped: false, ..self },
        }
    }
}

/// A share of the drawing's width as a share of the time axis.
fn along(share: f32) -> f64 {
    let x = share * Sheet::WIDTH;
    f64::from(((x - LEFT) / (RIGHT - LEFT)).clamp(0.0, 1.0))
}

/// The plot with its readings and its moves.
pub(crate) fn block(locale: Locale, recording: &Recording, limits: &Limits, view: &PlotView) -> Block {
    let panes = panes(locale, recording, limits, view, COLUMNS);
    let window = view.sight.window;
    let at = view.sight.cursor_s.and_then(|s| cursor(recording, s));
    let title = match &at {
        Some(at) => say!(locale, "log-at", time = moment(locale, at.time_s, window)),
        None => say!(
            locale,
            "log-from-to",
            from = moment(locale, window.start_s, window),
            to = moment(locale, window.end_s, window)
        ),
    };
    let readings = panes.iter().map(|pane| PlotReading {
        label: pane.label.clone(),
        value: match (&at, &pane.line) {
            (Some(at), _) => at
                .values
                .get(pane.channel as usize)
                .copied()
                .flatten()
                .map_or_else(|| say!(locale, "log-none"), |value| digits(locale, pane.unit.out(value))),
            (None, Some(line)) => range_words(locale, line, pane.unit),
            (None, None) => say!(locale, "log-none"),
        },
        unit: pane.unit.sign.to_owned(),
    });
    let readings: Vec<PlotReading> = readings.collect();
    let said: Vec<String> = readings.iter().map(|r| format!("{} {} {}", r.label, r.value, r.unit)).collect();
    let spoken = format!("{title}: {}", said.join("; "));
    let picture = draw(
        locale,
        &panes,
        &view.sight,
        Look { line: 2.5, limit: 2.0, spoken: say!(locale, "log-plot-spoken", spoken = spoken) },
    );
    Block::Plot {
        token: Token::fingers(),
        title,
        readings,
        picture,
        actions: actions(locale, recording, view),
        spoken,
    }
}

/// The drawing alone, for a page that nobody touches.
pub(crate) fn printed(locale: Locale, recording: &Recording, limits: &Limits) -> Picture {
    let view = PlotView { sight: Sight::whole(recording), channel: None, grasped: false };
    let panes = panes(locale, recording, limits, &view, 2 * COLUMNS);
    let window = view.sight.window;
    let ranges = panes.iter().filter_map(|pane| {
        let line = pane.line.as_ref()?;
        Some(format!("{} {} {}", pane.label, range_words(locale, line, pane.unit), pane.unit.sign))
    });
    let ranges: Vec<String> = ranges.collect();
    let (from, to) = (moment(locale, window.start_s, window), moment(locale, window.end_s, window));
    draw(
        locale,
        &panes,
        &view.sight,
        Look {
            line: 1.0,
            limit: 1.0,
            spoken: say!(locale, "log-range-spoken", from = from, to = to, ranges = ranges.join("; ")),
        },
    )
}

/// A time of the log as it is read off the plot: as fine as the window lets it be told.
fn moment(locale: Locale, time_s: f64, window: Span) -> String {
    let decimals = match window.length_s() {
        length if length >= 120.0 => 0,
        length if length >= 6.0 => 1,
        length if length >= 0.6 => 2,
        _ => 3,
    };
    let unit = 10f64.powi(decimals);
    let time = (time_s.max(0.0) * unit).round() / unit;
    let (minutes, seconds) = ((time / 60.0).floor(), time % 60.0);
    let width = if decimals == 0 { 2 } else { 3 + decimals as usize };
    let seconds = locale.number(seconds, decimals as usize);
    format!("{minutes:.0}:{seconds:0>width$}")
}

/// As many digits as a person can use.
pub(super) fn digits(locale: Locale, value: f64) -> String {
    let rounded = match value.abs() {
        v if v >= 100.0 => value.round(),
        v if v >= 10.0 => (value * 10.0).round() / 10.0,
        _ => (value * 100.0).round() / 100.0,
    };
    locale.plain(rounded)
}

fn range_words(locale: Locale, line: &PlotLine, unit: Shown) -> String {
    match (digits(locale, unit.out(line.least)), digits(locale, unit.out(line.greatest))) {
        (least, greatest) if least == greatest => least,
        (least, greatest) => say!(locale, "log-least-greatest", least = least, greatest = greatest),
    }
}

/// A line across a pane.
struct PaneLimit {
    value: f64,
    words: String,
}

/// A channel in view.
struct Pane {
    channel: u32,
    label: String,
    /// How its values, kept as the log keeps them, are read.
    unit: Shown,
    line: Option<PlotLine>,
    limits: Vec<PaneLimit>,
    /// Its value at the cursor.
    at: Option<(f64, f64)>,
}

fn panes(locale: Locale, recording: &Recording, limits: &Limits, view: &PlotView, columns: u32) -> Vec<Pane> {
    let at = view.sight.cursor_s.and_then(|s| cursor(recording, s));
    let pane = |channel: u32| {
        let mapped = &recording.channels.get(channel as usize)?.mapped;
        let value = at.as_ref().and_then(|at| Some((at.time_s, at.values.get(channel as usize).copied().flatten()?)));
        Some(Pane {
            channel,
            label: mapped.label.clone(),
            unit: mapped.quantity.unit().shown_in(locale),
            line: line(recording, channel, view.sight.window, columns),
            limits: limits_of(locale, mapped, limits),
            at: value,
        })
    };
    shown(recording, view.channel).into_iter().filter_map(pane).collect()
}

/// Which channels are in view: the one that was chosen first, then what matters most of a flight.
fn shown(recording: &Recording, first: Option<u32>) -> Vec<u32> {
    let order = [Quantity::PackCurrent, Quantity::PackVoltage, Quantity::HeadSpeed, Quantity::Temperature];
    let place = |quantity| recording.channels.iter().position(|c| c.mapped.quantity == quantity);
    let best = order.into_iter().filter_map(place).filter_map(|at| u32::try_from(at).ok());
    let mut channels: Vec<u32> = Vec::new();
    for channel in first.into_iter().chain(best).chain((0..).take(recording.channels.len())) {
        if !channels.contains(&channel) {
            channels.push(channel);
        }
    }
    channels.truncate(PANES);
    channels
}

fn limits_of(locale: Locale, mapped: &crate::telemetry::MappedColumn, limits: &Limits) -> Vec<PaneLimit> {
    let shown = mapped.quantity.unit().shown_in(locale);
    let unit = shown.sign;
    let of_channel = limits
        .channels
        .iter()
        .filter(|limit| limit.quantity == mapped.quantity && (limit.place.is_none() || limit.place == mapped.place));
    let mut found: Vec<PaneLimit> = of_channel
        .map(|limit| {
            let value = digits(locale, shown.out(limit.value));
            let words = match limit.grade {
                Grade::Stop => say!(locale, "log-limit-stop", value = value, unit = unit),
                Grade::Caution | Grade::Ok => say!(locale, "log-limit-caution", value = value, unit = unit),
            };
            PaneLimit { value: limit.value, words }
        })
        .collect();
    match mapped.quantity {
        Quantity::Ripple => {
            let limit_v = limits.cells.and_then(|cells| ripple(cells, 0.0).ok()).map(|report| report.limit_v);
            found.extend(limit_v.map(|v| PaneLimit {
                value: v,
                words: say!(locale, "log-limit", value = digits(locale, v), unit = unit),
            }));
        }
        Quantity::HeadSpeed => {
            let set = limits.set_head_speed_rpm;
            found.extend(set.map(|rpm| PaneLimit {
                value: rpm,
                words: say!(locale, "log-limit-set", rpm = locale.number(rpm, 0), unit = unit),
            }));
        }
        _ => {}
    }
    found
}

struct Look {
    line: f32,
    limit: f32,
    spoken: String,
}

fn draw(locale: Locale, panes: &[Pane], sight: &Sight, look: Look) -> Picture {
    let mut sheet = Sheet::new();
    let x = |time_s: f64| LEFT + (RIGHT - LEFT) * (sight.share(time_s) as f32).clamp(0.0, 1.0);
    let cursor_share = sight.cursor_s.map(|s| sight.share(s)).filter(|share| (0.0..=1.0).contains(share));
    let mut top = ABOVE;
    for (index, pane) in panes.iter().enumerate() {
        let floor = top + HEAD + PANE;
        if let Some(share) = cursor_share {
            let x = LEFT + (RIGHT - LEFT) * share as f32;
            sheet.line(Ink::Action, 2.0, &[(x, top + HEAD), (x, floor)]);
        }
        draw_pane(locale, &mut sheet, pane, top, &x, &look);
        top = floor + BETWEEN;
        // Below the first trace, where both are seen together on any phone, and again below the last.
        if index == 0 || index + 1 == panes.len() {
            draw_axis(locale, &mut sheet, sight, floor + 4.0);
            top = floor + 4.0 + AXIS;
        }
    }
    sheet.finish(top, look.spoken)
}

/// The time axis: the window's begin, middle and end.
fn draw_axis(locale: Locale, sheet: &mut Sheet, sight: &Sight, y: f32) {
    sheet.line(Ink::Quiet, 1.0, &[(LEFT, y), (RIGHT, y)]);
    for (share, anchor) in [(0.0, Anchor::Start), (0.5, Anchor::Middle), (1.0, Anchor::End)] {
        let x = LEFT + (RIGHT - LEFT) * share as f32;
        sheet.line(Ink::Quiet, 1.0, &[(x, y), (x, y + 5.0)]);
        let words = moment(locale, sight.time_s(share), sight.window);
        sheet.label(x, y + 26.0, words, Ink::Quiet, LabelSize::Small, anchor);
    }
}

/// The heights of a scale between two values: multiples of one, two or five times a power of ten, as few as there can be. None where
/// there is no range.
fn levels(low: f64, high: f64) -> Vec<f64> {
    let range = high - low;
    if !range.is_finite() || range <= f64::EPSILON * low.abs().max(high.abs()).max(1.0) {
        return Vec::new();
    }
    let power = 10f64.powf(range.log10().floor());
    let within = |step: f64| -> Vec<f64> {
        let (first, last) = ((low / step).ceil(), (high / step).floor());
        // Never more than the fifty of the finest step: the range is less than ten of its power.
        let count = (last - first + 1.0).clamp(0.0, 51.0) as u32;
        (0..count).map(|n| (first + f64::from(n)) * step + 0.0).collect()
    };
    let steps = [5.0, 2.0, 1.0, 0.5, 0.2].into_iter().map(|part| part * power);
    steps.map(within).find(|levels| levels.len() >= LEAST_LEVELS).unwrap_or_default()
}

fn draw_pane(locale: Locale, sheet: &mut Sheet, pane: &Pane, top: f32, x: &impl Fn(f64) -> f32, look: &Look) {
    let (ceiling, floor) = (top + HEAD, top + HEAD + PANE);
    let Some(line) = &pane.line else {
        sheet.label(LEFT, top + BASE, pane.label.clone(), Ink::Strong, LabelSize::Small, Anchor::Start);
        sheet.label(RIGHT, top + BASE, say!(locale, "log-no-values"), Ink::Quiet, LabelSize::Small, Anchor::End);
        return;
    };
    // A line that hardly moves is not blown up to a range of hills.
    let range = (line.greatest - line.least).max(LEAST_RANGE * line.greatest.abs().max(line.least.abs())).max(1e-9);
    let near =
        |limit: &&PaneLimit| limit.value >= line.least - FAR * range && limit.value <= line.greatest + FAR * range;
    let (near, far): (Vec<&PaneLimit>, Vec<&PaneLimit>) = pane.limits.iter().partition(near);
    let middle = 0.5 * (line.least + line.greatest);
    let low = near.iter().map(|limit| limit.value).fold(line.least.min(middle - range / 2.0), f64::min);
    let high = near.iter().map(|limit| limit.value).fold(line.greatest.max(middle + range / 2.0), f64::max);
    let y = |value: f64| floor - (PANE - 6.0) * ((value - low) / (high - low)) as f32 - 3.0;

    sheet.label(LEFT, top + BASE, pane.label.clone(), Ink::Strong, LabelSize::Small, Anchor::Start);
    // Words beside the lines would lie on them at large type: the head tells what they are, else the nearest that is out of the picture.
    let off = far.iter().min_by(|a, b| (a.value - middle).abs().total_cmp(&(b.value - middle).abs()));
    let words: Vec<&str> = near.iter().take(WORDED).map(|limit| limit.words.as_str()).collect();
    let words = match off.filter(|_| words.is_empty()) {
        Some(limit) if limit.value > middle => say!(locale, "log-limit-above", limit = limit.words),
        Some(limit) => say!(locale, "log-limit-below", limit = limit.words),
        None => words.join(", "),
    };
    if !words.is_empty() {
        sheet.label(RIGHT, top + BASE, words, Ink::Limit, LabelSize::Small, Anchor::End);
    }
    sheet.line(Ink::Quiet, 1.0, &[(LEFT, floor), (RIGHT, floor)]);
    // In the units that the person reads, so that the numbers are round ones there.
    let scale = levels(pane.unit.out(low), pane.unit.out(high));
    let height = |level: f64| y(pane.unit.back(level));
    for level in &scale {
        sheet.line(Ink::Quiet, 0.5, &[(LEFT, height(*level)), (RIGHT, height(*level))]);
    }
    for stroke in &line.strokes {
        let points: Vec<(f32, f32)> = stroke.iter().map(|point| (x(point.time_s), y(point.value))).collect();
        sheet.line(Ink::Strong, look.line, &points);
    }
    for limit in near {
        let level = y(limit.value);
        sheet.line(Ink::Limit, look.limit, &[(LEFT, level), (RIGHT, level)]).dashed = true;
    }
    // Over the lines, each with its halo.
    let number = |level: f64| locale.number(level, decimals_of(&scale));
    let low = scale.first().map(|level| (*level, number(*level)));
    let high = scale.last().map(|level| (*level, format!("{} {}", number(*level), pane.unit.sign).trim().to_owned()));
    for (level, words) in low.into_iter().chain(high) {
        sheet.label(LEFT, height(level) + HALF_LETTER, words, Ink::Quiet, LabelSize::Small, Anchor::Start);
    }
    if let Some((time_s, value)) = pane.at {
        let level = y(value).clamp(ceiling, floor);
        sheet.ring(Ink::Action, x(time_s), level, 5.0, true);
    }
}

/// Digits behind the mark that tell the levels of a scale apart.
fn decimals_of(levels: &[f64]) -> usize {
    let step = levels.windows(2).next().map_or(1.0, |pair| pair[1] - pair[0]);
    (-(step * 1.000_001).log10().floor()).clamp(0.0, 6.0) as usize
}

fn actions(locale: Locale, recording: &Recording, view: &PlotView) -> Vec<Control> {
    let button = |step: SightStep, label: String, spoken: String| {
        Control::new(Edit::MovePlot(step).into(), label).spoken(spoken)
    };
    let has_cursor = view.sight.cursor_s.is_some();
    let all = view.sight.window == Sight::whole(recording).window;
    let mut actions = vec![
        button(SightStep::Closer, say!(locale, "log-closer"), say!(locale, "log-closer-spoken")).icon(Icon::Add),
        button(SightStep::Wider, say!(locale, "log-wider"), say!(locale, "log-wider-spoken"))
            .icon(Icon::Remove)
            .unless(all.then(|| say!(locale, "log-all-in-view"))),
        button(SightStep::Earlier, say!(locale, "log-earlier"), say!(locale, "log-earlier-spoken")).icon(Icon::Back),
        button(SightStep::Later, say!(locale, "log-later"), say!(locale, "log-later-spoken")).icon(Icon::Next),
        button(SightStep::Whole, say!(locale, "log-whole"), say!(locale, "log-whole-spoken")),
    ];
    if has_cursor {
        actions.push(button(
            SightStep::CursorBack,
            say!(locale, "log-cursor-back"),
            say!(locale, "log-cursor-back-spoken"),
        ));
        actions.push(button(
            SightStep::CursorOn,
            say!(locale, "log-cursor-on"),
            say!(locale, "log-cursor-on-spoken"),
        ));
        actions.push(button(
            SightStep::CursorOff,
            say!(locale, "log-cursor-off"),
            say!(locale, "log-cursor-off-spoken"),
        ));
    } else {
        actions.push(button(SightStep::CursorOn, say!(locale, "log-cursor"), say!(locale, "log-cursor-spoken")));
    }
    actions
}

/// Which channel stands on top, for a log with more of them than panes.
pub(super) fn channels(locale: Locale, recording: &Recording, view: &PlotView) -> Option<Block> {
    if recording.channels.len() < 2 {
        return None;
    }
    let top = shown(recording, view.channel).first().copied();
    let options = (0_u32..).zip(&recording.channels).map(|(index, channel)| {
        let label = channel.mapped.label.clone();
        let spoken = say!(locale, "log-on-top-spoken", label = label);
        Control::new(Edit::ShowChannel(index).into(), label).chosen(Some(index) == top).spoken(spoken)
    });
    Some(Block::Choice { label: say!(locale, "log-on-top"), options: options.take(40).collect() })
}
