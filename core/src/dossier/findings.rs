//! The findings: what showed each, what was done, and what proved it.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Written, joined};
use super::photos::seen_in;
use crate::locale::say;
use crate::readiness::{Finding, FindingState, Tried};
use crate::record::{Entry, EntryId, Outcome, PhotoOf};
use crate::view;

#[derive(Template)]
#[template(path = "dossier/findings.html")]
struct Findings {
    words: Words,
    findings: Vec<FindingPart>,
}

struct FindingPart {
    number: usize,
    title: String,
    grade: String,
    showed: String,
    fixes: Vec<String>,
    proofs: Vec<String>,
    state: String,
}

pub(super) fn write(page: &Page<'_>) -> Written {
    let findings = page.context.ledger.findings.iter().map(|finding| part(page, finding)).collect();
    Findings { words: page.words(), findings }.render()
}

fn part(page: &Page<'_>, finding: &Finding) -> FindingPart {
    let context = page.context;
    let locale = context.locale;
    let raised = page.when(&finding.at);
    let showed = finding.shown_by.map(|id| said_at(page, id)).unwrap_or_default();
    let stage = view::stage_title(context.plan, &finding.stage);
    let fixes = finding.fixes.iter().map(|(entry, what)| joined([what.clone(), when_of(page, *entry)], ", "));
    let tried = finding.tried.iter().map(|tried| proof(page, tried));
    let to_come = matches!(finding.state, FindingState::Open | FindingState::Fixed { .. })
        .then(|| say!(locale, "dossier-to-prove", check = view::check_title(context.plan, &finding.proof)));
    FindingPart {
        number: finding.number,
        title: finding.title.clone(),
        grade: joined([finding.grade.word(locale), stage, raised, page.entry_number(finding.id)], ", "),
        showed: joined(
            [
                if showed.is_empty() { say!(locale, "dossier-came-upon") } else { showed },
                seen_in(page, &PhotoOf::Finding(finding.id)),
            ],
            ". ",
        ),
        fixes: fixes.collect(),
        proofs: tried.chain(to_come).collect(),
        state: match &finding.state {
            FindingState::Carried { restriction, by, until, .. } => {
                let until = view::carried_words(locale, context.ledger, finding, until);
                let carried = say!(locale, "dossier-carried", restriction = restriction);
                joined([carried, until, by.clone()], ", ")
            }
            state => view::finding_word(locale, state),
        },
    }
}

/// One try at a proof: what was repeated, how it was judged, and when.
fn proof(page: &Page<'_>, tried: &Tried) -> String {
    let locale = page.locale();
    let word = match (tried.proved, tried.outcome) {
        (true, _) => say!(locale, "dossier-proved"),
        (false, Outcome::Caution) => say!(locale, "dossier-again-caution"),
        (false, _) => say!(locale, "dossier-not-proved"),
    };
    joined([word, said_at(page, tried.evidence)], ": ")
}

/// What an entry says, when it was made, and which it is.
fn said_at(page: &Page<'_>, id: EntryId) -> String {
    let context = page.context;
    let Some(entry) = Entry::by_id(context.entries, id) else { return String::new() };
    joined([view::entry_words(context.locale, context.plan, context.entries, entry), when_of(page, id)], ", ")
}

fn when_of(page: &Page<'_>, id: EntryId) -> String {
    let Some(entry) = Entry::by_id(page.context.entries, id) else { return String::new() };
    joined([page.when(&entry.at), page.entry_number(id)], ", ")
}
