//! The form of a check: its reading, who saw it, a remark.

use super::{Drafts, Result};
use crate::locale::say;
use crate::plan::{Check, Measure, Point};

/// What is typed at a check.
#[derive(Clone, Copy)]
pub struct CheckForm<'a> {
    drafts: Drafts<'a>,
    check: &'a Check,
}

impl<'a> CheckForm<'a> {
    /// The field of the reading.
    pub const VALUE: &'static str = "value";
    /// The field of the second person's name.
    pub const WITNESS: &'static str = "witness";
    /// The field of why nobody came to see it, at a witness point.
    pub const ALONE: &'static str = "alone";
    /// The field of the remark.
    pub const NOTE: &'static str = "note";

    /// The form of a check over what was typed there.
    pub fn new(drafts: Drafts<'a>, check: &'a Check) -> Self {
        CheckForm { drafts, check }
    }

    /// The reading, in the unit of the measure; none where nothing was typed.
    ///
    /// # Errors
    /// No number, or outside of the plausible range.
    pub fn value(&self, measure: &Measure) -> Result<Option<f64>> {
        self.drafts.number(Self::VALUE, &self.check.title, measure.unit, (measure.low, measure.high))
    }

    /// The reading that has to be there.
    ///
    /// # Errors
    /// As [`CheckForm::value`], and where it is empty.
    pub fn required_value(&self, measure: &Measure) -> Result<f64> {
        self.drafts.required_number(Self::VALUE, &self.check.title, measure.unit, (measure.low, measure.high))
    }

    /// Why nobody came to see it; only a witness point may go on so.
    pub fn alone(&self) -> Option<&'a str> {
        self.drafts.text(Self::ALONE).filter(|_| self.check.point == Point::Witness)
    }

    /// The second person's name.
    ///
    /// # Errors
    /// Empty where the check wants one, and it is not said why there is none.
    pub fn witness(&self) -> Result<Option<&'a str>> {
        match self.check.witness && self.alone().is_none() {
            true => {
                let label = say!(self.drafts.locale(), "app-label-witness");
                self.drafts.required(Self::WITNESS, &label).map(Some)
            }
            false => Ok(self.drafts.text(Self::WITNESS)),
        }
    }

    /// The remark.
    pub fn note(&self) -> Option<&'a str> {
        self.drafts.text(Self::NOTE)
    }
}
