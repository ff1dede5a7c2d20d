//! How long the packs on a card fly until their reserve, and from which figures that comes.

use super::charge::predicted_charge;
use super::conditions::Conditions;
use super::packs::{last_resistance_mohm, pack_readings};
use super::{Facts, Result};
use crate::engineering::pack::{LOADED_LOW_V, charge_to_keep, cold, worn};
use crate::field::{Capacity, least_lifting_a, reserve_percent};
use crate::locale::say;
use crate::plan::{Check, Fly, Motion};
use crate::readiness::Spent;
use crate::record::{EntryId, ThingKind, ThingNumber};
use crate::unit::Unit;

/// A card's planned time goes by half minutes.
const STEP_MIN: f64 = 0.5;

/// How long the packs on a card fly until their reserve.
#[derive(Debug, Clone, PartialEq)]
pub struct Endurance {
    /// Minutes with the motor on, from what is in them now.
    pub minutes: f64,
    /// Minutes that they fly when they are full.
    pub full_minutes: f64,
    /// What is left then, percent of the capacity.
    pub reserve_percent: f64,
    /// Current that this is reckoned with, A.
    pub current_a: f64,
    /// Where the current comes from, in words.
    pub from: String,
    /// What may be used over the reserve now, milliampere hours.
    pub usable_mah: f64,
    /// Where that comes from, in words.
    pub charge_from: String,
    /// The flight whose charge the current comes from, where that is less than lifting the aircraft takes: its card.
    pub misread: Option<EntryId>,
}

/// How long a flight of this check can be on these packs in series: the charge of the weakest less the reserve, at the current that is
/// most to be expected.
///
/// For a hover the upper end of its prediction; for other flights what the last flight of the same check took, or the last hover.
/// None while there is neither.
pub fn endurance(facts: Facts<'_>, check: &Check, packs: &[String], air_c: f64) -> Option<Endurance> {
    let drawn = current(facts, check, air_c)?;
    let reckoned = Reckoned { facts, current_a: drawn.current_a, air_c, misread: drawn.misread };
    let from = drawn.from;
    let each = packs.iter().map(|pack| reckoned.pack(pack)).collect::<Result<Vec<Usable>>>().ok()?;
    let least = |value: fn(&Usable) -> f64| each.iter().min_by(|a, b| value(a).total_cmp(&value(b)));
    let (Some(now), Some(full)) = (least(|usable| usable.now_mah), least(|usable| usable.full_mah)) else {
        let none = reckoned.by_figure().ok()?;
        return Some(reckoned.endurance(&none, none.full_mah, from, none.from.clone()));
    };
    let charge_from = match packs.len() {
        1 => now.from.clone(),
        _ => say!(facts.locale, "computed-endurance-weakest", pack = now.pack, from = now.from),
    };
    Some(reckoned.endurance(now, full.full_mah, from, charge_from))
}

/// Minutes that a card begins with: what the plan asks for, and no more than the pack's reserve allows.
pub fn planned_minutes(fly: &Fly, endurance: Option<&Endurance>) -> f64 {
    let allowed = endurance.map_or(f64::INFINITY, |endurance| endurance.minutes);
    let whole = (allowed / STEP_MIN).floor() * STEP_MIN;
    fly.minutes.min(whole.max(STEP_MIN))
}

/// What may be used of one pack over its reserve.
struct Usable {
    pack: String,
    /// Of what is in it now, milliampere hours.
    now_mah: f64,
    /// When it is full, milliampere hours.
    full_mah: f64,
    /// What is kept back, percent.
    kept_percent: f64,
    /// In words.
    from: String,
}

/// At which current and in which air it is reckoned.
struct Reckoned<'a> {
    facts: Facts<'a>,
    current_a: f64,
    air_c: f64,
    misread: Option<EntryId>,
}

