//! The surface of the core for other languages. Nothing is decided here: every method carries its arguments in, its
//! answer out, and turns the core's errors into the few that a caller can act on.
//!
//! A phone has the handles and their screens. What the trade computes, and what is read from a log, can be called by itself only with
//! the feature `calculations`, which the outside checks set.

#[cfg(feature = "calculations")]
mod engineering;
mod error;
#[cfg(feature = "calculations")]
mod instrument;
mod moment;
mod screen;
#[cfg(feature = "calculations")]
mod telemetry;

use std::path::Path;
use std::sync::Arc;

use liftgate_core::app;
use liftgate_core::locale::Language;
use liftgate_core::record::MarkKind;
use liftgate_core::view::{Block, PlotFingers, Screen, SpotterScreen, Tapped, Token, Turn, Wrote};

pub use error::LiftgateError;
pub use moment::{Moment, Verified};

uniffi::setup_scaffolding!();

type Result<T> = std::result::Result<T, LiftgateError>;

/// The opened app: one journal file, one owner. Hold one for as long as the process lives.
#[derive(uniffi::Object)]
pub struct Liftgate {
    phone: app::Phone,
}

#[uniffi::export]
impl Liftgate {
    /// Opens the journal at `path`, or begins one there under the shipped plan. `language_tag` is the phone's own language
    /// (BCP 47, as `de-AT`), which the app speaks too until the person chooses another.
    #[uniffi::constructor(default(language_tag = "en"))]
    pub fn open(path: String, now: Moment, language_tag: String) -> Result<Arc<Liftgate>> {
        let language = Language::of_tag(&language_tag);
        let phone = app::Phone::open_on(Path::new(&path), language, &now.into_core()?)?;
        Ok(Arc::new(Liftgate { phone }))
    }

    /// Whose turn it is.
    pub fn turn(&self) -> Result<Turn> {
        Ok(self.phone.turn()?)
    }

    /// The phone was set to another language of its own while the app was open.
    pub fn phone_speaks(&self, language_tag: String) -> Result<()> {
        Ok(self.phone.phone_speaks(Language::of_tag(&language_tag))?)
    }

    /// The tag of the language that the screens are in: for the shell's own words, and for a voice.
    pub fn language_tag(&self) -> Result<String> {
        Ok(self.phone.locale()?.language.tag().to_owned())
    }

    /// The pilot's handle; refused while the spotter has the phone.
    pub fn pilot(&self) -> Result<Arc<PilotDesk>> {
        Ok(Arc::new(PilotDesk { desk: self.phone.pilot()? }))
    }

    /// The spotter's handle; refused while the pilot has the phone.
    pub fn spotter(&self) -> Result<Arc<SpotterDesk>> {
        Ok(Arc::new(SpotterDesk { desk: self.phone.spotter()? }))
    }

    /// Walks the chain of the journal: the number of entries and the head digest.
    pub fn verify(&self) -> Result<Verified> {
        Ok(self.phone.verify()?.into())
    }

    /// Closes the journal file.
    pub fn close_journal(&self) -> Result<()> {
        Ok(self.phone.close()?)
    }
}

/// What the pilot can do.
#[derive(uniffi::Object)]
pub struct PilotDesk {
    desk: app::PilotDesk,
}

#[uniffi::export]
impl PilotDesk {
    /// The screen that the pilot is on.
    pub fn screen(&self, now: Moment) -> Result<Screen> {
        Ok(self.desk.screen(&now.into_core()?)?)
    }

    /// Does what a control's token says.
    pub fn tap(&self, token: Token, now: Moment) -> Result<Tapped> {
        Ok(self.desk.tap(&token, &now.into_core()?)?)
    }

    /// Sets the code that the phone wants before it comes back from a spotter.
    pub fn set_code(&self, code: String, now: Moment) -> Result<Tapped> {
        Ok(self.desk.set_code(&code, &now.into_core()?)?)
    }

