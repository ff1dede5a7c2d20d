//! What a computed check says on the phone, held against numbers that were published elsewhere or follow in closed form.

use liftgate_core::view::{Block, Edge};
use liftgate_tests::Person;
use liftgate_tests::example::{self, PACK, Thing};

const fn thing(
    kind: &'static str,
    name: &'static str,
    fed_by: Option<&'static str>,
    numbers: &'static [(&'static str, &'static str)],
) -> Thing {
    Thing { kind, name, fed_by, numbers }
}

fn drawing(person: &Person) -> String {
    let found = person.screen().blocks.into_iter().find_map(|block| match block {
        Block::Drawing { picture } => Some(picture.spoken),
        _ => None,
    });
    found.expect("a drawing")
}

fn figure(person: &Person, label: &str) -> f64 {
    let (value, _) = person.figure(label).unwrap_or_else(|| panic!("no '{label}': {}", person.words()));
    value.parse().expect("a number")
}

/// Describes a run with a trial weight: how the rotor turns, how the weight's angle grows, what a later peak reads.
fn trial_run(person: &mut Person, name: &'static str, senses: &[&str], numbers: &[(&str, &str)]) {
    person.home();
    person.tap("Aircraft");
    person.tap("Add a trial weight run");
    person.enter("Name", name);
    for sense in senses {
        person.tap(sense);
    }
    for (label, text) in numbers {
        person.enter(label, text);
    }
    person.tap("Record it");
}

// Worked example of one-plane balancing by influence coefficient: 3.4 at 116 degrees, 1.8 at 42 degrees with 2 g at 0: 2.0 g at -31
// degrees (Brueel & Kjaer application note on balancing; also pyPRB 1.0.0).
#[test]
fn the_trial_weight_run_says_which_weight_goes_where() {
    let mut person = Person::new();
    let numbers = &[
        ("Vibration without the weight, rms", "34"),
        ("Its phase", "116"),
        ("Trial weight", "2"),
        ("Angle where it sits", "0"),
        ("Vibration with the weight, rms", "18"),
        ("Its phase then", "42"),
    ];
    trial_run(&mut person, "First", &["Turns anticlockwise", "Grows anticlockwise", "Fewer degrees"], numbers);
    person.go_to("Ground run", "Weight against a shake that stays");
    assert_eq!(figure(&person, "Weight to fit"), 2.01);
    assert!(person.verdict().contains("2.01 g at -31°"), "{}", person.verdict());
    assert!(drawing(&person).contains("fit 2.01 g at -31°"));
    assert!(drawing(&person).contains("turns anticlockwise"));
    assert!(!person.cautions().is_empty(), "cautions stand above what can hurt");

    // The weight is on, and it is quiet: the newest run is the one that counts.
    let numbers = &[
        ("Vibration without the weight, rms", "3"),
        ("Its phase", "100"),
        ("Trial weight", "2"),
        ("Angle where it sits", "0"),
        ("Vibration with the weight, rms", "9"),
        ("Its phase then", "10"),
    ];
    // The senses stand as they were answered for the run before.
    trial_run(&mut person, "A second one", &[], numbers);
    person.go_to("Ground run", "Weight against a shake that stays");
    assert!(person.verdict().contains("3.0 mm/s needs no weight"), "{}", person.verdict());
    assert_eq!(person.row("First").expect("the run before").1, "Earlier run");
}

// Closed form: a triangle of 10 A peak to peak is 2.887 A rms; 1.1 V over 0.11 ohm are those 10 A. Two loads: 0.9 V over 20 A are
// 45 milliohm (IEC 61960, R = dU / dI).
#[test]
fn ripple_is_held_against_the_lower_limit_and_its_current_told() {
    let mut person = Person::new();
    for (title, value) in [
        ("Main pack cells in series, all packs together", "12"),
        ("Highest ripple allowed on the main pack", "1.2"),
        ("Resistance of the main pack, all cells", "110"),
    ] {
        example::enter_figure(&mut person, title, value);
    }
    let light = &[("Current", "20"), ("Voltage of the whole string", "45.9"), ("Ripple, peak to peak", "0.6")];
    let heavy = &[("Current", "40"), ("Voltage of the whole string", "45.0"), ("Ripple, peak to peak", "1.1")];
    example::describe(&mut person, &thing("reading under load", "Pitch pump", None, heavy));
    person.go_to("Data review", "Ripple on the main pack leads");
    let asked = "Two readings under load are wanted, one light and one at the highest current; so far there is only one near 40 A";
    assert!(person.row(asked).is_some(), "one reading is half of it: {}", person.words());
    assert!(person.control("Keep this result").is_none());
    example::describe(&mut person, &thing("reading under load", "Idle hover", None, light));
    person.go_to("Data review", "Ripple on the main pack leads");
    assert_eq!(figure(&person, "Ripple current in the pack, rms"), 2.9);
    assert_eq!(figure(&person, "Resistance from the two loads"), 45.0);
    assert!(person.verdict().contains("0.10 V under the limit of 1.20 V"), "{}", person.verdict());
    assert!(drawing(&person).contains("Pitch pump, 40 A: 1.10 of 1.20 V"));
    // What went in stands below, with its basis, one touch from being put right.
    let (_, _, limit) = person.row("Highest ripple allowed on the main pack").expect("the maker's limit");
    assert_eq!(limit.expect("its value"), "1.2 V, measured");
    assert_eq!(person.row("Idle hover").expect("a reading").1, "Reading under load");
    // Twelve cells bear 2.5 V by the rule of thumb; the maker's lower figure goes first, and past it is a stop.
    example::change(&mut person, "Pitch pump", "Ripple, peak to peak", "1.3");
    person.go_to("Data review", "Ripple on the main pack leads");
    assert!(person.verdict().contains("0.10 V over the limit"), "{}", person.verdict());
    assert!(person.control("Record this result").is_some());
}

