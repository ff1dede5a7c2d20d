use super::command::{After, Done};
use super::log::{OpenLog, PickedLog};
use super::phone::{Shared, way};
use super::reading::{self, Unread};
use super::{AppError, Phone, code, command, document, log};
use crate::form::Drafts;
use crate::journal::NewEntry;
use crate::locale::{parse_number, say};
use crate::record::{Body, EntryId, Moment};
use crate::view::{
    self, Block, Command, Place, PlotFingers, Preference, Screen, Tapped, Token, Turn, UnderWay, UnderWayWith,
};

/// The pilot's handle: every screen and everything on it.
#[derive(Clone)]
pub struct PilotDesk {
    phone: Phone,
}

impl PilotDesk {
    pub(super) fn new(phone: Phone) -> Self {
        PilotDesk { phone }
    }

    /// The screen that the pilot is on.
    ///
    /// # Errors
    /// [`AppError::NotYourTurn`] while the spotter has the phone; the same for every method here.
    pub fn screen(&self, now: &Moment) -> Result<Screen, AppError> {
        self.with(|shared| shared.screen(now))
    }

    /// Does what a control's token says.
    ///
    /// # Errors
    /// [`AppError::Refused`] with the field and the reason: nothing was recorded, the draft is still there.
    /// [`AppError::Journal`] if nothing could be written.
    pub fn tap(&self, token: &Token, now: &Moment) -> Result<Tapped, AppError> {
        let command = self.command(token)?;
        self.with(|shared| {
            let said = shared.obey(command, now)?;
            shared.tapped(said, now)
        })
    }

    /// Begins to take the document that the person picked for a control. `name` is what the phone calls it, `length` its length in
    /// bytes where the phone knows that. The screen's [`crate::view::Work`] then asks for its pieces.
    ///
    /// # Errors
    /// [`AppError::Refused`] if this control wants no document.
    pub fn picked(&self, token: &Token, name: &str, length: Option<u64>, now: &Moment) -> Result<Tapped, AppError> {
        let command = self.command(token)?;
        self.with(|shared| {
            document::begin(shared, &command, name, length)?;
            shared.tapped(None, now)
        })
    }

    /// Takes the next piece of a document: an empty one is its end, none means that the phone cannot read on. One that comes after
    /// the person stopped it is passed over.
    ///
    /// # Errors
    /// [`AppError::Refused`] if this is not what the control wants: nothing was recorded. [`AppError::Journal`] if there is no
    /// room for it: nothing was kept.
    pub fn fed(&self, piece: Option<&[u8]>, now: &Moment) -> Result<Tapped, AppError> {
        self.with(|shared| {
            document::piece(shared, piece)?;
            shared.tapped(None, now)
        })
    }

    /// The bytes of the document that a control offers.
    ///
    /// # Errors
    /// [`AppError::Refused`] if this control offers none.
    pub fn document(&self, token: &Token, _now: &Moment) -> Result<Vec<u8>, AppError> {
        let command = self.command(token)?;
        self.with(|shared| document::give(shared, &command))
    }

    /// Takes what fingers did on a plot of the screen in view, and draws it anew: within a frame, and nothing else of the screen.
    ///
    /// # Errors
    /// [`AppError::Refused`] if this token is no plot's, or none is in view.
    pub fn fingers(&self, token: &Token, fingers: &PlotFingers) -> Result<Block, AppError> {
        match token.command() {
            Some(Command::Fingers) => self.with(|shared| log::fingers(shared, &shared.place(), fingers)),
            _ => Err(AppError::refused(say!(self.phone.locale()?, "desk-no-plot-control"))),
        }
    }

    /// Keeps what was typed into a field of the screen in view, so that nothing is lost if the phone dies.
    pub fn edit(&self, field: &str, text: &str, now: &Moment) -> Result<(), AppError> {
        self.with(|shared| shared.set_field(field, text, now))
    }

    /// The same, and the screen as it is with it: what is odd about what was typed stands at the field.
    pub fn typed(&self, field: &str, text: &str, now: &Moment) -> Result<Screen, AppError> {
        self.with(|shared| {
            shared.set_field(field, text, now)?;
            shared.screen(now)
        })
    }

    /// Sets the code that the phone wants before it comes back from a spotter. It is never kept as it was typed.
    ///
    /// # Errors
    /// Refused unless it is 4 to 8 digits.
    pub fn set_code(&self, code: &str, now: &Moment) -> Result<Tapped, AppError> {
        self.with(|shared| {
            let entry = NewEntry::pilot(Body::CodeSet { hash: code::hash(shared.locale(), code)? });
            let mut places = shared.places.clone();
            leave(&mut places);
            shared.append_and_go(now, vec![entry], &[], places)?;
            let said = say!(shared.locale(), "desk-code-set");
            shared.tapped(Some(said), now)
        })
    }

