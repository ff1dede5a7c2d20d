//! A person at the phone, for stories: looks for words on the screen and touches what carries them.

use chrono::{DateTime, Duration, FixedOffset};
use liftgate_core::desk::{DeskError, Phone};
use liftgate_core::record::Moment;
use liftgate_core::view::{Block, Control, Screen, Tapped};
use tempfile::TempDir;

/// A person with a phone, a clock of their own, and a journal in a folder that goes with them.
pub struct Person {
    /// The opened app.
    pub phone: Phone,
    /// Now.
    pub now: Moment,
    folder: TempDir,
}

impl Person {
    /// A person with a new phone.
    pub fn new() -> Person {
        let folder = tempfile::tempdir().expect("a folder for the journal");
        let wall = DateTime::<FixedOffset>::parse_from_rfc3339("2026-03-07T10:00:00+01:00").expect("a date");
        let now = Moment { wall, monotonic_ms: 1_000, boot: "first".to_owned() };
        let phone = Phone::open(&folder.path().join("journal.db"), &now).expect("a new journal");
        Person { phone, now, folder }
    }

    /// Where the journal is.
    pub fn journal(&self) -> std::path::PathBuf {
        self.folder.path().join("journal.db")
    }

    /// Lets time pass on both clocks.
    pub fn wait(&mut self, seconds: i64) {
        self.now.wall += Duration::seconds(seconds);
        self.now.monotonic_ms += seconds * 1_000;
    }

    /// The app is killed and opened anew; nothing is closed in between.
    pub fn killed(&mut self) {
        let again = Phone::open(&self.journal(), &self.now).expect("the journal opens again");
        self.phone = again;
    }

    /// What is on the screen.
    pub fn screen(&self) -> Screen {
        self.phone.pilot().and_then(|pilot| pilot.screen(&self.now)).expect("a screen")
    }

    /// All controls on the screen, with the words that a person sees on each.
    pub fn controls(&self) -> Vec<(String, Control)> {
        controls(&self.screen())
    }

    /// Touches the first control whose words begin like this.
    pub fn try_tap(&mut self, words: &str) -> Result<Tapped, DeskError> {
        let controls = self.controls();
        let found = controls
            .iter()
            .find(|(label, _)| label == words)
            .or_else(|| controls.iter().find(|(label, _)| label.starts_with(words)));
        let Some((_, control)) = found else {
            let seen: Vec<&str> = controls.iter().map(|(label, _)| label.as_str()).collect();
            panic!("there is no '{words}' on '{}', but {seen:?}", self.screen().title);
        };
        assert!(control.enabled, "'{words}' is closed: {:?}", control.why_not);
        self.wait(2);
        self.phone.pilot()?.tap(&control.token, &self.now)
    }

    /// Touches it, and it works.
    pub fn tap(&mut self, words: &str) -> Tapped {
        match self.try_tap(words) {
            Ok(tapped) => tapped,
            Err(error) => panic!("'{words}' was refused: {error}"),
        }
    }

    /// Types into the field with this label.
    pub fn enter(&mut self, label: &str, text: &str) {
        let screen = self.screen();
        let field = screen.blocks.iter().find_map(|block| match block {
            Block::Entry { field, label: words, .. } | Block::Stepper { field, label: words, .. } if words == label => {
                Some(field.clone())
            }
            _ => None,
        });
        let field = field.unwrap_or_else(|| panic!("there is no field '{label}' on '{}'", screen.title));
        self.phone.pilot().and_then(|pilot| pilot.edit(&field, text, &self.now)).expect("a field keeps its text");
    }

    /// Goes to the board, from wherever.
    pub fn home(&mut self) {
        while self.screen().back.is_some() {
            self.tap("Back");
        }
    }

    /// All words on the screen, for looking through.
    pub fn words(&self) -> String {
        format!("{:#?}", self.screen())
    }
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
            _ => {}
        }
    }
    let fixed = screen.foot.iter().chain(&screen.undo).chain(&screen.back);
    found.extend(fixed.map(|control| (control.label.clone(), control.clone())));
    found
}
