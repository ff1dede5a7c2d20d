//! The wind on a card: one touch, never wanted, and what it does to what is predicted.

use liftgate_core::record::{Body, Wind};
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

fn charge(person: &Person) -> f64 {
    let (value, _) = person.figure("Charge it should use").unwrap_or_else(|| panic!("{}", person.words()));
    value.parse().unwrap()
}

#[test]
fn a_touch_tells_the_wind_and_the_prediction_follows_it() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    walk.person.tap("Draw up the card");
    walk.draw_up();
    let untold = charge(&walk.person);
    walk.person.tap("0, calm");
    assert_eq!(charge(&walk.person), untold, "what is not known moves no middle");
    // 9.4 kg on this rotor blow down 3 to 4 m/s: Beaufort 3 is 3.2 m/s at two metres, and takes a tenth of the whole.
    walk.person.tap("3, twigs move");
    let windy = charge(&walk.person) / untold;
    assert!((0.80..0.95).contains(&windy), "{windy}");
    assert!(walk.person.figure("Current in the hover").is_some());
    walk.person.tap("5 or more, trees sway");
    assert!(walk.person.figure("Charge it should use").is_none());
    assert!(walk.person.words().contains("Nothing is predicted in more than a moderate wind"));
    // A meter goes before the choice.
    walk.person.enter("Wind, measured", "2");
    assert!(charge(&walk.person) < untold);
    walk.hand_over();
    let card = walk.person.entries().into_iter().rev().find_map(|entry| match entry.body {
        Body::CardDrawn { wind, .. } => Some(wind),
        _ => None,
    });
    assert_eq!(card, Some(Some(Wind::MetresPerSecond(2.0))));
}
