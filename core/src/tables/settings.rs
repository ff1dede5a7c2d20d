use super::source::Source;
use super::written::{Cell, Sheet};
use crate::plan::Subject;
use crate::readiness::Adjusted;

const COLUMNS: &[&str] =
    &["changed_at", "entry", "kind", "setting", "title", "before", "after", "unit", "reason", "runs_before"];

/// Each change of a setting or of an adjustable figure, a row each, oldest first.
pub(super) fn sheet(source: Source<'_>) -> Sheet {
    let changes = source.ledger.adjusted.iter();
    Sheet { columns: COLUMNS, rows: changes.map(|change| row(source, change)).collect() }
}

fn row(source: Source<'_>, change: &Adjusted) -> Vec<Cell> {
    let (kind, id, title, unit) = match &change.subject {
        Subject::Setting(id) => {
            let setting = source.plan.setting(id);
            let unit = setting.and_then(|setting| setting.unit.clone()).unwrap_or_default();
            ("setting", id.as_str(), setting.map(|setting| setting.title.as_str()), unit)
        }
        Subject::Figure(id) => {
            let figure = source.plan.figure(id);
            let unit = figure.map_or("", |figure| figure.unit.sign()).to_owned();
            ("figure", id.as_str(), figure.map(|figure| figure.title.as_str()), unit)
        }
        _ => ("", "", None, String::new()),
    };
    vec![
        Cell::moment(&change.at),
        source.seq(change.entry).into(),
        kind.into(),
        id.into(),
        title.into(),
        change.before.as_deref().into(),
        change.after.as_str().into(),
        unit.into(),
        change.reason.as_str().into(),
        change.runs.into(),
    ]
}