// The line 20 milliohm + 0.1 milliohm a flight doubles after 200 flights.
#[test]
fn a_packs_resistance_is_followed_until_it_is_retired() {
    let mut person = Person::new();
    example::describe(&mut person, &example::FLIGHT_PACK);
    example::change(&mut person, PACK, "Resistance when new", "20");
    person.go_to("Service", "Pack resistance over its life");
    assert!(person.row("No pack reading described yet: add it under Aircraft").is_some(), "{}", person.words());
    let readings: [(&'static str, &'static [(&str, &str)]); 4] = [
        ("One", &[("Flights on it so far", "0"), ("Resistance", "20")]),
        ("Two", &[("Flights on it so far", "10"), ("Resistance", "21.05")]),
        ("Three", &[("Flights on it so far", "20"), ("Resistance", "21.95")]),
        ("Four", &[("Flights on it so far", "30"), ("Resistance", "23")]),
    ];
    for (name, numbers) in readings {
        example::describe(&mut person, &thing("pack reading", name, Some(PACK), numbers));
    }
    person.go_to("Service", "Pack resistance over its life");
    assert_eq!(figure(&person, PACK), 115.0);
    assert!(person.verdict().contains("doubled after 20"), "{}", person.verdict());
    let worn = &[("Flights on it so far", "210"), ("Resistance", "41")];
    example::describe(&mut person, &thing("pack reading", "Worn", Some(PACK), worn));
    person.go_to("Service", "Pack resistance over its life");
    assert_eq!(person.row(PACK).expect("the pack").0, Edge::Stop);
    assert!(person.control("Record this result").is_some(), "a stop is recorded, not kept");
}

// Pilot's Handbook of Aeronautical Knowledge (FAA-H-8083-25), weight shift: 100 of 8000 moved by 120 shifts the balance by 1.5; so by 10
// it shifts 0.125.
#[test]
fn moving_a_pack_is_shown_before_lead() {
    let mut person = Person::new();
    example::SCALES.iter().for_each(|thing| example::describe(&mut person, thing));
    for (title, value) in [
        ("Balance: most forward, ahead of the main shaft", "10"),
        ("Balance: most aft (behind the shaft is minus)", "5"),
        ("Balance: most to either side", "6"),
    ] {
        example::enter_figure(&mut person, title, value);
    }
    // 2100 at 250 and 6900 at -80 and 200 at 220 of crew, 9200 in all: -0.2 mm behind the shaft.
    let pack = &[("Cells in series", "12"), ("Capacity", "10000"), ("Mass", "2300")];
    example::describe(&mut person, &thing("pack", "Heavy pack", None, pack));
    person.go_to("Weight and balance", "Centre of gravity within limits");
    let (_, word, detail) = person.row("Heavy pack moved").expect("what moving it does");
    let detail = detail.expect("the effect");
    assert!(detail.starts_with("each 10 mm forward moves the balance point 2.5 mm"), "{detail}");
    let by_mm: f64 = word.trim_end_matches(" mm forward").parse().expect("how far forward");
    let now_mm = figure(&person, "Ahead of the main shaft");
    // A quarter of the mass moves: four times as far as the balance point must go, and that lies inside the band by what is not known.
    assert!(by_mm >= 4.0 * (5.0 - now_mm) && by_mm <= 4.0 * (7.6 - now_mm), "{by_mm} from {now_mm}");
}

