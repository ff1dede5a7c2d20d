//! What was typed into a form and is not recorded yet, read as text and as numbers in the person's own units.

use std::collections::BTreeMap;

use super::Refusal;
use crate::locale::{Locale, say};
use crate::unit::Unit;

/// Minutes that were typed, in whole seconds.
///
/// # Errors
/// Nothing was: refused in these words.
pub(super) fn in_seconds(minutes: Option<f64>, field: &str, unsaid: String) -> Result<i64, Refusal> {
    minutes.map(|minutes| (minutes * 60.0).round() as i64).ok_or_else(|| Refusal::of(field, unsaid))
}

/// The half-filled fields of one form, as a person typed them.
#[derive(Debug, Clone, Copy)]
pub struct Drafts<'a> {
    drafts: &'a BTreeMap<String, String>,
    locale: Locale,
}

impl<'a> Drafts<'a> {
    /// A form over a form's drafts, filled by a person who reads and types like this.
    pub fn new(drafts: &'a BTreeMap<String, String>, locale: Locale) -> Self {
        Drafts { drafts, locale }
    }

    /// A form of which nothing is filled in.
    pub fn none(locale: Locale) -> Self {
        static NONE: BTreeMap<String, String> = BTreeMap::new();
        Drafts { drafts: &NONE, locale }
    }

    /// In whose language, scale and measures it is filled in.
    pub fn locale(&self) -> Locale {
        self.locale
    }

    /// A field's text without the blanks around it, `None` where nothing is left.
    pub fn text(&self, field: &str) -> Option<&'a str> {
        self.drafts.get(field).map(|text| text.trim()).filter(|text| !text.is_empty())
    }

    /// A field's text as it is, blanks and all, for text that is a document.
    pub fn whole(&self, field: &str) -> Option<&'a str> {
        self.drafts.get(field).map(String::as_str)
    }

    /// A field's text.
    ///
    /// # Errors
    /// Refused if it is empty.
    pub fn required(&self, field: &str, label: &str) -> Result<&'a str, Refusal> {
        self.text(field).ok_or_else(|| Refusal::of(field, say!(self.locale, "app-field-empty", label = label)))
    }

    /// A field's text as it was left, emptied too, or what is known where nobody typed there; none where that is empty.
    pub fn left_or_known(&self, field: &str, known: &'a str) -> Option<&'a str> {
        Some(self.whole(field).unwrap_or(known).trim()).filter(|text| !text.is_empty())
    }

    /// The same, which has to be there.
    ///
    /// # Errors
    /// Refused if it is empty.
    pub fn required_or_known(&self, field: &str, known: &'a str, label: &str) -> Result<&'a str, Refusal> {
        let empty = || Refusal::of(field, say!(self.locale, "app-field-empty", label = label));
        self.left_or_known(field, known).ok_or_else(empty)
    }

    /// A field's number in the unit that is recorded, typed in the unit that the person reads; `None` where nothing was entered. A
    /// comma counts as the decimal point.
    ///
    /// # Errors
    /// Refused if it is no number, outside the plausible range, inclusive, or a count that is not whole.
    pub fn number(
        &self,
        field: &str,
        label: &str,
        unit: Unit,
        (low, high): (f64, f64),
    ) -> Result<Option<f64>, Refusal> {
        let Some(text) = self.text(field) else { return Ok(None) };
        let value = self.locale.read(text, unit).ok_or_else(|| {
            Refusal::of(
                field,
                say!(
                    self.locale,
                    "app-no-number",
                    label = label,
                    text = text,
                    like = self.locale.quantity_bare(low.max(1.0), unit)
                ),
            )
        })?;
        if unit == Unit::Count && value.fract() != 0.0 {
            let reason = say!(self.locale, "app-not-whole", label = label, value = self.locale.plain(value));
            return Err(Refusal::of(field, reason));
        }
        if !(low..=high).contains(&value) {
            let reason = say!(
                self.locale,
                "app-not-plausible",
                label = label,
                value = self.locale.quantity(value, unit),
                low = self.locale.quantity_bare(low, unit),
                high = self.locale.quantity(high, unit)
            );
            return Err(Refusal::of(field, reason));
        }
        Ok(Some(value))
    }

    /// A field's number that must be there.
    ///
    /// # Errors
    /// As [`Drafts::number`], and refused if it is empty.
    pub fn required_number(&self, field: &str, label: &str, unit: Unit, range: (f64, f64)) -> Result<f64, Refusal> {
        self.number(field, label, unit, range)?
            .ok_or_else(|| Refusal::of(field, say!(self.locale, "app-field-empty", label = label)))
    }

    /// Fields with this prefix that are set, without the prefix.
    pub fn set_with(&self, prefix: &str) -> Vec<&'a str> {
        let set = self.drafts.iter().filter(|(_, text)| !text.trim().is_empty());
        set.filter_map(|(field, _)| field.strip_prefix(prefix)).collect()
    }
}
