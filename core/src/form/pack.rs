//! The forms of a pack that was charged, and of its cells that were read.

use super::{Drafts, Refusal, Result};
use crate::aircraft::Aircraft;
use crate::field::put_back_range_mah;
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
        put_back_range_mah(self.aircraft, self.pack)
    }

    /// What was put back, milliampere hours; none where it was not read.
    ///
    /// # Errors
    /// No number, or more than the pack can take.
    pub fn put_back_mah(&self) -> Result<Option<f64>> {
        let locale = self.drafts.locale();
        let label = say!(locale, "app-label-put-back");
        let (low, high) = self.range_mah();
        let typed = self.drafts.number(&self.field(), &label, Unit::MilliampereHour, (low, f64::MAX))?;
        match typed.filter(|mah| *mah > high) {
            None => Ok(typed),
            Some(mah) => {
                let most = locale.rounded(high, 0, Unit::MilliampereHour);
                let mah = locale.quantity(mah, Unit::MilliampereHour);
                let words = say!(locale, "app-put-back-over", pack = self.pack, mah = mah, most = most);
                Err(Refusal::of(&self.field(), words))
            }
        }
    }
}

/// The cells of a pack as they were read at rest. All packs stand on one page, so each has fields of its own.
#[derive(Clone, Copy)]
pub struct CellsForm<'a> {
    drafts: Drafts<'a>,
    pack: &'a str,
}

impl<'a> CellsForm<'a> {
    /// Plausible cells, volts, inclusive: one that is empty past saving, and one that was charged too far.
    pub const RANGE_V: (f64, f64) = (2.0, 4.6);

    /// The form of one pack.
    pub fn new(drafts: Drafts<'a>, pack: &'a str) -> Self {
        CellsForm { drafts, pack }
    }

    /// The field of the lowest cell.
    pub fn low_field(&self) -> String {
        format!("low:{}", self.pack)
    }

    /// The field of the highest cell.
    pub fn high_field(&self) -> String {
        format!("high:{}", self.pack)
    }

    /// The lowest and the highest cell, volts.
    ///
    /// # Errors
    /// One is not there, no number, not plausible, or the lowest lies above the highest.
    pub fn cells_v(&self) -> Result<(f64, f64)> {
        let locale = self.drafts.locale();
        let low_label = say!(locale, "packs-lowest-cell", pack = self.pack);
        let high_label = say!(locale, "packs-highest-cell", pack = self.pack);
        let low_v = self.drafts.required_number(&self.low_field(), &low_label, Unit::Volt, Self::RANGE_V)?;
        let high_v = self.drafts.required_number(&self.high_field(), &high_label, Unit::Volt, Self::RANGE_V)?;
        if low_v > high_v {
            return Err(Refusal::of(&self.high_field(), say!(locale, "app-cells-turned")));
        }
        Ok((low_v, high_v))
    }
}
