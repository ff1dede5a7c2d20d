//! A hover's prediction beside what was read: the causes that its figures support, a finding that is proposed and may be left, trends over the
//! aircraft's life, and the plot in the dossier.

use liftgate_core::record::{Body, FindingGrade, Outlier};
use liftgate_core::view::{Block, Edge};
use liftgate_tests::example::{self, Kind, hover_log};
use liftgate_tests::walk::{Walk, places_wanted};

const HOVER: &str = "Hover at the lowest head speed";

/// A first hover, landed with this charge.
fn landed(used: Option<&str>) -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, HOVER);
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.answer_marks();
    match used {
        Some(used) => {
            for place in places_wanted(&walk.person.screen()) {
                walk.person.enter(&place, example::temperature(&place));
            }
            walk.person.enter("Charge used", used);
            walk.person.tap("As it should be");
        }
        None => walk.land(),
    }
    walk.to_the_log();
    walk
}

fn findings(walk: &Walk) -> Vec<(String, FindingGrade, String)> {
    let raised = walk.person.entries().into_iter().filter_map(|entry| match entry.body {
        Body::FindingRaised { title, grade, proof, .. } => Some((title, grade, proof)),
        _ => None,
    });
    raised.collect()
}

#[test]
fn a_hover_as_predicted_proposes_nothing_and_foretells_the_next() {
    let walk = landed(None);
    let (edge, state, _) = walk.person.row("Charge").unwrap();
    assert_eq!((edge, state.as_str()), (Edge::Fresh, "As predicted"));
    assert!(walk.person.control("Make it a finding").is_none());
    let (_, _, next) = walk.person.row("Next: Hover at the second head speed").unwrap();
    let next = next.unwrap();
    assert!(next.starts_with("1080 rpm: ") && next.ends_with("from 1 hover with this one in it"), "{next}");
}

#[test]
fn a_hover_that_took_too_much_proposes_a_finding_that_one_touch_makes() {
    let mut walk = landed(Some("4000"));
    assert_eq!(walk.person.row("Charge").unwrap().1, "Above");
    let (_, _, why) = walk.person.row("Drag in the drive").unwrap();
    assert!(why.unwrap().contains("more than predicted"));
    assert!(walk.person.words().contains("You may leave it"));
    let before = findings(&walk);
    let make = walk.person.control("Make it a finding").unwrap();
    let next = |walk: &Walk| walk.person.row("Next: Hover at the second head speed").unwrap().2.unwrap();
    assert!(next(&walk).ends_with("from 1 hover with this one in it"), "{}", next(&walk));
    walk.person.tap("Make it a finding");
    // What became a finding was not the aircraft: it tells nothing of the next hover.
    assert!(next(&walk).contains("from the figures alone without this one"), "{}", next(&walk));
    let after = findings(&walk);
    let (title, grade, proof) = after.last().unwrap();
    assert_eq!(after.len(), before.len() + 1);
    assert_eq!(title, "Charge above its prediction at 1000 rpm: drag in the drive?");
    assert_eq!((*grade, proof.as_str()), (FindingGrade::Caution, "hover-low"));
    assert!(walk.person.control("Make it a finding").is_none(), "it was raised once");
    // A touch that was under way when the first one was taken.
    walk.person.wait(5);
    let again = walk.person.phone.pilot().unwrap().tap(&make.token, &walk.person.now).expect_err("raised twice");
    assert_eq!(again.to_string(), "Finding 1 was raised from it already");
    assert_eq!(findings(&walk).len(), before.len() + 1);
    assert!(walk.person.row(&format!("1. {title}")).is_some(), "{}", walk.person.words());
    walk.person.tap("Take back");
    assert!(walk.person.control("Make it a finding").is_some(), "taken back, it is proposed again");
    walk.person.killed_and_the_same();
}

#[test]
fn a_finding_that_was_made_in_one_language_is_not_proposed_again_in_the_other() {
    for (from, make, to, make_there) in [
        (ENGLISH, "Make it a finding", GERMAN, "Als Befund aufnehmen"),
        (GERMAN, "Als Befund aufnehmen", ENGLISH, "Make it a finding"),
    ] {
        let mut walk = landed(Some("4000"));
        speak(&mut walk, ENGLISH, from);
        walk.person.tap(make);
        let Body::FindingRaised { title, proposed_from, .. } = walk.person.last() else { panic!("no finding") };
        let outlier = Outlier { reading: "charge".to_owned(), above: true };
        assert_eq!(proposed_from, Some(outlier), "the same in every language");
        speak(&mut walk, from, to);
        let row = walk.person.row(&format!("1. {title}"));
        assert!(row.is_some(), "it stands there in the words in which it was raised: {}", walk.person.words());
        assert!(walk.person.control(make_there).is_none(), "{}", walk.person.words());
    }
}

