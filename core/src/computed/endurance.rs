use super::hover::LOADED_CELL_V;
use super::ladder::predicted_charge;
use super::{Facts, Result};
use crate::engineering::pack::flight_time;
use crate::field::{holds_mah, reserve_percent};
use crate::locale::say;
use crate::plan::{Check, Fly};

/// A card's planned time goes by half minutes.
const STEP_MIN: f64 = 0.5;

/// How long a pack flies until its reserve.
#[derive(Debug, Clone, PartialEq)]
pub struct Endurance {
    /// Minutes with the motor on.
    pub minutes: f64,
    /// What is left then, percent of the capacity.
    pub reserve_percent: f64,
    /// Current that this is reckoned with, A.
    pub current_a: f64,
    /// Where the current comes from, in words.
    pub from: String,
}

/// How long a flight of this check can be on a pack: its charge less the reserve, at the current that is most to be expected.
///
/// For a hover the upper end of its prediction; for other flights what the last flight of the same check took, or the last hover.
/// None while there is neither.
pub fn endurance(facts: Facts<'_>, check: &Check, pack: Option<&str>, air_c: f64) -> Option<Endurance> {
    let (current_a, from) = current(facts, check, air_c)?;
    reckoned(facts, pack, current_a, from).ok()
}

/// Minutes that a card begins with: what the plan asks for, and no more than the pack's reserve allows.
pub fn planned_minutes(fly: &Fly, endurance: Option<&Endurance>) -> f64 {
    let allowed = endurance.map_or(f64::INFINITY, |endurance| endurance.minutes);
    let whole = (allowed / STEP_MIN).floor() * STEP_MIN;
    fly.minutes.min(whole.max(STEP_MIN))
}

fn reckoned(facts: Facts<'_>, pack: Option<&str>, current_a: f64, from: String) -> Result<Endurance> {
    let capacity_mah = match pack.and_then(|pack| holds_mah(&facts.ledger.aircraft, pack)) {
        Some(capacity_mah) => capacity_mah,
        None => facts.figure("pack-capacity")?,
    };
    let reserve_percent = reserve_percent(&facts.ledger.aircraft);
    let nominal_v = facts.figure("pack-cells")? * LOADED_CELL_V;
    let minutes = flight_time(capacity_mah, nominal_v, reserve_percent, current_a * nominal_v)?;
    Ok(Endurance { minutes, reserve_percent, current_a, from })
}

fn current(facts: Facts<'_>, check: &Check, air_c: f64) -> Option<(f64, String)> {
    let fly = check.fly()?;
    let rpm = facts.ledger.aircraft.limit(&fly.head_speed_rpm)?;
    // In an hour it takes in milliampere hours what it draws in milliamperes.
    if let Some(hour) = predicted_charge(facts, fly.motion, rpm, 3_600, air_c) {
        return Some((hour.high_mah / 1_000.0, say!(facts.locale, "computed-endurance-predicted")));
    }
    let flown = |id: &str| {
        let flights = facts.ledger.flights.iter().rev().filter(|flight| flight.check == id);
        flights.filter(|flight| !flight.is_called_off(facts.plan)).find_map(|flight| flight.mean_current_ma())
    };
    if let Some(ma) = flown(&check.id) {
        return Some((ma / 1_000.0, say!(facts.locale, "computed-endurance-same")));
    }
    let hover = facts.hovers().next_back()?.mean_current_ma()?;
    Some((hover / 1_000.0, say!(facts.locale, "computed-endurance-hover")))
}
