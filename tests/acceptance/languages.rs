//! A person who reads German, or Fahrenheit and pounds: the same flight, the same journal.

use liftgate_core::locale::Language;
use liftgate_core::record::Body;
use liftgate_core::view::Block;
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "First spool-up with blades";

fn landing(person: &Person) -> Vec<(String, f64)> {
    match person.last() {
        Body::LandingRecorded { temperatures, .. } => {
            temperatures.into_iter().map(|reading| (reading.place, reading.celsius)).collect()
        }
        other => panic!("{other:?}"),
    }
}

/// The choices on a screen, by label.
fn chips(person: &Person) -> Vec<String> {
    let blocks = person.screen().blocks;
    let choices = blocks.into_iter().filter_map(|block| match block {
        Block::Choice { options, .. } => Some(options),
        _ => None,
    });
    choices.flatten().map(|control| control.label).collect()
}

#[test]
fn a_phone_that_speaks_german_opens_in_german_and_another_choice_outlives_the_app() {
    let mut person = Person::new();
    person.phone.phone_speaks(Language::of_tag("de-AT")).unwrap();
    assert!(person.verdict().contains("zwischen diesem Modell und"), "{}", person.verdict());
    person.tap("Sprache und Einheiten");
    person.tap("English");
    assert_eq!(person.screen().title, "Language and units", "at once, on the page itself");
    person.tap("Deutsch");
    person.killed();
    assert_eq!(person.screen().title, "Sprache und Einheiten", "a choice is kept, whatever the phone speaks");
    assert_eq!(person.entries().len(), 1, "nothing of it is recorded");
}

#[test]
fn a_landing_in_fahrenheit_is_recorded_in_celsius() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    walk.person.tap("Language and units");
    walk.person.tap("Fahrenheit, °F");
    walk.person.home();
    walk.person.tap("Draw up the card");
    walk.fly();
    let person = &mut walk.person;
    let offered = chips(person);
    assert!(offered.iter().any(|chip| chip == "140 °F"), "around the last one: {offered:?}");
    assert!(!person.words().contains("°C"), "one scale on a screen: {}", person.words());
    let spoken: Vec<String> = person.controls().into_iter().map(|(_, control)| control.spoken).collect();
    assert!(spoken.iter().any(|words| words.contains("140 degrees Fahrenheit")), "{spoken:?}");
    person.enter("Motor case", "149");
    person.enter("Main pack", "95");
    person.wait(5);
    person.tap("140 °F");
    // By the definition of the scales: (F - 32) / 1.8.
    for ((place, celsius), (expected_place, by_hand)) in
        landing(person).iter().zip([("controller", 60.0), ("motor", 65.0), ("pack", 35.0)])
    {
        assert_eq!(place, expected_place);
        assert!((celsius - by_hand).abs() < 1e-6, "{place}: {celsius}");
    }
}

#[test]
fn a_whole_flight_is_flown_in_german_with_a_decimal_comma() {
    let mut walk = Walk::at_flight(Kind::Scale, FLIGHT);
    let person = &mut walk.person;
    person.tap("Language and units");
    person.tap("Deutsch");
    person.tap("Zurück");
    assert!(person.verdict().starts_with("Nichts steht zwischen"), "{}", person.verdict());
    person.tap("Karte ausstellen");
    person.tap("Pack 1");
    person.enter("Lufttemperatur", "21,5");
    person.enter("Name des Helfers", "Robin");
    assert!(person.words().contains("21,5 °C"), "{}", person.words());
    person.tap("Übergeben");
    let spotter = person.spotter();
    let screen = spotter.screen(&person.now).unwrap();
    assert_eq!(screen.main.label, "Motor an");
    assert!(screen.calls.iter().any(|call| call.words == "Zeit. Jetzt landen"), "{:?}", screen.calls);
    spotter.start(&person.now).unwrap();
    person.wait(screen.clock.planned_s);
    assert_eq!(spotter.land(&person.now).unwrap().phase, "Gelandet, Motor aus");
    person.wait(10);
    spotter.hand_back(&person.now).unwrap();
    assert_eq!(person.screen().title, "Landung");
    let places: Vec<String> = person
        .screen()
        .blocks
        .iter()
        .filter_map(|block| match block {
            Block::Stepper { field, label, hint, .. } if field.starts_with("temp:") => {
                let asked = !hint.as_deref().unwrap_or_default().contains("nicht verlangt");
                asked.then(|| label.clone())
            }
            _ => None,
        })
        .collect();
    assert_eq!(places.len(), 3, "{places:?}");
    for (place, text) in places.iter().zip(["57,5", "59", "36,0"]) {
        person.enter(place, text);
    }
    person.enter("Entnommene Ladung", "1850,5");
    person.tap("Landung eintragen");
    let read: Vec<f64> = landing(person).into_iter().map(|(_, celsius)| celsius).collect();
    assert_eq!(read, [57.5, 59.0, 36.0]);
    let Body::LandingRecorded { pack_used_mah, .. } = person.last() else { panic!() };
    assert_eq!(pack_used_mah, Some(1_850.5));
    person.tap("Journal");
    assert!(person.words().contains("höchstens 59 °C"), "{}", person.words());
    assert!(person.words().contains("7. M"), "{}", person.words());
}
