//! Computed checks: what the aircraft's own figures and things give when the engineering functions read them.
//!
//! Each computation is one file that gathers its inputs, calls `engineering`, and hands back a [`Computed`]: a sentence,
//! the numbers with their margins, a line drawing where a person would rather look, and what the answer is good for. A
//! screen and the dossier show that without knowing which computation it was.

mod answer;
mod balance;
mod blades;
mod charge;
mod compared;
mod computation;
mod conditions;
mod cooling;
mod derived;
mod drive_load;
mod endurance;
mod expected;
mod facts;
mod frequencies;
mod governor;
mod head_speeds;
mod heat;
mod hotter;
mod hover;
mod ladder;
mod landing;
mod landing_heat;
mod on_ground;
mod packs;
mod proposal;
mod receiver;
mod refused;
mod regulator;
mod ripple;
mod supply;
mod trend;
mod trends;
mod trial_weight;
mod wires;

pub use answer::{Computed, Figure, Lacking, Row};
use answer::{Result, outcome, worst, worst_first};
pub use charge::predicted_charge;
pub use compared::{Compared, ComparedReading, NextHover, What, compared};
pub use conditions::{Conditions, is_too_windy};
pub use derived::derived;
pub use endurance::{Endurance, endurance, planned_minutes};
pub use expected::{ExpectedInFlight, expected_hover};
pub use facts::Facts;
pub use hotter::{AskedDay, Hotter, hotter, hottest_lately};
pub use landing_heat::predicted_temperature;
pub use proposal::{Proposal, proposal};
pub use trends::{FEWEST as FEWEST_FOR_DRIFT, Trend, TrendOf, TrendReading, trends};
