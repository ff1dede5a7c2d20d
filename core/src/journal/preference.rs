use rusqlite::params;

use super::error::Doing;
use super::{Journal, JournalError};
use crate::locale::{Chosen, Language, Measures, TemperatureScale};

const LANGUAGE: &str = "language";
const TEMPERATURE: &str = "temperature";
const MEASURES: &str = "measures";

impl Journal {
    /// How the person chose to read and type on this phone. A value that is not known counts as not chosen.
    pub fn chosen(&self) -> Result<Chosen, JournalError> {
        Ok(Chosen {
            language: match self.preference(LANGUAGE)?.as_deref() {
                Some("en") => Some(Language::English),
                Some("de") => Some(Language::German),
                _ => None,
            },
            temperature: match self.preference(TEMPERATURE)?.as_deref() {
                Some("fahrenheit") => TemperatureScale::Fahrenheit,
                _ => TemperatureScale::Celsius,
            },
            measures: match self.preference(MEASURES)?.as_deref() {
                Some("imperial") => Measures::Imperial,
                _ => Measures::Metric,
            },
        })
    }

    /// Keeps how the person chose to read and type.
    ///
    /// # Errors
    /// [`JournalError::Full`]: what was chosen before holds on.
    pub fn keep_chosen(&mut self, chosen: Chosen) -> Result<(), JournalError> {
        self.keep_preference(LANGUAGE, chosen.language.map(Language::tag))?;
        let fahrenheit = chosen.temperature == TemperatureScale::Fahrenheit;
        self.keep_preference(TEMPERATURE, fahrenheit.then_some("fahrenheit"))?;
        self.keep_preference(MEASURES, (chosen.measures == Measures::Imperial).then_some("imperial"))
    }

    /// What was chosen of a preference on this phone, if anything was. It is no entry: it proves nothing and may change.
    pub fn preference(&self, name: &str) -> Result<Option<String>, JournalError> {
        use rusqlite::OptionalExtension;
        self.connection
            .prepare_cached("SELECT value FROM preference WHERE name = ?1")
            .and_then(|mut statement| statement.query_row([name], |row| row.get(0)).optional())
            .map_err(JournalError::while_doing(Doing::Reading))
    }

    /// Keeps a preference; `None` gives the choice up.
    ///
    /// # Errors
    /// [`JournalError::Full`], and nothing was kept.
    pub fn keep_preference(&mut self, name: &str, value: Option<&str>) -> Result<(), JournalError> {
        let kept = match value {
            Some(value) => self.connection.execute(
                "INSERT INTO preference (name, value) VALUES (?1, ?2)
                 ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                params![name, value],
            ),
            None => self.connection.execute("DELETE FROM preference WHERE name = ?1", [name]),
        };
        kept.map(drop).map_err(JournalError::while_doing(Doing::Writing))
    }
}
