//! Whether what a person said of a file's columns fits the file.

use super::clock::TimeForm;
use super::columns::{ColumnMap, MappedColumn};
use super::error::{MapMisfit, TelemetryError};
use super::layout::Layout;
use super::quantity::Quantity;

impl ColumnMap {
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
