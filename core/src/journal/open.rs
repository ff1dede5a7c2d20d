use std::path::Path;

use rusqlite::{Connection, OpenFlags, config::DbConfig};
use rusqlite_migration::{M, Migrations};

use super::error::JournalError;
use super::error::{Doing, NotOurs};

/// Marks a SQLite file as a Liftgate journal: `LFTG` in the header's application id.
pub const APPLICATION_ID: i32 = 0x4C46_5447;

/// Numbered steps, oldest first. A step that has shipped is never edited: a change is a new step.
const STEPS: &[&str] = &[
    include_str!("../../sql/001_journal.sql"),
    include_str!("../../sql/002_logs.sql"),
    include_str!("../../sql/003_preference.sql"),
    include_str!("../../sql/004_long_logs.sql"),
];

/// The newest form of the file that is known here: `user_version` after all steps.
pub(super) const NEWEST_FORM: i64 = STEPS.len() as i64;

pub(super) fn migrations() -> Migrations<'static> {
    Migrations::new(STEPS.iter().map(|sql| M::up(sql)).collect())
}

/// Opens or creates a journal file, after a [`glance`] at it, and brings it to the newest form.
pub(super) fn open(path: &Path) -> Result<Connection, JournalError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let mut connection =
        Connection::open_with_flags(path, flags).map_err(JournalError::while_doing(Doing::Opening))?;
    distrust(&connection).map_err(|e| not_a_journal(path, e))?;
    let fresh = recognise(&connection, path)?;
    fold_log_on_close(&connection, true).map_err(JournalError::while_doing(Doing::Opening))?;
    if fresh {
        // In the rollback mode that every new file starts with, so that the mark is in the file itself.
        connection
            .pragma_update(None, "application_id", APPLICATION_ID)
            .map_err(JournalError::while_doing(Doing::Creating))?;
    }
    make_durable(&connection).map_err(JournalError::while_doing(Doing::Opening))?;
    migrations().to_latest(&mut connection).map_err(|error| match error {
        rusqlite_migration::Error::RusqliteError { err, .. } => JournalError::while_doing(Doing::Updating)(err),
        other => JournalError::NotAJournal { path: path.to_owned(), reason: NotOurs::Other(other.to_string()) },
    })?;
    Ok(connection)
}

/// Refuses a file of another program's before SQLite is let near it for writing.
///
/// An ordinary open rolls back or folds in what a crash of that program left beside its file, and takes a file of a few
/// bytes for an empty one. An immutable open reads the header and nothing else. It goes through SQLite all the same:
/// closing a file that was opened past it would drop the locks of every connection that this process has to it.
pub(super) fn glance(path: &Path) -> Result<(), JournalError> {
    let Ok(length) = std::fs::metadata(path).map(|found| found.len()) else { return Ok(()) };
    if length == 0 {
        return Ok(());
    }
    if length < SMALLEST_PAGE {
        return Err(JournalError::NotAJournal { path: path.to_owned(), reason: NotOurs::NoDatabase });
    }
    let Some(uri) = path.to_str().map(immutable_uri) else { return Ok(()) };
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    // What cannot be opened even so is left to the ordinary open, which knows why.
    let Ok(connection) = Connection::open_with_flags(uri, flags) else { return Ok(()) };
    match connection.pragma_query_value(None, "application_id", |row| row.get::<_, i32>(0)) {
        Ok(APPLICATION_ID) => Ok(()),
        Ok(_) => Err(of_another_program(path)),
        Err(error) if error.sqlite_error_code() == Some(rusqlite::ErrorCode::NotADatabase) => {
            // A power cut in the second of its creation: the first page is half there, the rollback journal mends it.
            let mendable = path.with_file_name(rollback_journal(path)).try_exists().unwrap_or(true);
            if mendable { Ok(()) } else { Err(not_a_journal(path, error)) }
        }
        // Without its log the file may look damaged: a checkpoint that a full disk cut short. The log makes it whole.
        Err(_) => Ok(()),
    }
}

/// SQLite's smallest page and so its smallest database, bytes.
const SMALLEST_PAGE: u64 = 512;

pub(super) fn immutable_uri(path: &str) -> String {
    let path = path.replace('%', "%25").replace('?', "%3f").replace('#', "%23");
    format!("file:{path}?immutable=1")
}

fn rollback_journal(path: &Path) -> std::ffi::OsString {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push("-journal");
    name
}

/// A refused file keeps the log that lies beside it as it is, too.
fn fold_log_on_close(connection: &Connection, fold: bool) -> rusqlite::Result<bool> {
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, !fold)
}

/// A file is not ours until it has shown that it is.
fn distrust(connection: &Connection) -> rusqlite::Result<()> {
    fold_log_on_close(connection, false)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
    connection.pragma_update(None, "cell_size_check", true)?;
    connection.pragma_update(None, "mmap_size", 0)?;
    connection.busy_timeout(std::time::Duration::from_secs(2))
}

/// Whether the file is new (`true`) or one of ours (`false`); anything else is refused untouched.
fn recognise(connection: &Connection, path: &Path) -> Result<bool, JournalError> {
    let number = |pragma: &str| connection.pragma_query_value(None, pragma, |row| row.get::<_, i64>(0));
    let refuse = |error| not_a_journal(path, error);
    let application = number("application_id").map_err(refuse)?;
    let form = number("user_version").map_err(refuse)?;
    let tables: i64 =
        connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0)).map_err(refuse)?;
    if application == i64::from(APPLICATION_ID) {
        if form > NEWEST_FORM {
            return Err(JournalError::Newer { path: path.to_owned(), found: form, known: NEWEST_FORM });
        }
        return Ok(false);
    }
    if application == 0 && form == 0 && tables == 0 {
        return Ok(true);
    }
    Err(of_another_program(path))
}

fn of_another_program(path: &Path) -> JournalError {
    let reason = NotOurs::OtherProgram;
    JournalError::NotAJournal { path: path.to_owned(), reason }
}

fn not_a_journal(path: &Path, error: rusqlite::Error) -> JournalError {
    match error.sqlite_error_code() {
        Some(rusqlite::ErrorCode::NotADatabase) => {
            JournalError::NotAJournal { path: path.to_owned(), reason: NotOurs::NoDatabase }
        }
        Some(rusqlite::ErrorCode::DatabaseCorrupt) => {
            JournalError::NotAJournal { path: path.to_owned(), reason: NotOurs::Damaged }
        }
        _ => JournalError::while_doing(Doing::Opening)(error),
    }
}

/// SQLite's documentation: in WAL mode only FULL keeps a commit through a power loss. Where the storage fails while it changes to that mode it
/// can go on in the one before, in which a power cut could take a commit back; what it is in it knows once it has read.
fn make_durable(connection: &Connection) -> rusqlite::Result<()> {
    connection.pragma_update(None, "journal_mode", "WAL")?;
    connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get::<_, i64>(0))?;
    let mode: String = connection.pragma_query_value(None, "journal_mode", |row| row.get(0))?;
    if mode != "wal" {
        let error = rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_IOERR);
        return Err(rusqlite::Error::SqliteFailure(error, Some(format!("it stays in the mode '{mode}'"))));
    }
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "locking_mode", "NORMAL")
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_steps_run_from_nothing_and_each_is_valid() {
        let valid = super::migrations().validate();
        assert!(valid.is_ok(), "{valid:?}");
    }
}
