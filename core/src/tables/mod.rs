//! What the journal says as plain tables, for a spreadsheet or a program: columns named with their units, values as they are recorded.
//!
//! The columns are written down in `core/docs/tables.md`; a test holds the two against each other. They are for machines, so that they
//! read the same in every language.

mod findings;
mod flights;
mod landings;
mod packs;
mod parts;
mod settings;
mod source;
mod written;

use serde::{Deserialize, Serialize};

pub(crate) use parts::part_life;
pub use source::Source;
pub use written::Form;
use written::Sheet;

/// A table that can leave the phone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Table {
    /// Flights and runs.
    Flights,
    /// What was read after each of them.
    Landings,
    /// Flight packs.
    Packs,
    /// Fitted parts.
    Parts,
    /// Changes of settings and of adjustable figures.
    Settings,
    /// Findings.
    Findings,
}

impl Table {
    /// All, in the order in which they are offered.
    pub const ALL: [Table; 6] =
        [Table::Flights, Table::Landings, Table::Packs, Table::Parts, Table::Settings, Table::Findings];

    /// Its name in a file's name, whatever the language.
    pub fn id(self) -> &'static str {
        match self {
            Table::Flights => "flights",
            Table::Landings => "landings",
            Table::Packs => "packs",
            Table::Parts => "parts",
            Table::Settings => "settings",
            Table::Findings => "findings",
        }
    }
}

/// Writes a table.
pub fn write(source: Source<'_>, table: Table, form: Form) -> Vec<u8> {
    let sheet: Sheet = match table {
        Table::Flights => flights::sheet(source),
        Table::Landings => landings::sheet(source),
        Table::Packs => packs::sheet(source),
        Table::Parts => parts::sheet(source),
        Table::Settings => settings::sheet(source),
        Table::Findings => findings::sheet(source),
    };
    written::write(&sheet, form)
}
