//! Whose turn it is.

use crate::record::EntryId;

/// Who has the phone.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Seat {
    /// The pilot.
    #[default]
    Pilot,
    /// The spotter, for one card.
    Spotter {
        /// The card.
        card: EntryId,
        /// The spotter's name.
        name: String,
    },
}
