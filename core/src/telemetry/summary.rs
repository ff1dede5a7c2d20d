//! The figures of a log, each with the stretch of the plot that it comes from.

use serde::{Deserialize, Serialize};

use super::error::{FigureLack, TelemetryError};
use super::grid::{Grid, quantile, smooth};
use super::integrals::{bridge, of_channel};
use super::quantity::{LogUnit, Quantity};
use super::recording::{Channel, Recording, Span};
use super::sag::sag;
use super::segments::{Flying, Manner, find};
use super::taken::{COULOMB_PER_MAH, Counted, Taken, agrees, counted, taken};
use super::time_past::time_past;
use crate::engineering::Grade;
use crate::engineering::heat::{HeatReading, NORMAL_95, RiseFit, fit_rise, least_step};
use crate::engineering::pack::ripple;
use crate::locale::{Locale, say, with_sign};
use crate::unit::Unit;

pub use super::sag::Sag;

/// Which side of a limit is the bad one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// Above it.
    Above,
    /// Below it.
    Below,
}

/// A limit that a channel is held against.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ChannelLimit {
    /// Which quantity.
    pub quantity: Quantity,
    /// For a temperature: the plan's place. None holds every temperature against it.
    pub place: Option<String>,
    /// The limit, in the unit that the quantity is kept in.
    pub value: f64,
    /// The bad side.
    pub side: Side,
    /// How bad it is.
    pub grade: Grade,
    /// Where the limit comes from.
    pub basis: String,
}

/// What the figures are held against.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Limits {
    /// Cells in series of the flight pack, for its ripple.
    pub cells: Option<u32>,
    /// Head speed that the governor was set to, in rpm.
    pub set_head_speed_rpm: Option<f64>,
    /// Limits of channels.
    pub channels: Vec<ChannelLimit>,
}

/// What a figure is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum FigureKind {
    /// Time in flight, in s.
    FlightTime,
    /// Greatest value in flight.
    Peak,
    /// Least value in flight.
    Lowest,
    /// Mean over the time of flight.
    Average,
    /// Mean over the time of all hover segments.
    HoverAverage,
    /// Time past a limit, in s.
    PastLimit,
    /// Charge taken over the log, ground and flight, in mAh; of logs attached before December 2026, in flight alone.
    Charge,
    /// Energy taken over the log, ground and flight, in Wh; of logs attached before December 2026, in flight alone.
    Energy,
    /// Resistance of pack and leads, in mohm.
    Resistance,
    /// Voltage lost at the greatest current, in V.
    Sag,
    /// Ripple on the pack, peak to peak, in V.
    Ripple,
    /// Mean head speed in hover less what was set, in rpm.
    HeadSpeedError,
    /// Deepest fall of the head speed under load, in rpm.
    HeadSpeedDroop,
    /// Steady temperature of a rise, in deg C.
    SteadyTemperature,
    /// Time constant of a rise, in s.
    TimeConstant,
    /// Time without a value in flight, in s.
    DropOut,
}

/// One figure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LogFigure {
    /// What it is.
    pub kind: FigureKind,
    /// The channel it is of, by its place in [`Recording::channels`].
    pub channel: Option<u32>,
    /// Its value.
    pub value: f64,
    /// The unit's sign.
    pub unit: String,
    /// Half width of its 95 % interval, where it has one.
    pub half_width: Option<f64>,
    /// Where in the plot it comes from.
    pub span: Span,
    /// How it stands against its limit, where it has one.
    pub grade: Option<Grade>,
    /// What a person should know with it: the limit, the basis.
    pub note: String,
    /// The limit that a time past it counts against; none in logs that were attached before it was stored.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<ChannelLimit>,
}

/// Means over a segment, one for each channel.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SegmentMeans {
    /// Which flight, counted from zero.
    pub flight: u32,
    /// How it was flown.
    pub manner: Manner,
    /// Where in the log.
    pub span: Span,
    /// Mean over time of each channel; none where it has no values there.
    pub means: Vec<Option<f64>>,
}

/// A temperature's rise in flight.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Rise {
    /// The channel.
    pub channel: u32,
    /// The fit; its times are s since the rise's start.
    pub fit: RiseFit,
    /// Where in the log.
    pub span: Span,
}