impl Reckoned<'_> {
    fn endurance(&self, now: &Usable, full_mah: f64, from: String, charge_from: String) -> Endurance {
        let minutes = |usable_mah: f64| usable_mah / 1_000.0 / self.current_a * 60.0;
        Endurance {
            minutes: minutes(now.now_mah),
            full_minutes: minutes(full_mah),
            reserve_percent: now.kept_percent,
            current_a: self.current_a,
            from,
            usable_mah: now.now_mah,
            charge_from,
            misread: self.misread,
        }
    }

    /// Before a pack is chosen: by the figure of what a pack holds.
    fn by_figure(&self) -> Result<Usable> {
        let locale = self.facts.locale;
        let mah = self.facts.figure("pack-capacity")?;
        let kept_percent = reserve_percent(&self.facts.ledger.aircraft);
        let usable_mah = mah * (1.0 - kept_percent / 100.0);
        let from = say!(locale, "computed-endurance-figure", mah = locale.rounded(mah, 0, Unit::MilliampereHour));
        Ok(Usable { pack: String::new(), now_mah: usable_mah, full_mah: usable_mah, kept_percent, from })
    }

    fn pack(&self, name: &str) -> Result<Usable> {
        let Some(capacity) = Capacity::of(&self.facts.ledger.aircraft, name) else { return self.by_figure() };
        let stand = self.facts.ledger.pack(name);
        let mut words = vec![self.capacity_words(&capacity)];
        let (worn, worn_words) = self.worn(name, &capacity, f64::from(stand.runs))?;
        words.extend(worn_words);
        let (cold, cold_words) = self.cold()?;
        words.extend(cold_words);
        let holds_mah = capacity.mah * worn * cold;
        let (kept_percent, kept_words) = self.kept(name);
        words.extend(kept_words);
        words.extend(self.spent_words(&stand.spent));
        let kept_mah = holds_mah * kept_percent / 100.0;
        let left_mah = stand.spent.left_mah(holds_mah, self.current_a);
        Ok(Usable {
            pack: name.to_owned(),
            now_mah: (left_mah - kept_mah).max(0.0),
            full_mah: (holds_mah - kept_mah).max(0.0),
            kept_percent,
            from: words.join(", "),
        })
    }

    fn capacity_words(&self, capacity: &Capacity) -> String {
        let locale = self.facts.locale;
        let label = locale.rounded(capacity.label_mah, 0, Unit::MilliampereHour);
        match capacity.measured_at {
            Some(_) => {
                let mah = locale.bare(capacity.mah, 0, Unit::MilliampereHour);
                say!(locale, "computed-endurance-measured", mah = mah, label = label)
            }
            None => say!(locale, "computed-endurance-label", label = label),
        }
    }

    /// What its cycles took since it was measured, or since it was new: those on this aircraft, or more where a reading says so.
    fn worn(&self, name: &str, capacity: &Capacity, runs: f64) -> Result<(f64, Option<String>)> {
        let readings = pack_readings(self.facts, name);
        let told = readings.iter().filter_map(|reading| reading.number(ThingNumber::Flights)).fold(0.0, f64::max);
        let cycles = (told.max(runs) - capacity.measured_at.unwrap_or(0.0)).clamp(0.0, 5_000.0);
        let worn = worn(cycles)?;
        let locale = self.facts.locale;
        let percent = locale.number((1.0 - worn) * 100.0, 1);
        let words = || say!(locale, "computed-endurance-worn", percent = percent, count = cycles as usize);
        Ok((worn, (cycles >= 1.0).then(words)))
    }

    /// What the cold takes: a pack is as warm as the air, until it works.
    fn cold(&self) -> Result<(f64, Option<String>)> {
        let share = cold(self.air_c.clamp(-40.0, 80.0))?.capacity_factor;
        let locale = self.facts.locale;
        let percent = locale.number((1.0 - share) * 100.0, 0);
        let air = locale.quantity(self.air_c, Unit::Celsius);
        let words = || say!(locale, "computed-endurance-cold", percent = percent, air = air);
        Ok((share, (share < 1.0).then(words)))
    }

    /// What is kept back: the reserve, or more where a cell would fall too low under this current before.
    fn kept(&self, name: &str) -> (f64, Option<String>) {
        let locale = self.facts.locale;
        let reserve = reserve_percent(&self.facts.ledger.aircraft);
        let Some(cell_ohm) = self.cell_ohm(name) else {
            return (reserve, Some(say!(locale, "computed-endurance-no-resistance")));
        };
        let full_v = self.facts.ledger.aircraft.full_v(name);
        let to_keep = charge_to_keep(self.current_a.min(1_000.0), cell_ohm, full_v).unwrap_or(0.0);
        let words = say!(
            locale,
            "computed-endurance-cell",
            percent = locale.number(to_keep, 0),
            volts = locale.number(LOADED_LOW_V, 1)
        );
        (reserve.max(to_keep), (to_keep > reserve).then_some(words))
    }

    /// Resistance of one cell, ohm: as it was read last of this pack.
    fn cell_ohm(&self, name: &str) -> Option<f64> {
        let pack = self.facts.ledger.aircraft.thing(ThingKind::Pack, name)?;
        let cells = pack.number(ThingNumber::Cells).filter(|cells| *cells >= 1.0)?;
        let mohm = last_resistance_mohm(self.facts, pack).or_else(|| pack.number(ThingNumber::NewMohm))?;
        Some((mohm / 1_000.0 / cells).clamp(0.0, 1.0))
    }

    fn spent_words(&self, spent: &Spent) -> Vec<String> {
        let locale = self.facts.locale;
        let mut words = Vec::new();
        if !spent.is_known {
            words.push(say!(locale, "computed-endurance-as-if-full"));
        } else if spent.began_percent < 100.0 {
            let percent = locale.number(spent.began_percent, 0);
            words.push(say!(locale, "computed-endurance-began", percent = percent));
        }
        if spent.used_mah > 0.0 {
            let used = locale.rounded(spent.used_mah, 0, Unit::MilliampereHour);
            words.push(say!(locale, "computed-endurance-used", used = used));
        }
        if spent.unread_ms > 0 {
            let minutes = locale.number(spent.unread_ms as f64 / 60_000.0, 1);
            words.push(say!(locale, "computed-endurance-unread", minutes = minutes));
        }
        words
    }
}

