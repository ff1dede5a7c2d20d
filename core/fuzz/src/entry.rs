//! A stored entry of any bytes is read or refused; what was read is stored again as the same, and the fold takes it in, whatever it says.

use arbitrary::{Result, Unstructured};
use chrono::{DateTime, FixedOffset, TimeDelta};
use liftgate_core::plan::Plan;
use liftgate_core::readiness::Ledger;
use liftgate_core::record::{AircraftId, Author, Body, Entry, Moment, StoredBody};
use liftgate_core::tables::{self, Form, Source, Table};

use super::common::id;
use super::common::story::small_plan;
use super::sample::{STORY, stored};

/// Bytes as a few entries behind some of a valid history. Whether one of them was read; bytes that run out end the round, nothing else.
pub fn entry(bytes: &[u8]) -> bool {
    told(&mut Unstructured::new(bytes)).unwrap_or_default()
}

fn told(u: &mut Unstructured<'_>) -> Result<bool> {
    let known = u.int_in_range(1..=STORY.len())?;
    let mut entries = STORY[..known].to_vec();
    for _ in 0..u.int_in_range(1..=4)? {
        let Some((aircraft, body)) = decoded(stored(u)?) else { continue };
        let author = if u.ratio(1, 4)? { Author::Spotter { name: "Sam".to_owned() } } else { Author::Pilot };
        let seq = entries.len() as i64 + 1;
        let at = moment(&entries[entries.len() - 1].at, u)?;
        entries.push(Entry { seq, id: id(10_000 + seq as u64), at, author, aircraft, body });
    }
    let now = moment(&entries[entries.len() - 1].at, u)?;
    fold(&entries, known, &now);
    Ok(entries.len() > known)
}

/// What a stored body says and of which aircraft it is, once it is known that it is stored again as the same.
fn decoded(json: String) -> Option<(AircraftId, Body)> {
    let stored = StoredBody { kind: "any".to_owned(), version: Body::VERSION, json };
    let (aircraft, body) = match stored.aircraft().and_then(|aircraft| Ok((aircraft, stored.read()?))) {
        Ok(said) => said,
        Err(refusal) => {
            assert!(!refusal.to_string().is_empty());
            return None;
        }
    };
    let again = StoredBody::write_of(aircraft, &body).expect("what was read can be stored");
    let read = again.read().expect("what was stored can be read");
    assert_eq!((&read, again.aircraft()), (&body, Ok(aircraft)));
    assert_eq!(StoredBody::write_of(aircraft, &read), Ok(again));
    Some((aircraft, body))
}

/// A moment after another: soon, or whenever a stored entry can say.
fn moment(after: &Moment, u: &mut Unstructured<'_>) -> Result<Moment> {
    let edges = ["0000-01-01T00:00:00+23:59", "9999-12-31T23:59:59.999-23:59", "1970-01-01T00:00:00+00:00"];
    let edge = |text: &str| DateTime::parse_from_rfc3339(text).unwrap();
    let wall: DateTime<FixedOffset> = match u.int_in_range(0..=9)? {
        0 => edge(u.choose(&edges)?),
        1 => after.wall.checked_add_signed(TimeDelta::days(u.arbitrary::<i16>()?.into())).unwrap_or(after.wall),
        _ => after.wall.checked_add_signed(TimeDelta::seconds(u.arbitrary::<u8>()?.into())).unwrap_or(after.wall),
    };
    let (monotonic_ms, boot) = match u.int_in_range(0..=9)? {
        0 => (u.arbitrary()?, after.boot.clone()),
        1 => (u.arbitrary()?, "another".to_owned()),
        2 => (*u.choose(&[i64::MIN, -1, 0, i64::MAX])?, after.boot.clone()),
        _ => (after.monotonic_ms.saturating_add(u.arbitrary::<u16>()?.into()), after.boot.clone()),
    };
    // As it is stored, and so as it is read: to the millisecond.
    Ok(Moment { wall, monotonic_ms, boot })
}

/// The fold takes them in, all at once and those behind `known` one after the other, and says how everything stands.
fn fold(entries: &[Entry], known: usize, now: &Moment) {
    let plan = small_plan();
    let ledger = Ledger::of(&plan, entries);
    let adopted = entries.iter().rev().filter_map(|entry| match &entry.body {
        Body::PlanAdopted { plan, text, .. } | Body::AircraftBegun { plan, text, .. } => Plan::parse(plan, text).ok(),
        _ => None,
    });
    for plan in adopted.take(2) {
        let report = ledger.at(&plan, now);
        for stage in &plan.stages {
            let _ = (ledger.way_back(&plan, &stage.id, now), ledger.cautions(&plan, &report, &stage.id));
        }
        for (_, check) in plan.checks() {
            let _ = (ledger.left(check, now), ledger.before_flying(&plan, &check.id, now));
        }
        let _ = (ledger.releasable_again(&plan, now), ledger.packs());
        for table in Table::ALL {
            let source = Source { plan: &plan, entries, ledger: &ledger };
            let _ = (tables::write(source, table, Form::Csv), tables::write(source, table, Form::Json));
        }
    }
    // Taken in later it comes to the same, but where one of them reaches back to what was folded before.
    if entries[known..].iter().all(|entry| !matches!(entry.body, Body::Withdrawn { .. })) {
        let mut taken = Ledger::of(&plan, &entries[..known]);
        taken.take(&plan, &entries[known..]);
        // What is no number is not the same as itself.
        assert!(taken == ledger || format!("{taken:?}") == format!("{ledger:?}"), "taken in later it is another");
    }
}
