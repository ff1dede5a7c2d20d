//! A stage: its gate, what its release stood on, and each check with what it was held against.

use askama::Template;

use super::labels::Words;
use super::opening::gate_words;
use super::page::{Page, Stretch, Written, joined};
use super::photos::seen_in;
use crate::computed::Computed;
use crate::drawing::svg;
use crate::locale::{say, sentence};
use crate::plan::{Check, CheckKind, Stage};
use crate::readiness::{Evidence, Gate, Release, Source, Standing};
use crate::record::{CheckResult, PhotoOf};
use crate::unit::Unit;
use crate::view;

#[derive(Template)]
#[template(path = "dossier/stage.html")]
struct StagePart {
    words: Words,
    title: String,
    gate: String,
    stood_on: Vec<String>,
    digest: String,
    checks: Vec<CheckPart>,
    /// What the plan has for other aircraft and other events.
    left_out: Vec<String>,
    is_first: bool,
    is_last: bool,
}

struct CheckPart {
    title: String,
    result: String,
    values: Vec<String>,
    picture: String,
    limits: Vec<String>,
    basis: String,
    recorded: String,
    state: String,
}

pub(super) fn write(page: &Page<'_>, stretch: &Stretch) -> Written {
    let context = page.context;
    let Some(stage) = context.plan.stages.get(stretch.from) else { return Ok(String::new()) };
    let gate = context.report.gate(&stage.id);
    let release = match gate {
        Gate::Released(release) | Gate::Lapsed { release, .. } => Some(release),
        _ => None,
    };
    let wanted = stage.checks.iter().filter(|check| context.ledger.aircraft.wants(check));
    StagePart {
        words: page.words(),
        title: stage.title.clone(),
        gate: joined([gate_words(page, gate), stage.gate.clone().unwrap_or_default()], ". "),
        stood_on: release.map(|release| stood_on(page, release)).into_iter().collect(),
        digest: release
            .and_then(|release| page.releases.get(&release.entry))
            .map_or_else(String::new, |digest| digest.to_string()),
        checks: wanted.map(|check| part(page, check, release)).collect(),
        left_out: left_out(page, stage),
        is_first: stretch.is_first,
        is_last: stretch.is_last,
    }
    .render()
}

/// The entries that a release stood on.
fn stood_on(page: &Page<'_>, release: &Release) -> String {
    let entries = page.context.entries;
    let mut numbers: Vec<i64> = release
        .evidence
        .iter()
        .filter_map(|(_, id)| crate::record::Entry::by_id(entries, *id))
        .map(|entry| entry.seq)
        .collect();
    numbers.sort_unstable();
    numbers.dedup();
    let numbers: Vec<String> = numbers.iter().map(i64::to_string).collect();
    say!(page.locale(), "dossier-stood-on", count = release.evidence.len(), entries = numbers.join(", "))
}

fn part(page: &Page<'_>, check: &Check, release: Option<&Release>) -> CheckPart {
    let context = page.context;
    let locale = context.locale;
    let standing = context.report.standing(&check.id);
    let evidence = context.ledger.evidence.get(&check.id);
    let picture = match (&check.kind, evidence) {
        (CheckKind::Compute(computation), Some(_)) => {
            Computed::of(*computation, context.facts()).ok().and_then(|computed| computed.picture)
        }
        _ => None,
    };
    CheckPart {
        title: check.title.clone(),
        result: evidence
            .map_or_else(String::new, |evidence| view::result_words(locale, context.ledger, &evidence.of)),
        values: evidence.map(|evidence| values(page, evidence)).unwrap_or_default(),
        picture: picture.as_ref().map(svg).unwrap_or_default(),
        limits: view::held_against_words(context, check),
        basis: check.basis.clone().unwrap_or_default(),
        recorded: joined(
            [
                evidence.map(|evidence| recorded(page, check, evidence)).unwrap_or_default(),
                seen_in(page, &PhotoOf::Check(check.id.clone())),
            ],
            ". ",
        ),
        state: joined([state(page, check, &standing), renewed(page, check, evidence, release)], ". "),
    }
}

