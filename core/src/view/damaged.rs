//! A journal that is damaged: what can still be read of it, and the way to go on.

use super::context::{bare, heading, paragraph, still_row};
use super::{Block, Control, Edge, Icon, Journals, Screen, Tone};
use crate::journal::JournalError;
use crate::locale::{Locale, say};
use crate::record::Gap;

/// Stretches that are listed before the rest is only counted.
const GAPS_SHOWN: usize = 12;

/// What is known of the damage.
pub struct DamageSeen<'a> {
    /// Why it does not open.
    pub why: &'a JournalError,
    /// Entries that can still be read.
    pub count: usize,
    /// The stretches that cannot be read.
    pub gaps: Vec<Gap>,
    /// Whether nobody knows if entries came behind the last legible one.
    pub may_lack_last: bool,
}

/// The page of a damaged journal.
pub(crate) fn damaged(locale: Locale, seen: &DamageSeen<'_>) -> Screen {
    let missing: i64 = seen.gaps.iter().map(|gap| gap.count()).sum();
    let mut blocks = vec![
        Block::Verdict {
            text: verdict(locale, seen.why),
            detail: Some(say!(locale, "damaged-counts", legible = seen.count, missing = missing)),
            edge: Edge::Stop,
        },
        still_row(Edge::None, say!(locale, "damaged-why"), seen.why.words(locale), None),
    ];
    blocks.extend(gap_rows(locale, seen));
    blocks.push(heading(say!(locale, "damaged-then"), None));
    for words in [
        say!(locale, "damaged-set-aside"),
        say!(locale, "damaged-gates"),
        say!(locale, "damaged-backup"),
        say!(locale, "damaged-newer"),
    ] {
        blocks.push(paragraph(words, Tone::Plain));
    }
    let go_on = Control::primary(Journals::Repair.into(), say!(locale, "damaged-go-on")).icon(Icon::Next);
    Screen { foot: vec![go_on], ..bare("damaged", say!(locale, "damaged-title"), blocks) }
}

/// One that says it was written by a newer version may have been: going on is offered after the other way.
fn verdict(locale: Locale, why: &JournalError) -> String {
    match why {
        JournalError::Newer { .. } => say!(locale, "damaged-or-newer"),
        _ => say!(locale, "damaged-verdict"),
    }
}

fn gap_rows(locale: Locale, seen: &DamageSeen<'_>) -> Vec<Block> {
    let mut rows: Vec<Block> = Vec::new();
    for gap in seen.gaps.iter().take(GAPS_SHOWN) {
        let words = match gap.count() {
            1 => say!(locale, "damaged-entry", first = gap.first.to_string()),
            _ => say!(locale, "damaged-entries", first = gap.first.to_string(), last = gap.last.to_string()),
        };
        rows.push(still_row(Edge::Missing, say!(locale, "damaged-missing"), words, None));
    }
    let rest = seen.gaps.len().saturating_sub(GAPS_SHOWN);
    if rest > 0 {
        rows.push(paragraph(say!(locale, "damaged-more", rest = rest), Tone::Quiet));
    }
    if seen.may_lack_last {
        rows.push(still_row(Edge::Missing, say!(locale, "damaged-missing"), say!(locale, "damaged-last"), None));
    }
    rows
}
