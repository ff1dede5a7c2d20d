use super::{Block, Control, Edge, Edit, Go, Icon, Place, Screen, Weight};
use crate::computed::Facts;
use crate::field::Flight;
use crate::form::{Drafts, LandingForm, last_people};
use crate::journal::{Digest, LastBackup, SetAside};
use crate::locale::{Locale, say};
use crate::plan::{Caution, Check, Loosened, Plan, Stage};
use crate::readiness::{Ledger, Report, Standing, Unkept};
use crate::record::{AircraftId, Entry, EntryId, Moment, Outcome};
use crate::telemetry::{Layout, Limits, Recording};

/// Names of people who came before that are offered for one touch.
const PEOPLE_OFFERED: usize = 3;

/// A log that was picked and is not attached yet.
#[derive(Clone, Copy)]
pub struct PickedLog<'a> {
    /// For which card's flight.
    pub card: EntryId,
    /// What the phone calls it.
    pub name: &'a str,
    /// How it is written.
    pub layout: &'a Layout,
}

/// The log in view, read.
#[derive(Clone, Copy)]
pub struct OpenLog<'a> {
    /// Its columns.
    pub recording: &'a Recording,
    /// What they are held against.
    pub limits: &'a Limits,
}

/// Why a photo that is kept cannot be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PhotoLack {
    /// Its file is not here, or no longer what was attached.
    Gone,
    /// It is here, and no decoder of this app reads it.
    Unreadable,
}

/// What a search of the journal found.
#[derive(Clone, Copy)]
pub struct Found<'a> {
    /// Places of the entries, from 0, newest first.
    pub hits: &'a [usize],
    /// Entries that were looked through.
    pub searched: usize,
    /// Of how many.
    pub of: usize,
}

/// An aircraft of the journal beside the one in view.
pub struct Beside {
    /// The plan in force there, as it was adopted.
    pub written: Plan,
    /// The same, as the person reads it.
    pub plan: Plan,
    /// What its entries say.
    pub ledger: Ledger,
}

/// All that a screen is made from.
#[derive(Clone)]
pub struct Context<'a> {
    /// The plan in force, as the person reads it.
    pub plan: &'a Plan,
    /// The same as it was adopted, to hold another plan against.
    pub written: &'a Plan,
    /// What it asks less of than one that was in force before it.
    pub loosened: &'a [Loosened],
    /// The entries of the aircraft in view, and the workshop's.
    pub entries: &'a [Entry],
    /// How many entries the journal has, those of other aircraft among them.
    pub journal_count: usize,
    /// All aircraft of the journal, in the order in which they were begun.
    pub hangar: &'a [AircraftId],
    /// The others, where the page lists them.
    pub beside: &'a [Beside],
    /// What it says.
    pub ledger: &'a Ledger,
    /// How everything stands now.
    pub report: &'a Report,
    /// The last thing that a person did, and how everything stood before it.
    pub last: Option<(&'a Entry, &'a Ledger, &'a Plan)>,
    /// The half-filled fields of the place in view.
    pub form: Drafts<'a>,
    /// A log that was picked and is not attached yet.
    pub picked_log: Option<PickedLog<'a>>,
    /// The log in view, read.
    pub log: Option<OpenLog<'a>>,
    /// The head digest of the chain, where the page shows it.
    pub head: Option<Digest>,
    /// What the journal was searched for and found, where it is searched.
    pub found: Option<Found<'a>>,
    /// The photo in view, small; why not, where it cannot be shown.
    pub photo: Option<Result<&'a [u8], PhotoLack>>,
    /// Whether the person did not want to wait for the log in view.
    pub log_was_stopped: bool,
    /// What the person is waiting for.
    pub under_way: Option<super::UnderWay>,
    /// The last backup of this record.
    pub last_backup: Option<&'a LastBackup>,
    /// A backup that was picked.
    pub brought: Option<super::Brought<'a>>,
    /// Journals that others took the place of, where the page lists them.
    pub set_aside: Vec<SetAside>,
    /// Now.
    pub now: &'a Moment,
    /// How the person reads and types.
    pub locale: Locale,
}

