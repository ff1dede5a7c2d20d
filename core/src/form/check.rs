//! The form of a check: its reading, who saw it, a remark.

use super::person::{other, required_other};
use super::words::required_words;
use super::{Drafts, Result};
use crate::aircraft::Aircraft;
use crate::locale::say;
use crate::plan::{Check, Measure, Point};

/// What is typed at a check.
#[derive(Clone, Copy)]
pub struct CheckForm<'a> {
    drafts: Drafts<'a>,
    check: &'a Check,
    aircraft: &'a Aircraft,
}

impl<'a> CheckForm<'a> {
    /// The field of the reading.
    pub const VALUE: &'static str = "value";
    /// The field that is filled once the person saw from where the reading is stepped.
    pub const BEGUN: &'static str = "begun";
    /// The field of the second person's name.
    pub const WITNESS: &'static str = "witness";
    /// The field of why nobody came to see it, at a witness point.
    pub const ALONE: &'static str = "alone";
    /// The field of the remark.
    pub const NOTE: &'static str = "note";

    /// The form of a check over what was typed there.
    pub fn new(drafts: Drafts<'a>, check: &'a Check, aircraft: &'a Aircraft) -> Self {
        CheckForm { drafts, check, aircraft }
    }

    /// The reading, in the unit of the measure; none where nothing was typed.
    ///
    /// # Errors
    /// No number, or outside of the plausible range.
    pub fn value(&self, measure: &Measure) -> Result<Option<f64>> {
        self.drafts.number(Self::VALUE, &self.check.title, measure.unit, (measure.low, measure.high))
    }

    /// Whether the person saw from where the reading is stepped. Where that is was read by nobody: it is no reading.
    pub fn is_begun(&self) -> bool {
        self.drafts.text(Self::BEGUN).is_some()
    }

    /// The reading that has to be there.
    ///
    /// # Errors
    /// As [`CheckForm::value`], and where it is empty.
    pub fn required_value(&self, measure: &Measure) -> Result<f64> {
        self.drafts.required_number(Self::VALUE, &self.check.title, measure.unit, (measure.low, measure.high))
    }

    /// Why nobody came to see it; only a witness point may go on so.
    ///
    /// # Errors
    /// What was typed says nothing.
    pub fn alone(&self) -> Result<Option<&'a str>> {
        let is_typed = self.drafts.text(Self::ALONE).is_some() && self.check.point == Point::Witness;
        let label = say!(self.drafts.locale(), "app-label-alone");
        is_typed.then(|| required_words(self.drafts, Self::ALONE, &label)).transpose()
    }

    /// The second person's name.
    ///
    /// # Errors
    /// Empty where the check wants one, and it is not said why there is none; or the pilot's or the builder's.
    pub fn witness(&self) -> Result<Option<&'a str>> {
        match self.check.witness && self.alone()?.is_none() {
            true => {
                let label = say!(self.drafts.locale(), "app-label-witness");
                required_other(self.drafts, self.aircraft, Self::WITNESS, &label).map(Some)
            }
            false => other(self.drafts, self.aircraft, Self::WITNESS),
        }
    }

    /// The remark.
    pub fn note(&self) -> Option<&'a str> {
        self.drafts.text(Self::NOTE)
    }
}
