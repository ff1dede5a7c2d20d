//! Readiness: what the rules of the domain promise, each by a story, and all of them by random histories that are held
//! against a second, slow reading of the same rules (`common/oracle.rs`).
#![allow(clippy::unwrap_used)]

mod common;

use common::oracle::{GateIs, Is, Truth};
use common::story::{Flown, LISTS, OTHER_UNIT, Story, celsius};
use common::{at_ms, id};
use liftgate_core::field::{Timed, Unanswered};
use liftgate_core::plan::{Check, CheckKind};
use liftgate_core::readiness::{
    Blocker, Deed, Fault, FindingState, Gate, Lack, Ledger, PaperIs, Reason, Report, Seat, Source, Standing,
    Withdrawals,
};
use liftgate_core::record::{
    AircraftId, Author, Body, CheckResult, Entry, EntryId, FindingGrade, JudgedList, Judgement, MarkKind, OnAircraft,
    Outcome, PackState, Thing, ThingKind, ThingNumber, ThingRef, Until, WithoutPhone,
};
use liftgate_core::unit::Unit;
use proptest::prelude::*;

const LADDER: [&str; 3] = ["bench", "fit", "ladder"];

fn reasons(standing: Standing) -> Vec<Reason> {
    match standing {
        Standing::Stale { reasons } => reasons,
        other => panic!("expected stale, got {other:?}"),
    }
}

fn is_released(story: &Story, stage: &str) -> bool {
    matches!(story.gate(stage), Gate::Released(_))
}

fn is_lapsed(story: &Story, stage: &str) -> bool {
    matches!(story.gate(stage), Gate::Lapsed { .. })
}

fn holds(story: &Story, check: &str) -> bool {
    story.standing(check).holds()
}

fn checks_in(blockers: &[Blocker]) -> Vec<String> {
    let check = |blocker: &'_ Blocker| match blocker {
        Blocker::Check { check, .. } => Some(check.clone()),
        _ => None,
    };
    blockers.iter().filter_map(check).collect()
}

// ------------------------------------------------------------------------------------ from nothing to released

#[test]
fn with_nothing_recorded_all_is_shut_and_the_board_knows_what_comes_first() {
    let story = Story::new();
    let report = story.report();
    assert!(LADDER.iter().all(|stage| matches!(report.gate(stage), Gate::Shut { .. })));
    assert_eq!(*report.gate("service"), Gate::None);
    let next = report.next.unwrap();
    assert_eq!(next.check, "run-up", "the first flight of the plan");
    // Names, questions, figures, checks of the first stage, its gate, then what comes later: the order to do them in.
    let words: Vec<String> = next.blockers.iter().map(|blocker| format!("{blocker:?}")).collect();
    assert_eq!(words[0], "Unnamed", "{words:?}");
    assert!(words[1].starts_with("Question(\"tail\")"), "{words:?}");
    let place =
        |what: &str| words.iter().position(|w| w.contains(what)).unwrap_or_else(|| panic!("{what}: {words:?}"));
    assert!(place("speed") < place("\"look\"") && place("\"look\"") < place("\"gap\""));
    assert!(place("\"load\"") < place("Gate(\"bench\")") && place("Gate(\"bench\")") < place("\"weigh\""));
    assert!(!words.iter().any(|w| w.contains("shroud")), "not asked for before the question is answered");
    assert!(!words.iter().any(|w| w.contains("reach")), "a figure that is not required holds nothing up");
    assert!(!words.iter().any(|w| w.contains("polish")), "nor does a check that is not mandatory");
}

#[test]
fn the_way_into_service_counts_what_is_done_and_ends_with_the_last_release() {
    let story = Story::new();
    let way = |story: &Story| {
        let ledger = Ledger::of(&story.plan, &story.entries);
        ledger.way_ahead(&story.plan, &ledger.at(&story.plan, &story.now))
    };
    let new = way(&story).unwrap();
    assert_eq!(new.stages.iter().map(|stage| stage.stage.as_str()).collect::<Vec<_>>(), LADDER);
    assert!(new.here == 0 && new.stages.iter().all(|stage| stage.done == 0 && stage.wanted > 0), "{new:?}");
    // Names, two questions, three figures that every aircraft has, and the checks.
    let checks = new.stages[0].wanted - 6;
    let (low, high) = (new.stages[0].left.low_min, new.stages[0].left.high_min);
    assert!(low >= 3.0 + checks as f64 && high <= 12.0 + 60.0 * checks as f64, "{new:?}");
    let released = Story::released();
    assert_eq!(way(&released), None, "every gate was released");
    // Any prefix is a way, which is never longer than the whole.
    for count in 0..released.entries.len() {
        let ledger = Ledger::of(&released.plan, &released.entries[..count]);
        let Some(way) = ledger.way_ahead(&released.plan, &ledger.at(&released.plan, &released.now)) else { continue };
        assert!(way.stages.iter().all(|stage| stage.done <= stage.wanted), "{way:?}");
        assert!(way.left().low_min <= way.left().high_min);
    }
}

#[test]
fn without_a_pack_that_may_be_flown_something_stands_before_the_next_flight() {
    let mut story = Story::released();
    let stands = |story: &Story| story.report().next.unwrap().blockers.contains(&Blocker::NoPack);
    assert!(stands(&story), "its card is shut");
    story.pack("Pack 1", 6.0);
    assert!(!stands(&story));
    story.add(Body::PackNoted { pack: "Pack 1".into(), state: PackState::Swollen });
    assert!(stands(&story), "what is damaged is flown no more");
    story.pack("Pack 2", 6.0);
    assert!(!stands(&story));
}

#[test]
fn one_walk_releases_every_gate_in_order() {
    let story = Story::released();
    assert!(LADDER.iter().all(|stage| is_released(&story, stage)));
    let next = story.report().next.unwrap();
    assert_eq!(next.check, "season", "then flights go on for ever");
}

#[test]
fn a_gate_without_its_evidence_cannot_be_released_even_if_the_entry_is_there() {
    let mut story = Story::new();
    story.release("bench");
    assert!(is_lapsed(&story, "bench"), "an entry from elsewhere opens nothing");
    story.release("ladder");
    assert!(is_lapsed(&story, "ladder"));
    story.pass("look");
    assert!(!story.gate("bench").may_be_released());
}

// ------------------------------------------------------------------------------------------------ staleness

#[test]
fn a_change_makes_stale_what_rests_on_it_and_nothing_else() {
    let mut story = Story::released();
    story.pass("belt");
    story.change("part:motor");
    for check in ["look", "run-up"] {
        let why = reasons(story.standing(check));
        let named = |r: &Reason| matches!(r, Reason::Changed { subject, what, .. } if subject == "Motor" && *what == Deed::Work("worked on".into()));
        assert!(why.iter().any(named), "{check} says what was touched and how: {why:?}");
    }
    // By way of another check's evidence, as far as it goes.
    for check in ["track", "rung-1", "rung-2", "review"] {
        assert!(matches!(reasons(story.standing(check))[..], [Reason::RestsOn { .. }]), "{check}");
    }
    for check in ["gap", "load", "weigh", "preflight", "belt"] {
        assert!(holds(&story, check), "{check} does not rest on the motor");
    }
}

#[test]
fn each_reason_is_told_and_each_once() {
    let mut story = Story::released();
    story.change("part:blades");
    story.change("part:blades");
    story.setting("gain", "40");
    let changed = |story: &Story| -> Vec<String> {
        let all = reasons(story.standing("rung-1")).into_iter();
        all.filter_map(|reason| match reason {
            Reason::Changed { subject, .. } => Some(subject),
            _ => None,
        })
        .collect()
    };
    assert_eq!(changed(&story), ["Blades", "Gain"], "the hundredth change of a thing adds nothing to read");
    story.happened("thump");
    story.happened("thump");
    let gap = reasons(story.standing("gap"));
    assert!(matches!(gap[..], [Reason::Changed { .. }, Reason::Happened { .. }]), "{gap:?}");
}

#[test]
fn each_kind_of_thing_touches_what_rests_on_it() {
    // (what happens, what goes stale directly)
    type Happens = fn(&mut Story) -> EntryId;
    let cases: [(Happens, &[&str]); 8] = [
        (|s| s.change("part:blades"), &["gap", "track", "rung-1", "rung-2"]),
        (|s| s.change("wiring"), &["load"]),
        (|s| s.change("mass"), &["weigh", "rung-2"]),
        (|s| s.setting("gain", "40"), &["rung-1"]),
        (|s| s.setting("trim", "2"), &["rung-2"]),
        (|s| s.figure("all-up", 16.0), &["weigh"]),
        (|s| s.figure("speed", 1_000.0), &["rung-2"]),
        (|s| s.pack("Pack 1", 12.0), &["rung-2"]),
    ];
    for (number, (happens, directly)) in cases.into_iter().enumerate() {
        let mut story = Story::released();
        happens(&mut story);
        let report = story.report();
        let touched: Vec<&str> = report
            .standings
            .iter()
            .filter(|(_, standing)| match standing {
                Standing::Stale { reasons } => reasons.iter().any(|r| matches!(r, Reason::Changed { .. })),
                _ => false,
            })
            .map(|(check, _)| check.as_str())
            .collect();
        let mut expected = directly.to_vec();
        expected.sort_unstable();
        assert_eq!(touched, expected, "case {number}");
    }
}

#[test]
fn writing_the_same_again_changes_nothing() {
    let mut story = Story::released();
    story.setting("gain", "40");
    story.pack("Pack 1", 12.0);
    story.walk_until(|report| matches!(report.gate("ladder"), Gate::Released(_)));
    story.setting("gain", "40");
    story.pack("Pack 1", 12.0);
    story.figure("all-up", 15.0);
    assert!(is_released(&story, "ladder"), "the same value once more is no change");
    story.setting("gain", "41");
    assert!(is_lapsed(&story, "ladder"));
}

#[test]
fn evidence_recorded_anew_makes_stale_what_rested_on_the_old() {
    let mut story = Story::released();
    story.fly("run-up");
    // Nothing was changed, yet the track was set against another run than the one that now counts.
    assert!(matches!(reasons(story.standing("track"))[..], [Reason::RestsOn { .. }]));
    story.pass("track");
    assert!(holds(&story, "track"));
}

#[test]
fn evidence_runs_out_by_day_by_runs_and_by_hours() {
    let mut story = Story::released();
    story.pass("preflight");
    story.pass("belt");
    assert!(holds(&story, "preflight") && holds(&story, "belt"));
    story.wait_days(1);
    assert!(reasons(story.standing("preflight")).contains(&Reason::DayOver));
    story.wait_days(3);
    assert!(holds(&story, "belt"), "five days are not over after four");
    story.wait_days(1);
    assert!(reasons(story.standing("belt")).contains(&Reason::DaysOver(5)));

    story.pass("preflight");
    story.pass("belt");
    story.fly("season");
    assert!(holds(&story, "belt"), "two runs are not flown after one");
    story.fly("season");
    assert_eq!(reasons(story.standing("belt")), [Reason::RunsFlown(2)]);

    // The second rung holds for 0.2 h with the motor on, its own run not among them.
    let mut story = Story::released();
    let six = Flown { minutes: 6, ..Flown::default() };
    story.fly_as("season", &six);
    assert!(holds(&story, "rung-2"), "6 min of 12");
    story.fly_as("season", &six);
    assert_eq!(reasons(story.standing("rung-2")), [Reason::HoursFlown(0.2)]);
}

#[test]
fn a_paper_ends_what_rests_on_it_the_day_after_its_last_and_its_gate_with_it() {
    let mut story = Story::released();
    story.paper("Insurance", Some(12));
    story.paper("Permission", None);
    assert!(holds(&story, "gap") && is_released(&story, "bench"), "a paper more takes nothing away");
    story.wait_days(12);
    assert!(holds(&story, "gap") && is_released(&story, "bench"), "it is good on its last day");
    let last_day = story.now.wall.date_naive();
    story.wait_days(1);
    let over = Reason::PaperOver { paper: "Insurance".into(), last_day };
    assert_eq!(reasons(story.standing("gap")), std::slice::from_ref(&over));
    assert!(is_lapsed(&story, "bench"));
    assert!(holds(&story, "look"), "what does not rest on the papers stands");
    // Renewed after it was over: that was seen by nobody yet.
    story.paper("Insurance", Some(300));
    assert_eq!(reasons(story.standing("gap")), [over]);
    story.pass("gap");
    assert!(holds(&story, "gap"));
    story.remove(ThingKind::Paper, "Insurance");
    assert!(!holds(&story, "gap"), "a paper that is gone is asked about");
}

#[test]
fn a_paper_that_is_renewed_in_time_sends_nothing_back() {
    let mut story = Story::released();
    story.paper("Insurance", Some(5));
    story.wait_days(4);
    story.paper("Insurance", Some(300));
    story.wait_days(4);
    assert!(holds(&story, "gap") && is_released(&story, "bench"));
}

#[test]
fn a_clock_set_back_makes_no_paper_good_again() {
    let mut story = Story::released();
    story.paper("Insurance", Some(1));
    story.wait_days(2);
    story.change("part:nothing-rests-on-this");
    story.set_clock(-2);
    assert!(matches!(reasons(story.standing("gap"))[..], [Reason::PaperOver { .. }]));
    let is = story.ledger().papers(&story.now).iter().map(|(_, is)| *is).collect::<Vec<_>>();
    assert_eq!(is, [PaperIs::Over], "the day is reckoned by what was shown already");
}

#[test]
fn a_paper_is_told_from_thirty_days_before_its_end() {
    for (good_days, is) in [
        (Some(31), PaperIs::Good),
        (Some(30), PaperIs::EndsSoon { days: 30 }),
        (Some(0), PaperIs::EndsSoon { days: 0 }),
        (Some(-1), PaperIs::Over),
        (None, PaperIs::WithoutEnd),
    ] {
        let mut story = Story::new();
        story.paper("Insurance", good_days);
        assert_eq!(story.ledger().papers(&story.now)[0].1, is, "{good_days:?}");
    }
}

#[test]
fn a_clock_set_back_neither_ages_nor_renews() {
    let mut story = Story::released();
    story.pass("preflight");
    story.set_clock(-400);
    assert!(holds(&story, "preflight") && is_released(&story, "ladder"), "nothing ages by a clock set back");
    story.set_clock(400);

    // A day passed and something was recorded on it: that day was there.
    story.wait_days(1);
    story.change("part:nothing-rests-on-this");
    assert!(!holds(&story, "preflight"));
    story.set_clock(-1);
    assert_eq!(reasons(story.standing("preflight")), [Reason::DayOver], "yesterday does not come back");
    story.pass("preflight");
    assert!(holds(&story, "preflight"), "done again it holds, whatever the clock shows");
}

#[test]
fn evidence_by_days_stays_run_out_with_the_clock_set_back_and_its_gate_too() {
    let mut story = Story::released();
    story.wait_days(30);
    assert!(is_lapsed(&story, "fit") && is_lapsed(&story, "ladder"), "the run-up holds for 30 days");
    story.change("part:nothing-rests-on-this");
    story.set_clock(-30);
    assert_eq!(reasons(story.standing("run-up")), [Reason::DaysOver(30)]);
    assert!(is_lapsed(&story, "fit"));
}

// ---------------------------------------------------------------------------------------------------- gates

