//! The files beside the journal: what comes in, what is being made of it, and journals that were set aside.
//!
//! A journal takes another one's place by two renames, so that at any moment one of them, whole, is there or waits under its own name.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// The end of the name of a journal that was set aside, before its number.
const ASIDE: &str = "-aside-";

/// A journal that another one took the place of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SetAside {
    /// Its number: the newest has the highest.
    pub number: u32,
    /// Its length.
    pub bytes: u64,
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
        let mut name = self.journal.file_name().unwrap_or_default().to_owned();
        name.push(end);
        self.journal.with_file_name(name)
    }

    /// A document that comes in.
    pub fn arriving(&self) -> PathBuf {
        self.named("-arriving")
    }

    /// A journal that is being made.
    pub fn building(&self) -> PathBuf {
        self.named("-building")
    }

    /// A journal that is whole and about to take the place of this one.
    fn next(&self) -> PathBuf {
        self.named("-next")
    }

    /// A journal that was set aside.
    pub fn aside(&self, number: u32) -> PathBuf {
        self.named(&format!("{ASIDE}{number}"))
    }

    /// Those that are there, the newest first.
    pub fn set_aside(&self) -> Vec<SetAside> {
        let begins = self.named(ASIDE).file_name().unwrap_or_default().to_string_lossy().into_owned();
        let folder = self.journal.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let files = fs::read_dir(folder).into_iter().flatten().flatten();
        let mut found: Vec<SetAside> = files
            .filter_map(|file| {
                let number = file.file_name().to_str()?.strip_prefix(&begins)?.parse().ok()?;
                Some(SetAside { number, bytes: file.metadata().ok()?.len() })
            })
            .collect();
        found.sort_by_key(|aside| std::cmp::Reverse(aside.number));
        found
    }

    /// The journal that was built takes the place of the one that is there, which is set aside under the number that is given back.
    pub fn take_place(&self) -> io::Result<u32> {
        let number = self.set_aside().first().map_or(1, |newest| newest.number + 1);
        fs::rename(self.building(), self.next())?;
        self.sync()?;
        let changed = fs::rename(&self.journal, self.aside(number));
        if changed.is_err() {
            // Nothing took its place: what was built waits again.
            fs::rename(self.next(), self.building())?;
            changed?;
        }
        fs::rename(self.next(), &self.journal)?;
        self.sync()?;
        Ok(number)
    }

    /// Takes the last change of place back: what cannot be opened is no journal to go on with.
    pub fn give_place_back(&self, number: u32) -> io::Result<()> {
        fs::rename(&self.journal, self.building())?;
        fs::rename(self.aside(number), &self.journal)?;
        self.sync()
    }

    /// Ends what a power cut came between: a journal that was to take the place takes it where there is none, and goes where there is
    /// one. What was on its way in is cleared away. It only takes room, or can be picked again: what fails here is passed over.
    pub fn put_right(&self) {
        if self.journal.exists() {
            self.clear(&self.next());
        } else if self.next().exists() {
            let _ = fs::rename(self.next(), &self.journal);
            let _ = self.sync();
        }
        self.clear(&self.arriving());
        self.clear(&self.building());
    }

    /// Takes a file away, with what SQLite has beside it.
    pub fn clear(&self, path: &Path) {
        for end in ["", "-wal", "-shm", "-journal"] {
            let mut name = path.file_name().unwrap_or_default().to_owned();
            name.push(end);
            let _ = fs::remove_file(path.with_file_name(name));
        }
    }

    /// A rename is on the flash once its folder is.
    fn sync(&self) -> io::Result<()> {
        let folder = self.journal.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        fs::File::open(folder)?.sync_all()
    }
}
