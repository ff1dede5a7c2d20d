//! Findings: raised, fixed, carried.

use super::author::pilots_name;
use super::wanted::wanted;
use crate::app::AppError;
use crate::app::done::{After, Result, one};
use crate::app::shared::Shared;
use crate::computed::proposal;
use crate::form::{CarryForm, Drafts, FixForm, NewFindingForm};
use crate::locale::say;
use crate::readiness::FindingState;
use crate::record::{Body, EntryId, FindingGrade, Moment};
use crate::view::{self, Place};

pub(super) fn raise(shared: &Shared, place: &Place, drafts: Drafts<'_>) -> Result {
    let Place::NewFinding { shown_by, proof } = place else {
        return Err(AppError::refused(say!(shared.locale(), "app-finding-from")));
    };
    let (stage, _) = wanted(shared, proof)?;
    let form = NewFindingForm(drafts);
    let (title, grade) = (form.title()?.to_owned(), form.grade());
    let said = say!(shared.locale(), "app-finding-raised", title = title);
    let body = Body::FindingRaised {
        title,
        grade,
        stage: stage.to_owned(),
        proof: proof.clone(),
        shown_by: *shown_by,
        proposed_from: None,
    };
    one(body, said, After::Instead(Place::Findings))
}

pub(super) fn fix(shared: &Shared, finding: EntryId, drafts: Drafts<'_>) -> Result {
    let Some(found) = shared.ledger.finding(finding) else {
        return Err(AppError::refused(say!(shared.locale(), "app-finding-gone")));
    };
    let form = FixForm(drafts);
    let (what, subjects) = (form.what()?.to_owned(), form.subjects().touched());
    let said = say!(shared.locale(), "app-fix-recorded", check = view::check_title(&shared.plan, &found.proof));
    one(Body::FindingFixed { finding, what, subjects }, said, After::Stay)
}

pub(super) fn carry(shared: &Shared, finding: EntryId, drafts: Drafts<'_>, now: &Moment) -> Result {
    match shared.ledger.finding(finding) {
        Some(found) if found.grade == FindingGrade::Stop => {
            return Err(AppError::refused(say!(shared.locale(), "app-stop-not-carried")));
        }
        Some(found) if matches!(found.state, FindingState::Proven { .. }) => {
            return Err(AppError::refused(say!(shared.locale(), "app-finding-proven")));
        }
        Some(found) if found.grade == FindingGrade::Note => {
            return Err(AppError::refused(say!(shared.locale(), "app-note-not-carried")));
        }
        Some(_) => {}
        None => return Err(AppError::refused(say!(shared.locale(), "app-finding-gone"))),
    }
    let form = CarryForm(drafts);
    let (restriction, reason) = (form.restriction()?.to_owned(), form.reason()?.to_owned());
    let until = form.until(now)?;
    let by = pilots_name(shared);
    one(
        Body::FindingCarried { finding, restriction, reason, by, until },
        say!(shared.locale(), "app-carried"),
        After::Stay,
    )
}

/// Raises the finding that a flight proposes: one touch, with what will prove the fix.
pub(super) fn raise_proposed(shared: &Shared, card: EntryId) -> Result {
    let flight =
        shared.ledger.flight(card).ok_or_else(|| AppError::refused(say!(shared.locale(), "log-flight-gone")))?;
    let nothing = || AppError::refused(say!(shared.locale(), "log-all-as-predicted"));
    let proposal = proposal(shared.facts(), flight).ok_or_else(nothing)?;
    let (stage, _) = shared.plan.check(&flight.check).ok_or_else(nothing)?;
    let title = view::proposal_title(shared.locale(), &shared.plan, flight, &proposal);
    let body = Body::FindingRaised {
        title: title.clone(),
        grade: FindingGrade::Caution,
        stage: stage.id.clone(),
        proof: flight.check.clone(),
        shown_by: Some(proposal.shown_by),
        proposed_from: Some(proposal.outlier()),
    };
    one(body, say!(shared.locale(), "log-finding-raised", title = title), After::Stay)
}
