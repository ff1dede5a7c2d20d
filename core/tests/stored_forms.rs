//! The stored form of every kind of entry: a change of it is seen here before it meets a journal that is years old.
//!
//! `snapshots/` holds what is written today. `snapshots/form_1.jsonl` holds what form 1 wrote, and is never edited, only added to: a
//! phone somewhere has it in its journal. When a form changes, its version goes up, [`StoredBody::read`] learns the step
//! from the old one, and a new file joins the old one here.
#![allow(clippy::unwrap_used)]

mod common;

use liftgate_core::unit::Unit;
use std::collections::{BTreeMap, BTreeSet};

use common::one_of_each;
use liftgate_core::locale::Locale;
use liftgate_core::record::{Author, Body, StoredBody, StoredFormError, ThingKind};
use serde_json::Value;

const FORM_1: &str = include_str!("snapshots/form_1.jsonl");

fn written(body: &Body) -> Value {
    let stored = StoredBody::write(body).unwrap();
    serde_json::from_str(&stored.json).unwrap()
}

#[test]
fn the_stored_form_of_every_kind() {
    for (number, body) in one_of_each().iter().enumerate() {
        let stored = StoredBody::write(body).unwrap();
        let name = format!("{number:02}_{}", stored.kind);
        insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true, sort_maps => true }, {
            insta::assert_json_snapshot!(name, written(body));
        });
    }
}

#[test]
fn every_kind_reads_back_and_is_sampled() {
    let mut kinds = BTreeSet::new();
    for body in one_of_each() {
        let stored = StoredBody::write(&body).unwrap();
        assert_eq!(stored.version, Body::VERSION);
        assert_eq!(written(&body)["kind"], stored.kind.as_str(), "the column repeats what the body says");
        assert_eq!(stored.read().unwrap(), body);
        kinds.insert(stored.kind);
    }
    // Asking for a kind that is not there makes serde list all that are; each must have its sample above.
    let unknown = serde_json::from_str::<Body>(r#"{"kind":"no-such-kind"}"#).unwrap_err().to_string();
    let known: BTreeSet<String> = unknown.split('`').skip(3).step_by(2).map(str::to_owned).collect();
    assert_eq!(known.len(), 44, "{known:?}");
    assert_eq!(kinds, known);
}

#[test]
fn what_form_1_wrote_keeps_reading() {
    let old: Vec<&str> = FORM_1.lines().collect();
    assert_eq!(old.len(), 26, "never edited");
    for (json, expected) in old.into_iter().zip(one_of_each()) {
        let kind = serde_json::from_str::<Value>(json).unwrap()["kind"].as_str().unwrap().to_owned();
        let stored = StoredBody { kind, version: 1, json: json.to_owned() };
        assert_eq!(stored.read().unwrap(), expected, "{json}");
    }
}

#[test]
fn what_is_not_there_is_read_as_nothing() {
    // Written by a phone that left out what was not entered: optional parts may be absent as well as null.
    let cases = [
        r#"{"kind":"check-recorded","check":"a","result":{"kind":"confirmed","passed":true}}"#,
        r#"{"kind":"setting-changed","setting":"a","after":"1","reason":"b"}"#,
        r#"{"kind":"thing-set","thing":{"kind":"pack","name":"P","numbers":{"cells":6}}}"#,
        r#"{"kind":"card-drawn","check":"a","pack":"P","head_speed_rpm":900,"planned_s":60,"air_c":15}"#,
        r#"{"kind":"landing-recorded","card":"01900000-0000-7000-8000-000000000007","temperatures":[]}"#,
    ];
    for json in cases {
        let kind = serde_json::from_str::<Value>(json).unwrap()["kind"].as_str().unwrap().to_owned();
        let stored = StoredBody { kind, version: 1, json: json.to_owned() };
        assert!(stored.read().is_ok(), "{json}: {:?}", stored.read());
    }
}

#[test]
fn a_newer_form_is_told_as_newer_whatever_is_in_it() {
    for json in [r#"{"kind":"started","card":"x","weather":"wet"}"#, "{}"] {
        let stored = StoredBody { kind: "started".into(), version: Body::VERSION + 1, json: json.into() };
        let error = stored.read().unwrap_err();
        assert_eq!(error, StoredFormError::Newer { kind: "started".into(), version: Body::VERSION + 1 });
        let words = error.to_string();
        assert!(words.contains("'started'") && words.contains("update the app") && words.contains("nothing is lost"));
    }
}

#[test]
fn what_cannot_be_read_says_which_and_why() {
    let read = |kind: &str, json: &str| {
        let stored = StoredBody { kind: kind.into(), version: 1, json: json.into() };
        match stored.read() {
            Err(StoredFormError::Unreadable { kind: named, reason }) => {
                assert_eq!(named, kind);
                reason
            }
            other => panic!("{kind}: {other:?}"),
        }
    };
    let unknown = read("weather-seen", r#"{"kind":"weather-seen","wind":3}"#);
    assert!(unknown.contains("knows no such entry") && unknown.contains("update the app"), "{unknown}");
    assert!(!unknown.contains("aircraft-named"), "not a list of all kinds: {unknown}");
    assert!(read("started", r#"{"kind":"started"}"#).contains("card"), "names the field that is missing");
    assert!(read("started", r#"{"kind":"started","card":"nobody"}"#).to_lowercase().contains("uuid"));
    read("started", "not json");
    read("started", "");
    let grade = r#"{"kind":"finding-raised","title":"a","grade":"dire","stage":"b","proof":"c","shown_by":null}"#;
    assert!(read("finding-raised", grade).contains("dire"));
}

#[test]
fn authors_and_units_keep_their_spelling() {
    let spelled = |author: Author| serde_json::to_string(&author).unwrap();
    assert_eq!(spelled(Author::Pilot), r#"{"role":"pilot"}"#);
    assert_eq!(spelled(Author::Spotter { name: "Sam".into() }), r#"{"role":"spotter","name":"Sam"}"#);
    // Stored with every reading, so a spelling is for ever.
    let spellings = [
        "kg", "g", "m", "mm", "V", "A", "W", "mAh", "C", "rpm", "%", "deg", "ohm", "s", "min", "N", "mm/s", "rpm/V",
        "count", "ratio", "Hz", "m/s", "g mm", "K", "K/W", "mohm", "hPa", "mm2",
    ];
    for spelling in spellings {
        let unit: Unit = serde_json::from_value(Value::String(spelling.into())).unwrap();
        assert_eq!(serde_json::to_value(unit).unwrap(), spelling);
    }
    let unknown = serde_json::from_str::<Unit>("\"no-such-unit\"").unwrap_err().to_string();
    assert_eq!(unknown.split('`').skip(3).step_by(2).count(), spellings.len(), "a new unit has its line here");
}

/// A number of a thing is stored under its name: one that is spelt anew is no longer found in any journal.
#[test]
fn the_names_of_things_numbers_are_for_ever() {
    let names = |kind: &ThingKind| {
        let fields = kind.fields().iter().map(|field| field.id());
        (kind.word(Locale::default()), fields.collect::<Vec<_>>().join(" "))
    };
    let named: Vec<(String, String)> = ThingKind::ALL.iter().map(names).collect();
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_json_snapshot!("numbers_of_things", named);
    });
    let mut numbers = BTreeMap::new();
    for field in ThingKind::ALL.iter().flat_map(|kind| kind.fields()) {
        let before = numbers.insert(field.id(), field.number);
        assert!(before.is_none_or(|before| before == field.number), "{} is the name of two numbers", field.id());
    }
}
