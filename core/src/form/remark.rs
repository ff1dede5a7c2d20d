//! Forms of one sentence each: an explanation, a reason, a remark.

use super::{Drafts, Result};
use crate::locale::say;

/// Why a flight was not as predicted.
#[derive(Clone, Copy)]
pub struct ExplanationForm<'a>(pub Drafts<'a>);

impl<'a> ExplanationForm<'a> {
    /// Its field.
    pub const WHY: &'static str = "why";

    /// The explanation.
    ///
    /// # Errors
    /// Empty.
    pub fn why(&self) -> Result<&'a str> {
        self.0.required(Self::WHY, &say!(self.0.locale(), "app-label-explanation"))
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
