//! What a person reads of a log's quantities, its faults and its figures.

use std::fmt;

use super::columns::ColumnMap;
use super::error::{FigureLack, MapMisfit, NoTable};
use super::{Fault, FaultKind, LogUnit, Quantity, TelemetryError, TimeForm};
use crate::locale::{Locale, Shown, say};
use crate::unit::Unit;

impl Quantity {
    /// The words for it.
    pub fn word(self, locale: Locale) -> String {
        match self {
            Quantity::Time => say!(locale, "log-quantity-time"),
            Quantity::PackVoltage => say!(locale, "log-quantity-pack-voltage"),
            Quantity::PackCurrent => say!(locale, "log-quantity-pack-current"),
            Quantity::Power => say!(locale, "log-quantity-power"),
            Quantity::Charge => say!(locale, "log-quantity-charge"),
            Quantity::HeadSpeed => say!(locale, "log-quantity-head-speed"),
            Quantity::Throttle => say!(locale, "log-quantity-throttle"),
            Quantity::Ripple => say!(locale, "log-quantity-ripple"),
            Quantity::ReceiverVoltage => say!(locale, "log-quantity-receiver-voltage"),
            Quantity::ReceiverCurrent => say!(locale, "log-quantity-receiver-current"),
            Quantity::Temperature => say!(locale, "log-quantity-temperature"),
            Quantity::Vibration => say!(locale, "log-quantity-vibration"),
            Quantity::Height => say!(locale, "log-quantity-height"),
            Quantity::Speed => say!(locale, "log-quantity-speed"),
            Quantity::Other => say!(locale, "log-quantity-other"),
        }
    }
}

impl LogUnit {
    /// The sign beside a number as the person's language has it; a log is shown in the units that it is kept in.
    pub fn shown(self, locale: Locale) -> &'static str {
        match self {
            LogUnit::RevolutionsPerMinute => locale.shown(Unit::RevolutionsPerMinute).sign,
            other => other.sign(),
        }
    }

    /// How a person reads what a log keeps in this unit: in the unit of their choice where the journal has the same one.
    pub fn shown_in(self, locale: Locale) -> Shown {
        self.recorded().map_or(Shown::same(self.shown(locale)), |unit| locale.shown(unit))
    }

    /// The same where a person chooses a unit: also one without a sign has a word there.
    pub fn word(self, locale: Locale) -> String {
        match self {
            LogUnit::Ratio => say!(locale, "log-unit-ratio"),
            other => other.shown(locale).to_owned(),
        }
    }
}

impl TimeForm {
    /// The words for it.
    pub fn word(self, locale: Locale) -> String {
        match self {
            TimeForm::Seconds => say!(locale, "log-form-seconds"),
            TimeForm::Milliseconds => say!(locale, "log-form-milliseconds"),
            TimeForm::Microseconds => say!(locale, "log-form-microseconds"),
            TimeForm::Minutes => say!(locale, "log-form-minutes"),
            TimeForm::Clock => say!(locale, "log-form-clock"),
            TimeForm::DateYearFirst => say!(locale, "log-form-year-first"),
            TimeForm::DateDayFirst => say!(locale, "log-form-day-first"),
            TimeForm::DateMonthFirst => say!(locale, "log-form-month-first"),
            TimeForm::EveryRow { .. } => say!(locale, "log-form-evenly"),
        }
    }
}

impl FaultKind {
    /// What it is and what became of the row, in words.
    pub fn word(self, locale: Locale) -> String {
        match self {
            FaultKind::NotANumber => say!(locale, "log-row-not-a-number"),
            FaultKind::NoTime => say!(locale, "log-row-no-time"),
            FaultKind::TooFewFields => say!(locale, "log-row-too-few"),
            FaultKind::TooManyFields => say!(locale, "log-row-too-many"),
            FaultKind::Torn => say!(locale, "log-row-torn"),
            FaultKind::TooLong => say!(locale, "log-row-too-long"),
            FaultKind::OpenQuote => say!(locale, "log-row-open-quote"),
            FaultKind::TimeJump => say!(locale, "log-row-time-jump"),
        }
    }
}

