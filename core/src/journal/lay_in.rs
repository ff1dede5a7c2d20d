//! A journal that was made beside this one takes its place; this one is set aside, byte for byte.

use std::collections::BTreeSet;
use std::path::Path;

use rusqlite::Connection;

use super::backup::BackupError;
use super::beside::{Beside, SetAside};
use super::error::Doing;
use super::{Journal, JournalError};

/// How a journal that was brought in compares with the one that is there. Digests close over all before them, so that two chains are the
/// same up to one place and differ behind it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Compared {
    /// Entries that both have.
    pub common: i64,
    /// Entries of the one that is there.
    pub here: i64,
    /// Entries of the one that was brought in.
    pub brought: i64,
    /// Entries among the common ones that only the one that was brought in can still be read of.
    pub mended: i64,
}

impl Journal {
    /// Compares a journal that was brought in with this one.
    pub(crate) fn compare(&self, brought: &Journal) -> Result<Compared, JournalError> {
        let (here, there) = (self.count()?, brought.count()?);
        let mut common = here.min(there);
        while common > 0 && self.digest_of(common)? != brought.digest_of(common)? {
            common -= 1;
        }
        let mended = self.illegible()?.difference(&brought.illegible()?).filter(|seq| **seq <= common).count() as i64;
        Ok(Compared { common, here, brought: there, mended })
    }

    /// The places at which nothing legible is left.
    fn illegible(&self) -> Result<BTreeSet<i64>, JournalError> {
        let reading = JournalError::while_doing;
        let mut statement = self
            .connection
            .prepare_cached("SELECT seq FROM entry WHERE kind = 'illegible'")
            .map_err(reading(Doing::Reading))?;
        let rows = statement.query_map([], |row| row.get(0)).map_err(reading(Doing::Reading))?;
        rows.collect::<rusqlite::Result<_>>().map_err(reading(Doing::Reading))
    }

    /// Lets a journal that was made beside this one take its place. Gives back the number under which this one is set aside.
    ///
    /// # Errors
    /// It cannot be closed, moved or opened again: then this one is there as it was. [`JournalError::BetweenTwo`] where that could not be had
    /// back either.
    pub(crate) fn lay_in(&mut self, made: Journal) -> Result<u32, JournalError> {
        let beside = Beside::of(self.path());
        made.close_whole()?;
        self.shut()?;
        let number = match beside.take_place() {
            Ok(number) => number,
            Err(error) => {
                self.reopen()?;
                return Err(error);
            }
        };
        let Err(error) = self.reopen() else { return Ok(number) };
        beside.give_place_back(number)?;
        self.reopen()?;
        Err(error)
    }

    /// Gives up what was brought in and is not in place.
    pub(crate) fn discard_brought(&self) {
        let beside = Beside::of(self.path());
        beside.clear(&beside.arriving());
        beside.clear(&beside.building());
    }

    /// Journals that others took the place of, the newest first.
    pub(crate) fn set_aside(&self) -> Vec<SetAside> {
        Beside::of(self.path()).set_aside().unwrap_or_default()
    }

    /// A copy of one of them, its chain walked, to be compared or to take this one's place.
    ///
    /// # Errors
    /// It does not open, or its chain does not close: it can be saved as it is, and no more.
    pub(crate) fn copy_of(&self, number: u32) -> Result<Journal, JournalError> {
        let beside = Beside::of(self.path());
        beside.clear(&beside.building());
        copied(&beside.aside(number), &beside.building())?;
        if beside.aside_log(number).try_exists().map_err(BackupError::from)? {
            copied(&beside.aside_log(number), &beside.building_log())?;
        }
        let copy = Journal::open_alone(&beside.building())?;
        copy.verify()?;
        Ok(copy)
    }

    /// Opens one of them for reading, byte for byte.
    pub(crate) fn open_aside(&self, number: u32) -> Result<std::fs::File, JournalError> {
        Ok(std::fs::File::open(Beside::of(self.path()).aside(number)).map_err(BackupError::from)?)
    }

    /// Opens the log beside one of them, byte for byte.
    pub(crate) fn open_aside_log(&self, number: u32) -> Result<std::fs::File, JournalError> {
        Ok(std::fs::File::open(Beside::of(self.path()).aside_log(number)).map_err(BackupError::from)?)
    }

    /// Lets go of one of them, for good.
    pub(crate) fn let_go(&self, number: u32) {
        let beside = Beside::of(self.path());
        beside.clear(&beside.aside(number));
    }

    /// Closes the file, while the lock is kept. What cannot be folded into it stays open, as it was.
    fn shut(&mut self) -> Result<(), JournalError> {
        let nothing = Connection::open_in_memory().map_err(JournalError::while_doing(Doing::Closing))?;
        self.fold_log_in()?;
        let open = std::mem::replace(&mut self.connection, nothing);
        open.close().map_err(|(open, error)| {
            self.connection = open;
            JournalError::while_doing(Doing::Closing)(error)
        })
    }

    /// # Errors
    /// Another one waits still to take the place: the next start lets it in, and nothing is recorded here any more.
    fn reopen(&mut self) -> Result<(), JournalError> {
        if Beside::of(self.path()).is_between_two() {
            return Err(JournalError::BetweenTwo);
        }
        self.connection = super::open::open(self.path())?;
        Ok(())
    }
}

/// Copies a file, and waits until the copy is on the flash.
fn copied(from: &Path, to: &Path) -> Result<(), BackupError> {
    std::fs::copy(from, to)?;
    Ok(std::fs::File::open(to)?.sync_all()?)
}