#[test]
fn a_lapsed_gate_stays_lapsed_until_it_is_released_again_and_takes_the_later_ones_along() {
    let mut story = Story::released();
    story.change("wiring");
    assert!(LADDER.iter().all(|stage| is_lapsed(&story, stage)), "the later ones stand on the first");
    story.pass("load");
    // Renewed evidence is not a decision: only the pilot releases.
    let Gate::Lapsed { blockers, release } = story.gate("bench") else { panic!("{:?}", story.gate("bench")) };
    assert!(blockers.is_empty() && story.gate("bench").may_be_released());
    assert!(release.lapsed.is_some(), "it keeps what took the ground from under it");
    story.release("bench");
    assert!(is_released(&story, "bench"));
    assert!(is_lapsed(&story, "fit") && is_lapsed(&story, "ladder"), "each is its own decision");
    assert!(!story.gate("ladder").may_be_released(), "and not before the one before it");
    story.release("fit");
    story.release("ladder");
    assert!(LADDER.iter().all(|stage| is_released(&story, stage)));
}

#[test]
fn a_release_that_is_taken_back_brings_back_none_that_had_lapsed() {
    let change_and_wait = |story: &mut Story| {
        let change = story.change("wiring");
        story.wait_minutes(60);
        change
    };
    // Released twice, lapsed, and the ground taken back.
    let mut story = Story::released();
    let twice = story.release("bench");
    let change = change_and_wait(&mut story);
    story.withdraw(change);
    assert!(is_lapsed(&story, "bench"));
    story.wait_minutes(60);
    story.withdraw(twice);
    assert!(is_lapsed(&story, "bench"), "the release before it had lapsed by the same change");

    // Lapsed, released anew, and first the ground taken back, then the release.
    let mut story = Story::released();
    let change = change_and_wait(&mut story);
    story.pass("load");
    let anew = story.release("bench");
    story.wait_minutes(60);
    story.withdraw(change);
    assert!(is_released(&story, "bench"));
    story.wait_minutes(60);
    story.withdraw(anew);
    assert!(is_lapsed(&story, "bench"), "what had lapsed waits for the pilot");
}

#[test]
fn evidence_that_ran_out_is_renewed_by_a_new_release_only() {
    let mut story = Story::released();
    story.wait_days(20);
    // The very entry that renews it is the first one after it ran out.
    story.pass("weigh");
    assert!(holds(&story, "weigh") && holds(&story, "run-up"));
    assert!(is_lapsed(&story, "fit"), "for a moment its gate stood on nothing");
    assert!(story.gate("fit").may_be_released());
    story.release("fit");
    assert!(is_released(&story, "fit"));
    // The same for a flight.
    story.wait_days(11);
    story.fly("run-up");
    assert!(holds(&story, "run-up"));
    assert!(is_lapsed(&story, "fit") && story.gate("fit").may_be_released());
}

#[test]
fn a_changed_answer_brings_its_checks_and_lapses_the_gate() {
    let mut story = Story::released();
    assert!(!story.report().standings.contains_key("shroud"));
    story.answer("tail", "shrouded");
    assert!(is_lapsed(&story, "bench"));
    story.pass("shroud");
    assert!(!story.gate("bench").may_be_released(), "and its figure");
    story.figure("duct", 3.0);
    story.release("bench");
    assert!(is_released(&story, "bench"));
}

#[test]
fn a_figure_that_judges_a_reading_judges_it_anew() {
    let mut story = Story::released();
    assert!(holds(&story, "weigh"));
    story.figure("all-up", 4.0);
    story.pass("weigh");
    assert!(matches!(story.standing("weigh"), Standing::Failed { .. }), "5 kg measured, 4 kg allowed");
}

#[test]
fn a_stop_is_not_released_past_and_a_caution_is_and_stays_in_sight() {
    let mut story = Story::released();
    story.measure("gap", 1.9);
    assert!(matches!(story.standing("gap"), Standing::Failed { .. }));
    assert!(!story.gate("bench").may_be_released());
    story.measure("gap", 2.0);
    assert_eq!(story.standing("gap"), Standing::Fresh { outcome: Outcome::Caution }, "at the stop is not past it");
    assert!(story.gate("bench").may_be_released());
    story.measure("gap", 3.0);
    assert_eq!(story.standing("gap"), Standing::Fresh { outcome: Outcome::Pass }, "at the caution is not past it");
}

#[test]
fn what_answers_another_question_is_no_evidence() {
    let mut story = Story::released();
    story.record("gap", CheckResult::Measured { value: 5.0, unit: OTHER_UNIT }, None);
    assert!(matches!(story.standing("gap"), Standing::Missing { .. }), "a reading in another unit");
    story.record("gap", CheckResult::Confirmed { passed: true }, None);
    assert!(matches!(story.standing("gap"), Standing::Missing { .. }), "a yes is no reading");
    story.record("look", CheckResult::Measured { value: 5.0, unit: Unit::Millimetre }, Some("Sam"));
    assert!(matches!(story.standing("look"), Standing::Missing { .. }), "a reading is no yes");
    story.record("rung-1", CheckResult::Confirmed { passed: true }, Some("Sam"));
    assert!(!holds(&story, "rung-1"), "a flight is not confirmed from a chair");
    story.record("look", CheckResult::Confirmed { passed: true }, None);
    assert!(matches!(story.standing("look"), Standing::Missing { .. }), "a second person has to have seen it");
    story.record("look", CheckResult::Confirmed { passed: true }, Some("Sam"));
    assert!(holds(&story, "look"));
}

// -------------------------------------------------------------------------------------------------- the ladder

#[test]
fn the_ladder_is_climbed_one_rung_at_a_time() {
    let mut story = Story::new();
    story.walk_until(|report| report.standing("track").holds());
    assert!(story.before("rung-1").is_empty() || checks_in(&story.before("rung-1")) == ["belt"]);
    if !story.before("rung-1").is_empty() {
        story.pass("belt");
    }
    let before = story.before("rung-2");
    assert_eq!(checks_in(&before), ["rung-1"], "{before:?}");

    let card = story.up_and_down("rung-1", &Flown::default());
    assert_eq!(story.before("rung-2")[0], Blocker::Landing(card), "flown, and nothing jotted yet");
    assert_eq!(story.before("rung-1"), [Blocker::Landing(card)], "nor is the same flown once more");
    story.land(card, &Flown { places: vec![], ..Flown::default() });
    assert_eq!(story.standing("rung-1"), Standing::Missing { lacking: vec![Lack::Titled("Motor".into())] });
    story.land(card, &Flown { used_mah: None, ..Flown::default() });
    assert!(matches!(story.standing("rung-1"), Standing::Missing { .. }), "no charge, no comparison");
    story.land(card, &Flown { used_mah: Some(1_101.0), ..Flown::default() });
    assert_eq!(story.standing("rung-1"), Standing::Unexplained { card });
    assert_eq!(checks_in(&story.before("rung-2")), ["rung-1"], "flown, and not as predicted");
    story.explain(card);
    assert!(holds(&story, "rung-1"));
    assert!(story.before("rung-2").is_empty());
    story.land(card, &Flown { celsius: 90.1, ..Flown::default() });
    assert!(matches!(story.standing("rung-1"), Standing::Failed { .. }), "past the motor's stop");
    story.land(card, &Flown { celsius: 90.0, used_mah: Some(900.0), ..Flown::default() });
    let standing = story.standing("rung-1");
    assert!(!matches!(standing, Standing::Unexplained { .. }), "the ends of the interval belong to it: {standing:?}");

    story.raise(FindingGrade::Caution, "rung-1");
    assert!(!story.before("rung-2").is_empty(), "a finding that blocks was left");
}

#[test]
fn recurring_checks_stand_before_flights_from_their_stage_on() {
    let mut story = Story::released();
    story.wait_days(6);
    let before = story.before("season");
    assert_eq!(checks_in(&before), ["preflight", "belt"]);
    assert_eq!(checks_in(&story.before("run-up")), ["preflight"], "the belt is asked for from the ladder on");
    assert!(is_released(&story, "ladder"), "and neither is part of a gate");
    story.measure("belt", 12.1);
    story.pass("preflight");
    assert_eq!(checks_in(&story.before("season")), ["belt"], "past its stop it stands in the way as well");
}

#[test]
fn what_is_not_flown_by_this_aircraft_stands_in_its_own_way() {
    let mut story = Story::released();
    story.pass("belt");
    for check in ["no-such-check", "look", "shroud"] {
        assert!(!story.before(check).is_empty(), "{check}");
    }
    assert!(story.before("rung-1").is_empty());
}

// ------------------------------------------------------------------------------------- what a flight proves

#[test]
fn a_run_counts_by_the_checks_own_minutes_whatever_its_card_planned() {
    let mut story = Story::released();
    let short = |story: &Story, check: &str| match story.standing(check) {
        Standing::Missing { lacking } => lacking.into_iter().find_map(|lack| match lack {
            Lack::LongerFlight(short) => Some((short.flown_s, short.wanted_s)),
            _ => None,
        }),
        _ => None,
    };
    let flown = |story: &mut Story, seconds: i64, allowed_s: Option<i64>| {
        let card = story.draw_allowed("rung-1", allowed_s);
        story.add(Body::Started { card });
        story.add(Body::TouchedDown { card, elapsed_ms: seconds * 1_000 });
        // What is expected of so short a flight is used, so that nothing else is amiss.
        let used_mah = Some(1_000.0 * seconds as f64 / 120.0);
        story.add(Body::HandedOver { card, spotter: "Sam".into() });
        story.add(Body::HandedBack { card });
        story.land(card, &Flown { used_mah, ..Flown::default() });
    };
    // The card plans 120 s, the check wants 90 s.
    flown(&mut story, 3, None);
    assert_eq!(short(&story, "rung-1"), Some((3, 90)));
    flown(&mut story, 80, None);
    assert_eq!(short(&story, "rung-1"), Some((80, 90)));
    flown(&mut story, 81, None);
    assert!(holds(&story, "rung-1"), "nine tenths: {:?}", story.standing("rung-1"));
    // A pack whose reserve allows less makes it shorter, but never by more than half.
    flown(&mut story, 71, Some(80));
    assert_eq!(short(&story, "rung-1"), Some((71, 80)));
    flown(&mut story, 72, Some(80));
    assert!(holds(&story, "rung-1"), "{:?}", story.standing("rung-1"));
    flown(&mut story, 40, Some(5));
    assert_eq!(short(&story, "rung-1"), Some((40, 45)));
}

#[test]
fn a_temperature_that_was_read_too_late_is_none_of_touchdown_and_still_a_stop() {
    let mut story = Story::released();
    let card = story.up_and_down("rung-1", &Flown::default());
    story.land(card, &Flown { after_s: 3 * 3_600, ..Flown::default() });
    let late = Lack::ReadTooLate { title: "Motor".into(), after_s: 3 * 3_600 };
    assert_eq!(story.standing("rung-1"), Standing::Missing { lacking: vec![late] });
    story.land(card, &Flown { after_s: 600, ..Flown::default() });
    assert!(holds(&story, "rung-1"));
    story.land(card, &Flown { after_s: 601, celsius: 95.0, ..Flown::default() });
    assert!(matches!(story.standing("rung-1"), Standing::Failed { .. }), "hotter then than it may ever be");
}

#[test]
fn a_landing_that_is_waived_frees_the_next_card_and_proves_nothing() {
    let mut story = Story::released();
    story.change("setting:gain");
    let card = story.up_and_down("rung-1", &Flown::default());
    story.pass("belt");
    assert_eq!(story.before("rung-1"), [Blocker::Landing(card)]);
    let waiver = story.waive(card);
    assert_eq!(story.before("rung-1"), []);
    assert!(!holds(&story, "rung-1"));
    story.withdraw(waiver);
    assert_eq!(story.before("rung-1"), [Blocker::Landing(card)], "taken back, it is asked for again");
    story.land(card, &Flown::default());
    assert!(holds(&story, "rung-1"));
    let card = story.draw("rung-1");
    story.waive(card);
    story.add(Body::Started { card });
    story.add(Body::TouchedDown { card, elapsed_ms: 90_000 });
    assert!(story.before("rung-1").contains(&Blocker::Landing(card)), "waived before it was down, it is not");
}

#[test]
fn a_check_that_wants_the_reserve_is_failed_by_a_landing_with_less() {
    let mut story = Story::released();
    story.pass("belt");
    story.fly("season");
    let lacking = vec![Lack::PackCapacity];
    assert_eq!(story.standing("season"), Standing::Missing { lacking }, "nobody said what the pack holds");
    story.pack("Pack 1", 6.0);
    // 1,300 mAh less the usual fifth is 1,040 mAh.
    for (used_mah, stands) in [(None, false), (Some(1_041.0), false), (Some(1_039.0), true)] {
        let card = story.up_and_down("season", &Flown::default());
        story.land(card, &Flown { used_mah, ..Flown::default() });
        assert_eq!(holds(&story, "season"), stands, "{used_mah:?}: {:?}", story.standing("season"));
    }
}

#[test]
fn a_landing_jotted_late_proves_what_was_flown_and_not_what_was_changed_since() {
    let mut story = Story::released();
    let card = story.up_and_down("rung-1", &Flown::default());
    story.change("part:blades");
    story.land(card, &Flown::default());
    assert!(
        reasons(story.standing("rung-1"))
            .iter()
            .any(|r| matches!(r, Reason::Changed { subject, .. } if subject == "Blades")),
        "those blades were never flown"
    );
}

#[test]
fn a_landing_jotted_again_after_a_fix_does_not_prove_the_fix() {
    let mut story = Story::released();
    let card = story.up_and_down("rung-1", &Flown::default());
    story.land(card, &Flown { celsius: 95.0, ..Flown::default() });
    let finding = story.raise(FindingGrade::Stop, "rung-1");
    story.fix(finding, &["part:blades"]);
    // A slip of the pen is put right on the old card; the flight is still the one before the fix.
    story.land(card, &Flown { celsius: 85.0, ..Flown::default() });
    assert!(matches!(story.state(finding), FindingState::Fixed { .. }), "{:?}", story.state(finding));
    assert!(!holds(&story, "rung-1"));
    let ready = story.pass("gap");
    assert!(ready > finding);
    story.release("bench");
    story.release("fit");
    story.pass("track");
    story.pass("preflight");
    story.pass("belt");
    assert_eq!(story.before("rung-1"), []);
    story.fly("rung-1");
    assert!(matches!(story.state(finding), FindingState::Proven { .. }));
}

#[test]
fn a_flight_from_before_a_fix_does_not_prove_it_however_late_it_is_jotted() {
    let mut story = Story::released();
    let card = story.up_and_down("rung-1", &Flown::default());
    let finding = story.raise(FindingGrade::Caution, "rung-1");
    story.fix(finding, &[]);
    story.land(card, &Flown::default());
    let to_prove = Reason::ToProve { finding: story.finding(finding).title };
    assert!(reasons(story.standing("rung-1")).contains(&to_prove), "{:?}", story.standing("rung-1"));
    assert!(matches!(story.state(finding), FindingState::Fixed { .. }));
}

#[test]
fn a_landing_jotted_again_is_the_evidence_in_the_place_of_the_first() {
    let mut story = Story::released();
    let card = story.up_and_down("rung-1", &Flown::default());
    story.land(card, &Flown { celsius: 95.0, ..Flown::default() });
    let again = story.land(card, &Flown::default());
    assert_eq!(story.ledger().evidence["rung-1"].entry, again);
    assert!(holds(&story, "rung-1"));
}

