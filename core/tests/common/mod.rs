//! Small helpers that several tests share: moments, entries, and one sample of every kind of entry.
#![allow(dead_code, clippy::unwrap_used)]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta};
use liftgate_core::engineering::Grade;
use liftgate_core::record::{
    AircraftId, AttachedLog, AttachedPhoto, Author, Basis, Body, CheckResult, Entry, EntryId, FindingGrade, Gap,
    JudgedList, Judgement, MarkKind, Moment, NamedValue, Odd, OnAircraft, Outcome, Outlier, PackState, PhotoOf,
    Prediction, Reading, Thing, ThingKind, ThingRef, Until, Wind, WithoutPhone,
};
use liftgate_core::telemetry::summary::{ChannelLimit, FigureKind, LogFigure, Side};
use liftgate_core::telemetry::{ColumnMap, LogUnit, MappedColumn, Quantity, RowCounts, Span, TimeForm};
use liftgate_core::unit::Unit;
use uuid::Uuid;

/// Every Rust file under a folder, for tests that read the source.
pub fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    files_ending(folder, "rs", found);
}

/// Every file under a folder whose name ends so.
pub fn files_ending(folder: &Path, ending: &str, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files_ending(&path, ending, found);
        } else if path.extension().is_some_and(|extension| extension == ending) {
            found.push(path);
        }
    }
}

/// The day all tests begin on, at eight in the morning, two hours east of Greenwich.
pub fn morning() -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339("2026-05-04T08:00:00.000+02:00").unwrap()
}

/// A moment so many milliseconds after the first morning, on a phone that was not restarted.
pub fn at_ms(ms: i64) -> Moment {
    Moment { wall: morning() + TimeDelta::milliseconds(ms), monotonic_ms: 1_000 + ms, boot: "run-1".to_owned() }
}

/// A moment so many minutes after the first morning.
pub fn at_min(minutes: i64) -> Moment {
    at_ms(minutes * 60_000)
}

/// A moment on another day, at the same time.
pub fn on_day(day: i64) -> Moment {
    at_min(day * 24 * 60)
}

/// An entry id that a test can name; ids rise with the number.
pub fn id(number: u64) -> EntryId {
    EntryId(Uuid::from_u64_pair(0x0190_0000_0000_7000, 0x8000_0000_0000_0000 | number))
}

/// An entry as the fold reads it. Its id is [`id`] of its place.
pub fn entry(seq: i64, at: Moment, body: Body) -> Entry {
    Entry { seq, id: id(seq as u64), at, author: Author::Pilot, aircraft: AircraftId::FIRST, body }
}

/// A small change, for journals that only have to hold something.
pub fn change(what: &str) -> Body {
    Body::Changed { subjects: vec!["wiring".to_owned()], what: what.to_owned() }
}

