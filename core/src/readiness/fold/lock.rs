//! What keeps the pilot's side shut.

use crate::field::Lock;
use crate::readiness::ledger::Ledger;
use crate::record::Moment;

impl Ledger {
    pub(super) fn code_set(&mut self, hash: &str) {
        self.lock = Lock { hash: Some(hash.to_owned()), ..Lock::default() };
    }

    pub(super) fn code_removed(&mut self) {
        self.lock = Lock::default();
    }

    pub(super) fn code_refused(&mut self, at: &Moment) {
        self.lock.wrong = self.lock.wrong.saturating_add(1);
        self.lock.last_wrong = Some(at.clone());
    }

    pub(super) fn wait_begun(&mut self, at: &Moment) {
        self.lock.waits_since.get_or_insert_with(|| at.clone());
    }

    pub(super) fn opened_without_code(&mut self, at: &Moment) {
        self.lock.opened = Some(at.clone());
    }
}
