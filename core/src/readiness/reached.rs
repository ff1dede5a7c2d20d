//! What a change to a thing would send back.

use super::ledger::Ledger;
use crate::plan::{Check, CheckKind, Plan};
use crate::record::{OnAircraft, Thing};

impl Ledger {
    /// The checks whose evidence ends if a thing that was one way and is another was changed on the aircraft, and stands if it is only
    /// described: then the pilot has to say which it is. None of a reading, and none where nothing was proved on it yet. What is
    /// computed is not among them: it follows its numbers, whatever the pilot says.
    pub fn proved_on<'p>(&self, plan: &'p Plan, old: Option<&Thing>, new: Option<&Thing>) -> Vec<&'p Check> {
        let may_change = Thing::may_change_aircraft(old, new);
        let Some(subject) = self.aircraft.touched_with(old, new, OnAircraft::Changed).filter(|_| may_change) else {
            return Vec::new();
        };
        // A run that is still to be jotted down proves its check by what was on the aircraft then.
        let to_jot = self.last_run_to_jot().and_then(|card| self.flight(card)).map(|flight| flight.check.as_str());
        let is_proved = |id: &String| self.evidence.contains_key(id) || to_jot == Some(id);
        let is_seen = |check: &Check| !matches!(check.kind, CheckKind::Compute(_));
        let wanted = plan.checks().map(|(_, check)| check).filter(|check| self.aircraft.wants(check));
        wanted.filter(|check| is_seen(check) && check.ends_with(&subject) && is_proved(&check.id)).collect()
    }
}
