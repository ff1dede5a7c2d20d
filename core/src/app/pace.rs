//! How fast a person reads. What follows a touch faster than that is the same touch, bouncing: by then something else stands under the
//! thumb, and it must not answer for it.

use super::AppError;
use super::shared::Shared;
use crate::locale::say;
use crate::readiness::is_told;
use crate::record::Moment;
use crate::view::{Command, Edit, Place, Record};

/// Nothing is seen and answered in less, milliseconds. The keystroke-level model allows a practised person 2.65 s for a touch (Card,
/// Moran and Newell, 1983: 1.35 to decide, 1.10 to point, 0.20 to touch), a quarter of which nobody falls short of; a bounce takes 0.1 s
/// (common practice, no source).
const LEAST_LOOK_MS: i64 = 700;

impl Shared {
    /// Refuses what enters a value on the landing's page faster than a person reads after the touch before, and what settles a page to
    /// which the touch before led on.
    pub(super) fn refuse_bounce(&self, command: &Command, now: &Moment) -> Result<(), AppError> {
        let on_landing = matches!(self.place(), Place::Landing(_));
        if (on_landing && enters_a_value(command)) || settles_a_page(command) {
            self.is_looked_at(now)
        } else {
            Ok(())
        }
    }

    /// Refuses what comes faster than a person reads after the last entry and the last touch on a landing's page.
    pub(super) fn is_looked_at(&self, now: &Moment) -> Result<(), AppError> {
        // What the app keeps by itself was touched by nobody.
        let last = self.entries.iter().rev().find(|entry| is_told(entry)).map(|entry| &entry.at);
        let too_quick = |before: &Moment| now.surely_elapsed_ms_since(before) < LEAST_LOOK_MS;
        if last.into_iter().chain(&self.touched).any(too_quick) {
            return Err(AppError::refused(say!(self.locale(), "app-too-quick")));
        }
        Ok(())
    }

    /// Keeps when a control of a landing's page was touched.
    pub(super) fn note_touch(&mut self, at: &Place, now: &Moment) {
        if matches!(at, Place::Landing(_)) {
            self.touched = Some(now.clone());
        }
    }
}

/// Whether a touch takes a reading in, leaves one out or answers what was seen: the next one comes under the same thumb.
fn enters_a_value(command: &Command) -> bool {
    match command {
        Command::Edit(Edit::Read { .. }) => true,
        Command::Record(record) => matches!(
            record,
            Record::DropReading { .. }
                | Record::AnswerMark { .. }
                | Record::MarkIsFinding { .. }
                | Record::RaiseMark { .. }
                | Record::RaiseStop { .. }
        ),
        _ => false,
    }
}

/// Whether a touch records what the page is for, so that the next page stands under the same thumb.
fn settles_a_page(command: &Command) -> bool {
    match command {
        Command::Record(record) => matches!(
            record,
            Record::Check { .. } | Record::Answer { .. } | Record::Figure { .. } | Record::Release(_)
        ),
        _ => false,
    }
}
