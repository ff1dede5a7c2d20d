//! Logs: what the core reads and finds in them, as one object and plain records.

use std::fs::File;
use std::sync::Arc;

use liftgate_core::engineering::Grade;
use liftgate_core::engineering::heat::RiseFit;
use liftgate_core::telemetry::drift::{self, Drift, DriftQuestion, DriftReport};
use liftgate_core::telemetry::plot::{self, Cursor, PlotLine, PlotPoint};
use liftgate_core::telemetry::segments::{Flying, LoggedFlight, Manner, Segment};
use liftgate_core::telemetry::summary::{self, ChannelLimit, FigureKind, LogFigure, Rise, Sag, SegmentMeans, Side};
use liftgate_core::telemetry::{
    ColumnMap, ColumnStatistics, Encoding, Fault, FaultKind, Header, Import, Layout, Limits, LogUnit, MappedColumn,
    Quantity, Recording, RowCounts, Settings, Span, Summary, TelemetryError, TimeForm,
};

use crate::{LiftgateError, Result};

#[uniffi::remote(Enum)]
pub enum Encoding {
    Utf8,
    Utf16Le,
    Utf16Be,
    Western,
}

#[uniffi::remote(Enum)]
pub enum TimeForm {
    Seconds,
    Milliseconds,
    Microseconds,
    Minutes,
    Clock,
    DateYearFirst,
    DateDayFirst,
    DateMonthFirst,
    EveryRow { period_s: f64 },
}

#[uniffi::remote(Enum)]
pub enum Quantity {
    Time,
    PackVoltage,
    PackCurrent,
    Power,
    Charge,
    HeadSpeed,
    Throttle,
    Ripple,
    ReceiverVoltage,
    ReceiverCurrent,
    Temperature,
    Vibration,
    Height,
    Speed,
    Other,
}

#[uniffi::remote(Enum)]
pub enum LogUnit {
    Volt,
    Millivolt,
    Ampere,
    Milliampere,
    Watt,
    Kilowatt,
    MilliampereHour,
    AmpereHour,
    RevolutionsPerMinute,
    RevolutionsPerSecond,
    Percent,
    Ratio,
    Celsius,
    Fahrenheit,
    Kelvin,
    MetrePerSecondSquared,
    StandardGravity,
    Metre,
    Foot,
    MetrePerSecond,
    KilometrePerHour,
    MilePerHour,
    Knot,
    Plain,
}

