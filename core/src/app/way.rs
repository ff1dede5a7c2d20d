//! The way from the board to the place in view.

use crate::plan::Plan;
use crate::readiness::{Blocker, Ledger, Standing};
use crate::record::Moment;
use crate::view::Place;

/// Goes to a place. One that is already on the way back is gone back to, so that the way never loops.
pub(super) fn enter(places: &mut Vec<Place>, place: Place) {
    if places.is_empty() {
        places.push(Place::Board);
    }
    match places.iter().position(|known| *known == place) {
        Some(index) => places.truncate(index + 1),
        None => places.push(place),
    }
}

/// Goes one place back; the board is never left.
pub(super) fn leave(places: &mut Vec<Place>) {
    places.pop();
    if places.is_empty() {
        places.push(Place::Board);
    }
}

/// The way to a place as the journal keeps it.
pub(super) fn way(places: &[Place]) -> Vec<String> {
    places.iter().map(Place::key).collect()
}

/// Where something in the way is done, if it is done in the same seat as what was just recorded: a question, a figure, a check that wants
/// no run, a gate that is ready to be decided on. A card, a landing, a finding or a missing name are another kind of work: the board says so first.
pub(super) fn seat_work(plan: &Plan, ledger: &Ledger, blocker: &Blocker, now: &Moment) -> Option<Place> {
    match blocker {
        Blocker::Question(id) => Some(Place::Question(id.clone())),
        Blocker::Figure(id) => Some(Place::Figure(id.clone())),
        Blocker::Check { check, standing: Standing::Missing { .. } | Standing::Stale { .. } } => {
            let (_, check) = plan.check(check)?;
            let wants_run = check.fly().is_some() || ledger.run_wanted(check, now).is_some();
            (!wants_run).then(|| Place::Check(check.id.clone()))
        }
        // What lapsed is looked at on the board first: several gates may go with one touch there.
        Blocker::Gate(stage) => {
            let was_released = ledger.releases.contains_key(stage);
            (!was_released).then(|| Place::Stage(stage.clone()))
        }
        Blocker::Check { .. }
        | Blocker::Order { .. }
        | Blocker::Finding(_)
        | Blocker::Unanswered { .. }
        | Blocker::Landing(_)
        | Blocker::Unnamed
        | Blocker::Clock
        | Blocker::RecordDamaged
        | Blocker::NoPack => None,
    }
}
