//! The aircraft's papers: which are good, which end soon, and which are over.

use chrono::NaiveDate;

use super::ledger::Ledger;
use super::reason::Reason;
use crate::aircraft::Aircraft;
use crate::plan::{Check, Subject};
use crate::record::{Moment, Thing, ThingKind};

/// A paper that ends within so many days is told (common practice, no source).
const TOLD_DAYS: i64 = 30;

/// How a paper stands on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PaperIs {
    /// Good, without an end.
    WithoutEnd,
    /// Good, and not to end soon.
    Good,
    /// Good, and soon no more.
    EndsSoon {
        /// Days after this one on which it is good.
        days: i64,
    },
    /// Good no more.
    Over,
}

impl PaperIs {
    /// Whether it is told before the next flight: it ends soon, or is over.
    pub fn is_told(self) -> bool {
        match self {
            PaperIs::EndsSoon { .. } | PaperIs::Over => true,
            PaperIs::WithoutEnd | PaperIs::Good => false,
        }
    }
}

impl Ledger {
    /// The papers by name, each as it stands at a moment.
    pub fn papers(&self, now: &Moment) -> Vec<(&Thing, PaperIs)> {
        let day = self.clock.day(now);
        self.aircraft.things_of(ThingKind::Paper).map(|paper| (paper, of(paper, day))).collect()
    }
}

fn of(paper: &Thing, day: NaiveDate) -> PaperIs {
    let Some(last_day) = paper.last_day else { return PaperIs::WithoutEnd };
    match last_day.signed_duration_since(day).num_days() {
        days if days < 0 => PaperIs::Over,
        days if days <= TOLD_DAYS => PaperIs::EndsSoon { days },
        _ => PaperIs::Good,
    }
}

/// The papers that a check rests on and that are over on a day.
pub(super) fn over(aircraft: &Aircraft, check: &Check, day: NaiveDate) -> Vec<Reason> {
    let ended = dated(aircraft, check).filter(|(paper, _)| of(paper, day) == PaperIs::Over);
    ended.map(|(paper, last_day)| Reason::PaperOver { paper: paper.name.clone(), last_day }).collect()
}

/// The papers that a check rests on and that have an end, each with its last day.
pub(super) fn dated<'a>(aircraft: &'a Aircraft, check: &Check) -> impl Iterator<Item = (&'a Thing, NaiveDate)> {
    let rests = check.rests_on.contains(&Subject::Papers);
    let papers = rests.then(|| aircraft.things_of(ThingKind::Paper)).into_iter().flatten();
    papers.filter_map(|paper| Some((paper, paper.last_day?)))
}
