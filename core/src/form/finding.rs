//! The forms of a finding: raised, fixed, carried.

use chrono::TimeDelta;

use super::words::says_something;
use super::{Drafts, Refusal, Result, SubjectsForm};
use crate::locale::say;
use crate::readiness::Standing;
use crate::record::{FindingGrade, Moment, Until};
use crate::unit::Unit;

/// A finding about to be raised.
#[derive(Clone, Copy)]
pub struct NewFindingForm<'a> {
    drafts: Drafts<'a>,
    /// How the check stands that is to prove its fix.
    standing: &'a Standing,
}

impl<'a> NewFindingForm<'a> {
    /// The field of what is wrong.
    pub const TITLE: &'static str = "title";
    /// The field of how bad it is: [`FindingGrade::id`].
    pub const GRADE: &'static str = "grade";

    /// The form of a finding whose fix is proved by a check that stands like this.
    pub fn new(drafts: Drafts<'a>, standing: &'a Standing) -> Self {
        NewFindingForm { drafts, standing }
    }

    /// What is wrong.
    ///
    /// # Errors
    /// Empty.
    pub fn title(&self) -> Result<&'a str> {
        self.drafts.required(Self::TITLE, &say!(self.drafts.locale(), "app-label-wrong"))
    }

    /// How bad it is. Until something is chosen a stop where the check stopped, and a caution elsewhere.
    pub fn grade(&self) -> FindingGrade {
        let chosen = self.drafts.text(Self::GRADE);
        let first = match self.standing {
            Standing::Failed { .. } => FindingGrade::Stop,
            _ => FindingGrade::Caution,
        };
        FindingGrade::ALL.into_iter().find(|grade| chosen == Some(grade.id())).unwrap_or(first)
    }
}

/// A finding's fix.
#[derive(Clone, Copy)]
pub struct FixForm<'a>(pub Drafts<'a>);

impl<'a> FixForm<'a> {
    /// The field of what was done.
    pub const WHAT: &'static str = "what";

    /// Whether it is said what was done.
    pub fn is_said(&self) -> bool {
        self.0.text(Self::WHAT).is_some()
    }

    /// What was done. Of a stop, enough of it that another person can tell.
    ///
    /// # Errors
    /// Empty, or one word where a stop was mended.
    pub fn what(&self, grade: FindingGrade) -> Result<&'a str> {
        let what = self.0.required(Self::WHAT, &say!(self.0.locale(), "app-label-done"))?;
        if grade == FindingGrade::Stop && !says_something(what) {
            return Err(Refusal::of(Self::WHAT, say!(self.0.locale(), "app-fix-says-nothing")));
        }
        Ok(what)
    }

    /// What it touched.
    pub fn subjects(&self) -> SubjectsForm<'a> {
        SubjectsForm(self.0)
    }
}

/// A finding that is flown with.
#[derive(Clone, Copy)]
pub struct CarryForm<'a>(pub Drafts<'a>);

impl<'a> CarryForm<'a> {
    /// The field of the restriction.
    pub const RESTRICTION: &'static str = "restriction";
    /// The field of why it may be carried.
    pub const REASON: &'static str = "reason";
    /// The field of how many motor runs.
    pub const RUNS: &'static str = "flights";
    /// The field of how many days instead.
    pub const DAYS: &'static str = "days";
    /// Motor runs that it may be carried for, inclusive.
    pub const RUNS_RANGE: (f64, f64) = (1.0, 50.0);
    /// Days that it may be carried for, inclusive.
    pub const DAYS_RANGE: (f64, f64) = (1.0, 120.0);
    /// Motor runs unless another number is entered.
    const RUNS_USUAL: f64 = 5.0;

    /// The runs that it is carried for where nobody types any: none once days are typed.
    pub fn runs_usual(&self) -> Option<f64> {
        self.0.text(Self::DAYS).is_none().then_some(Self::RUNS_USUAL)
    }

    /// What is shown on every card until then.
    ///
    /// # Errors
    /// Empty.
    pub fn restriction(&self) -> Result<&'a str> {
        self.0.required(Self::RESTRICTION, &say!(self.0.locale(), "app-label-restriction"))
    }

    /// Why it may be carried.
    ///
    /// # Errors
    /// Empty.
    pub fn reason(&self) -> Result<&'a str> {
        self.0.required(Self::REASON, &say!(self.0.locale(), "app-label-reason"))
    }

    /// For how long.
    ///
    /// # Errors
    /// No number, out of range, or runs and days both.
    pub fn until(&self, now: &Moment) -> Result<Until> {
        let locale = self.0.locale();
        let runs = self.0.number(Self::RUNS, &say!(locale, "app-label-runs"), Unit::Count, Self::RUNS_RANGE)?;
        let days = self.0.number(Self::DAYS, &say!(locale, "app-label-days"), Unit::Count, Self::DAYS_RANGE)?;
        match (runs, days) {
            (Some(_), Some(_)) => Err(Refusal::of(Self::DAYS, say!(locale, "app-carry-both"))),
            (None, Some(days)) => Ok(Until::Date(now.wall.date_naive() + TimeDelta::days(days.round() as i64))),
            (runs, None) => Ok(Until::Flights(runs.unwrap_or(Self::RUNS_USUAL).round() as u32)),
        }
    }
}
