use super::context::{heading, paragraph, row, still_row};
use super::{Block, Context, Edge, Place, Screen, Tone};
use crate::field::{Flight, Tested};
use crate::locale::{Locale, say};
use crate::plan::{Plan, Subject};
use crate::readiness::Adjusted;

/// The ledger of settings: what was changed, from what, why, and what was flown on it.
pub(super) fn settings_ledger(context: &Context<'_>) -> Screen {
    let mut blocks = Vec::new();
    let waiting = context.ledger.tested_at(last_rpm(context));
    if !waiting.is_empty() {
        blocks.push(heading(say!(context.locale, "ledger-not-flown"), None));
        blocks.extend(waiting.iter().map(|tested| {
            still_row(
                Edge::Missing,
                say!(context.locale, "ledger-to-fly"),
                words(context.locale, context.plan, tested),
                None,
            )
        }));
        blocks
            .extend(two_at_once(context, &waiting, |count| say!(context.locale, "ledger-next-tests", count = count)));
    }
    if context.ledger.adjusted.is_empty() {
        blocks.push(paragraph(say!(context.locale, "ledger-nothing"), Tone::Plain));
    } else {
        blocks.push(heading(say!(context.locale, "ledger-changes"), None));
    }
    blocks.extend(context.ledger.adjusted.iter().rev().map(|change| line(context, change)));
    context.screen("ledger", say!(context.locale, "ledger-title"), Some(context.aircraft_name()), blocks)
}

/// The head speed that was flown last; a ledger looked at on the ground compares with nothing else.
fn last_rpm(context: &Context<'_>) -> f64 {
    let flown = context.ledger.flights.iter().rev().find(|flight| flight.started.is_some());
    flown.map_or(0.0, |flight| flight.head_speed_rpm)
}

/// A change of the ledger for a page that nobody touches.
pub(crate) struct LedgerLine {
    /// What was changed.
    pub what: String,
    /// From what to what.
    pub from_to: String,
    /// What was flown on it.
    pub flown: String,
    /// What else its first flight tested; empty where nothing.
    pub with: String,
}

/// A change of the ledger in words.
pub(crate) fn ledger_line(context: &Context<'_>, change: &Adjusted) -> LedgerLine {
    let with = together_with(context, change);
    LedgerLine {
        what: context.plan.subject_words(context.locale, &change.subject),
        from_to: from_to(context.locale, context.plan, change),
        flown: flown_on(context, change),
        with: with.map(|with| say!(context.locale, "ledger-together", with = with)).unwrap_or_default(),
    }
}

fn line(context: &Context<'_>, change: &Adjusted) -> Block {
    let title = format!(
        "{}: {}",
        context.plan.subject_words(context.locale, &change.subject),
        from_to(context.locale, context.plan, change)
    );
    let mut detail = match change.reason.is_empty() {
        true => format!("{}. ", say!(context.locale, "ledger-first-value")),
        false => format!("{}. ", change.reason.trim_end_matches('.')),
    };
    detail.push_str(&flown_on(context, change));
    let with = together_with(context, change);
    let (edge, word) = if with.is_some() {
        (Edge::Caution, say!(context.locale, "ledger-not-alone"))
    } else {
        (Edge::None, String::new())
    };
    detail.extend(with.iter().map(|with| format!(". {}", say!(context.locale, "ledger-together", with = with))));
    row(
        edge,
        word,
        &title,
        Some(format!("{}, {detail}", super::day(context.locale, &change.at.wall, context.now))),
        Place::Entry(change.entry),
    )
}

fn from_to(locale: Locale, plan: &Plan, change: &Adjusted) -> String {
    let unit = unit(locale, plan, &change.subject);
    match &change.before {
        Some(before) => format!("{} {unit}", say!(locale, "ledger-from-to", before = before, after = change.after))
            .trim()
            .to_owned(),
        None => format!("{} {unit}", change.after).trim().to_owned(),
    }
}

fn unit(locale: Locale, plan: &Plan, subject: &Subject) -> String {
    match subject {
        Subject::Setting(id) => plan.setting(id).and_then(|setting| setting.unit.clone()).unwrap_or_default(),
        Subject::Figure(id) => {
            plan.figure(id).map_or_else(String::new, |figure| locale.shown(figure.unit).sign.to_owned())
        }
        _ => String::new(),
    }
}

/// Flights between this change and the next one of the same thing.
fn flown_on(context: &Context<'_>, change: &Adjusted) -> String {
    let later = context.ledger.adjusted.iter().skip_while(|other| other.entry != change.entry).skip(1);
    let next = later.into_iter().find(|other| other.subject == change.subject);
    let until = next.map_or(context.ledger.runs, |next| next.runs);
    let flown = until.saturating_sub(change.runs) as usize;
    say!(context.locale, "ledger-flown-on", count = flown)
}

/// What else the first flight on this change tested.
fn together_with(context: &Context<'_>, change: &Adjusted) -> Option<String> {
    let first = context.ledger.flights.iter().filter(|flight| flight.started.is_some()).nth(change.runs as usize)?;
    let of = |tested: &&Tested| match (tested, &change.subject) {
        (Tested::Setting { subject, .. }, mine) => subject == mine,
        (Tested::HeadSpeed { .. }, Subject::Figure(_)) => true,
        _ => false,
    };
    if !first.tests.iter().any(|tested| of(&tested)) {
        return None;
    }
    let others: Vec<String> =
        first.tests.iter().filter(|t| !of(t)).map(|t| words(context.locale, context.plan, t)).collect();
    (!others.is_empty()).then(|| others.join("; "))
}

/// One thing that a flight tests, on one line.
pub(super) fn words(locale: Locale, plan: &Plan, tested: &Tested) -> String {
    match tested {
        Tested::Setting { subject, before, after } => {
            let unit = unit(locale, plan, subject);
            let title = plan.subject_words(locale, subject);
            let values = before.as_ref().map_or_else(
                || after.clone(),
                |before| say!(locale, "ledger-from-to", before = before, after = after),
            );
            format!("{title} {values} {unit}").trim().to_owned()
        }
        Tested::Work { what } => what.clone(),
        Tested::HeadSpeed { before_rpm, after_rpm } => say!(
            locale,
            "ledger-head-speed",
            before = locale.number(*before_rpm, 0),
            after = locale.number(*after_rpm, 0)
        ),
    }
}

/// A caution where a flight tests more than one thing: whatever it shows, nobody knows which of them did it.
pub(super) fn two_at_once(context: &Context<'_>, tests: &[Tested], title: impl Fn(usize) -> String) -> Option<Block> {
    (tests.len() > 1).then(|| {
        let what: Vec<String> = tests.iter().map(|tested| words(context.locale, context.plan, tested)).collect();
        Block::Caution {
            title: title(tests.len()),
            text: say!(context.locale, "ledger-nobody-can-say", what = what.join("; ")),
        }
    })
}

/// What a flight that was flown tested.
pub(super) fn tested(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    let mut blocks: Vec<Block> =
        two_at_once(context, &flight.tests, |count| say!(context.locale, "ledger-tested", count = count))
            .into_iter()
            .collect();
    if let [one] = flight.tests.as_slice() {
        blocks.push(still_row(
            Edge::None,
            say!(context.locale, "ledger-tested-one"),
            words(context.locale, context.plan, one),
            None,
        ));
    }
    blocks
}
