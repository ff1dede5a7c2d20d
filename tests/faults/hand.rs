//! A hand on the phone that goes on where the phone says that something failed: every touch gives back what came of it.

use std::path::Path;

use chrono::{DateTime, Duration, FixedOffset};
use liftgate_core::app::{AppError, Phone};
use liftgate_core::record::Moment;
use liftgate_core::view::{Block, Document, Screen, Tapped, Work, Wrote};
use liftgate_tests::controls;

/// A hand on the phone, and its clock.
pub struct Hand {
    pub phone: Phone,
    pub now: Moment,
}

/// A day in March.
pub fn a_day() -> Moment {
    let wall = DateTime::<FixedOffset>::parse_from_rfc3339("2026-03-07T10:00:00+01:00").expect("a date");
    Moment { wall, monotonic_ms: 1_000, boot: "first".to_owned() }
}

impl Hand {
    pub fn open(journal: &Path, now: &Moment) -> Result<Hand, AppError> {
        Ok(Hand { phone: Phone::open(journal, now)?, now: now.clone() })
    }

    pub fn screen(&self) -> Result<Screen, AppError> {
        self.phone.pilot()?.screen(&self.now)
    }

    pub fn wait(&mut self, seconds: i64) {
        self.now.wall += Duration::seconds(seconds);
        self.now.monotonic_ms += seconds * 1_000;
    }

    /// Touches the control whose words begin like this, of those the one with these words alone.
    pub fn tap(&mut self, words: &str) -> Result<Tapped, AppError> {
        self.wait(2);
        let controls = controls(&self.screen()?);
        let exact = controls.iter().find(|(label, _)| label == words);
        let found = exact.or_else(|| controls.iter().find(|(label, _)| label.starts_with(words)));
        let Some((_, control)) = found else {
            let seen: Vec<&str> = controls.iter().map(|(label, _)| label.as_str()).collect();
            return Err(AppError::Refused { field: None, reason: format!("there is no '{words}' but {seen:?}") });
        };
        match &control.document {
            Some(Document::Save { name, .. }) => self.phone.pilot()?.saving(&control.token, name, &self.now),
            Some(Document::Pick { .. } | Document::Take) => {
                self.phone.pilot()?.picked(&control.token, "it.zip", None, &self.now)
            }
            None => self.phone.pilot()?.tap(&control.token, &self.now),
        }
    }

    pub fn taps(&mut self, all: &[&str]) -> Result<(), AppError> {
        all.iter().try_for_each(|words| self.tap(words).map(drop))
    }

    pub fn home(&mut self) -> Result<(), AppError> {
        while self.screen()?.back.is_some() {
            self.tap("Back")?;
        }
        Ok(())
    }

    pub fn enter(&mut self, label: &str, text: &str) -> Result<(), AppError> {
        let field = self.screen()?.blocks.iter().find_map(|block| match block {
            Block::Entry { field, label: words, .. } | Block::Stepper { field, label: words, .. }
                if words == label =>
            {
                Some(field.clone())
            }
            _ => None,
        });
        let field = field.unwrap_or_else(|| panic!("there is no field '{label}'"));
        self.phone.pilot()?.edit(&field, text, &self.now)
    }

    /// Picks a document for the control with these words, and waits while the phone goes on by itself.
    pub fn pick(&mut self, words: &str, bytes: &[u8]) -> Result<Screen, AppError> {
        let mut tapped = self.tap(words)?;
        for piece in bytes.chunks(1 << 20).chain([&[][..]]) {
            if tapped.screen.work == Some(Work::Feed) {
                tapped = self.phone.pilot()?.fed(Some(piece), &self.now)?;
            }
        }
        self.until_done()
    }

    pub fn until_done(&mut self) -> Result<Screen, AppError> {
        let mut screen = self.screen()?;
        while let Some(Work::Touch { token }) = screen.work {
            screen = self.phone.pilot()?.tap(&token, &self.now)?.screen;
        }
        Ok(screen)
    }

    /// Touches a control that offers a document, and gets what is written; none where the phone does not say that it is there.
    pub fn save(&mut self, words: &str) -> Result<Option<Vec<u8>>, AppError> {
        let mut tapped = self.tap(words)?;
        let mut written = Vec::new();
        while tapped.screen.work == Some(Work::Write) {
            written.extend(self.phone.pilot()?.piece()?.into_iter().flatten());
            tapped = self.phone.pilot()?.wrote(Wrote::Kept, &self.now)?;
        }
        Ok(tapped.said.map(|_| written))
    }

    /// Records whom to call.
    pub fn note(&mut self, call: &str) -> Result<(), AppError> {
        self.go_to_the_note(call)?;
        self.tap("Record number and address").map(drop)
    }

    /// The same up to the touch that records it.
    pub fn go_to_the_note(&mut self, call: &str) -> Result<(), AppError> {
        self.home()?;
        self.tap("Fire or accident")?;
        self.enter("Number to call", call)?;
        self.enter("Address of the site, and the way in", "Am Moor 3")
    }

    pub fn go_to_the_backup(&mut self) -> Result<(), AppError> {
        self.home()?;
        self.tap("Backup").map(drop)
    }
}
