//! The plans that a journal holds. They are found before the fold, which is made under the one in force.

use super::withdrawal::withdrawn_among;
use crate::plan::{Loosened, Plan};
use crate::record::{AircraftId, Body, Entry};

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
        let (Body::PlanAdopted { plan, text, .. } | Body::AircraftBegun { plan, text, .. }) = &entry.body else {
            return None;
        };
        Some(PlanText { id: plan, text })
    }
}

/// The plan in force for an aircraft after these entries; none where no entry of it that stands brought one.
pub(crate) fn plan_text_in_force(aircraft: AircraftId, entries: &[Entry]) -> Option<PlanText<'_>> {
    let withdrawn = withdrawn_among(entries);
    let is_standing = |entry: &&Entry| entry.aircraft == aircraft && !withdrawn.contains(&entry.id);
    entries.iter().rev().filter(is_standing).find_map(PlanText::of)
}

/// What the plan in force asks less of than one that was in force before it in this journal, each item once. What was taken back was
/// never in force. A plan that can no longer be read says nothing.
pub(crate) fn loosened(entries: &[Entry], in_force: &Plan) -> Vec<Loosened> {
    let withdrawn = withdrawn_among(entries);
    let texts = entries.iter().filter(|entry| !withdrawn.contains(&entry.id)).filter_map(PlanText::of);
    let mut texts: Vec<PlanText<'_>> = texts.collect();
    let Some(last) = texts.pop() else { return Vec::new() };
    texts.retain(|earlier| earlier.text != last.text);
    texts.dedup_by(|a, b| a.text == b.text);
    let mut all: Vec<Loosened> = Vec::new();
    for earlier in texts.iter().rev().filter_map(|earlier| Plan::parse(earlier.id, earlier.text).ok()) {
        for item in earlier.loosened_by(in_force) {
            match all.iter_mut().find(|known| known.id == item.id) {
                Some(known) => {
                    known.ways.extend(item.ways);
                    known.ways.sort();
                    known.ways.dedup();
                }
                None => all.push(item),
            }
        }
    }
    all
}