impl<'a> Context<'a> {
    /// The form of a flight's landing.
    pub(super) fn landing_form(&self, flight: &'a Flight) -> LandingForm<'a> {
        LandingForm::new(self.form, self.plan, &self.ledger.aircraft, flight)
    }

    /// The aircraft's name, or what it is called until it has one.
    pub fn aircraft_name(&self) -> String {
        match self.ledger.aircraft.name.as_str() {
            "" => say!(self.locale, "aircraft-unnamed"),
            name => name.to_owned(),
        }
    }

    /// The same within a sentence.
    pub fn aircraft_in_sentence(&self) -> String {
        match self.ledger.aircraft.name.as_str() {
            "" => say!(self.locale, "aircraft-unnamed-inside"),
            name => name.to_owned(),
        }
    }

    /// What is in no backup.
    pub fn unkept(&self) -> Unkept {
        let kept = self.last_backup.map_or(0, |last| last.count);
        self.ledger.unkept(self.journal_count as i64, kept, self.now)
    }

    /// A name that every file system takes: the aircraft's letters and digits.
    pub(super) fn file_stem(&self) -> String {
        let name: String = self.aircraft_name().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
        name.trim_matches('-').to_lowercase()
    }

    /// The same with a word and the day.
    pub(super) fn dated_file_name(&self, word: String, ending: &str) -> String {
        format!("{}-{word}-{}.{ending}", self.file_stem(), self.now.wall.format("%Y-%m-%d"))
    }

    /// An entry by its id.
    pub fn recorded(&self, id: EntryId) -> Option<&Entry> {
        Entry::by_id(self.entries, id)
    }

    /// What a computation may look at.
    pub fn facts(&self) -> Facts<'a> {
        Facts { plan: self.plan, ledger: self.ledger, locale: self.locale }
    }

    /// A screen with a way back.
    pub fn screen(&self, name: &str, title: impl Into<String>, above: Option<String>, blocks: Vec<Block>) -> Screen {
        let back =
            Control::new(Go::Back.into(), say!(self.locale, "common-back")).icon(Icon::Back).weight(Weight::Quiet);
        Screen { above, back: Some(back), ..bare(name, title, blocks) }
    }

    /// A screen for something that is no longer there.
    pub fn gone(&self, name: &str) -> Screen {
        let text = say!(self.locale, "common-gone");
        let paragraph = Block::Paragraph { text, tone: super::Tone::Plain };
        self.screen(name, say!(self.locale, "common-not-found"), None, vec![paragraph])
    }

    /// A stage's cautions and those of its checks named, each once.
    pub fn cautions(&self, ids: impl IntoIterator<Item = impl AsRef<str>>) -> Vec<Block> {
        let block = |caution: &Caution| Block::Caution { title: caution.title.clone(), text: caution.text.clone() };
        self.named_cautions(ids).into_iter().map(block).collect()
    }

