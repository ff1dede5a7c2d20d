//! The journal in words, for searching it: made in steps from the newest entry back, and kept while the app is open.

use std::collections::HashMap;

use super::shared::Shared;
use crate::locale::Locale;
use crate::record::{Body, Entry, EntryId};
use crate::view;

/// Entries that are worded in one step: a few milliseconds on a desk.
const ENTRIES_A_STEP: usize = 1_500;

/// The entries in words, in small letters.
pub(super) struct Worded {
    /// By the place of the entry, from 0; none where it is not worded yet.
    words: Vec<Option<Box<str>>>,
    /// How many of the oldest are still to be worded.
    left: usize,
    locale: Locale,
    /// What is searched for, and which entries say it.
    found: Option<Found>,
}

/// What a search found so far.
struct Found {
    wanted: Vec<String>,
    /// Places of the entries, newest first.
    hits: Vec<usize>,
    /// The entries below this place were not looked through yet.
    from: usize,
}

/// Goes a step on with the search for what is typed; gives up what was found where nothing is.
pub(super) fn search(shared: &mut Shared, typed: Option<&str>) {
    let wanted: Vec<String> = typed.unwrap_or_default().split_whitespace().map(str::to_lowercase).collect();
    let mut worded = match shared.worded.take() {
        Some(worded) if worded.locale == shared.locale() && worded.words.len() <= shared.entries.len() => worded,
        _ if wanted.is_empty() => return,
        _ => Worded::begin(shared.locale()),
    };
    worded.grow(shared);
    if wanted.is_empty() {
        worded.found = None;
    } else {
        worded.word_on(shared);
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

impl Worded {
    fn begin(locale: Locale) -> Worded {
        Worded { words: Vec::new(), left: 0, locale, found: None }
    }

    /// Takes in what was recorded since: the newest entries are worded at once.
    fn grow(&mut self, shared: &Shared) {
        let known = self.words.len();
        if known == shared.entries.len() {
            return;
        }
        self.words.resize(shared.entries.len(), None);
        self.found = None;
        if known == 0 {
            self.left = shared.entries.len();
        } else {
            let titles = Titles::of(shared);
            for place in known..shared.entries.len() {
                self.words[place] = Some(titles.words(shared, &shared.entries[place]));
            }
        }
    }

    fn word_on(&mut self, shared: &Shared) {
        if self.left == 0 {
            return;
        }
        let titles = Titles::of(shared);
        let to = self.left;
        self.left = to.saturating_sub(ENTRIES_A_STEP);
        for place in self.left..to {
            self.words[place] = Some(titles.words(shared, &shared.entries[place]));
        }
    }

    /// Looks through what is worded and was not looked through yet for all of the words that are wanted.
    fn find(&mut self, wanted: Vec<String>) {
        let fresh = || Found { wanted: wanted.clone(), hits: Vec::new(), from: self.words.len() };
        let mut found = self.found.take().filter(|found| found.wanted == wanted).unwrap_or_else(fresh);
        for place in (self.left..found.from).rev() {
            let Some(words) = &self.words[place] else { continue };
            if found.wanted.iter().all(|word| words.contains(word.as_str())) {
                found.hits.push(place);
            }
        }
        found.from = self.left;
        self.found = Some(found);
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
        let check = card_of(&entry.body).and_then(|card| self.checks.get(&card));
        let check = check.map(|check| view::check_title(plan, check)).unwrap_or_default();
        let said = view::entry_words(locale, plan, &shared.entries, entry);
        let more = view::more_words(locale, plan, &entry.body);
        format!("{said} {check} {more} {}", view::author_words(locale, &entry.author)).to_lowercase().into()
    }
}

/// The card of the flight that an entry is about.
fn card_of(body: &Body) -> Option<EntryId> {
    match body {
        Body::HandedOver { card, .. }
        | Body::Started { card }
        | Body::Marked { card, .. }
        | Body::TouchedDown { card, .. }
        | Body::RestartedInFlight { card }
        | Body::FlownTold { card, .. }
        | Body::Resumed { card }
        | Body::HandedBack { card }
        | Body::Unmarked { card, .. }
        | Body::MarkAnswered { card, .. }
        | Body::LandingRecorded { card, .. }
        | Body::LandingWaived { card, .. }
        | Body::DisagreementExplained { card, .. }
        | Body::LogAttached { card, .. } => Some(*card),
        _ => None,
    }
}
