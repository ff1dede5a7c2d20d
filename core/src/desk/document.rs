//! Documents that come and go through the phone's picker.

use super::phone::{Shared, text_in_force};
use super::{DeskError, log, plan};
use crate::locale::say;
use crate::view::Command;

/// Takes what was picked for a control; what was recorded by it, in a sentence.
pub(super) fn take(
    shared: &mut Shared,
    command: &Command,
    name: &str,
    bytes: Vec<u8>,
) -> Result<Option<String>, DeskError> {
    match command {
        Command::PickPlan => plan::pick(shared, name, bytes).map(|()| None),
        Command::PickLog(card) => log::pick(shared, *card, name, bytes).map(|()| None),
        _ => Err(DeskError::refused(say!(shared.locale(), "desk-takes-no-document"))),
    }
}

/// The bytes of what a control offers.
pub(super) fn give(shared: &Shared, command: &Command) -> Result<Vec<u8>, DeskError> {
    match command {
        Command::SavePlan => Ok(text_in_force(&shared.entries).1.as_bytes().to_vec()),
        _ => Err(DeskError::refused(say!(shared.locale(), "desk-offers-no-document"))),
    }
}
