//! What a screen is made of: plain values that a thin shell lays out and that tests read.
//!
//! A shell never looks inside a [`Control::token`] and never decides on a domain value: text, state, order and
//! what may be touched are settled here.

use super::token::Token;
use crate::drawing::Picture;

/// One whole screen, from its title to the controls within the thumb's reach.
#[derive(Debug, Clone, PartialEq)]
pub struct Screen {
    /// A stable word for the kind of screen, for tests and picture names; not for branching.
    pub name: String,
    /// The screen's title.
    pub title: String,
    /// A small line above the title: where this screen belongs.
    pub above: Option<String>,
    /// Leaves this screen; absent on the board.
    pub back: Option<Control>,
    /// What is scrolled, from top to bottom.
    pub blocks: Vec<Block>,
    /// Fixed at the bottom; the first is the one the person most likely wants.
    pub foot: Vec<Control>,
    /// Withdraws the last thing recorded, in one tap.
    pub undo: Option<Control>,
    /// Something takes longer than a touch: what the shell does once this screen is shown, for as long as there is such.
    pub work: Option<Work>,
}

/// What a shell does without the person, to go on with what takes long. Whatever is touched meanwhile comes in between.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Work {
    /// Hands over the next piece of the document that was picked.
    Feed,
    /// Asks for the next piece of the document that is being saved, writes it to where the person said, and says how that went.
    Write,
    /// Gives this token back, as if it were touched.
    Touch {
        /// What to give back.
        token: Token,
    },
}

/// What became of a piece of a document that a shell was to write.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wrote {
    /// It is written; after the last one, the document is closed.
    Kept,
    /// There is no room for it.
    NoRoom,
    /// The place is no longer there, or takes nothing.
    Gone,
}

/// One block of a screen.
// A screen has some dozens of these and is read once: boxes would only be in the way of whoever matches on them.
#[allow(clippy::large_enum_variant)]
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// The screen's answer as a sentence, in the largest type.
    Verdict {
        /// The sentence.
        text: String,
        /// What qualifies it.
        detail: Option<String>,
        /// Its grade, told by shape.
        edge: Edge,
    },
    /// Opens a group of blocks.
    Heading {
        /// The group's name.
        text: String,
        /// A count or a condition beside it.
        note: Option<String>,
    },
    /// Running text.
    Paragraph {
        /// The text.
        text: String,
        /// How loud it is.
        tone: Tone,
    },
    /// Something that can hurt a person.
    Caution {
        /// What to do, in a few words.
        title: String,
        /// Why, and what else.
        text: String,
    },
    /// One line of evidence, a finding, a part: the whole row is touched where it has a control.
    Row {
        /// State by shape.
        edge: Edge,
        /// State by word.
        state: String,
        /// What the row is about.
        title: String,
        /// More about it.
        detail: Option<String>,
        /// Where a touch leads.
        control: Option<Control>,
    },
    /// One number, large, with its unit beside it.
    Figure {
        /// What the number is.
        label: String,
        /// The number as read by a person.
        value: String,
        /// Its unit, empty for a bare number.
        unit: String,
        /// Basis, margin or limit.
        note: Option<String>,
        /// Its grade by shape.
        edge: Edge,
    },
    /// A number set by steps from its last value.
    Stepper {
        /// Name of the field for typed input.
        field: String,
        /// What the number is.
        label: String,
        /// The number now, empty where none is set.
        value: String,
        /// Its unit.
        unit: String,
        /// One step down.
        less: Control,
        /// One step up.
        more: Control,
        /// Something odd about the value, which never blocks.
        flag: Option<String>,
        /// The last value or the plausible range.
        hint: Option<String>,
    },
    /// One of a few.
    Choice {
        /// What is chosen.
        label: String,
        /// The choices; `chosen` marks the one in force.
        options: Vec<Control>,
    },
    /// A typed field.
    Entry {
        /// Name of the field.
        field: String,
        /// What to type.
        label: String,
        /// What is there now.
        text: String,
        /// Unit beside the field.
        unit: Option<String>,
        /// Which keys are wanted.
        keyboard: Keyboard,
        /// An example or a range.
        hint: Option<String>,
        /// Something wrong with what is there.
        flag: Option<String>,
    },
    /// Keys for a code, large enough for gloves. What is typed stays in the shell until it is done, and is kept nowhere.
    CodePad {
        /// What code.
        label: String,
        /// What to type, or why it cannot be typed now.
        hint: Option<String>,
        /// The words on the key that is touched last.
        done: String,
        /// Whether each digit shows as a dot.
        hidden: bool,
        /// Whether the keys can be touched now.
        enabled: bool,
    },
    /// A line drawing.
    Drawing {
        /// The lines and words.
        picture: Picture,
    },
    /// A photo, as small as a screen needs it.
    Photo {
        /// It, as a JPEG file.
        jpeg: Vec<u8>,
        /// What it is of, in words.
        spoken: String,
    },
    /// Lines over time, moved by fingers: two stretch it, one draws it along, a touch puts the cursor there.
    Plot {
        /// Goes back with each report of what the fingers did.
        token: Token,
        /// The stretch of time in view, or the cursor's moment.
        title: String,
        /// The value of each line at the cursor, or its range where there is none.
        readings: Vec<PlotReading>,
        /// The lines, with limits and cursor.
        picture: Picture,
        /// The same moves as controls, for buttons and for a screen reader.
        actions: Vec<Control>,
        /// All of it in words, said when it changes by a control.
        spoken: String,
    },
}

