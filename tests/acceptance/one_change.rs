//! The ledger of settings: what was changed, from what, why, what was flown on it; and a flight that tests two things.

use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

fn set(walk: &mut Walk, setting: &str, value: &str, why: &str) {
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap(setting);
    walk.person.enter("New value", value);
    walk.person.enter("Why", why);
    walk.person.tap("Record it");
    walk.person.home();
}

#[test]
fn two_changes_on_one_flight_are_said_on_the_card_the_landing_and_the_ledger() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    // The next rung is one change by itself: it says nothing.
    walk.person.tap("Draw up the card");
    assert!(!walk.person.cautions().iter().any(|caution| caution.contains("changes at once")));
    set(&mut walk, "Tail gain", "38", "It wags in gusts");
    walk.until_flight("Hover at the second head speed");
    walk.person.tap("Draw up the card");
    let said = walk.person.cautions();
    let two = said.iter().find(|caution| caution.contains("2 changes at once")).expect("the card says so");
    assert!(two.contains("Head speed 1000 to 1080 rpm") && two.contains("Tail gain 38 %"), "{two}");
    walk.person.tap("Pack 1 was charged");
    let hand_over = walk.person.control("Hand over").unwrap();
    assert!(hand_over.enabled, "and never blocks: {:?}", hand_over.why_not);
    walk.fly();
    assert!(walk.person.cautions().iter().any(|caution| caution.starts_with("This flight tested 2 changes at once")));
    walk.land();
    set(&mut walk, "Tail gain", "35", "Still a trace of it");
    walk.person.tap("Aircraft");
    walk.person.tap("Settings so far");
    let (_, word, detail) = walk.person.row("Tail gain: 38 %").unwrap();
    assert_eq!(word, "Not alone");
    let detail = detail.unwrap();
    assert!(detail.contains("It wags in gusts. Flown on it: 1 motor run"), "{detail}");
    assert!(detail.contains("together with: Head speed 1000 to 1080 rpm"), "{detail}");
    let (_, _, detail) = walk.person.row("Tail gain: 38 to 35 %").unwrap();
    assert!(detail.unwrap().contains("Still a trace of it. Flown on it: 0 motor runs"));
    assert_eq!(walk.person.row("Tail gain 38 to 35 %").unwrap().1, "To fly");
    // Whoever sets something else now is told that the first change was not flown.
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Governor");
    assert!(walk.person.cautions().iter().any(|caution| caution.contains("Tail gain 38 to 35 %. Fly that first")));
}

#[test]
fn a_head_speed_that_is_changed_says_why_and_a_rung_out_of_order_holds_the_gates() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    walk.person.tap("Aircraft");
    walk.person.tap("Head speed of the third hover");
    walk.person.enter("Head speed of the third hover", "1050");
    assert!(walk.person.refused("Record it").contains("reason"));
    walk.person.enter("Why it changes", "A hum at 1160");
    walk.person.tap("Record it");
    walk.person.home();
    let title = "Head speed of the third hover must lie above: head speed of the second hover";
    assert_eq!(walk.person.row(title).unwrap().1, "Out of order");
    assert_eq!(walk.person.row("Figures and papers").unwrap().1, "Lapsed");
    walk.person.tap(title);
    walk.person.enter("Head speed of the third hover", "1140");
    walk.person.enter("Why it changes", "A slip of the finger");
    walk.person.tap("Record it");
    walk.person.home();
    assert!(walk.person.row(title).is_none());
}
