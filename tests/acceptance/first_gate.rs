//! The first evening: from a new phone, through names, questions, figures and checks, to a gate that the pilot releases.

use std::collections::BTreeSet;

use liftgate_core::app::AppError;
use liftgate_core::record::Body;
use liftgate_core::view::Edge;
use liftgate_tests::Person;
use liftgate_tests::example::{self, Kind, NAME};
use liftgate_tests::walk::Walk;

#[test]
fn a_new_phone_says_what_is_missing_and_leads_there() {
    let mut person = Person::new();
    let screen = person.screen();
    assert_eq!((screen.name.as_str(), screen.title.as_str()), ("board", "This aircraft"));
    assert!(screen.undo.is_none(), "nothing was recorded yet");
    assert!(person.verdict().contains("things stand between this aircraft and 'Motor at its slowest, on the bench'"));
    // The foot leads to the first of what is listed.
    assert_eq!(screen.foot[0].label, "Enter");
    assert_eq!(screen.foot[0].detail.as_deref(), Some("Names of the aircraft, its builder and its pilot"));
    let (edge, state, _) = person.row("How is the tail rotor carried?").unwrap();
    assert_eq!((edge, state.as_str()), (Edge::Missing, "To answer"));

    example::name(&mut person);
    assert_eq!(person.screen().title, NAME);
    let screen = person.screen();
    assert_eq!(screen.foot[0].label, "Answer");
    assert_eq!(screen.foot[0].detail.as_deref(), Some("How is the tail rotor carried?"));
    assert!(person.verdict().contains(NAME));
}

#[test]
fn figures_are_entered_in_a_row_and_keep_their_basis() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until(|person| person.screen().foot[0].label == "Enter");
    let person = &mut walk.person;
    person.tap("Enter");
    assert_eq!(person.screen().title, "Main rotor diameter");
    person.enter("Main rotor diameter", "1,8");
    assert!(
        person.control("Record it: measured").is_some(),
        "nobody said yet where it comes from: {}",
        person.words()
    );
    let said = person.tap("Record it: maker's rating").said;
    assert_eq!(said.as_deref(), Some("Main rotor diameter: 1.8 m, maker's rating"));
    assert_eq!(person.screen().title, "Design flying mass, packs in", "the next missing figure follows at once");
    person.home();
    person.tap("Aircraft");
    assert_eq!(person.row("Main rotor diameter").unwrap().2.as_deref(), Some("1.8 m, maker's rating"));
    // Another value of the same figure comes from where the last one came from, unless it is said otherwise.
    person.tap("Main rotor diameter");
    person.enter("Main rotor diameter", "1.81");
    let said = person.tap("Record it").said;
    assert_eq!(said.as_deref(), Some("Main rotor diameter: 1.81 m, maker's rating"));
}

#[test]
fn the_first_gate_opens_on_evidence_and_only_the_pilot_releases_it() {
    let mut walk = Walk::new(Kind::Scale);
    let stage = "Figures and papers";
    walk.person.tap(stage);
    assert!(walk.person.control("Release").is_none(), "a shut gate offers no release");
    assert!(walk.person.cautions().iter().any(|c| c.starts_with("Rules come first")), "cautions stand on the stage");
    walk.person.home();

    walk.until(|person| person.row(stage).unwrap().1 == "Ready");
    assert_eq!(walk.person.row("Gate of figures and papers").unwrap().1, "Ready");
    assert!(
        !walk.person.entries().iter().any(|e| matches!(e.body, Body::GateReleased { .. })),
        "ready is not released"
    );
    walk.person.tap("Decide");
    walk.person.tap("Release figures and papers");

    assert_eq!(walk.person.row(stage).unwrap().1, "Released");
    let Body::GateReleased { by, evidence, .. } = walk.person.last() else { panic!("the release is recorded") };
    assert_eq!(by, example::BUILDER);
    // The decision keeps what it stood on: every check of the stage, by the entry that was its evidence.
    let entries = walk.person.entries();
    assert_eq!(evidence.len(), 7);
    for (check, entry) in evidence {
        let of = entries.iter().find(|e| e.id == entry).map(|e| &e.body);
        assert!(matches!(of, Some(Body::CheckRecorded { check: id, .. }) if *id == check), "{check}: {of:?}");
    }
}

#[test]
fn a_changed_figure_lapses_the_gate_and_leaves_other_evidence_alone() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    // A cell fewer: nothing of the blades' rating rests on that.
    example::enter_figure(person, "Main pack cells in series, all packs together", "11");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Lapsed");
    person.tap("Figures and papers");
    let (_, state, why) = person.row("Planned current under the rating").unwrap();
    assert_eq!(state, "Stale");
    assert!(why.unwrap().contains("changed: entered as 11"));
    assert_eq!(person.row("Head speed under the blades' rating").unwrap().1, "Holds");
    person.home();
    walk.until_released("Figures and papers");
    let released = walk.person.entries().iter().filter(|e| matches!(e.body, Body::GateReleased { .. })).count();
    assert_eq!(released, 2, "a lapsed gate opens by a new decision only");
}

#[test]
fn what_is_recorded_leads_on_and_a_bounce_records_nothing_on_the_next_page() {
    let mut walk = Walk::new(Kind::Scale);
    let person = &mut walk.person;
    person.tap("Answer");
    let touches = person.touches;
    let mut asked = BTreeSet::new();
    while walk.person.screen().name == "question" {
        assert!(asked.insert(walk.person.words()), "and it is another one each time");
        walk.step();
    }
    assert_eq!(
        (asked.len(), walk.person.touches - touches),
        (7, 7),
        "one touch each, without going back to the board"
    );
    walk.until(|person| person.screen().foot[0].detail.as_deref() == Some("Rules and permission looked up"));
    let person = &mut walk.person;
    person.tap("Do");
    person.tap("Seen, and right");
    let next = person.screen();
    assert_eq!((next.name.as_str(), next.title.as_str()), ("check", "Head speed under the blades' rating"));
    // The same thumb, a tenth of a second later: something else stands under it by now.
    let keep = person.control("Keep this result").expect("what the page is for");
    let before = person.entries().len();
    person.now.monotonic_ms += 100;
    let bounced = person.phone.pilot().unwrap().tap(&keep.token, &person.now);
    assert!(
        matches!(bounced, Err(AppError::Refused { ref reason, .. }) if reason.contains("Too quick")),
        "{bounced:?}"
    );
    assert_eq!(person.entries().len(), before);
    person.tap("Keep this result");
    assert_eq!(person.entries().len(), before + 1);
}
