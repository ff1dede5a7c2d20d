use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard};

use super::AppError;
use super::damaged::Damaged;
use super::shared::Shared;
use crate::journal::{JournalError, Verified};
use crate::locale::{Chosen, Language, Locale, say};
use crate::readiness::Seat;
use crate::record::Moment;
use crate::view::{Screen, Turn};

/// The opened app: one journal, one owner.
#[derive(Clone)]
pub struct Phone {
    state: Arc<Mutex<State>>,
}

/// Whether the journal is open.
enum State {
    /// The journal is open.
    Open(Box<Shared>),
    /// It is damaged, and waits for the person to go on with what can be read.
    Damaged(Box<Damaged>),
    /// It was closed by someone who read like this.
    Closed(Locale),
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
    /// [`AppError::Journal`] as [`crate::journal::Journal::open`] says; the file is left as it is. A damaged one opens on the one page that
    /// says what can still be read of it.
    pub fn open_on(path: &Path, phone_language: Language, now: &Moment) -> Result<Phone, AppError> {
        // What was chosen stands in the journal that does not open.
        let phones_own = Chosen::default().locale(phone_language);
        let state = match Shared::begin(path, phone_language, now) {
            Ok(shared) => State::Open(Box::new(shared)),
            Err(AppError::Journal { source, .. }) => match Damaged::look(path, phone_language, source) {
                Ok(damaged) => State::Damaged(Box::new(damaged)),
                Err(why) => return Err(AppError::from(why).read_in(phones_own)),
            },
            Err(error) => return Err(error.read_in(phones_own)),
        };
        Ok(Phone { state: Arc::new(Mutex::new(state)) })
    }

    /// Who has the phone.
    pub fn turn(&self) -> Result<Turn, AppError> {
        if let State::Damaged(_) = &*self.lock() {
            return Ok(Turn::Pilot);
        }
        self.with(|shared| {
            Ok(match shared.ledger.seat {
                Seat::Pilot => Turn::Pilot,
                Seat::Spotter { .. } => Turn::Spotter,
            })
        })
    }

    /// How the person reads and types: what was chosen, else as the phone has it.
    pub fn locale(&self) -> Result<Locale, AppError> {
        if let State::Damaged(damaged) = &*self.lock() {
            return Ok(damaged.locale());
        }
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

    /// The page of a damaged journal, while it is not gone on with.
    pub(super) fn damage_screen(&self) -> Option<Screen> {
        match &*self.lock() {
            State::Damaged(damaged) => Some(damaged.screen()),
            State::Open(_) | State::Closed(_) => None,
        }
    }

    /// Goes on with what can be read of a damaged journal; what was done, in a sentence.
    pub(super) fn repair(&self, now: &Moment) -> Result<Option<String>, AppError> {
        let mut state = self.lock();
        let State::Damaged(damaged) = &mut *state else { return Ok(None) };
        let (locale, repaired) = (damaged.locale(), damaged.repaired(now));
        if is_between_two(&repaired) {
            *state = State::Closed(locale);
        }
        let (shared, said) = repaired?;
        *state = State::Open(Box::new(shared));
        Ok(Some(said))
    }

    /// Walks the chain of the journal.
    ///
    /// # Errors
    /// [`crate::journal::JournalError::Broken`] with the first entry that does not fit.
    pub fn verify(&self) -> Result<Verified, AppError> {
        self.with(|shared| Ok(shared.journal.verify()?))
    }

    /// Closes the journal. Whoever still holds a handle is told so at the next touch.
    ///
    /// # Errors
    /// [`AppError::Journal`] if SQLite cannot fold its log back; everything recorded is safe in it all the same.
    pub fn close(&self) -> Result<(), AppError> {
        let mut state = self.lock();
        let locale = match &*state {
            State::Open(shared) => shared.locale(),
            State::Damaged(damaged) => damaged.locale(),
            State::Closed(_) => return Ok(()),
        };
        match std::mem::replace(&mut *state, State::Closed(locale)) {
            State::Open(shared) => shared.journal.close().map_err(|error| AppError::from(error).read_in(locale)),
            State::Damaged(_) | State::Closed(_) => Ok(()),
        }
    }

    fn lock(&self) -> MutexGuard<'_, State> {
        // After a panic what is in memory may be half done; what is in the journal never is. `with` folds it anew.
        self.state.lock().unwrap_or_else(|poisoned| {
            let mut guard = poisoned.into_inner();
            if let State::Open(shared) = &mut *guard {
                shared.entries.clear();
            }
            guard
        })
    }

    /// Does something with the open journal. What fails reads in the language of whoever is at the phone.
    pub(super) fn with<T>(&self, act: impl FnOnce(&mut Shared) -> Result<T, AppError>) -> Result<T, AppError> {
        let mut state = self.lock();
        let shared = match &mut *state {
            State::Open(shared) => shared,
            State::Damaged(damaged) => return Err(AppError::refused(say!(damaged.locale(), "damaged-first"))),
            State::Closed(locale) => return Err(AppError::refused(say!(*locale, "app-closed"))),
        };
        let whole =
            if shared.entries.is_empty() { shared.reload().map(|()| self.state.clear_poison()) } else { Ok(()) };
        let done = whole.and_then(|()| act(shared));
        let locale = shared.locale();
        if is_between_two(&done) {
            *state = State::Closed(locale);
        }
        done.map_err(|error| error.read_in(locale))
    }
}

/// Which of two records it is, the next start decides: nothing more is read or recorded here.
fn is_between_two<T>(done: &Result<T, AppError>) -> bool {
    matches!(done, Err(AppError::Journal { source: JournalError::BetweenTwo, .. }))
}
