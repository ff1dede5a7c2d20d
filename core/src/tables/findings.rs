use super::source::Source;
use super::written::{Cell, Sheet};
use crate::readiness::{Finding, FindingState};

const COLUMNS: &[&str] = &[
    "number",
    "entry",
    "raised_at",
    "title",
    "grade",
    "stage",
    "shown_by_entry",
    "proof_check",
    "state",
    "fixes",
    "last_fix",
    "last_fix_entry",
    "proved_by_entry",
    "restriction",
    "carried_by",
];

/// Findings, a row each, in the order in which they were raised.
pub(super) fn sheet(source: Source<'_>) -> Sheet {
    let findings = source.ledger.findings.iter();
    Sheet { columns: COLUMNS, rows: findings.map(|finding| row(source, finding)).collect() }
}

fn row(source: Source<'_>, finding: &Finding) -> Vec<Cell> {
    let fix = finding.fixes.last();
    let (state, proved_by, restriction, by) = match &finding.state {
        FindingState::Open => ("open", None, "", ""),
        FindingState::Fixed { .. } => ("fixed", None, "", ""),
        FindingState::Proven { by } => ("proven", Some(*by), "", ""),
        FindingState::Carried { restriction, by, .. } => ("carried", None, restriction.as_str(), by.as_str()),
    };
    vec![
        finding.number.into(),
        source.seq(finding.id).into(),
        Cell::moment(&finding.at),
        finding.title.as_str().into(),
        finding.grade.id().into(),
        finding.stage.as_str().into(),
        finding.shown_by.and_then(|id| source.seq(id)).into(),
        finding.proof.as_str().into(),
        state.into(),
        finding.fixes.len().into(),
        fix.map(|(_, what)| what.as_str()).into(),
        fix.and_then(|(entry, _)| source.seq(*entry)).into(),
        proved_by.and_then(|id| source.seq(id)).into(),
        restriction.into(),
        by.into(),
    ]
}