#[test]
fn the_landing_of_an_older_flight_takes_nothing_from_a_newer_one() {
    let mut story = Story::released();
    let old = story.up_and_down("rung-1", &Flown::default());
    story.fly("rung-1");
    story.land(old, &Flown { celsius: 95.0, ..Flown::default() });
    assert!(holds(&story, "rung-1"), "the newer flight is the evidence: {:?}", story.standing("rung-1"));
    assert_eq!(story.ledger().results["rung-1"].len(), 3, "and the older one stays readable");
}

#[test]
fn a_landing_without_a_touchdown_is_none() {
    let mut story = Story::released();
    story.change("setting:gain");
    let card = story.draw("rung-1");
    story.add(Body::HandedOver { card, spotter: "Sam".into() });
    story.land(card, &Flown::default());
    story.add(Body::TouchedDown { card, elapsed_ms: 60_000 });
    story.land(card, &Flown::default());
    assert!(!holds(&story, "rung-1"), "the motor was never started");
    let (runs, motor_ms) = (story.ledger().runs, story.ledger().motor_ms);
    story.add(Body::Started { card });
    story.add(Body::Started { card });
    story.add(Body::TouchedDown { card, elapsed_ms: 50_000 });
    story.add(Body::TouchedDown { card, elapsed_ms: 70_000 });
    assert_eq!((story.ledger().runs, story.ledger().motor_ms), (runs + 1, motor_ms + 50_000), "each counts once");
    story.add(Body::Resumed { card });
    assert_eq!(story.ledger().motor_ms, motor_ms, "a touchdown taken back is none");
    story.add(Body::TouchedDown { card, elapsed_ms: 90_000 });
    assert_eq!(story.ledger().motor_ms, motor_ms + 90_000);
}

#[test]
fn the_seat_goes_to_the_spotter_and_back() {
    let mut story = Story::released();
    let card = story.draw("season");
    story.add(Body::HandedOver { card, spotter: "Sam".into() });
    assert_eq!(story.ledger().seat, Seat::Spotter { card, name: "Sam".into() });
    story.add_by(Author::Spotter { name: "Sam".into() }, Body::HandedBack { card });
    assert_eq!(story.ledger().seat, Seat::Pilot);
    story.add(Body::HandedOver { card: id(9_999), spotter: "Nobody".into() });
    assert_eq!(story.ledger().seat, Seat::Pilot, "a card that is not there is handed to nobody");
}

// ------------------------------------------------------------------------------------------------- findings

#[test]
fn a_finding_closes_on_proof_and_on_nothing_else() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "load");
    assert_eq!(story.state(finding), FindingState::Open);
    assert!(is_lapsed(&story, "bench"), "it holds its gate shut");
    story.pass("load");
    assert_eq!(story.state(finding), FindingState::Open, "a pass without a fix proves nothing");
    story.fix(finding, &[]);
    assert!(matches!(story.state(finding), FindingState::Fixed { .. }));
    assert!(reasons(story.standing("load")).iter().any(|r| matches!(r, Reason::ToProve { .. })), "asked for again");
    assert!(!story.gate("bench").may_be_released(), "fixed is not proven");
    let stop =
        CheckResult::Computed { summary: "over".into(), values: vec![], outcome: Outcome::Stop, judged: vec![] };
    story.record("load", stop, None);
    assert_eq!(story.state(finding), FindingState::Open, "the fix did not hold");
    story.fix(finding, &["wiring"]);
    let proof = story.pass("load");
    assert_eq!(story.state(finding), FindingState::Proven { by: proof });
    assert_eq!(story.finding(finding).fixes.len(), 2, "both fixes stay readable");
    assert!(story.gate("bench").may_be_released());
    story.carry(finding, Until::Flights(1));
    assert_eq!(story.state(finding), FindingState::Proven { by: proof }, "what is proven is not carried");
}

#[test]
fn not_right_never_proves_a_fix_even_where_the_gate_would_take_it_as_a_caution() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "track");
    story.fix(finding, &[]);
    story.confirm("track", false);
    assert_eq!(story.standing("track"), Standing::Fresh { outcome: Outcome::Caution }, "a check of caution grade");
    assert_eq!(story.state(finding), FindingState::Open, "the pilot looked, and it is not right");
    story.fix(finding, &[]);
    story.confirm("track", true);
    assert!(matches!(story.state(finding), FindingState::Proven { .. }));
}

#[test]
fn not_right_proves_nothing_where_a_caution_would() {
    let text = include_str!("common/small_plan.toml").replacen(
        "witness = true # track",
        "witness = true\ncaution_proves = true",
        1,
    );
    let mut story = Story::released();
    story.plan = liftgate_core::plan::Plan::parse("proves.toml", &text).unwrap();
    let finding = story.raise(FindingGrade::Caution, "track");
    story.fix(finding, &[]);
    story.confirm("track", false);
    assert_eq!(story.state(finding), FindingState::Open, "looked at, and not right");
    story.fix(finding, &[]);
    let alone = story.confirm_alone("track", "Nobody there");
    assert_eq!(story.state(finding), FindingState::Proven { by: alone }, "right, though nobody else saw it");
}

#[test]
fn what_is_left_of_a_carried_finding_is_counted_in_runs() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "review");
    let left = |story: &Story| story.finding(finding).runs_left(&story.ledger());
    assert_eq!(left(&story), None, "it is not carried");
    story.carry(finding, Until::Flights(3));
    assert_eq!(left(&story), Some(3));
    story.fly("season");
    assert_eq!(left(&story), Some(2));
    (0..4).for_each(|_| {
        story.fly("season");
    });
    assert_eq!(left(&story), Some(0));
    story.carry(finding, Until::Date(story.today()));
    assert_eq!(left(&story), None, "carried by days");
}

#[test]
fn a_note_holds_nothing_a_caution_its_gate_and_all_flights() {
    let mut story = Story::released();
    story.raise(FindingGrade::Note, "load");
    assert!(is_released(&story, "ladder"));
    let finding = story.raise(FindingGrade::Caution, "review");
    assert!(is_lapsed(&story, "ladder") && is_released(&story, "fit"), "the gate of its own stage");
    for check in ["run-up", "rung-1", "season"] {
        assert!(story.before(check).contains(&Blocker::Finding(finding)), "{check}");
    }
}

#[test]
fn a_stop_finding_cannot_be_carried_nor_flown_past() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Stop, "rung-1");
    story.carry(finding, Until::Flights(50));
    assert_eq!(story.state(finding), FindingState::Open);
    for check in ["run-up", "rung-1", "rung-2", "season"] {
        assert!(story.before(check).contains(&Blocker::Finding(finding)), "{check}: not even its own");
    }
    story.fix(finding, &[]);
    story.carry(finding, Until::Flights(50));
    assert!(matches!(story.state(finding), FindingState::Fixed { .. }));
    assert!(!story.before("rung-1").contains(&Blocker::Finding(finding)), "its proof may be flown");
    assert!(story.before("rung-2").contains(&Blocker::Finding(finding)), "and nothing beyond it");
    assert!(story.before("season").contains(&Blocker::Finding(finding)));
}

#[test]
fn a_fix_that_touches_the_lower_rungs_can_be_climbed_back_to() {
    // The fix makes the run-up, the track and the first rung stale. If the finding held their flights, its proof on the
    // second rung could never be flown, and a stop cannot be carried: the aircraft would be on the ground for ever.
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Stop, "rung-2");
    story.fix(finding, &["part:motor", "part:blades"]);
    assert!(!holds(&story, "run-up") && !holds(&story, "rung-1"));
    story.walk_until(|report| matches!(report.gate("ladder"), Gate::Released(_)));
    assert!(matches!(story.state(finding), FindingState::Proven { .. }));
    // The same where the proof is read from the flight, at the table.
    let finding = story.raise(FindingGrade::Stop, "review");
    story.fix(finding, &["part:motor"]);
    story.walk_until(|report| matches!(report.gate("ladder"), Gate::Released(_)));
    assert!(matches!(story.state(finding), FindingState::Proven { .. }));
}

#[test]
fn a_fix_that_is_proved_on_the_bench_holds_every_flight_until_then() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "belt");
    story.fix(finding, &[]);
    for check in ["run-up", "rung-1", "season"] {
        assert!(story.before(check).contains(&Blocker::Finding(finding)), "{check}");
    }
    story.pass("belt");
    assert_eq!(story.before("rung-1"), []);
}

#[test]
fn a_carried_finding_lets_fly_for_so_many_runs() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "review");
    story.carry(finding, Until::Flights(2));
    let FindingState::Carried { restriction, .. } = story.state(finding) else { panic!() };
    assert_eq!(restriction, "Calm air only");
    assert!(story.gate("ladder").may_be_released());
    story.release("ladder");
    story.fly("season");
    assert!(is_released(&story, "ladder"));
    story.fly("season");
    assert!(is_lapsed(&story, "ladder"), "two runs are flown");
    story.pass("belt");
    assert!(story.before("season").contains(&Blocker::Finding(finding)));
    story.carry(finding, Until::Flights(1));
    assert!(!story.before("season").contains(&Blocker::Finding(finding)), "agreed anew");
    assert!(is_lapsed(&story, "ladder"), "and that is no release");
}

#[test]
fn a_carried_finding_lets_fly_through_a_day() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "review");
    let last = story.today() + chrono::TimeDelta::days(2);
    story.carry(finding, Until::Date(last));
    story.release("ladder");
    story.wait_days(2);
    assert!(is_released(&story, "ladder"), "through the day itself");
    story.change("part:nothing-rests-on-this");
    assert!(is_released(&story, "ladder"), "and through what is done on it");
    story.wait_days(1);
    assert!(is_lapsed(&story, "ladder"));
    assert!(story.before("season").contains(&Blocker::Finding(finding)));
    story.change("part:nothing-rests-on-this");
    story.set_clock(-3);
    assert!(story.before("season").contains(&Blocker::Finding(finding)), "a clock set back brings nothing back");
}

#[test]
fn a_fix_of_a_carried_finding_wants_its_proof() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "load");
    story.carry(finding, Until::Flights(20));
    story.fix(finding, &[]);
    assert!(matches!(story.state(finding), FindingState::Fixed { .. }));
    story.pass("load");
    assert!(matches!(story.state(finding), FindingState::Proven { .. }));
}

#[test]
fn a_proof_that_wants_an_explanation_proves_once_it_has_it() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Stop, "rung-1");
    story.fix(finding, &[]);
    let card = story.up_and_down("rung-1", &Flown::default());
    story.land(card, &Flown { used_mah: Some(1_200.0), ..Flown::default() });
    assert!(matches!(story.state(finding), FindingState::Fixed { .. }), "flown, and not understood");
    story.explain(card);
    assert!(matches!(story.state(finding), FindingState::Proven { .. }));
}

#[test]
fn the_first_gate_waits_for_names_and_one_that_was_released_without_them_stands() {
    let mut story = Story::new();
    story.walk_until(|report| report.gate("bench").may_be_released());
    let names = story.entries.iter().position(|entry| matches!(entry.body, Body::AircraftNamed { .. })).unwrap();
    story.withdraw(story.entries[names].id);
    assert_eq!(story.gate("bench"), Gate::Shut { blockers: vec![Blocker::Unnamed] });
    assert!(story.before("run-up").contains(&Blocker::Unnamed));
    story.release("bench");
    assert!(is_released(&story, "bench"), "as it was released before names were asked for");
    assert!(!story.before("run-up").contains(&Blocker::Unnamed));
    story.change("part:motor");
    assert!(is_lapsed(&story, "bench"));
    story.pass("look");
    assert!(!story.gate("bench").may_be_released(), "released anew, it wants them");
    for (name, builder, pilot) in [(" ", "Jo", None), ("Plover", "", None), ("Plover", "Jo", Some(" "))] {
        let pilot = pilot.map(str::to_owned);
        story.add(Body::AircraftNamed { name: name.into(), builder: builder.into(), pilot });
        assert!(!story.gate("bench").may_be_released(), "{name:?} {builder:?}");
    }
    story.add(Body::AircraftNamed { name: "Plover".into(), builder: "Jo".into(), pilot: None });
    assert!(story.gate("bench").may_be_released(), "who built it flies it, where nobody else is named");
}

#[test]
fn a_computation_over_a_list_lacks_the_word_that_it_is_complete() {
    let lacking = |lists: &[ThingKind]| Standing::Missing {
        lacking: lists.iter().map(|list| Lack::ListDeclared(*list)).collect(),
    };
    let mut story = Story::new();
    story.consumer("Tail servo", 1.0);
    story.record("load", computed(Outcome::Pass, story.judged()), None);
    assert_eq!(story.standing("load"), lacking(&LISTS));
    story.declare(ThingKind::Supply);
    assert_eq!(story.standing("load"), lacking(&[ThingKind::Consumer]));
    let said = story.declare(ThingKind::Consumer);
    assert!(holds(&story, "load"), "said after it was computed, of the same list");
    story.withdraw(said);
    assert_eq!(story.standing("load"), lacking(&[ThingKind::Consumer]));
    story.declare(ThingKind::Consumer);

    // What comes or goes opens its own list, and no other.
    story.consumer("Light", 0.5);
    story.record("load", computed(Outcome::Pass, story.judged()), None);
    assert_eq!(story.standing("load"), lacking(&[ThingKind::Consumer]));
    story.declare(ThingKind::Consumer);
    assert!(holds(&story, "load"));
    story.remove(ThingKind::Consumer, "Light");
    story.record("load", computed(Outcome::Pass, story.judged()), None);
    assert_eq!(story.standing("load"), lacking(&[ThingKind::Consumer]));
    story.pack("Pack 1", 6.0);
    story.declare(ThingKind::Consumer);
    story.pack("Pack 2", 6.0);
    assert!(holds(&story, "load"), "a pack is on another list");

    // What was changed is still all there is; what carries nothing since is asked about.
    story.consumer("Tail servo", 2.0);
    story.record("load", computed(Outcome::Pass, story.judged()), None);
    assert!(holds(&story, "load"));
    story.consumer("Tail servo", 0.0);
    story.record("load", computed(Outcome::Pass, story.judged()), None);
    assert_eq!(story.standing("load"), lacking(&[ThingKind::Consumer]));
    story.declare(ThingKind::Consumer);
    assert!(holds(&story, "load"), "asked about, and so");

    // A stop is a stop of however few; and what was computed before lists were declared counts as it did.
    story.consumer("Another", 9.0);
    story.record("load", computed(Outcome::Stop, story.judged()), None);
    assert!(matches!(story.standing("load"), Standing::Failed { .. }));
    story.record("load", computed(Outcome::Pass, Vec::new()), None);
    assert!(holds(&story, "load"));
}

