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
    assert!(walk.person.cautions().iter().any(|caution| caution.contains("behind the last entry")), "it is told");
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

/// The phone goes out and comes up again: its wall clock is so much later, its monotonic one begins anew.
fn starts_anew(walk: &mut Walk, later: Duration, monotonic_ms: i64) {
    let now = &mut walk.person.now;
    now.wall += later;
    (now.monotonic_ms, now.boot) = (monotonic_ms, "second".to_owned());
    walk.person.killed();
}

#[test]
fn a_phone_that_restarts_in_flight_comes_back_to_the_running_flight() {
    let mut walk = handed_over();
    walk.person.spotter().start(&walk.person.now).unwrap();
    walk.person.wait(12);
    // Forty seconds to start again; the monotonic clock begins anew.
    starts_anew(&mut walk, Duration::seconds(40), 9_000);
    assert_eq!(walk.person.phone.turn().unwrap(), Turn::Spotter, "still the spotter's turn");
    let spotter = walk.person.spotter();
    let screen = spotter.screen(&walk.person.now).unwrap();
    assert!(screen.clock.running);
    assert_eq!(screen.clock.elapsed_ms, 52_000, "across a restart only the wall clock is left");
    walk.person.wait(8);
    spotter.land(&walk.person.now).unwrap();
    assert_eq!(touchdown_ms(&walk), 17_000, "what surely went by, and no more");
    spotter.hand_back(&walk.person.now).unwrap();
    walk.land();
    how_long_is_asked(&mut walk);
    walk.until_flight("Each speed up to service speed, no blades");
}

/// It holds every card and is no evidence until the pilot says how long it flew.
fn how_long_is_asked(walk: &mut Walk) {
    let person = &mut walk.person;
    assert_eq!(person.screen().name, "landing", "the pilot stays where it is asked");
    person.home();
    assert_ne!(person.row("First start, slow, no blades").map(|row| row.1), Some("Holds".to_owned()));
    person.tap("How long the motor was on");
    assert!(person.refused("So long it flew").contains("first"));
    person.enter("Time with the motor on", "99");
    assert!(person.closed("So long it flew").contains("cannot be right"));
    person.enter("Time with the motor on", "1");
    person.tap("So long it flew");
    assert!(matches!(person.last(), Body::FlownTold { flown_s: 60, .. }), "{:?}", person.last());
    assert!(person.control("So long it flew").is_none(), "asked once");
    person.home();
    assert!(person.row("How long the motor was on, in first start, slow, no blades").is_none(), "{}", person.words());
}

#[test]
fn a_second_that_the_wall_clock_makes_four_minutes_is_not_reckoned() {
    let mut walk = handed_over();
    walk.person.spotter().start(&walk.person.now).unwrap();
    walk.person.wait(1);
    starts_anew(&mut walk, Duration::minutes(4), 500);
    let spotter = walk.person.spotter();
    spotter.land(&walk.person.now).unwrap();
    assert_eq!(touchdown_ms(&walk), 500);
    spotter.hand_back(&walk.person.now).unwrap();
    walk.land();
    walk.person.home();
    let asked = "How long the motor was on, in first start, slow, no blades";
    assert!(walk.person.row(asked).is_some(), "{}", walk.person.words());
    walk.person.tap(asked);
    walk.person.enter("Time with the motor on", "0.02");
    walk.person.tap("So long it flew");
    walk.person.home();
    let verdict = walk.person.verdict();
    assert!(verdict.contains("'First start, slow, no blades'"), "called off at once, it is flown again: {verdict}");
}

#[test]
fn a_card_that_was_handed_over_three_days_ago_is_not_started() {
    for set_back in [0, 3] {
        let mut walk = handed_over();
        walk.person.wait(3 * 24 * 3_600);
        // Whichever clock says more: the running one cannot be set back.
        walk.person.now.wall -= Duration::days(set_back);
        let refused = walk.person.spotter().start(&walk.person.now).unwrap_err().to_string();
        assert!(refused.contains("another day") && refused.contains("hands it over again"), "{refused}");
        walk.person.spotter().hand_back(&walk.person.now).unwrap();
        walk.person.home();
        walk.person.now.wall += Duration::days(set_back);
        assert!(walk.person.row("Failsafe and hold work today").is_some_and(|(_, state, _)| state == "Stale"));
        walk.until_flight("First start, slow, no blades");
        walk.give_away();
        walk.person.spotter().start(&walk.person.now).unwrap();
    }
}

#[test]
fn three_days_by_the_running_clock_end_the_day_whatever_the_wall_clock_shows() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.person.wait(3 * 24 * 3_600);
    walk.person.now.wall -= Duration::days(3);
    assert!(walk.person.row("Failsafe and hold work today").is_some_and(|(_, state, _)| state == "Stale"));
}

#[test]
fn a_clock_that_is_behind_releases_nothing_until_it_is_set() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let person = &mut walk.person;
    person.tap("Take back");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Ready");
    person.tap("Figures and papers");
    let release = person.control("Release").unwrap();
    person.now.wall -= Duration::days(2);
    let refused = person.phone.pilot().unwrap().tap(&release.token, &person.now).unwrap_err().to_string();
    assert!(!refused.is_empty());
    assert!(person.control("Release").is_none_or(|control| !control.enabled));
    assert!(person.row("The phone's clock is behind the last entry").is_some(), "{}", person.words());
    person.home();
    assert_eq!(person.row("Figures and papers").unwrap().1, "Shut");
    let told = person.cautions().into_iter().find(|caution| caution.contains("behind the last entry")).unwrap();
    assert!(told.contains("Set the phone's clock"), "{told}");
    // What is recorded meanwhile keeps what the phone said, and is dated no earlier than what came before.
    person.now.wall += Duration::days(2);
    person.tap("Figures and papers");
    person.tap("Release");
    assert_eq!(person.row("Figures and papers").unwrap().1, "Released");
}

#[test]
fn after_a_restart_with_a_clock_that_is_behind_nothing_of_the_day_counts() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.person.now.wall -= Duration::days(2);
    walk.person.now.monotonic_ms = 30_000;
    walk.person.now.boot = "second".to_owned();
    walk.person.killed();
    let (_, state, why) = walk.person.row("Failsafe and hold work today").expect("it is asked for");
    assert_eq!(state, "Stale", "{why:?}");
    // Set right, the same evidence counts as before: nothing was lost by the lie.
    walk.person.now.wall += Duration::days(2);
    assert!(walk.person.verdict().starts_with("Nothing stands between"), "{}", walk.person.verdict());
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