/// A value of a plot's line.
#[derive(Debug, Clone, PartialEq)]
pub struct PlotReading {
    /// Which line.
    pub label: String,
    /// The value as read by a person.
    pub value: String,
    /// Its unit.
    pub unit: String,
}

/// What fingers did on a plot since the last report, as shares of the drawing's width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlotFingers {
    /// What kind of report it is.
    pub phase: PlotPhase,
    /// Where the fingers' middle is, from the left.
    pub middle: f32,
    /// How many times as far apart they are; 1 for one finger.
    pub spread: f32,
    /// How far their middle went to the right.
    pub shift: f32,
}

/// A part of a movement of fingers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlotPhase {
    /// They came down.
    Down,
    /// They moved.
    Move,
    /// They are gone.
    Up,
    /// One came down and was gone at once.
    Tap,
}

/// Something that can be touched.
#[derive(Debug, Clone, PartialEq)]
pub struct Control {
    /// What a touch means; opaque to a shell.
    pub token: Token,
    /// The words on it.
    pub label: String,
    /// A second, quieter line.
    pub detail: Option<String>,
    /// The sign beside the words.
    pub icon: Icon,
    /// How much it wants to be touched.
    pub weight: Weight,
    /// Whether it can be touched now.
    pub enabled: bool,
    /// Why it cannot be touched.
    pub why_not: Option<String>,
    /// Whether it is the one in force among its neighbours.
    pub chosen: bool,
    /// What a screen reader says, with the unit.
    pub spoken: String,
    /// A document that goes along with the touch, by way of the phone's own picker or camera app.
    pub document: Option<Document>,
}

/// A document that a control asks for or offers. The shell opens the phone's picker or camera app; the core gets or gives the bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Document {
    /// The person picks one. Its name goes back with the control's token, its bytes follow in pieces: [`Work::Feed`].
    Pick {
        /// Media types that the picker offers; the first is the likeliest.
        media_types: Vec<String>,
    },
    /// The person takes a photo with the phone's own camera app. It goes on as a picked one does, its file held by nobody else.
    Take,
    /// The person says where one goes. Its name goes back with the control's token, its bytes are asked for in pieces: [`Work::Write`].
    Save {
        /// The name to begin with.
        name: String,
        /// Its media type.
        media_type: String,
    },
}

impl Control {
    /// A plain control that can be touched.
    pub fn new(token: Token, label: impl Into<String>) -> Self {
        let label = label.into();
        Self {
            token,
            spoken: label.clone(),
            label,
            detail: None,
            icon: Icon::None,
            weight: Weight::Plain,
            enabled: true,
            why_not: None,
            chosen: false,
            document: None,
        }
    }

    /// Lets a document go along with the touch.
    pub fn document(mut self, document: Document) -> Self {
        self.document = Some(document);
        self
    }

    /// The control that the person most likely wants.
    pub fn primary(token: Token, label: impl Into<String>) -> Self {
        Self { weight: Weight::Primary, ..Self::new(token, label) }
    }

    /// Adds a sign.
    pub fn icon(mut self, icon: Icon) -> Self {
        self.icon = icon;
        self
    }

    /// Sets how much it wants to be touched.
    pub fn weight(mut self, weight: Weight) -> Self {
        self.weight = weight;
        self
    }

    /// Adds a quieter line.
    pub fn detail(mut self, detail: impl Into<String>) -> Self {
        let detail = detail.into();
        if self.spoken == self.label {
            self.spoken = format!("{}. {detail}", self.label);
        }
        self.detail = Some(detail);
        self
    }

    /// Says it otherwise than it is written.
    pub fn spoken(mut self, spoken: impl Into<String>) -> Self {
        self.spoken = spoken.into();
        self
    }

    /// Marks it as the one in force.
    pub fn chosen(mut self, chosen: bool) -> Self {
        self.chosen = chosen;
        self
    }

    /// Closes it, with the reason, unless `reason` is none.
    pub fn unless(mut self, reason: Option<String>) -> Self {
        self.enabled = reason.is_none();
        self.why_not = reason;
        self
    }
}

/// The bar at a row's leading side. Each has a shape of its own, so that colour is never needed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Edge {
    /// No bar.
    #[default]
    None,
    /// Solid: evidence that stands.
    Fresh,
    /// Hatched: evidence that no longer stands.
    Stale,
    /// Hollow: nothing recorded.
    Missing,
    /// Dashed: look before going on.
    Caution,
    /// Notched: not past this.
    Stop,
}

