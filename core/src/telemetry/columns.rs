use serde::{Deserialize, Serialize};

use super::clock::TimeForm;
use super::error::{MapMisfit, TelemetryError};
use super::layout::Layout;
use super::quantity::{LogUnit, Quantity};

/// What the person said once about the columns of a kind of file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ColumnMap {
    /// The header that it is for: [`Layout::fingerprint`].
    pub fingerprint: String,
    /// The column of the time, counted from nought; none where rows are evenly apart.
    pub time_column: Option<u32>,
    /// How the time is written.
    pub time_form: TimeForm,
    /// The columns to read. All others are passed over.
    pub columns: Vec<MappedColumn>,
}

/// One column to read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MappedColumn {
    /// Its place, counted from nought.
    pub column: u32,
    /// Its name for a person, from the header.
    pub label: String,
    /// What it holds.
    pub quantity: Quantity,
    /// The unit that the file is written in.
    pub unit: LogUnit,
    /// For a temperature: the id of the plan's place that it was taken at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// What a value is multiplied by, besides its unit: a motor's speed times the gear's ratio is the head's. 1 for most.
    #[serde(default = "one")]
    pub ratio: f64,
}

fn one() -> f64 {
    1.0
}

impl MappedColumn {
    /// Factor and offset from what is written to what is kept.
    pub(super) fn to_kept(&self) -> (f64, f64) {
        let (factor, offset) = self.unit.to_kept();
        (factor * self.ratio, offset)
    }
}

impl ColumnMap {
    /// The most columns that are read from a file.
    pub const MOST: usize = 64;

    /// Whether it fits a file.
    ///
    /// # Errors
    /// Says which column does not fit, and why.
    pub fn check(&self, layout: &Layout) -> Result<(), TelemetryError> {
        let width = u32::try_from(layout.headers.len()).unwrap_or(u32::MAX);
        if self.columns.is_empty() {
            return Err(TelemetryError::map(None, MapMisfit::NoColumns));
        }
        if self.columns.len() > Self::MOST {
            return Err(TelemetryError::map(None, MapMisfit::TooMany { columns: self.columns.len() }));
        }
        match (self.time_column, self.time_form) {
            (Some(column), _) if column >= width => {
                let column = column + 1;
                return Err(TelemetryError::map(Some(column), MapMisfit::NoTimeColumn { column, width }));
            }
            (Some(_), TimeForm::EveryRow { .. }) => {
                return Err(TelemetryError::map(None, MapMisfit::TimeTwice));
            }
            (None, TimeForm::EveryRow { period_s })
                if period_s.is_finite() && (1e-6..=3_600.0).contains(&period_s) => {}
            (None, _) => {
                return Err(TelemetryError::map(None, MapMisfit::NoTime));
            }
            _ => {}
        }
        for (index, column) in self.columns.iter().enumerate() {
            self.check_column(index, column, width)?;
        }
        Ok(())
    }

    fn check_column(&self, index: usize, column: &MappedColumn, width: u32) -> Result<(), TelemetryError> {
        let place = column.column + 1;
        let label = column.label.clone();
        let fault = |misfit| Err(TelemetryError::map(Some(place), misfit));
        if column.column >= width {
            return fault(MapMisfit::NoColumn { column: place, label, width });
        }
        if self.time_column == Some(column.column) || column.quantity == Quantity::Time {
            return fault(MapMisfit::AlsoTime { column: place, label });
        }
        if !column.quantity.units().contains(&column.unit) {
            return fault(MapMisfit::Unit { quantity: column.quantity, unit: column.unit });
        }
        if !column.ratio.is_finite() || column.ratio == 0.0 || column.ratio.abs() > 1e6 {
            return fault(MapMisfit::Ratio { column: place, label });
        }
        let several = matches!(column.quantity, Quantity::Temperature | Quantity::Vibration | Quantity::Other);
        let twice = self.columns[..index]
            .iter()
            .find(|other| other.column == column.column || (!several && other.quantity == column.quantity));
        match twice {
            Some(other) => {
                fault(MapMisfit::Twice { first: other.column + 1, second: place, quantity: column.quantity })
            }
            None => Ok(()),
        }
    }
}
