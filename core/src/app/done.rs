//! What a command that records comes to: what is appended, what is said, and where the pilot is then.

use super::AppError;
use crate::journal::NewEntry;
use crate::record::{AircraftId, Body};
use crate::view::Place;

/// What a command comes to.
pub(super) struct Done {
    pub entries: Vec<NewEntry>,
    pub said: String,
    pub after: After,
}

/// Where the pilot is afterwards.
pub(super) enum After {
    Stay,
    /// Where they are, with what was typed there kept: it is about something else.
    Keep,
    Back,
    To(Place),
    Instead(Place),
    /// On the board of another aircraft, which it began.
    Aircraft(AircraftId),
    /// At the second, with the first behind it.
    Through(Place, Place),
    /// Back where they came from; who came from the board goes on to what it would lead to next, where that is done in the same seat.
    Onward,
}

pub(super) type Result = std::result::Result<Done, AppError>;

pub(super) fn one(body: Body, said: impl Into<String>, after: After) -> Result {
    Ok(Done { entries: vec![NewEntry::pilot(body)], said: said.into(), after })
}