#[test]
fn a_charge_further_out_than_the_interval_is_wide_wants_a_finding_and_no_words() {
    // Predicted are 900 to 1100 mAh: past 1300, or under 700.
    let flown = |used_mah: f64| {
        let mut story = Story::new();
        story.walk_until(|report| report.standing("track").holds());
        let card = story.up_and_down("rung-1", &Flown::default());
        let landing = story.land(card, &Flown { used_mah: Some(used_mah), ..Flown::default() });
        (story, card, landing)
    };
    for (used_mah, is_enough) in [(1_300.0, true), (1_301.0, false), (700.0, true), (699.0, false)] {
        let (mut story, card, landing) = flown(used_mah);
        story.explain(card);
        assert_eq!(holds(&story, "rung-1"), is_enough, "{used_mah}");
        if is_enough {
            continue;
        }
        story.raise_shown(FindingGrade::Note, "rung-1", Some(landing));
        assert_eq!(story.standing("rung-1"), Standing::Unexplained { card }, "a note holds nothing");
        story.raise(FindingGrade::Caution, "rung-1");
        assert_eq!(
            story.standing("rung-1"),
            Standing::Unexplained { card },
            "one of another flight says nothing of it"
        );
        let finding = story.raise_shown(FindingGrade::Caution, "rung-1", Some(landing));
        assert_eq!(story.standing("rung-1"), Standing::Fresh { outcome: Outcome::Caution });
        assert!(story.before("rung-2").contains(&Blocker::Finding(finding)), "the finding holds the next rung");
    }

    let (mut story, card, _) = flown(1_200.0);
    story.explain(card);
    story.land(card, &Flown { used_mah: Some(1_250.0), ..Flown::default() });
    assert_eq!(story.standing("rung-1"), Standing::Unexplained { card }, "another charge is not explained by it");

    let (mut story, card, _) = flown(4_000.0);
    story.explain_charge(card, None);
    assert!(holds(&story, "rung-1"), "as it counted when it was said");
}

#[test]
fn a_caution_proves_a_fix_only_where_the_plan_says_so() {
    let mut story = Story::released();
    // 2.5 mm is past the caution of 3 and not past the stop of 2.
    let finding = story.raise(FindingGrade::Caution, "gap");
    let fix = story.fix(finding, &[]);
    let tried = story.measure("gap", 2.5);
    assert_eq!(story.standing("gap"), Standing::Fresh { outcome: Outcome::Caution }, "the gate would take it");
    assert_eq!(story.state(finding), FindingState::Open, "and it proves nothing");
    let fix_2 = story.fix(finding, &[]);
    let proof = story.measure("gap", 3.0);
    assert_eq!(story.state(finding), FindingState::Proven { by: proof });
    let known: Vec<_> =
        story.finding(finding).tried.iter().map(|t| (t.fix, t.evidence, t.outcome, t.proved)).collect();
    let expected = [(fix, tried, Outcome::Caution, false), (fix_2, proof, Outcome::Pass, true)];
    assert_eq!(known, expected, "it knows what each fix came to");

    // 10 mm is past the caution of 8; the plan lets that prove.
    let finding = story.raise(FindingGrade::Caution, "belt");
    story.fix(finding, &[]);
    let proof = story.measure("belt", 10.0);
    assert_eq!(story.state(finding), FindingState::Proven { by: proof });
    // What is past a stop never does.
    let finding = story.raise(FindingGrade::Caution, "belt");
    story.fix(finding, &[]);
    story.measure("belt", 12.5);
    assert_eq!(story.state(finding), FindingState::Open);
}

#[test]
fn before_a_finding_that_awaits_its_proof_stands_what_the_proof_rests_on() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "track");
    story.fix(finding, &[]);
    story.change("part:blades");
    // The track rests on the run-up, and that on the look: both are sound. Now the ground goes.
    assert_eq!(story.before("season")[0], Blocker::Finding(finding));
    story.change("part:motor");
    let before = story.before("season");
    let place = |wanted: &dyn Fn(&Blocker) -> bool| before.iter().position(wanted).unwrap();
    let look = place(&|b| matches!(b, Blocker::Check { check, .. } if check == "look"));
    let found = place(&|b| *b == Blocker::Finding(finding));
    assert!(look < found, "{before:?}");
    assert!(!checks_in(&before[..found]).contains(&"run-up".to_owned()), "a flight is not flown for it on the way");
    assert_eq!(checks_in(&before).iter().filter(|check| *check == "look").count(), 1, "told once");
}

#[test]
fn a_findings_number_is_given_once() {
    let mut story = Story::released();
    let first = story.raise(FindingGrade::Note, "load");
    let second = story.raise(FindingGrade::Note, "gap");
    assert_eq!((story.finding(first).number, story.finding(second).number), (1, 2));
    story.withdraw(first);
    assert_eq!(story.finding(second).number, 2, "it may stand in someone's notes");
    let third = story.raise(FindingGrade::Note, "look");
    assert_eq!(story.finding(third).number, 3);
}

// --------------------------------------------------------------------------- events, order, witness points

#[test]
fn an_event_ends_exactly_what_names_it_and_calls_for_what_it_calls_for() {
    let mut story = Story::released();
    story.pass("belt");
    let before = story.report();
    assert!(!before.standings.contains_key("inspect"), "not asked for while nothing happened");
    story.happened("thump");
    let after = story.report();
    let ended = |check: &str| match after.standing(check) {
        Standing::Stale { reasons } => {
            reasons.iter().any(|r| matches!(r, Reason::Happened { event, .. } if event == "Hard landing"))
        }
        _ => false,
    };
    let all: Vec<&str> = after.standings.keys().map(String::as_str).filter(|check| ended(check)).collect();
    assert_eq!(all, ["belt", "gap"]);
    assert!(before.standings.iter().all(|(check, was)| ended(check) || after.standing(check) == *was));
    assert!(is_lapsed(&story, "bench"), "the gap's gate stood on it");
    assert_eq!(checks_in(&story.before("rung-1")), ["gap", "belt", "inspect"]);
    for check in ["gap", "belt", "inspect"] {
        story.pass(check);
        assert!(holds(&story, check));
    }
    story.happened("thump");
    assert_eq!(checks_in(&story.before("rung-1")), ["gap", "belt", "inspect"], "each time anew");
    story.happened("no-such-event");
}

#[test]
fn an_event_between_a_flight_and_its_landing_ends_what_the_flight_showed() {
    let mut plan = include_str!("common/small_plan.toml").to_owned();
    plan = plan.replacen("holds = { hours = 0.2 }", "holds = { hours = 0.2, events = [\"thump\"] }", 1);
    let mut story = Story::released();
    story.plan = liftgate_core::plan::Plan::parse("thump.toml", &plan).unwrap();
    let card = story.up_and_down("rung-2", &Flown::default());
    story.happened("thump");
    story.land(card, &Flown::default());
    assert!(reasons(story.standing("rung-2")).iter().any(|r| matches!(r, Reason::Happened { .. })));
}

#[test]
fn rungs_out_of_order_hold_every_gate() {
    let mut story = Story::released();
    for low in [15.0, 14.0] {
        // The dash must lie above the second rung, which is at 15.
        story.figure("dash", low);
        let Gate::Lapsed { blockers, .. } = story.gate("bench") else { panic!("{:?}", story.gate("bench")) };
        assert_eq!(blockers[0], Blocker::Order { figure: "dash".into(), above: "speed".into() }, "{low}");
        let is_load = |blocker: &Blocker| matches!(blocker, Blocker::Check { check, .. } if check == "load");
        assert!(blockers[1..].iter().all(is_load), "what is computed from it: {blockers:?}");
        assert!(LADDER.iter().all(|stage| is_lapsed(&story, stage)));
        assert!(!story.before("rung-1").is_empty(), "nothing is flown so");
    }
    story.figure("dash", 15.5);
    story.walk_until(|report| report.gate("bench").may_be_released());
}

#[test]
fn a_figure_for_other_aircraft_is_not_waited_for() {
    let story = Story::released();
    assert!(story.ledger().aircraft.figure("duct").is_none());
    assert!(is_released(&story, "bench"));
}

#[test]
fn a_hold_point_stops_without_a_second_person_and_a_witness_point_goes_on_with_the_reason() {
    let mut story = Story::released();
    story.confirm_alone("look", "Sam is ill");
    assert!(matches!(story.standing("look"), Standing::Missing { .. }), "a hold stops work until one has seen it");
    let mut story = Story::released();
    story.record("track", CheckResult::Confirmed { passed: true }, None);
    assert!(matches!(story.standing("track"), Standing::Missing { .. }), "nobody came, and nobody says why");
    story.record("track", CheckResult::Confirmed { passed: true }, Some(" "));
    assert!(matches!(story.standing("track"), Standing::Missing { .. }), "blanks are no name");
    story.confirm_alone("track", " ");
    assert!(matches!(story.standing("track"), Standing::Missing { .. }), "nor a reason");
    story.confirm_alone("track", "Sam is ill");
    assert_eq!(story.standing("track"), Standing::Fresh { outcome: Outcome::Caution }, "it goes on, in sight");
    story.confirm("track", true);
    assert_eq!(story.standing("track"), Standing::Fresh { outcome: Outcome::Pass });
}

// ------------------------------------------------------------------------ due soon, the way back, one after another

#[test]
fn what_runs_out_is_told_before_it_does() {
    let soon = |story: &Story| -> Vec<String> { story.report().due_soon.into_iter().map(|due| due.check).collect() };
    let mut story = Story::released();
    // 20 days for the weighing, 30 for the run-up, each done today.
    story.wait_days(15);
    assert_eq!(soon(&story), [] as [&str; 0]);
    story.wait_days(1);
    assert_eq!(soon(&story), ["weigh"], "four of twenty days");
    assert_eq!(story.report().due_soon[0].left.days, Some(4));
    story.wait_days(3);
    assert_eq!(story.report().due_soon[0].left.days, Some(1));
    assert!(holds(&story, "weigh") && is_released(&story, "fit"), "told while it holds");
    story.wait_days(1);
    assert!(!holds(&story, "weigh") && soon(&story).is_empty(), "overdue it stands in the way, not here");
    // By hours: 0.2 h is too short to be told ahead. By runs: two are too few.
    let mut story = Story::released();
    story.pass("belt");
    story.fly("season");
    assert_eq!(soon(&story), [] as [&str; 0]);
    assert_eq!(story.ledger().left(&story.check("belt"), &story.now).unwrap().flights, Some(1));
    assert_eq!(story.ledger().left(&story.check("belt"), &story.now).unwrap().days, Some(5));
    let hours = story.ledger().left(&story.check("rung-2"), &story.now).unwrap().hours.unwrap();
    assert!((hours - (0.2 - 2.0 / 60.0)).abs() < 1e-9, "two minutes were flown since: {hours}");
}

#[test]
fn what_is_told_ahead_is_told_within_the_last_fifth_by_runs_hours_and_days() {
    let text = include_str!("common/small_plan.toml");
    let text =
        text.replacen("holds = { flights = 2, days = 5, events", "holds = { flights = 20, hours = 5.0, events", 1);
    let mut story = Story::released();
    story.plan = liftgate_core::plan::Plan::parse("long.toml", &text).unwrap();
    story.pass("belt");
    let mut told = Vec::new();
    for run in 1..20 {
        story.fly("season");
        if story.report().due_soon.iter().any(|due| due.check == "belt") {
            told.push(run);
        }
    }
    assert_eq!(told, [16, 17, 18, 19], "four of twenty runs left, and not before");
    story.pass("belt");
    let long = Flown { minutes: 4 * 60, ..Flown::default() };
    let card = story.up_and_down("season", &long);
    story.tell(card, 4 * 3_600);
    story.land(card, &long);
    assert!(story.report().due_soon.iter().any(|due| due.check == "belt"), "an hour of five");
}

#[test]
fn what_runs_out_first_by_its_share_is_told_first() {
    let text = include_str!("common/small_plan.toml").replacen("holds = { days = 20 }", "holds = { days = 4 }", 1);
    let mut story = Story::released();
    story.plan = liftgate_core::plan::Plan::parse("short.toml", &text).unwrap();
    story.wait_days(25);
    story.pass("weigh");
    story.wait_days(3);
    let due = story.report().due_soon;
    let left: Vec<_> = due.iter().map(|due| (due.check.as_str(), due.left.days)).collect();
    assert_eq!(left, [("run-up", Some(2)), ("weigh", Some(1))], "two of thirty days before one of four");
}

#[test]
fn what_nobody_asks_for_is_not_told_ahead() {
    let text = include_str!("common/small_plan.toml");
    let text = text.replacen("mandatory = false", "mandatory = false\nholds = { days = 20 }", 1);
    let text =
        text.replacen("when = { tail = \"shrouded\" }", "when = { tail = \"shrouded\" }\nholds = { days = 20 }", 1);
    let text = text.replacen("holds = { flights = 1 }", "holds = { days = 20 }", 1);
    let mut story = Story::released();
    story.plan = liftgate_core::plan::Plan::parse("asked.toml", &text).unwrap();
    story.answer("tail", "shrouded");
    for check in ["polish", "shroud", "season", "weigh"] {
        story.pass(check);
    }
    story.wait_days(17);
    let soon: Vec<_> = story.report().due_soon.into_iter().map(|due| due.check).collect();
    assert_eq!(soon, ["shroud", "weigh"], "not what may be left out, nor what no gate and no flight waits for");
    story.answer("tail", "open");
    let soon: Vec<_> = story.report().due_soon.into_iter().map(|due| due.check).collect();
    assert_eq!(soon, ["weigh"], "nor what this aircraft does not have");
}

#[test]
fn a_gate_may_be_released_when_it_is_ready_or_lapsed_with_nothing_in_the_way() {
    let mut story = Story::new();
    assert!(!story.gate("bench").may_be_released(), "shut");
    story.walk_until(|report| matches!(report.gate("bench"), Gate::Ready));
    assert!(story.gate("bench").may_be_released());
    story.release("bench");
    assert!(!story.gate("bench").may_be_released() && is_released(&story, "bench"), "it is released");
    assert!(!story.gate("service").may_be_released(), "there is none");
    story.change("part:motor");
    assert!(!story.gate("bench").may_be_released(), "lapsed over stale evidence");
    story.pass("look");
    assert!(story.gate("bench").may_be_released() && is_lapsed(&story, "bench"));
}

#[test]
fn the_way_back_is_enough_and_nothing_on_it_is_too_much() {
    let mut story = Story::released();
    story.change("part:blades");
    story.change("part:motor");
    let way = story.ledger().way_back(&story.plan, "ladder", &story.now);
    assert_eq!(way, ["look", "gap", "run-up", "track", "rung-1", "rung-2", "review"]);
    let bench = story.ledger().way_back(&story.plan, "bench", &story.now);
    assert_eq!(bench, ["look", "gap"], "a stage waits for no later one");
    for left_out in &way {
        let mut short = story.clone();
        for check in way.iter().filter(|check| *check != left_out) {
            short.pass(check);
        }
        ["bench", "fit", "ladder"].iter().for_each(|stage| {
            short.release(stage);
        });
        assert!(!is_released(&short, "ladder"), "without {left_out}");
    }
    way.iter().for_each(|check| {
        story.pass(check);
    });
    assert_eq!(story.ledger().way_back(&story.plan, "ladder", &story.now), [] as [&str; 0]);
    assert_eq!(story.ledger().releasable_again(&story.plan, &story.now), LADDER, "and they come back in their order");
    for stage in LADDER {
        story.release(stage);
    }
    assert!(LADDER.iter().all(|stage| is_released(&story, stage)));
}

#[test]
fn only_lapsed_gates_over_fresh_evidence_are_released_one_after_another() {
    let again = |story: &Story| story.ledger().releasable_again(&story.plan, &story.now);
    let mut story = Story::new();
    story.walk_until(|report| matches!(report.gate("fit"), Gate::Released(_)));
    assert_eq!(again(&story), [] as [&str; 0]);
    story.change("wiring");
    assert_eq!(again(&story), [] as [&str; 0], "the load is not proved anew");
    story.pass("load");
    assert_eq!(again(&story), ["bench", "fit"], "the ladder was never released: that is another decision");
    let finding = story.raise(FindingGrade::Caution, "weigh");
    assert_eq!(again(&story), ["bench"], "a finding holds its gate");
    story.carry(finding, Until::Flights(3));
    assert_eq!(again(&story), ["bench", "fit"]);
}

