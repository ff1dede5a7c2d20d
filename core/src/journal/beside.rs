//! The files beside the journal: what comes in, what is being made of it, and journals that were set aside.
//!
//! A journal takes another one's place by two renames, so that at any moment one of them, whole, is there or waits under its own name.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::JournalError;
use super::backup::BackupError;

/// The end of the name of a journal that was set aside, before its number.
const ASIDE: &str = "-aside-";

/// A journal that another one took the place of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SetAside {
    /// Its number: the newest has the highest.
    pub number: u32,
    /// Its length.
    pub bytes: u64,
    /// The length of the log that SQLite had beside it, where it was not folded into it.
    pub log_bytes: Option<u64>,
}

/// The names of the files beside a journal.
pub(crate) struct Beside {
    journal: PathBuf,
}

impl Beside {
    pub fn of(journal: &Path) -> Beside {
        Beside { journal: journal.to_owned() }
    }

    fn named(&self, end: &str) -> PathBuf {
        ending(&self.journal, end)
    }

    /// A document that comes in.
    pub fn arriving(&self) -> PathBuf {
        self.named("-arriving")
    }

    /// A journal that is being made.
    pub fn building(&self) -> PathBuf {
        self.named("-building")
    }

    /// The log that SQLite has beside a journal that is being made.
    pub fn building_log(&self) -> PathBuf {
        ending(&self.building(), "-wal")
    }

    /// A journal that is whole and about to take the place of this one.
    fn next(&self) -> PathBuf {
        self.named("-next")
    }

    /// The log that SQLite had beside a journal that was set aside.
    pub fn aside_log(&self, number: u32) -> PathBuf {
        ending(&self.aside(number), "-wal")
    }

    /// A journal that was set aside.
    pub fn aside(&self, number: u32) -> PathBuf {
        self.named(&format!("{ASIDE}{number}"))
    }

    /// Whether a journal waits to take the place of this one.
    pub fn has_next(&self) -> io::Result<bool> {
        self.next().try_exists()
    }

    /// Whether a change of place is begun and not ended, as far as can be told: the next start ends it.
    pub fn is_between_two(&self) -> bool {
        self.has_next().unwrap_or(true)
    }

    /// Whether a journal of ours was open here before: it leaves the file by which it is locked.
    pub fn was_open_here(&self) -> bool {
        self.named("-lock").exists()
    }

    /// Those that are there, the newest first.
    ///
    /// # Errors
    /// The folder cannot be looked into.
    pub fn set_aside(&self) -> io::Result<Vec<SetAside>> {
        let begins = self.named(ASIDE).file_name().unwrap_or_default().to_string_lossy().into_owned();
        let folder = self.journal.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let files = fs::read_dir(folder)?.collect::<io::Result<Vec<fs::DirEntry>>>()?;
        let mut found: Vec<SetAside> = files
            .into_iter()
            .filter_map(|file| {
                let number = file.file_name().to_str()?.strip_prefix(&begins)?.parse().ok()?;
                let log = fs::metadata(ending(&file.path(), "-wal")).ok().map(|log| log.len());
                let log_bytes = log.filter(|bytes| *bytes > 0);
                Some(SetAside { number, bytes: file.metadata().ok()?.len(), log_bytes })
            })
            .collect();
        found.sort_by_key(|aside| std::cmp::Reverse(aside.number));
        Ok(found)
    }

    /// The journal that was built takes the place of the one that is there, which is set aside under the number that is given back.
    ///
    /// From the first rename on it is decided: what a power cut comes between is ended by the next start.
    ///
    /// # Errors
    /// It cannot be moved, and all is as it was; [`JournalError::BetweenTwo`] where that could not be had back either.
    pub fn take_place(&self) -> Result<u32, JournalError> {
        let number = self.free().map_err(BackupError::from)?;
        let moved =
            fs::rename(self.building(), self.next()).and_then(|()| self.sync()).and_then(|()| self.let_next_in());
        moved.map_err(|error| {
            // It is as it was: nothing is opened anew where a journal was.
            let back = self.put_back(number).and_then(|()| move_if_there(&self.next(), &self.building()));
            if back.is_err() || self.is_between_two() {
                JournalError::BetweenTwo
            } else {
                BackupError::from(error).into()
            }
        })
    }

    /// The number of the next one that is set aside. Where nobody knows which there are, none may be put over another.
    fn free(&self) -> io::Result<u32> {
        Ok(self.set_aside()?.first().map_or(1, |newest| newest.number + 1))
    }

    /// Moves what was set aside back to where there is no journal.
    fn put_back(&self, number: u32) -> io::Result<()> {
        if !self.journal.try_exists()? {
            move_if_there(&self.aside(number), &self.journal)?;
        }
        for end in ["-wal", "-journal"] {
            move_if_there(&ending(&self.aside(number), end), &self.named(end))?;
        }
        Ok(())
    }

    /// What SQLite has beside the journal goes first: the log of one journal beside another one would be taken for its own.
    fn let_next_in(&self) -> io::Result<u32> {
        let number = self.free()?;
        let aside = self.aside(number);
        for end in ["-wal", "-journal"] {
            move_if_there(&self.named(end), &ending(&aside, end))?;
        }
        let _ = fs::remove_file(self.named("-shm"));
        self.sync()?;
        move_if_there(&self.journal, &aside)?;
        fs::rename(self.next(), &self.journal)?;
        // It is in place. If the folder cannot be synced and the power fails now, it waits under its own name again, with all that came to it.
        let _ = self.sync();
        Ok(number)
    }