    /// Begins to hand over the document that the person picked for a control; its pieces follow.
    pub fn picked(&self, token: Token, name: String, length: Option<u64>, now: Moment) -> Result<Tapped> {
        Ok(self.desk.picked(&token, &name, length, &now.into_core()?)?)
    }

    /// Hands over the next piece of it: an empty one is its end, none means that it cannot be read on.
    pub fn fed(&self, piece: Option<Vec<u8>>, now: Moment) -> Result<Tapped> {
        Ok(self.desk.fed(piece.as_deref(), &now.into_core()?)?)
    }

    /// Begins to save the document that a control offers; its pieces are asked for.
    pub fn saving(&self, token: Token, name: String, now: Moment) -> Result<Tapped> {
        Ok(self.desk.saving(&token, &name, &now.into_core()?)?)
    }

    /// The next piece of it, empty while it is being made; none at its end.
    pub fn piece(&self) -> Result<Option<Vec<u8>>> {
        Ok(self.desk.piece()?)
    }

    /// Says what became of the last piece; after the end, of the whole.
    pub fn wrote(&self, how: Wrote, now: Moment) -> Result<Tapped> {
        Ok(self.desk.wrote(how, &now.into_core()?)?)
    }

    /// Hands over what fingers did on a plot; the plot as it is then.
    pub fn fingers(&self, token: Token, fingers: PlotFingers) -> Result<Block> {
        Ok(self.desk.fingers(&token, &fingers)?)
    }

    /// Keeps what was typed into a field of the screen in view.
    pub fn edit(&self, field: String, text: String, now: Moment) -> Result<()> {
        Ok(self.desk.edit(&field, &text, &now.into_core()?)?)
    }

    /// The same, and the screen as it is with it.
    pub fn typed(&self, field: String, text: String, now: Moment) -> Result<Screen> {
        Ok(self.desk.typed(&field, &text, &now.into_core()?)?)
    }
}

/// All that a spotter can do.
#[derive(uniffi::Object)]
pub struct SpotterDesk {
    desk: app::SpotterDesk,
}

#[uniffi::export]
impl SpotterDesk {
    /// The spotter's screen.
    pub fn screen(&self, now: Moment) -> Result<SpotterScreen> {
        Ok(self.desk.screen(&now.into_core()?)?)
    }

    /// The motor starts, and with it the clock.
    pub fn start(&self, now: Moment) -> Result<SpotterScreen> {
        Ok(self.desk.start(&now.into_core()?)?)
    }

    /// Something was seen or heard.
    pub fn mark(&self, mark: MarkKind, now: Moment) -> Result<SpotterScreen> {
        Ok(self.desk.mark(mark, &now.into_core()?)?)
    }

    /// The last mark was a slip of the finger.
    pub fn unmark(&self, now: Moment) -> Result<SpotterScreen> {
        Ok(self.desk.unmark(&now.into_core()?)?)
    }

    /// Down, motor off.
    pub fn land(&self, now: Moment) -> Result<SpotterScreen> {
        Ok(self.desk.land(&now.into_core()?)?)
    }

    /// The landing was touched by mistake.
    pub fn resume(&self, now: Moment) -> Result<SpotterScreen> {
        Ok(self.desk.resume(&now.into_core()?)?)
    }

    /// Gives the phone back where no code is wanted, or the wait without one is over.
    pub fn hand_back(&self, now: Moment) -> Result<()> {
        Ok(self.desk.hand_back(&now.into_core()?)?)
    }

    /// Gives the phone back to whoever knows the pilot's code.
    pub fn hand_back_with_code(&self, code: String, now: Moment) -> Result<()> {
        Ok(self.desk.hand_back_with_code(&code, &now.into_core()?)?)
    }

    /// Begins the wait after which the phone opens without the code.
    pub fn wait_without_code(&self, now: Moment) -> Result<SpotterScreen> {
        Ok(self.desk.wait_without_code(&now.into_core()?)?)
    }
}