// -------------------------------------------------------------------------------------- the ledger of settings

#[test]
fn each_change_of_a_setting_is_kept_with_what_it_was_why_and_what_was_flown_before_it() {
    let mut story = Story::released();
    let runs = story.ledger().runs;
    story.setting("gain", "40");
    story.fly("season");
    story.setting("gain", "36");
    story.setting("gain", "36");
    story.figure("speed", 16.0);
    let ledger = story.ledger();
    let lines: Vec<_> =
        ledger.adjusted.iter().map(|a| (a.subject.to_string(), a.before.clone(), a.after.clone(), a.runs)).collect();
    let some = |text: &str| Some(text.to_owned());
    assert_eq!(
        lines,
        [
            ("figure:speed".into(), None, "15".into(), 0),
            ("figure:dash".into(), None, "17".into(), 0),
            ("setting:gain".into(), None, "40".into(), runs),
            ("setting:gain".into(), some("40"), "36".into(), runs + 1),
            ("figure:speed".into(), some("15"), "16".into(), runs + 1),
        ]
    );
    assert_eq!(ledger.adjusted[3].reason, "better so");
}

#[test]
fn a_flight_says_what_it_tests_and_two_changes_are_two() {
    use liftgate_core::field::Tested;
    let tests = |story: &Story| story.ledger().flights.last().unwrap().tests.clone();
    let mut story = Story::new();
    story.setting("gain", "30");
    story.walk_until(|report| report.standing("run-up").holds());
    assert_eq!(tests(&story), [], "before the first run everything was set for the first time");

    let mut story = Story::released();
    story.fly("season");
    assert_eq!(tests(&story), [], "flown as before");
    story.setting("gain", "40");
    story.setting("gain", "38");
    story.fly("season");
    let gain = |before: Option<&str>, after: &str| Tested::Setting {
        subject: liftgate_core::plan::Subject::Setting("gain".into()),
        before: before.map(str::to_owned),
        after: after.to_owned(),
    };
    assert_eq!(tests(&story), [gain(None, "38")], "changed twice on the ground, it is one change in the air");
    story.setting("gain", "40");
    story.setting("gain", "38");
    story.change("part:blades");
    story.fly("season");
    assert_eq!(tests(&story), [Tested::Work { what: "worked on".into() }], "set back, it is none");
    story.setting("gain", "36");
    story.figure("speed", 16.0);
    let card = story.draw("season");
    story.add(Body::Started { card });
    assert_eq!(tests(&story), [gain(Some("38"), "36")], "the speed that was flown counts, not the figure for later");
    let faster = story.add(Body::CardDrawn {
        check: "season".into(),
        pack: "Pack 1".into(),
        further_packs: Vec::new(),
        not_full: None,
        head_speed_rpm: 950.0,
        planned_s: 60,
        air_c: 15.0,
        wind: None,
        prediction: None,
        allowed_s: None,
    });
    story.setting("trim", "2");
    assert_eq!(story.ledger().tested_at(950.0).len(), 2, "known on the ground already");
    story.add(Body::Started { card: faster });
    let flown = tests(&story);
    assert_eq!(flown.len(), 2);
    assert_eq!(flown[0], Tested::HeadSpeed { before_rpm: 900.0, after_rpm: 950.0 });
    story.add(Body::Started { card: faster });
    assert_eq!(tests(&story), flown, "a second start is none");
}

// ------------------------------------------------------------------------------------------- another plan

#[test]
fn another_plan_holds_from_its_entry_on_and_loses_nothing() {
    let text = include_str!("common/small_plan.toml");
    let adopt = |story: &mut Story, text: &str| {
        let plan = liftgate_core::plan::Plan::parse("mine.toml", text).unwrap();
        story.add(Body::PlanAdopted { plan: plan.id.clone(), edition: plan.edition.clone(), text: text.to_owned() });
        story.plan = plan;
    };
    // The fold begins under the small plan whatever the last one is.
    let report = |story: &Story| Ledger::of(&common::story::small_plan(), &story.entries).at(&story.plan, &story.now);
    let released = Story::released();

    let mut story = released.clone();
    adopt(&mut story, &text.replacen("title = \"Bench\"", "title = \"Table\"", 1));
    assert!(
        LADDER.iter().all(|stage| matches!(report(&story).gate(stage), Gate::Released(_))),
        "words change nothing"
    );

    let mut story = released.clone();
    adopt(&mut story, &text.replacen("do = \"Measure.\"", "do = \"Measure twice.\"", 1));
    let Standing::Stale { reasons } = report(&story).standing("gap") else { panic!() };
    assert!(matches!(&reasons[..], [Reason::PlanChanged { .. }]), "{reasons:?}");
    assert!(matches!(report(&story).gate("bench"), Gate::Lapsed { .. }));
    story.pass("gap");
    assert!(report(&story).standing("gap").holds(), "done as it is asked now");

    // A stricter limit judges what was read.
    let mut story = released.clone();
    adopt(
        &mut story,
        &text.replacen("stop_below = 2.0", "stop_below = 6.0", 1).replacen("caution_below = 3.0", "", 1),
    );
    assert!(matches!(report(&story).standing("gap"), Standing::Failed { .. }));

    // What it rests on now was touched before the plan came, and after the evidence.
    let mut story = released.clone();
    story.change("part:motor");
    for check in ["look", "run-up", "track", "rung-1", "rung-2", "review"] {
        story.pass(check);
    }
    let slow = text.replacen(
        "rests_on = [\"part:blades\", \"papers\"]\nholds",
        "rests_on = [\"part:blades\", \"part:motor\"]\nholds",
        1,
    );
    adopt(&mut story, &slow);
    assert!(
        matches!(&report(&story).standing("gap"), Standing::Stale { reasons } if matches!(reasons[..], [Reason::Changed { .. }]))
    );

    // A check that left and came again is asked for anew; its results are there all the while.
    let mut story = released.clone();
    adopt(&mut story, &text.replacen("id = \"gap\"", "id = \"slit\"", 1));
    assert!(matches!(report(&story).standing("slit"), Standing::Missing { .. }));
    adopt(&mut story, text);
    assert!(matches!(report(&story).standing("gap"), Standing::Stale { .. }));
    assert_eq!(Ledger::of(&story.plan, &story.entries).results["gap"].len(), 1);

    // Withdrawn, it is as if it had never come; a text that is no plan leaves the one before in force.
    let mut story = released.clone();
    let before = but_withdrawals(story.ledger());
    let slip = story.add(Body::PlanAdopted { plan: "x".into(), edition: "x".into(), text: slow.clone() });
    story.withdraw(slip);
    assert_eq!(but_withdrawals(story.ledger()), before);
    story.add(Body::PlanAdopted { plan: "x".into(), edition: "x".into(), text: "no plan".into() });
    assert!(LADDER.iter().all(|stage| matches!(report(&story).gate(stage), Gate::Released(_))));
    for upto in 0..=story.entries.len() {
        Ledger::of(&story.plan, &story.entries[..upto]).at(&story.plan, &story.now);
    }
}

// ------------------------------------------------------------------------------------------------- a time that is told

#[test]
fn a_clock_that_was_left_running_uses_up_no_hours_and_holds_until_it_is_told() {
    let mut story = Story::released();
    assert!(holds(&story, "rung-2"), "for 0.2 h of the motor");
    let card = story.draw("season");
    story.add(Body::Started { card });
    story.wait_minutes(1_440);
    story.add(Body::TouchedDown { card, elapsed_ms: 1_440 * 60_000 });
    let flight = story.ledger().flight(card).unwrap().clone();
    assert_eq!((flight.timed, flight.flown_ms()), (Timed::Doubtful, None));
    assert!(flight.motor_ms <= (2 * flight.planned_s + 300) * 1_000, "no more than nobody doubts");
    let is_time =
        |blocker: &Blocker| matches!(blocker, Blocker::Unanswered { what: Unanswered::LongTime { .. }, .. });
    assert!(story.before("season").iter().any(is_time));
    let before = story.ledger().motor_ms - flight.motor_ms;

    let told = story.tell(card, 240);
    assert_eq!(story.ledger().motor_ms, before + 240_000);
    let flight = story.ledger().flight(card).unwrap().clone();
    assert_eq!((flight.flown_ms(), flight.counted_ms), (Some(240_000), Some(1_440 * 60_000)));
    assert!(!story.before("season").iter().any(is_time));
    // Once: another time is told after this one was taken back.
    story.tell(card, 30);
    assert_eq!(story.ledger().motor_ms, before + 240_000);
    story.wait_minutes(60);
    story.withdraw(told);
    assert_eq!(story.ledger().flight(card).unwrap().timed, Timed::Told, "then the other one counts");
    assert_eq!(story.ledger().motor_ms, before + 30_000);
}

#[test]
fn a_time_past_what_the_pack_holds_is_doubted_and_one_within_the_plan_never() {
    let mut story = Story::released();
    let card = story.draw("rung-1");
    let flight = story.ledger().flight(card).unwrap().clone();
    let least_mah = flight.prediction.as_ref().unwrap().low_mah;
    assert_eq!(flight.most_ms(None), (2 * flight.planned_s + 300) * 1_000);
    assert_eq!(flight.most_ms(Some(least_mah * 1.5)), flight.planned_s * 1_500);
    assert_eq!(flight.most_ms(Some(least_mah * 0.5)), flight.planned_s * 1_000, "a prediction may be wrong");
}

#[test]
fn a_run_that_no_phone_timed_is_evidence_of_what_the_pilot_tells() {
    let mut story = Story::released();
    let (runs, motor_ms) = (story.ledger().runs, story.ledger().motor_ms);
    let card = story.draw("rung-1");
    let without_phone = Some(WithoutPhone { down_ago_s: 120, spotter: "Sam".into() });
    let told = story.add(Body::FlownTold { card, flown_s: 120, without_phone });
    assert_eq!((story.ledger().runs, story.ledger().motor_ms), (runs + 1, motor_ms + 120_000));
    assert_ne!(story.ledger().evidence["rung-1"].of, Source::Flight(card), "not read yet");
    story.land(card, &Flown::default());
    assert_eq!(story.ledger().evidence["rung-1"].of, Source::Flight(card));
    assert!(holds(&story, "rung-1"));
    assert_eq!(story.ledger().flight(card).unwrap().spotter.as_deref(), Some("Sam"));
    // Taken back, the whole run is.
    story.wait_minutes(60);
    story.withdraw(told);
    assert_eq!((story.ledger().runs, story.ledger().motor_ms), (runs, motor_ms));
}

#[test]
fn a_run_told_in_the_morning_is_of_the_day_on_which_it_came_down() {
    let mut story = Story::released();
    story.wait_days(1);
    let card = story.draw("run-up");
    let run = |down_ago_s| Some(WithoutPhone { down_ago_s, spotter: "Sam".into() });
    story.add(Body::FlownTold { card, flown_s: 100, without_phone: run(11 * 3_600) });
    let ledger = story.ledger();
    let down_on = ledger.flight(card).unwrap().down_on.unwrap();
    assert_eq!(down_on, story.now.wall.date_naive().pred_opt().unwrap());
    assert_eq!(ledger.run_just_made(&story.now), None, "nothing is read on a run of yesterday");
}

// ----------------------------------------------------------------------------------------------- withdrawing

/// All that the fold says but of the taking back itself.
fn but_withdrawals(mut ledger: Ledger) -> Ledger {
    ledger.withdrawals = Withdrawals::default();
    ledger.gone.clear();
    ledger
}

#[test]
fn a_withdrawn_slip_is_as_if_it_had_never_been() {
    let mut story = Story::released();
    let clean = but_withdrawals(story.ledger());
    let slip = story.change("part:motor");
    assert!(LADDER.iter().all(|stage| is_lapsed(&story, stage)));
    story.withdraw(slip);
    assert_eq!(but_withdrawals(story.ledger()), clean, "the gates too: the ground was never gone");
    let slip = story.measure("gap", 0.5);
    story.withdraw(slip);
    assert_eq!(but_withdrawals(story.ledger()), clean);
    let slip = story.raise(FindingGrade::Stop, "look");
    story.withdraw(slip);
    let mut counted = clean;
    counted.findings_raised = 1;
    assert_eq!(but_withdrawals(story.ledger()), counted, "all but its number, which is not given again");
}

#[test]
fn a_withdrawn_proof_opens_what_it_proved() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "load");
    story.fix(finding, &[]);
    let proof = story.pass("load");
    story.release("bench");
    story.withdraw(proof);
    assert!(matches!(story.state(finding), FindingState::Fixed { .. }));
    assert!(is_lapsed(&story, "bench"));
}

#[test]
fn what_hangs_on_something_withdrawn_says_nothing_more() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Stop, "load");
    story.withdraw(finding);
    story.fix(finding, &["wiring"]);
    assert!(holds(&story, "load"), "a fix of a finding that is not there");
    let card = story.draw("rung-1");
    story.withdraw(card);
    story.add(Body::HandedOver { card, spotter: "Sam".into() });
    story.add(Body::Started { card });
    story.add(Body::TouchedDown { card, elapsed_ms: 9 });
    story.land(card, &Flown { celsius: 99.0, ..Flown::default() });
    assert!(holds(&story, "rung-1") && story.ledger().seat == Seat::Pilot);
}

// ------------------------------------------------------------------------------- what is read on a run, and how it was

#[test]
fn what_is_read_on_a_run_counts_by_the_run_just_before_it_and_of_its_day() {
    let mut story = Story::released();
    let seen = |story: &mut Story| {
        story.record("swing", CheckResult::Confirmed { passed: true }, None);
        holds(story, "swing")
    };
    assert!(!seen(&mut story), "the motor ran last on another rung");
    story.fly("rung-1");
    assert!(seen(&mut story));
    story.fly("rung-2");
    assert!(holds(&story, "swing"), "a later run takes nothing from what was read");
    assert!(!seen(&mut story), "read anew, it wants its own run");
    story.fly("rung-1");
    story.wait_days(1);
    assert!(!seen(&mut story), "a day later it is read on no run");
    let card = story.draw("rung-1");
    story.add(Body::HandedOver { card, spotter: "Sam".into() });
    story.add(Body::Started { card });
    assert!(!seen(&mut story), "nor while it runs");
}

#[test]
fn a_run_holds_by_the_pilots_own_judgement_and_not_by_its_readings_alone() {
    let mut story = Story::released();
    let fly = |story: &mut Story, judgement: Judgement| {
        let flown = Flown { judgement, ..Flown::default() };
        let card = story.up_and_down("rung-1", &flown);
        story.land(card, &flown);
        card
    };
    let card = fly(&mut story, Judgement::Open);
    assert!(!holds(&story, "rung-1"), "nobody said how it was");
    let held = |story: &Story| story.before("rung-1").iter().any(|b| matches!(b, Blocker::Unanswered { .. }));
    assert!(held(&story));
    story.land(card, &Flown::default());
    assert!(holds(&story, "rung-1") && !held(&story), "said afterwards, with the same readings");

    fly(&mut story, Judgement::CalledOff { why: "Wind".into() });
    assert!(!holds(&story, "rung-1") && !held(&story), "no evidence, and nothing to answer");

    fly(&mut story, Judgement::NotSo { why: "A wag".into() });
    assert!(matches!(story.standing("rung-1"), Standing::Failed { .. }));
    assert!(held(&story), "it has to become a finding");
    let what = story.before("rung-1").into_iter().find_map(|blocker| match blocker {
        Blocker::Unanswered { card, what } => Some((card, what)),
        _ => None,
    });
    let (card, what) = what.unwrap();
    story.answer_seen(card, &what);
    assert!(!held(&story));

    fly(&mut story, Judgement::NotAsked);
    assert!(holds(&story, "rung-1"), "recorded before it was asked");
}