#[test]
fn the_charge_left_sets_the_timer() {
    use liftgate_tests::example::Kind;
    use liftgate_tests::walk::Walk;
    let mut walk = Walk::at_flight(Kind::Frame, "Hover at service speed");
    walk.person.tap("Draw up the card");
    walk.fly();
    walk.answer_marks();
    for place in liftgate_tests::walk::places_wanted(&walk.person.screen()) {
        walk.person.enter(&place, example::temperature(&place));
    }
    walk.person.enter("Charge used", "4000");
    walk.person.tap("As it should be");
    walk.person.go_to("Hover ladder", "Charge left after the service hover");
    // The pack that was read when it was bought tells nothing of this flight.
    let asked = "Let Pack 1 rest, then add a pack reading of it: lowest and highest cell after this flight";
    assert!(walk.person.row(asked).is_some(), "{}", walk.person.words());
    assert!(walk.person.control("Keep this result").is_none());
    example::read_packs_at_rest(&mut walk.person, walk.kind, 12);
    walk.person.go_to("Hover ladder", "Charge left after the service hover");
    // 4 of 10 Ah in the time flown: 60 % left; 8 Ah keep 20 %, so twice the time.
    assert_eq!(figure(&walk.person, "Charge left"), 60.0);
    let flown_min = walk.person.entries().iter().rev().find_map(|entry| match entry.body {
        liftgate_core::record::Body::TouchedDown { elapsed_ms, .. } => Some(elapsed_ms as f64 / 60_000.0),
        _ => None,
    });
    let flown_min = flown_min.expect("a touchdown");
    let timer = figure(&walk.person, "Flight that keeps the reserve");
    assert!((timer - 2.0 * flown_min).abs() <= 0.051, "{timer} of {flown_min}");
    assert!(drawing(&walk.person).contains("4000 of 8000 mAh"));
}

// Closed form of a tilted weighing: the balance point moves back by its height times the tangent of the angle. 180 mm at 10 degrees are
// 31.74 mm, so the front scale reads 2100 g level and 1234.4 g with the nose raised.
#[test]
fn the_height_follows_from_a_second_weighing_with_the_nose_raised() {
    let mut person = Person::new();
    let scales: [(&'static str, &'static [(&str, &str)]); 3] = [
        (
            "Nose wheel",
            &[
                ("Scale reading", "2100"),
                ("The same with the nose raised", "1234.4"),
                ("Ahead of the main shaft", "250"),
                ("Right of the main shaft", "0"),
            ],
        ),
        (
            "Left wheel",
            &[
                ("Scale reading", "3450"),
                ("The same with the nose raised", "3882.8"),
                ("Ahead of the main shaft", "-80"),
                ("Right of the main shaft", "-200"),
            ],
        ),
        (
            "Right wheel",
            &[
                ("Scale reading", "3450"),
                ("The same with the nose raised", "3882.8"),
                ("Ahead of the main shaft", "-80"),
                ("Right of the main shaft", "200"),
            ],
        ),
    ];
    for (name, numbers) in scales {
        example::describe(&mut person, &thing("scale reading", name, None, numbers));
    }
    for (title, value) in [
        ("Balance: most forward, ahead of the main shaft", "10"),
        ("Balance: most aft (behind the shaft is minus)", "-10"),
        ("Balance: most to either side", "6"),
    ] {
        example::enter_figure(&mut person, title, value);
    }
    let here = ("Weight and balance", "Centre of gravity within limits");
    person.go_to(here.0, here.1);
    assert!(person.figure("Above the feet of the scales").is_none(), "no height without the angle");
    example::enter_figure(&mut person, "Nose raised by, in a second weighing", "10");
    person.go_to(here.0, here.1);
    let (height, note) = person.figure("Above the feet of the scales").expect("the height");
    assert_eq!(height, "180");
    let rough = note.expect("how well it is known");
    // Better scales make it known better, and the remark says whose accuracy it is.
    example::enter_figure(&mut person, "Scales right within plus or minus", "1");
    example::enter_figure(&mut person, "Distances right within plus or minus", "0.5");
    person.go_to(here.0, here.1);
    assert_ne!(person.figure("Above the feet of the scales").expect("the height").1, Some(rough));
    assert!(person.words().contains("Scale taken as right within 1 g, ruler within 0.5 mm (as you entered)"));
}

// Every hover of the story left the controller at 58 degrees: whatever the model, the next one should not surprise.
#[test]
fn the_heat_of_the_next_hover_is_expected_from_those_flown() {
    use liftgate_tests::example::Kind;
    use liftgate_tests::walk::Walk;
    let mut walk = Walk::at_flight(Kind::Scale, "Flight in service");
    walk.person.go_to("Data review", "Hovers against their predictions");
    let (value, note) = walk.person.figure("Controller expected").expect("the controller's temperature");
    let celsius: f64 = value.parse().expect("a number");
    assert!((50.0..66.0).contains(&celsius), "{celsius}");
    let note = note.expect("its interval");
    assert!(note.contains("95 %") && note.contains("stop 90"), "{note}");
    assert!(
        walk.person.figure("Regulator expected").is_none(),
        "a place that was not read is not expected to be anything"
    );
}
