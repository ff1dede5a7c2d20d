//! Drafts: what was typed and is not recorded yet. A form names itself by a text of its own; the journal knows no screen.

use std::collections::BTreeMap;

use rusqlite::{Connection, TransactionBehavior, params};

use super::error::Doing;
use super::{Journal, JournalError};

impl Journal {
    /// The drafts of one form, field to text.
    pub fn drafts(&self, form: &str) -> Result<BTreeMap<String, String>, JournalError> {
        let reading = JournalError::while_doing;
        let mut statement = self
            .connection
            .prepare_cached("SELECT field, text FROM draft WHERE place = ?1")
            .map_err(reading(Doing::Reading))?;
        let rows =
            statement.query_map([form], |row| Ok((row.get(0)?, row.get(1)?))).map_err(reading(Doing::Reading))?;
        rows.collect::<rusqlite::Result<_>>().map_err(reading(Doing::Reading))
    }

    /// Keeps a draft's field.
    pub fn keep_draft(&mut self, form: &str, field: &str, text: &str) -> Result<(), JournalError> {
        keep_draft(&self.connection, form, field, text)
    }

    /// Drops a form's drafts: they were recorded, or given up.
    pub fn drop_drafts(&mut self, form: &str) -> Result<(), JournalError> {
        drop_drafts(&self.connection, form)
    }

    /// Drops every draft for which `unwanted` says so of its text, in whichever form it is.
    pub fn drop_drafts_that(&mut self, unwanted: impl Fn(&str) -> bool) -> Result<(), JournalError> {
        let writing = JournalError::while_doing;
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(writing(Doing::Writing))?;
        let drafts: Vec<(String, String, String)> = {
            let mut statement =
                transaction.prepare("SELECT place, field, text FROM draft").map_err(writing(Doing::Reading))?;
            let rows = statement
                .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
                .map_err(writing(Doing::Reading))?;
            rows.collect::<rusqlite::Result<_>>().map_err(writing(Doing::Reading))?
        };
        for (form, field, _) in drafts.iter().filter(|(_, _, text)| unwanted(text)) {
            transaction
                .execute("DELETE FROM draft WHERE place = ?1 AND field = ?2", params![form, field])
                .map_err(writing(Doing::Writing))?;
        }
        transaction.commit().map_err(writing(Doing::Writing))
    }
}

fn keep_draft(connection: &Connection, form: &str, field: &str, text: &str) -> Result<(), JournalError> {
    connection
        .prepare_cached(
            "INSERT INTO draft (place, field, text) VALUES (?1, ?2, ?3)
             ON CONFLICT (place, field) DO UPDATE SET text = excluded.text",
        )
        .and_then(|mut statement| statement.execute(params![form, field, text]))
        .map(drop)
        .map_err(JournalError::while_doing(Doing::Writing))
}

pub(super) fn drop_drafts(connection: &Connection, form: &str) -> Result<(), JournalError> {
    connection
        .execute("DELETE FROM draft WHERE place = ?1", [form])
        .map(drop)
        .map_err(JournalError::while_doing(Doing::Writing))
}
