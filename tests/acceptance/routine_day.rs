//! Days in service: what is due, the short pre-flight, fly, land, next pack; counted in touches.
//!
//! Every due check keeps a touch of its own, because each is evidence of its own: one touch for "all of these seen" would be a
//! bare tick. What there is to save is everything else: opening each check's page, its foot, the way back, the pack, the air.

use liftgate_core::app::AppError;
use liftgate_core::record::{Body, CheckResult};
use liftgate_core::view::{Block, Control, Screen};
use liftgate_tests::example::{Kind, PACK};
use liftgate_tests::walk::Walk;
use liftgate_tests::{Person, controls};

const FLIGHT: &str = "Flight in service";

/// In service, the first flight of this day flown and its landing jotted: the next card is in view.
fn in_service() -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.give_away();
    flown(&mut walk.person);
    walk.land();
    assert_eq!(walk.person.screen().name, "card", "in service the next card follows the landing at once");
    walk
}

/// The pack is charged before the person comes to the field, or between two flights there: one touch where it is charged.
fn charged_meanwhile(person: &mut Person) {
    person.tap("Pack 1 was charged");
}

/// Started, flown as planned with nothing noticed, and handed back.
fn flown(person: &mut Person) {
    let spotter = person.spotter();
    spotter.start(&person.now).unwrap();
    person.wait(340);
    spotter.land(&person.now).unwrap();
    spotter.hand_back(&person.now).unwrap();
}

/// Someone who counts touches and needs about two seconds for each.
struct Counting<'a> {
    person: &'a mut Person,
    touches: u32,
}

impl Counting<'_> {
    fn touch(&mut self, control: &Control) {
        assert!(control.enabled, "{}: {:?}", control.label, control.why_not);
        self.person.wait(2);
        self.person.phone.pilot().and_then(|pilot| pilot.tap(&control.token, &self.person.now)).unwrap();
        self.touches += 1;
    }

    /// Each due check where it stands: seen and right, or the reading that it had last time.
    fn what_is_due(&mut self) -> Vec<String> {
        let mut done = Vec::new();
        while let Some((title, control)) = first_tick(&self.person.screen()) {
            let before = self.person.entries().len();
            self.touch(&control);
            assert_eq!(self.person.entries().len(), before + 1, "one touch, one piece of evidence");
            let Body::CheckRecorded { result, .. } = self.person.last() else { panic!("{title} is recorded") };
            assert!(!matches!(result, CheckResult::Confirmed { passed: false }));
            done.push(title);
        }
        done
    }

    fn hand_over_and_start(&mut self) {
        let hand_over = self.person.screen().foot[0].clone();
        self.touch(&hand_over);
        self.person.wait(5);
        self.person.spotter().start(&self.person.now).unwrap();
        self.touches += 1;
    }
}

/// The first check on the card that a touch records, and that touch.
fn first_tick(screen: &Screen) -> Option<(String, Control)> {
    screen.blocks.windows(2).find_map(|pair| match pair {
        [Block::Row { title, .. }, Block::Choice { label, options }] if label.is_empty() => {
            let last = options.iter().find(|option| option.detail.as_deref() == Some("last"));
            Some((title.clone(), last.unwrap_or(&options[0]).clone()))
        }
        _ => None,
    })
}

#[test]
fn from_the_opened_app_to_the_clock_in_six_touches_and_from_landing_to_the_pocket_in_five() {
    let mut walk = in_service();
    walk.person.wait(20 * 60);
    charged_meanwhile(&mut walk.person);
    walk.person.killed();
    let mut counting = Counting { person: &mut walk.person, touches: 0 };
    let due = counting.what_is_due();
    assert_eq!(due.len(), 4, "before every flight: {due:?}");
    counting.hand_over_and_start();
    assert!(counting.touches <= 6, "{} touches to the clock", counting.touches);

    // Touchdown, the phone back, three temperatures; the landing is recorded and the next card is there.
    counting.person.wait(350);
    let mut touches = 0;
    let spotter = counting.person.spotter();
    spotter.land(&counting.person.now).unwrap();
    touches += 1;
    counting.person.wait(10);
    spotter.hand_back(&counting.person.now).unwrap();
    touches += 1;
    while counting.person.screen().name == "landing" {
        let chips = controls(&counting.person.screen());
        let last = chips.iter().find(|(_, control)| control.detail.as_deref() == Some("last")).unwrap().1.clone();
        counting.touch(&last);
        touches += 1;
    }
    assert_eq!(touches, 5, "touches from the last landing to the pocket");
    let Body::LandingRecorded { temperatures, .. } = counting.person.last() else { panic!("a landing is recorded") };
    assert_eq!(temperatures.len(), 3);
    assert_eq!(counting.person.screen().name, "card");
}

