//! The form of a pack that was charged.

use super::{Drafts, Result};
use crate::aircraft::Aircraft;
use crate::field::charge_range_mah;
use crate::locale::say;
use crate::unit::Unit;

/// What the charger put back into a pack. All packs stand on one page, so each has a field of its own.
#[derive(Clone, Copy)]
pub struct PutBackForm<'a> {
    drafts: Drafts<'a>,
    aircraft: &'a Aircraft,
    pack: &'a str,
}

impl<'a> PutBackForm<'a> {
    /// The form of one pack.
    pub fn new(drafts: Drafts<'a>, aircraft: &'a Aircraft, pack: &'a str) -> Self {
        PutBackForm { drafts, aircraft, pack }
    }

    /// Its field.
    pub fn field(&self) -> String {
        format!("put:{}", self.pack)
    }

    /// What can have been put back, milliampere hours, inclusive.
    pub fn range_mah(&self) -> (f64, f64) {
        charge_range_mah(self.aircraft, self.pack)
    }

    /// What was put back, milliampere hours; none where it was not read.
    ///
    /// # Errors
    /// No number, or more than the pack can take.
    pub fn put_back_mah(&self) -> Result<Option<f64>> {
        let label = say!(self.drafts.locale(), "app-label-put-back");
        self.drafts.number(&self.field(), &label, Unit::MilliampereHour, self.range_mah())
    }
}
