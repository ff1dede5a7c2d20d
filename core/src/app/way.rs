//! The way from the board to the place in view.

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