    /// The plan's cautions of these names, each once.
    pub fn named_cautions(&self, ids: impl IntoIterator<Item = impl AsRef<str>>) -> Vec<&'a Caution> {
        let mut named: Vec<&Caution> = Vec::new();
        for caution in ids.into_iter().filter_map(|id| self.plan.caution(id.as_ref())) {
            if named.iter().all(|before| before.id != caution.id) {
                named.push(caution);
            }
        }
        named
    }

    /// The cautions of a check's stage that are not its own, in one block: they were read in full on the stage.
    pub fn stage_cautions(&self, stage: &Stage, check: &Check) -> Option<Block> {
        let others = stage.cautions.iter().filter(|id| !check.cautions.contains(id));
        let titles: Vec<&str> =
            others.filter_map(|id| self.plan.caution(id)).map(|caution| caution.title.as_str()).collect();
        let title = titles.join(". ");
        (!titles.is_empty()).then(|| Block::Caution {
            title,
            text: say!(self.locale, "common-over-all", stage = self.locale.inside(&stage.title)),
        })
    }

    /// A typed field as it stands in the draft, with what is wrong with it.
    pub fn entry(
        &self,
        field: &str,
        label: impl Into<String>,
        keyboard: super::Keyboard,
        fallback: Option<&str>,
    ) -> Block {
        Block::Entry {
            field: field.to_owned(),
            label: label.into(),
            text: self.form.text(field).or(fallback).unwrap_or_default().to_owned(),
            unit: None,
            keyboard,
            hint: None,
            flag: None,
        }
    }

    /// The last people who came, each one touch, for a field of a name.
    pub fn people(&self, field: &str, settled: Option<&str>, label: String) -> Option<Block> {
        let names = last_people(self.ledger, PEOPLE_OFFERED);
        let option = |name: &str| Control::new(Edit::set(field, name).into(), name).chosen(settled == Some(name));
        let options: Vec<Control> = names.into_iter().map(option).collect();
        (!options.is_empty()).then_some(Block::Choice { label, options })
    }

    /// A typed number with its unit and its plausible range.
    pub fn number_entry(
        &self,
        field: &str,
        label: &str,
        unit: crate::unit::Unit,
        range: (f64, f64),
        now: Option<f64>,
    ) -> Block {
        let flag = self.form.number(field, label, unit, range).err().map(|error| error.to_string());
        Block::Entry {
            field: field.to_owned(),
            label: label.to_owned(),
            text: self
                .form
                .text(field)
                .map(str::to_owned)
                .or(now.map(|now| self.locale.quantity_bare(now, unit)))
                .unwrap_or_default(),
            unit: Some(self.locale.shown(unit).sign.to_owned()).filter(|sign| !sign.is_empty()),
            keyboard: super::Keyboard::Decimal,
            hint: Some(say!(
                self.locale,
                "common-range",
                low = self.locale.quantity_bare(range.0, unit),
                high = self.locale.quantity(range.1, unit)
            )),
            flag,
        }
    }

    /// How far a stage is: checks that hold of those that its gate wants.
    pub fn progress(&self, stage: &Stage) -> (usize, usize) {
        let wanted = stage.checks.iter().filter(|check| check.mandatory && self.ledger.aircraft.wants(check));
        let holds: Vec<bool> = wanted.map(|check| self.report.standing(&check.id).holds()).collect();
        (holds.iter().filter(|holds| **holds).count(), holds.len())
    }
}

/// A screen with nothing around it.
pub(super) fn bare(name: &str, title: impl Into<String>, blocks: Vec<Block>) -> Screen {
    Screen {
        name: name.to_owned(),
        title: title.into(),
        above: None,
        back: None,
        blocks,
        foot: Vec::new(),
        undo: None,
        work: None,
    }
}

/// The edge of a check's row.
pub(super) fn edge(standing: &Standing) -> Edge {
    match standing {
        Standing::Missing { .. } => Edge::Missing,
        Standing::Fresh { outcome: Outcome::Caution } => Edge::Caution,
        Standing::Fresh { .. } => Edge::Fresh,
        Standing::Stale { .. } => Edge::Stale,
        Standing::Failed { .. } => Edge::Stop,
        Standing::Unexplained { .. } => Edge::Caution,
    }
}

/// The edge of an outcome.
pub(super) fn outcome_edge(outcome: Outcome) -> Edge {
    match outcome {
        Outcome::Pass => Edge::Fresh,
        Outcome::Caution => Edge::Caution,
        Outcome::Stop => Edge::Stop,
    }
}

/// A row that leads somewhere.
pub(super) fn row(
    edge: Edge,
    state: impl Into<String>,
    title: impl Into<String>,
    detail: Option<String>,
    place: Place,
) -> Block {
    let (state, title) = (state.into(), title.into());
    let mut spoken = if state.is_empty() { format!("{title}.") } else { format!("{title}. {state}.") };
    if let Some(detail) = &detail {
        spoken.push_str(&format!(" {detail}"));
    }
    let control = Control::new(place.into(), title.clone()).icon(Icon::Next).spoken(spoken);
    Block::Row { edge, state, title, detail, control: Some(control) }
}

/// A row that leads nowhere.
pub(super) fn still_row(
    edge: Edge,
    state: impl Into<String>,
    title: impl Into<String>,
    detail: Option<String>,
) -> Block {
    Block::Row { edge, state: state.into(), title: title.into(), detail, control: None }
}

/// A heading.
pub(super) fn heading(text: impl Into<String>, note: Option<String>) -> Block {
    Block::Heading { text: text.into(), note }
}

/// Running text.
pub(super) fn paragraph(text: impl Into<String>, tone: super::Tone) -> Block {
    Block::Paragraph { text: text.into(), tone }
}

/// A digest in groups of eight signs: it is read against a printed one, and whole it is wider than any phone.
pub(super) fn in_groups(digest: &str) -> String {
    digest.as_bytes().chunks(8).map(String::from_utf8_lossy).collect::<Vec<_>>().join(" ")
}