/// What a log says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Summary {
    /// Flights and segments.
    pub flying: Flying,
    /// Means by segment.
    pub segments: Vec<SegmentMeans>,
    /// What voltage does with current, if both were logged and the current varied.
    pub sag: Option<Sag>,
    /// The temperatures' rises.
    pub rises: Vec<Rise>,
    /// Every figure, for a person.
    pub figures: Vec<LogFigure>,
}

/// Joule in a watt hour.
const JOULE_PER_WH: f64 = 3_600.0;
/// Rises are fitted to at most so many points.
const RISE_POINTS: usize = 400;
/// A temperature's readings scatter by no more than this (common practice, no source).
const MOST_SCATTER_K: f64 = 1.0;
/// More drop-outs than these are summed, not told one by one.
const DROP_OUTS_TOLD: usize = 20;

/// The figures of a log, with English notes: for other programs.
///
/// # Errors
/// No flight can be found in it: neither current, power nor head speed is mapped, or nothing flew.
pub fn summarise(recording: &Recording, limits: &Limits) -> Result<Summary, TelemetryError> {
    summarise_for(recording, limits, Locale::default())
}

/// The same with notes for whoever reads like this. They are recorded as they are: a note stays in the language that it was made in.
///
/// # Errors
/// As [`summarise`].
pub fn summarise_for(recording: &Recording, limits: &Limits, locale: Locale) -> Result<Summary, TelemetryError> {
    let flying = find(recording)?;
    let (Some(first), Some(last)) = (flying.flights.first(), flying.flights.last()) else {
        return Err(TelemetryError::figure(FigureLack::NoFlight));
    };
    let whole = Span { start_s: first.span.start_s, end_s: last.span.end_s };
    let mut all = Figures { recording, flying: &flying, whole, figures: Vec::new(), locale };
    all.flight_time();
    all.extremes_and_averages();
    all.past_limits(limits);
    all.charge_and_energy();
    let sag = sag(recording, first.span);
    all.sag(sag.as_ref());
    all.ripple(limits.cells);
    all.head_speed(limits.set_head_speed_rpm);
    let rises = rises(recording, &flying);
    all.rises(&rises);
    all.drop_outs();
    let figures = all.figures;
    Ok(Summary { segments: segment_means(recording, &flying), flying, sag, rises, figures })
}

struct Figures<'a> {
    recording: &'a Recording,
    flying: &'a Flying,
    whole: Span,
    figures: Vec<LogFigure>,
    /// How whoever reads the notes reads.
    locale: Locale,
}

