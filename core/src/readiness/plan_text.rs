//! The plans that a journal holds. They are found before the fold, which is made under the one in force.

use super::withdrawal::withdrawn_among;
use crate::record::{Body, Entry};

/// A plan as it came into force.
pub(crate) struct PlanText<'a> {
    /// The plan's id.
    pub id: &'a str,
    /// The plan file as it was.
    pub text: &'a str,
}

impl<'a> PlanText<'a> {
    /// The plan that an entry brings into force.
    pub fn of(entry: &'a Entry) -> Option<PlanText<'a>> {
        match &entry.body {
            Body::PlanAdopted { plan, text, .. } => Some(PlanText { id: plan, text }),
            _ => None,
        }
    }
}

/// The plan in force after these entries; none where no entry that stands brought one.
pub(crate) fn plan_text_in_force(entries: &[Entry]) -> Option<PlanText<'_>> {
    let withdrawn = withdrawn_among(entries);
    let standing = entries.iter().rev().filter(|entry| !withdrawn.contains(&entry.id));
    standing.filter_map(PlanText::of).next()
}
