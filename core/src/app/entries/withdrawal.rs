//! What was a slip: withdrawn, or put back.

use super::gate::release;
use crate::app::AppError;
use crate::app::done::{After, Done, Result, one};
use crate::app::shared::Shared;
use crate::form::{Drafts, WithdrawalForm};
use crate::journal::NewEntry;
use crate::locale::say;
use crate::readiness::{is_bare, may_be_withdrawn};
use crate::record::{Body, Entry, EntryId, Moment};
use crate::view::{self, Place};

/// Where the pilot is afterwards. What is typed on another page than the entry's own is about something else.
fn after(place: &Place, entry: EntryId) -> After {
    if *place == Place::Entry(entry) { After::Stay } else { After::Keep }
}

pub(super) fn withdraw(shared: &Shared, entry: EntryId, place: &Place, drafts: Drafts<'_>, now: &Moment) -> Result {
    let Some(found) = Entry::by_id(&shared.entries, entry) else {
        return Err(AppError::refused(say!(shared.locale(), "app-entry-unknown")));
    };
    if !may_be_withdrawn(found) {
        return Err(AppError::refused(say!(shared.locale(), "app-flight-not-withdrawn")));
    }
    if matches!(found.body, Body::AircraftBegun { .. }) && !is_bare(found, &shared.entries) {
        return Err(AppError::refused(say!(shared.locale(), "app-aircraft-not-bare")));
    }
    let is_its_page = *place == Place::Entry(entry);
    let form = WithdrawalForm(if is_its_page { drafts } else { Drafts::none(shared.locale()) });
    let is_slip = shared.ledger.withdrawals.would_be_slip(entry, now);
    let reason = if is_slip { form.reason() } else { form.required_reason()? };
    let said = say!(
        shared.locale(),
        "app-withdrawn",
        entry = view::entry_words(shared.locale(), &shared.plan, &shared.entries, found)
    );
    one(Body::Withdrawn { entry, reason }, said, after(place, entry))
}

/// Takes the releases of one touch back with one touch.
pub(super) fn withdraw_releases(shared: &Shared, last: EntryId, now: &Moment) -> Result {
    let together = shared.ledger.withdrawals.released_together();
    if together.last() != Some(&last) || !shared.ledger.withdrawals.would_be_slip(last, now) {
        return Err(AppError::refused(say!(shared.locale(), "app-entry-unknown")));
    }
    let reason = say!(shared.locale(), "app-taken-back");
    let body = |entry: &EntryId| Body::Withdrawn { entry: *entry, reason: reason.clone() };
    let entries: Vec<NewEntry> = together.iter().map(|entry| NewEntry::pilot(body(entry))).collect();
    let released = say!(shared.locale(), "app-gates-released", count = entries.len());
    Ok(Done { entries, said: say!(shared.locale(), "app-withdrawn", entry = released), after: After::Keep })
}

/// The taking back was the slip: the same is recorded once more. A gate is released once more only if it may be.
pub(super) fn put_back(shared: &Shared, entry: EntryId, now: &Moment) -> Result {
    let taken_back = shared.ledger.withdrawals.taken_back_just_now(now).filter(|taken_back| *taken_back == entry);
    let found = taken_back.and_then(|id| Entry::by_id(&shared.entries, id));
    let found = found.ok_or_else(|| AppError::refused(say!(shared.locale(), "app-too-long-ago")))?;
    if let Body::GateReleased { stage, .. } = &found.body {
        // Its cautions were read when it was released, and nothing came in between.
        return release(shared, stage, true, now).map(|done| Done { after: After::Keep, ..done });
    }
    let said = say!(
        shared.locale(),
        "app-put-back",
        entry = view::entry_words(shared.locale(), &shared.plan, &shared.entries, found)
    );
    one(found.body.clone(), said, After::Keep)
}