#[uniffi::remote(Record)]
pub struct Header {
    pub name: String,
    pub unit_text: String,
    pub unit: Option<LogUnit>,
    pub samples: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct Layout {
    pub encoding: Encoding,
    pub separator: u8,
    pub decimal: u8,
    pub bare_returns: bool,
    pub lines_before: u64,
    pub headers: Vec<Header>,
    pub fingerprint: String,
}

#[uniffi::remote(Record)]
pub struct MappedColumn {
    pub column: u32,
    pub label: String,
    pub quantity: Quantity,
    pub unit: LogUnit,
    pub place: Option<String>,
    pub ratio: f64,
}

#[uniffi::remote(Record)]
pub struct ColumnMap {
    pub fingerprint: String,
    pub time_column: Option<u32>,
    pub time_form: TimeForm,
    pub columns: Vec<MappedColumn>,
}

#[uniffi::remote(Record)]
pub struct RowCounts {
    pub found: u64,
    pub imported: u64,
    pub left_out: u64,
    pub repeated: u64,
    pub out_of_order: u64,
    pub restarts: u64,
    pub headers_again: u64,
}

#[uniffi::remote(Enum)]
pub enum FaultKind {
    NotANumber,
    NoTime,
    TooFewFields,
    TooManyFields,
    Torn,
    TooLong,
    OpenQuote,
    TimeJump,
}

#[uniffi::remote(Record)]
pub struct Fault {
    pub kind: FaultKind,
    pub row: u64,
    pub column: Option<u32>,
    pub column_name: Option<String>,
    pub found: String,
}

#[uniffi::remote(Record)]
pub struct ColumnStatistics {
    pub count: u64,
    pub missing: u64,
    pub mean: f64,
    pub sd: f64,
    pub least: f64,
    pub least_at_s: f64,
    pub greatest: f64,
    pub greatest_at_s: f64,
}

#[uniffi::remote(Record)]
pub struct Span {
    pub start_s: f64,
    pub end_s: f64,
}

#[uniffi::remote(Enum)]
pub enum Manner {
    Hover,
    Manoeuvre,
}

#[uniffi::remote(Record)]
pub struct Segment {
    pub manner: Manner,
    pub span: Span,
}

#[uniffi::remote(Record)]
pub struct LoggedFlight {
    pub span: Span,
    pub segments: Vec<Segment>,
}

#[uniffi::remote(Record)]
pub struct Flying {
    pub motor: Vec<Span>,
    pub flights: Vec<LoggedFlight>,
}

#[uniffi::remote(Enum)]
pub enum Side {
    Above,
    Below,
}

#[uniffi::remote(Record)]
pub struct ChannelLimit {
    pub quantity: Quantity,
    pub place: Option<String>,
    pub value: f64,
    pub side: Side,
    pub grade: Grade,
    pub basis: String,
}

#[uniffi::remote(Record)]
pub struct Limits {
    pub cells: Option<u32>,
    pub set_head_speed_rpm: Option<f64>,
    pub channels: Vec<ChannelLimit>,
}

#[uniffi::remote(Enum)]
pub enum FigureKind {
    FlightTime,
    Peak,
    Lowest,
    Average,
    HoverAverage,
    PastLimit,
    Charge,
    Energy,
    Resistance,
    Sag,
    Ripple,
    HeadSpeedError,
    HeadSpeedDroop,
    SteadyTemperature,
    TimeConstant,
    DropOut,
}

#[uniffi::remote(Record)]
pub struct LogFigure {
    pub kind: FigureKind,
    pub channel: Option<u32>,
    pub value: f64,
    pub unit: String,
    pub half_width: Option<f64>,
    pub span: Span,
    pub grade: Option<Grade>,
    pub note: String,
    pub limit: Option<ChannelLimit>,
}

#[uniffi::remote(Record)]
pub struct SegmentMeans {
    pub flight: u32,
    pub manner: Manner,
    pub span: Span,
    pub means: Vec<Option<f64>>,
}

#[uniffi::remote(Record)]
pub struct Sag {
    pub rest_v: f64,
    pub resistance_ohm: f64,
    pub half_width_ohm: f64,
    pub fall_v_per_ah: f64,
    pub steps: u32,
    pub span: Span,
}

#[uniffi::remote(Record)]
pub struct Rise {
    pub channel: u32,
    pub fit: RiseFit,
    pub span: Span,
}

#[uniffi::remote(Record)]
pub struct Summary {
    pub flying: Flying,
    pub segments: Vec<SegmentMeans>,
    pub sag: Option<Sag>,
    pub rises: Vec<Rise>,
    pub figures: Vec<LogFigure>,
}

#[uniffi::remote(Record)]
pub struct PlotPoint {
    pub time_s: f64,
    pub value: f64,
}

#[uniffi::remote(Record)]
pub struct PlotLine {
    pub channel: u32,
    pub strokes: Vec<Vec<PlotPoint>>,
    pub least: f64,
    pub greatest: f64,
}

#[uniffi::remote(Record)]
pub struct Cursor {
    pub time_s: f64,
    pub values: Vec<Option<f64>>,
}

#[uniffi::remote(Record)]
pub struct DriftQuestion {
    pub false_alarm: f64,
    pub readings: u32,
    pub resolution: f64,
}

#[uniffi::remote(Record)]
pub struct Drift {
    pub seen_at: u32,
    pub since: u32,
    pub change: f64,
    pub half_width: Option<f64>,
}

#[uniffi::remote(Record)]
pub struct DriftReport {
    pub threshold: f64,
    pub scores: Vec<f64>,
    pub up: Vec<f64>,
    pub down: Vec<f64>,
    pub drift: Option<Drift>,
}

/// A log that was read.
#[derive(uniffi::Object)]
pub struct FlightLog {
    recording: Recording,
}

#[uniffi::export]
impl FlightLog {
    /// Reads the log at `path` under a map of its columns, keeping at most `kept_bytes` of them.
    #[uniffi::constructor]
    pub fn read(path: String, map: ColumnMap, kept_bytes: u64) -> Result<Arc<FlightLog>> {
        let layout = Layout::read(&mut open(&path)?)?;
        let mut file = open(&path)?;
        let file_bytes = file.metadata().map(|of| of.len()).ok();
        let settings = Settings { kept_bytes: usize::try_from(kept_bytes).unwrap_or(usize::MAX), file_bytes };
        let recording = Import::new(&layout, &map, settings)?.read(&mut file, &mut |_| true)?;
        Ok(Arc::new(FlightLog { recording }))
    }

