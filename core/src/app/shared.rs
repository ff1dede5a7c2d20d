//! An open journal, what is known from it, and where the pilot is.

use std::path::Path;

use super::AppError;
use super::done::{After, Done};
use super::way::{enter, leave, seat_work, way};
use crate::computed::Facts;
use crate::journal::{Journal, NewEntry};
use crate::locale::{Chosen, Language, Locale, parse_number, say};
use crate::plan::{Loosened, Plan, SHIPPED};
use crate::readiness::{
    Ledger, PlanText, Report, Seat, is_told, loosened, may_change_plan, plan_text_in_force, reaches_back,
};
use crate::record::{Body, Entry, EntryId, Moment};
use crate::view::Place;

/// An open journal and what is known from it.
pub(super) struct Shared {
    pub journal: Journal,
    /// The plan in force, as the person reads it.
    pub plan: Plan,
    /// The same as it was adopted: what the journal is folded under.
    pub written: Plan,
    /// What it asks less of than one that was in force before it.
    pub loosened: Vec<Loosened>,
    pub entries: Vec<Entry>,
    pub ledger: Ledger,
    /// The last thing that a person did.
    pub last: Option<Last>,
    pub places: Vec<Place>,
    /// How the person chose to read and type.
    pub chosen: Chosen,
    /// What the phone itself speaks.
    pub phone_language: Language,
    /// A document that is on its way in from the phone's picker.
    pub arriving: Option<super::arriving::Arriving>,
    /// A document that is on its way out to where the person said.
    pub leaving: Option<super::leaving::Leaving>,
    /// A log that is being read.
    pub reading: Option<super::log_import::LogImport>,
    /// The flight whose log is in view and is not read, and why.
    pub unread: Option<(EntryId, super::log_import::Unread)>,
    /// A log that was picked and is not attached yet.
    pub picked_log: Option<super::open_log::PickedLog>,
    /// The log in view, read.
    pub open_log: Option<super::open_log::OpenLog>,
    /// The journal in words, where it was searched.
    pub worded: Option<super::worded::Worded>,
    /// When a control of a landing's page was touched last.
    pub touched: Option<Moment>,
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

fn plan_in_force(entries: &[Entry]) -> Result<Plan, AppError> {
    let (name, text) = text_in_force(entries);
    Ok(Plan::parse(name, text)?)
}

/// How everything stands, and how it stood before the last thing that a person did.
fn fold(plan: &Plan, entries: &[Entry]) -> (Ledger, Option<Last>) {
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

impl Shared {
    /// Opens the journal at `path`, or begins one there under the shipped plan.
    pub fn begin(path: &Path, phone_language: Language, now: &Moment) -> Result<Shared, AppError> {
        let mut journal = Journal::open(path)?;
        // It only takes room; where there is none even to clear it away, the app opens all the same.
        let _ = journal.discard_unfinished_log();
        let mut entries = journal.entries()?;
        if !entries.iter().any(|entry| PlanText::of(entry).is_some()) {
            entries.extend(journal.append(now, vec![adopt_shipped()?])?);
        }
        let plan = match plan_in_force(&entries) {
            Ok(plan) => plan,
            // An older edition of the shipped plan that no longer holds together gives way to the one shipped now; a plan
            // of the person's own does not.
            Err(_) if shipped_was_adopted(&entries) => {
                entries.extend(journal.append(now, vec![adopt_shipped()?])?);
                plan_in_force(&entries)?
            }
            Err(faults) => return Err(faults),
        };
        let (ledger, last) = fold(&plan, &entries);
        // A place that is no longer known ends the way there: better one step back than a closed door.
        let places = journal.bookmark()?.iter().map_while(|step| Place::of_key(step)).collect();
        let chosen = journal.chosen()?;
        let written = plan;
        let plan = written.translated(chosen.locale(phone_language).language);
        Ok(Shared {
            journal,
            plan,
            loosened: loosened(&entries, &written),
            written,
            entries,
            ledger,
            last,
            places,
            chosen,
            phone_language,
            arriving: None,
            leaving: None,
            reading: None,
            unread: None,
            picked_log: None,
            open_log: None,
            worded: None,
            touched: None,
        })
    }

    /// Appends entries and takes them into the ledger.
    pub fn append(&mut self, now: &Moment, new: Vec<NewEntry>) -> Result<(), AppError> {
        let recorded = self.journal.append(now, new)?;
        self.take_in(recorded)
    }

    /// Appends entries, gives up the drafts that they came from, and goes on to `places`: all or none.
    pub fn append_and_go(
        &mut self,
        now: &Moment,
        new: Vec<NewEntry>,
        from: &[Place],
        places: Vec<Place>,
    ) -> Result<(), AppError> {
        let forms: Vec<String> = from.iter().map(Place::draft_key).collect();
        let recorded = self.journal.append_and_go(now, new, &forms, Some(&way(&places)))?;
        self.places = places;
        self.take_in(recorded)
    }

    fn take_in(&mut self, recorded: Vec<Entry>) -> Result<(), AppError> {
        if recorded.iter().any(may_change_plan) {
            return self.reload();
        }
        if let Some(told) = recorded.iter().rposition(is_told) {
            self.ledger.take(&self.written, &recorded[..told]);
            self.last = Some(Last { index: self.entries.len() + told, ledger: self.ledger.clone(), plan: None });
            self.ledger.take(&self.written, &recorded[told..]);
        } else {
            self.ledger.take(&self.written, &recorded);
        }
        self.entries.extend(recorded);
        Ok(())
    }

    pub fn facts(&self) -> Facts<'_> {
        Facts { plan: &self.plan, ledger: &self.ledger, locale: self.locale() }
    }

    pub fn locale(&self) -> Locale {
        self.chosen.locale(self.phone_language)
    }

    /// Puts the plan into the person's language.
    pub fn translate(&mut self) {
        self.worded = None;
        self.plan = self.written.translated(self.locale().language);
    }

    pub fn choose(&mut self, chosen: Chosen) -> Result<(), AppError> {
        let before = self.chosen;
        self.journal.keep_chosen(chosen)?;
        self.chosen = chosen;
        self.translate();
        if (before.temperature, before.measures) != (chosen.temperature, chosen.measures) {
            // A half-typed number was meant in the unit that was shown: in another one it would be a wrong value.
            self.journal.drop_drafts_that(|text| parse_number(text).is_some())?;
        }
        Ok(())
    }

    pub fn report(&self, now: &Moment) -> Report {
        self.ledger.at(&self.plan, now)
    }

    pub fn pilots_turn(&self) -> Result<(), AppError> {
        match &self.ledger.seat {
            Seat::Pilot => Ok(()),
            Seat::Spotter { name, .. } => {
                Err(AppError::NotYourTurn { reason: say!(self.locale(), "app-spotter-has-phone", name = name) })
            }
        }
    }

    pub fn reload(&mut self) -> Result<(), AppError> {
        self.entries = self.journal.entries()?;
        self.written = plan_in_force(&self.entries)?;
        self.loosened = loosened(&self.entries, &self.written);
        self.translate();
        (self.ledger, self.last) = fold(&self.written, &self.entries);
        Ok(())
    }

    pub fn place(&self) -> Place {
        self.places.last().cloned().unwrap_or(Place::Board)
    }

    pub fn go(&mut self, place: Place) -> Result<(), AppError> {
        enter(&mut self.places, place);
        Ok(self.journal.keep_bookmark(&way(&self.places))?)
    }

    /// Goes to a place whose draft begins anew with these fields: all or nothing of it.
    pub fn go_with(&mut self, place: Place, fields: &[(String, String)]) -> Result<(), AppError> {
        let mut places = self.places.clone();
        enter(&mut places, place.clone());
        self.journal.keep_drafts_and_go(&place.draft_key(), fields, &way(&places))?;
        self.places = places;
        Ok(())
    }

    pub fn back(&mut self) -> Result<(), AppError> {
        leave(&mut self.places);
        Ok(self.journal.keep_bookmark(&way(&self.places))?)
    }

    pub fn finish(&mut self, place: &Place, done: Done, now: &Moment) -> Result<String, AppError> {
        let mut places = self.places.clone();
        let done_with = if matches!(done.after, After::Keep) { &[] } else { std::slice::from_ref(place) };
        let goes_on = matches!(done.after, After::Onward);
        match done.after {
            After::Stay | After::Keep => {}
            After::Back | After::Onward => leave(&mut places),
            After::To(next) => enter(&mut places, next),
            After::Through(first, next) => {
                enter(&mut places, first);
                enter(&mut places, next);
            }
            After::Instead(next) => {
                places.pop();
                enter(&mut places, next);
            }
        }
        self.append_and_go(now, done.entries, done_with, places)?;
        if goes_on && self.place() == Place::Board {
            self.go_on(place, now)?;
        }
        Ok(done.said)
    }

    /// Goes on to what the board leads to next. Only now is known what that is: what was just recorded counts. The app that is killed in
    /// between opens at the board.
    fn go_on(&mut self, from: &Place, now: &Moment) -> Result<(), AppError> {
        let next = self.report(now).next;
        let first = next.as_ref().and_then(|next| next.blockers.first());
        let is_done_here = |place: &Place| place != from;
        match first.and_then(|blocker| seat_work(&self.plan, &self.ledger, blocker, now)).filter(is_done_here) {
            Some(place) => self.go(place),
            None => Ok(()),
        }
    }
}
