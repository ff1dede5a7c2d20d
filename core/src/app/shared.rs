//! An open journal, what is known from it, and where the pilot is.

use std::collections::BTreeMap;
use std::path::Path;

use super::AppError;
use super::done::{After, Done};
use super::opened::{Last, Opened, Seen, keep_in_view};
use super::way::{enter, leave, seat_work, way};
use crate::computed::Facts;
use crate::journal::{Journal, JournalError, LastBackup, NewEntry};
use crate::locale::{Chosen, Language, Locale, parse_number, say};
use crate::plan::{Loosened, Plan};
use crate::readiness::{Ledger, Report, Seat, is_told, loosened, may_change_plan};
use crate::record::{AircraftId, Entry, EntryId, Moment};
use crate::view::{Beside, PhotoLack, Place};

/// An open journal and what is known from it.
pub(super) struct Shared {
    pub journal: Journal,
    /// The plan in force, as the person reads it.
    pub plan: Plan,
    /// The same as it was adopted: what the journal is folded under.
    pub written: Plan,
    /// What it asks less of than one that was in force before it.
    pub loosened: Vec<Loosened>,
    /// The entries of the aircraft in view, and the workshop's.
    pub entries: Vec<Entry>,
    pub ledger: Ledger,
    /// How many entries the journal has, those of other aircraft among them.
    pub journal_count: usize,
    /// All aircraft of the journal, in the order in which they were begun.
    pub hangar: Vec<AircraftId>,
    /// The others, once they were looked at.
    pub beside: Option<Vec<Beside>>,
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
    /// A backup that was picked.
    pub brought: Option<super::brought::BringingIn>,
    /// The last backup of this record.
    pub last_backup: Option<LastBackup>,
    /// A log that is being read.
    pub import: Option<super::log_import::LogImport>,
    /// The flight whose log is in view and is not read, and why.
    pub unread: Option<(EntryId, super::log_import::Unread)>,
    /// A log that was picked and is not attached yet.
    pub picked_log: Option<super::open_log::PickedLog>,
    /// The log in view, read.
    pub open_log: Option<super::open_log::OpenLog>,
    /// The photo in view, by its entry, small.
    pub photo: Option<(EntryId, std::result::Result<Vec<u8>, PhotoLack>)>,
    /// The journal in words, where it was searched.
    pub worded: Option<super::worded::Worded>,
    /// When a control of a landing's page was touched last.
    pub touched: Option<Moment>,
}

impl Shared {
    /// Opens the journal at `path`, or begins one there under the shipped plan.
    pub fn begin(path: &Path, phone_language: Language, now: &Moment) -> Result<Shared, AppError> {
        let mut journal = Journal::open(path)?;
        journal.is_sound()?;
        // It only takes room; where there is none even to clear it away, the app opens all the same.
        let _ = journal.discard_unfinished_log();
        let opened = Opened::read(&mut journal, now)?;
        let seen = opened.seen;
        let plan = seen.written.translated(opened.chosen.locale(phone_language).language);
        Ok(Shared {
            journal,
            plan,
            loosened: loosened(&seen.entries, &seen.written),
            written: seen.written,
            entries: seen.entries,
            ledger: seen.ledger,
            journal_count: seen.journal_count,
            hangar: seen.hangar,
            beside: None,
            last: seen.last,
            places: opened.places,
            chosen: opened.chosen,
            phone_language,
            arriving: None,
            leaving: None,
            brought: None,
            last_backup: opened.last_backup,
            import: None,
            unread: None,
            picked_log: None,
            open_log: None,
            photo: None,
            worded: None,
            touched: None,
        })
    }

    /// Goes on with what was read from the journal that took this one's place. What was under way belonged to the one before.
    pub fn go_on_with(&mut self, opened: Opened) {
        self.places = opened.places;
        self.chosen = opened.chosen;
        self.last_backup = opened.last_backup;
        self.put_down();
        self.see(opened.seen);
    }

    /// Has an aircraft in view.
    fn see(&mut self, seen: Seen) {
        self.loosened = loosened(&seen.entries, &seen.written);
        self.written = seen.written;
        self.entries = seen.entries;
        (self.ledger, self.last) = (seen.ledger, seen.last);
        (self.journal_count, self.hangar) = (seen.journal_count, seen.hangar);
        self.translate();
    }