impl Figures<'_> {
    fn push(&mut self, kind: FigureKind, channel: Option<u32>, value: f64, unit: &str, span: Span) -> &mut LogFigure {
        self.figures.push(LogFigure {
            kind,
            channel,
            value,
            unit: unit.to_owned(),
            half_width: None,
            span,
            grade: None,
            note: String::new(),
            limit: None,
        });
        let last = self.figures.len() - 1;
        &mut self.figures[last]
    }

    fn flight_time(&mut self) {
        let total_s = self.flying.flights.iter().map(|flight| flight.span.length_s()).sum();
        let flights = self.flying.flights.len();
        let note = if flights > 1 { say!(self.locale, "log-note-flights", count = flights) } else { String::new() };
        let unsure_s = self.flying.flights.iter().map(|flight| self.ends_unsure_s(flight.span)).sum();
        let figure = self.push(FigureKind::FlightTime, None, total_s, "s", self.whole);
        figure.half_width = Some(unsure_s);
        figure.note = note;
    }

    /// What a flight's time may be off by: half a step of what it was found on at either end, and a gap that an end lies at.
    fn ends_unsure_s(&self, flight: Span) -> f64 {
        let step_s = Grid::over(self.recording).step_s;
        let at = |end_s: f64| move |gap: &Span| gap.start_s <= end_s + step_s && gap.end_s >= end_s - step_s;
        let gap_s = |end_s: f64| self.recording.gaps().find(at(end_s)).map_or(0.0, |gap| gap.length_s());
        step_s + gap_s(flight.start_s) + gap_s(flight.end_s)
    }

    fn extremes_and_averages(&mut self) {
        for (index, channel) in self.recording.channels.iter().enumerate() {
            let unit = channel.mapped.quantity.unit().sign();
            if let Some((value, time_s)) = self.extreme(channel.greatest(), |new, best| new > best) {
                self.push(FigureKind::Peak, Some(number(index)), value, unit, about(time_s, self.whole));
            }
            if let Some((value, time_s)) = self.extreme(channel.least(), |new, best| new < best) {
                self.push(FigureKind::Lowest, Some(number(index)), value, unit, about(time_s, self.whole));
            }
            let flights: Vec<Span> = self.flying.flights.iter().map(|flight| flight.span).collect();
            if let Some(mean) = mean_over(self.recording, channel, &flights) {
                self.push(FigureKind::Average, Some(number(index)), mean, unit, self.whole);
            }
            let hovers = self.hovers();
            if let (Some(mean), Some(longest)) = (
                mean_over(self.recording, channel, &hovers),
                hovers.iter().copied().max_by(|a, b| a.length_s().total_cmp(&b.length_s())),
            ) {
                self.push(FigureKind::HoverAverage, Some(number(index)), mean, unit, longest);
            }
        }
    }

    fn hovers(&self) -> Vec<Span> {
        let segments = self.flying.flights.iter().flat_map(|flight| &flight.segments);
        segments.filter(|segment| segment.manner == Manner::Hover).map(|segment| segment.span).collect()
    }

    /// The value in flight that `better` prefers over all others, and its time.
    fn extreme(&self, values: &[f32], better: impl Fn(f32, f32) -> bool) -> Option<(f64, f64)> {
        let mut best: Option<(f32, usize)> = None;
        for flight in &self.flying.flights {
            for cell in self.recording.cells(flight.span) {
                let value = values[cell];
                if !value.is_nan() && best.is_none_or(|(best, _)| better(value, best)) {
                    best = Some((value, cell));
                }
            }
        }
        best.map(|(value, cell)| (f64::from(value), self.recording.time_s[cell]))
    }

    fn past_limits(&mut self, limits: &Limits) {
        for limit in &limits.channels {
            let matches = |channel: &Channel| {
                let mapped = &channel.mapped;
                mapped.quantity == limit.quantity && (limit.place.is_none() || limit.place == mapped.place)
            };
            let channels = self.recording.channels.iter().enumerate().filter(|(_, channel)| matches(channel));
            for (index, channel) in channels.collect::<Vec<_>>() {
                let above = limit.side == Side::Above;
                let past = time_past(self.recording, channel, self.recording.span(), limit.value, above);
                let note = self.limit_words(limit);
                let figure = self.push(
                    FigureKind::PastLimit,
                    Some(number(index)),
                    past.total_s,
                    "s",
                    past.span.unwrap_or(self.whole),
                );
                figure.half_width = Some(past.half_width_s).filter(|half_s| *half_s > 0.0);
                figure.grade = Some(if past.span.is_some() { limit.grade } else { Grade::Ok });
                figure.note = note;
                figure.limit = Some(limit.clone());
            }
        }
    }

    fn limit_words(&self, limit: &ChannelLimit) -> String {
        let unit = limit.quantity.unit().shown(self.locale);
        let value = with_sign(self.locale.plain(limit.value), unit);
        match limit.side {
            Side::Above => say!(self.locale, "log-note-above", value = value, basis = limit.basis),
            Side::Below => say!(self.locale, "log-note-below", value = value, basis = limit.basis),
        }
    }

    fn charge_and_energy(&mut self) {
        let (recording, span) = (self.recording, self.recording.span());
        let current = recording.channel(Quantity::PackCurrent);
        let counter = recording.channel(Quantity::Charge);
        let charge = current.map(|current| {
            let mut amperes = bridge(recording, current, span);
            taken(recording, span, |cell| amperes.at(cell))
        });
        let right = counter.zip(current).is_none_or(|(counter, current)| agrees(recording, counter, current));
        let counted = counter.and_then(|counter| counted(recording, counter, span));
        match (counted, charge) {
            (Some(counted), charge) if right => self.charge_by_counter(counted, charge),
            (counted, Some(charge)) => self.charge_by_current(charge, counted),
            _ => {}
        }
        let energy = match (recording.channel(Quantity::Power), current, recording.channel(Quantity::PackVoltage)) {
            (Some(power), ..) => {
                let mut watts = bridge(recording, power, span);
                Some(taken(recording, span, |cell| watts.at(cell)))
            }
            (None, Some(a), Some(v)) => {
                let (mut amperes, mut volts) = (bridge(recording, a, span), bridge(recording, v, span));
                Some(taken(recording, span, |cell| amperes.at(cell) * volts.at(cell)))
            }
            _ => None,
        };
        if let Some(energy) = energy {
            let note = self.gap_words(energy);
            let figure = self.push(FigureKind::Energy, None, energy.sum / JOULE_PER_WH, "Wh", span);
            figure.half_width = Some(energy.half_width / JOULE_PER_WH).filter(|half| *half > 0.0);
            figure.note = note;
        }
    }

    fn charge_by_counter(&mut self, counted: Counted, by_current: Option<Taken>) {
        let locale = self.locale;
        let mut note = match by_current {
            Some(taken) => {
                let mah = locale.number(taken.sum / COULOMB_PER_MAH, 0);
                say!(locale, "log-note-counter-right", mah = mah)
            }
            None => say!(locale, "log-note-as-counted"),
        };
        if counted.restarts > 0 {
            note = say!(locale, "log-note-counter-restarts", note = note, count = counted.restarts);
        }
        self.push(FigureKind::Charge, None, counted.mah, "mAh", self.recording.span()).note = note;
    }

    fn charge_by_current(&mut self, charge: Taken, counted: Option<Counted>) {
        let locale = self.locale;
        let gaps = self.gap_words(charge);
        let figure = self.push(FigureKind::Charge, None, charge.sum / COULOMB_PER_MAH, "mAh", self.recording.span());
        figure.half_width = Some(charge.half_width / COULOMB_PER_MAH).filter(|half| *half > 0.0);
        figure.note = match counted {
            Some(counted) => say!(locale, "log-note-counted", mah = locale.number(counted.mah, 0)),
            None => gaps,
        };
    }

    /// What there is to say of the gaps in what was taken.
    fn gap_words(&self, taken: Taken) -> String {
        let share = 100.0 * taken.unknown_s / self.recording.span().length_s();
        if share > 1.0 {
            say!(self.locale, "log-note-not-covered", share = self.locale.number(share, 0))
        } else if taken.estimated_s > 0.5 {
            say!(self.locale, "log-note-estimated", seconds = self.locale.number(taken.estimated_s, 0))
        } else {
            say!(self.locale, "log-note-all-of-it")
        }
    }

    fn sag(&mut self, sag: Option<&Sag>) {
        let Some(sag) = sag else { return };
        let locale = self.locale;
        let figure = self.push(FigureKind::Resistance, None, 1e3 * sag.resistance_ohm, "mΩ", sag.span);
        figure.half_width = Some(1e3 * sag.half_width_ohm);
        figure.note = say!(locale, "log-note-resistance");
        let peak = self
            .recording
            .channel(Quantity::PackCurrent)
            .and_then(|channel| self.extreme(channel.greatest(), |new, best| new > best));
        if let Some((peak_a, time_s)) = peak {
            let span = about(time_s, self.whole);
            let figure = self.push(FigureKind::Sag, None, sag.resistance_ohm * peak_a, "V", span);
            figure.half_width = Some(sag.half_width_ohm * peak_a);
            figure.note = say!(locale, "log-note-sag", current = locale.number(peak_a, 0));
        }
    }

    fn ripple(&mut self, cells: Option<u32>) {
        let (recording, locale) = (self.recording, self.locale);
        let Some(index) = recording.channels.iter().position(|c| c.mapped.quantity == Quantity::Ripple) else {
            return;
        };
        let Some((value, time_s)) = self.extreme(recording.channels[index].greatest(), |new, best| new > best) else {
            return;
        };
        let report = cells.and_then(|cells| ripple(cells, value).ok());
        let span = about(time_s, self.whole);
        let figure = self.push(FigureKind::Ripple, Some(number(index)), value, "V", span);
        if let Some(report) = report {
            figure.grade = Some(report.grade);
            let limit = locale.number(report.limit_v, 1);
            figure.note = say!(locale, "log-note-ripple", limit = limit, cells = report.cells);
        }
    }

    fn head_speed(&mut self, set_rpm: Option<f64>) {
        let (recording, locale) = (self.recording, self.locale);
        let rpm = |rpm| locale.rounded(rpm, 0, Unit::RevolutionsPerMinute);
        let Some(index) = recording.channels.iter().position(|c| c.mapped.quantity == Quantity::HeadSpeed) else {
            return;
        };
        let channel = &recording.channels[index];
        let hovers = self.hovers();
        let Some(hover_rpm) = mean_over(recording, channel, &hovers) else { return };
        let longest =
            hovers.iter().copied().max_by(|a, b| a.length_s().total_cmp(&b.length_s())).unwrap_or(self.whole);
        if let Some(set_rpm) = set_rpm {
            let figure =
                self.push(FigureKind::HeadSpeedError, Some(number(index)), hover_rpm - set_rpm, "rpm", longest);
            figure.note = say!(locale, "log-note-hover-speed", hover = rpm(hover_rpm), set = rpm(set_rpm));
        }
        // The fall counts from the hover's speed; take-off and landing, where the speed is brought up, are not load.
        let grid = Grid::over(recording);
        let means = smooth(&grid.bridged(recording, channel), 1);
        let settled_s = 3.0;
        let lowest = self
            .flying
            .flights
            .iter()
            .flat_map(|flight| grid.index(flight.span.start_s + settled_s)..grid.index(flight.span.end_s - settled_s))
            .filter(|step| !means[*step].is_nan())
            .min_by(|a, b| means[*a].total_cmp(&means[*b]));
        if let Some(step) = lowest {
            let fall_rpm = means[step] - hover_rpm;
            let span = Span { start_s: grid.time_s(step) - 1.0, end_s: grid.time_s(step) + 1.0 };
            let figure = self.push(FigureKind::HeadSpeedDroop, Some(number(index)), fall_rpm, "rpm", span);
            let share = locale.number(100.0 * fall_rpm / hover_rpm, 1);
            figure.note = say!(locale, "log-note-droop", share = share, hover = rpm(hover_rpm));
        }
    }

    fn rises(&mut self, rises: &[Rise]) {
        for rise in rises {
            let note = if rise.fit.covered < 1.5 {
                say!(self.locale, "log-note-rise-short")
            } else {
                say!(self.locale, "log-note-rise")
            };
            let figure = self.push(
                FigureKind::SteadyTemperature,
                Some(rise.channel),
                rise.fit.steady_c,
                LogUnit::Celsius.sign(),
                rise.span,
            );
            figure.half_width = Some(rise.fit.steady_half_width_k);
            figure.note = note;
            let figure = self.push(FigureKind::TimeConstant, Some(rise.channel), rise.fit.tau_s, "s", rise.span);
            figure.half_width = Some(rise.fit.tau_half_width_s);
        }
    }

    fn drop_outs(&mut self) {
        let mut told = Vec::new();
        let (recording, locale) = (self.recording, self.locale);
        for flight in &self.flying.flights {
            let inside = |span: &Span| span.end_s > flight.span.start_s && span.start_s < flight.span.end_s;
            told.extend(recording.gaps().filter(inside).map(|span| (None, span)));
            for (index, channel) in recording.channels.iter().enumerate() {
                told.extend(
                    lost(recording, channel, flight.span).into_iter().map(|span| (Some(number(index)), span)),
                );
            }
        }
        told.sort_by(|a, b| b.1.length_s().total_cmp(&a.1.length_s()));
        let count = told.len();
        for (channel, span) in told.into_iter().take(DROP_OUTS_TOLD) {
            let figure = self.push(FigureKind::DropOut, channel, span.length_s(), "s", span);
            figure.note = match channel {
                None => say!(locale, "log-note-nothing"),
                Some(_) => say!(locale, "log-note-empty"),
            };
            if count > DROP_OUTS_TOLD {
                figure.note = say!(locale, "log-note-of-many", note = figure.note, count = count);
            }
        }
    }
}

