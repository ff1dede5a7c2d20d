//! A plan of any bytes is read, or refused with the places of its faults.

use arbitrary::Unstructured;
use liftgate_core::locale::{Language, Locale};
use liftgate_core::plan::{Plan, PlanFaults, lint};
use liftgate_core::readiness::Ledger;

use super::changed::changed;
use super::common::at_min;
use super::common::story::small_plan;

const SMALL: &[u8] = include_bytes!("../../tests/common/small_plan.toml");

/// Bytes as a plan file: any, or the tests' small plan with changes. Whether it was read.
pub fn plan(bytes: &[u8]) -> bool {
    let mut u = Unstructured::new(bytes);
    let text = match u.ratio(1, 4) {
        Ok(false) => changed(SMALL, &mut u),
        _ => Ok(u.take_rest().to_vec()),
    };
    // What is no text is refused before it is read, at its first wrong byte.
    let Some(text) = text.ok().and_then(|text| String::from_utf8(text).ok()) else { return false };
    match Plan::parse("own.toml", &text) {
        Ok(plan) => {
            is_whole(&plan);
            true
        }
        Err(faults) => {
            have_places(&faults, &text);
            false
        }
    }
}

/// The languages of the app.
fn locales() -> [Locale; 2] {
    Language::ALL.map(|language| Locale { language, ..Locale::default() })
}

fn have_places(faults: &PlanFaults, text: &str) {
    assert!(!faults.faults.is_empty(), "refused, and nothing is wrong with it");
    let lines: Vec<&str> = text.split('\n').collect();
    for fault in &faults.faults {
        let line = lines.get(fault.line - 1).unwrap_or_else(|| panic!("{fault:?} of {} lines", lines.len()));
        assert!((1..=line.chars().count() + 1).contains(&fault.column), "{fault:?} in '{line}'");
    }
    for locale in locales() {
        assert!(!faults.words(locale).is_empty());
    }
}

/// A plan that was read can be shown, compared and folded under.
fn is_whole(plan: &Plan) {
    let known = small_plan();
    for locale in locales() {
        for remark in lint(plan) {
            assert!(!remark.flaw.words(locale).is_empty());
        }
        let _ = (known.difference(plan, locale), plan.difference(&known, locale));
    }
    let _ = (known.loosened_by(plan), plan.loosened_by(&known));
    assert_eq!(plan.loosened_by(plan), [], "a plan asks less of nothing than it asks itself");
    let _ = Ledger::of(plan, &[]).at(plan, &at_min(0));
}
