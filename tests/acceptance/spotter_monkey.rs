//! A hundred thousand random touches by a spotter, in five walks of twenty thousand, with kills, restarts and clocks that jump: of
//! all kinds of entries only the five of a flight come of it. `LIFTGATE_ACTS` asks for another number in each walk.

use liftgate_core::record::{Author, Body, MarkKind};
use liftgate_core::view::Turn;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const ACTS: u32 = 20_000;

fn acts() -> u32 {
    std::env::var("LIFTGATE_ACTS").map_or(ACTS, |asked| asked.parse().expect("LIFTGATE_ACTS is a number"))
}

/// A small generator (Marsaglia's xorshift), so that a failure can be repeated.
struct Random(u64);

impl Random {
    fn below(&mut self, end: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % end
    }
}

// One test for each walk, so that they run side by side.
#[test]
fn a_spotter_leaves_only_what_a_spotter_may_first() {
    a_spotter_leaves_only_what_a_spotter_may(0x5eed_1e55);
}

#[test]
fn a_spotter_leaves_only_what_a_spotter_may_second() {
    a_spotter_leaves_only_what_a_spotter_may(0x0dd5_0f57);
}

#[test]
fn a_spotter_leaves_only_what_a_spotter_may_third() {
    a_spotter_leaves_only_what_a_spotter_may(0x7a11_b00e);
}

#[test]
fn a_spotter_leaves_only_what_a_spotter_may_fourth() {
    a_spotter_leaves_only_what_a_spotter_may(0xf1e1_d0a7);
}

#[test]
fn a_spotter_leaves_only_what_a_spotter_may_fifth() {
    a_spotter_leaves_only_what_a_spotter_may(0x90ad_c0de);
}

fn a_spotter_leaves_only_what_a_spotter_may(seed: u64) {
    let mut random = Random(seed);
    let acts = acts();
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.flies = false;
    let mut stale = Vec::new();
    let mut turns = 0;
    for _ in 0..acts {
        if walk.person.phone.turn().unwrap() == Turn::Pilot {
            turns += 1;
            next_card(&mut walk);
            let handle = walk.person.spotter();
            stale.push(handle);
        }
        let spotter = walk.person.spotter();
        let now = walk.person.now.clone();
        match random.below(400) {
            // Refused where what the card was handed over on is over.
            0..=39 => drop(spotter.start(&now)),
            40..=279 => {
                let kinds = MarkKind::ALL;
                let kind = kinds[random.below(kinds.len() as u64) as usize];
                drop(spotter.mark(kind, &now).unwrap());
            }
            280..=309 => drop(spotter.land(&now).unwrap()),
            310..=349 => drop(spotter.resume(&now).unwrap()),
            350..=353 => drop(spotter.hand_back(&now)),
            354..=369 => {
                // A handle of an earlier turn, at random.
                let old = &stale[random.below(stale.len() as u64) as usize];
                drop(old.mark(MarkKind::Other, &now));
            }
            370 => walk.person.killed(),
            371 => walk.person.now.wall -= chrono::Duration::minutes(17),
            372 => walk.person.now.wall += chrono::Duration::minutes(17),
            _ => drop(spotter.screen(&now).unwrap()),
        }
        assert!(walk.person.phone.pilot().is_err() || walk.person.phone.turn().unwrap() == Turn::Pilot);
        walk.person.now.monotonic_ms += i64::try_from(random.below(900)).unwrap();
    }
    assert!(turns > acts / 1_000, "{turns} turns");

    let entries = walk.person.entries();
    let by_spotter: Vec<&Body> =
        entries.iter().filter(|e| matches!(e.author, Author::Spotter { .. })).map(|e| &e.body).collect();
    assert!(by_spotter.len() > acts as usize / 20, "{} entries", by_spotter.len());
    for body in by_spotter {
        assert!(
            matches!(
                body,
                Body::Started { .. }
                    | Body::Marked { .. }
                    | Body::TouchedDown { .. }
                    | Body::RestartedInFlight { .. }
                    | Body::Resumed { .. }
                    | Body::HandedBack { .. }
            ),
            "{body:?}"
        );
    }
    // And within each turn, from hand-over to hand-back, nobody else recorded anything.
    let mut in_turn = false;
    for entry in &entries {
        match &entry.body {
            Body::HandedOver { .. } => in_turn = true,
            Body::HandedBack { .. } => in_turn = false,
            body => assert_eq!(in_turn, matches!(entry.author, Author::Spotter { .. }), "{body:?}"),
        }
    }
    assert_eq!(walk.person.phone.verify().unwrap().count, i64::try_from(entries.len()).unwrap());
}

/// The pilot jots down what is to be jotted, does what is due and hands over the next card.
fn next_card(walk: &mut Walk) {
    walk.person.home();
    while walk.person.cautions().iter().any(|caution| caution.contains("behind the last entry")) {
        walk.person.now.wall += chrono::Duration::minutes(17);
    }
    walk.until(|person| person.verdict().starts_with("Nothing stands between") && !awaits_landing(person));
    walk.give_away();
}

fn awaits_landing(person: &liftgate_tests::Person) -> bool {
    person.screen().foot[0].label == "Jot down the landing"
}
