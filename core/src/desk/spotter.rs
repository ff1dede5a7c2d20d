use super::phone::Shared;
use super::{DeskError, Phone};
use crate::journal::NewEntry;
use crate::readiness::Seat;
use crate::record::{Body, EntryId, MarkKind, Moment};
use crate::view::{self, Place, SpotterScreen};

/// All that a spotter can reach: the one card that was handed over.
///
/// Start, mark, land, take a mistaken landing back, give the phone back. There is no other method, and each of them asks
/// first whether this card is still the spotter's.
#[derive(Clone)]
pub struct SpotterDesk {
    phone: Phone,
    card: EntryId,
    name: String,
}

impl SpotterDesk {
    pub(super) fn new(phone: Phone, card: EntryId, name: String) -> Self {
        SpotterDesk { phone, card, name }
    }

    /// The spotter's screen.
    ///
    /// # Errors
    /// [`DeskError::NotYourTurn`] once the phone was given back; the same for every method here.
    pub fn screen(&self, now: &Moment) -> Result<SpotterScreen, DeskError> {
        self.with(|shared| Ok(view::spotter(&shared.plan, &shared.ledger, self.card, now)))
    }

    /// The motor starts, and with it the clock. A second start changes nothing.
    pub fn start(&self, now: &Moment) -> Result<SpotterScreen, DeskError> {
        self.act(now, |phase| match phase {
            Phase::Waiting => Some(Body::Started { card: self.card }),
            _ => None,
        })
    }

    /// Something was seen or heard. Only while the motor is on.
    pub fn mark(&self, mark: MarkKind, now: &Moment) -> Result<SpotterScreen, DeskError> {
        self.act(now, |phase| match phase {
            Phase::Running { elapsed_ms } => Some(Body::Marked { card: self.card, mark, elapsed_ms }),
            _ => None,
        })
    }

    /// Down, motor off. Only while the motor is on.
    pub fn land(&self, now: &Moment) -> Result<SpotterScreen, DeskError> {
        self.act(now, |phase| match phase {
            Phase::Running { elapsed_ms } => Some(Body::TouchedDown { card: self.card, elapsed_ms }),
            _ => None,
        })
    }

    /// The landing was touched by mistake: the clock goes on from the start.
    pub fn resume(&self, now: &Moment) -> Result<SpotterScreen, DeskError> {
        self.act(now, |phase| match phase {
            Phase::Down => Some(Body::Resumed { card: self.card }),
            _ => None,
        })
    }

    /// Gives the phone back.
    ///
    /// # Errors
    /// Refused while the motor is on.
    pub fn hand_back(&self, now: &Moment) -> Result<(), DeskError> {
        self.with(|shared| {
            let flown = match self.phase(shared, now) {
                Phase::Running { .. } => {
                    return Err(DeskError::refused("The motor is on: note the touchdown first"));
                }
                Phase::Down => true,
                Phase::Waiting => false,
            };
            let back = Body::HandedBack { card: self.card };
            let places = if flown { vec![Place::Board, Place::Landing(self.card)] } else { vec![Place::Board] };
            shared.append_and_go(now, vec![NewEntry::spotter(&self.name, back)], &[], places)
        })
    }

    fn act(&self, now: &Moment, entry: impl FnOnce(Phase) -> Option<Body>) -> Result<SpotterScreen, DeskError> {
        self.with(|shared| {
            if let Some(body) = entry(self.phase(shared, now)) {
                shared.append(now, vec![NewEntry::spotter(&self.name, body)])?;
            }
            Ok(view::spotter(&shared.plan, &shared.ledger, self.card, now))
        })
    }

    fn with<T>(&self, act: impl FnOnce(&mut Shared) -> Result<T, DeskError>) -> Result<T, DeskError> {
        let mut held = self.phone.hold()?;
        let shared = held.get_mut()?;
        match &shared.ledger.seat {
            Seat::Spotter { card, .. } if *card == self.card => act(shared),
            _ => Err(DeskError::NotYourTurn { reason: "The phone is back with the pilot".to_owned() }),
        }
    }

    fn phase(&self, shared: &Shared, now: &Moment) -> Phase {
        let flight = shared.ledger.flight(self.card);
        match flight.map(|flight| (&flight.started, &flight.down)) {
            Some((Some(_), Some(_))) => Phase::Down,
            Some((Some(started), None)) => Phase::Running { elapsed_ms: now.elapsed_ms_since(started) },
            _ => Phase::Waiting,
        }
    }
}

/// How far the flight is.
enum Phase {
    Waiting,
    Running { elapsed_ms: i64 },
    Down,
}
