//! The pilot's handle: every screen and everything on it.

use super::brought::BringingIn;
use super::log_import::Unread;
use super::open_log::{OpenLog, PickedLog};
use super::shared::Shared;
use super::way::leave;
use super::{AppError, Phone, bringing_in, code, document, entries, in_view, log, plan, plot, saving};
use crate::form::{ColumnsForm, Drafts, JournalForm, LandingForm, ThingForm};
use crate::journal::NewEntry;
use crate::locale::{Locale, parse_number, say};
use crate::readiness::Report;
use crate::record::{Body, EntryId, Moment, ThingKind};
use crate::view::{
    self, Block, Command, Context, Edit, Go, Journals, Place, PlotFingers, Preference, Record, Screen, Tapped, Token,
    Turn, UnderWay, UnderWayWith, Wrote,
};

/// The pilot's handle: every screen and everything on it.
#[derive(Clone)]
pub struct PilotDesk {
    phone: Phone,
}

impl Phone {
    /// The pilot's handle.
    ///
    /// # Errors
    /// [`AppError::NotYourTurn`] while the spotter has the phone.
    pub fn pilot(&self) -> Result<PilotDesk, AppError> {
        if self.damage_screen().is_none() {
            self.with(|shared| shared.pilots_turn())?;
        }
        Ok(PilotDesk { phone: self.clone() })
    }
}

impl PilotDesk {
    /// The screen that the pilot is on.
    ///
    /// # Errors
    /// [`AppError::NotYourTurn`] while the spotter has the phone; the same for every method here.
    pub fn screen(&self, now: &Moment) -> Result<Screen, AppError> {
        if let Some(screen) = self.phone.damage_screen() {
            return Ok(screen);
        }
        self.with(|shared| shared.screen(now))
    }

    /// Does what a control's token says.
    ///
    /// # Errors
    /// [`AppError::Refused`] with the field and the reason: nothing was recorded, the draft is still there.
    /// [`AppError::Journal`] if nothing could be written.
    pub fn tap(&self, token: &Token, now: &Moment) -> Result<Tapped, AppError> {
        let command = self.meant(token.command(), |locale| say!(locale, "app-other-screen"))?;
        let repaired = if command == Command::Journals(Journals::Repair) { self.phone.repair(now)? } else { None };
        if repaired.is_some() {
            // What was lost may be the hand-over back: then the spotter goes on.
            return self.phone.with(|shared| shared.tapped(repaired, now));
        }
        self.with(|shared| {
            let said = shared.dispatch(command, now)?;
            shared.tapped(said, now)
        })
    }

    /// Begins to take the document that the person picked for a control. `name` is what the phone calls it, `length` its length in
    /// bytes where the phone knows that. The screen's [`crate::view::Work`] then asks for its pieces.
    ///
    /// # Errors
    /// [`AppError::Refused`] if this control wants no document.
    pub fn picked(&self, token: &Token, name: &str, length: Option<u64>, now: &Moment) -> Result<Tapped, AppError> {
        let wanted = self.meant(token.wanted(), |locale| say!(locale, "app-takes-no-document"))?;
        self.with(|shared| {
            document::begin(shared, &wanted, name, length)?;
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
            let said = match document::piece(shared, piece)? {
                Some(done) => Some(shared.finish(&shared.place(), done, now)?),
                None => None,
            };
            shared.tapped(said, now)
        })
    }

    /// Begins to give the document that a control offers: the person said where it goes, and the phone calls it `name`. The screen's
    /// [`crate::view::Work`] then asks for it piece by piece.
    ///
    /// # Errors
    /// [`AppError::Refused`] if this control offers none.
    pub fn saving(&self, token: &Token, name: &str, now: &Moment) -> Result<Tapped, AppError> {
        let offered = self.meant(token.offered(), |locale| say!(locale, "app-offers-no-document"))?;
        self.with(|shared| {
            saving::begin(shared, &offered, name, now)?;
            shared.tapped(None, now)
        })
    }

