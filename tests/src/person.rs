use std::io::Read;
use std::path::{Path, PathBuf};

use chrono::{DateTime, Duration, FixedOffset};
use liftgate_core::app::{AppError, Phone, SpotterDesk};
use liftgate_core::journal::Journal;
use liftgate_core::record::{Body, Entry, Moment};
use liftgate_core::view::{
    Block, Control, Document, Edge, PlotFingers, PlotPhase, Screen, Tapped, Turn, Work, Wrote,
};
use tempfile::TempDir;

/// What the phone hands over of a document at a time, bytes.
const PIECE: u64 = 1 << 20;

/// A person with a phone, a clock of their own, and a journal in a folder that goes with them.
pub struct Person {
    /// The opened app.
    pub phone: Phone,
    /// Now.
    pub now: Moment,
    /// Whether the app is killed after every touch and every typed word, and must come back as it was.
    pub killed_at_every_step: bool,
    /// Touches so far.
    pub touches: usize,
    /// Words and numbers typed so far.
    pub typed_values: usize,
    journal: PathBuf,
    // Goes with the person; none where the journal is somebody else's.
    _folder: Option<TempDir>,
}

impl Person {
    /// A person with a new phone.
    pub fn new() -> Person {
        let folder = tempfile::tempdir().expect("a folder for the journal");
        let person = Person::at(folder.path().join("journal.db"));
        Person { _folder: Some(folder), ..person }
    }

    /// A person whose journal is in this file.
    pub fn at(journal: PathBuf) -> Person {
        let wall = DateTime::<FixedOffset>::parse_from_rfc3339("2026-03-07T10:00:00+01:00").expect("a date");
        let now = Moment { wall, monotonic_ms: 1_000, boot: "first".to_owned() };
        let phone = Phone::open(&journal, &now).expect("a journal");
        Person { phone, now, killed_at_every_step: false, touches: 0, typed_values: 0, journal, _folder: None }
    }

    /// A person with a copy of a journal file that was closed.
    pub fn with(file: &[u8], now: Moment) -> Person {
        let folder = tempfile::tempdir().expect("a folder for the journal");
        let journal = folder.path().join("journal.db");
        std::fs::write(&journal, file).expect("a copy of the journal");
        let phone = Phone::open(&journal, &now).expect("a journal");
        Person {
            phone,
            now,
            killed_at_every_step: false,
            touches: 0,
            typed_values: 0,
            journal,
            _folder: Some(folder),
        }
    }

    /// Where the journal is.
    pub fn journal(&self) -> PathBuf {
        self.journal.clone()
    }

    /// Lets time pass on both clocks.
    pub fn wait(&mut self, seconds: i64) {
        self.now.wall += Duration::seconds(seconds);
        self.now.monotonic_ms += seconds * 1_000;
    }

    /// The app is killed and opened anew: what its files hold at this moment is all that is left of it.
    pub fn killed(&mut self) {
        let left = Files::of(&self.journal);
        // A process takes its lock along; one that lives on here has to give it up, and whatever it writes then is undone.
        self.phone.close().expect("a journal that closes");
        left.put_at(&self.journal);
        self.phone = Phone::open(&self.journal, &self.now).expect("the journal opens again");
    }

    /// The app is killed and opened anew, and whoever has the phone sees what they saw.
    pub fn killed_and_the_same(&mut self) {
        match self.phone.turn().expect("a turn") {
            Turn::Pilot => {
                let before = self.screen();
                self.killed();
                assert_eq!(self.screen(), before, "the screen after the app was killed");
            }
            Turn::Spotter => {
                let before = self.spotter().screen(&self.now).expect("the spotter's screen");
                self.killed();
                let after = self.spotter().screen(&self.now).expect("the spotter's screen");
                assert_eq!(after, before, "the spotter's screen after the app was killed");
            }
        }
    }

    /// What is on the screen.
    pub fn screen(&self) -> Screen {
        self.phone.pilot().and_then(|pilot| pilot.screen(&self.now)).expect("a screen")
    }

    /// The spotter's handle.
    pub fn spotter(&self) -> SpotterDesk {
        self.phone.spotter().expect("the spotter has the phone")
    }

    /// All controls on the screen, with the words that a person sees on each.
    pub fn controls(&self) -> Vec<(String, Control)> {
        controls(&self.screen())
    }

    /// The control with these words, or the first that begins with them.
    pub fn control(&self, words: &str) -> Option<Control> {
        let controls = self.controls();
        let exact = controls.iter().find(|(label, _)| label == words);
        exact
            .or_else(|| controls.iter().find(|(label, _)| label.starts_with(words)))
            .map(|(_, control)| control.clone())
    }

