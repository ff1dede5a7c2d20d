//! One opener at a time: an advisory lock on a file beside the journal, held for as long as the journal is open.
//!
//! SQLite itself lets two connections in and keeps their commits apart. But each would go on with a fold of its own: one hands over to
//! the spotter, the other still has the pilot. The system lets go of the lock when the process dies, so a killed app opens again at once.
//! The file beside stays: taking it away would let two in, one with the old file and one with a new one.

use std::fs::{File, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};

use rustix::fs::{FlockOperation, flock};

use super::error::JournalError;

/// The journal is ours while this lives.
pub(crate) struct Lock(File);

impl Lock {
    /// Takes the lock of the journal at `path`; none for what can be no journal, which the ordinary opening refuses and knows why.
    ///
    /// # Errors
    /// [`JournalError::OpenElsewhere`] while another one holds it.
    pub fn take(path: &Path) -> Result<Option<Lock>, JournalError> {
        let Some(beside) = beside(path) else { return Ok(None) };
        let file = OpenOptions::new().write(true).create(true).truncate(false).open(beside).map_err(failed)?;
        // The standard library's own lock is not there on Android in the version that we build with.
        match flock(&file, FlockOperation::NonBlockingLockExclusive) {
            Ok(()) => Ok(Some(Lock(file))),
            Err(rustix::io::Errno::WOULDBLOCK) => Err(JournalError::OpenElsewhere { path: path.to_owned() }),
            Err(error) => Err(failed(error.into())),
        }
    }
}

impl Drop for Lock {
    /// A child process that was just forked may hold the same file for a moment longer: the lock itself is given up here.
    fn drop(&mut self) {
        let _ = flock(&self.0, FlockOperation::Unlock);
    }
}

/// The file beside the journal, by its real name: a link to the journal leads to the same one.
fn beside(path: &Path) -> Option<PathBuf> {
    if path.is_dir() {
        return None;
    }
    let real = path.canonicalize().ok().or_else(|| {
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        Some(folder.canonicalize().ok()?.join(path.file_name()?))
    })?;
    let mut name = real.file_name()?.to_owned();
    name.push("-lock");
    Some(real.with_file_name(name))
}

fn failed(error: io::Error) -> JournalError {
    match error.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => JournalError::Full,
        _ => JournalError::CannotLock { source: error },
    }
}