/// A place in a list; none here is longer than a file's columns or steps.
fn number(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}

/// Stretches of a span in which a channel that has values has none, longer than a gap must be.
fn lost(recording: &Recording, channel: &Channel, span: Span) -> Vec<Span> {
    let longest_s = recording.longest_hold_s(channel);
    let mut lost = Vec::new();
    if channel.whole.count == 0 {
        return lost;
    }
    let mut last_s: Option<f64> = Some(span.start_s);
    for cell in recording.cells(span) {
        let time_s = recording.time_s[cell];
        if !recording.joined(cell) {
            last_s = None;
        }
        if channel.value[cell].is_nan() {
            continue;
        }
        let since_s = last_s.unwrap_or(time_s);
        // A column that is written every so often is not lost in between.
        if time_s - since_s > longest_s {
            lost.push(Span { start_s: since_s, end_s: time_s });
        }
        last_s = Some(time_s);
    }
    if let Some(since_s) =
        last_s.filter(|since_s| span.end_s - since_s > longest_s && recording.span().end_s > *since_s)
    {
        let end_s = span.end_s.min(recording.span().end_s);
        if end_s - since_s > longest_s {
            lost.push(Span { start_s: since_s, end_s });
        }
    }
    lost
}

/// A second to either side, within the span's neighbourhood: where to look for a peak.
fn about(time_s: f64, whole: Span) -> Span {
    Span { start_s: (time_s - 1.0).max(whole.start_s - 1.0), end_s: (time_s + 1.0).min(whole.end_s + 1.0) }
}

