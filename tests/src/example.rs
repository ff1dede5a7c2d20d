//! An invented aircraft for the stories: what its builder answers, enters, reads and describes.
//!
//! The numbers are made up so that every check can pass; they prove the way through the plan, not the trade.

use crate::Person;

/// Its name.
pub const NAME: &str = "Regenpfeifer";
/// Its builder.
pub const BUILDER: &str = "Jorun Aas";
/// Who holds the phone.
pub const SPOTTER: &str = "Tilda Moor";
/// Its pack.
pub const PACK: &str = "Pack 1";
/// The frame flies on two in series: the other one.
const SECOND_PACK: &str = "Pack 2";

/// One of the two aircraft between which every question of the shipped plan gets both its answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A scale model: shrouded tail on a belt, inside a body, stabilised, lights, retracts, receiver pack.
    Scale,
    /// A bare frame: open tail on a shaft, tail gyro only, receiver fed by a regulator.
    Frame,
}

/// What it says to a question: whole text, and the label of its answer.
pub fn answer(kind: Kind, question: &str) -> &'static str {
    let (scale, frame) = match question {
        "How is the tail rotor carried?" => ("In a shroud, as a fan", "In the open"),
        "What drives the tail rotor?" => ("A belt", "A shaft"),
        "Are the mechanics open or inside a body?" => ("Inside a body", "Open frame"),
        "Does an electronic stabiliser act on the main rotor?" => ("Yes", "No, on the tail only"),
        "What feeds the receiver and the servos?" => ("A pack of its own", "A regulator on the main pack"),
        "Does it carry lights or a sound board?" => ("Yes", "No"),
        "Does the landing gear retract?" => ("Yes", "No"),
        other => panic!("the story has no answer to '{other}'"),
    };
    match kind {
        Kind::Scale => scale,
        Kind::Frame => frame,
    }
}

/// A figure of the aircraft by its title.
pub fn figure(kind: Kind, title: &str) -> &'static str {
    match title {
        "Packs in series that make the main pack" if kind == Kind::Frame => "2",
        "Packs in series that make the main pack" => "1",
        "Main rotor diameter" => "1.8",
        "Design flying mass, packs in" => "9.4",
        "Highest mass allowed, by maker or permission" => "12",
        "Number of main blades" => "3",
        "Main blade chord" => "62",
        "Highest head speed allowed by the blade maker" => "1900",
        "Tail rotor or fan diameter" => "290",
        "Motor turns for one main rotor turn" => "9.4",
        "Tail rotor turns for one main rotor turn" => "4.6",
        "Motor constant, no load" => "330",
        "Main pack cells in series, all packs together" => "12",
        "Main pack capacity" => "10000",
        "Controller's continuous current rating" => "160",
        "Motor's continuous current rating" => "150",
        "Main pack's continuous current rating" => "250",
        "Highest current planned for hard flying" => "90",
        "Highest ripple allowed on the main pack" => "2.4",
        "Height of the field above the sea" => "120",
        "Main shaft to tail shaft" => "1.05",
        "Number of tail rotor or fan blades" => "7",
        "Teeth of the motor pinion" => "15",
        "Teeth of the main gear" => "141",
        "Pole pairs of the motor" => "5",
        "Resistance of motor, controller and leads" => "20",
        "Resistance of the main pack, all cells" => "20",
        "Radio on between two charges of its pack" => "18",
        "Main shaft to blade bolt" => "95",
        "Head speed of the lowest hover" => "1000",
        "Head speed of the second hover" => "1080",
        "Head speed of the third hover" => "1160",
        "Head speed for everyday flying" => "1240",
        "Balance: most forward, ahead of the main shaft" => "10",
        "Balance: most aft (behind the shaft is minus)" => "-10",
        "Balance: most to either side" => "6",
        "Charge to have left at landing" => "20",
        "Air on the hottest day you would fly" => "34",
        "Range check distance from the radio's papers" => "30",
        "Spool-up: main shaft to the nearest person" => "20",
        "Flight line: pilot and crew to the flight path" => "20",
        "Public: flight path to all who are not with you" => "50",
        "Receiver pack capacity" => "4000",
        "Smallest fan tip gap allowed by the maker" => "1",
        "Belt deflection from the maker's papers" => "6",
        other => panic!("the story has no figure for '{other}'"),
    }
}

