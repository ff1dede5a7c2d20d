//! The screens' values as other languages see them: the core's own types, declared to UniFFI field by field.
//!
//! The compiler holds these declarations against the core's types, so a field added there stops the build here.

use liftgate_core::drawing::{Anchor, Ink, LabelSize, Picture, PictureLabel, Point, Stroke};
use liftgate_core::record::MarkKind;
use liftgate_core::view::{
    Block, Control, Document, Edge, Icon, Keyboard, MarkButton, PlotFingers, PlotPhase, PlotReading, Screen,
    SpotterAct, SpotterClock, SpotterControl, SpotterLock, SpotterScreen, Tapped, TimeCall, Token, Tone, Turn,
    Weight, Work, Wrote,
};

uniffi::custom_type!(Token, String, {
    remote,
    lower: |token| token.as_str().to_owned(),
    try_lift: |text| Ok(Token::from_shell(text)),
});

#[uniffi::remote(Record)]
pub struct Screen {
    pub name: String,
    pub title: String,
    pub above: Option<String>,
    pub back: Option<Control>,
    pub blocks: Vec<Block>,
    pub foot: Vec<Control>,
    pub undo: Option<Control>,
    pub work: Option<Work>,
}

#[uniffi::remote(Enum)]
pub enum Work {
    Feed,
    Write,
    Touch { token: Token },
}

#[uniffi::remote(Enum)]
pub enum Wrote {
    Kept,
    NoRoom,
    Gone,
}

#[uniffi::remote(Enum)]
pub enum Block {
    Verdict {
        text: String,
        detail: Option<String>,
        edge: Edge,
    },
    Heading {
        text: String,
        note: Option<String>,
    },
    Paragraph {
        text: String,
        tone: Tone,
    },
    Caution {
        title: String,
        text: String,
    },
    Row {
        edge: Edge,
        state: String,
        title: String,
        detail: Option<String>,
        control: Option<Control>,
    },
    Figure {
        label: String,
        value: String,
        unit: String,
        note: Option<String>,
        edge: Edge,
    },
    Stepper {
        field: String,
        label: String,
        value: String,
        unit: String,
        less: Control,
        more: Control,
        flag: Option<String>,
        hint: Option<String>,
    },
    Choice {
        label: String,
        options: Vec<Control>,
    },
    Entry {
        field: String,
        label: String,
        text: String,
        unit: Option<String>,
        keyboard: Keyboard,
        hint: Option<String>,
        flag: Option<String>,
    },
    CodePad {
        label: String,
        hint: Option<String>,
        done: String,
        hidden: bool,
        enabled: bool,
    },
    Drawing {
        picture: Picture,
    },
    Photo {
        jpeg: Vec<u8>,
        spoken: String,
    },
    Plot {
        token: Token,
        title: String,
        readings: Vec<PlotReading>,
        picture: Picture,
        actions: Vec<Control>,
        spoken: String,
    },
}

#[uniffi::remote(Record)]
pub struct PlotReading {
    pub label: String,
    pub value: String,
    pub unit: String,
}

#[uniffi::remote(Record)]
pub struct PlotFingers {
    pub phase: PlotPhase,
    pub middle: f32,
    pub spread: f32,
    pub shift: f32,
}

#[uniffi::remote(Enum)]
pub enum PlotPhase {
    Down,
    Move,
    Up,
    Tap,
}

#[uniffi::remote(Record)]
pub struct Control {
    pub token: Token,
    pub label: String,
    pub detail: Option<String>,
    pub icon: Icon,
    pub weight: Weight,
    pub enabled: bool,
    pub why_not: Option<String>,
    pub chosen: bool,
    pub spoken: String,
    #[uniffi(default = None)]
    pub document: Option<Document>,
}

#[uniffi::remote(Enum)]
pub enum Document {
    Pick { media_types: Vec<String> },
    Take,
    Save { name: String, media_type: String },
}

#[uniffi::remote(Enum)]
pub enum Edge {
    None,
    Fresh,
    Stale,
    Missing,
    Caution,
    Stop,
}

#[uniffi::remote(Enum)]
pub enum Tone {
    Plain,
    Quiet,
    Strong,
    Call,
}

#[uniffi::remote(Enum)]
pub enum Keyboard {
    Words,
    Name,
    Whole,
    Decimal,
}

#[uniffi::remote(Enum)]
pub enum Weight {
    Primary,
    Plain,
    Quiet,
    Field,
}

#[uniffi::remote(Enum)]
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

#[uniffi::remote(Record)]
pub struct Picture {
    pub width: f32,
    pub height: f32,
    pub strokes: Vec<Stroke>,
    pub labels: Vec<PictureLabel>,
    pub spoken: String,
}

#[uniffi::remote(Record)]
pub struct Stroke {
    pub points: Vec<Point>,
    pub ink: Ink,
    pub width: f32,
    pub dashed: bool,
    pub closed: bool,
    pub filled: bool,
}

#[uniffi::remote(Record)]
pub struct Point {
    pub x: f32,
    pub y: f32,
}

#[uniffi::remote(Enum)]
pub enum Ink {
    Strong,
    Quiet,
    Limit,
    Action,
}

#[uniffi::remote(Record)]
pub struct PictureLabel {
    pub x: f32,
    pub y: f32,
    pub text: String,
    pub ink: Ink,
    pub size: LabelSize,
    pub anchor: Anchor,
}

#[uniffi::remote(Enum)]
pub enum LabelSize {
    Small,
    Large,
}

#[uniffi::remote(Enum)]
pub enum Anchor {
    Start,
    Middle,
    End,
}

#[uniffi::remote(Record)]
pub struct Tapped {
    pub screen: Screen,
    pub turn: Turn,
    pub said: Option<String>,
    pub language: String,
}

#[uniffi::remote(Enum)]
pub enum Turn {
    Pilot,
    Spotter,
}

#[uniffi::remote(Record)]
pub struct SpotterScreen {
    pub aircraft: String,
    pub title: String,
    pub phase: String,
    pub clock: SpotterClock,
    pub calls: Vec<TimeCall>,
    pub main: SpotterControl,
    pub second: Option<SpotterControl>,
    pub marks: Vec<MarkButton>,
    pub log: Vec<String>,
    pub limits: Vec<String>,
    pub knock_off: Vec<String>,
    pub undo: Option<SpotterControl>,
    pub lock: Option<SpotterLock>,
}

#[uniffi::remote(Record)]
pub struct SpotterLock {
    pub pad: Block,
    pub without: SpotterControl,
    pub without_note: Option<String>,
    pub counting: bool,
}

#[uniffi::remote(Record)]
pub struct SpotterClock {
    pub running: bool,
    pub elapsed_ms: i64,
    pub planned_s: i64,
    pub label: String,
}

#[uniffi::remote(Record)]
pub struct TimeCall {
    pub at_s: i64,
    pub words: String,
}

#[uniffi::remote(Record)]
pub struct SpotterControl {
    pub act: SpotterAct,
    pub label: String,
    pub icon: Icon,
    pub hold_ms: u32,
}

#[uniffi::remote(Enum)]
pub enum SpotterAct {
    Start,
    Land,
    Resume,
    HandBack,
    EnterCode,
    WaitWithoutCode,
    Unmark,
}

#[uniffi::remote(Record)]
pub struct MarkButton {
    pub kind: MarkKind,
    pub label: String,
    pub icon: Icon,
    pub count: u32,
    pub enabled: bool,
}

#[uniffi::remote(Enum)]
pub enum MarkKind {
    Shake,
    Sound,
    Tail,
    Drift,
    Power,
    Smell,
    Alarm,
    Other,
}
