//! What was taken back, and what may be put back or taken back at once.

use std::collections::{BTreeMap, BTreeSet};

use crate::record::{Body, Entry, EntryId, Moment};

/// Minutes in which what was taken back can be put back. Later it would look fresher than it is: it is made anew then.
const PUT_BACK_MIN: i64 = 10;

/// How long after an entry its withdrawal is a slip of the finger, milliseconds. A slip is seen at once, on the sentence that says what
/// was recorded (common practice, no source).
const SLIP_MS: i64 = 60_000;

/// How long after an entry its withdrawal is offered on every page, milliseconds. Later nobody has the last touch in mind: the journal
/// withdraws it (common practice, no source).
const OFFERED_MS: i64 = 5 * 60_000;

/// Whether the withdrawal of what was made at a moment is still offered on every page.
pub fn is_offered(made: &Moment, now: &Moment) -> bool {
    now.elapsed_ms_since(made) < OFFERED_MS
}

/// Whether what was made at a moment was a slip where it is withdrawn at another, with nothing recorded in between. The wall clock is
/// not asked: it may have been set.
pub(super) fn is_slip(made: &Moment, withdrawn: &Moment) -> bool {
    made.boot == withdrawn.boot && withdrawn.surely_elapsed_ms_since(made) <= SLIP_MS
}

/// An entry's withdrawal.
#[derive(Debug, Clone, PartialEq)]
pub struct Withdrawal {
    /// The entry that withdraws it.
    pub by: EntryId,
    /// When.
    pub at: Moment,
    /// Why.
    pub reason: String,
    /// Whether it was a slip of the finger, taken back at once.
    pub is_slip: bool,
}

/// What was taken back, and the end of the journal as far as taking back asks for it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Withdrawals {
    of: BTreeMap<EntryId, Withdrawal>,
    /// The last entry.
    last: Option<(EntryId, Moment)>,
    /// The entry that the last one took back, with nothing in between, and when it had been made.
    taken_back: Option<(EntryId, Moment)>,
    /// The gates' releases at the journal's end that are of one moment.
    released_together: Vec<EntryId>,
}

impl Withdrawals {
    /// How an entry was withdrawn; none where it stands.
    pub fn of(&self, entry: EntryId) -> Option<&Withdrawal> {
        self.of.get(&entry)
    }

    /// Whether an entry was withdrawn.
    pub fn contains(&self, entry: EntryId) -> bool {
        self.of.contains_key(&entry)
    }

    /// The entry that the last one took back, with nothing in between and a moment ago.
    pub fn taken_back_just_now(&self, now: &Moment) -> Option<EntryId> {
        let (entry, made) = self.taken_back.as_ref()?;
        let fresh = now.elapsed_ms_since(made) < PUT_BACK_MIN * 60_000;
        let same_day = now.wall.date_naive() == made.wall.date_naive();
        (fresh && same_day).then_some(*entry)
    }

    /// Whether taking this entry back now takes a slip back: it is the last one, or one of several of the last touch, and not a minute old.
    pub fn would_be_slip(&self, entry: EntryId, now: &Moment) -> bool {
        let Some((last, at)) = &self.last else { return false };
        (*last == entry || self.released_together.contains(&entry)) && is_slip(at, now)
    }

    /// The releases at the journal's end that one touch made, oldest first: they are of one moment.
    pub fn released_together(&self) -> &[EntryId] {
        &self.released_together
    }

    /// Takes in what was withdrawn while another aircraft was in view. Here it was never the last touch, and nothing is put back.
    pub(super) fn withdrawn_elsewhere(&mut self, entry: &Entry, taken_back: EntryId, reason: &str) {
        let withdrawal = Withdrawal { by: entry.id, at: entry.at.clone(), reason: reason.to_owned(), is_slip: false };
        self.of.insert(taken_back, withdrawal);
    }

    /// Takes a withdrawal in.
    pub(super) fn withdrawn(&mut self, entry: &Entry, taken_back: EntryId, reason: &str) {
        let last = self.last.take().filter(|(last, _)| *last == taken_back);
        let is_slip = last.as_ref().is_some_and(|(_, made)| is_slip(made, &entry.at));
        let withdrawal = Withdrawal { by: entry.id, at: entry.at.clone(), reason: reason.to_owned(), is_slip };
        self.of.insert(taken_back, withdrawal);
        self.ends_with(entry);
        self.taken_back = last;
    }

    /// Takes a gate's release in.
    pub(super) fn released(&mut self, entry: &Entry) {
        let together = self.last.as_ref().is_some_and(|(_, at)| *at == entry.at);
        let before = std::mem::take(&mut self.released_together);
        self.ends_with(entry);
        self.released_together = if together { before } else { Vec::new() };
        self.released_together.push(entry.id);
    }

    /// The journal ends with this entry, which is neither of the two.
    pub(super) fn ends_with(&mut self, entry: &Entry) {
        self.taken_back = None;
        self.released_together.clear();
        match &mut self.last {
            // Field by field, so that the name of the phone's run is written where the last one's stands: this is done for every entry.
            Some((id, at)) => {
                *id = entry.id;
                at.wall = entry.at.wall;
                at.monotonic_ms = entry.at.monotonic_ms;
                at.boot.clone_from(&entry.at.boot);
            }
            None => self.last = Some((entry.id, entry.at.clone())),
        }
    }
}

/// The entries that others among them withdraw: they count as if they had never been made.
pub(crate) fn withdrawn_among(entries: &[Entry]) -> BTreeSet<EntryId> {
    let taken_back = |entry: &Entry| {
        let Body::Withdrawn { entry, .. } = &entry.body else { return None };
        Some(*entry)
    };
    entries.iter().filter_map(taken_back).collect()
}

/// Whether nothing but names stands of the aircraft that an entry began, which is then no more than a slip.
pub(crate) fn is_bare(begun: &Entry, entries: &[Entry]) -> bool {
    let withdrawn = withdrawn_among(entries);
    let is_its_own = |entry: &&Entry| entry.aircraft == begun.aircraft && !withdrawn.contains(&entry.id);
    entries.iter().filter(is_its_own).all(|entry| {
        matches!(entry.body, Body::AircraftBegun { .. } | Body::AircraftNamed { .. } | Body::Withdrawn { .. })
    })
}
