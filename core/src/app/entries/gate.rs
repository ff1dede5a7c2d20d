//! Releases of gates.

use super::author::pilots_name;
use crate::app::AppError;
use crate::app::done::{After, Done, Result, one};
use crate::app::shared::Shared;
use crate::journal::NewEntry;
use crate::locale::say;
use crate::plan::Stage;
use crate::record::{Body, Moment};
use crate::view::Place;

/// Whether a stage's cautions are in view: whoever releases its gate there has read them.
pub(super) fn are_read(place: &Place, stage: &str) -> bool {
    matches!(place, Place::Cautions(at) if at == stage)
}

/// Over a caution a gate is released where the cautions are read, and nowhere else.
pub(super) fn release(shared: &Shared, stage: &str, are_read: bool, now: &Moment) -> Result {
    let report = shared.report(now);
    let gate = report.gate(stage);
    let Some(stage) = shared.plan.stage(stage).filter(|_| gate.may_be_released()) else {
        return Err(AppError::refused(say!(shared.locale(), "app-gate-not-ready")));
    };
    if !are_read && !shared.ledger.cautions(&shared.plan, &report, &stage.id).is_empty() {
        return Err(AppError::refused(say!(shared.locale(), "app-read-cautions")));
    }
    one(
        released(shared, stage),
        say!(shared.locale(), "app-stage-released", stage = stage.title),
        After::To(Place::Board),
    )
}

/// A release with the evidence that it stands on.
fn released(shared: &Shared, stage: &Stage) -> Body {
    let evidence = stage
        .checks
        .iter()
        .filter_map(|check| shared.ledger.evidence.get(&check.id).map(|e| (check.id.clone(), e.entry)))
        .collect();
    Body::GateReleased { stage: stage.id.clone(), by: pilots_name(shared), evidence }
}

/// Several lapsed gates over fresh evidence: exactly those that the pilot saw, each by an entry of its own.
pub(super) fn release_again(shared: &Shared, stages: &[String], now: &Moment) -> Result {
    let may = shared.ledger.releasable_again(&shared.plan, now);
    if stages.is_empty() || may != stages {
        return Err(AppError::refused(say!(shared.locale(), "app-release-changed")));
    }
    let found = stages.iter().filter_map(|id| shared.plan.stage(id));
    let entries: Vec<NewEntry> = found.map(|stage| NewEntry::pilot(released(shared, stage))).collect();
    let said = say!(shared.locale(), "app-gates-released", count = entries.len());
    Ok(Done { entries, said, after: After::To(Place::Board) })
}
