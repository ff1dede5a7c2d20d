//! What cannot be is refused with the place and what would be right; what was typed stays, nothing is recorded.

use liftgate_tests::Person;
use liftgate_tests::example::{self, FLIGHT_PACK, Kind, SUPPLY};
use liftgate_tests::walk::Walk;

#[test]
fn a_temperature_of_1000_degrees_is_refused_and_the_rest_of_the_landing_stays() {
    let mut walk = Walk::at_flight(Kind::Scale, "First start, slow, no blades");
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.answer_marks();
    let person = &mut walk.person;
    let count = person.entries().len();
    person.enter("Motor case", "41");
    person.enter("Controller", "1000");
    let flag = person.typed("Controller").1.unwrap();
    assert!(flag.contains("1000 °C cannot be right; it lies between -40 and 200 °C"), "{flag}");
    let reason = person.closed("As it should be");
    assert!(reason.starts_with("Controller temperature: 1000 °C cannot be right"), "{reason}");
    assert_eq!(person.entries().len(), count, "nothing was recorded");
    person.killed();
    assert_eq!((person.typed("Controller").0, person.typed("Motor case").0), ("1000".to_owned(), "41".to_owned()));
    person.enter("Controller", "52");
    person.tap("As it should be");
    assert_eq!(person.entries().len(), count + 1);
}

#[test]
fn a_thing_without_a_name_or_with_a_name_twice_is_refused() {
    let mut person = Person::new();
    for name in ["", "   "] {
        person.home();
        person.tap("Aircraft");
        person.tap("Add a supply");
        person.enter("Name", name);
        for (label, text) in SUPPLY.numbers {
            person.enter(label, text);
        }
        assert_eq!(person.refused("Record it"), "The name of the supply is empty: enter it first");
    }
    person.home();
    example::describe(&mut person, &FLIGHT_PACK);
    person.tap("Aircraft");
    person.tap("Add a pack");
    assert_eq!(person.typed("Name").0, "Pack 2", "packs are numbered");
    person.enter("Name", " Pack 1 ");
    for (label, text) in FLIGHT_PACK.numbers {
        person.enter(label, text);
    }
    assert_eq!(person.refused("Record it"), "There is a pack 'Pack 1' already");
}

#[test]
fn a_pack_lacking_a_number_names_the_number() {
    let mut person = Person::new();
    person.tap("Aircraft");
    person.tap("Add a pack");
    person.enter("Name", "Pack 1");
    person.enter("Cells in series", "6");
    assert_eq!(person.refused("Record it"), "Capacity is empty: enter it first");
    person.enter("Capacity", "5000");
    person.enter("Cells in series", "6.5");
    let reason = person.closed("Record it");
    assert!(reason.contains("Cells in series") && reason.contains("whole"), "{reason}");
}

#[test]
fn letters_in_a_number_are_refused_and_both_decimal_signs_are_read() {
    let mut person = Person::new();
    let title = "Main rotor diameter";
    person.tap("Aircraft");
    person.tap(title);
    let count = person.entries().len();
    for text in ["abc", "1.8m", "1..8", "1,8,0", "nan", "inf", "-inf", "1e999", "0x12", "--1", "1 8"] {
        person.enter(title, text);
        let reason = person.closed("Record it");
        assert!(reason.contains(title) && reason.contains("is no number"), "'{text}': {reason}");
        assert_eq!(person.typed(title).0, text, "what was typed stays to be corrected");
    }
    for (text, low) in [("0", true), ("18", false), ("-1,8", true)] {
        person.enter(title, text);
        let reason = person.closed("Record it");
        assert!(reason.contains("between 0.8 and 3.5 m"), "'{text}' ({low}): {reason}");
    }
    person.enter(title, "");
    assert_eq!(person.refused("Record it"), "Main rotor diameter is empty: enter it first");
    assert_eq!(person.entries().len(), count, "nothing was recorded");

    person.enter(title, " 1,85 ");
    let said = person.tap("Record it").said.unwrap();
    assert!(said.starts_with("Main rotor diameter: 1.85 m"), "{said}");
}

#[test]
fn a_reading_that_cannot_be_closes_its_control_and_is_said_at_its_field() {
    let mut person = Person::new();
    example::name(&mut person);
    person.go_to("Figures and papers", "Planned mass under the limit");
    person.enter("Reading", "940");
    let flag = person.typed("Reading").1.unwrap();
    assert!(flag.contains("940 kg cannot be right; it lies between 2 and 30 kg"), "{flag}");
    assert!(person.closed("Record").contains("940 kg cannot be right"));
}

#[test]
fn a_token_that_is_none_is_refused() {
    let person = Person::new();
    let count = person.entries().len();
    let pilot = person.phone.pilot().unwrap();
    for text in [
        "",
        "{}",
        "null",
        "{\"do\":{\"record\":{\"release\":\"no-such-stage\"}}}",
        "{\"do\":{\"go\":{\"to\":{\"stage\":7}}}}",
        "\u{0}",
    ] {
        let token = liftgate_core::view::Token::from_shell(text.to_owned());
        assert!(pilot.tap(&token, &person.now).is_err(), "'{text}'");
    }
    assert_eq!(person.entries().len(), count);
}
