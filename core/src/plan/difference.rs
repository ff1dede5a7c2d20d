//! What differs between two plans, in words that a person can read before one takes the other's place.

use std::collections::BTreeMap;

use super::model::Plan;
use super::points::{Item, items};
use super::said::Points;
use crate::locale::{Locale, say};

/// What became of one item of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Became {
    /// It is no longer there.
    Removed,
    /// It is new.
    Added,
    /// It is there in both, and says something else.
    Changed,
}

/// One item that differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// What became of it.
    pub became: Became,
    /// What kind of item, in words: a check, a figure and so on.
    pub kind: String,
    /// Its id.
    pub id: String,
    /// Its title; the new one where there is one.
    pub title: String,
    /// For a changed item each point that differs, as `what: was this, now that`.
    pub points: Vec<String>,
}

impl Plan {
    /// What differs in `new`, item by item, in the order of the new plan; what it no longer has comes first.
    pub fn difference(&self, new: &Plan, locale: Locale) -> Vec<Difference> {
        let (before, after) = (items(locale, self), items(locale, new));
        let key = |item: &Item| (item.kind.clone(), item.id.clone());
        let old: BTreeMap<_, &Item> = before.iter().map(|item| (key(item), item)).collect();
        let now: BTreeMap<_, &Item> = after.iter().map(|item| (key(item), item)).collect();
        let told = |became, item: &Item, points| Difference {
            became,
            kind: item.kind.clone(),
            id: item.id.clone(),
            title: item.title.clone(),
            points,
        };
        let removed = before.iter().filter(|item| !now.contains_key(&key(item)));
        let mut all: Vec<Difference> = removed.map(|item| told(Became::Removed, item, Vec::new())).collect();
        for item in &after {
            match old.get(&key(item)) {
                None => all.push(told(Became::Added, item, Vec::new())),
                Some(was) => {
                    let mut points = points_that_differ(locale, &was.points, &item.points);
                    points.extend(order_that_differs(locale, &was.order, &item.order));
                    if !points.is_empty() {
                        all.push(told(Became::Changed, item, points));
                    }
                }
            }
        }
        all
    }
}

fn points_that_differ(locale: Locale, was: &Points, now: &Points) -> Vec<String> {
    let find = |points: &Points, what: &str| points.iter().find(|(w, _)| w == what).map(|(_, said)| said.clone());
    let mut whats: Vec<&str> = was.iter().chain(now).map(|(what, _)| what.as_str()).collect();
    let mut seen = Vec::new();
    whats.retain(|what| {
        let new = !seen.contains(what);
        seen.push(*what);
        new
    });
    let said = |text: Option<String>| {
        text.filter(|text| !text.is_empty()).unwrap_or_else(|| say!(locale, "difference-nothing"))
    };
    let differs = whats.into_iter().filter_map(|what| {
        let (old, new) = (find(was, what).unwrap_or_default(), find(now, what).unwrap_or_default());
        (old != new)
            .then(|| say!(locale, "difference-point", what = what, old = said(Some(old)), new = said(Some(new))))
    });
    differs.collect()
}

/// The order of what is in both plans, where it differs, from the first that moved to the last. What is new, gone or named anew is told as
/// itself and moves nothing.
fn order_that_differs(locale: Locale, was: &[(String, String)], now: &[(String, String)]) -> Option<String> {
    let common = |of: &[(String, String)], other: &[(String, String)]| -> Vec<(String, String)> {
        of.iter().filter(|(id, _)| other.iter().any(|(known, _)| known == id)).cloned().collect()
    };
    let (was, now) = (common(was, now), common(now, was));
    let is_moved = |at: &usize| was[*at].0 != now[*at].0;
    let moved = (0..was.len()).find(is_moved)?..=(0..was.len()).rfind(is_moved)?;
    let titles =
        |items: &[(String, String)]| items.iter().map(|(_, title)| title.as_str()).collect::<Vec<_>>().join("; ");
    let what = say!(locale, "difference-order");
    let (old, new) = (titles(&was[moved.clone()]), titles(&now[moved]));
    Some(say!(locale, "difference-point", what = what, old = old, new = new))
}