    /// Touches the first control whose words begin like this.
    pub fn try_tap(&mut self, words: &str) -> Result<Tapped, AppError> {
        let Some(control) = self.control(words) else {
            let controls = self.controls();
            let seen: Vec<&str> = controls.iter().map(|(label, _)| label.as_str()).collect();
            panic!("there is no '{words}' on '{}', but {seen:?}", self.screen().title);
        };
        self.try_touch(&control)
    }

    /// Touches this control, where others have the same words.
    pub fn touch(&mut self, control: &Control) -> Tapped {
        match self.try_touch(control) {
            Ok(tapped) => tapped,
            Err(error) => panic!("'{}' was refused: {error}", control.spoken),
        }
    }

    fn try_touch(&mut self, control: &Control) -> Result<Tapped, AppError> {
        assert!(control.enabled, "'{}' is closed: {:?}\n{}", control.label, control.why_not, self.words());
        self.wait(2);
        self.touches += 1;
        let tapped = self.phone.pilot()?.tap(&control.token, &self.now)?;
        if self.killed_at_every_step {
            self.killed_and_the_same();
        }
        Ok(tapped)
    }

    /// Touches it, and it works.
    pub fn tap(&mut self, words: &str) -> Tapped {
        match self.try_tap(words) {
            Ok(tapped) => tapped,
            Err(error) => panic!("'{words}' was refused: {error}"),
        }
    }

    /// Touches a control that wants a document, and picks this one in the phone's picker.
    pub fn try_pick(&mut self, words: &str, name: &str, bytes: &[u8]) -> Result<Tapped, AppError> {
        self.pick_from(words, name, Some(bytes.len() as u64), &mut &bytes[..])
    }

    /// The same with a document that is never in memory as a whole; its length is told where the phone would know it.
    pub fn pick_from(
        &mut self,
        words: &str,
        name: &str,
        length: Option<u64>,
        from: &mut dyn Read,
    ) -> Result<Tapped, AppError> {
        let control = self.control(words).unwrap_or_else(|| panic!("there is no '{words}'"));
        assert!(
            matches!(control.document, Some(Document::Pick { .. } | Document::Take)),
            "'{words}' wants no document"
        );
        self.wait(2);
        let pilot = self.phone.pilot()?;
        let mut tapped = pilot.picked(&control.token, name, length, &self.now)?;
        let mut piece = Vec::with_capacity(PIECE as usize);
        while tapped.screen.work == Some(Work::Feed) {
            piece.clear();
            from.take(PIECE).read_to_end(&mut piece).expect("a document that can be read");
            tapped = pilot.fed(Some(&piece), &self.now)?;
        }
        if self.killed_at_every_step {
            self.killed_and_the_same();
        }
        Ok(tapped)
    }

    /// Picks it, and it is taken.
    pub fn pick(&mut self, words: &str, name: &str, bytes: &[u8]) -> Tapped {
        self.try_pick(words, name, bytes).unwrap_or_else(|error| panic!("'{name}' was refused: {error}"))
    }

    /// Picks a backup, and waits until it is checked.
    pub fn bring_in(&mut self, name: &str, backup: &[u8]) -> Screen {
        self.pick("Bring a backup in", name, backup);
        self.until_done()
    }

    /// Waits, as a person does, while the phone goes on by itself with what takes its time.
    pub fn until_done(&self) -> Screen {
        let mut screen = self.screen();
        while let Some(Work::Touch { token }) = screen.work {
            screen = self.phone.pilot().and_then(|pilot| pilot.tap(&token, &self.now)).expect("a step").screen;
        }
        screen
    }

    /// Goes to the page of the backup.
    pub fn to_the_backup(&mut self) {
        self.home();
        self.tap("Backup");
    }

    /// Goes there and saves one.
    pub fn backup(&mut self) -> Vec<u8> {
        self.to_the_backup();
        self.save("Save a backup")
    }

    /// Touches a control that offers a document, says where it goes, and gets what is written there.
    pub fn save(&mut self, words: &str) -> Vec<u8> {
        let mut begun = self.begin_saving(words);
        let mut written = Vec::new();
        while begun.screen.work == Some(Work::Write) {
            let pilot = self.phone.pilot().expect("the pilot has the phone");
            let piece = pilot.piece().expect("a piece of it");
            written.extend(piece.into_iter().flatten());
            begun = pilot.wrote(Wrote::Kept, &self.now).expect("it is taken as written");
        }
        assert!(begun.said.is_some(), "what was saved is said: {:?}", begun.screen);
        assert!(begun.screen.undo.is_none(), "taking back would seem to mean what was saved: {:?}", begun.screen);
        written
    }

