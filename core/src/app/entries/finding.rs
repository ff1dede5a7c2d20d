//! Findings: raised, fixed, carried.

use super::author::pilots_name;
use super::landing::{asked, landed};
use super::wanted::wanted;
use crate::app::AppError;
use crate::app::done::{After, Result, one};
use crate::app::shared::Shared;
use crate::computed::proposal;
use crate::engineering::disagreement::Lies;
use crate::field::{Flight, Unanswered};
use crate::form::{CarryForm, Drafts, FixForm, NewFindingForm};
use crate::locale::say;
use crate::readiness::NotCarried;
use crate::record::{Body, EntryId, FindingGrade, Judgement, Moment, Outlier};
use crate::view::{self, Place};

pub(super) fn raise(shared: &Shared, place: &Place, drafts: Drafts<'_>, now: &Moment) -> Result {
    let Place::NewFinding { shown_by, proof } = place else {
        return Err(AppError::refused(say!(shared.locale(), "app-finding-from")));
    };
    let (stage, _) = wanted(shared, proof)?;
    let standing = shared.report(now).standing(proof);
    let form = NewFindingForm::new(drafts, &standing);
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
    let (what, subjects) = (form.what(found.grade)?.to_owned(), form.subjects().touched());
    let said = say!(shared.locale(), "app-fix-recorded", check = view::check_title(&shared.plan, &found.proof));
    one(Body::FindingFixed { finding, what, subjects }, said, After::Stay)
}

pub(super) fn carry(shared: &Shared, finding: EntryId, drafts: Drafts<'_>, now: &Moment) -> Result {
    let locale = shared.locale();
    let Some(found) = shared.ledger.finding(finding) else {
        return Err(AppError::refused(say!(locale, "app-finding-gone")));
    };
    let refused = found.not_carried(&shared.ledger, now).map(|why| match why {
        NotCarried::Stop => say!(locale, "app-stop-not-carried"),
        NotCarried::Proven => say!(locale, "app-finding-proven"),
        NotCarried::Note => say!(locale, "app-note-not-carried"),
        NotCarried::Carried => say!(locale, "app-finding-carried"),
    });
    if let Some(why) = refused {
        return Err(AppError::refused(why));
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
    if let Some(there) = shared.ledger.raised_from(&flight.check, proposal.shown_by, &proposal.outlier(), &title) {
        return Err(AppError::refused(say!(shared.locale(), "log-finding-there", number = there.number)));
    }
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

/// A mark that is something becomes a finding in one touch. It holds its stage until it is seen to, at least as a caution.
pub(super) fn raise_mark(shared: &Shared, card: EntryId, mark: EntryId) -> Result {
    let locale = shared.locale();
    let flight = landed(shared, card)?;
    let alike = asked(shared, card, mark)?;
    let title = view::unanswered_words(locale, &shared.plan, &Unanswered::Marks(alike));
    shown(shared, flight, title, FindingGrade::Caution, mark, None)
}

/// A temperature past its stop becomes a finding of stop grade in one touch.
pub(super) fn raise_stop(shared: &Shared, card: EntryId, place: &str) -> Result {
    let locale = shared.locale();
    let gone = || AppError::refused(say!(locale, "app-reading-gone"));
    let flight = landed(shared, card)?;
    let landing = flight.landing.as_ref().ok_or_else(gone)?;
    let asked = flight.unanswered(&shared.plan);
    let stop = asked.iter().find(|what| matches!(what, Unanswered::Stop { place: hot, .. } if hot == place));
    let title = view::unanswered_words(locale, &shared.plan, stop.ok_or_else(gone)?);
    shown(shared, flight, title, FindingGrade::Stop, landing.entry, Some(Outlier::hot_place(place)))
}

/// A run that was not as it should be becomes a finding in one touch, in the pilot's words.
pub(super) fn raise_not_so(shared: &Shared, card: EntryId) -> Result {
    let gone = || AppError::refused(say!(shared.locale(), "app-reading-gone"));
    let flight = landed(shared, card)?;
    let landing = flight.landing.as_ref().ok_or_else(gone)?;
    let Judgement::NotSo { why } = &landing.judgement else { return Err(gone()) };
    shown(shared, flight, why.clone(), FindingGrade::Caution, landing.entry, None)
}

/// A charge far outside of its prediction becomes a finding in one touch.
pub(super) fn raise_charge(shared: &Shared, card: EntryId) -> Result {
    let locale = shared.locale();
    let gone = || AppError::refused(say!(locale, "app-reading-gone"));
    let flight = landed(shared, card)?;
    let landing = flight.landing.as_ref().ok_or_else(gone)?;
    let (used_mah, expected) = flight.disagreement().filter(|_| flight.disagrees_widely()).ok_or_else(gone)?;
    let title = say!(
        locale,
        "app-charge-finding",
        used = locale.number(used_mah, 0),
        low = locale.number(expected.low_mah, 0),
        high = locale.number(expected.high_mah, 0)
    );
    let outlier = Outlier { reading: "charge".to_owned(), above: expected.held(used_mah).lies() == Lies::Above };
    shown(shared, flight, title, FindingGrade::Caution, landing.entry, Some(outlier))
}

/// A finding that a flight showed: flying its check again proves the fix.
fn shown(
    shared: &Shared,
    flight: &Flight,
    title: String,
    grade: FindingGrade,
    shown_by: EntryId,
    proposed_from: Option<Outlier>,
) -> Result {
    let (stage, _) = wanted(shared, &flight.check)?;
    let said = say!(shared.locale(), "app-finding-raised", title = title);
    let (stage, proof, shown_by) = (stage.to_owned(), flight.check.clone(), Some(shown_by));
    one(Body::FindingRaised { title, grade, stage, proof, shown_by, proposed_from }, said, After::Keep)
}
