//! Forms of one sentence each: an explanation, a reason, a remark.

use super::words::required_words;
use super::{Drafts, Refusal, Result};
use crate::locale::say;
use crate::record::EntryId;

/// Why a flight was not as predicted.
#[derive(Clone, Copy)]
pub struct ExplanationForm<'a>(pub Drafts<'a>);

impl<'a> ExplanationForm<'a> {
    /// Its field.
    pub const WHY: &'static str = "why";

    /// The explanation: a sentence.
    ///
    /// # Errors
    /// Empty, or too little to tell anybody anything.
    pub fn why(&self) -> Result<&'a str> {
        required_words(self.0, Self::WHY, &say!(self.0.locale(), "app-label-explanation"))
    }
}

/// What a mark was, where there was nothing to it. Each mark has a field of its own.
#[derive(Clone, Copy)]
pub struct MarkAnswerForm<'a> {
    drafts: Drafts<'a>,
    mark: EntryId,
}

impl<'a> MarkAnswerForm<'a> {
    /// The form of one mark, by the entry that noted it.
    pub fn new(drafts: Drafts<'a>, mark: EntryId) -> Self {
        MarkAnswerForm { drafts, mark }
    }

    /// Its field.
    pub fn field(&self) -> String {
        format!("answer:{}", self.mark.0)
    }

    /// Whether something was typed.
    pub fn is_typed(&self) -> bool {
        self.drafts.text(&self.field()).is_some()
    }

    /// What it was.
    ///
    /// # Errors
    /// Empty.
    pub fn words(&self) -> Result<&'a str> {
        self.drafts.required(&self.field(), &say!(self.drafts.locale(), "app-label-mark-answer"))
    }
}

/// Why nothing will be jotted down of a landing.
#[derive(Clone, Copy)]
pub struct WaiverForm<'a>(pub Drafts<'a>);

impl<'a> WaiverForm<'a> {
    /// Its field.
    pub const REASON: &'static str = "waiver";

    /// The reason.
    ///
    /// # Errors
    /// Empty, or too little to tell anybody anything.
    pub fn reason(&self) -> Result<&'a str> {
        required_words(self.0, Self::REASON, &say!(self.0.locale(), "app-label-waiver"))
    }
}

/// Why an entry is withdrawn.
#[derive(Clone, Copy)]
pub struct WithdrawalForm<'a>(pub Drafts<'a>);

impl WithdrawalForm<'_> {
    /// Its field.
    pub const REASON: &'static str = "reason";

    /// The reason; that it was taken back, where none was typed.
    pub fn reason(&self) -> String {
        self.0.text(Self::REASON).map_or_else(|| say!(self.0.locale(), "app-taken-back"), str::to_owned)
    }

    /// The reason, where what is withdrawn is no slip of a moment ago.
    ///
    /// # Errors
    /// None was typed.
    pub fn required_reason(&self) -> Result<String> {
        let why = || Refusal::of(Self::REASON, say!(self.0.locale(), "app-withdrawal-why"));
        self.0.text(Self::REASON).map(str::to_owned).ok_or_else(why)
    }
}

/// What is remarkable about something that happened.
#[derive(Clone, Copy)]
pub struct EventForm<'a>(pub Drafts<'a>);

impl<'a> EventForm<'a> {
    /// Its field.
    pub const NOTE: &'static str = "note";

    /// The remark.
    pub fn note(&self) -> Option<&'a str> {
        self.0.text(Self::NOTE)
    }
}
