//! The ledger of settings: what was changed from what to what, why, and what was flown on it.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Written, joined};
use crate::locale::{say, sentence};
use crate::readiness::Adjusted;
use crate::view::{self, LedgerLine};

#[derive(Template)]
#[template(path = "dossier/settings.html")]
struct Settings {
    words: Words,
    changes: Vec<ChangePart>,
}

struct ChangePart {
    when: String,
    what: String,
    from_to: String,
    why: String,
    flown: String,
}

pub(super) fn write(page: &Page<'_>) -> Written {
    let changes = page.context.ledger.adjusted.iter().map(|change| part(page, change)).collect();
    Settings { words: page.words(), changes }.render()
}

fn part(page: &Page<'_>, change: &Adjusted) -> ChangePart {
    let LedgerLine { what, from_to, flown, with } = view::ledger_line(page.context, change);
    ChangePart {
        when: joined([page.when(&change.at), page.entry_number(change.entry)], ", "),
        what,
        from_to,
        why: match change.reason.is_empty() {
            true => sentence(&say!(page.locale(), "ledger-first-value")),
            false => change.reason.clone(),
        },
        flown: joined([flown, with], ". "),
    }
}