fn mean_over(recording: &Recording, channel: &Channel, spans: &[Span]) -> Option<f64> {
    let parts = spans.iter().map(|span| of_channel(recording, channel, *span));
    let (sum, covered_s) = parts.fold((0.0, 0.0), |(sum, s), part| (sum + part.sum, s + part.covered_s));
    (covered_s > 0.0).then(|| sum / covered_s)
}

fn segment_means(recording: &Recording, flying: &Flying) -> Vec<SegmentMeans> {
    let segments =
        flying.flights.iter().enumerate().flat_map(|(flight, f)| f.segments.iter().map(move |s| (flight, s)));
    segments
        .map(|(flight, segment)| SegmentMeans {
            flight: number(flight),
            manner: segment.manner,
            span: segment.span,
            means: recording.channels.iter().map(|c| of_channel(recording, c, segment.span).mean()).collect(),
        })
        .collect()
}

/// Fits every temperature's rise over the flight in which it grew hottest. A channel that does not bend towards a steady state has none, and
/// one whose steady state would lie under what was read of it has none either: what it did was no single rise.
fn rises(recording: &Recording, flying: &Flying) -> Vec<Rise> {
    let of_channel = |(index, channel): (usize, &Channel)| {
        let hottest =
            |flight: Span| recording.cells(flight).map(|cell| channel.greatest()[cell]).fold(f32::NAN, f32::max);
        let flights = flying.flights.iter().map(|flight| (flight.span, hottest(flight.span)));
        let (span, _) =
            flights.filter(|(_, c)| !c.is_nan()).reduce(|best, of| if of.1 > best.1 { of } else { best })?;
        let readings = readings(recording, channel, span)?;
        let mut fit = fit_rise(&readings).ok()?;
        // Means of many rows hide what the recorder rounds to.
        let rounded_k = least_step(recording.cells(span).map(|cell| f64::from(channel.value[cell]))) / 12f64.sqrt();
        fit.steady_half_width_k = fit.steady_half_width_k.hypot(NORMAL_95 * rounded_k);
        let highest_c = readings.iter().map(|reading| reading.temperature_c).fold(f64::NEG_INFINITY, f64::max);
        // A reading scatters about what it is of; what a fit leaves over beyond that is no scatter.
        let reach_c = fit.steady_c + fit.steady_half_width_k + (2.0 * fit.residual_k).min(MOST_SCATTER_K);
        (highest_c <= reach_c).then_some(Rise { channel: number(index), fit, span })
    };
    let temperatures =
        recording.channels.iter().enumerate().filter(|(_, c)| c.mapped.quantity == Quantity::Temperature);
    temperatures.filter_map(of_channel).collect()
}