/// The numbers that were kept with a computed result.
fn values(page: &Page<'_>, evidence: &Evidence) -> Vec<String> {
    let Source::Result(CheckResult::Computed { values, .. }) = &evidence.of else { return Vec::new() };
    values.iter().map(|v| format!("{}: {}", v.name, shown(page, v.value, v.unit))).collect()
}

/// A computed number with four digits that count: what is behind them no input was good for.
fn shown(page: &Page<'_>, value: f64, unit: Unit) -> String {
    let locale = page.locale();
    let whole = if value.abs() < 1.0 { 0 } else { value.abs().log10().floor() as usize + 1 };
    let rounded: f64 = format!("{value:.*}", 4_usize.saturating_sub(whole)).parse().unwrap_or(value);
    locale.quantity(rounded, unit)
}

/// When and by whom it was recorded, with the remark, and where in the journal.
fn recorded(page: &Page<'_>, check: &Check, evidence: &Evidence) -> String {
    let locale = page.locale();
    let when = page.when(&evidence.at);
    let seen = match &evidence.witness {
        Some(name) => say!(locale, "dossier-seen-by", when = when, name = name),
        None => when,
    };
    let alone = evidence.alone.as_ref().map(|why| say!(locale, "dossier-alone", why = why)).unwrap_or_default();
    let results = page.context.ledger.results.get(&check.id);
    let result = results.and_then(|results| results.iter().rev().find(|result| result.entry == evidence.entry));
    let note = result.and_then(|result| result.note.clone()).unwrap_or_default();
    joined([joined([seen, page.entry_number(evidence.entry)], ", "), alone, note], ". ")
}

/// How a check stands. One of which nothing was recorded and that nothing waits for is no hole, and does not look like one.
fn state(page: &Page<'_>, check: &Check, standing: &Standing) -> String {
    let context = page.context;
    let locale = context.locale;
    let nothing = matches!(standing, Standing::Missing { lacking } if lacking.is_empty());
    let recurs = check.before_flights_from.as_ref();
    match recurs {
        Some(from) if nothing => {
            say!(locale, "dossier-due-from", stage = view::stage_title(context.plan, from))
        }
        None if nothing && !check.mandatory => say!(locale, "dossier-optional"),
        _ => {
            let detail = view::standing_detail(locale, context.plan, standing).unwrap_or_default();
            joined([view::standing_word(locale, standing), detail], ". ")
        }
    }
}

/// That the evidence is a later one than the release stood on.
fn renewed(page: &Page<'_>, check: &Check, evidence: Option<&Evidence>, release: Option<&Release>) -> String {
    let stood = release.and_then(|release| release.evidence.iter().find(|(id, _)| *id == check.id));
    match (stood, evidence) {
        (Some((_, entry)), Some(evidence)) if evidence.entry != *entry => {
            say!(page.locale(), "dossier-renewed", entry = page.entry_number(*entry))
        }
        _ => String::new(),
    }
}

/// The checks that the plan has for other aircraft, and for what has not happened to this one.
fn left_out(page: &Page<'_>, stage: &Stage) -> Vec<String> {
    let context = page.context;
    let (locale, aircraft) = (context.locale, &context.ledger.aircraft);
    let not_wanted = stage.checks.iter().filter(|check| !aircraft.wants(check));
    let (for_events, for_others): (Vec<&Check>, Vec<&Check>) =
        not_wanted.partition(|check| aircraft.fits(&check.when));
    let titles = |checks: &[&Check]| checks.iter().map(|check| check.title.as_str()).collect::<Vec<_>>().join("; ");
    let others = (!for_others.is_empty()).then(|| say!(locale, "dossier-not-for-this", checks = titles(&for_others)));
    let events =
        (!for_events.is_empty()).then(|| say!(locale, "dossier-not-called-for", checks = titles(&for_events)));
    others.into_iter().chain(events).map(|words| sentence(&words)).collect()
}