impl Fault {
    /// The place, what is wrong there and what stands there.
    pub fn words(&self, locale: Locale) -> String {
        let place = match (self.column, &self.column_name) {
            (None, _) => say!(locale, "log-row", row = self.row),
            (Some(column), None) => say!(locale, "log-row-column", row = self.row, column = column),
            (Some(column), Some(name)) => {
                say!(locale, "log-row-column-named", row = self.row, column = column, name = name)
            }
        };
        let kind = self.kind.word(locale);
        if self.found.is_empty() {
            say!(locale, "log-row-fault", place = place, kind = kind)
        } else {
            say!(locale, "log-row-fault-found", place = place, kind = kind, found = self.found)
        }
    }
}

/// For logs and developers, in English; a person reads [`Fault::words`].
impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}

impl TelemetryError {
    /// What is wrong and what to do about it, as a person reads it.
    pub fn words(&self, locale: Locale) -> String {
        match self {
            TelemetryError::NotATable { found: NoTable::Empty } => say!(locale, "log-no-table-empty"),
            TelemetryError::NotATable { found: NoTable::NoNumbers { begins } } => {
                say!(locale, "log-no-table", begins = begins)
            }
            TelemetryError::Map { misfit, .. } => misfit.words(locale),
            TelemetryError::NoRows { first: Some(first) } => {
                say!(locale, "log-no-rows", first = first.words(locale))
            }
            TelemetryError::NoRows { first: None } => say!(locale, "log-no-rows-at-all"),
            TelemetryError::Stopped => say!(locale, "log-stopped"),
            TelemetryError::Unreadable { at_bytes, reason } => {
                say!(locale, "log-unreadable", bytes = at_bytes, reason = reason)
            }
            TelemetryError::Figure { lack } => lack.words(locale),
        }
    }
}

/// For logs and developers, in English; a person reads [`TelemetryError::words`].
impl fmt::Display for TelemetryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words(Locale::default()))
    }
}

impl MapMisfit {
    fn words(&self, locale: Locale) -> String {
        match self {
            MapMisfit::NoColumns => say!(locale, "log-map-no-columns"),
            MapMisfit::TooMany { columns } => {
                say!(locale, "log-map-too-many", columns = columns, most = ColumnMap::MOST)
            }
            MapMisfit::NoTimeColumn { column, width } => {
                say!(locale, "log-map-no-time-column", column = column, width = width)
            }
            MapMisfit::TimeTwice => say!(locale, "log-map-time-twice"),
            MapMisfit::NoTime => say!(locale, "log-map-no-time"),
            MapMisfit::NoColumn { column, label, width } => {
                say!(locale, "log-map-no-column", column = column, label = label, width = width)
            }
            MapMisfit::AlsoTime { column, label } => {
                say!(locale, "log-map-also-time", column = column, label = label)
            }
            MapMisfit::Unit { quantity, unit } => {
                say!(locale, "log-map-unit", quantity = quantity.word(locale), unit = unit.word(locale))
            }
            MapMisfit::Ratio { column, label } => say!(locale, "log-map-ratio", column = column, label = label),
            MapMisfit::Twice { first, second, quantity } => {
                let quantity = locale.inside(&quantity.word(locale));
                say!(locale, "log-map-twice", first = first, second = second, quantity = quantity)
            }
        }
    }
}

impl FigureLack {
    fn words(self, locale: Locale) -> String {
        match self {
            FigureLack::NoFlight => say!(locale, "log-lack-flight"),
            FigureLack::NoLoad => say!(locale, "log-lack-load"),
            FigureLack::LeastStep => say!(locale, "log-lack-least-step"),
            FigureLack::Readings { most } => say!(locale, "log-lack-readings", most = most),
            FigureLack::FalseAlarm => say!(locale, "log-lack-false-alarm"),
            FigureLack::Threshold => say!(locale, "log-lack-threshold"),
            FigureLack::RunLength => say!(locale, "log-lack-run-length"),
        }
    }
}