#[test]
fn the_first_flight_of_a_day_adds_what_is_due_by_the_day_a_touch_each() {
    let mut walk = in_service();
    walk.person.wait(20 * 3_600);
    charged_meanwhile(&mut walk.person);
    walk.person.killed();
    let mut counting = Counting { person: &mut walk.person, touches: 0 };
    let due = counting.what_is_due();
    assert_eq!(counting.touches as usize, due.len());
    // The day's own checks are made once, with the radio and the field set up.
    for title in ["Failsafe and hold work today", "Site, barrier and distance", "Walk-round by hand"] {
        assert!(due.contains(&title.to_owned()), "{due:?}");
    }
    assert_eq!(walk.person.control("Hand over").unwrap().why_not.as_deref(), Some("Enter the air temperature first"));
    walk.person.tap("20 °C");
    let mut counting = Counting { person: &mut walk.person, touches: u32::try_from(due.len()).unwrap() + 1 };
    counting.hand_over_and_start();
    assert!(counting.touches <= 12, "{} touches with {} due", counting.touches, due.len());
}

#[test]
fn a_bounce_of_the_finger_records_nothing() {
    let mut walk = in_service();
    walk.person.wait(60);
    let (first, control) = first_tick(&walk.person.screen()).unwrap();
    walk.person.phone.pilot().unwrap().tap(&control.token, &walk.person.now).unwrap();
    let (second, control) = first_tick(&walk.person.screen()).unwrap();
    assert_ne!(first, second, "the next one moved under the finger");
    walk.person.now.monotonic_ms += 300;
    let bounced = walk.person.phone.pilot().unwrap().tap(&control.token, &walk.person.now);
    assert!(
        matches!(bounced, Err(AppError::Refused { ref reason, .. }) if reason.contains("Too quick")),
        "{bounced:?}"
    );
    walk.person.now.monotonic_ms += 500;
    walk.person.phone.pilot().unwrap().tap(&control.token, &walk.person.now).unwrap();
    // And what was touched is taken back in one touch.
    walk.person.tap("Take back");
    assert_eq!(first_tick(&walk.person.screen()).unwrap().0, second);
}

#[test]
fn a_reading_past_its_stop_shuts_the_flight_wherever_it_was_touched() {
    let mut walk = in_service();
    walk.person.wait(60);
    let blocks = walk.person.screen().blocks;
    let touch = blocks.windows(2).find_map(|pair| match pair {
        [Block::Row { title, .. }, Block::Choice { options, .. }] if title.starts_with("Pack cells even") => {
            options.first().cloned()
        }
        _ => None,
    });
    let touch = touch.expect("the cells are due, and read by one touch");
    walk.person.tap("Pack cells even, no swelling");
    walk.person.enter("Reading", "0.06");
    walk.person.tap("Record 0.06");
    walk.person.home();
    assert_eq!(walk.person.row("Pack cells even, no swelling").unwrap().1, "Not right");
    // On the card it has no touch of its own any more: it is seen to on its page, also by a touch that was under way.
    let late =
        walk.person.phone.pilot().and_then(|pilot| pilot.tap(&touch.token, &walk.person.now)).expect_err("ticked");
    assert_eq!(late.to_string(), "This check is done on its own page");
    walk.person.tap("Walk-round by hand");
    walk.person.tap("Seen, and right");
    walk.person.home();
    assert_eq!(walk.person.screen().foot[0].label, "Do", "no card while something is not right");
}