/// How loud a paragraph is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// As text.
    Plain,
    /// Smaller, for what qualifies.
    Quiet,
    /// Heavier, for what must be read.
    Strong,
    /// Large, for what is called out at arm's length.
    Call,
}

/// Which keys a typed field wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keyboard {
    /// Sentences.
    Words,
    /// A name.
    Name,
    /// A whole number.
    Whole,
    /// A number with decimals, negative allowed.
    Decimal,
}

/// How much a control wants to be touched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// The pilot's own action, once a screen.
    Primary,
    /// An ordinary action.
    Plain,
    /// There if looked for.
    Quiet,
    /// Used outdoors with a glove: at least 120 dp high.
    Field,
}

/// A sign beside a control's words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Icon {
    None,
    Back,
    Next,
    Add,
    Remove,
    Tick,
    Cross,
    Undo,
    Play,
    Stop,
    Hand,
    Flag,
    Thermometer,
    Pack,
    Scale,
    Rotor,
    Warning,
    List,
    Pencil,
    Shake,
    Sound,
    Tail,
    Drift,
    Power,
    Smell,
    Other,
    Book,
    Lock,
}

/// What came of a touch.
#[derive(Debug, Clone, PartialEq)]
pub struct Tapped {
    /// What to show now.
    pub screen: Screen,
    /// Who holds the phone now.
    pub turn: Turn,
    /// What was recorded, in a short sentence.
    pub said: Option<String>,
    /// The tag of the language that the screen is in (BCP 47): a touch can change it.
    pub language: String,
}

/// Who holds the phone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turn {
    /// The pilot: everything.
    Pilot,
    /// The spotter: the card that was handed over and nothing else.
    Spotter,
}

/// What the spotter sees.
#[derive(Debug, Clone, PartialEq)]
pub struct SpotterScreen {
    /// The aircraft's name.
    pub aircraft: String,
    /// What is flown.
    pub title: String,
    /// Where the flight stands, in a few words.
    pub phase: String,
    /// The flight's clock.
    pub clock: SpotterClock,
    /// What to say aloud and when.
    pub calls: Vec<TimeCall>,
    /// The one large control.
    pub main: SpotterControl,
    /// A second, smaller control.
    pub second: Option<SpotterControl>,
    /// What can be noted with one touch.
    pub marks: Vec<MarkButton>,
    /// What was noted so far, newest first.
    pub log: Vec<String>,
    /// Limits of this card.
    pub limits: Vec<String>,
    /// When to call it off.
    pub knock_off: Vec<String>,
    /// Takes the last mark back.
    pub undo: Option<SpotterControl>,
    /// What the phone wants before it goes back to the pilot, where the pilot set a code and the motor is off.
    pub lock: Option<SpotterLock>,
}

/// The way back to the pilot's side, by code or by waiting.
#[derive(Debug, Clone, PartialEq)]
pub struct SpotterLock {
    /// The keys: [`Block::CodePad`].
    pub pad: Block,
    /// The way without the code.
    pub without: SpotterControl,
    /// How that stands.
    pub without_note: Option<String>,
    /// Whether something counts down: a shell asks again every second.
    pub counting: bool,
}

/// The flight's clock as it stood at the moment that was asked about.
#[derive(Debug, Clone, PartialEq)]
pub struct SpotterClock {
    /// Whether it runs on.
    pub running: bool,
    /// Milliseconds since the motor was started.
    pub elapsed_ms: i64,
    /// Planned seconds.
    pub planned_s: i64,
    /// What the clock counts, in words.
    pub label: String,
}

/// Words to say at a time of the flight.
#[derive(Debug, Clone, PartialEq)]
pub struct TimeCall {
    /// Seconds since the start.
    pub at_s: i64,
    /// The words.
    pub words: String,
}

/// A control of the spotter's.
#[derive(Debug, Clone, PartialEq)]
pub struct SpotterControl {
    /// What it does.
    pub act: SpotterAct,
    /// The words on it.
    pub label: String,
    /// The sign on it.
    pub icon: Icon,
    /// How long a finger has to rest on it, milliseconds; 0 where a touch is enough.
    pub hold_ms: u32,
}

/// All that a spotter can do besides marking.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SpotterAct {
    /// Starts the clock with the motor.
    Start,
    /// Touchdown.
    Land,
    /// Takes a touchdown back that was touched by mistake.
    Resume,
    /// Gives the phone back to the pilot.
    HandBack,
    /// Shows the keys for the pilot's code.
    EnterCode,
    /// Begins the wait after which the phone opens without the code.
    WaitWithoutCode,
    /// Takes the last mark back.
    Unmark,
}

/// One thing that can be noted in flight.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkButton {
    /// What was seen or heard.
    pub kind: crate::record::MarkKind,
    /// The word on it.
    pub label: String,
    /// The sign on it.
    pub icon: Icon,
    /// How often it was noted.
    pub count: u32,
    /// Whether it can be noted now.
    pub enabled: bool,
}
