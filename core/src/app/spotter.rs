use super::shared::Shared;
use super::{AppError, Phone, code};
use crate::journal::NewEntry;
use crate::locale::{say, time_left};
use crate::readiness::Seat;
use crate::record::{Body, EntryId, MarkKind, Moment};
use crate::view::{self, Place, SpotterScreen};

/// All that a spotter can reach: the one card that was handed over.
///
/// Start, mark, land, take a mistaken mark or landing back, give the phone back to whoever knows the pilot's code. There is no
/// other method, and each of them asks first whether this card is still the spotter's.
#[derive(Clone)]
pub struct SpotterDesk {
    phone: Phone,
    card: EntryId,
    name: String,
}

impl Phone {
    /// The spotter's handle, for the card that was handed over.
    ///
    /// # Errors
    /// [`AppError::NotYourTurn`] while the pilot has the phone.
    pub fn spotter(&self) -> Result<SpotterDesk, AppError> {
        self.with(|shared| match &shared.ledger.seat {
            Seat::Spotter { card, name } => Ok(SpotterDesk { phone: self.clone(), card: *card, name: name.clone() }),
            Seat::Pilot => Err(AppError::NotYourTurn { reason: say!(shared.locale(), "app-not-handed-over") }),
        })
    }
}

impl SpotterDesk {
    /// The spotter's screen.
    ///
    /// # Errors
    /// [`AppError::NotYourTurn`] once the phone was given back; the same for every method here.
    pub fn screen(&self, now: &Moment) -> Result<SpotterScreen, AppError> {
        self.with(|shared| Ok(self.sight(shared, now)))
    }

    /// The motor starts, and with it the clock. A second start changes nothing.
    ///
    /// # Errors
    /// Refused where what the card was handed over on holds no longer: the day is over, or something that held for it.
    pub fn start(&self, now: &Moment) -> Result<SpotterScreen, AppError> {
        self.with(|shared| {
            if matches!(self.phase(shared, now), Phase::Waiting) {
                self.is_still_ready(shared, now)?;
                let body = Body::Started { card: self.card };
                shared.append(now, vec![NewEntry::spotter(&self.name, body)])?;
            }
            Ok(self.sight(shared, now))
        })
    }

    /// Whether the card may still be flown as it was handed over.
    fn is_still_ready(&self, shared: &Shared, now: &Moment) -> Result<(), AppError> {
        let Some(flight) = shared.ledger.flight(self.card) else { return Ok(()) };
        if flight.handed_over.is_some_and(|day| shared.ledger.clock.day(now) > day) {
            return Err(AppError::refused(say!(shared.locale(), "app-card-of-another-day")));
        }
        match shared.ledger.before_flying(&shared.plan, &flight.check, now).first() {
            None => Ok(()),
            Some(blocker) => {
                let words = view::blocker_words(shared.locale(), &shared.plan, &shared.ledger, blocker);
                Err(AppError::refused(say!(shared.locale(), "app-card-no-longer", words = words)))
            }
        }
    }

    /// Something was seen or heard. Only while the motor is on.
    pub fn mark(&self, mark: MarkKind, now: &Moment) -> Result<SpotterScreen, AppError> {
        self.act(now, |phase| match phase {
            Phase::Running { elapsed_ms } => Some(Body::Marked { card: self.card, mark, elapsed_ms }),
            _ => None,
        })
    }

    /// The last mark was a slip of the finger.
    pub fn unmark(&self, now: &Moment) -> Result<SpotterScreen, AppError> {
        self.with(|shared| {
            let last = shared.ledger.flight(self.card).and_then(|flight| flight.marks.last()).map(|mark| mark.entry);
            if let Some(mark) = last {
                let body = Body::Unmarked { card: self.card, mark };
                shared.append(now, vec![NewEntry::spotter(&self.name, body)])?;
            }
            Ok(self.sight(shared, now))
        })
    }

    /// Down, motor off. Only while the motor is on.
    pub fn land(&self, now: &Moment) -> Result<SpotterScreen, AppError> {
        self.with(|shared| {
            let flight = shared.ledger.flight(self.card).filter(|flight| flight.down.is_none());
            if let Some(started) = flight.and_then(|flight| flight.started.as_ref()) {
                let card = self.card;
                // Across a restart the wall clock may have been set to anything: what surely went by is kept, and the pilot is asked.
                let mut bodies = vec![Body::TouchedDown { card, elapsed_ms: now.surely_elapsed_ms_since(started) }];
                bodies.extend((started.boot != now.boot).then_some(Body::RestartedInFlight { card }));
                let entries = bodies.into_iter().map(|body| NewEntry::spotter(&self.name, body)).collect();
                shared.append(now, entries)?;
            }
            Ok(self.sight(shared, now))
        })
    }