    /// Takes the last change of place back: what cannot be opened is no journal to go on with.
    ///
    /// # Errors
    /// [`JournalError::BetweenTwo`]: it cannot be moved.
    pub fn give_place_back(&self, number: u32) -> Result<(), JournalError> {
        // From the first rename on the one that was there before is the next one again, whatever comes between.
        fs::rename(self.aside(number), self.next())
            .and_then(|()| fs::rename(&self.journal, self.building()))
            .and_then(|()| fs::rename(self.next(), &self.journal))
            .and_then(|()| self.sync())
            .map_err(|_| JournalError::BetweenTwo)
    }

    /// Ends what a power cut came between: a journal that was to take the place takes it. What was on its way in is cleared away, which
    /// only takes room, or can be picked again.
    ///
    /// # Errors
    /// One that waits cannot take the place. Both are whole, and the next start tries again.
    pub fn put_right(&self) -> io::Result<()> {
        if self.has_next()? {
            self.let_next_in()?;
        }
        self.clear(&self.arriving());
        self.clear(&self.building());
        Ok(())
    }

    /// Takes a file away, with what SQLite has beside it.
    pub fn clear(&self, path: &Path) {
        for end in ["", "-wal", "-shm", "-journal"] {
            let _ = fs::remove_file(ending(path, end));
        }
    }

    /// A rename is on the flash once its folder is.
    fn sync(&self) -> io::Result<()> {
        let folder = self.journal.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        fs::File::open(folder)?.sync_all()
    }
}

/// The same path with this behind its name.
fn ending(path: &Path, end: &str) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(end);
    path.with_file_name(name)
}

fn move_if_there(from: &Path, to: &Path) -> io::Result<()> {
    match fs::rename(from, to) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        other => other,
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::journal::{Journal, NewEntry};
    use crate::record::{Body, Moment};

    fn recorded(journal: &mut Journal, names: &[&str]) {
        let wall = chrono::DateTime::parse_from_rfc3339("2026-03-07T10:00:00+01:00").unwrap();
        let now = Moment { wall, monotonic_ms: 1, boot: "first".into() };
        for name in names {
            let body = Body::AircraftNamed { name: (*name).into(), builder: "Ada".into(), pilot: None };
            journal.append(&now, vec![NewEntry::pilot(body)]).unwrap();
        }
    }

    fn names(path: &Path) -> Vec<String> {
        let entries = Journal::open(path).unwrap().entries().unwrap();
        let name = |body| match body {
            Body::AircraftNamed { name, .. } => name,
            other => panic!("{other:?}"),
        };
        entries.into_iter().map(|entry| name(entry.body)).collect()
    }

    /// A journal that was killed with its log beside it, and another one that is to take its place.
    fn two(folder: &Path) -> Beside {
        let path = folder.join("journal.db");
        let (alive, beside) = (folder.join("alive.db"), Beside::of(&path));
        let mut journal = Journal::open(&alive).unwrap();
        recorded(&mut journal, &["old", "older"]);
        fs::copy(&alive, &path).unwrap();
        fs::copy(ending(&alive, "-wal"), ending(&path, "-wal")).unwrap();
        let mut made = Journal::open_alone(&beside.building()).unwrap();
        recorded(&mut made, &["new"]);
        made.close().unwrap();
        beside
    }

    #[test]
    fn whichever_rename_a_power_cut_comes_after_both_are_whole_and_the_new_one_is_there() {
        for cut in 0..=4 {
            let folder = tempfile::tempdir().unwrap();
            let beside = two(folder.path());
            let aside = beside.aside(1);
            let renames = [
                (beside.building(), beside.next()),
                (beside.named("-wal"), ending(&aside, "-wal")),
                (beside.journal.clone(), aside.clone()),
                (beside.next(), beside.journal.clone()),
            ];
            renames.iter().take(cut).for_each(|(from, to)| fs::rename(from, to).unwrap());
            let expected: &[&str] = if cut == 0 { &["old", "older"] } else { &["new"] };
            assert_eq!(names(&beside.journal), expected, "after {cut}");
            assert!(!beside.next().exists() && !beside.building().exists(), "after {cut}");
            if cut > 0 {
                assert_eq!(beside.set_aside().unwrap().len(), 1, "after {cut}");
                assert_eq!(names(&aside), ["old", "older"], "what was set aside, after {cut}");
            }
        }
    }

    #[test]
    fn a_change_of_place_that_is_taken_back_leaves_the_one_before() {
        let folder = tempfile::tempdir().unwrap();
        let beside = two(folder.path());
        // As a swap does: its log was folded in before.
        assert_eq!(names(&beside.journal), ["old", "older"]);
        let _ = fs::remove_file(beside.named("-wal"));
        let mut made = Journal::open_alone(&beside.building()).unwrap();
        recorded(&mut made, &["new"]);
        made.close().unwrap();
        let number = beside.take_place().unwrap();
        assert_eq!(names(&beside.journal), ["new"]);
        beside.give_place_back(number).unwrap();
        assert_eq!(names(&beside.journal), ["old", "older"]);
        // A cut in the middle of that: the one before is the next one.
        let mut made = Journal::open_alone(&beside.building()).unwrap();
        recorded(&mut made, &["new"]);
        made.close().unwrap();
        let number = beside.take_place().unwrap();
        fs::rename(beside.aside(number), beside.next()).unwrap();
        assert_eq!(names(&beside.journal), ["old", "older"], "cut after the first of its renames");
    }
}