    /// Turns to another aircraft of the journal, and to its board.
    ///
    /// # Errors
    /// Its plan can no longer be read, or nothing can be kept: the one in view stays.
    pub fn turn_to(&mut self, aircraft: AircraftId) -> Result<(), AppError> {
        let seen = Seen::of(aircraft, self.journal.entries()?)?;
        let places = vec![Place::Board];
        self.journal.keep_bookmark(&way(&places))?;
        keep_in_view(&mut self.journal, aircraft)?;
        self.places = places;
        self.put_down();
        self.see(seen);
        Ok(())
    }

    /// Lets go of what is in hand: it belongs to the aircraft or the journal that was in view.
    fn put_down(&mut self) {
        (self.arriving, self.leaving, self.brought) = (None, None, None);
        (self.import, self.unread) = (None, None);
        (self.picked_log, self.open_log, self.photo) = (None, None, None);
        self.touched = None;
    }

    /// Keeps which backup was made last.
    pub fn keep_last_backup(&mut self, last: LastBackup) -> Result<(), AppError> {
        self.journal.keep_last_backup(&last)?;
        self.last_backup = Some(last);
        Ok(())
    }

    /// Appends entries and takes them into the ledger.
    pub fn append(&mut self, now: &Moment, new: Vec<NewEntry>) -> Result<(), AppError> {
        let recorded = self.journal.append(now, self.of_this(new))?;
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
        let forms: Vec<String> = from.iter().map(|place| self.draft_key(place)).collect();
        let recorded = self.journal.append_and_go(now, self.of_this(new), &forms, Some(&way(&places)))?;
        self.places = places;
        self.take_in(recorded)
    }

    /// Entries of which nobody said otherwise are of the aircraft in view.
    fn of_this(&self, new: Vec<NewEntry>) -> Vec<NewEntry> {
        let is_said = |entry: &NewEntry| entry.aircraft != AircraftId::FIRST;
        new.into_iter().map(|entry| if is_said(&entry) { entry } else { entry.of(self.ledger.id) }).collect()
    }

    /// The key under which a place of the aircraft in view keeps its drafts. The first one's were kept before there could be others.
    fn draft_key(&self, place: &Place) -> String {
        match self.ledger.id.0 {
            None => place.draft_key(),
            Some(aircraft) => format!("{aircraft} {}", place.draft_key()),
        }
    }

    /// What was typed at a place.
    pub fn drafts(&self, place: &Place) -> Result<BTreeMap<String, String>, JournalError> {
        self.journal.drafts(&self.draft_key(place))
    }

    /// Keeps what was typed at a place.
    pub fn keep_drafts(&mut self, place: &Place, fields: &[(String, String)]) -> Result<(), JournalError> {
        self.journal.keep_drafts(&self.draft_key(place), fields)
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
        self.journal_count += recorded.len();
        self.take_beside(&recorded);
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
        (self.worded, self.beside) = (None, None);
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
        let seen = Seen::of(self.ledger.id, self.journal.entries()?)?;
        if !seen.hangar.contains(&self.ledger.id) {
            // Its beginning was taken back.
            return self.turn_to(AircraftId::FIRST);
        }
        self.see(seen);
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
        self.journal.keep_drafts_and_go(&self.draft_key(&place), fields, &way(&places))?;
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
        let turns_to = if let After::Aircraft(aircraft) = &done.after { Some(*aircraft) } else { None };
        match done.after {
            After::Stay | After::Keep => {}
            After::Back | After::Onward => leave(&mut places),
            After::To(next) => enter(&mut places, next),
            After::Aircraft(_) => places = vec![Place::Board],
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
        if let Some(aircraft) = turns_to {
            self.turn_to(aircraft)?;
        }
        if goes_on && self.place() == Place::Board {
            self.go_on(place, now)?;
        }
        Ok(done.said)
    }

    /// Goes on to what the board leads to next. Only now is known what that is: what was just recorded counts. The app that is killed in
    /// between opens at the board.
    fn go_on(&mut self, from: &Place, now: &Moment) -> Result<(), AppError> {
        // What is done on a card waits for the card, and that is another kind of work.
        let next = self.report(now).next.filter(|next| !next.is_done_on_card(&self.plan));
        let first = next.as_ref().and_then(|next| next.blockers.first());
        let is_done_here = |place: &Place| place != from;
        match first.and_then(|blocker| seat_work(&self.plan, &self.ledger, blocker, now)).filter(is_done_here) {
            Some(place) => self.go(place),
            None => Ok(()),
        }
    }
}
