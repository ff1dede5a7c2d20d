use super::context::{heading, paragraph, row, still_row};
use super::{Block, Context, Edge, Place, Screen, Tone, counted};
use crate::field::{Flight, Tested};
use crate::plan::{Plan, Subject};
use crate::readiness::Adjusted;

/// The ledger of settings: what was changed, from what, why, and what was flown on it.
pub(super) fn ledger(context: &Context<'_>) -> Screen {
    let mut blocks = Vec::new();
    let waiting = context.ledger.tested_at(last_rpm(context));
    if !waiting.is_empty() {
        blocks.push(heading("Not flown yet", None));
        blocks.extend(
            waiting.iter().map(|tested| still_row(Edge::Missing, "To fly", words(context.plan, tested), None)),
        );
        blocks.extend(two_at_once(context.plan, &waiting, "The next flight tests"));
    }
    if context.ledger.adjusted.is_empty() {
        blocks.push(paragraph("Nothing was set so far.", Tone::Plain));
    } else {
        blocks.push(heading("Changes, newest first", None));
    }
    blocks.extend(context.ledger.adjusted.iter().rev().map(|change| line(context, change)));
    context.screen("ledger", "Settings so far", Some(context.aircraft_name()), blocks)
}

/// The head speed that was flown last; a ledger looked at on the ground compares with nothing else.
fn last_rpm(context: &Context<'_>) -> f64 {
    let flown = context.ledger.flights.iter().rev().find(|flight| flight.started.is_some());
    flown.map_or(0.0, |flight| flight.head_speed_rpm)
}

fn line(context: &Context<'_>, change: &Adjusted) -> Block {
    let title =
        format!("{}: {}", context.plan.subject_words(context.locale, &change.subject), from_to(context.plan, change));
    let mut detail = match change.reason.is_empty() {
        true => "first value. ".to_owned(),
        false => format!("{}. ", change.reason.trim_end_matches('.')),
    };
    detail.push_str(&flown_on(context, change));
    let with = together_with(context, change);
    let (edge, word) = if with.is_some() { (Edge::Caution, "Not alone") } else { (Edge::None, "") };
    detail.extend(with.iter().map(|with| format!(". Flown first together with: {with}")));
    row(
        edge,
        word,
        &title,
        Some(format!("{}, {detail}", super::day(context.locale, &change.at.wall, context.now))),
        Place::Entry(change.entry),
    )
}

fn from_to(plan: &Plan, change: &Adjusted) -> String {
    let unit = unit(plan, &change.subject);
    match &change.before {
        Some(before) => format!("{before} to {} {unit}", change.after).trim().to_owned(),
        None => format!("{} {unit}", change.after).trim().to_owned(),
    }
}

fn unit(plan: &Plan, subject: &Subject) -> String {
    match subject {
        Subject::Setting(id) => plan.setting(id).and_then(|setting| setting.unit.clone()).unwrap_or_default(),
        Subject::Figure(id) => plan.figure(id).map_or_else(String::new, |figure| figure.unit.sign().to_owned()),
        _ => String::new(),
    }
}

/// Flights between this change and the next one of the same thing.
fn flown_on(context: &Context<'_>, change: &Adjusted) -> String {
    let later = context.ledger.adjusted.iter().skip_while(|other| other.entry != change.entry).skip(1);
    let next = later.into_iter().find(|other| other.subject == change.subject);
    let until = next.map_or(context.ledger.runs, |next| next.runs);
    let flown = until.saturating_sub(change.runs) as usize;
    format!("Flown on it: {}", counted(flown, "motor run", "motor runs"))
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
    let others: Vec<String> = first.tests.iter().filter(|t| !of(t)).map(|t| words(context.plan, t)).collect();
    (!others.is_empty()).then(|| others.join("; "))
}

/// One thing that a flight tests, on one line.
pub(super) fn words(plan: &Plan, tested: &Tested) -> String {
    match tested {
        Tested::Setting { subject, before, after } => {
            let unit = unit(plan, subject);
            let title = plan.subject_words(crate::locale::Locale::default(), subject);
            let before = before.as_ref().map_or_else(String::new, |before| format!("{before} to "));
            format!("{title} {before}{after} {unit}").trim().to_owned()
        }
        Tested::Work { what } => what.clone(),
        Tested::HeadSpeed { before_rpm, after_rpm } => format!("Head speed {before_rpm:.0} to {after_rpm:.0} rpm"),
    }
}

/// A caution where a flight tests more than one thing: whatever it shows, nobody knows which of them did it.
pub(super) fn two_at_once(plan: &Plan, tests: &[Tested], who: &str) -> Option<Block> {
    (tests.len() > 1).then(|| {
        let what: Vec<String> = tests.iter().map(|tested| words(plan, tested)).collect();
        Block::Caution {
            title: format!("{who} {} changes at once", tests.len()),
            text: format!("{}. If it flies otherwise, nobody can say which of them did it.", what.join("; ")),
        }
    })
}

/// What a flight that was flown tested.
pub(super) fn tested(plan: &Plan, flight: &Flight) -> Vec<Block> {
    let mut blocks: Vec<Block> = two_at_once(plan, &flight.tests, "This flight tested").into_iter().collect();
    if let [one] = flight.tests.as_slice() {
        blocks.push(still_row(Edge::None, "Tested", words(plan, one), None));
    }
    blocks
}