// ------------------------------------------------------------------------------------------- the fold is total

#[test]
fn nothing_in_an_entry_makes_the_fold_fail() {
    let mut story = Story::released();
    let card = story.draw("rung-1");
    story.add(Body::Started { card });
    for elapsed_ms in [i64::MAX, i64::MIN, -1, 0] {
        story.add(Body::Marked { card, mark: MarkKind::Shake, elapsed_ms });
        story.add(Body::TouchedDown { card, elapsed_ms });
        story.add(Body::Resumed { card });
    }
    for _ in 0..3 {
        let card = story.draw("rung-2");
        story.add(Body::Started { card });
        story.add(Body::TouchedDown { card, elapsed_ms: i64::MAX });
        story.land(card, &Flown { used_mah: Some(f64::MAX), celsius: f64::MAX, ..Flown::default() });
    }
    for value in [f64::NAN, f64::NEG_INFINITY, f64::MIN] {
        story.record("gap", CheckResult::Measured { value, unit: Unit::Millimetre }, None);
        assert!(!holds(&story, "gap"), "{value} mm is not past the limit only because nothing compares with it");
        story.figure("all-up", value);
        story.figure("speed", value);
    }
    for nowhere in ["", "part:", "check:look:look", "\u{1f681}"] {
        story.change(nowhere);
        story.confirm(nowhere, true);
        story.release(nowhere);
        story.setting(nowhere, nowhere);
        story.answer(nowhere, nowhere);
        story.add(Body::FindingRaised {
            title: nowhere.into(),
            grade: FindingGrade::Stop,
            stage: nowhere.into(),
            proof: nowhere.into(),
            shown_by: Some(id(77_777)),
            proposed_from: None,
        });
    }
    story.carry(id(77_777), Until::Flights(u32::MAX));
    let mut far = story.now.clone();
    far.wall = chrono::DateTime::<chrono::Utc>::MAX_UTC.fixed_offset();
    let entries = story.entries.clone();
    for entry in 0..=entries.len() {
        let ledger = Ledger::of(&story.plan, &entries[..entry]);
        for now in [&story.now, &far, &at_ms(-40_000_000_000)] {
            let report = ledger.at(&story.plan, now);
            assert_eq!(report.gates.len(), story.plan.stages.len());
        }
    }
}

// ------------------------------------------------------------------------------------------ random histories

/// One thing that may happen. Numbers choose among what is there.
#[derive(Debug, Clone)]
enum Step {
    Advance,
    FlyNextOddly,
    Record { check: usize, result: u8, witnessed: bool },
    Fly { check: usize, used: u8, heat: u8, parts: u8 },
    LandAgain { card: usize, used: u8, heat: u8 },
    Loose { card: usize, what: u8 },
    Release(usize),
    Change(usize),
    Figure { figure: usize, value: u8 },
    Setting { setting: bool, value: u8 },
    Answer { shrouded: bool },
    Happens,
    Thing { kind: u8, name: bool, numbers: u8, on_aircraft: u8, removed: bool },
    Raise { grade: u8, proof: usize },
    Fix { finding: usize, subject: usize },
    Carry { finding: usize, until: u8 },
    Explain { card: usize, old: bool },
    Name(u8),
    RaiseShown { card: usize, grade: u8 },
    Days(u8),
    SetClock(i8),
    Restart,
    Withdraw(usize),
    Adopt(usize),
    Declare(usize),
    Compute { judged: u8 },
    Consumer { number: u8, steady: bool, gone: bool },
    ReadOn { flown: bool, days: u8 },
    Regret(usize),
    Pack { second: bool, what: u8 },
    Paper { second: bool, good_days: i64, what: u8 },
}

fn step() -> impl Strategy<Value = Step> {
    let n = 0..64usize;
    prop_oneof![
        60 => Just(Step::Advance),
        5 => Just(Step::FlyNextOddly),
        5 => (n.clone(), any::<u8>(), prop::bool::weighted(0.9))
            .prop_map(|(check, result, witnessed)| Step::Record { check, result, witnessed }),
        5 => (n.clone(), any::<u8>(), any::<u8>(), any::<u8>())
            .prop_map(|(check, used, heat, parts)| Step::Fly { check, used, heat, parts }),
        2 => (n.clone(), any::<u8>(), any::<u8>()).prop_map(|(card, used, heat)| Step::LandAgain { card, used, heat }),
        2 => (n.clone(), any::<u8>()).prop_map(|(card, what)| Step::Loose { card, what }),
        4 => n.clone().prop_map(Step::Release),
        3 => n.clone().prop_map(Step::Change),
        1 => (n.clone(), any::<u8>()).prop_map(|(figure, value)| Step::Figure { figure, value }),
        2 => (any::<bool>(), 0..3u8).prop_map(|(setting, value)| Step::Setting { setting, value }),
        1 => any::<bool>().prop_map(|shrouded| Step::Answer { shrouded }),
        1 => Just(Step::Happens),
        5 => (0..8u8, prop::bool::weighted(0.7), 0..12u8, 0..4u8, prop::bool::weighted(0.1)).prop_map(
            |(kind, name, numbers, on_aircraft, removed)| Step::Thing { kind, name, numbers, on_aircraft, removed }
        ),
        4 => (any::<u8>(), n.clone()).prop_map(|(grade, proof)| Step::Raise { grade, proof }),
        4 => (n.clone(), n.clone()).prop_map(|(finding, subject)| Step::Fix { finding, subject }),
        3 => (n.clone(), 0..6u8).prop_map(|(finding, until)| Step::Carry { finding, until }),
        3 => (n.clone(), any::<bool>()).prop_map(|(card, old)| Step::Explain { card, old }),
        1 => (0..4u8).prop_map(Step::Name),
        2 => (n.clone(), any::<u8>()).prop_map(|(card, grade)| Step::RaiseShown { card, grade }),
        2 => (0..12u8).prop_map(Step::Days),
        2 => (-40..40i8).prop_map(Step::SetClock),
        2 => Just(Step::Restart),
        2 => n.clone().prop_map(Step::Withdraw),
        1 => n.prop_map(Step::Adopt),
        2 => (0..2usize).prop_map(Step::Declare),
        3 => (0..4u8).prop_map(|judged| Step::Compute { judged }),
        3 => (0..3u8, prop::bool::weighted(0.8), prop::bool::weighted(0.3))
            .prop_map(|(number, steady, gone)| Step::Consumer { number, steady, gone }),
        2 => (any::<bool>(), 0..2u8).prop_map(|(flown, days)| Step::ReadOn { flown, days }),
        2 => (0..64usize).prop_map(Step::Regret),
        6 => (any::<bool>(), any::<u8>()).prop_map(|(second, what)| Step::Pack { second, what }),
        3 => (any::<bool>(), -2..9i64, any::<u8>())
            .prop_map(|(second, good_days, what)| Step::Paper { second, good_days, what }),
    ]
}

const SUBJECTS: [&str; 10] = [
    "part:motor",
    "part:blades",
    "setting:gain",
    "figure:speed",
    "wiring",
    "mass",
    "supplies",
    "packs",
    "check:look",
    "part:unknown",
];

fn computed(outcome: Outcome, judged: Vec<JudgedList>) -> CheckResult {
    CheckResult::Computed { summary: String::new(), values: vec![], outcome, judged }
}

impl Story {
    fn pick<T: Clone>(among: &[T], number: usize) -> Option<T> {
        (!among.is_empty()).then(|| among[number % among.len()].clone())
    }

    fn checks(&self) -> Vec<String> {
        self.plan.checks().map(|(_, check)| check.id.clone()).collect()
    }

    fn cards(&self) -> Vec<EntryId> {
        self.entries.iter().filter(|e| matches!(e.body, Body::CardDrawn { .. })).map(|e| e.id).collect()
    }

    fn raised(&self) -> Vec<EntryId> {
        self.entries.iter().filter(|e| matches!(e.body, Body::FindingRaised { .. })).map(|e| e.id).collect()
    }

    fn can_withdraw(&self) -> Vec<EntryId> {
        let named =
            |id: EntryId| self.entries.iter().any(|e| matches!(e.body, Body::Withdrawn { entry, .. } if entry == id));
        let able = self.entries.iter().filter(|e| !matches!(e.body, Body::Withdrawn { .. }) && !named(e.id));
        able.map(|e| e.id).collect()
    }

    fn flown(used: u8, heat: u8) -> Flown {
        let used_mah = match used % 8 {
            0 => None,
            1 => Some(1_400.0),
            2 => Some(700.0),
            3 => Some(1_080.0),
            4 => Some(1_150.0),
            _ => Some(1_000.0),
        };
        let grade = match heat % 10 {
            0 => 2,
            1 => 1,
            _ => 0,
        };
        let places = if heat % 7 == 3 { vec!["motor"] } else { vec!["motor", "battery"] };
        let judgement = match used / 8 % 8 {
            0 => Judgement::Open,
            1 => Judgement::NotSo { why: "A wag".into() },
            2 => Judgement::CalledOff { why: "Wind".into() },
            3 => Judgement::NotAsked,
            _ => Judgement::AsItShouldBe,
        };
        let after_s = if heat % 5 == 2 { 601 } else { 600 };
        let minutes = i64::from(used % 4);
        Flown { used_mah, celsius: celsius(grade), places, minutes, after_s, judgement, ..Flown::default() }
    }

    fn take(&mut self, step: &Step) {
        self.wait_minutes(7);
        match *step {
            Step::Advance => self.advance(),
            Step::FlyNextOddly => {
                if let Some(next) = self.report().next {
                    self.fly_as(&next.check, &Flown { used_mah: Some(1_400.0), ..Flown::default() });
                }
            }
            Step::Record { check, result, witnessed } => {
                let check = Story::pick(&self.checks(), check).unwrap();
                let result = match result % 12 {
                    0 => CheckResult::Confirmed { passed: false },
                    1 => CheckResult::Measured { value: 1.0, unit: Unit::Millimetre },
                    2 => CheckResult::Measured { value: 2.5, unit: Unit::Millimetre },
                    3 => CheckResult::Measured { value: 18.0, unit: Unit::Kilogram },
                    4 => CheckResult::Measured { value: 9.0, unit: Unit::Kilogram },
                    5 => computed(Outcome::Stop, Vec::new()),
                    6 => computed(Outcome::Caution, Vec::new()),
                    9 => computed(Outcome::Pass, self.judged()),
                    10 => computed(Outcome::Caution, vec![JudgedList { list: ThingKind::Consumer, count: 2 }]),
                    7..9 => CheckResult::Measured { value: 5.0, unit: Unit::Millimetre },
                    _ => CheckResult::Confirmed { passed: true },
                };
                match (witnessed, &result) {
                    // A reason for nobody's coming is worth something at a witness point only.
                    (false, CheckResult::Confirmed { passed: true }) => self.confirm_alone(&check, "Nobody there"),
                    _ => self.record(&check, result, witnessed.then_some("Sam")),
                };
            }
            Step::Fly { check, used, heat, parts } => self.fly_loosely(check, used, heat, parts),
            Step::LandAgain { card, used, heat } => {
                if let Some(card) = Story::pick(&self.cards(), card) {
                    self.land(card, &Story::flown(used, heat));
                }
            }
            Step::Loose { card, what } => {
                let card = Story::pick(&self.cards(), card).unwrap_or(id(88_888));
                self.add(match what % 11 {
                    6 => Body::RestartedInFlight { card },
                    7 => Body::FlownTold { card, flown_s: i64::from(what) * 4, without_phone: None },
                    8 => Body::FlownTold {
                        card,
                        flown_s: i64::from(what) * 4,
                        without_phone: Some(WithoutPhone {
                            down_ago_s: i64::from(what) * 300,
                            spotter: "Sam".into(),
                        }),
                    },
                    9 => Body::TouchedDown { card, elapsed_ms: i64::from(what) * 90_000 },
                    0 => Body::Started { card },
                    1 => Body::TouchedDown { card, elapsed_ms: 200_000 },
                    2 => Body::Resumed { card },
                    3 => Body::HandedBack { card },
                    4 => Body::Marked { card, mark: MarkKind::Sound, elapsed_ms: 5 },
                    5 => Body::LandingWaived { card, reason: "Rain".into() },
                    _ => Body::TouchedDown { card, elapsed_ms: -5_000 },
                });
            }
            Step::Release(stage) => {
                let ready = self.report().gates.iter().find(|(_, g)| g.may_be_released()).map(|(s, _)| s.clone());
                let any =
                    Story::pick(&self.plan.stages.iter().map(|s| s.id.clone()).collect::<Vec<_>>(), stage).unwrap();
                // Mostly what may be released; now and then what may not.
                let stage = if stage.is_multiple_of(4) { any } else { ready.unwrap_or(any) };
                self.release(&stage);
            }
            Step::Change(subject) => {
                self.change(SUBJECTS[subject % SUBJECTS.len()]);
            }
            Step::Figure { figure, value } => {
                let figure = ["speed", "all-up", "reach", "dash"][figure % 4];
                self.figure(figure, [15.0, 4.0, 16.0][usize::from(value) % 3]);
            }
            Step::Setting { setting, value } => {
                self.setting(if setting { "gain" } else { "trim" }, &value.to_string());
            }
            Step::Answer { shrouded } => {
                self.answer("tail", if shrouded { "shrouded" } else { "open" });
            }
            Step::Happens => {
                self.happened("thump");
            }
            Step::Thing { kind, name, numbers, on_aircraft, removed } => {
                let kind = match kind {
                    0 => ThingKind::Consumer,
                    1 => ThingKind::Wire,
                    2 => ThingKind::Weighing,
                    _ => ThingKind::Pack,
                };
                let name = if name { "Pack 1" } else { "Pack 2" };
                let on_aircraft = match on_aircraft {
                    0 => OnAircraft::NotSaid,
                    1 => OnAircraft::AsItWas,
                    _ => OnAircraft::Changed,
                };
                self.describe(kind, name, numbers, on_aircraft, removed);
            }
            Step::Raise { grade, proof } => {
                let proof = Story::pick(&self.checks(), proof).unwrap();
                self.raise(FindingGrade::ALL[usize::from(grade) % 3], &proof);
            }
            Step::Fix { finding, subject } => {
                let finding = Story::pick(&self.raised(), finding).unwrap_or(id(88_888));
                let subjects = [SUBJECTS[subject % SUBJECTS.len()]];
                self.fix(finding, &subjects[..subject % 2]);
            }
            Step::Carry { finding, until } => {
                let finding = Story::pick(&self.raised(), finding).unwrap_or(id(88_888));
                let until = match until {
                    0..4 => Until::Flights(u32::from(until)),
                    _ => Until::Date(self.today() + chrono::TimeDelta::days(i64::from(until) - 4)),
                };
                self.carry(finding, until);
            }
            Step::Explain { card, old } => {
                if let Some(card) = Story::pick(&self.cards(), card) {
                    if old {
                        self.explain_charge(card, None)
                    } else {
                        self.explain(card)
                    };
                }
            }
            Step::Name(0) => {
                self.add(Body::AircraftNamed { name: "Plover".into(), builder: " ".into(), pilot: None });
            }
            Step::Name(_) => {
                self.named();
            }
            Step::RaiseShown { card, grade } => {
                let ledger = self.ledger();
                let flown = ledger.flights.iter().filter(|flight| self.plan.check(&flight.check).is_some());
                let landed: Vec<(String, EntryId)> =
                    flown.filter_map(|f| Some((f.check.clone(), f.landing.as_ref()?.entry))).collect();
                if let Some((proof, landing)) = Story::pick(&landed, card) {
                    self.raise_shown(FindingGrade::ALL[usize::from(grade) % 3], &proof, Some(landing));
                }
            }
            Step::Days(days) => self.wait_days(i64::from(days)),
            Step::SetClock(days) => self.set_clock(i64::from(days)),
            Step::Restart => self.restart(),
            Step::Withdraw(entry) if entry.is_multiple_of(4) => {
                // A slip: taken back at once.
                let slip = self.change(SUBJECTS[entry % SUBJECTS.len()]);
                self.withdraw(slip);
            }
            Step::Withdraw(entry) if entry % 4 == 1 => {
                // Thought better of, when all had followed from it.
                let regretted = self.change(SUBJECTS[entry % SUBJECTS.len()]);
                self.wait_minutes(7);
                self.withdraw(regretted);
            }
            Step::Withdraw(entry) => {
                if let Some(entry) = Story::pick(&self.can_withdraw(), entry) {
                    self.withdraw(entry);
                }
            }
            Step::Adopt(edition) => {
                self.adopt(edition);
            }
            Step::Compute { judged } => {
                let judged = if judged == 0 { Vec::new() } else { self.judged() };
                self.record("load", computed(Outcome::Pass, judged), None);
            }
            Step::Declare(list) => {
                self.declare(LISTS[list]);
            }
            Step::Consumer { number, steady, gone } => {
                let name = format!("Servo {number}");
                if gone {
                    self.remove(ThingKind::Consumer, &name)
                } else {
                    self.consumer(&name, if steady { 1.0 } else { 0.0 })
                };
            }
            Step::Paper { second, good_days, what } => {
                let name = if second { "Insurance" } else { "Permission" };
                match what % 4 {
                    0 => self.remove(ThingKind::Paper, name),
                    1 => self.paper(name, None),
                    _ => self.paper(name, Some(good_days)),
                };
            }
            Step::Pack { second, what } => {
                let pack = if second { "Pack 2" } else { "Pack 1" };
                match what % 8 {
                    0 => self.charge(pack, None),
                    1 | 2 => self.charge(pack, Some(f64::from(what) * 12.0)),
                    3 => self.read_cells(pack, 4.11 + f64::from(what % 12) / 100.0, 4.24),
                    4 => self.read_cells(pack, 3.6 + f64::from(what % 60) / 100.0, 4.23),
                    5 => self.measure_pack(["R", "S"][usize::from(what / 8 % 2)], pack, f64::from(what % 3), 1_150.0),
                    6 => self.measure_pack(["R", "S"][usize::from(what / 8 % 2)], pack, f64::from(what % 3), 1_450.0),
                    _ => {
                        self.note_pack(pack, if what.is_multiple_of(3) { PackState::Wet } else { PackState::Storage })
                    }
                };
            }
            // A change that was none, taken back after the fact.
            Step::Regret(subject) => {
                let change = self.change(SUBJECTS[subject % SUBJECTS.len()]);
                self.wait_minutes(7);
                self.withdraw(change);
            }
            Step::ReadOn { flown, days } => {
                if flown && self.plan.check("rung-1").is_some() {
                    self.fly("rung-1");
                }
                self.wait_days(i64::from(days));
                self.record("swing", CheckResult::Confirmed { passed: true }, None);
            }
        }
    }

