//! What is typed on the journal's pages: what to search for, and how far down a page was opened.

use super::Drafts;

/// How many entries a page shows at first, and how many more with each touch.
const AT_ONCE: usize = 60;

/// The journal's page, or one of its days.
pub struct JournalForm<'a>(Drafts<'a>);

impl<'a> JournalForm<'a> {
    /// What to search for.
    pub const SEARCH: &'static str = "search";
    /// How many entries are in sight.
    pub const SHOWN: &'static str = "shown";

    /// The form over its drafts.
    pub fn new(drafts: Drafts<'a>) -> Self {
        JournalForm(drafts)
    }

    /// What to search for, where anything is.
    pub fn wanted(&self) -> Option<&'a str> {
        self.0.text(Self::SEARCH)
    }

    /// How many entries are in sight.
    pub fn shown(&self) -> usize {
        self.0.text(Self::SHOWN).and_then(|text| text.parse().ok()).unwrap_or(AT_ONCE)
    }

    /// How many would be with one touch more.
    pub fn more(&self) -> usize {
        self.shown().saturating_add(AT_ONCE)
    }
}