#[test]
fn the_charged_pack_that_rested_longest_is_on_the_card() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    // The third is like the second: nothing that was proved hangs on it.
    for (name, record) in [("Pack 2", "It is new"), ("Pack 3", "Record it")] {
        walk.person.tap("Aircraft");
        walk.person.tap("Add a pack");
        walk.person.enter("Name", name);
        walk.person.enter("Cells in series", "12");
        walk.person.enter("Capacity", "10000");
        walk.person.tap(record);
        walk.person.home();
    }
    walk.until_flight(FLIGHT);
    let person = &mut walk.person;
    let charge = |person: &mut Person, name: &str| {
        person.home();
        person.tap("Packs");
        let all = controls(&person.screen());
        let charged = all.iter().find(|(_, c)| c.spoken == format!("{name}: charged")).unwrap().1.clone();
        person.wait(2);
        person.phone.pilot().unwrap().tap(&charged.token, &person.now).unwrap();
        assert_eq!(person.last(), Body::PackCharged { pack: name.to_owned(), put_back_mah: None }, "in one touch");
        person.home();
    };
    let on_card = |person: &mut Person| {
        person.home();
        person.tap("Draw up the card");
        let packs: Vec<Control> = controls(&person.screen())
            .into_iter()
            .map(|(_, control)| control)
            .filter(|control| {
                control.label.starts_with("Pack ") && control.detail.is_some() && control.label.len() == 6
            })
            .collect();
        (packs[0].label.clone(), packs.iter().find(|pack| pack.chosen).map(|pack| pack.label.clone()))
    };
    assert_eq!(on_card(person).1, None, "nobody said that any of them is charged");
    charge(person, PACK);
    assert_eq!(on_card(person), (PACK.to_owned(), Some(PACK.to_owned())));
    charge(person, "Pack 3");
    // Pack 1 was flown in the envelope; pack 3 never was, so it has rested longest.
    assert_eq!(on_card(person), ("Pack 3".to_owned(), Some("Pack 3".to_owned())));
    walk.person.home();
    walk.until_flight(FLIGHT);
    walk.person.tap("Draw up the card");
    walk.person.tap("20 °C");
    walk.person.tap("Hand over");
    flown(&mut walk.person);
    walk.land();
    assert_eq!(
        on_card(&mut walk.person),
        (PACK.to_owned(), Some(PACK.to_owned())),
        "pack 3 was flown, and is last now"
    );
    // Charged, and taken back in one touch.
    charge(&mut walk.person, "Pack 3");
    walk.person.tap("Take back");
    assert_eq!(on_card(&mut walk.person).1.as_deref(), Some(PACK));
}

#[test]
fn the_planned_time_is_what_the_reserve_allows() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Draw up the card");
    walk.person.tap("Pack 1 was charged");
    let (minutes, note) = walk.person.figure("The pack's reserve allows").unwrap();
    let minutes: f64 = minutes.parse().unwrap();
    let note = note.unwrap();
    assert!(note.contains("% left, at"), "{note}");
    assert!(note.contains("from its label, 10000 mAh"), "{note}");
    // By hand from what the note says: 10 Ah, less what its flights took, less the reserve, over the current.
    let number = |after: &str, before: &str| -> f64 {
        note.split(after).nth(1).unwrap().split(before).next().unwrap().trim().parse().unwrap()
    };
    let by_hand = 10.0 * (1.0 - number("less ", " %") / 100.0) * (1.0 - number("with ", " %") / 100.0)
        / number("at ", " A")
        * 60.0;
    assert!((minutes - by_hand).abs() < 0.1, "{minutes} against {by_hand}");
    walk.person.enter("Planned time, motor on", "29");
    if minutes < 29.0 {
        assert!(
            walk.person.figure("The pack's reserve allows").unwrap().1.unwrap().contains("eats into the reserve")
        );
    }
}