/// One of every kind of entry, with every optional part filled where that adds to the form.
pub fn one_of_each() -> Vec<Body> {
    let card = id(7);
    let prediction = Prediction {
        used_mah: 1_450.0,
        low_mah: 1_200.5,
        high_mah: 1_700.25,
        from: "momentum theory and the figures of merit measured at this scale".to_owned(),
    };
    let thing = Thing {
        kind: ThingKind::Consumer,
        name: "Cyclic servo, left".to_owned(),
        of: Some("Receiver pack".to_owned()),
        numbers: BTreeMap::from([("low_v".to_owned(), 4.8), ("high_v".to_owned(), 8.4)]),
        last_day: None,
        note: None,
    };
    vec![
        Body::AircraftNamed { name: "Heron".to_owned(), builder: "Jo Ashdown".to_owned(), pilot: None },
        Body::PlanAdopted { plan: "small".to_owned(), edition: "1".to_owned(), text: "format = 1\n".to_owned() },
        Body::TraitChosen { question: "tail".to_owned(), choice: "open".to_owned() },
        Body::FigureSet { figure: "rotor-diameter".to_owned(), value: 1.83, basis: Basis::Measured, reason: None },
        Body::ThingSet { thing, on_aircraft: OnAircraft::NotSaid },
        Body::ThingRemoved {
            thing: ThingRef { kind: ThingKind::BallastPlace, name: "Nose tray".to_owned() },
            instead: None,
            witness: None,
            on_aircraft: OnAircraft::NotSaid,
        },
        Body::Changed { subjects: vec!["part:belt".to_owned(), "wiring".to_owned()], what: "New belt".to_owned() },
        Body::SettingChanged {
            setting: "tail-gain".to_owned(),
            before: Some("42".to_owned()),
            after: "38".to_owned(),
            reason: "It wags".to_owned(),
        },
        Body::CheckRecorded {
            check: "belt-tension".to_owned(),
            result: CheckResult::Confirmed { passed: true },
            witness: Some("Sam".to_owned()),
            note: Some("Both sides".to_owned()),
            alone: None,
        },
        Body::CheckRecorded {
            check: "fan-gap".to_owned(),
            result: CheckResult::Measured { value: -0.25, unit: Unit::Millimetre },
            witness: None,
            note: None,
            alone: None,
        },
        Body::CheckRecorded {
            check: "centre".to_owned(),
            result: CheckResult::Computed {
                summary: "12.5 mm ahead of the shaft".to_owned(),
                values: vec![NamedValue { name: "Centre ahead".to_owned(), value: 12.5, unit: Unit::Millimetre }],
                outcome: Outcome::Caution,
                judged: Vec::new(),
            },
            witness: None,
            note: None,
            alone: None,
        },
        Body::CardDrawn {
            check: "hover-low".to_owned(),
            pack: "Pack 1".to_owned(),
            further_packs: Vec::new(),
            not_full: None,
            head_speed_rpm: 900.0,
            planned_s: 120,
            air_c: 14.5,
            wind: None,
            prediction: Some(prediction.clone()),
            allowed_s: None,
        },
        Body::HandedOver { card, spotter: "Sam".to_owned() },
        Body::Started { card },
        Body::Marked { card, mark: MarkKind::Shake, elapsed_ms: 61_250 },
        Body::TouchedDown { card, elapsed_ms: 118_000 },
        Body::Resumed { card },
        Body::HandedBack { card },
        Body::LandingRecorded {
            card,
            pack_used_mah: Some(1_480.0),
            temperatures: vec![Reading { place: "motor".to_owned(), celsius: 61.5, after_s: 40 }],
            notes: Some("Steady".to_owned()),
            confirmed: Vec::new(),
            judgement: Judgement::NotAsked,
            slip: None,
        },
        Body::DisagreementExplained { card, why: "Gusts".to_owned(), used_mah: None },
        Body::FindingRaised {
            title: "Shake at 900".to_owned(),
            grade: FindingGrade::Caution,
            stage: "hover-ladder".to_owned(),
            proof: "hover-low".to_owned(),
            shown_by: Some(id(9)),
            proposed_from: None,
        },
        Body::FindingFixed {
            finding: id(10),
            what: "Blades balanced".to_owned(),
            subjects: vec!["part:main-blades".to_owned()],
        },
        Body::FindingCarried {
            finding: id(10),
            restriction: "Not above 900 rpm".to_owned(),
            reason: "Parts on order".to_owned(),
            by: "Jo Ashdown".to_owned(),
            until: Until::Flights(3),
        },
        Body::FindingCarried {
            finding: id(10),
            restriction: "No wind above 4 m/s".to_owned(),
            reason: "Parts on order".to_owned(),
            by: "Jo Ashdown".to_owned(),
            until: Until::Date(NaiveDate::from_ymd_opt(2026, 5, 31).unwrap()),
        },
        Body::GateReleased {
            stage: "bench".to_owned(),
            by: "Jo Ashdown".to_owned(),
            evidence: vec![("belt-tension".to_owned(), id(3)), ("fan-gap".to_owned(), id(4))],
        },
        Body::Withdrawn { entry: id(3), reason: "Wrong line".to_owned() },
        // Kinds that came later, in the order in which they came.
        Body::Unmarked { card, mark: id(9) },
        Body::CodeRefused { card },
        Body::WaitBegun { card },
        Body::OpenedWithoutCode { card },
        Body::CodeSet { hash: "$argon2id$v=19$m=19456,t=2,p=1$c2FsdA$aGFzaA".to_owned() },
        Body::CodeRemoved {},
        Body::PackCharged { pack: "Pack 1".to_owned(), put_back_mah: Some(1_510.0) },
        Body::LogAttached { card, log: Box::new(attached_log()) },
        // What form 1 learnt later: new kinds and new optional parts stand at the end.
        Body::Happened { event: "hard-landing".to_owned(), note: Some("Left skid first".to_owned()) },
        Body::FigureSet {
            figure: "service-head-speed".to_owned(),
            value: 1_180.0,
            basis: Basis::Measured,
            reason: Some("It sounds calmer".to_owned()),
        },
        Body::CheckRecorded {
            check: "screws".to_owned(),
            result: CheckResult::Confirmed { passed: true },
            witness: None,
            note: None,
            alone: Some("Sam is ill".to_owned()),
        },
        Body::FindingRaised {
            title: "Controller above its prediction at 1060 rpm".to_owned(),
            grade: FindingGrade::Caution,
            stage: "hover-ladder".to_owned(),
            proof: "hover-service".to_owned(),
            shown_by: Some(id(9)),
            proposed_from: Some(Outlier { reading: "place:controller".to_owned(), above: true }),
        },
        Body::LogAttached { card, log: Box::new(log_with_a_limit()) },
        Body::MarkAnswered { card, mark: id(9), words: "A gust".to_owned() },
        Body::CardDrawn {
            check: "full-length".to_owned(),
            pack: "Pack 1".to_owned(),
            further_packs: Vec::new(),
            not_full: None,
            head_speed_rpm: 1_200.0,
            planned_s: 330,
            air_c: 14.5,
            wind: None,
            prediction: None,
            allowed_s: Some(344),
        },
        Body::LandingRecorded {
            card,
            pack_used_mah: Some(12_400.0),
            temperatures: Vec::new(),
            notes: None,
            confirmed: vec![Odd::ChargeOverPack, Odd::NoWarmerThanAir],
            judgement: Judgement::NotSo { why: "A wag in the climb".to_owned() },
            slip: Some("The gun was on the cowling".to_owned()),
        },
        Body::LandingWaived { card, reason: "The thermometer broke".to_owned() },
        Body::RestartedInFlight { card },
        Body::FlownTold { card, flown_s: 241, without_phone: None },
        Body::ThingRemoved {
            thing: ThingRef { kind: ThingKind::Consumer, name: "Cyclic servo, left".to_owned() },
            instead: Some("A servo that takes less".to_owned()),
            witness: Some("Sam".to_owned()),
            on_aircraft: OnAircraft::Changed,
        },
        Body::PackNoted { pack: "Pack 1".to_owned(), state: PackState::Swollen },
        Body::AircraftNamed {
            name: "Heron".to_owned(),
            builder: "Jo Ashdown".to_owned(),
            pilot: Some("Kim Ashdown".to_owned()),
        },
        Body::DisagreementExplained { card, why: "Gusts all along".to_owned(), used_mah: Some(1_712.0) },
        Body::ListDeclared { list: ThingKind::Wire, count: 7, idle: vec!["Spare lead".to_owned()] },
        Body::CheckRecorded {
            check: "wire-runs".to_owned(),
            result: CheckResult::Computed {
                summary: "The tail lead drops 0.1 V".to_owned(),
                values: Vec::new(),
                outcome: Outcome::Pass,
                judged: vec![JudgedList { list: ThingKind::Wire, count: 7 }],
            },
            witness: None,
            note: None,
            alone: None,
        },
        Body::FlownTold {
            card,
            flown_s: 225,
            without_phone: Some(WithoutPhone { down_ago_s: 600, spotter: "Sam".to_owned() }),
        },
        Body::CellsRead { pack: "Pack 1".to_owned(), low_v: 4.17, high_v: 4.19 },
        Body::CardDrawn {
            check: "hover-low".to_owned(),
            pack: "Pack 1".to_owned(),
            further_packs: vec!["Pack 2".to_owned()],
            not_full: Some("A hop of half a minute".to_owned()),
            head_speed_rpm: 900.0,
            planned_s: 120,
            air_c: 14.5,
            wind: None,
            prediction: None,
            allowed_s: None,
        },
        Body::EmergencyNoted { call: "112".to_owned(), address: "Mill Lane 4, through the second gate".to_owned() },
        Body::Illegible {},
        Body::Repaired {
            gaps: vec![Gap { first: 3, last: 4 }],
            may_lack_last: true,
            lost_logs: vec!["0f".repeat(32)],
        },
        Body::PhotoAttached {
            of: PhotoOf::Check("strap-condition".to_owned()),
            photo: AttachedPhoto {
                name: "IMG_0042.jpg".to_owned(),
                bytes: 3_145_728,
                sha256: "1e".repeat(32),
                width_px: 3_000,
                height_px: 4_000,
                taken: NaiveDate::from_ymd_opt(2026, 3, 7).and_then(|day| day.and_hms_opt(9, 58, 12)),
            },
        },
        Body::CardDrawn {
            check: "hover-low".to_owned(),
            pack: "Pack 1".to_owned(),
            further_packs: Vec::new(),
            not_full: None,
            head_speed_rpm: 900.0,
            planned_s: 120,
            air_c: 14.5,
            wind: Some(Wind::Beaufort(2)),
            prediction: None,
            allowed_s: None,
        },
        Body::CardDrawn {
            check: "hover-low".to_owned(),
            pack: "Pack 1".to_owned(),
            further_packs: Vec::new(),
            not_full: None,
            head_speed_rpm: 900.0,
            planned_s: 120,
            air_c: 14.5,
            wind: Some(Wind::MetresPerSecond(3.4)),
            prediction: None,
            allowed_s: None,
        },
        Body::ThingSet {
            thing: Thing {
                kind: ThingKind::Paper,
                name: "Insurance".to_owned(),
                of: None,
                numbers: BTreeMap::from([("sort".to_owned(), 2.0)]),
                last_day: NaiveDate::from_ymd_opt(2027, 6, 30),
                note: Some("No. 4711, in the field box".to_owned()),
            },
            on_aircraft: OnAircraft::NotSaid,
        },
        Body::AircraftBegun { plan: "small".to_owned(), edition: "1".to_owned(), text: "format = 1\n".to_owned() },
    ]
}

