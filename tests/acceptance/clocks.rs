//! The clock may lie: set back, sprung forward, another zone, or a phone restarted in flight.

use chrono::{Duration, FixedOffset};
use liftgate_core::record::{Body, MarkKind};
use liftgate_core::view::Turn;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

fn handed_over() -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.give_away();
    walk
}

fn touchdown_ms(walk: &Walk) -> i64 {
    let down = walk.person.entries().into_iter().rev().find_map(|e| match e.body {
        Body::TouchedDown { elapsed_ms, .. } => Some(elapsed_ms),
        _ => None,
    });
    down.unwrap()
}

#[test]
fn a_wall_clock_set_back_or_forward_in_flight_changes_no_duration_and_no_order() {
    for jump in [Duration::hours(-1), Duration::hours(5), Duration::days(-400), Duration::days(3_650)] {
        let mut walk = handed_over();
        let spotter = walk.person.spotter();
        spotter.start(&walk.person.now).unwrap();
        walk.person.wait(10);
        walk.person.now.wall += jump;
        let screen = spotter.mark(MarkKind::Shake, &walk.person.now).unwrap();
        assert_eq!(screen.clock.elapsed_ms, 10_000, "after a jump of {jump}");
        walk.person.wait(15);
        spotter.land(&walk.person.now).unwrap();
        spotter.hand_back(&walk.person.now).unwrap();
        assert_eq!(touchdown_ms(&walk), 25_000, "after a jump of {jump}");

        walk.land();
        let entries = walk.person.entries();
        let order: Vec<i64> = entries.iter().map(|e| e.seq).collect();
        assert_eq!(
            order,
            (1..=i64::try_from(entries.len()).unwrap()).collect::<Vec<_>>(),
            "none lost, none reordered"
        );
        assert_eq!(walk.person.phone.verify().unwrap().count, *order.last().unwrap());
        walk.person.killed_and_the_same();
    }
}

#[test]
fn a_clock_set_back_neither_ages_nor_renews_what_holds_for_a_day() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.person.now.wall -= Duration::hours(30);
    assert!(walk.person.verdict().starts_with("Nothing stands between"), "back: {}", walk.person.verdict());
    walk.person.now.wall += Duration::hours(30 + 24);
    assert!(walk.person.row("Failsafe and hold work today").is_some_and(|(_, state, _)| state == "Stale"));
    // Right again: nothing was recorded meanwhile, so nothing was lost by the lie.
    walk.person.now.wall -= Duration::hours(24);
    assert!(walk.person.verdict().starts_with("Nothing stands between"), "right: {}", walk.person.verdict());
}

#[test]
fn another_time_zone_changes_the_dates_and_not_the_flight() {
    let mut walk = handed_over();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.wait(20);
    walk.person.now.wall = walk.person.now.wall.with_timezone(&FixedOffset::east_opt(9 * 3_600).unwrap());
    spotter.land(&walk.person.now).unwrap();
    assert_eq!(touchdown_ms(&walk), 20_000);
    let last = walk.person.entries().pop().unwrap();
    assert_eq!(last.at.wall.offset().local_minus_utc(), 9 * 3_600, "dates keep their offset");
}

#[test]
fn a_phone_that_restarts_in_flight_comes_back_to_the_running_flight() {
    let mut walk = handed_over();
    walk.person.spotter().start(&walk.person.now).unwrap();
    walk.person.wait(12);
    // Forty seconds to start again; the monotonic clock begins anew.
    walk.person.now.wall += Duration::seconds(40);
    walk.person.now.monotonic_ms = 9_000;
    walk.person.now.boot = "second".to_owned();
    walk.person.killed();
    assert_eq!(walk.person.phone.turn().unwrap(), Turn::Spotter, "still the spotter's turn");
    let spotter = walk.person.spotter();
    let screen = spotter.screen(&walk.person.now).unwrap();
    assert!(screen.clock.running);
    assert_eq!(screen.clock.elapsed_ms, 52_000, "across a restart only the wall clock is left");
    walk.person.wait(8);
    spotter.land(&walk.person.now).unwrap();
    assert_eq!(touchdown_ms(&walk), 60_000);
    spotter.hand_back(&walk.person.now).unwrap();
    walk.land();
    walk.until_flight("Each speed up to service speed, no blades");
}

#[test]
fn a_restart_with_a_wrong_wall_clock_gives_no_less_than_the_time_since_the_restart() {
    let mut walk = handed_over();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    walk.person.now.wall -= Duration::days(20_000);
    walk.person.now.monotonic_ms = 4_000;
    walk.person.now.boot = "second".to_owned();
    let screen = spotter.land(&walk.person.now).unwrap();
    assert_eq!(screen.clock.elapsed_ms, 4_000);
    assert_eq!(touchdown_ms(&walk), 4_000);
    spotter.hand_back(&walk.person.now).unwrap();
    walk.land();
    assert!(walk.person.phone.verify().is_ok());
}