    /// Some packs are alike, and some are not.
    fn describe(&mut self, kind: ThingKind, name: &str, numbers: u8, on_aircraft: OnAircraft, removed: bool) {
        let name = name.to_owned();
        if removed {
            let thing = ThingRef { kind, name };
            self.add(Body::ThingRemoved { thing, instead: None, witness: None, on_aircraft });
            return;
        }
        let mass_g = match numbers / 3 {
            0 => None,
            1 => Some(400.0),
            2 => Some(407.0),
            _ => Some(412.0),
        };
        // As heavy on its scale as the aircraft, or a third as heavy again.
        let mass_g =
            if kind == ThingKind::Weighing { mass_g.map(|g| g * 12.5 + (g - 400.0) * 150.0) } else { mass_g };
        let full_v = (numbers % 5 == 4).then_some(4.35);
        let known = [
            ("cells", Some(f64::from(numbers % 3))),
            ("capacity_mah", Some(1_300.0)),
            ("mass_g", mass_g),
            ("full_v", full_v),
        ];
        let numbers = known.into_iter().filter_map(|(id, value)| Some((id.to_owned(), value?))).collect();
        self.add(Body::ThingSet {
            thing: Thing { kind, name, of: None, numbers, last_day: None, note: None },
            on_aircraft,
        });
    }

    /// A flight with any of its entries left out, and sometimes something done before it is jotted.
    fn fly_loosely(&mut self, check: usize, used: u8, heat: u8, parts: u8) {
        let flown: Vec<String> =
            self.plan.checks().filter(|(_, c)| c.fly().is_some()).map(|(_, c)| c.id.clone()).collect();
        let allowed_s = [None, Some(50), Some(80), Some(600)][usize::from(heat % 4)];
        let packs: &[&str] = match parts % 3 {
            0 => &["Pack 2", "Pack 1"],
            1 => &["Pack 2"],
            _ => &["Pack 1"],
        };
        let card = self.draw_on(&Story::pick(&flown, check).unwrap(), allowed_s, packs);
        let flown = Story::flown(used, heat);
        if parts & 1 == 0 || parts & 2 == 0 {
            self.add(Body::HandedOver { card, spotter: "Sam".into() });
        }
        if !parts.is_multiple_of(11) {
            self.add(Body::Started { card });
        } else if !parts.is_multiple_of(2) {
            let without_phone = Some(WithoutPhone { down_ago_s: i64::from(used) * 300, spotter: "Sam".into() });
            self.add(Body::FlownTold { card, flown_s: flown.minutes * 60, without_phone });
        }
        if !parts.is_multiple_of(13) {
            self.add(Body::TouchedDown { card, elapsed_ms: flown.minutes * 60_000 });
        }
        if parts.is_multiple_of(9) {
            self.add(Body::RestartedInFlight { card });
        }
        self.add(Body::HandedBack { card });
        if parts.is_multiple_of(5) {
            self.change("part:blades");
        }
        match parts % 7 {
            0 => {}
            1 => drop(self.waive(card)),
            _ => drop(self.land(card, &flown)),
        }
    }
}

fn history(steps: &[Step]) -> Story {
    let mut story = Story::new();
    steps.iter().for_each(|step| story.take(step));
    story
}

/// The entries of another aircraft between those of one, as `turns` says, with packs, names and a plan of its own; and those of the one
/// alone, at the same places in the journal. Both are of one phone, whose clock the first one's entries tell.
fn beside(own: &Story, other: &Story, turns: &[bool]) -> (Vec<Entry>, Vec<Entry>) {
    let of_all =
        |body: &Body| body.is_of_workshop() && !matches!(body, Body::PackCharged { .. } | Body::PackNoted { .. });
    let mut others = other.entries.iter().filter(|entry| !of_all(&entry.body)).map(|entry| {
        let text = serde_json::to_string(&(entry.id, &entry.body)).unwrap();
        let text = text.replace("01900000-0000-7000", "01910000-0000-7000").replace("Pack ", "Crate ");
        serde_json::from_str::<(EntryId, Body)>(&text).unwrap()
    });
    let aircraft = AircraftId(Some(id(1 << 40)));
    // What was taken back, and the taking back, tell no time: an entry beside them would.
    let withdrawals = own.ledger().withdrawals;
    let withdrawn = |entry: &Entry| matches!(entry.body, Body::Withdrawn { .. }) || withdrawals.contains(entry.id);
    let (mut all, mut alone) = (Vec::new(), Vec::new());
    for (entry, turn) in own.entries.iter().zip(turns.iter().cycle()) {
        let own = Entry { seq: all.len() as i64 + 1, ..entry.clone() };
        alone.push(own.clone());
        all.push(own);
        for (id, body) in others.by_ref().take(if *turn && !withdrawn(entry) { 3 } else { 0 }) {
            let (seq, at) = (all.len() as i64 + 1, entry.at.clone());
            all.push(Entry { seq, id, at, author: Author::Pilot, aircraft, body });
        }
    }
    (all, alone)
}

/// `PROPTEST_CASES` asks for more, for a night.
fn config(cases: u32) -> ProptestConfig {
    let cases = std::env::var("PROPTEST_CASES").ok().and_then(|cases| cases.parse().ok()).unwrap_or(cases);
    ProptestConfig { cases, failure_persistence: None, max_shrink_iters: 400, ..ProptestConfig::default() }
}

fn agrees(story: &Story, upto: usize) -> Result<(), TestCaseError> {
    let entries = &story.entries[..upto];
    let (ledger, plan) = (Ledger::of(story.first(), entries), story.plan_at(upto));
    let last = entries.last().map_or_else(|| at_ms(0), |entry| entry.at.clone());
    let mut later = story.now.clone();
    later.wall += chrono::TimeDelta::days(3);
    let mut behind = story.now.clone();
    behind.wall -= chrono::TimeDelta::days(3);
    let restarted =
        liftgate_core::record::Moment { monotonic_ms: 700, boot: "another run".to_owned(), ..behind.clone() };
    let ran_on =
        liftgate_core::record::Moment { monotonic_ms: behind.monotonic_ms + 3 * 86_400_000, ..behind.clone() };
    for now in [&last, &later, &behind, &restarted, &ran_on] {
        let core = Truth::of_core(&plan, &ledger, now);
        let rules = Truth::of_rules(story.first(), entries, now);
        prop_assert_eq!(core, rules, "after {} entries, the last: {:?}", upto, entries.last());
    }
    Ok(())
}