fn log_with_a_limit() -> AttachedLog {
    let mut log = attached_log();
    log.figures[0].kind = FigureKind::PastLimit;
    log.figures[0].limit = Some(ChannelLimit {
        quantity: Quantity::Temperature,
        place: Some("controller".to_owned()),
        value: 80.0,
        side: Side::Above,
        grade: Grade::Caution,
        basis: "the maker's rating".to_owned(),
    });
    log
}

/// A log as it is attached.
pub fn attached_log() -> AttachedLog {
    let column = MappedColumn {
        column: 1,
        label: "Current".to_owned(),
        quantity: Quantity::PackCurrent,
        unit: LogUnit::Ampere,
        place: None,
        ratio: 1.0,
    };
    AttachedLog {
        name: "hover.csv".to_owned(),
        bytes: 73_210,
        sha256: "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08".to_owned(),
        map: ColumnMap {
            fingerprint: "00112233445566778899aabbccddeeff".to_owned(),
            time_column: Some(0),
            time_form: TimeForm::Milliseconds,
            columns: vec![column],
        },
        rows: RowCounts { found: 1_200, imported: 1_199, left_out: 1, restarts: 1, ..RowCounts::default() },
        fault_count: 1,
        faults: vec!["row 302, column 1 (Time): no time, row left out".to_owned()],
        figures: vec![LogFigure {
            kind: FigureKind::Peak,
            channel: Some(0),
            value: 90.0,
            unit: "A".to_owned(),
            half_width: None,
            span: Span { start_s: 79.0, end_s: 81.0 },
            grade: Some(Grade::Caution),
            note: "above 80 A: the maker's rating".to_owned(),
            limit: None,
        }],
    }
}

pub mod oracle;
pub mod story;
