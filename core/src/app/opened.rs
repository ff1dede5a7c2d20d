//! What is known from a journal once it is read: the aircraft in view, the plan in force, the fold, and where the pilot was.

use std::borrow::Cow;

use uuid::Uuid;

use super::AppError;
use crate::journal::{Journal, JournalError, LastBackup, NewEntry};
use crate::locale::Chosen;
use crate::plan::{Plan, SHIPPED};
use crate::readiness::{
    Ledger, PlanText, is_told, may_change_plan, plan_text_in_force, reaches_back, withdrawn_among,
};
use crate::record::{AircraftId, Body, Entry, EntryId, Moment};
use crate::view::Place;

/// What is known from a journal.
pub(super) struct Opened {
    pub seen: Seen,
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
        let aircraft = aircraft_in_view(journal, &entries)?;
        let written = match plan_in_force(aircraft, &entries) {
            // An older edition of the shipped plan that no longer holds together gives way to the one shipped now; a plan of the person's own
            // does not.
            Err(_) if shipped_was_adopted(aircraft, &entries) => {
                entries.extend(journal.append(now, vec![adopt_shipped()?.of(aircraft)])?);
                plan_in_force(aircraft, &entries)
            }
            read => read,
        }?;
        let seen = Seen::under(written, aircraft, entries);
        // A place that is no longer known ends the way there: better one step back than a closed door.
        let places = journal.bookmark()?.iter().map_while(|step| Place::of_key(step)).collect();
        let (chosen, last_backup) = (journal.chosen()?, journal.last_backup()?);
        Ok(Opened { seen, places, chosen, last_backup })
    }
}

/// One aircraft of a journal, as its entries tell.
pub(super) struct Seen {
    /// The plan in force, as it was adopted.
    pub written: Plan,
    /// Its entries and the workshop's.
    pub entries: Vec<Entry>,
    pub ledger: Ledger,
    /// The last thing that a person did.
    pub last: Option<Last>,
    /// How many entries the journal has, those of other aircraft among them.
    pub journal_count: usize,
    /// All aircraft of the journal, in the order in which they were begun.
    pub hangar: Vec<AircraftId>,
}

impl Seen {
    /// An aircraft, from all entries of its journal.
    ///
    /// # Errors
    /// Its plan can no longer be read.
    pub fn of(aircraft: AircraftId, all: Vec<Entry>) -> Result<Seen, AppError> {
        Ok(Seen::under(plan_in_force(aircraft, &all)?, aircraft, all))
    }

    fn under(written: Plan, aircraft: AircraftId, all: Vec<Entry>) -> Seen {
        let (journal_count, hangar) = (all.len(), hangar(&all));
        let own = of_aircraft(aircraft, &all);
        let (ledger, last) = fold(aircraft, &written, &all, &own);
        let entries = match own {
            Cow::Owned(own) => own,
            Cow::Borrowed(_) => all,
        };
        Seen { written, entries, ledger, last, journal_count, hangar }
    }
}

/// The name under which the journal keeps which aircraft is in view.
const IN_VIEW: &str = "aircraft";

/// Keeps which aircraft is in view, for the next time that the app opens.
pub(super) fn keep_in_view(journal: &mut Journal, aircraft: AircraftId) -> Result<(), JournalError> {
    let EntryId(id) = aircraft.0.unwrap_or(EntryId(Uuid::nil()));
    journal.keep_preference(IN_VIEW, Some(&id.to_string()))
}

/// The aircraft that was in view last; where that is not known, as in a backup that was brought in, the one that an entry is of last.
fn aircraft_in_view(journal: &Journal, all: &[Entry]) -> Result<AircraftId, JournalError> {
    let kept = journal.preference(IN_VIEW)?.and_then(|id| Uuid::parse_str(&id).ok());
    let kept = kept.map(|id| AircraftId((!id.is_nil()).then_some(EntryId(id))));
    let newest = all.iter().rev().find(|entry| !entry.body.is_of_workshop()).map(|entry| entry.aircraft);
    let hangar = hangar(all);
    let known = kept.into_iter().chain(newest).find(|aircraft| hangar.contains(aircraft));
    Ok(known.unwrap_or_default())
}

/// All aircraft of a journal, in the order in which they were begun. One whose beginning was taken back is none.
fn hangar(all: &[Entry]) -> Vec<AircraftId> {
    let withdrawn = withdrawn_among(all);
    let begun = all.iter().filter(|entry| matches!(entry.body, Body::AircraftBegun { .. }));
    let begun = begun.filter(|entry| !withdrawn.contains(&entry.id));
    [AircraftId::FIRST].into_iter().chain(begun.map(|entry| AircraftId(Some(entry.id)))).collect()
}

/// The entries of an aircraft and of the workshop. Of a journal with one aircraft, all.
fn of_aircraft(aircraft: AircraftId, all: &[Entry]) -> Cow<'_, [Entry]> {
    match all.iter().all(|entry| entry.is_of(aircraft)) {
        true => Cow::Borrowed(all),
        false => Cow::Owned(all.iter().filter(|entry| entry.is_of(aircraft)).cloned().collect()),
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
fn shipped_was_adopted(aircraft: AircraftId, entries: &[Entry]) -> bool {
    let adopted = entries.iter().rev().filter(|entry| entry.aircraft == aircraft).find_map(PlanText::of);
    let shipped = Plan::parse("the shipped plan", SHIPPED).ok();
    adopted.zip(shipped).is_some_and(|(adopted, shipped)| adopted.id == shipped.id)
}

/// The name and the text of the plan in force.
pub(super) fn text_in_force(aircraft: AircraftId, entries: &[Entry]) -> (&str, &str) {
    plan_text_in_force(aircraft, entries).map_or(("the shipped plan", SHIPPED), |adopted| (adopted.id, adopted.text))
}

pub(super) fn plan_in_force(aircraft: AircraftId, entries: &[Entry]) -> Result<Plan, AppError> {
    let (name, text) = text_in_force(aircraft, entries);
    Ok(Plan::parse(name, text)?)
}

/// How everything stands with an aircraft, and how it stood before the last thing that a person did with it; `own` are its entries among all.
fn fold(aircraft: AircraftId, plan: &Plan, all: &[Entry], own: &[Entry]) -> (Ledger, Option<Last>) {
    let whole = || Ledger::of_aircraft(aircraft, plan, all);
    let is_its_last = |entry: &Entry| entry.is_of(aircraft) && is_told(entry);
    let (Some(told), Some(index)) = (all.iter().rposition(is_its_last), own.iter().rposition(is_told)) else {
        return (whole(), None);
    };
    let before = Ledger::of_aircraft(aircraft, plan, &all[..told]);
    let plan_before = if may_change_plan(&own[index]) { plan_in_force(aircraft, &own[..index]).ok() } else { None };
    let ledger = if all[told..].iter().any(reaches_back) {
        // Beyond what was folded: only the whole journal tells.
        whole()
    } else {
        let mut ledger = before.clone();
        ledger.take(plan_before.as_ref().unwrap_or(plan), &all[told..]);
        ledger
    };
    (ledger, Some(Last { index, ledger: before, plan: plan_before }))
}