proptest! {
    #![proptest_config(config(64))]

    #[test]
    fn the_core_says_what_the_rules_say(steps in prop::collection::vec(step(), 20..90)) {
        let story = history(&steps);
        let all = story.entries.len();
        for upto in [all / 4, all / 2, all * 3 / 4, all] {
            agrees(&story, upto)?;
        }
    }

    #[test]
    fn a_record_with_holes_is_read_alike_and_no_gate_stands_over_one(
        steps in prop::collection::vec(step(), 20..90),
        holes in prop::collection::vec(any::<usize>(), 1..5),
        may_lack_last in any::<bool>(),
    ) {
        let mut story = history(&steps);
        let gaps: Vec<usize> = holes.iter().map(|hole| hole % story.entries.len()).collect();
        gaps.iter().for_each(|gap| story.entries[*gap].body = Body::Illegible {});
        agrees(&story, story.entries.len())?;
        let withdrawn = Ledger::of(story.first(), &story.entries).withdrawals;
        let holes = story.entries.iter().filter(|e| matches!(e.body, Body::Illegible {}) && withdrawn.of(e.id).is_none());
        let last = holes.map(|entry| entry.seq).max().unwrap_or(0);
        let seq = |id: EntryId| story.entries.iter().find(|entry| entry.id == id).map(|entry| entry.seq);
        let plan = story.plan_at(story.entries.len());
        let report = Ledger::of(story.first(), &story.entries).at(&plan, &story.now);
        for stage in &plan.stages {
            if let Gate::Released(release) = report.gate(&stage.id) {
                prop_assert!(seq(release.entry) > Some(last), "{} stands over the hole at {}", stage.id, last);
            }
        }
        story.add(Body::Repaired { gaps: Vec::new(), may_lack_last, lost_logs: Vec::new() });
        agrees(&story, story.entries.len())?;
    }

    #[test]
    fn no_gate_is_ready_or_released_over_evidence_that_does_not_hold(steps in prop::collection::vec(step(), 30..90)) {
        let story = history(&steps);
        let truth = Truth::of_rules(story.first(), &story.entries, &story.now);
        let report = story.report();
        for stage in story.plan.stages.iter().filter(|stage| stage.gate.is_some()) {
            let gate = report.gate(&stage.id);
            if !(gate.may_be_released() || matches!(gate, Gate::Released(_))) {
                continue;
            }
            for check in stage.checks.iter().filter(|c| c.mandatory && c.before_flights_from.is_none()) {
                if let Some(is) = truth.checks.get(&check.id) {
                    prop_assert!(matches!(is, Is::Fresh | Is::Caution), "{} in {}: {:?}", &check.id, &stage.id, is);
                }
            }
        }
    }

    #[test]
    fn taking_entries_in_one_by_one_equals_a_replay(steps in prop::collection::vec(step(), 20..70)) {
        let story = history(&steps);
        let mut ledger = Ledger::default();
        for (number, entry) in story.entries.iter().enumerate() {
            let one = std::slice::from_ref(entry);
            if matches!(entry.body, Body::Withdrawn { .. }) {
                // As the function says: what was withdrawn has to be folded out anew.
                ledger = Ledger::of(story.first(), &story.entries[..=number]);
            } else {
                ledger.take(&story.plan_at(number), one);
            }
            if number % 8 == 0 {
                prop_assert_eq!(&ledger, &Ledger::of(story.first(), &story.entries[..=number]), "after {}", number + 1);
            }
        }
        prop_assert_eq!(ledger, story.ledger());
    }

    #[test]
    fn what_was_taken_back_is_what_a_search_of_the_entries_finds(steps in prop::collection::vec(step(), 20..60)) {
        let story = history(&steps);
        for upto in (0..=story.entries.len()).rev().step_by(5) {
            let entries = &story.entries[..upto];
            let known = Ledger::of(story.first(), entries).withdrawals;
            for entry in entries {
                let by = entries.iter().rfind(|e| matches!(e.body, Body::Withdrawn { entry: of, .. } if of == entry.id));
                prop_assert_eq!(known.of(entry.id).map(|withdrawal| withdrawal.by), by.map(|by| by.id));
            }
            let last = entries.last();
            let released = entries.iter().rev().take_while(|e| {
                matches!(e.body, Body::GateReleased { .. }) && last.is_some_and(|last| last.at == e.at)
            });
            let mut released: Vec<EntryId> = released.map(|e| e.id).collect();
            released.reverse();
            prop_assert_eq!(known.released_together(), released);
            let taken_back = match entries {
                [.., before, Entry { body: Body::Withdrawn { entry, .. }, at, .. }] if *entry == before.id => {
                    let same_day = at.wall.date_naive() == before.at.wall.date_naive();
                    (same_day && at.elapsed_ms_since(&before.at) < 600_000).then_some(before.id)
                }
                _ => None,
            };
            let now = last.map_or(&story.now, |last| &last.at);
            prop_assert_eq!(known.taken_back_just_now(now), taken_back);
        }
    }

    #[test]
    fn entries_of_one_aircraft_never_change_another(
        steps in prop::collection::vec(step(), 20..60),
        others in prop::collection::vec(step(), 20..60),
        turns in prop::collection::vec(any::<bool>(), 1..20),
    ) {
        let (own, other) = (history(&steps), history(&others));
        let (all, alone) = beside(&own, &other, &turns);
        let plan = own.plan_at(own.entries.len());
        let (with, without) = (Ledger::of(own.first(), &all), Ledger::of(own.first(), &alone));
        prop_assert_eq!(Truth::of_core(&plan, &with, &own.now), Truth::of_core(&plan, &without, &own.now));
        prop_assert_eq!(&with.aircraft, &without.aircraft);
        prop_assert_eq!(&with.evidence, &without.evidence);
        prop_assert_eq!(&with.results, &without.results);
        prop_assert_eq!(&with.releases, &without.releases);
        prop_assert_eq!((&with.described, &with.declared), (&without.described, &without.declared));
        prop_assert_eq!((&with.findings, &with.gone), (&without.findings, &without.gone));
        prop_assert_eq!(&with.flights, &without.flights);
        prop_assert_eq!((&with.changes, &with.happened), (&without.changes, &without.happened));
        prop_assert_eq!(&with.adjusted, &without.adjusted);
        prop_assert_eq!((&with.seat, &with.lock), (&without.seat, &without.lock));
        prop_assert_eq!((with.runs, with.motor_ms), (without.runs, without.motor_ms));
        prop_assert_eq!(&with.clock, &without.clock);
        // And the other one's are all there, where they are asked for.
        let aircraft = AircraftId(Some(id(1 << 40)));
        let there = Ledger::of_aircraft(aircraft, other.first(), &all);
        let drawn = |entry: &&Entry| entry.aircraft == aircraft && matches!(entry.body, Body::CardDrawn { .. });
        let stands = |entry: &&Entry| !there.withdrawals.contains(entry.id);
        prop_assert_eq!(there.flights.len(), all.iter().filter(drawn).filter(stands).count());
    }

    #[test]
    fn a_withdrawn_entry_equals_one_never_made(steps in prop::collection::vec(step(), 20..60), which in any::<usize>()) {
        let mut story = history(&steps);
        let Some(slip) = Story::pick(&story.can_withdraw(), which) else { return Ok(()) };
        story.wait_days(4);
        story.withdraw(slip);
        let never: Vec<_> = story
            .entries
            .iter()
            .filter(|e| e.id != slip && !matches!(e.body, Body::Withdrawn { entry, .. } if entry == slip))
            .cloned()
            .collect();
        // A finding's number is given once: the next one's differs, and what was taken back is known. Nothing else differs.
        let but_numbers = |ledger: Ledger| {
            let mut ledger = but_withdrawals(ledger);
            ledger.findings_raised = 0;
            ledger.findings.iter_mut().for_each(|finding| finding.number = 0);
            ledger
        };
        let (mut regretted, never) = (but_numbers(story.ledger()), but_numbers(Ledger::of(story.first(), &never)));
        // But taking back after the fact brings no gate back: one that had lapsed waits for the pilot.
        let before = Ledger::of(story.first(), &story.entries[..story.entries.len() - 1]);
        for (stage, release) in &mut regretted.releases {
            let Some(other) = never.releases.get(stage).filter(|never| never.lapsed != release.lapsed) else { continue };
            let had = before.releases.get(stage).unwrap();
            prop_assert!(release.lapsed.is_some());
            prop_assert_eq!((&had.entry, &had.lapsed), (&release.entry, &release.lapsed));
            release.lapsed.clone_from(&other.lapsed);
        }
        prop_assert_eq!(regretted, never);
    }

    #[test]
    fn what_a_change_sends_back_is_what_rests_on_it(steps in prop::collection::vec(step(), 30..80), subject in 0..8usize) {
        let mut story = history(&steps);
        let before = story.report();
        let subject = SUBJECTS[subject];
        let reached = story.reached_from(|check| check.rests_on.iter().any(|on| on.to_string() == subject));
        story.change(subject);
        sends_back(&before, &story.report(), &reached)?;
    }

    #[test]
    fn what_a_description_sends_back_is_what_rests_on_that_thing(
        steps in prop::collection::vec(step(), 30..80),
        kind in 0..3usize,
        numbers in 0..12u8,
        is_changed in any::<bool>(),
    ) {
        let mut story = history(&steps);
        let (kind, subject) = [
            (ThingKind::Consumer, "supplies"),
            (ThingKind::Wire, "wiring"),
            (ThingKind::Pack, "packs"),
        ][kind];
        let before = (story.report(), story.ledger().aircraft);
        let said = if is_changed { OnAircraft::Changed } else { OnAircraft::AsItWas };
        story.describe(kind, "Pack 1", numbers, said, false);
        let (after, aircraft) = (story.report(), story.ledger().aircraft);
        let of = ThingRef { kind, name: "Pack 1".into() };
        let (old, new) = (before.1.things.get(&of), aircraft.things.get(&of));
        // Of two packs that are alike, one more or less is known to the readings of packs alone.
        let other = aircraft.thing(ThingKind::Pack, "Pack 2");
        let is_like_other = |thing: &Thing| {
            other.is_some_and(|other| {
                let mass = |thing: &Thing| thing.number(ThingNumber::MassG).unwrap_or(-1_000.0);
                let two_percent = thing.number(ThingNumber::MassG).map_or(0.0, |mass_g| mass_g * 0.02);
                kind == ThingKind::Pack
                    && other.number(ThingNumber::Cells) == thing.number(ThingNumber::Cells)
                    && other.number(ThingNumber::CapacityMah) == thing.number(ThingNumber::CapacityMah)
                    && other.number(ThingNumber::FullV) == thing.number(ThingNumber::FullV)
                    && (mass(other) - mass(thing)).abs() <= two_percent
            })
        };
        let is_one_more = old.into_iter().chain(new).all(is_like_other);
        let subject = if is_one_more { "pack-readings" } else { subject };
        let reached = story.reached_from(|check| {
            let rests = check.rests_on.iter().any(|on| on.to_string() == subject);
            let computed = matches!(check.kind, CheckKind::Compute(computation) if computation.reads().contains(&kind));
            old != new && rests && (is_changed || computed)
        });
        sends_back(&before.0, &after, &reached)?;
    }
}

/// Whether exactly the checks that were reached hold no more.
fn sends_back(before: &Report, after: &Report, reached: &[String]) -> Result<(), TestCaseError> {
    for (check, standing) in &before.standings {
        if standing.holds() && !reached.contains(check) {
            prop_assert!(after.standing(check).holds(), "{}: {:?}", check, after.standing(check));
        }
        if after.standing(check).holds() {
            prop_assert!(!reached.contains(check), "{} is still fresh", check);
        }
    }
    Ok(())
}

impl Story {
    /// The checks that something reaches: those that rest on it, and those that rest on them.
    fn reached_from(&self, rests: impl Fn(&Check) -> bool) -> Vec<String> {
        let mut reached: Vec<String> = Vec::new();
        loop {
            let on_reached = |check: &Check| {
                check.rests_on.iter().any(|on| reached.iter().any(|id| on.to_string() == format!("check:{id}")))
            };
            let more: Vec<String> = self
                .plan
                .checks()
                .filter(|(_, check)| !reached.contains(&check.id) && (rests(check) || on_reached(check)))
                .map(|(_, check)| check.id.clone())
                .collect();
            if more.is_empty() {
                return reached;
            }
            reached.extend(more);
        }
    }
}

#[test]
fn the_random_histories_reach_what_they_are_to_test() {
    // A property over histories in which nothing ever comes to a gate would hold of anything.
    use proptest::strategy::ValueTree;
    use proptest::test_runner::{TestRng, TestRunner};
    let rng = TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(config(1), rng);
    let mut seen = std::collections::BTreeMap::<String, usize>::new();
    for _ in 0..160 {
        let steps = prop::collection::vec(step(), 30..90).new_tree(&mut runner).unwrap().current();
        let story = history(&steps);
        for upto in (0..story.entries.len()).filter(|i| matches!(story.entries[*i].body, Body::Withdrawn { .. })) {
            let after = Ledger::of(story.first(), &story.entries[..=upto]);
            let gone: Vec<EntryId> = story.entries[..=upto]
                .iter()
                .filter_map(|e| if let Body::Withdrawn { entry, .. } = e.body { Some(entry) } else { None })
                .collect();
            let counts = |e: &&Entry| !gone.contains(&e.id) && !matches!(e.body, Body::Withdrawn { .. });
            let live: Vec<Entry> = story.entries[..=upto].iter().filter(counts).cloned().collect();
            let never = Ledger::of(story.first(), &live);
            let left = after.releases.iter().filter(|(stage, release)| {
                release.lapsed.is_some() && never.releases.get(*stage).is_some_and(|never| never.lapsed.is_none())
            });
            *seen.entry("a gate that a withdrawal left lapsed".into()).or_default() += left.count();
        }
        for upto in (0..=story.entries.len()).step_by(10) {
            let entries = &story.entries[..upto];
            let now = entries.last().map_or_else(|| at_ms(0), |entry| entry.at.clone());
            let truth = Truth::of_rules(story.first(), entries, &now);
            let mut note = |what: String| *seen.entry(what).or_default() += 1;
            let ledger = Ledger::of(story.first(), entries);
            ledger.clock.behind(&now).into_iter().for_each(|_| note("a clock that is behind".into()));
            let untimed = ledger.flights.iter().filter(|flight| flight.down.is_some() && !flight.timed.is_known());
            untimed.for_each(|flight| note(format!("a flight that nobody timed: {:?}", flight.timed)));
            let told = ledger.flights.iter().filter(|flight| flight.timed == Timed::Told);
            told.for_each(|flight| note(format!("a time that was told, counted: {}", flight.counted_ms.is_some())));
            truth.gates.iter().for_each(|(stage, gate)| note(format!("{stage} {gate:?}")));
            truth.findings.values().for_each(|finding| note(format!("finding {finding:?}")));
            truth.checks.values().for_each(|check| note(format!("check {check:?}")));
            truth.packs.values().for_each(|pack| note(format!("pack {:?}", pack.is)));
            truth.packs.values().filter(|pack| pack.used_mah > 1_000).for_each(|_| note("much used".into()));
            truth.packs.values().filter(|pack| pack.unread_ms > 0).for_each(|_| note("flown unread".into()));
            truth.may_fly.iter().filter(|(_, may)| **may).for_each(|(check, _)| note(format!("may fly {check}")));
            let ledger = Ledger::of(story.first(), entries);
            let standings = ledger.at(&story.plan_at(upto), &now).standings;
            let wide = ledger.flights.iter().filter(|flight| flight.disagrees_widely());
            wide.for_each(|flight| {
                note(format!("wide, found: {}", flight.findings.iter().any(|f| f.place.is_none())))
            });
            let explained = ledger.flights.iter().filter(|flight| flight.is_explained());
            explained.for_each(|_| note("explained".into()));
            let unnamed = ledger.at(&story.plan_at(upto), &now).gates.into_iter().filter(|(_, gate)| {
                matches!(gate, Gate::Shut { blockers } | Gate::Lapsed { blockers, .. } if blockers.contains(&Blocker::Unnamed))
            });
            unnamed.for_each(|_| note("unnamed".into()));
            for standing in standings.values() {
                let lacking = match standing {
                    Standing::Missing { lacking } => lacking.as_slice(),
                    Standing::Failed { why: Fault::UnderReserve { .. } } => {
                        note("under reserve".to_owned());
                        &[]
                    }
                    _ => &[],
                };
                for lack in lacking {
                    match lack {
                        Lack::LongerFlight(_) => note("short".to_owned()),
                        Lack::ReadTooLate { .. } => note("late".to_owned()),
                        Lack::ListDeclared(_) => note("a list that is not declared".to_owned()),
                        Lack::Agreement { .. } => note("contradicted".to_owned()),
                        _ => {}
                    }
                }
            }
            ledger.last_run_to_jot().into_iter().for_each(|_| note("to jot down".to_owned()));
            ledger.flights.iter().filter(|flight| flight.waived.is_some()).for_each(|_| note("waived".to_owned()));
        }
    }
    let wanted = [
        format!("bench {:?}", GateIs::Released),
        format!("bench {:?}", GateIs::Lapsed),
        format!("fit {:?}", GateIs::Released),
        format!("ladder {:?}", GateIs::Shut),
    ];
    for what in wanted {
        assert!(seen.get(&what).is_some_and(|times| *times >= 3), "{what}: {seen:?}");
    }
    for what in [
        "finding Open",
        "finding Fixed",
        "finding Proven",
        "finding Carried",
        "a gate that a withdrawal left lapsed",
        "a clock that is behind",
        "a flight that nobody timed: AtLeast",
        "a flight that nobody timed: Doubtful",
        "a time that was told, counted: true",
        "a time that was told, counted: false",
        "check Stale",
        "check Failed",
        "check Unexplained",
        "check Missing",
        "check Fresh",
        "short",
        "late",
        "under reserve",
        "to jot down",
        "waived",
        "wide, found: true",
        "wide, found: false",
        "explained",
        "unnamed",
        "a list that is not declared",
        "contradicted",
        "pack Full",
        "pack Low",
        "pack Flown",
        "pack Unknown",
        "pack TooHigh",
        "pack Retired",
        "much used",
        "flown unread",
    ] {
        assert!(seen.get(what).is_some_and(|times| *times >= 3), "{what}: {seen:?}");
    }
    assert!(seen.keys().filter(|what| what.starts_with("may fly")).count() >= 3, "{seen:?}");
}

#[test]
fn a_fix_is_asked_for_while_a_finding_is_open_and_once_it_was_carried_long_enough() {
    let mut story = Story::released();
    let finding = story.raise(FindingGrade::Caution, "rung-1");
    let wants = |story: &Story| story.finding(finding).wants_fix(&story.ledger(), &story.now);
    assert!(wants(&story));
    story.carry(finding, Until::Flights(1));
    assert!(!wants(&story));
    story.fly("rung-1");
    assert!(wants(&story), "its run is over");
    story.fix(finding, &[]);
    assert!(!wants(&story), "the proof is to come");
}

#[test]
fn a_fix_may_have_touched_what_its_proof_rests_on_and_what_every_fix_may_move() {
    let mut story = Story::new();
    let touched = |story: &mut Story, check: &str| {
        let finding = story.raise(FindingGrade::Caution, check);
        let subjects = story.finding(finding).may_have_touched(&story.plan);
        subjects.iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    // No evidence and no number on file is touched by a tool; the mass stands there once.
    assert_eq!(touched(&mut story, "rung-2"), ["part:blades", "setting:trim", "mass", "packs", "wiring"]);
    assert_eq!(touched(&mut story, "polish"), ["wiring", "mass"]);
}

#[test]
fn a_reading_starts_from_the_last_one_and_an_event_asks_for_what_it_ends() {
    let mut story = Story::new();
    assert_eq!(story.ledger().last_measured("gap"), None);
    story.measure("gap", 3.5);
    story.measure("gap", 4.0);
    story.confirm("look", true);
    assert_eq!((story.ledger().last_measured("gap"), story.ledger().last_measured("look")), (Some(4.0), None));
    let asked = |story: &Story, event: &str| {
        let aircraft = story.ledger().aircraft;
        aircraft.checks_asked_again_by(&story.plan, event).map(|check| check.id.clone()).collect::<Vec<_>>()
    };
    assert_eq!(asked(&story, "thump"), ["gap", "belt", "inspect"]);
    assert!(asked(&story, "other").is_empty());
}
