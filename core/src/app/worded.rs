//! The journal in words, for searching it: made in steps from the newest entry back, and kept while the app is open.

use crate::locale::Locale;

/// The entries in words, in small letters.
pub(super) struct Worded {
    /// By the place of the entry, from 0; none where it is not worded yet.
    pub words: Vec<Option<Box<str>>>,
    /// How many of the oldest are still to be worded.
    pub left: usize,
    pub locale: Locale,
    /// What is searched for, and which entries say it.
    pub found: Option<Found>,
}

/// What a search found so far.
pub(super) struct Found {
    pub wanted: Vec<String>,
    /// Places of the entries, newest first.
    pub hits: Vec<usize>,
    /// The entries below this place were not looked through yet.
    pub from: usize,
}

impl Worded {
    pub fn begin(locale: Locale) -> Worded {
        Worded { words: Vec::new(), left: 0, locale, found: None }
    }

    /// Looks through what is worded and was not looked through yet for all of the words that are wanted.
    pub fn find(&mut self, wanted: Vec<String>) {
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