    /// The next piece of it, which may be empty while there is more to come; none at its end, and after the person stopped it.
    ///
    /// # Errors
    /// [`AppError::Journal`] if the chain does not close: what was written so far is worth nothing, and the document is given up.
    pub fn piece(&self) -> Result<Option<Vec<u8>>, AppError> {
        self.with(saving::piece)
    }

    /// Hears what became of the last piece; after the end, of the whole document. What comes after the person stopped it is passed over.
    ///
    /// # Errors
    /// [`AppError::Refused`] with what can be done, where it was not written: the document is given up.
    pub fn wrote(&self, how: Wrote, now: &Moment) -> Result<Tapped, AppError> {
        self.with(|shared| {
            let said = saving::wrote(shared, how, now)?;
            let saved = said.is_some();
            let mut tapped = shared.tapped(said, now)?;
            // What was saved is no entry: beside those words "take back" would seem to mean it, and would take back the entry before.
            tapped.screen.undo = tapped.screen.undo.filter(|_| !saved);
            Ok(tapped)
        })
    }

    /// Takes what fingers did on a plot of the screen in view, and draws it anew: within a frame, and nothing else of the screen.
    ///
    /// # Errors
    /// [`AppError::Refused`] if this token is no plot's, or none is in view.
    pub fn fingers(&self, token: &Token, fingers: &PlotFingers) -> Result<Block, AppError> {
        self.meant(token.is_fingers().then_some(()), |locale| say!(locale, "app-no-plot-control"))?;
        self.with(|shared| plot::fingers(shared, &shared.place(), fingers))
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
            let said = say!(shared.locale(), "app-code-set");
            shared.tapped(Some(said), now)
        })
    }

    /// What a token means, where it means what is asked of it.
    fn meant<T>(&self, meaning: Option<T>, otherwise: impl Fn(Locale) -> String) -> Result<T, AppError> {
        let locale = self.phone.locale()?;
        meaning.ok_or_else(|| AppError::refused(otherwise(locale)))
    }

    fn with<T>(&self, act: impl FnOnce(&mut Shared) -> Result<T, AppError>) -> Result<T, AppError> {
        self.phone.with(|shared| {
            shared.pilots_turn()?;
            act(shared)
        })
    }
}

impl Shared {
    fn screen(&mut self, now: &Moment) -> Result<Screen, AppError> {
        let place = self.place();
        in_view::open(self, &place)?;
        let drafts = self.drafts(&place)?;
        let report = self.report(now);
        let form = Drafts::new(&drafts, self.locale());
        // What a saved page names is held against what stands here.
        let last = i64::try_from(self.journal_count).unwrap_or(i64::MAX);
        let head = if place == Place::Dossier { self.journal.digest_of(last)? } else { None };
        let set_aside = match place {
            Place::Backup | Place::SetAside(_) => self.journal.set_aside(),
            _ => Vec::new(),
        };
        let context = Context { head, set_aside, ..self.context(&report, form, now) };
        Ok(view::screen(&context, &place))
    }

    /// All that a screen, or a page for others, is made from.
    pub(super) fn context<'a>(&'a self, report: &'a Report, form: Drafts<'a>, now: &'a Moment) -> Context<'a> {
        Context {
            plan: &self.plan,
            written: &self.written,
            loosened: &self.loosened,
            entries: &self.entries,
            journal_count: self.journal_count,
            hangar: &self.hangar,
            beside: self.beside.as_deref().unwrap_or_default(),
            ledger: &self.ledger,
            report,
            last: self.last.as_ref().and_then(|last| {
                let plan = last.plan.as_ref().unwrap_or(&self.plan);
                Some((self.entries.get(last.index)?, &last.ledger, plan))
            }),
            form,
            picked_log: self.picked_log.as_ref().map(PickedLog::seen),
            log: self.open_log.as_ref().map(OpenLog::seen),
            head: None,
            photo: self.photo.as_ref().map(|(_, shown)| shown.as_deref().map_err(|lack| *lack)),
            found: super::search::seen(self),
            last_backup: self.last_backup.as_ref(),
            brought: self.brought.as_ref().map(BringingIn::seen),
            set_aside: Vec::new(),
            log_was_stopped: self.unread.is_some_and(|(_, why)| why == Unread::Stopped),
            under_way: self.under_way(),
            now,
            locale: self.locale(),
        }
    }

