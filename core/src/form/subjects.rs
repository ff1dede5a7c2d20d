//! What a piece of work touched: a mark for each thing that evidence may rest on.

use super::Drafts;
use crate::plan::Subject;

/// Marks that go on and off one by one.
#[derive(Clone, Copy)]
pub struct SubjectsForm<'a>(pub Drafts<'a>);

/// The text of a mark that is on.
const ON: &str = "1";

impl SubjectsForm<'_> {
    const PREFIX: &'static str = "subject:";

    /// The field of one mark.
    pub fn field(subject: &Subject) -> String {
        format!("{}{subject}", Self::PREFIX)
    }

    /// Whether it is on.
    pub fn is_on(&self, subject: &Subject) -> bool {
        self.0.text(&Self::field(subject)).is_some()
    }

    /// The text that turns it over.
    pub fn turned(&self, subject: &Subject) -> &'static str {
        if self.is_on(subject) { "" } else { ON }
    }

    /// Those that are on, as they are recorded.
    pub fn touched(&self) -> Vec<String> {
        self.0.set_with(Self::PREFIX).into_iter().map(str::to_owned).collect()
    }
}
