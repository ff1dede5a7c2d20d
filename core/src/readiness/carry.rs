//! What a finding holds shut, and for how long it may still be carried.

use super::finding::{Finding, FindingState};
use super::ledger::Ledger;
use crate::record::{FindingGrade, Moment, Until};

/// Why a finding cannot be carried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotCarried {
    /// A stop holds until it is proven.
    Stop,
    /// It is proven already.
    Proven,
    /// A note holds nothing shut.
    Note,
    /// It is carried already, and the time for that is not over.
    Carried,
}

impl Finding {
    /// What keeps it from being carried, if anything does.
    pub fn not_carried(&self, ledger: &Ledger, now: &Moment) -> Option<NotCarried> {
        match (self.grade, &self.state) {
            (FindingGrade::Stop, _) => Some(NotCarried::Stop),
            (_, FindingState::Proven { .. }) => Some(NotCarried::Proven),
            (FindingGrade::Note, _) => Some(NotCarried::Note),
            (FindingGrade::Caution, FindingState::Carried { .. }) if !self.carry_over(ledger, now) => {
                Some(NotCarried::Carried)
            }
            (FindingGrade::Caution, _) => None,
        }
    }

    /// Whether it holds anything shut at that moment.
    pub fn blocks(&self, ledger: &Ledger, now: &Moment) -> bool {
        if self.grade == FindingGrade::Note {
            return false;
        }
        match &self.state {
            FindingState::Open | FindingState::Fixed { .. } => true,
            FindingState::Proven { .. } => false,
            FindingState::Carried { .. } => self.carry_over(ledger, now),
        }
    }

    /// Motor runs for which it may still be carried, where it is carried by runs.
    pub fn runs_left(&self, ledger: &Ledger) -> Option<u32> {
        match &self.state {
            FindingState::Carried { until: Until::Flights(flights), runs, .. } => {
                Some(flights.saturating_sub(ledger.runs.saturating_sub(*runs)))
            }
            _ => None,
        }
    }

    /// Whether it is carried and the time for that is over.
    pub fn carry_over(&self, ledger: &Ledger, now: &Moment) -> bool {
        match &self.state {
            FindingState::Carried { until: Until::Flights(flights), runs, .. } => {
                ledger.runs.saturating_sub(*runs) >= *flights
            }
            FindingState::Carried { until: Until::Date(last), .. } => self.ran_out || ledger.clock.day(now) > *last,
            _ => false,
        }
    }
}