    /// The same up to the moment at which the phone asks for the first piece.
    pub fn begin_saving(&mut self, words: &str) -> Tapped {
        let control = self.control(words).unwrap_or_else(|| panic!("there is no '{words}'"));
        let Some(Document::Save { name, .. }) = &control.document else { panic!("'{words}' offers no document") };
        self.wait(2);
        let pilot = self.phone.pilot().expect("the pilot has the phone");
        pilot.saving(&control.token, name, &self.now).expect("a document")
    }

    /// Goes to the dossier by its own page and saves it.
    pub fn dossier(&mut self) -> String {
        self.home();
        let german = self.control("Aircraft").is_none();
        for words in if german { ["Modell", "Der Nachweis"] } else { ["Aircraft", "The dossier"] } {
            self.tap(words);
        }
        let page = self.save(if german { "Den Nachweis sichern" } else { "Save the dossier" });
        String::from_utf8(page).expect("a page of text")
    }

    /// Touches it, and is told why not.
    pub fn refused(&mut self, words: &str) -> String {
        match self.try_tap(words) {
            Ok(_) => panic!("'{words}' was taken"),
            Err(refused @ (AppError::Refused { .. } | AppError::Log { .. })) => refused.to_string(),
            Err(other) => panic!("'{words}' failed: {other}"),
        }
    }

    /// Finds it closed for what is flagged at a field, and returns what the core says where a shell would touch it all the same.
    pub fn closed(&mut self, words: &str) -> String {
        let control = self.control(words).unwrap_or_else(|| panic!("there is no '{words}': {}", self.words()));
        assert!(!control.enabled, "'{words}' looks live");
        assert_eq!(
            control.why_not.as_deref(),
            Some("Put the number right first"),
            "the reason is said at the field alone"
        );
        let pilot = self.phone.pilot().expect("the pilot has the phone");
        pilot.tap(&control.token, &self.now).expect_err("the core holds the line too").to_string()
    }

    /// Does this with the fingers on the plot in view, and sees the plot as it is then.
    pub fn fingers(&mut self, phase: PlotPhase, middle: f32, spread: f32, shift: f32) -> Block {
        let screen = self.screen();
        let token = screen.blocks.iter().find_map(|block| match block {
            Block::Plot { token, .. } => Some(token.clone()),
            _ => None,
        });
        let token = token.unwrap_or_else(|| panic!("there is no plot on '{}'", screen.title));
        let pilot = self.phone.pilot().expect("the pilot has the phone");
        pilot.fingers(&token, &PlotFingers { phase, middle, spread, shift }).expect("a plot")
    }

    /// Types into the field with this label.
    pub fn enter(&mut self, label: &str, text: &str) {
        let Some(field) = self.field(label) else {
            panic!("there is no field '{label}' on '{}'", self.screen().title)
        };
        self.typed_values += 1;
        self.phone.pilot().and_then(|pilot| pilot.edit(&field, text, &self.now)).expect("a field keeps its text");
        if self.killed_at_every_step {
            self.killed_and_the_same();
        }
    }

    /// The field with this label, if the screen has it.
    pub fn field(&self, label: &str) -> Option<String> {
        self.screen().blocks.iter().find_map(|block| match block {
            Block::Entry { field, label: words, .. } | Block::Stepper { field, label: words, .. }
                if words == label =>
            {
                Some(field.clone())
            }
            _ => None,
        })
    }

    /// What stands in the field with this label, and what is flagged about it.
    pub fn typed(&self, label: &str) -> (String, Option<String>) {
        let screen = self.screen();
        let found = screen.blocks.iter().find_map(|block| match block {
            Block::Entry { label: words, text, flag, .. } if words == label => Some((text.clone(), flag.clone())),
            Block::Stepper { label: words, value, flag, .. } if words == label => Some((value.clone(), flag.clone())),
            _ => None,
        });
        found.unwrap_or_else(|| panic!("there is no field '{label}' on '{}'", screen.title))
    }

    /// A figure on the screen: its value, and what stands beside it.
    pub fn figure(&self, label: &str) -> Option<(String, Option<String>)> {
        self.screen().blocks.iter().find_map(|block| match block {
            Block::Figure { label: words, value, note, .. } if words == label => Some((value.clone(), note.clone())),
            _ => None,
        })
    }

