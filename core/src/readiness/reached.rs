//! What a change to a thing would send back.

use super::ledger::Ledger;
use super::touch::{Reach, Touch};
use crate::plan::{Check, CheckKind, Plan};
use crate::record::{OnAircraft, Thing};

impl Ledger {
    /// The checks whose evidence ends if a thing that was one way and is another was changed on the aircraft, and stands if it is only
    /// described: then the pilot has to say which it is. None of a reading, and none where nothing was proved on it yet.
    pub fn proved_on<'p>(&self, plan: &'p Plan, old: Option<&Thing>, new: Option<&Thing>) -> Vec<&'p Check> {
        let may_change = Thing::may_change_aircraft(old, new);
        let Some(kind) = new.or(old).map(|thing| thing.kind) else { return Vec::new() };
        let described = Reach::of_description(kind, OnAircraft::AsItWas);
        let Some(subject) = self.aircraft.touched_with(old, new, OnAircraft::Changed).filter(|_| may_change) else {
            return Vec::new();
        };
        let is_proved = |check: &Check| {
            let jotted_later = self.last_run_to_jot().and_then(|card| self.flight(card));
            self.evidence.contains_key(&check.id) || jotted_later.is_some_and(|flight| flight.check == check.id)
        };
        // What is computed and works with none of its numbers stands or falls with nothing that the pilot could say here.
        let is_seen = |check: &Check| !matches!(check.kind, CheckKind::Compute(_));
        let ends = |check: &Check| {
            Touch::would_end(&subject, Reach::Everything, check) && !Touch::would_end(&subject, described, check)
        };
        let wanted = plan.checks().map(|(_, check)| check).filter(|check| self.aircraft.wants(check));
        wanted.filter(|check| ends(check) && is_seen(check) && is_proved(check)).collect()
    }
}