    /// The landing was touched by mistake: the clock goes on from the start.
    pub fn resume(&self, now: &Moment) -> Result<SpotterScreen, AppError> {
        self.act(now, |phase| match phase {
            Phase::Down => Some(Body::Resumed { card: self.card }),
            _ => None,
        })
    }

    /// Gives the phone back, where the pilot set no code, or where the wait for it to open without is over.
    ///
    /// # Errors
    /// Refused while the motor is on, while a code is wanted and while the wait lasts.
    pub fn hand_back(&self, now: &Moment) -> Result<(), AppError> {
        self.with(|shared| {
            let flown = self.has_flown(shared, now)?;
            let mut bodies = Vec::new();
            if shared.ledger.lock.hash.is_some() {
                match shared.ledger.lock.opens_in_ms(now) {
                    None => return Err(AppError::refused(say!(shared.locale(), "app-code-first"))),
                    Some(0) => bodies.push(Body::OpenedWithoutCode { card: self.card }),
                    Some(left_ms) => {
                        let left = time_left(shared.locale(), left_ms);
                        return Err(AppError::refused(say!(shared.locale(), "app-opens-in", left = left)));
                    }
                }
            }
            self.leave(shared, bodies, flown, now)
        })
    }

    /// Gives the phone back to whoever knows the pilot's code.
    ///
    /// # Errors
    /// Refused while the motor is on; for a wrong code, which is written down; and, untried, while a wait after wrong codes
    /// lasts.
    pub fn hand_back_with_code(&self, code: &str, now: &Moment) -> Result<(), AppError> {
        self.with(|shared| {
            let flown = self.has_flown(shared, now)?;
            let wait_ms = shared.ledger.lock.next_try_in_ms(now);
            if wait_ms > 0 {
                let reason = say!(shared.locale(), "app-not-tried", left = time_left(shared.locale(), wait_ms));
                return Err(AppError::field("code", reason));
            }
            if shared.ledger.lock.hash.as_deref().is_some_and(|hash| !code::is_right(code, hash)) {
                shared.append(now, vec![NewEntry::spotter(&self.name, Body::CodeRefused { card: self.card })])?;
                let wait_ms = shared.ledger.lock.next_try_in_ms(now);
                let wait = match wait_ms {
                    0 => String::new(),
                    wait_ms => {
                        say!(shared.locale(), "app-next-try", left = time_left(shared.locale(), wait_ms))
                    }
                };
                return Err(AppError::field("code", say!(shared.locale(), "app-wrong-code", wait = wait)));
            }
            self.leave(shared, Vec::new(), flown, now)
        })
    }

    /// Nobody knows the code: begins the wait after which the phone opens without it. A second one changes nothing.
    pub fn wait_without_code(&self, now: &Moment) -> Result<SpotterScreen, AppError> {
        self.with(|shared| {
            let lock = &shared.ledger.lock;
            if lock.hash.is_some() && lock.waits_since.is_none() {
                shared.append(now, vec![NewEntry::spotter(&self.name, Body::WaitBegun { card: self.card })])?;
            }
            Ok(self.sight(shared, now))
        })
    }

    /// Whether it has flown; refused while it flies.
    fn has_flown(&self, shared: &Shared, now: &Moment) -> Result<bool, AppError> {
        match self.phase(shared, now) {
            Phase::Running { .. } => Err(AppError::refused(say!(shared.locale(), "app-motor-on"))),
            Phase::Down => Ok(true),
            Phase::Waiting => Ok(false),
        }
    }

    fn leave(&self, shared: &mut Shared, mut bodies: Vec<Body>, flown: bool, now: &Moment) -> Result<(), AppError> {
        bodies.push(Body::HandedBack { card: self.card });
        let entries = bodies.into_iter().map(|body| NewEntry::spotter(&self.name, body)).collect();
        let places = if flown { vec![Place::Board, Place::Landing(self.card)] } else { vec![Place::Board] };
        shared.append_and_go(now, entries, &[], places)
    }

    fn sight(&self, shared: &Shared, now: &Moment) -> SpotterScreen {
        view::spotter(shared.locale(), &shared.plan, &shared.ledger, self.card, now)
    }

    fn act(&self, now: &Moment, entry: impl FnOnce(Phase) -> Option<Body>) -> Result<SpotterScreen, AppError> {
        self.with(|shared| {
            if let Some(body) = entry(self.phase(shared, now)) {
                shared.append(now, vec![NewEntry::spotter(&self.name, body)])?;
            }
            Ok(self.sight(shared, now))
        })
    }

    fn with<T>(&self, act: impl FnOnce(&mut Shared) -> Result<T, AppError>) -> Result<T, AppError> {
        self.phone.with(|shared| match &shared.ledger.seat {
            Seat::Spotter { card, .. } if *card == self.card => act(shared),
            _ => Err(AppError::NotYourTurn { reason: say!(shared.locale(), "app-back-with-pilot") }),
        })
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
