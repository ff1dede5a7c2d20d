//! A person who reads German, or Fahrenheit and pounds: the same flight, the same journal.

use liftgate_core::locale::Language;
use liftgate_core::record::Body;
use liftgate_core::view::Block;
use liftgate_tests::Person;
use liftgate_tests::example::{Kind, hover_log};
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
    walk.answer_marks();
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
    person.tap("Pack 1 wurde geladen");
    person.enter("Lufttemperatur", "21,5");
    person.enter("Name des Helfers", "Robin");
    assert!(person.words().contains("21,5 °C"), "{}", person.words());
    person.tap("Übergeben");
    let spotter = person.spotter();
    let screen = spotter.screen(&person.now).unwrap();
    assert_eq!(screen.main.label, "Motor an");
    assert!(screen.calls.iter().any(|call| call.words == "Zeit. Jetzt Motor aus"), "{:?}", screen.calls);
    spotter.start(&person.now).unwrap();
    person.wait(screen.clock.planned_s);
    assert_eq!(spotter.land(&person.now).unwrap().phase, "Motor aus", "what does not fly does not land");
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
    person.tap("Wie es sein soll");
    let read: Vec<f64> = landing(person).into_iter().map(|(_, celsius)| celsius).collect();
    assert_eq!(read, [57.5, 59.0, 36.0]);
    let Body::LandingRecorded { pack_used_mah, .. } = person.last() else { panic!() };
    assert_eq!(pack_used_mah, Some(1_850.5));
    person.tap("Journal");
    assert!(person.words().contains("höchstens 59 °C"), "{}", person.words());
    assert!(person.words().contains("7. M"), "{}", person.words());
}

/// Someone who has come this far, in German.
fn in_german(mut walk: Walk) -> Person {
    walk.person.tap("Language and units");
    walk.person.tap("Deutsch");
    walk.person.tap("Zurück");
    walk.person
}

#[test]
fn why_evidence_is_stale_names_parts_and_events_in_german() {
    let mut person = in_german(Walk::at_flight(Kind::Scale, "Hover at the second head speed"));
    person.tap("Etwas ist geschehen");
    person.tap("Harte Landung");
    person.tap("Zurück");
    assert!(person.words().contains("Es endete mit: Harte Landung"), "{}", person.words());
    assert!(!person.words().to_lowercase().contains("hard landing"), "{}", person.words());
    person.killed_and_the_same();
}

#[test]
fn faults_of_a_plan_and_what_could_be_better_in_it_are_told_in_german() {
    let mut person = in_german(Walk::new(Kind::Scale));
    person.tap("Modell");
    person.tap("Großer Elektro-Hubschrauber");
    let text = String::from_utf8(person.save("Eine Kopie dieses Plans sichern")).unwrap();
    let broken = text.replacen("rests_on = [\"mass\"", "rests_on = [\"mas\"", 1);
    let place = broken.split("\"mas\"").next().unwrap();
    let (line, column) = (place.lines().count(), place.lines().last().unwrap().chars().count() + 1);
    person.pick("Plandatei öffnen", "mein.toml", broken.as_bytes());
    assert_eq!(person.verdict(), "1 Fehler hält diesen Plan draußen.");
    let (_, _, reason) = person.row(&format!("Zeile {line}, Spalte {column}")).unwrap();
    assert!(reason.unwrap().starts_with("Auf ‚mas‘ beruht kein Nachweis"));
    // Without its basis and its number in the text the check is still read, and worth mending.
    let poorer = text.replacen("judged = \"", "judged = \"Notwithstanding considerations of applicability, ", 1);
    person.pick("Andere Datei öffnen", "mein.toml", poorer.as_bytes());
    assert!(person.words().contains("‚judged‘ liest sich wie Schuljahr "), "{}", person.words());
}

