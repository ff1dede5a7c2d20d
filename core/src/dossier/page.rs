//! What every section of the page is made from, and the words that several of them use.

use std::collections::BTreeMap;

use super::labels::Words;
use crate::field::Flight;
use crate::journal::{Digest, Verified};
use crate::locale::{Locale, say};
use crate::record::{Entry, EntryId, Moment};
use crate::view::Context;

pub(super) type Written = Result<String, askama::Error>;

/// What a page is made from.
pub(crate) struct Page<'a> {
    /// Everything that is known, as it stood when the page was begun.
    pub context: &'a Context<'a>,
    /// The chain, as it was walked.
    pub verified: Verified,
    /// The digests of the releases that stand, by their entries.
    pub releases: &'a BTreeMap<EntryId, Digest>,
}

/// A stretch of things that are written in one piece, and whether it is the first and the last of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Stretch {
    pub from: usize,
    pub to: usize,
    pub is_first: bool,
    pub is_last: bool,
}

/// The flights that began, oldest first.
pub(super) fn flown<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a Flight> {
    context.ledger.flights.iter().filter(|flight| flight.started.is_some())
}

/// The cards of the flights that a log is attached to.
pub(super) fn with_log<'a>(context: &Context<'a>) -> impl Iterator<Item = EntryId> {
    let ledger = context.ledger;
    let cards = ledger.flights.iter().map(|flight| flight.card);
    cards.filter(|card| ledger.logs.of_flight(*card).is_some())
}

impl Page<'_> {
    pub(super) fn locale(&self) -> Locale {
        self.context.locale
    }

    pub(super) fn words(&self) -> Words {
        Words::of(self.locale())
    }

    /// When something was, in full.
    pub(super) fn when(&self, at: &Moment) -> String {
        date_and_time(self.locale(), at)
    }

    /// The number of an entry, as a reader finds it in the list of all entries.
    pub(super) fn entry_number(&self, id: EntryId) -> String {
        Entry::by_id(self.context.entries, id)
            .map_or_else(String::new, |entry| say!(self.locale(), "dossier-entry-number", number = entry.seq))
    }

    /// How many entries there are, in front of the head's digest.
    pub(super) fn count(&self) -> String {
        say!(self.locale(), "dossier-count", count = self.verified.count)
    }
}

fn date_and_time(locale: Locale, at: &Moment) -> String {
    format!("{}, {}", locale.date(at.wall.date_naive()), at.wall.format("%H:%M"))
}

/// The words that there are of several, joined.
pub(super) fn joined(parts: impl IntoIterator<Item = String>, by: &str) -> String {
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(by)
}
