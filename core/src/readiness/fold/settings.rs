//! The ledger of settings, and what the next motor run tests of it.

use crate::aircraft::SettingValue;
use crate::field::Tested;
use crate::plan::{Plan, Subject};
use crate::readiness::history::Adjusted;
use crate::readiness::ledger::Ledger;
use crate::readiness::reason::Deed;
use crate::readiness::touch::Reach;
use crate::record::Entry;

impl Ledger {
    pub(super) fn set(&mut self, plan: &Plan, entry: &Entry, setting: &str, after: &str, reason: &str) {
        let runs = self.runs;
        let value = self
            .aircraft
            .settings
            .entry(setting.to_owned())
            .or_insert_with(|| SettingValue { now: String::new(), past: Vec::new() });
        let differs = value.now != after;
        let before = value.past.last().map(|(_, now, ..)| now.clone());
        value.now = after.to_owned();
        value.past.push((entry.id, after.to_owned(), reason.to_owned(), runs));
        if differs {
            self.adjust(entry, Subject::Setting(setting.to_owned()), before, after, Some(reason));
            self.touch(
                plan,
                entry,
                &[Subject::Setting(setting.to_owned())],
                Reach::Everything,
                &Deed::SetTo(after.to_owned()),
            );
        }
    }

    /// Keeps a line of the ledger of settings.
    pub(super) fn adjust(
        &mut self,
        entry: &Entry,
        subject: Subject,
        before: Option<String>,
        after: &str,
        reason: Option<&str>,
    ) {
        self.adjusted.push(Adjusted {
            entry: entry.id,
            at: entry.at.clone(),
            subject: subject.clone(),
            before: before.clone(),
            after: after.to_owned(),
            reason: reason.unwrap_or_default().to_owned(),
            runs: self.runs,
        });
        let same = |tested: &&mut Tested| matches!(tested, Tested::Setting { subject: s, .. } if *s == subject);
        match self.untested.iter_mut().find(same) {
            // Changed twice between two flights, it is one change, from what was flown before.
            Some(Tested::Setting { after: last, .. }) => after.clone_into(last),
            _ => self.untested.push(Tested::Setting { subject, before, after: after.to_owned() }),
        }
        self.untested.retain(
            |tested| !matches!(tested, Tested::Setting { before: Some(before), after, .. } if before == after),
        );
    }

    /// What a motor run at this head speed tests that the one before did not; nothing on the very first one, before
    /// which everything was set for the first time.
    pub fn tested_at(&self, head_speed_rpm: f64) -> Vec<Tested> {
        let Some(before) = self.flights.iter().rev().find(|flight| flight.started.is_some()) else {
            return Vec::new();
        };
        let before_rpm = before.head_speed_rpm;
        let speed =
            (before_rpm != head_speed_rpm).then_some(Tested::HeadSpeed { before_rpm, after_rpm: head_speed_rpm });
        // A head speed is changed by its figure and flown by its card: one change.
        let others =
            self.untested.iter().filter(|t| !matches!(t, Tested::Setting { subject: Subject::Figure(_), .. }));
        speed.into_iter().chain(others.cloned()).collect()
    }
}
