//! A record that was brought in, as far as it is.

use crate::journal::{Journal, JournalError, Unpacking};
use crate::view::{Brought, BroughtStage, Offer};

/// A record that was brought in.
pub(super) struct BringingIn {
    /// What the phone calls it.
    pub name: String,
    pub stage: Stage,
}

/// What came of it so far.
pub(super) enum Stage {
    Unpacking(Box<Unpacking>),
    Offered { made: Box<Journal>, offer: Offer, is_backup: bool },
    Refused(JournalError),
}

impl BringingIn {
    /// As the page shows it.
    pub fn seen(&self) -> Brought<'_> {
        let stage = match &self.stage {
            Stage::Unpacking(_) => BroughtStage::Unpacking,
            Stage::Offered { offer, .. } => BroughtStage::Offered(offer),
            Stage::Refused(why) => BroughtStage::Refused(why),
        };
        Brought { name: &self.name, stage }
    }

    /// While it is unpacked: what the phone calls it, steps that are done, and of how many.
    pub fn under_way(&self) -> Option<(&str, (u64, u64))> {
        match &self.stage {
            Stage::Unpacking(unpacking) => Some((&self.name, unpacking.steps())),
            Stage::Offered { .. } | Stage::Refused(_) => None,
        }
    }
}
