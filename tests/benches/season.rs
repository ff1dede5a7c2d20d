//! What a touch costs when years lie behind it: the fold of a long journal, a report of how everything stands, a screen.
#![allow(missing_docs, clippy::unwrap_used)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use liftgate_core::plan::{Plan, SHIPPED};
use liftgate_core::readiness::Ledger;
use liftgate_core::record::{Body, Entry, EntryId};
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;
use uuid::Uuid;

/// The walked season, drawn out to so many entries by recording its service checks again and again.
fn years(entries: &[Entry], plan: &Plan, wanted: usize) -> Vec<Entry> {
    let service = plan.stages.last().unwrap();
    let again: Vec<&Entry> = entries
        .iter()
        .filter(|entry| {
            matches!(&entry.body, Body::CheckRecorded { check, .. } if service.checks.iter().any(|c| &c.id == check))
        })
        .collect();
    let mut all = entries.to_vec();
    for entry in again.iter().cycle().take(wanted.saturating_sub(entries.len())) {
        let seq = all.last().map_or(1, |last| last.seq + 1);
        let at = entries.last().unwrap().at.clone();
        all.push(Entry { id: EntryId(Uuid::now_v7()), seq, at, ..(*entry).clone() });
    }
    all
}

fn season(c: &mut Criterion) {
    let plan = Plan::parse("the shipped plan", SHIPPED).unwrap();
    let walk = Walk::at_flight(Kind::Scale, "Flight in service");
    let walked = walk.person.entries();
    let now = walk.person.now.clone();
    for entries in [walked.clone(), years(&walked, &plan, 5_000)] {
        let count = entries.len();
        c.bench_function(&format!("fold of {count} entries"), |b| b.iter(|| Ledger::of(&plan, black_box(&entries))));
        let ledger = Ledger::of(&plan, &entries);
        c.bench_function(&format!("report over {count} entries"), |b| b.iter(|| ledger.at(&plan, black_box(&now))));
    }
    let pilot = walk.person.phone.pilot().unwrap();
    c.bench_function("the board after a season", |b| b.iter(|| pilot.screen(black_box(&now)).unwrap()));
}

criterion_group!(benches, season);
criterion_main!(benches);