    fn command(&self, token: &Token) -> Result<Command, AppError> {
        let locale = self.phone.locale()?;
        token.command().ok_or_else(|| AppError::refused(say!(locale, "desk-other-screen")))
    }

    fn with<T>(&self, act: impl FnOnce(&mut Shared) -> Result<T, AppError>) -> Result<T, AppError> {
        self.phone.with(|shared| {
            shared.pilots_turn()?;
            act(shared)
        })
    }
}

impl Shared {
    fn place(&self) -> Place {
        self.places.last().cloned().unwrap_or(Place::Board)
    }

    fn screen(&mut self, now: &Moment) -> Result<Screen, AppError> {
        let place = self.place();
        log::open(self, &place)?;
        let drafts = self.journal.drafts(&place.draft_key())?;
        let report = self.report(now);
        let context = view::Context {
            plan: &self.plan,
            written: &self.written,
            entries: &self.entries,
            ledger: &self.ledger,
            report: &report,
            last: self.last.as_ref().and_then(|last| {
                let plan = last.plan.as_ref().unwrap_or(&self.plan);
                Some((self.entries.get(last.index)?, &last.ledger, plan))
            }),
            form: Drafts::new(&drafts, self.locale()),
            picked_log: self.picked_log.as_ref().map(PickedLog::seen),
            log: self.open_log.as_ref().map(OpenLog::seen),
            log_was_stopped: self.unread.is_some_and(|(_, why)| why == Unread::Stopped),
            under_way: self.under_way(),
            now,
            locale: self.locale(),
        };
        Ok(view::screen(&context, &place))
    }

    /// What the person is waiting for.
    fn under_way(&self) -> Option<UnderWay> {
        if let Some(arriving) = &self.arriving {
            let what = UnderWayWith::Arriving { name: arriving.name.clone() };
            return Some(UnderWay { what, bytes: arriving.bytes(), of: arriving.length, rows: None });
        }
        let reading = self.reading.as_ref()?;
        let progress = reading.progress();
        let picked = self.picked_log.as_ref().filter(|_| reading.is_waited_for());
        let what = match picked {
            Some(picked) => UnderWayWith::Attaching { name: picked.name.clone() },
            None => UnderWayWith::Plot,
        };
        Some(UnderWay { what, bytes: progress.bytes, of: Some(reading.length()), rows: Some(progress.rows) })
    }

    fn tapped(&mut self, said: Option<String>, now: &Moment) -> Result<Tapped, AppError> {
        let (turn, screen) = match self.ledger.seat {
            crate::readiness::Seat::Pilot => (Turn::Pilot, self.screen(now)?),
            crate::readiness::Seat::Spotter { .. } => (Turn::Spotter, view::handed_over(self.locale())),
        };
        Ok(Tapped { screen, turn, said, language: self.locale().language.tag().to_owned() })
    }

    /// Does a command; what was recorded, in a sentence.
    fn obey(&mut self, command: Command, now: &Moment) -> Result<Option<String>, AppError> {
        match command {
            Command::Go(place) => self.go(place).map(|()| None),
            Command::Back => self.back().map(|()| None),
            Command::Prefer(preference) => self.prefer(preference).map(|()| None),
            Command::Set(field, text) => self.set_field(&field, &text, now).map(|()| None),
            Command::Step { field, by, start } => self.step(&field, by, start, now).map(|()| None),
            Command::Read { card, place, degrees } => self.read(card, &place, degrees, now),
            Command::MovePlot(step) => log::step(self, &self.place(), step).map(|()| None),
            Command::ShowChannel(channel) => log::show_channel(self, &self.place(), channel).map(|()| None),
            Command::AttachLog(card) => {
                let place = self.place();
                let drafts = self.journal.drafts(&place.draft_key())?;
                log::attach(self, card, Drafts::new(&drafts, self.locale()))?;
                self.read_on(now)
            }
            Command::ReadOn => self.read_on(now),
            Command::StopReading => {
                reading::stop(self);
                document::stop(self)?;
                Ok(None)
            }
            Command::ReadAgain => {
                self.unread = None;
                Ok(None)
            }
            command => {
                let place = self.place();
                let drafts = self.journal.drafts(&place.draft_key())?;
                let done = command::carry_out(self, command, &place, Drafts::new(&drafts, self.locale()), now)?;
                self.finish(&place, done, now).map(Some)
            }
        }
    }

    fn read_on(&mut self, now: &Moment) -> Result<Option<String>, AppError> {
        match reading::go_on(self)? {
            Some(done) => self.finish(&self.place(), done, now).map(Some),
            None => Ok(None),
        }
    }

