//! The app is killed after every touch and every typed word, and comes back to the same item with the same draft.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};

use liftgate_core::record::MarkKind;
use liftgate_tests::Person;
use liftgate_tests::example::{self, CONSUMERS, Kind, PACK, SPOTTER, SUPPLY};
use liftgate_tests::walk::Walk;

#[test]
fn killed_at_every_step_of_describing_the_aircraft() {
    let mut person = Person::new();
    person.killed_at_every_step = true;
    example::name(&mut person);
    person.tap("Answer");
    person.tap("In the open");
    example::enter_figure(&mut person, "Main rotor diameter", "1.8");
    example::describe(&mut person, &SUPPLY);
    example::describe(&mut person, &CONSUMERS[0]);
    person.go_to("Bench electrics", "Each supply bears its load");
    person.enter("Remark", "Stirred for a minute");
    person.tap("Keep this result");
    person.go_to("Figures and papers", "Figures match the papers");
    person.enter("Second person's name", SPOTTER);
    person.tap("Not right");
    person.tap("Raise a finding");
    person.enter("What is wrong", "The gear ratio is another");
    person.tap("Caution");
    person.tap("Raise it");
    person.tap("1. The gear ratio is another");
    person.enter("What was done", "Counted the teeth again");
    person.tap("Wiring");
    person.tap("Record the fix");
    person.home();
    person.tap("Take back");
    person.tap("Aircraft");
    person.tap("Record a change");
    person.enter("What was done", "New leads");
    person.tap("Wiring");
    person.tap("Record the change");
}

#[test]
fn killed_at_every_step_of_a_flight() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.person.killed_at_every_step = true;
    walk.person.tap("Draw up the card");
    walk.person.tap(PACK);
    walk.person.tap("Pack 1 was charged");
    walk.person.tap("Air temperature more");
    walk.person.tap("Planned time, motor on more");
    walk.person.enter("Spotter's name", SPOTTER);
    walk.person.tap("Hand over");
    let acts: [fn(&Person); 6] = [
        |p| drop(p.spotter().start(&p.now).unwrap()),
        |p| drop(p.spotter().mark(MarkKind::Shake, &p.now).unwrap()),
        |p| drop(p.spotter().land(&p.now).unwrap()),
        |p| drop(p.spotter().resume(&p.now).unwrap()),
        |p| drop(p.spotter().mark(MarkKind::Tail, &p.now).unwrap()),
        |p| drop(p.spotter().land(&p.now).unwrap()),
    ];
    for act in acts {
        walk.person.wait(7);
        act(&walk.person);
        walk.person.killed_and_the_same();
    }
    walk.person.spotter().hand_back(&walk.person.now).unwrap();
    walk.person.killed_and_the_same();
    assert_eq!(walk.person.screen().name, "landing");
    walk.land();
    assert_eq!(walk.person.row("First start, slow, no blades").unwrap().1, "Holds");
}

#[test]
fn a_draft_survives_hours_in_a_pocket() {
    let mut person = Person::new();
    person.go_to("Figures and papers", "Planned mass under the limit");
    person.enter("Reading", "9.4");
    person.enter("Remark", "With the new crew seats");
    person.tap("Back");
    person.home();
    person.wait(9 * 3_600);
    person.killed();
    person.go_to("Figures and papers", "Planned mass under the limit");
    assert_eq!(person.typed("Reading").0, "9.4");
    assert_eq!(person.typed("Remark").0, "With the new crew seats");
}

/// What the other process says after each entry that it was told is recorded.
const ACKNOWLEDGED: &str = "acknowledged ";

/// Not a story by itself: the process that the next one kills.
#[test]
#[ignore = "run by another test, as the process that is killed"]
fn the_process_that_is_killed() {
    let Some(journal) = std::env::var_os("LIFTGATE_KILLED_JOURNAL") else { return };
    let mut person = Person::at(journal.into());
    person.go_to("Figures and papers", "Planned mass under the limit");
    // Each process is a phone started anew: its clock of the run begins from nothing.
    person.now.boot = std::process::id().to_string();
    for count in 0.. {
        person.enter("Reading", &format!("9.{}", count % 10));
        person.tap("Record 9");
        let verified = person.phone.verify().unwrap();
        #[allow(clippy::print_stdout)]
        {
            println!("{ACKNOWLEDGED}{}", verified.count);
        }
        if person.screen().title != "Planned mass under the limit" {
            person.go_to("Figures and papers", "Planned mass under the limit");
        }
    }
}

#[test]
fn the_kernel_kills_it_and_nothing_acknowledged_is_lost() {
    let person = Person::new();
    let journal = person.journal();
    person.phone.close().unwrap();
    let mut known = 1;
    for round in 0..12_u64 {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["process_death::the_process_that_is_killed", "--exact", "--ignored", "--nocapture"])
            .env("LIFTGATE_KILLED_JOURNAL", &journal)
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        // Another number of entries and another moment each time.
        for _ in 0..=round % 5 {
            let line = lines.by_ref().map(Result::unwrap).find(|line| line.starts_with(ACKNOWLEDGED)).unwrap();
            known = line[ACKNOWLEDGED.len()..].parse().unwrap();
        }
        std::thread::sleep(std::time::Duration::from_micros(round * 1_777));
        child.kill().unwrap();
        child.wait().unwrap();
        // Lines that were on their way when it died were acknowledged too.
        for line in lines.map_while(Result::ok).filter(|line| line.starts_with(ACKNOWLEDGED)) {
            known = line[ACKNOWLEDGED.len()..].parse().unwrap();
        }
        let again = Person::at(journal.clone());
        let found = again.phone.verify().expect("the chain closes").count;
        assert!(found >= known && found <= known + 1, "{known} were acknowledged, {found} are there");
        assert_ne!(again.screen().title, "Not found");
    }
    assert!(known > 12);
}