fn readings(recording: &Recording, channel: &Channel, flight: Span) -> Option<Vec<HeatReading>> {
    let cells = recording.cells(flight);
    let each_s = (flight.length_s() / RISE_POINTS as f64).max(recording.step_s);
    if flight.length_s() < 10.0 || each_s <= 0.0 {
        return None;
    }
    let mut sums = vec![(0.0, 0.0, 0.0); RISE_POINTS + 1];
    for cell in cells {
        let (time_s, value) = (recording.time_s[cell] - flight.start_s, f64::from(channel.value[cell]));
        if !value.is_nan() {
            let sum = &mut sums[((time_s / each_s) as usize).min(RISE_POINTS)];
            *sum = (sum.0 + time_s, sum.1 + value, sum.2 + 1.0);
        }
    }
    let held = sums.into_iter().filter(|(_, _, count)| *count > 0.0);
    let readings: Vec<HeatReading> =
        held.map(|(time, value, n)| HeatReading { time_s: time / n, temperature_c: value / n }).collect();
    // A thermistor that reads one value, or a step of one degree, is no rise.
    let spread = |p| quantile(readings.iter().map(|reading| reading.temperature_c), p);
    (readings.len() >= 8 && spread(0.95) - spread(0.05) >= 2.0).then_some(readings)
}