/// What is read for a measured check, by its title.
pub fn reading(check: &str) -> &'static str {
    match check {
        "Planned mass under the limit" => "9.4",
        "Pack polarity and lowest cell" => "3.85",
        "Packs of the string alike" => "0.01",
        "First power through a current limit" => "0.4",
        "Failsafe stops the motor" => "0.6",
        "Range check at reduced power" => "42",
        "Lowest receiver voltage under stirring" => "7.0",
        "Controls live on without the main pack" => "5.6",
        "Regulator heat after ten minutes" => "48",
        "Pitch at full collective" => "10.5",
        "Swashplate level at mid stick" => "0.2",
        "Drive turns freely, ten turns each way" => "0",
        "Main blade to boom and body" => "64",
        "Tail blade to boom, fin and ground" => "24",
        "Fan tip gap all round" => "1.4",
        "Play at grips and links" => "0.1",
        "Play between pinion and main gear" => "0.15",
        "Belt deflection at build" => "6",
        "Tail shaft run-out at build" => "0.08",
        "Packs cannot move" => "0.5",
        "Wires clear of all that turns" => "18",
        "Gaps inside the body, measured again" => "12",
        "Weighed, ready to fly" => "9.2",
        "Hangs level, nose to tail" => "1",
        "Hangs level, side to side" => "0.5",
        "Ballast cannot come loose" => "0",
        "Soft start takes its time" => "14",
        "Governed speed against a second measure" => "0.8",
        "Tail gearbox after two minutes" => "34",
        "Vibration of the frame, no blades" => "2.1",
        "Blades in track" => "2",
        "Tail holds in the hover" => "5",
        "Peak current in the log" => "70",
        "Peak current in the hardest flight" => "88",
        "Hottest plug or power lead" => "38",
        "Governor has power in hand" => "70",
        "Site, barrier and distance" => "30",
        "Receiver voltage under load today" => "5.9",
        "Range check today" => "40",
        "Pack cells even, no swelling" => "0.01",
        "Pack warm enough, and not hot" => "24",
        "Hottest servo after a flight" => "36",
        "Belt deflection, teeth and dust" => "6",
        "Tail shaft run-out and couplings" => "0.08",
        "Play in head, dampers and links" => "0.1",
        "Feathering shaft straight, bearings greased" => "0.02",
        other => panic!("the story has no reading for '{other}'"),
    }
}

/// What the meter shows after a flight, degrees Celsius, by place.
pub fn temperature(place: &str) -> &'static str {
    match place {
        "Controller" => "58",
        "Motor case" => "61",
        "Main pack" => "38",
        "Tail servo" => "33",
        "Regulator" => "44",
        other => panic!("the story has no temperature for '{other}'"),
    }
}

/// A thing of the aircraft: the words of its kind, its name, what feeds it, and its numbers by label.
pub struct Thing {
    /// As it stands on the control that adds it.
    pub kind: &'static str,
    /// Its name.
    pub name: &'static str,
    /// What it hangs on: the supply that feeds a consumer, the pack of a pack reading.
    pub fed_by: Option<&'static str>,
    /// Label and text of each number.
    pub numbers: &'static [(&'static str, &'static str)],
}

const fn thing(
    kind: &'static str,
    name: &'static str,
    fed_by: Option<&'static str>,
    numbers: &'static [(&'static str, &'static str)],
) -> Thing {
    Thing { kind, name, fed_by, numbers }
}

/// What feeds receiver and servos, with room to spare.
pub static SUPPLY: Thing = thing(
    "supply",
    "Servo supply",
    None,
    &[
        ("Voltage when full", "8.4"),
        ("Voltage, nominal", "7.4"),
        ("Voltage when empty", "6.6"),
        ("Continuous rating", "20"),
        ("Burst rating", "40"),
        ("Peak, all servos stirred unloaded", "6"),
    ],
);

/// What draws from it.
pub static CONSUMERS: [Thing; 3] = [
    thing(
        "consumer",
        "Swashplate servos",
        Some("Servo supply"),
        &[
            ("Lowest voltage rated", "6"),
            ("Highest voltage rated", "8.6"),
            ("Steady current, each", "0.2"),
            ("How many", "3"),
        ],
    ),
    thing(
        "consumer",
        "Tail servo",
        Some("Servo supply"),
        &[
            ("Lowest voltage rated", "6"),
            ("Highest voltage rated", "8.6"),
            ("Steady current, each", "0.2"),
            ("How many", "1"),
        ],
    ),
    thing(
        "consumer",
        "Receiver",
        Some("Servo supply"),
        &[
            ("Lowest voltage rated", "3.5"),
            ("Highest voltage rated", "10"),
            ("Steady current, each", "0.15"),
            ("How many", "1"),
        ],
    ),
];

