//! The dossier: one HTML page for a person who was not there. It shows what was proved, how and when, and carries the entries as they are
//! stored, so that the chain can be walked without this app.
//!
//! It is made of sections, each a piece of the page: a phone writes them one after the other, and a touch comes in between.

mod chain;
mod entries;
mod findings;
mod fitted;
mod flights;
mod labels;
mod ladder;
mod log;
mod opening;
mod settings;
mod stage;
mod trends;

use std::collections::BTreeMap;

use crate::drawing::Picture;
use crate::field::Flight;
use crate::journal::{Digest, Verified};
use crate::locale::{Locale, say};
use crate::record::{Entry, EntryId, Moment};
use crate::view::Context;
use labels::Words;

type Written = Result<String, askama::Error>;

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
    from: usize,
    to: usize,
    is_first: bool,
    is_last: bool,
}

/// One piece of the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Section {
    /// The first page: the aircraft, its verdict, its gates and its figures.
    Opening,
    /// A stage with its checks.
    Stage(Stretch),
    /// What was wrong, and how it was proved mended.
    Findings,
    /// The hovers, predicted against read.
    Ladder,
    /// The ledger of settings.
    Settings,
    /// Some of the flights.
    Flights(Stretch),
    /// Packs, parts and what else is fitted.
    Fitted,
    /// How the aircraft ages.
    Trends,
    /// The log of a flight, with its plot where it can be read.
    Log(EntryId),
    /// Some of the entries in words.
    Entries(Stretch),
    /// The chain, and how anyone checks it.
    Chain,
    /// Entries as they are stored, behind this one.
    Record {
        /// The place of the last one that is written already.
        after: i64,
    },
    /// The end, which shows that nothing was cut off.
    End,
}

/// The sections of a page, in order.
pub(crate) fn sections(context: &Context<'_>, worded_at_once: usize, stored_at_once: i64) -> Vec<Section> {
    let count = context.entries.len();
    let mut all = vec![Section::Opening];
    all.extend(stretches(context.plan.stages.len(), 1).map(Section::Stage));
    all.extend([Section::Findings, Section::Ladder, Section::Settings]);
    all.extend(stretches(flown(context).count(), worded_at_once).map(Section::Flights));
    all.extend([Section::Fitted, Section::Trends]);
    all.extend(with_log(context).map(Section::Log));
    all.extend(stretches(count, worded_at_once).map(Section::Entries));
    all.push(Section::Chain);
    let starts = (0..count as i64).step_by(usize::try_from(stored_at_once).unwrap_or(1).max(1));
    all.extend(starts.map(|after| Section::Record { after }));
    all.push(Section::End);
    all
}

/// So many things in stretches of so many.
fn stretches(count: usize, at_once: usize) -> impl Iterator<Item = Stretch> {
    (0..count).step_by(at_once.max(1)).map(move |from| {
        let to = (from + at_once).min(count);
        Stretch { from, to, is_first: from == 0, is_last: to == count }
    })
}

/// The flights that began, oldest first.
fn flown<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a Flight> {
    context.ledger.flights.iter().filter(|flight| flight.started.is_some())
}

/// The cards of the flights that a log is attached to.
fn with_log<'a>(context: &Context<'a>) -> impl Iterator<Item = EntryId> {
    let ledger = context.ledger;
    let cards = ledger.flights.iter().map(|flight| flight.card);
    cards.filter(|card| ledger.logs.of_flight(*card).is_some())
}

impl Page<'_> {
    /// Writes one section. `plot` is of the log that it is about, `lines` are the stored entries that it carries.
    ///
    /// # Errors
    /// Only if its template cannot be filled.
    pub(crate) fn section(&self, section: &Section, plot: Option<&Picture>, lines: &[String]) -> Written {
        match section {
            Section::Opening => opening::write(self),
            Section::Stage(stretch) => stage::write(self, stretch),
            Section::Findings => findings::write(self),
            Section::Ladder => ladder::write(self),
            Section::Settings => settings::write(self),
            Section::Flights(stretch) => flights::write(self, stretch),
            Section::Fitted => fitted::write(self),
            Section::Trends => trends::write(self),
            Section::Log(card) => log::write(self, *card, plot),
            Section::Entries(stretch) => entries::write(self, stretch),
            Section::Chain => chain::write(self),
            Section::Record { .. } => chain::write_lines(lines),
            Section::End => chain::write_end(self),
        }
    }

    fn locale(&self) -> Locale {
        self.context.locale
    }

    fn words(&self) -> Words {
        Words::of(self.locale())
    }

    /// When something was, in full.
    fn when(&self, at: &Moment) -> String {
        date_and_time(self.locale(), at)
    }

    /// The number of an entry, as a reader finds it in the list of all entries.
    fn entry_number(&self, id: EntryId) -> String {
        Entry::by_id(self.context.entries, id)
            .map_or_else(String::new, |entry| say!(self.locale(), "dossier-entry-number", number = entry.seq))
    }

    /// How many entries there are, in front of the head's digest.
    fn count(&self) -> String {
        say!(self.locale(), "dossier-count", count = self.verified.count)
    }
}

fn date_and_time(locale: Locale, at: &Moment) -> String {
    format!("{}, {}", locale.date(at.wall.date_naive()), at.wall.format("%H:%M"))
}

/// The words that there are of several, joined.
fn joined(parts: impl IntoIterator<Item = String>, by: &str) -> String {
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(by)
}
