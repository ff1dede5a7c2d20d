//! Searching the journal, a step at a time.

use std::collections::HashMap;

use super::shared::Shared;
use super::worded::Worded;
use crate::record::{Entry, EntryId};
use crate::view;

/// Entries that are worded in one step: a few milliseconds on a desk.
const ENTRIES_A_STEP: usize = 1_500;

/// Goes a step on with the search for what is typed; gives up what was found where nothing is.
pub(super) fn search(shared: &mut Shared, typed: Option<&str>) {
    let wanted: Vec<String> = typed.unwrap_or_default().split_whitespace().map(str::to_lowercase).collect();
    let mut worded = match shared.worded.take() {
        Some(worded) if worded.locale == shared.locale() && worded.words.len() <= shared.entries.len() => worded,
        _ if wanted.is_empty() => return,
        _ => Worded::begin(shared.locale()),
    };
    grow(&mut worded, shared);
    if wanted.is_empty() {
        worded.found = None;
    } else {
        word_on(&mut worded, shared);
        worded.find(wanted);
    }
    shared.worded = Some(worded);
}

/// What a search found, for the journal's page.
pub(super) fn seen(shared: &Shared) -> Option<view::Found<'_>> {
    let worded = shared.worded.as_ref()?;
    let found = worded.found.as_ref()?;
    Some(view::Found { hits: &found.hits, searched: worded.words.len() - found.from, of: worded.words.len() })
}

/// Takes in what was recorded since: the newest entries are worded at once.
fn grow(worded: &mut Worded, shared: &Shared) {
    let known = worded.words.len();
    if known == shared.entries.len() {
        return;
    }
    worded.words.resize(shared.entries.len(), None);
    worded.found = None;
    if known == 0 {
        worded.left = shared.entries.len();
    } else {
        let titles = Titles::of(shared);
        for place in known..shared.entries.len() {
            worded.words[place] = Some(titles.words(shared, &shared.entries[place]));
        }
    }
}

/// Words the next of the older entries.
fn word_on(worded: &mut Worded, shared: &Shared) {
    if worded.left == 0 {
        return;
    }
    let titles = Titles::of(shared);
    let to = worded.left;
    worded.left = to.saturating_sub(ENTRIES_A_STEP);
    for place in worded.left..to {
        worded.words[place] = Some(titles.words(shared, &shared.entries[place]));
    }
}

/// What the entries about a flight do not say themselves: which check it was for.
struct Titles<'a> {
    checks: HashMap<EntryId, &'a str>,
}

impl<'a> Titles<'a> {
    fn of(shared: &'a Shared) -> Titles<'a> {
        let flights = shared.ledger.flights.iter();
        Titles { checks: flights.map(|flight| (flight.card, flight.check.as_str())).collect() }
    }

    /// Everything that an entry may be searched by: what its row and its page say, the check that it belongs to, and the parts that it
    /// touched.
    fn words(&self, shared: &Shared, entry: &Entry) -> Box<str> {
        let (locale, plan) = (shared.locale(), &shared.plan);
        let check = entry.body.card().and_then(|card| self.checks.get(&card));
        let check = check.map(|check| view::check_title(plan, check)).unwrap_or_default();
        let said = view::entry_words(locale, plan, &shared.entries, entry);
        let more = view::more_words(locale, plan, &entry.body);
        format!("{said} {check} {more} {}", view::author_words(locale, &entry.author)).to_lowercase().into()
    }
}