#[test]
fn a_log_is_named_and_refused_in_german() {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    let person = &mut walk.person;
    person.phone.phone_speaks(Language::German).unwrap();
    let empty = person.try_pick("Aufzeichnung wählen", "leer.csv", b"").unwrap_err();
    assert!(empty.to_string().starts_with("Die Datei ist leer: "), "{empty}");
    person.pick("Aufzeichnung wählen", "hover.csv", hover_log().as_bytes());
    let listed = person.words();
    for word in ["Akkustrom", "Rotordrehzahl", "Zeit", "Millisekunden", "U/min", "beginnt mit "] {
        assert!(listed.contains(word), "'{word}' is not in {listed}");
    }
    for word in ["Pack current", "Head speed", "milliseconds", "rpm", "begins"] {
        assert!(!listed.contains(word), "'{word}' is in {listed}");
    }
    // The second column is the voltage, the third the current: one is not the other.
    person.tap("Spannung [V]");
    let offered = chips(person);
    assert!(offered.iter().any(|chip| chip == "Rotordrehzahl") && offered.iter().all(|chip| chip != "Head speed"));
    choose_in(person, "Spalte 2", "Akkustrom");
    person.tap("Das ist sie");
    let refused = person.refused("Diese Aufzeichnung anhängen");
    assert!(refused.contains("sind beide Akkustrom: eine auslassen"), "{refused}");
    person.tap("Spannung [V]");
    choose_in(person, "Spalte 2", "Akkuspannung");
    person.tap("Das ist sie");
    // What is recorded of it as words is recorded in German.
    person.tap("Diese Aufzeichnung anhängen");
    let Body::LogAttached { log, .. } = person.last() else { panic!("{:?}", person.last()) };
    assert_eq!(log.faults[0], "Zeile 302, Spalte 2 (Spannung): keine Zahl, leer gelassen: „kaputt“");
    let words = person.words();
    assert!(words.contains("1180 U/min") && !words.contains(" rpm"), "{words}");
    assert!(words.contains("beim größten Strom, 90 A"), "{words}");
}

/// Touches an option of the choice with this label.
fn choose_in(person: &mut Person, choice: &str, option: &str) {
    let blocks = person.screen().blocks;
    let options = blocks.into_iter().find_map(|block| match block {
        Block::Choice { label, options } if label == choice => Some(options),
        _ => None,
    });
    let control = options.unwrap().into_iter().find(|control| control.label == option).unwrap();
    person.phone.pilot().unwrap().tap(&control.token, &person.now).unwrap();
}

#[test]
fn the_dossier_is_printed_in_the_language_of_whoever_prints_it() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    let english = walk.person.dossier();
    walk.person.home();
    assert!(english.contains("<html lang=\"en\">") && english.contains("Released by"));
    let mut person = in_german(walk);
    let german = person.dossier();
    assert!(german.contains("<html lang=\"de\">"));
    for (one, other) in [
        (">Stages</h2>", ">Abschnitte</h2>"),
        (">Findings</h2>", ">Befunde</h2>"),
        ("Released by ", "Erteilt von "),
        ("1000 rpm", "1000 U/min"),
        ("Built by ", "Gebaut von "),
    ] {
        assert!(english.contains(one) && !english.contains(other), "{one}");
        assert!(german.contains(other) && !german.contains(one), "{other}");
    }
}

#[test]
fn a_closed_journal_says_so_in_the_language_that_was_read() {
    let person = in_german(Walk::new(Kind::Scale));
    let pilot = person.phone.pilot().unwrap();
    person.phone.close().unwrap();
    person.phone.close().unwrap();
    let said = pilot.screen(&person.now).unwrap_err().to_string();
    assert_eq!(said, "Das Journal ist geschlossen: die App neu öffnen");
    // Bytes that are no database, on a phone that speaks German.
    let other = person.journal().with_file_name("other.db");
    std::fs::write(&other, vec![7_u8; 4096]).unwrap();
    let Err(refused) = liftgate_core::app::Phone::open_on(&other, Language::German, &person.now) else {
        panic!("bytes were opened as a journal")
    };
    assert!(refused.to_string().contains("ist kein Journal von Liftgate"), "{refused}");
    // The same where a journal was open before: there is a way on.
    std::fs::write(person.journal(), vec![7_u8; 4096]).unwrap();
    let damaged = liftgate_core::app::Phone::open_on(&person.journal(), Language::German, &person.now).unwrap();
    let screen = damaged.pilot().unwrap().screen(&person.now).unwrap();
    assert_eq!(screen.title, "Die Datei ist beschädigt");
    assert_eq!(screen.foot[0].label, "Mit dem weitermachen, was lesbar ist");
}
