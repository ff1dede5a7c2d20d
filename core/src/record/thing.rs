use serde::{Deserialize, Serialize};

use super::Unit;

/// The kinds of things that belong to an aircraft besides its figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ThingKind {
    /// A source of voltage for receiver, servos and accessories.
    Supply,
    /// Whatever draws from a supply.
    Consumer,
    /// A flight pack.
    Pack,
    /// One support's scale reading.
    Weighing,
    /// A part that is not fitted yet and will be.
    ToCome,
    /// A place where ballast may sit.
    BallastPlace,
}

/// Names one thing: its kind and its name.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct ThingRef {
    /// What kind of thing.
    pub kind: ThingKind,
    /// Its name, unique within its kind.
    pub name: String,
}

/// A thing with its numbers, in the order and units of [`ThingKind::fields`].
///
/// Kept as named numbers rather than as a type for each kind: a form, a stored form and a journal of years stay
/// readable when a field is added, and [`Thing::number`] names the field that is missing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Thing {
    /// What kind of thing.
    pub kind: ThingKind,
    /// Its name, unique within its kind.
    pub name: String,
    /// Another thing that it hangs on: a consumer's supply.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// Field id to value.
    pub numbers: std::collections::BTreeMap<String, f64>,
}

impl Thing {
    /// Its reference.
    pub fn reference(&self) -> ThingRef {
        ThingRef { kind: self.kind, name: self.name.clone() }
    }

    /// A field's number, `None` where it was not entered.
    pub fn number(&self, field: &str) -> Option<f64> {
        self.numbers.get(field).copied()
    }
}

/// One number of a thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThingField {
    /// Its id in [`Thing::numbers`].
    pub id: &'static str,
    /// What it is, for a person.
    pub label: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// The plausible range, inclusive.
    pub range: (f64, f64),
    /// Whether the thing is of no use without it.
    pub required: bool,
}

const fn field(id: &'static str, label: &'static str, unit: Unit, low: f64, high: f64, required: bool) -> ThingField {
    ThingField { id, label, unit, range: (low, high), required }
}

const SUPPLY: &[ThingField] = &[
    field("full_v", "Voltage when full", Unit::Volt, 3.0, 60.0, true),
    field("nominal_v", "Voltage, nominal", Unit::Volt, 3.0, 60.0, true),
    field("empty_v", "Voltage when empty", Unit::Volt, 2.0, 60.0, true),
    field("continuous_a", "Continuous rating", Unit::Ampere, 0.1, 300.0, true),
    field("burst_a", "Burst rating", Unit::Ampere, 0.1, 500.0, true),
    field("stirring_peak_a", "Peak, all servos stirred unloaded", Unit::Ampere, 0.0, 300.0, false),
];
const CONSUMER: &[ThingField] = &[
    field("low_v", "Lowest voltage rated", Unit::Volt, 0.5, 60.0, true),
    field("high_v", "Highest voltage rated", Unit::Volt, 0.5, 60.0, true),
    field("steady_a", "Steady current, each", Unit::Ampere, 0.0, 100.0, true),
    field("quantity", "How many", Unit::Count, 1.0, 20.0, true),
];
const PACK: &[ThingField] = &[
    field("cells", "Cells in series", Unit::Count, 1.0, 16.0, true),
    field("capacity_mah", "Capacity", Unit::MilliampereHour, 100.0, 30_000.0, true),
    field("mass_g", "Mass", Unit::Gram, 10.0, 5_000.0, false),
];
const PLACE_X: ThingField = field("x_mm", "Ahead of the main shaft", Unit::Millimetre, -2_500.0, 2_500.0, true);
const PLACE_Y: ThingField = field("y_mm", "Right of the main shaft", Unit::Millimetre, -1_000.0, 1_000.0, true);
const WEIGHING: &[ThingField] =
    &[field("mass_g", "Scale reading", Unit::Gram, 1.0, 20_000.0, true), PLACE_X, PLACE_Y];
const TO_COME: &[ThingField] = &[field("mass_g", "Mass", Unit::Gram, 1.0, 5_000.0, true), PLACE_X, PLACE_Y];
const BALLAST_PLACE: &[ThingField] = &[
    PLACE_X,
    PLACE_Y,
    field("limit_g", "Most it may carry", Unit::Gram, 1.0, 3_000.0, true),
    field("fitted_g", "Fitted there since the weighing", Unit::Gram, 0.0, 3_000.0, false),
];

impl ThingKind {
    /// All kinds in the order that they are shown.
    pub const ALL: [ThingKind; 6] = [
        ThingKind::Supply,
        ThingKind::Consumer,
        ThingKind::Pack,
        ThingKind::Weighing,
        ThingKind::ToCome,
        ThingKind::BallastPlace,
    ];

    /// The numbers that describe a thing of this kind.
    pub fn fields(self) -> &'static [ThingField] {
        match self {
            ThingKind::Supply => SUPPLY,
            ThingKind::Consumer => CONSUMER,
            ThingKind::Pack => PACK,
            ThingKind::Weighing => WEIGHING,
            ThingKind::ToCome => TO_COME,
            ThingKind::BallastPlace => BALLAST_PLACE,
        }
    }

    /// The words for one of them.
    pub fn word(self) -> &'static str {
        match self {
            ThingKind::Supply => "Supply",
            ThingKind::Consumer => "Consumer",
            ThingKind::Pack => "Pack",
            ThingKind::Weighing => "Scale reading",
            ThingKind::ToCome => "Part to come",
            ThingKind::BallastPlace => "Ballast place",
        }
    }

    /// The words for several of them.
    pub fn words(self) -> &'static str {
        match self {
            ThingKind::Supply => "Supplies",
            ThingKind::Consumer => "Consumers",
            ThingKind::Pack => "Packs",
            ThingKind::Weighing => "Scale readings",
            ThingKind::ToCome => "Parts to come",
            ThingKind::BallastPlace => "Ballast places",
        }
    }

    /// What evidence rests on when it rests on things of this kind.
    pub fn subject(self) -> &'static str {
        match self {
            ThingKind::Supply | ThingKind::Consumer => "supplies",
            ThingKind::Pack => "packs",
            ThingKind::Weighing | ThingKind::ToCome | ThingKind::BallastPlace => "mass",
        }
    }
}