    /// What the person is waiting for.
    fn under_way(&self) -> Option<UnderWay> {
        if let Some(leaving) = &self.leaving {
            let (done, all) = leaving.steps();
            let what = UnderWayWith::Leaving { name: leaving.name.clone(), written: leaving.written };
            return Some(UnderWay { what, bytes: done, of: Some(all), rows: None });
        }
        if let Some(arriving) = &self.arriving {
            let what = UnderWayWith::Arriving { name: arriving.name.clone() };
            return Some(UnderWay { what, bytes: arriving.bytes(), of: arriving.length, rows: None });
        }
        if let Some((name, (done, all))) = self.brought.as_ref().and_then(BringingIn::under_way) {
            let what = UnderWayWith::Unpacking { name: name.to_owned() };
            return Some(UnderWay { what, bytes: done, of: Some(all), rows: None });
        }
        let import = self.import.as_ref()?;
        let progress = import.progress();
        let picked = self.picked_log.as_ref().filter(|_| import.is_waited_for());
        let what = match picked {
            Some(picked) => UnderWayWith::Attaching { name: picked.name.clone() },
            None => UnderWayWith::Plot,
        };
        Some(UnderWay { what, bytes: progress.bytes, of: Some(import.length()), rows: Some(progress.rows) })
    }

    fn tapped(&mut self, said: Option<String>, now: &Moment) -> Result<Tapped, AppError> {
        let (turn, screen) = match self.ledger.seat {
            crate::readiness::Seat::Pilot => (Turn::Pilot, self.screen(now)?),
            crate::readiness::Seat::Spotter { .. } => (Turn::Spotter, view::handed_over(self.locale())),
        };
        Ok(Tapped { screen, turn, said, language: self.locale().language.tag().to_owned() })
    }

    /// Does a command; what was recorded, in a sentence.
    fn dispatch(&mut self, command: Command, now: &Moment) -> Result<Option<String>, AppError> {
        self.refuse_bounce(&command, now)?;
        let place = self.place();
        let said = match command {
            Command::Go(go) => self.show(go).map(|()| None),
            Command::Edit(edit) => self.edit(edit, now),
            Command::Record(record) => self.record(record, now),
            Command::Journals(journals) => self.change_journals(journals, now),
        }?;
        self.note_touch(&place, now);
        Ok(said)
    }

    fn show(&mut self, go: Go) -> Result<(), AppError> {
        match go {
            Go::To(place) => match place {
                Place::Thing { kind, name: None } => self.describe_new(kind, ""),
                place => self.go(place),
            },
            Go::Like { kind, name } => self.describe_new(kind, &name),
            Go::Back => self.back(),
            Go::StopWork => {
                log::stop_import(self);
                Ok(document::stop(self)?)
            }
            // The page in view goes a step on whenever it is made.
            Go::StepOn => Ok(()),
            Go::NewerEdition => plan::offer_shipped(self),
            Go::Aircraft(aircraft) => self.turn_to(aircraft),
            Go::ReadLogAgain => {
                self.unread = None;
                Ok(())
            }
        }
    }

    /// Goes to the page of a new thing, which is like the one of this name, or like none. What was typed there stays.
    fn describe_new(&mut self, kind: ThingKind, like: &str) -> Result<(), AppError> {
        let place = Place::Thing { kind, name: None };
        let mut fields = self.drafts(&place)?;
        if fields.get(ThingForm::LIKE).map_or("", String::as_str) == like {
            return self.go(place);
        }
        fields.insert(ThingForm::LIKE.to_owned(), like.to_owned());
        self.go_with(place, &fields.into_iter().collect::<Vec<_>>())
    }

