use super::{Chosen, Language, Measures, TemperatureScale};
use crate::journal::{Journal, JournalError};

const LANGUAGE: &str = "language";
const TEMPERATURE: &str = "temperature";
const MEASURES: &str = "measures";

impl Chosen {
    /// What was chosen on this phone. A value that is not known counts as not chosen.
    pub fn load(journal: &Journal) -> Result<Chosen, JournalError> {
        Ok(Chosen {
            language: match journal.preference(LANGUAGE)?.as_deref() {
                Some("en") => Some(Language::English),
                Some("de") => Some(Language::German),
                _ => None,
            },
            temperature: match journal.preference(TEMPERATURE)?.as_deref() {
                Some("fahrenheit") => TemperatureScale::Fahrenheit,
                _ => TemperatureScale::Celsius,
            },
            measures: match journal.preference(MEASURES)?.as_deref() {
                Some("imperial") => Measures::Imperial,
                _ => Measures::Metric,
            },
        })
    }

    /// Keeps it.
    ///
    /// # Errors
    /// [`JournalError::Full`]: what was chosen before holds on.
    pub fn keep(self, journal: &mut Journal) -> Result<(), JournalError> {
        journal.keep_preference(LANGUAGE, self.language.map(Language::tag))?;
        let fahrenheit = self.temperature == TemperatureScale::Fahrenheit;
        journal.keep_preference(TEMPERATURE, fahrenheit.then_some("fahrenheit"))?;
        journal.keep_preference(MEASURES, (self.measures == Measures::Imperial).then_some("imperial"))
    }
}