    fn finish(&mut self, place: &Place, done: Done, now: &Moment) -> Result<String, AppError> {
        let mut places = self.places.clone();
        let done_with = if matches!(done.after, After::Keep) { &[] } else { std::slice::from_ref(place) };
        match done.after {
            After::Stay | After::Keep => {}
            After::Back => leave(&mut places),
            After::To(next) => enter(&mut places, next),
            After::Through(first, next) => {
                enter(&mut places, first);
                enter(&mut places, next);
            }
            After::Instead(next) => {
                places.pop();
                enter(&mut places, next);
            }
        }
        self.append_and_go(now, done.entries, done_with, places)?;
        Ok(done.said)
    }

    /// Takes a temperature that was touched; the last one that is asked for records the landing with it.
    fn read(&mut self, card: EntryId, place: &str, degrees: i32, now: &Moment) -> Result<Option<String>, AppError> {
        if self.place() != Place::Landing(card) {
            return Err(AppError::refused(say!(self.locale(), "desk-other-screen")));
        }
        let mut fields = self.fields_with(&format!("{}{place}", view::TEMPERATURE), &degrees.to_string(), now)?;
        fields.push((view::READ_AGAIN.to_owned(), String::new()));
        self.journal.keep_drafts(&self.place().draft_key(), &fields)?;
        let drafts = self.journal.drafts(&self.place().draft_key())?;
        match view::place_to_read(&self.plan, &self.ledger, card, Drafts::new(&drafts, self.locale())) {
            Some(_) => Ok(None),
            None => self.obey(Command::SaveLanding(card), now),
        }
    }

    pub(super) fn go(&mut self, place: Place) -> Result<(), AppError> {
        enter(&mut self.places, place);
        Ok(self.journal.keep_bookmark(&way(&self.places))?)
    }

    /// Goes to a place whose draft begins anew with these fields: all or nothing of it.
    pub(super) fn go_with(&mut self, place: Place, fields: &[(String, String)]) -> Result<(), AppError> {
        let mut places = self.places.clone();
        enter(&mut places, place.clone());
        self.journal.keep_drafts_and_go(&place.draft_key(), fields, &way(&places))?;
        self.places = places;
        Ok(())
    }

    fn back(&mut self) -> Result<(), AppError> {
        leave(&mut self.places);
        Ok(self.journal.keep_bookmark(&way(&self.places))?)
    }

    fn prefer(&mut self, preference: Preference) -> Result<(), AppError> {
        let mut chosen = self.chosen;
        match preference {
            Preference::Language(language) => chosen.language = Some(language),
            Preference::Temperature(temperature) => chosen.temperature = temperature,
            Preference::Measures(measures) => chosen.measures = measures,
        }
        self.choose(chosen)
    }

    fn step(&mut self, field: &str, by: f64, start: f64, now: &Moment) -> Result<(), AppError> {
        let drafts = self.journal.drafts(&self.place().draft_key())?;
        let value = match drafts.get(field).and_then(|text| parse_number(text)) {
            Some(value) => value + by,
            // The first touch brings the start into the field; the next ones move it.
            None => start,
        };
        let text = self.locale().plain(value);
        self.set_field(field, &text, now)
    }

    fn set_field(&mut self, field: &str, text: &str, now: &Moment) -> Result<(), AppError> {
        let fields = self.fields_with(field, text, now)?;
        Ok(self.journal.keep_drafts(&self.place().draft_key(), &fields)?)
    }

    /// A field of the place in view with its text, and the other fields that follow it.
    fn fields_with(&self, field: &str, text: &str, now: &Moment) -> Result<Vec<(String, String)>, AppError> {
        let place = self.place();
        let mut fields = vec![(field.to_owned(), text.to_owned())];
        if let Place::LogColumn { .. } = place {
            let others = view::no_longer_time(field, text, &self.journal.drafts(&place.draft_key())?);
            fields.extend(others.into_iter().map(|other| (other, view::LEAVE_OUT.to_owned())));
        }
        if let (Place::Landing(card), true) = (&place, field.starts_with(view::TEMPERATURE)) {
            let down = self.ledger.flight(*card).and_then(|flight| flight.down.as_ref());
            let after_s = down.map_or(0, |(down, _)| now.elapsed_ms_since(down) / 1_000);
            fields.push((format!("{}{field}", view::READ_AFTER), after_s.to_string()));
        }
        Ok(fields)
    }
}

/// Goes to a place. One that is already on the way back is gone back to, so that the way never loops.
fn enter(places: &mut Vec<Place>, place: Place) {
    if places.is_empty() {
        places.push(Place::Board);
    }
    match places.iter().position(|known| *known == place) {
        Some(index) => places.truncate(index + 1),
        None => places.push(place),
    }
}

/// Goes one place back; the board is never left.
fn leave(places: &mut Vec<Place>) {
    places.pop();
    if places.is_empty() {
        places.push(Place::Board);
    }
}
