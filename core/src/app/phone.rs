use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard};

use super::{AppError, PilotDesk, SpotterDesk};
use crate::computed::Facts;
use crate::journal::{Journal, NewEntry, Verified};
use crate::locale::{Chosen, Language, Locale, parse_number, say};
use crate::plan::{Plan, SHIPPED};
use crate::readiness::{Ledger, PlanText, Report, Seat, is_told, may_change_plan, plan_text_in_force, reaches_back};
use crate::record::{Body, Entry, EntryId, Moment};
use crate::view::{Place, Turn};

/// The opened app: one journal, one owner.
#[derive(Clone)]
pub struct Phone {
    behind: Arc<Mutex<Behind>>,
}

/// What is behind the lock.
enum Behind {
    /// The journal is open.
    Open(Box<Shared>),
    /// It was closed by someone who read like this.
    Closed(Locale),
}

/// An open journal and what is known from it.
pub(super) struct Shared {
    pub journal: Journal,
    /// The plan in force, as the person reads it.
    pub plan: Plan,
    /// The same as it was adopted: what the journal is folded under.
    pub written: Plan,
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
    pub arriving: Option<super::document::Arriving>,
    /// A log that is being read.
    pub reading: Option<super::reading::Reading>,
    /// The flight whose log is in view and is not read, and why.
    pub unread: Option<(EntryId, super::reading::Unread)>,
    /// A log that was picked and is not attached yet.
    pub picked_log: Option<super::log::PickedLog>,
    /// The log in view, read.
    pub open_log: Option<super::log::OpenLog>,
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

impl Phone {
    /// Opens the journal at `path`, or begins one there under the shipped plan, on a phone that speaks English.
    ///
    /// # Errors
    /// As [`Phone::open_on`].
    pub fn open(path: &Path, now: &Moment) -> Result<Phone, AppError> {
        Phone::open_on(path, Language::English, now)
    }

    /// The same on a phone that speaks `phone_language`: until the person chooses, the app speaks it too.
    ///
    /// # Errors
    /// [`AppError::Journal`] as [`Journal::open`] says; the file is left as it is.
    pub fn open_on(path: &Path, phone_language: Language, now: &Moment) -> Result<Phone, AppError> {
        // What was chosen stands in the journal that does not open.
        let phones_own = Chosen::default().locale(phone_language);
        Phone::begin(path, phone_language, now).map_err(|error| error.read_in(phones_own))
    }

    fn begin(path: &Path, phone_language: Language, now: &Moment) -> Result<Phone, AppError> {
        let mut journal = Journal::open(path)?;
        // It only takes room; where there is none even to clear it away, the app opens all the same.
        let _ = journal.give_half_log_up();
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
        let shared = Shared {
            journal,
            plan,
            written,
            entries,
            ledger,
            last,
            places,
            chosen,
            phone_language,
            arriving: None,
            reading: None,
            unread: None,
            picked_log: None,
            open_log: None,
        };
        Ok(Phone { behind: Arc::new(Mutex::new(Behind::Open(Box::new(shared)))) })
    }

    /// Who has the phone.
    pub fn turn(&self) -> Result<Turn, AppError> {
        self.with(|shared| {
            Ok(match shared.ledger.seat {
                Seat::Pilot => Turn::Pilot,
                Seat::Spotter { .. } => Turn::Spotter,
            })
        })
    }

    /// How the person reads and types: what was chosen, else as the phone has it.
    pub fn locale(&self) -> Result<Locale, AppError> {
        self.with(|shared| Ok(shared.locale()))
    }

    /// What was chosen of it.
    pub fn chosen(&self) -> Result<Chosen, AppError> {
        self.with(|shared| Ok(shared.chosen))
    }

    /// Keeps how the person wants to read and type. It holds from the next screen on.
    ///
    /// # Errors
    /// [`AppError::Journal`] if it could not be kept; what was chosen before holds on.
    pub fn choose(&self, chosen: Chosen) -> Result<(), AppError> {
        self.with(|shared| shared.choose(chosen))
    }

    /// The phone was set to another language of its own.
    pub fn phone_speaks(&self, language: Language) -> Result<(), AppError> {
        self.with(|shared| {
            shared.phone_language = language;
            shared.translate();
            Ok(())
        })
    }

