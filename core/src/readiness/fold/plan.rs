//! Another plan comes into force.

use std::borrow::Cow;

use crate::plan::Plan;
use crate::readiness::ledger::Ledger;
use crate::readiness::reason::Reason;
use crate::record::Entry;

impl Ledger {
    /// Brings the plan of an entry into force. A text that this Liftgate cannot read leaves the plan before it; the desk
    /// brings none.
    pub(super) fn plan_adopted(&mut self, in_force: &mut Cow<'_, Plan>, entry: &Entry, name: &str, text: &str) {
        if let Ok(adopted) = Plan::parse(name, text) {
            self.adopt(in_force, &adopted, entry);
            *in_force = Cow::Owned(adopted);
        }
    }

    /// Another plan comes into force. What was recorded stays; what answers no longer what is asked goes stale, and so
    /// does what rests on something now that was touched since.
    fn adopt(&mut self, old: &Plan, new: &Plan, entry: &Entry) {
        let day = self.clock.day(&entry.at);
        self.last_day = Some(day);
        self.run_out(old, day);
        self.lapse_gates(old, &entry.at);
        let reason = Reason::PlanChanged { plan: new.title.clone(), edition: new.edition.clone() };
        for (id, evidence) in &mut self.evidence {
            let before = old.check(id).map(|(_, check)| check);
            let after = new.check(id).map(|(_, check)| check);
            let same = before.zip(after).is_some_and(|(before, after)| after.asks_the_same(before));
            if !same && !evidence.broken.contains(&reason) {
                evidence.broken.push(reason.clone());
            }
            let Some(after) = after else { continue };
            let touched = self.touches.iter().filter(|touch| touch.seq > evidence.seq);
            for touch in touched.filter(|touch| touch.ends(after)) {
                if !evidence.broken.iter().any(|known| known.is_of_the_same(&touch.reason)) {
                    evidence.broken.push(touch.reason.clone());
                }
            }
        }
        self.aircraft.answer_from_figures(new);
        self.run_out(new, day);
        self.settle_proofs(new, &entry.at);
        self.lapse_gates(new, &entry.at);
    }
}
