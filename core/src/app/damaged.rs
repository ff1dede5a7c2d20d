//! A journal that does not open, or whose chain does not close: what can still be read of it, and the way to go on.

use std::path::{Path, PathBuf};

use super::AppError;
use super::shared::Shared;
use crate::journal::{Beside, JournalError, Legible, Lock, repair};
use crate::locale::{Chosen, Language, Locale, say};
use crate::record::Moment;
use crate::view::{self, DamageSeen, Screen};

/// A damaged journal. Nothing is written to it.
pub(super) struct Damaged {
    path: PathBuf,
    phone_language: Language,
    why: JournalError,
    legible: Legible,
    /// Whether nobody knows if entries came behind the last legible one.
    may_lack_last: bool,
    /// Nobody else goes on with it in the meantime.
    lock: Option<Lock>,
}

impl Damaged {
    /// Looks at a journal that does not open. What is no damage of a journal of ours is given back.
    pub fn look(path: &Path, phone_language: Language, why: JournalError) -> Result<Damaged, JournalError> {
        if !why.may_be_damage() || path.is_dir() {
            return Err(why);
        }
        // Taking the lock leaves the file by which that is known.
        let was_open_here = Beside::of(path).was_open_here();
        let Ok(lock) = Lock::take(path) else { return Err(why) };
        // What the storage does not give now is no damage: nobody is asked to go on without it.
        let known = Legible::last_known(path)?;
        let legible = Legible::search(path, known)?;
        // One with nothing in it is ours where it was open here before.
        let is_ours = legible.count() > 0 || was_open_here;
        // What proves itself and cannot be understood was written by a newer app, which is no damage.
        if !is_ours || !legible.is_understood() {
            return Err(why);
        }
        let may_lack_last = known.is_none();
        Ok(Damaged { path: path.to_owned(), phone_language, why, legible, may_lack_last, lock })
    }

    /// How the person reads: what was chosen stands in the file that does not open.
    pub fn locale(&self) -> Locale {
        Chosen::default().locale(self.phone_language)
    }

    /// The only page there is.
    pub fn screen(&self) -> Screen {
        let seen = DamageSeen {
            why: &self.why,
            count: self.legible.count(),
            gaps: self.legible.gaps(),
            may_lack_last: self.may_lack_last,
        };
        view::damaged(self.locale(), &seen)
    }

    /// Goes on with what can be read; the damaged file is set aside.
    pub fn repaired(&mut self, now: &Moment) -> Result<(Shared, String), AppError> {
        let locale = self.locale();
        let read_in = |error: AppError| error.read_in(locale);
        let number = repair(&self.path, &self.legible, self.may_lack_last, now).map_err(AppError::from);
        let number = number.map_err(read_in)?;
        // The journal that is there now takes the lock itself.
        self.lock = None;
        let shared = Shared::begin(&self.path, self.phone_language, now).map_err(read_in)?;
        Ok((shared, say!(self.locale(), "damaged-repaired", number = number)))
    }
}