/// The ways to the choice of a language and to the log of a flight, in one language.
type Ways = [&'static str; 6];
const ENGLISH: Ways = ["Back", "Language and units", "English", "Journal", "Landing", "Log of this flight"];
const GERMAN: Ways =
    ["Zurück", "Sprache und Einheiten", "Deutsch", "Journal", "Landung", "Aufzeichnung dieses Flugs"];

/// Chooses a language, and comes back to the log of the last flight.
fn speak(walk: &mut Walk, from: Ways, to: Ways) {
    while walk.person.screen().back.is_some() {
        walk.person.tap(from[0]);
    }
    walk.person.tap(from[1]);
    walk.person.tap(to[2]);
    for words in [to[0], to[3], to[4], to[5]] {
        walk.person.tap(words);
    }
}

#[test]
fn a_log_tells_the_head_speed_from_the_drag_and_its_plot_is_in_the_dossier() {
    let mut walk = landed(None);
    walk.person.pick("Pick a log", "hover.csv", hover_log().as_bytes());
    walk.person.tap("Attach this log");
    // 1180 rpm where 1000 were set: the speed explains some of it, and is named with its share.
    assert_eq!(walk.person.row("Head speed").unwrap().1, "Above");
    assert_eq!(walk.person.row("Power in hover").unwrap().1, "Above");
    let (_, _, why) = walk.person.row("Wrong ratio or head speed").unwrap();
    let why = why.unwrap();
    assert!(why.starts_with("18 % faster than set; that explains little of the rest"), "{why}");

    let page = walk.person.dossier();
    let log = page.split("Logs</h2>").nth(1).expect("the logs");
    assert!(log.contains("<svg") && log.contains("Strom") && log.contains("hover.csv"));
    // The burst is in the page's plot: the highest point of the first line stands alone.
    assert!(log.contains("aria-label=\"0:00 to 2:30: Strom 0.5 to 90 A"), "{}", &log[..600]);
}

#[test]
fn the_column_of_a_motors_speed_is_brought_to_the_rotors() {
    let mut walk = landed(None);
    let text = hover_log().replace(";1180;", ";11092;");
    walk.person.pick("Pick a log", "motor.csv", text.as_bytes());
    let label = "Turns it counts for one of the rotor";
    walk.person.tap("Rotor [1/min]");
    walk.person.enter(label, "many");
    walk.person.tap("That is it");
    assert!(walk.person.refused("Attach this log").contains("is no number"));
    walk.person.tap("Rotor [1/min]");
    walk.person.enter(label, "9,4");
    walk.person.tap("That is it");
    walk.person.tap("Attach this log");
    let Body::LogAttached { log, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    let rotor = log.map.columns.iter().find(|column| column.label == "Rotor").unwrap();
    assert!((rotor.ratio - 1.0 / 9.4).abs() < 1e-12);
    let (_, _, read) = walk.person.row("Head speed").unwrap();
    assert!(read.unwrap().starts_with("1180 rpm read"));
    // Known next time.
    walk.person.pick("Pick another log", "again.csv", text.as_bytes());
    walk.person.tap("Rotor [1/min]");
    assert_eq!(walk.person.typed(label).0, "9.4");
}

#[test]
fn trends_tell_what_was_read_and_where_too_little_was() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at service speed");
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Trends over its life");
    assert_eq!(walk.person.screen().title, "Trends");
    let verdict = walk.person.verdict();
    assert!(verdict.starts_with("Nothing has drifted") || verdict.starts_with("Too little"), "{verdict}");
    let screen = walk.person.screen();
    let drawn = screen.blocks.iter().filter(|block| matches!(block, Block::Drawing { .. })).count();
    assert!(drawn >= 1, "{}", walk.person.words());
    assert!(walk.person.words().contains("Shakes and sounds noted"));
    assert!(walk.person.words().contains("five in a hundred"), "the rate of false alarms is stated");
    walk.person.killed_and_the_same();
}

#[test]
fn a_flight_that_leaves_the_hover_is_held_against_it_in_its_temperatures_too() {
    let mut walk = Walk::at_flight(Kind::Scale, "Slow climb-out and back");
    walk.person.tap("Draw up the card");
    let (_, _, limit) = walk.person.row("Controller above 90 °C").unwrap();
    let limit = limit.unwrap();
    assert!(limit.starts_with("Expected "), "{limit}");
    walk.fly();
    walk.answer_marks();
    walk.land();
    walk.to_the_log();
    let (_, state, read) = walk.person.row("Controller").unwrap();
    assert!(!state.is_empty() && read.as_ref().is_some_and(|read| read.contains("°C")), "{state} {read:?}");
}