    /// What became of its rows.
    pub fn rows(&self) -> RowCounts {
        self.recording.rows
    }

    /// The first faults of each kind.
    pub fn faults(&self) -> Vec<Fault> {
        self.recording.faults.first.clone()
    }

    /// Time of each cell, in s since the first row.
    pub fn times(&self) -> Vec<f64> {
        self.recording.time_s.clone()
    }

    /// A channel's values, one for each cell; empty where there is no such channel.
    pub fn values(&self, channel: u32) -> Vec<f32> {
        self.recording.channels.get(channel as usize).map(|channel| channel.value.clone()).unwrap_or_default()
    }

    /// Statistics of each channel over every row.
    pub fn statistics(&self) -> Vec<ColumnStatistics> {
        self.recording.channels.iter().map(|channel| channel.whole).collect()
    }

    /// Rows in each cell.
    pub fn rows_per_cell(&self) -> u32 {
        self.recording.rows_per_cell
    }

    /// The figures of the log.
    pub fn summary(&self, limits: &Limits) -> Result<Summary> {
        Ok(summary::summarise(&self.recording, limits)?)
    }

    /// The geometry of a channel's plot in a window, for so many columns of pixels.
    pub fn line(&self, channel: u32, window: Span, columns: u32) -> Option<PlotLine> {
        plot::line(&self.recording, channel, window, columns)
    }

    /// The values at a time.
    pub fn cursor(&self, time_s: f64) -> Option<Cursor> {
        plot::cursor(&self.recording, time_s)
    }
}

fn open(path: &str) -> std::result::Result<File, TelemetryError> {
    File::open(path).map_err(|error| TelemetryError::Unreadable { at_bytes: 0, reason: error.to_string() })
}

/// How the log at `path` is written.
#[uniffi::export]
pub fn log_layout(path: String) -> Result<Layout> {
    Ok(Layout::read(&mut open(&path)?)?)
}

/// A first guess at what its columns are.
#[uniffi::export]
pub fn suggested_columns(layout: &Layout) -> ColumnMap {
    layout.suggest()
}

/// Tests readings in the order of time for drift.
#[uniffi::export]
pub fn test_drift(readings: Vec<f64>, question: DriftQuestion) -> Result<DriftReport> {
    Ok(drift::drift(&readings, &question)?)
}

/// Mean number of scores until a one-sided cumulative sum passes its threshold.
#[uniffi::export]
pub fn drift_run_length(threshold: f64, shift: f64) -> Result<f64> {
    Ok(drift::average_run_length(threshold, shift)?)
}

impl From<TelemetryError> for LiftgateError {
    fn from(error: TelemetryError) -> Self {
        let reason = error.to_string();
        match error {
            TelemetryError::NotATable { .. } | TelemetryError::Unreadable { .. } => {
                LiftgateError::NotReadable { reason }
            }
            TelemetryError::Map { column, .. } => {
                LiftgateError::Refused { field: column.map(|column| format!("column-{column}")), reason }
            }
            TelemetryError::NoRows { .. } | TelemetryError::Stopped | TelemetryError::Figure { .. } => {
                LiftgateError::Refused { field: None, reason }
            }
        }
    }
}
