//! What is valid to begin with: a history over the small plan, and one of every kind of entry as it is stored.

use std::sync::LazyLock;

use arbitrary::{Result, Unstructured};
use liftgate_core::record::{AircraftId, Author, Body, Entry, StoredBody};

use super::changed::changed;
use super::common::story::{Flown, Story};
use super::common::{id, one_of_each};

/// The stored bodies of one of every kind.
pub static BODIES: LazyLock<Vec<String>> =
    LazyLock::new(|| one_of_each().iter().map(|body| StoredBody::write(body).unwrap().json).collect());

/// A history over the small plan: gates released, flights flown, a finding raised. The plan was adopted with the first entry.
pub static STORY: LazyLock<Vec<Entry>> = LazyLock::new(|| {
    let mut story = Story::released();
    story.fly_as("rung-1", &Flown::default());
    story.change("wiring");
    let text = include_str!("../../tests/common/small_plan.toml").to_owned();
    let (plan, edition) = (story.plan.id.clone(), story.plan.edition.clone());
    let body = Body::PlanAdopted { plan, edition, text };
    let first = Entry {
        seq: 1,
        id: id(9_000),
        at: story.entries[0].at.clone(),
        author: Author::Pilot,
        aircraft: AircraftId::FIRST,
        body,
    };
    let rest = story.entries.into_iter().map(|entry| Entry { seq: entry.seq + 1, ..entry });
    std::iter::once(first).chain(rest).collect()
});

/// A body as it is stored, and likely one that can be read.
pub fn likely(u: &mut Unstructured<'_>) -> Result<String> {
    let mut json = stored(u)?;
    for _ in 0..3 {
        let stored = StoredBody { kind: String::new(), version: Body::VERSION, json };
        if stored.read().is_ok() || u.ratio(1, 8)? {
            return Ok(stored.json);
        }
        json = self::stored(u)?;
    }
    Ok(json)
}

/// A body as it is stored: any bytes that are a text, or one of a known kind with changes, which may name an entry of the history.
pub fn stored(u: &mut Unstructured<'_>) -> Result<String> {
    if u.ratio(1, 8)? {
        let length = u.int_in_range(0..=400)?.min(u.len());
        return Ok(String::from_utf8_lossy(u.bytes(length)?).into_owned());
    }
    let mut json = u.choose(&BODIES)?.clone();
    if u.arbitrary()? {
        let named = u.choose(&STORY)?.id;
        json = json.replace(&id(7).to_string(), &named.to_string());
    }
    if u.ratio(3, 4)? {
        json = String::from_utf8_lossy(&changed(json.as_bytes(), u)?).into_owned();
    }
    Ok(json)
}
