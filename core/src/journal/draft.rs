//! Drafts: what was typed and is not recorded yet. A form names itself by a text of its own; the journal knows no screen.

use std::collections::BTreeMap;

use rusqlite::{Connection, params};

use super::error::Doing;
use super::{Journal, JournalError, bookmark};

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

    /// Keeps fields of a form's draft: all or none.
    pub fn keep_drafts(&mut self, form: &str, fields: &[(String, String)]) -> Result<(), JournalError> {
        self.at_once(|transaction| keep_drafts(transaction, form, fields))
    }

    /// Begins a form's draft anew with these fields, and keeps the way to it: all or none.
    pub fn keep_drafts_and_go(
        &mut self,
        form: &str,
        fields: &[(String, String)],
        way: &[String],
    ) -> Result<(), JournalError> {
        self.at_once(|transaction| {
            drop_drafts(transaction, form)?;
            keep_drafts(transaction, form, fields)?;
            bookmark::keep_bookmark(transaction, way)
        })
    }

    /// Drops a form's drafts: they were recorded, or given up.
    pub fn drop_drafts(&mut self, form: &str) -> Result<(), JournalError> {
        drop_drafts(&self.connection, form)
    }

    /// Drops every draft for which `unwanted` says so of its text, in whichever form it is.
    pub fn drop_drafts_that(&mut self, unwanted: impl Fn(&str) -> bool) -> Result<(), JournalError> {
        let writing = JournalError::while_doing;
        self.at_once(|transaction| {
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
            Ok(())
        })
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

fn keep_drafts(connection: &Connection, form: &str, fields: &[(String, String)]) -> Result<(), JournalError> {
    fields.iter().try_for_each(|(field, text)| keep_draft(connection, form, field, text))
}

pub(super) fn drop_drafts(connection: &Connection, form: &str) -> Result<(), JournalError> {
    connection
        .execute("DELETE FROM draft WHERE place = ?1", [form])
        .map(drop)
        .map_err(JournalError::while_doing(Doing::Writing))
}
