//! One word for one thing, one unit for one quantity, and what is done in the order in which it is done.

use liftgate_core::record::Body;
use liftgate_core::view::{Block, Screen};
use liftgate_tests::example::{self, Kind};
use liftgate_tests::walk::Walk;

const BENCH: &str = "Motor at its slowest, on the bench";
const HOVER: &str = "Hover at the lowest head speed";

fn paragraphs(screen: &Screen) -> Vec<String> {
    let texts = screen.blocks.iter().filter_map(|block| match block {
        Block::Paragraph { text, .. } => Some(text.clone()),
        _ => None,
    });
    texts.collect()
}

#[test]
fn several_actions_are_numbered_at_the_check_and_on_the_card() {
    let mut walk = Walk::at_flight(Kind::Scale, BENCH);
    let has = |screen: &Screen, step: &str| paragraphs(screen).iter().any(|text| text == step);
    walk.person.go_to("Bench electrics", "First power through a current limit");
    let check = walk.person.screen();
    assert!(has(&check, "1. Throttle hold on."), "{}", walk.person.words());
    assert!(has(&check, "3. Read the current, motor still."), "{}", walk.person.words());
    // What is one action has no number.
    walk.person.go_to("Figures and papers", "Power in hand on the hottest day");
    assert!(paragraphs(&walk.person.screen()).iter().any(|text| text.starts_with("Nothing to do but look: ")));
    walk.person.home();
    walk.person.tap("Draw up the card");
    let card = walk.person.screen();
    assert!(has(&card, "1. All blades off, the motor uncoupled where it can be."), "{}", walk.person.words());
    assert!(has(&card, "2. Tie the aircraft down."));
    // Where a limit comes from stands on the check's page.
    let basis = card.blocks.iter().filter(|block| format!("{block:?}").contains("no source")).count();
    assert_eq!(basis, 0, "{}", walk.person.words());
}

/// What the large control says in a run, what is called at its end, and how the journal tells it.
fn down(title: &'static str) -> (String, String, String) {
    let mut walk = Walk::at_flight(Kind::Scale, title);
    walk.give_away();
    let spotter = walk.person.spotter();
    spotter.start(&walk.person.now).unwrap();
    let screen = spotter.screen(&walk.person.now).unwrap();
    let call = screen.calls.iter().find(|call| call.at_s == screen.clock.planned_s).unwrap();
    let said = (screen.main.label.clone(), call.words.clone());
    walk.person.wait(screen.clock.planned_s);
    spotter.land(&walk.person.now).unwrap();
    spotter.hand_back(&walk.person.now).unwrap();
    let place = walk.person.entries().iter().position(|entry| matches!(entry.body, Body::TouchedDown { .. }));
    assert!(place.is_some());
    walk.person.home();
    walk.person.tap("Journal");
    let told = walk.person.controls().into_iter().map(|(words, _)| words);
    let told = told.into_iter().find(|words| words.contains("off at ") || words.starts_with("Touchdown"));
    (said.0, said.1, told.unwrap_or_else(|| panic!("{}", walk.person.words())))
}

#[test]
fn what_does_not_fly_does_not_touch_down() {
    let (control, call, told) = down(BENCH);
    assert_eq!((control.as_str(), call.as_str()), ("Motor off", "Time. Motor off now"));
    assert!(told.starts_with("Motor off at "), "{told}");
    let (control, call, told) = down(HOVER);
    assert_eq!((control.as_str(), call.as_str()), ("Touchdown", "Time. Land now"));
    assert!(told.starts_with("Touchdown at "), "{told}");
}

#[test]
fn two_thirds_are_two_thirds_and_resistances_have_one_unit() {
    let mut walk = Walk::at_flight(Kind::Scale, HOVER);
    let person = &mut walk.person;
    person.go_to("Envelope", "Peak current in the hardest flight");
    assert!(person.row("Above 106.7 A").is_some(), "two thirds of 160 A: {}", person.words());
    person.home();
    person.tap("Aircraft");
    for title in ["Resistance of motor, controller and leads", "Resistance of the main pack, all cells"] {
        assert!(person.row(title).unwrap().2.unwrap().starts_with("20 mΩ"), "{}", person.words());
    }
    example::enter_figure(person, "Resistance of the main pack, all cells", "35");
    let Body::FigureSet { value, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(value, 0.035, "recorded in ohms, as ever");
}

#[test]
fn a_drive_that_does_not_reach_its_speed_is_told_as_under_it() {
    let mut walk = Walk::at_flight(Kind::Scale, BENCH);
    example::enter_figure(&mut walk.person, "Motor constant, no load", "250");
    walk.person.go_to("Figures and papers", "Speed in hand at the end of the pack");
    let verdict = walk.person.verdict();
    assert!(verdict.contains(" % under the ") && !verdict.contains('-'), "{verdict}");
}