/// Three scales, and the crew that is not fitted yet; balanced within its band.
pub static SCALES: [Thing; 4] = [
    thing(
        "scale reading",
        "Nose wheel",
        None,
        &[("Scale reading", "2100"), ("Ahead of the main shaft", "250"), ("Right of the main shaft", "0")],
    ),
    thing(
        "scale reading",
        "Left wheel",
        None,
        &[("Scale reading", "3450"), ("Ahead of the main shaft", "-80"), ("Right of the main shaft", "-200")],
    ),
    thing(
        "scale reading",
        "Right wheel",
        None,
        &[("Scale reading", "3450"), ("Ahead of the main shaft", "-80"), ("Right of the main shaft", "200")],
    ),
    thing(
        "part to come",
        "Crew",
        None,
        &[("Mass", "200"), ("Ahead of the main shaft", "220"), ("Right of the main shaft", "0")],
    ),
];

/// The flight pack.
pub static FLIGHT_PACK: Thing = thing(
    "pack",
    PACK,
    None,
    &[("Cells in series", "12"), ("Capacity", "10000"), ("Mass", "2600"), ("Resistance when new", "19")],
);

/// What was measured on it.
static FLIGHT_PACK_READING: Thing = thing(
    "pack reading",
    "Pack reading 1",
    Some(PACK),
    &[
        ("Flights on it so far", "2"),
        ("Resistance", "19.5"),
        ("Lowest cell at rest after the flight", "3.82"),
        ("Highest cell at rest after the flight", "3.84"),
    ],
);

/// The two packs in series that the frame flies on, and what was measured on them.
static HALF_PACKS: [Thing; 4] = [
    thing("pack", PACK, None, HALF_PACK),
    thing("pack", SECOND_PACK, None, HALF_PACK),
    thing("pack reading", "Pack reading 1", Some(PACK), HALF_PACK_READING),
    thing("pack reading", "Pack reading 2", Some(SECOND_PACK), HALF_PACK_READING),
];
const HALF_PACK: &[(&str, &str)] =
    &[("Cells in series", "6"), ("Capacity", "10000"), ("Mass", "1300"), ("Resistance when new", "9.5")];
const HALF_PACK_READING: &[(&str, &str)] = &[
    ("Flights on it so far", "2"),
    ("Resistance", "9.8"),
    ("Lowest cell at rest after the flight", "3.82"),
    ("Highest cell at rest after the flight", "3.84"),
];

/// What was measured on the leads in flight.
static READINGS: [Thing; 2] = [
    thing(
        "reading under load",
        "Reading under load 1",
        None,
        &[("Current", "35"), ("Voltage of the whole string", "44.9"), ("Ripple, peak to peak", "0.6")],
    ),
    thing(
        "reading under load",
        "Reading under load 2",
        None,
        &[("Current", "70"), ("Voltage of the whole string", "44.1"), ("Ripple, peak to peak", "1.1")],
    ),
];

/// Three main blades that match, and the one run of wire that carries more than a servo's current.
pub static BLADES_AND_WIRE: [Thing; 4] = [
    thing("main blade", "Main blade 1", None, &[("Mass", "402"), ("Balance point from the bolt hole", "410")]),
    thing("main blade", "Main blade 2", None, &[("Mass", "402"), ("Balance point from the bolt hole", "410")]),
    thing("main blade", "Main blade 3", None, &[("Mass", "402.1"), ("Balance point from the bolt hole", "410")]),
    thing(
        "wire run",
        "Receiver leads",
        None,
        &[
            ("Gauge, AWG", "14"),
            ("Length one way", "0.3"),
            ("Continuous current", "7"),
            ("Voltage of its source", "7.4"),
        ],
    ),
];

/// Whether two things of a kind are of one make: most of their numbers are the same.
pub fn are_alike(one: &Thing, other: &Thing) -> bool {
    let shared = one.numbers.iter().filter(|number| other.numbers.contains(number)).count();
    one.kind == other.kind && 2 * shared > other.numbers.len()
}

/// Describes a thing on the Aircraft screen and comes back to the board.
pub fn describe(person: &mut Person, thing: &Thing) {
    person.home();
    person.tap("Aircraft");
    person.tap(&format!("Add a {}", thing.kind));
    describe_here(person, thing);
    person.home();
}

