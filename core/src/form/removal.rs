//! The form of a thing that is gone: what a finding of stop grade is about is not made right by taking it off the list.

use super::person::required_other;
use super::words::says_something;
use super::{Drafts, Refusal, Result};
use crate::aircraft::Aircraft;
use crate::locale::say;
use crate::plan::{Check, Plan, Subject};
use crate::readiness::{Finding, FindingState, Ledger};
use crate::record::{FindingGrade, ThingKind};

/// A thing about to be taken off the list.
#[derive(Clone, Copy)]
pub struct RemovalForm<'a> {
    drafts: Drafts<'a>,
    aircraft: &'a Aircraft,
    stop: Option<(&'a Finding, &'a Check)>,
}

impl<'a> RemovalForm<'a> {
    /// The field of what took its place.
    pub const INSTEAD: &'static str = "instead";
    /// The field of the second person's name.
    pub const WITNESS: &'static str = "witness";

    /// The form of a thing of this kind.
    pub fn new(drafts: Drafts<'a>, plan: &'a Plan, ledger: &'a Ledger, kind: ThingKind) -> Self {
        let subject = Subject::parse(kind.subject());
        let stop = ledger.findings.iter().find_map(|finding| {
            let is_open =
                finding.grade == FindingGrade::Stop && !matches!(finding.state, FindingState::Proven { .. });
            let (_, proof) = plan.check(&finding.proof).filter(|_| is_open)?;
            let is_about = subject.as_ref().is_some_and(|subject| proof.rests_on.contains(subject));
            is_about.then_some((finding, proof))
        });
        RemovalForm { drafts, aircraft: &ledger.aircraft, stop }
    }

    /// The finding of stop grade that things of this kind are about, where there is one.
    pub fn stop(&self) -> Option<&'a Finding> {
        self.stop.map(|(finding, _)| finding)
    }

    /// Whether a second person has to have seen it.
    pub fn wants_witness(&self) -> bool {
        self.stop.is_some_and(|(_, proof)| proof.witness)
    }

    /// What took its place; none where no stop is about it.
    ///
    /// # Errors
    /// Empty, or too little to tell anybody anything.
    pub fn instead(&self) -> Result<Option<String>> {
        let Some((finding, _)) = self.stop else { return Ok(None) };
        let locale = self.drafts.locale();
        match self.drafts.text(Self::INSTEAD) {
            Some(words) if says_something(words) => Ok(Some(words.to_owned())),
            _ => Err(Refusal::of(Self::INSTEAD, say!(locale, "app-what-instead", finding = finding.title))),
        }
    }

    /// Who saw it; none where nobody has to.
    ///
    /// # Errors
    /// Nobody is named, and the check that proves the fix wants a second person; or it is the pilot or the builder.
    pub fn witness(&self) -> Result<Option<String>> {
        let label = say!(self.drafts.locale(), "check-witness");
        if !self.wants_witness() {
            return Ok(None);
        }
        required_other(self.drafts, self.aircraft, Self::WITNESS, &label).map(|name| Some(name.to_owned()))
    }
}