    fn edit(&mut self, edit: Edit, now: &Moment) -> Result<Option<String>, AppError> {
        let place = self.place();
        match edit {
            Edit::Set { field, text } => self.set_field(&field, &text, now)?,
            Edit::Step { field, by, start } => self.step(&field, by, start, now)?,
            Edit::Read { card, place, degrees } => return self.read(card, &place, degrees, now),
            Edit::MovePlot(step) => plot::step(self, &place, step)?,
            Edit::ShowChannel(channel) => plot::show_channel(self, &place, channel)?,
            Edit::Prefer(preference) => self.prefer(preference)?,
        }
        Ok(None)
    }

    fn change_journals(&mut self, journals: Journals, now: &Moment) -> Result<Option<String>, AppError> {
        match journals {
            // It is whole, or this handle would not have got here.
            Journals::Repair => Ok(None),
            Journals::LayIn => bringing_in::lay_in(self, now).map(Some),
            Journals::Compare(number) => bringing_in::compare(self, number).map(|()| None),
            Journals::LetGo(number) => bringing_in::let_go(self, number).map(Some),
        }
    }

    fn record(&mut self, record: Record, now: &Moment) -> Result<Option<String>, AppError> {
        let place = self.place();
        let drafts = self.drafts(&place)?;
        let locale = self.locale();
        match entries::appended(self, record, &place, Drafts::new(&drafts, locale), now)? {
            Some(done) => self.finish(&place, done, now).map(Some),
            None => Ok(None),
        }
    }

    /// Takes a temperature that was touched; the last one that is asked for records the landing with it.
    fn read(&mut self, card: EntryId, place: &str, degrees: i32, now: &Moment) -> Result<Option<String>, AppError> {
        if self.place() != Place::Landing(card) {
            return Err(AppError::refused(say!(self.locale(), "app-other-screen")));
        }
        let mut fields = self.fields_with(&LandingForm::temperature_field(place), &degrees.to_string(), now)?;
        fields.push((LandingForm::READ_AGAIN.to_owned(), String::new()));
        let here = self.place();
        self.keep_drafts(&here, &fields)?;
        let drafts = self.drafts(&here)?;
        let drafts = Drafts::new(&drafts, self.locale());
        let flight = self.ledger.flight(card);
        let form = flight.map(|flight| LandingForm::new(drafts, &self.plan, &self.ledger.aircraft, flight));
        match form.and_then(|form| form.place_to_read()) {
            Some(_) => Ok(None),
            None => self.record(Record::Landing { card, said: None }, now),
        }
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
        let drafts = self.drafts(&self.place())?;
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
        Ok(self.keep_drafts(&self.place(), &fields)?)
    }

    /// A field of the place in view with its text, and the other fields that follow it.
    fn fields_with(&self, field: &str, text: &str, now: &Moment) -> Result<Vec<(String, String)>, AppError> {
        let place = self.place();
        let mut fields = vec![(field.to_owned(), text.to_owned())];
        if let Place::LogColumn { .. } = place {
            let others = ColumnsForm::no_longer_time(field, text, &self.drafts(&place)?);
            fields.extend(others.into_iter().map(|other| (other, ColumnsForm::LEAVE_OUT.to_owned())));
        }
        if place == Place::Journal && field == JournalForm::SEARCH {
            // Another search begins at its first page.
            fields.push((JournalForm::SHOWN.to_owned(), String::new()));
        }
        if let (Place::Landing(card), true) = (&place, LandingForm::is_temperature(field)) {
            let drafts = self.drafts(&place)?;
            let after_s = self.ledger.flight(*card).map_or(0, |flight| {
                let drafts = Drafts::new(&drafts, self.locale());
                LandingForm::new(drafts, &self.plan, &self.ledger.aircraft, flight).after_s(now)
            });
            fields.push((LandingForm::after_field(field), after_s.to_string()));
        }
        Ok(fields)
    }
}