    /// The pilot's handle.
    ///
    /// # Errors
    /// [`AppError::NotYourTurn`] while the spotter has the phone.
    pub fn pilot(&self) -> Result<PilotDesk, AppError> {
        self.with(|shared| shared.pilots_turn())?;
        Ok(PilotDesk::new(self.clone()))
    }

    /// The spotter's handle, for the card that was handed over.
    ///
    /// # Errors
    /// [`AppError::NotYourTurn`] while the pilot has the phone.
    pub fn spotter(&self) -> Result<SpotterDesk, AppError> {
        self.with(|shared| match &shared.ledger.seat {
            Seat::Spotter { card, name } => Ok(SpotterDesk::new(self.clone(), *card, name.clone())),
            Seat::Pilot => Err(AppError::NotYourTurn { reason: say!(shared.locale(), "desk-not-handed-over") }),
        })
    }

    /// Walks the chain of the journal.
    ///
    /// # Errors
    /// [`crate::journal::JournalError::Broken`] with the first entry that does not fit.
    pub fn verify(&self) -> Result<Verified, AppError> {
        self.with(|shared| Ok(shared.journal.verify()?))
    }

    /// The dossier of the aircraft: one HTML file that shows another person what was proved.
    ///
    /// # Errors
    /// As [`Phone::verify`]: a journal that does not close is not printed as proof.
    pub fn dossier(&self, now: &Moment) -> Result<String, AppError> {
        self.with(|shared| {
            let verified = shared.journal.verify()?;
            let plots = super::log::printed(shared)?;
            crate::dossier::html(shared.facts(), &shared.entries, verified, &plots, now)
                .map_err(|error| AppError::refused(error.to_string()))
        })
    }

    /// Closes the journal. Whoever still holds a handle is told so at the next touch.
    ///
    /// # Errors
    /// [`AppError::Journal`] if SQLite cannot fold its log back; everything recorded is safe in it all the same.
    pub fn close(&self) -> Result<(), AppError> {
        let mut behind = self.lock();
        let locale = match &*behind {
            Behind::Open(shared) => shared.locale(),
            Behind::Closed(_) => return Ok(()),
        };
        match std::mem::replace(&mut *behind, Behind::Closed(locale)) {
            Behind::Open(shared) => shared.journal.close().map_err(|error| AppError::from(error).read_in(locale)),
            Behind::Closed(_) => Ok(()),
        }
    }

    fn lock(&self) -> MutexGuard<'_, Behind> {
        // After a panic what is in memory may be half done; what is in the journal never is. `with` folds it anew.
        self.behind.lock().unwrap_or_else(|poisoned| {
            let mut guard = poisoned.into_inner();
            if let Behind::Open(shared) = &mut *guard {
                shared.entries.clear();
            }
            guard
        })
    }

    /// Does something with the open journal. What fails reads in the language of whoever is at the phone.
    pub(super) fn with<T>(&self, act: impl FnOnce(&mut Shared) -> Result<T, AppError>) -> Result<T, AppError> {
        let mut behind = self.lock();
        let shared = match &mut *behind {
            Behind::Open(shared) => shared,
            Behind::Closed(locale) => return Err(AppError::refused(say!(*locale, "desk-closed"))),
        };
        let whole =
            if shared.entries.is_empty() { shared.reload().map(|()| self.behind.clear_poison()) } else { Ok(()) };
        whole.and_then(|()| act(shared)).map_err(|error| error.read_in(shared.locale()))
    }
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

/// The way to a place as the journal keeps it.
pub(super) fn way(places: &[Place]) -> Vec<String> {
    places.iter().map(Place::key).collect()
}

impl Shared {
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
    fn translate(&mut self) {
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
                Err(AppError::NotYourTurn { reason: say!(self.locale(), "desk-spotter-has-phone", name = name) })
            }
        }
    }

    fn reload(&mut self) -> Result<(), AppError> {
        self.entries = self.journal.entries()?;
        self.written = plan_in_force(&self.entries)?;
        self.translate();
        (self.ledger, self.last) = fold(&self.written, &self.entries);
        Ok(())
    }
}
