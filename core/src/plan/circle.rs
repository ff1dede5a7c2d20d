//! Whether things wait for each other in a circle.

use std::collections::{BTreeMap, BTreeSet};

/// A way from `start` back to itself, if there is one.
pub(super) fn circle_from(start: &str, waits: &BTreeMap<&str, Vec<&str>>) -> Option<Vec<String>> {
    let mut ways: Vec<Vec<&str>> = vec![vec![start]];
    let mut seen = BTreeSet::new();
    while let Some(way) = ways.pop() {
        let here = way.last().copied().unwrap_or(start);
        for next in waits.get(here).into_iter().flatten() {
            let longer: Vec<&str> = way.iter().copied().chain([*next]).collect();
            if *next == start {
                return Some(longer.into_iter().map(str::to_owned).collect());
            }
            if seen.insert(*next) {
                ways.push(longer);
            }
        }
    }
    None
}