/// The current that a flight is reckoned with.
struct Drawn {
    current_a: f64,
    from: String,
    /// The flight that it comes from, where it cannot be.
    misread: Option<EntryId>,
}

fn current(facts: Facts<'_>, check: &Check, air_c: f64) -> Option<Drawn> {
    let fly = check.fly()?;
    let rpm = facts.ledger.aircraft.limit(&fly.head_speed_rpm)?;
    // In an hour it takes in milliampere hours what it draws in milliamperes. Wind takes less, and may drop.
    let asked = Conditions { head_rpm: rpm, air_c, run_s: Some(3_600.0), wind: None }.in_still_air();
    let hovers = fly.motion == Motion::Hover;
    if let Some(hour) = hovers.then(|| predicted_charge(facts, check, asked)).flatten() {
        let from = say!(facts.locale, "computed-endurance-predicted");
        return Some(Drawn { current_a: known_a(hour.high_mah)?, from, misread: None });
    }
    let mut flown = facts.ledger.flights.iter().rev().filter(|flight| flight.check == check.id);
    let same = flown.find(|flight| !flight.is_called_off(facts.plan) && flight.mean_current_ma().is_some());
    let (flight, from) = match same {
        Some(flight) => (flight, say!(facts.locale, "computed-endurance-same")),
        None => (facts.hovers().next_back()?, say!(facts.locale, "computed-endurance-hover")),
    };
    let current_a = known_a(flight.mean_current_ma()?)?;
    let motion = if same.is_some() { fly.motion } else { Motion::Hover };
    let least_a = least_lifting_a(&facts.ledger.aircraft, motion, flight.air_c);
    let misread = least_a.filter(|least_a| current_a < *least_a).map(|_| flight.card);
    Some(Drawn { current_a, from, misread })
}

/// A current that something can be divided by, A.
fn known_a(current_ma: f64) -> Option<f64> {
    (current_ma >= 1.0).then_some(current_ma / 1_000.0)
}
