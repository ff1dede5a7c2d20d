//! What was recorded and withdrawn, where a page would else read as if nothing had ever been there.

use super::context::{heading, row};
use super::{Block, Context, Edge, Place, entry_words};
use crate::locale::say;
use crate::readiness::GoneOf;

/// Rows of what was withdrawn of a check, or of the findings: what it said, when, and when and why it was withdrawn. A slip of the
/// finger that was taken back at once is not told here; the journal has it.
pub(super) fn withdrawn(context: &Context<'_>, of: &GoneOf) -> Vec<Block> {
    let gone = context.ledger.gone.iter().rev().filter(|gone| gone.of == *of);
    let rows = gone.filter_map(|gone| {
        let withdrawal = context.ledger.withdrawals.of(gone.entry).filter(|withdrawal| !withdrawal.is_slip)?;
        let entry = context.recorded(gone.entry)?;
        let when = |at| super::day_and_time(context.locale, at, context.now);
        let detail = say!(
            context.locale,
            "journal-withdrawn-detail",
            recorded = when(&entry.at.wall),
            withdrawn = when(&withdrawal.at.wall),
            why = withdrawal.reason
        );
        let words = entry_words(context.locale, context.plan, context.entries, entry);
        let state = say!(context.locale, "journal-withdrawn");
        Some(row(Edge::Stale, state, &words, Some(detail), Place::Entry(gone.entry)))
    });
    let rows: Vec<Block> = rows.collect();
    if rows.is_empty() {
        return rows;
    }
    let title = heading(say!(context.locale, "journal-withdrawn-heading"), None);
    std::iter::once(title).chain(rows).collect()
}
