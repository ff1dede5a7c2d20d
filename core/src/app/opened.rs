//! What is known from a journal once it is read: the plan in force, the fold, and where the pilot was.

use super::AppError;
use crate::journal::{Journal, LastBackup, NewEntry};
use crate::locale::Chosen;
use crate::plan::{Plan, SHIPPED};
use crate::readiness::{Ledger, PlanText, is_told, may_change_plan, plan_text_in_force, reaches_back};
use crate::record::{Body, Entry, Moment};
use crate::view::Place;

/// What is known from a journal.
pub(super) struct Opened {
    /// The plan in force, as it was adopted.
    pub written: Plan,
    pub entries: Vec<Entry>,
    pub ledger: Ledger,
    /// The last thing that a person did.
    pub last: Option<Last>,
    pub places: Vec<Place>,
    /// How the person chose to read and type.
    pub chosen: Chosen,
    pub last_backup: Option<LastBackup>,
}

impl Opened {
    /// Reads a journal, or begins it under the shipped plan.
    pub fn read(journal: &mut Journal, now: &Moment) -> Result<Opened, AppError> {
        let mut entries = journal.proved_entries()?;
        if !entries.iter().any(|entry| PlanText::of(entry).is_some()) {
            entries.extend(journal.append(now, vec![adopt_shipped()?])?);
        }
        let written = match plan_in_force(&entries) {
            Ok(plan) => plan,
            // An older edition of the shipped plan that no longer holds together gives way to the one shipped now; a plan
            // of the person's own does not.
            Err(_) if shipped_was_adopted(&entries) => {
                entries.extend(journal.append(now, vec![adopt_shipped()?])?);
                plan_in_force(&entries)?
            }
            Err(faults) => return Err(faults),
        };
        let (ledger, last) = fold(&written, &entries);
        // A place that is no longer known ends the way there: better one step back than a closed door.
        let places = journal.bookmark()?.iter().map_while(|step| Place::of_key(step)).collect();
        let (chosen, last_backup) = (journal.chosen()?, journal.last_backup()?);
        Ok(Opened { written, entries, ledger, last, places, chosen, last_backup })
    }
}

/// The last thing that a person did, and how everything stood before it.
pub(super) struct Last {
    /// Its index in the entries.
    pub index: usize,
    /// The ledger before it.
    pub ledger: Ledger,
    /// The plan before it, where it brought another one into force.
    pub plan: Option<Plan>,
}

fn adopt_shipped() -> Result<NewEntry, AppError> {
    let shipped = Plan::parse("the shipped plan", SHIPPED)?;
    let text = SHIPPED.to_owned();
    Ok(NewEntry::pilot(Body::PlanAdopted { plan: shipped.id, edition: shipped.edition, text }))
}

/// Whether the plan that was adopted last is an edition of the shipped one.
fn shipped_was_adopted(entries: &[Entry]) -> bool {
    let adopted = entries.iter().rev().find_map(PlanText::of);
    let shipped = Plan::parse("the shipped plan", SHIPPED).ok();
    adopted.zip(shipped).is_some_and(|(adopted, shipped)| adopted.id == shipped.id)
}

/// The name and the text of the plan in force.
pub(super) fn text_in_force(entries: &[Entry]) -> (&str, &str) {
    plan_text_in_force(entries).map_or(("the shipped plan", SHIPPED), |adopted| (adopted.id, adopted.text))
}

pub(super) fn plan_in_force(entries: &[Entry]) -> Result<Plan, AppError> {
    let (name, text) = text_in_force(entries);
    Ok(Plan::parse(name, text)?)
}

/// How everything stands, and how it stood before the last thing that a person did.
pub(super) fn fold(plan: &Plan, entries: &[Entry]) -> (Ledger, Option<Last>) {
    let Some(told) = entries.iter().rposition(is_told) else { return (Ledger::of(plan, entries), None) };
    let before = Ledger::of(plan, &entries[..told]);
    let plan_before = if may_change_plan(&entries[told]) { plan_in_force(&entries[..told]).ok() } else { None };
    let ledger = if reaches_back(&entries[told]) {
        // Beyond what was folded: only the whole journal tells.
        Ledger::of(plan, entries)
    } else {
        let mut ledger = before.clone();
        ledger.take(plan_before.as_ref().unwrap_or(plan), &entries[told..]);
        ledger
    };
    (ledger, Some(Last { index: told, ledger: before, plan: plan_before }))
}