    /// How the row with this title stands.
    pub fn row(&self, title: &str) -> Option<(Edge, String, Option<String>)> {
        self.screen().blocks.iter().find_map(|block| match block {
            Block::Row { edge, state, title: words, detail, .. } if words == title => {
                Some((*edge, state.clone(), detail.clone()))
            }
            _ => None,
        })
    }

    /// What can be chosen under a label.
    pub fn choices(&self, of: &str) -> Vec<String> {
        let chosen = self.screen().blocks.into_iter().find_map(|block| match block {
            Block::Choice { label, options } if label == of => Some(options),
            _ => None,
        });
        chosen.unwrap_or_default().into_iter().map(|option| option.label).collect()
    }

    /// The sentence in large type.
    pub fn verdict(&self) -> String {
        let screen = self.screen();
        let found = screen.blocks.iter().find_map(|block| match block {
            Block::Verdict { text, .. } => Some(text.clone()),
            _ => None,
        });
        found.unwrap_or_else(|| panic!("there is no verdict on '{}'", screen.title))
    }

    /// Titles and texts of the cautions on the screen.
    pub fn cautions(&self) -> Vec<String> {
        let blocks = self.screen().blocks;
        let cautions = blocks.iter().filter_map(|block| match block {
            Block::Caution { title, text } => Some(format!("{title}. {text}")),
            _ => None,
        });
        cautions.collect()
    }

    /// Goes to the board, from wherever.
    pub fn home(&mut self) {
        while self.screen().back.is_some() {
            self.tap("Back");
        }
    }

    /// Goes to a check through its stage.
    pub fn go_to(&mut self, stage: &str, check: &str) {
        self.home();
        self.tap(stage);
        self.tap(check);
    }

    /// All words on the screen, for looking through.
    pub fn words(&self) -> String {
        format!("{:#?}", self.screen())
    }

    /// What the files hold, read from a copy: the journal itself is open.
    pub fn entries(&self) -> Vec<Entry> {
        let copy = Files::of(&self.journal);
        Journal::open(&copy.database()).and_then(|journal| journal.entries()).expect("the entries")
    }

    /// The last entry in the file.
    pub fn last(&self) -> Body {
        self.entries().pop().expect("an entry").body
    }
}

/// What a journal's files hold at a moment: the database, and the log beside it that a killed app leaves. A copy on disk, since a
/// journal may be longer than the memory that a test allows.
struct Files {
    folder: TempDir,
}

impl Files {
    fn of(journal: &Path) -> Files {
        let files = Files { folder: tempfile::tempdir().expect("a folder for a copy") };
        copy(journal, &files.database());
        files
    }

    fn database(&self) -> PathBuf {
        self.folder.path().join("journal.db")
    }

    fn put_at(&self, journal: &Path) {
        let _ = std::fs::remove_file(beside(journal, "-shm"));
        copy(&self.database(), journal);
    }
}

/// The database and the log beside it; where there is no log, none is left at the other place.
fn copy(from: &Path, to: &Path) {
    std::fs::copy(from, to).expect("the journal's file");
    let (log, copied) = (beside(from, "-wal"), beside(to, "-wal"));
    if log.exists() {
        std::fs::copy(log, copied).expect("the journal's log");
    } else {
        let _ = std::fs::remove_file(copied);
    }
}

fn beside(journal: &Path, end: &str) -> PathBuf {
    PathBuf::from(format!("{}{end}", journal.display()))
}

impl Default for Person {
    fn default() -> Self {
        Person::new()
    }
}

/// All controls of a screen with their words, in the order in which they stand.
pub fn controls(screen: &Screen) -> Vec<(String, Control)> {
    let mut found = Vec::new();
    for block in &screen.blocks {
        match block {
            Block::Row { title, control: Some(control), .. } => found.push((title.clone(), control.clone())),
            Block::Choice { options, .. } => found.extend(options.iter().map(|o| (o.label.clone(), o.clone()))),
            Block::Stepper { label, less, more, .. } => {
                found.push((format!("{label} less"), less.clone()));
                found.push((format!("{label} more"), more.clone()));
            }
            Block::Plot { actions, .. } => found.extend(actions.iter().map(|a| (a.label.clone(), a.clone()))),
            _ => {}
        }
    }
    let fixed = screen.foot.iter().chain(&screen.undo).chain(&screen.back);
    found.extend(fixed.map(|control| (control.label.clone(), control.clone())));
    found
}