/// Describes a thing on the page of a new one of its kind.
pub fn describe_here(person: &mut Person, thing: &Thing) {
    if person.typed("Name").0 != thing.name {
        person.enter("Name", thing.name);
    }
    if let Some(supply) = thing.fed_by.filter(|supply| person.control(supply).is_none_or(|known| !known.chosen)) {
        person.tap(supply);
    }
    for (label, text) in thing.numbers {
        // What stands there already, since it is on file, is not typed again.
        if person.typed(label).0 != *text {
            person.enter(label, text);
        }
    }
    // What was proved before it was described was proved with it.
    let record = person.control("It was there before").map_or("Record it", |_| "It was there before");
    person.tap(record);
}

/// Says on the card in view that a pack was charged, where the card wants to know: it was charged since it was flown, as it should be.
pub fn charge_on_card(person: &mut Person, pack: &str) {
    let charged = format!("{pack} was charged");
    if person.control(&charged).is_some() {
        person.tap(&charged);
    }
}

/// Reads a flight pack at rest, after the flight of that number.
fn read_pack_at_rest(person: &mut Person, pack: &str, flight: usize) {
    person.home();
    person.tap("Aircraft");
    person.tap("Add a pack reading");
    person.enter("Name", &format!("{pack} after flight {flight}"));
    if person.control(pack).is_some() {
        person.tap(pack);
    }
    person.enter("Flights on it so far", &flight.to_string());
    person.enter("Lowest cell at rest after the flight", "3.82");
    person.enter("Highest cell at rest after the flight", "3.84");
    person.tap("Record it");
    person.home();
}

/// Reads all packs of a set at rest, after the flight of that number.
pub fn read_packs_at_rest(person: &mut Person, kind: Kind, flight: usize) {
    for pack in packs(kind) {
        read_pack_at_rest(person, pack, flight);
    }
}

/// The packs that a card has.
pub fn packs(kind: Kind) -> &'static [&'static str] {
    match kind {
        Kind::Scale => &[PACK],
        Kind::Frame => &[PACK, SECOND_PACK],
    }
}

/// Changes one number of a thing that is known.
pub fn change(person: &mut Person, name: &str, label: &str, text: &str) {
    person.home();
    person.tap("Aircraft");
    person.tap(name);
    person.enter(label, text);
    person.tap("Record it");
    person.home();
}

/// Enters a figure that the plan does not insist on.
pub fn enter_figure(person: &mut Person, title: &str, text: &str) {
    person.home();
    person.tap("Aircraft");
    person.tap(title);
    person.enter(title, text);
    person.tap("Record it");
    person.home();
}

/// Names the aircraft and describes everything on it.
pub fn fit_out(person: &mut Person, kind: Kind) {
    name(person);
    things(kind).for_each(|thing| describe(person, thing));
}

/// Everything that is on it, and was read of it.
pub fn things(kind: Kind) -> impl Iterator<Item = &'static Thing> {
    let of_packs = match kind {
        Kind::Scale => vec![&FLIGHT_PACK, &FLIGHT_PACK_READING],
        Kind::Frame => HALF_PACKS.iter().collect(),
    };
    let first = [&SUPPLY].into_iter().chain(&CONSUMERS).chain(&SCALES);
    first.chain(of_packs).chain(&READINGS).chain(&BLADES_AND_WIRE)
}

/// Names the aircraft.
pub fn name(person: &mut Person) {
    person.home();
    person.tap("Aircraft");
    person.tap("This aircraft");
    person.enter("The aircraft's name", NAME);
    person.enter("Builder's name", BUILDER);
    person.tap("Record the names");
    person.home();
}

/// An invented hover of two minutes, a row each fifth of a second, with a burst to 90 A at 80 s and one garbled field.
pub fn hover_log() -> String {
    let mut text = "Zeit [ms];Spannung [V];Strom [A];Rotor [1/min];Regler [°C];Notiz\n".to_owned();
    for row in 0..750 {
        let t = f64::from(row) * 0.2;
        let a = match t {
            t if t < 15.0 => 8.0,
            t if (80.0..82.0).contains(&t) => 90.0,
            t if t < 135.0 => 52.0 + (t * 3.0).sin(),
            _ => 0.5,
        };
        let heat = 25.0 + if t > 15.0 { 40.0 * (1.0 - (-(t - 15.0) / 45.0).exp()) } else { 0.0 };
        let volts = if row == 300 { "kaputt".to_owned() } else { format!("{:.2}", 50.0 - 0.02 * a - t / 200.0) };
        let rotor = if t < 137.0 { 1_180.0 - (a - 52.0).max(0.0) * 0.5 } else { 0.0 };
        text += &format!("{};{volts};{a:.1};{rotor:.0};{heat:.1};x\n", row * 200).replace('.', ",");
    }
    text
}
