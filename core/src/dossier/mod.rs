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
mod page;
mod photos;
mod settings;
mod stage;
mod trends;

use crate::drawing::Picture;
use crate::record::{EntryId, PhotoOf};
use crate::view::Context;
use page::{Stretch, Written, flown, with_log};

pub(crate) use page::Page;

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
    /// One of the photos, small.
    Photo(Stretch),
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
    all.extend(stretches(context.ledger.photos.all().count(), 1).map(Section::Photo));
    all.extend(with_log(context).map(Section::Log));
    all.extend(stretches(count, worded_at_once).map(Section::Entries));
    all.push(Section::Chain);
    let starts = (0..context.journal_count as i64).step_by(usize::try_from(stored_at_once).unwrap_or(1).max(1));
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

/// What a section shows that is read from the journal's files for it.
#[derive(Default)]
pub(crate) struct Read {
    /// The plot of the log that it is about.
    pub plot: Option<Picture>,
    /// The photo that it shows, small, as a JPEG file.
    pub photo: Option<Vec<u8>>,
    /// The stored entries that it carries.
    pub lines: Vec<String>,
}

/// The photo that a section shows, where it shows one.
pub(crate) fn photo_of(context: &Context<'_>, section: &Section) -> Option<EntryId> {
    let photos = &context.ledger.photos;
    match section {
        Section::Opening => photos.of(&PhotoOf::Aircraft).last().map(|(_, photo)| photo.entry),
        Section::Photo(stretch) => photos.all().nth(stretch.from).map(|(_, photo)| photo.entry),
        _ => None,
    }
}

/// Writes one section, with what was read for it.
///
/// # Errors
/// Only if its template cannot be filled.
pub(crate) fn write(page: &Page<'_>, section: &Section, read: &Read) -> Written {
    match section {
        Section::Opening => opening::write(page, read.photo.as_deref()),
        Section::Stage(stretch) => stage::write(page, stretch),
        Section::Findings => findings::write(page),
        Section::Ladder => ladder::write(page),
        Section::Settings => settings::write(page),
        Section::Flights(stretch) => flights::write(page, stretch),
        Section::Fitted => fitted::write(page),
        Section::Trends => trends::write(page),
        Section::Photo(stretch) => photos::write(page, stretch, read.photo.as_deref()),
        Section::Log(card) => log::write(page, *card, read.plot.as_ref()),
        Section::Entries(stretch) => entries::write(page, stretch),
        Section::Chain => chain::write(page),
        Section::Record { .. } => chain::write_lines(&read.lines),
        Section::End => chain::write_end(page),
    }
}
