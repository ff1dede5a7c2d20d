use serde::{Deserialize, Serialize};

use super::clock::TimeForm;
use super::quantity::{LogUnit, Quantity};

/// What the person said once about the columns of a kind of file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ColumnMap {
    /// The header that it is for: [`Layout::fingerprint`].
    pub fingerprint: String,
    /// The column of the time, counted from zero; none where rows are evenly apart.
    pub time_column: Option<u32>,
    /// How the time is written.
    pub time_form: TimeForm,
    /// The columns to read. All others are passed over.
    pub columns: Vec<MappedColumn>,
}

/// One column to read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MappedColumn {
    /// Its place, counted from zero.
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
}
